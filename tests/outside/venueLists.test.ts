/**
 * The venue sheet's lists read back from the PDF by another program, Mozilla's PDF reader (pdfjs-dist): every line of the input
 * list, the mixes and what the venue provides, as they were typed into the plan.
 */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { sheetFonts } from '../../src/cli/fonts.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import type { Input, Plan } from '../../src/plan/schema.ts';
import { toPdf } from '../../src/sheets/pdf.ts';
import { venueSheets } from '../../src/sheets/venueSheet.ts';
import { stagePlan } from '../fixtures/stagePlan.ts';

const INPUTS: Input[] = [
  {
    id: 'a',
    source: 'Große Trommel',
    by: 'microphone',
    device: 'Grenzfläche',
    stand: 'keines',
    phantom: true,
    note: 'im Kessel',
  },
  { id: 'b', source: 'Голос', by: 'microphone', device: 'динамический', stand: 'журавль', note: 'свой микрофон' },
  { id: 'c', source: 'Μπάσο', by: 'di', device: 'DI ενεργό', phantom: true },
  { id: 'd', source: 'Click', by: 'line', note: 'to mix 1 alone' },
];

function typed(): Plan {
  const plan = stagePlan();
  return { ...plan, setups: { curved: { ...plan.setups.curved, inputs: INPUTS } } };
}

interface Word {
  readonly text: string;
  readonly x: number;
  readonly y: number;
}

describe('read back', () => {
  let words: Word[] = [];
  let page = 0;
  beforeAll(async () => {
    const plan = typed();
    const layout = layoutSetup(plan, 'curved');
    const fonts = sheetFonts();
    const options = { paper: 'a4', date: '2026-03-14', fonts } as const;
    const { bytes, missing } = toPdf(
      venueSheets(plan, 'curved', layout, runChecks(plan, 'curved', layout), options),
      fonts,
    );
    expect(missing).toEqual([]);
    const file = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
    page = file.numPages;
    const { items } = await (await file.getPage(file.numPages)).getTextContent();
    words = items.flatMap((item) =>
      'str' in item && item.str.trim() !== '' ? [{ text: item.str, x: item.transform[4], y: item.transform[5] }] : [],
    );
  });

  /** The texts of the line that a text stands in, from left to right. */
  const lineOf = (text: string): string[] => {
    const found = words.find((word) => word.text === text);
    if (!found) throw new Error(`"${text}" is not on the page`);
    return words
      .filter(({ y }) => Math.abs(y - found.y) < 0.5)
      .sort((a, b) => a.x - b.x)
      .map((word) => word.text);
  };

  test('the lists are on the second of two pages', () => expect(page).toBe(2));

  test('each channel is one line: number, source, what takes it, stand, 48 V, note', () => {
    expect(lineOf('Große Trommel')).toEqual(['1', 'Große Trommel', 'Grenzfläche', 'keines', 'yes', 'im Kessel']);
    expect(lineOf('Голос')).toEqual(['2', 'Голос', 'динамический', 'журавль', 'свой микрофон']);
    expect(lineOf('Μπάσο')).toEqual(['3', 'Μπάσο', 'DI ενεργό', 'yes']);
    expect(lineOf('Click')).toEqual(['4', 'Click', 'line', 'to mix 1 alone']);
  });

  test('columns stand under their titles', () => {
    const x = (text: string) => words.find((word) => word.text === text)!.x;
    expect(x('Große Trommel')).toBeCloseTo(x('Source'), 3);
    expect(x('Grenzfläche')).toBeCloseTo(x('Microphone or DI'), 3);
    expect(x('keines')).toBeCloseTo(x('Stand'), 3);
    expect(x('im Kessel')).toBeCloseTo(x('Note'), 3);
  });

  test('mixes, power and what the venue provides', () => {
    expect(lineOf('Own voice, guitar, a little snare')).toEqual([
      '2',
      'Lead vocal',
      'by ear',
      'Own voice, guitar, a little snare',
    ]);
    expect(lineOf('Power, stage left').slice(0, 4)).toEqual(['Power, stage left', '230 V', '2600 W', '11.3 A']);
    expect(words.map(({ text }) => text).join('\n')).toContain('Stage box with 24 lines, 48 V');
  });
});
