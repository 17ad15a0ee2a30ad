/**
 * Every kind of sheet as PDF before two readers that nobody here made: Mozilla's (pdfjs-dist) always, and
 * poppler's programs (pdfinfo, pdffonts, pdftotext) where the machine has them. Where it has not, the first reader's answers
 * stand alone, and a line says so.
 *
 * Sources: PDF 32000-1 8.3.2.3 (1/72 in), ISO 216, US Letter; the check bar's length from its own print.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, expect, test } from 'vitest';
import { sheetFonts } from '../../src/cli/fonts.ts';
import type { Plan } from '../../src/plan/schema.ts';
import { type KindOptions, makeSheets, type SheetKind } from '../../src/sheets/kinds.ts';
import { toPdf } from '../../src/sheets/pdf.ts';
import { checkedOf, layoutOf, sampleSetups } from '../fixtures/samplePlans.ts';
import { some } from '../fixtures/seeds.ts';

const MM_PER_PT = 25.4 / 72;
/** Without pictures. */
const MOST_BYTES = 400_000;
const PAPER_MM = { a4: [210, 297], letter: [215.9, 279.4] } as const;

const fonts = sheetFonts();
const folder = mkdtempSync(join(tmpdir(), 'legroom-pdf-'));
afterAll(() => rmSync(folder, { recursive: true }));

const has = (program: string): boolean => spawnSync(program, ['-v']).error === undefined;
const poppler = ['pdfinfo', 'pdffonts', 'pdftotext'].every(has);
if (!poppler) console.log('poppler is not on this machine: these PDFs are read by Mozilla’s reader alone.');

/** A sample with names in three scripts. */
const NAMES = { title: 'Ænima Žižek Łódź', setup: 'Τύμπανα Ωμέγα', piece: 'Молот Їжак' };
const [sample, ...others] = sampleSetups();

function named({ plan, id }: { readonly plan: Plan; readonly id: string }): Plan {
  const setup = plan.setups[id];
  const first = setup.order.find((each) => setup.pieces[each].kind === 'item')!;
  const pieces = { ...setup.pieces, [first]: { ...setup.pieces[first], name: NAMES.piece } };
  const setups = { ...plan.setups, [id]: { ...setup, name: NAMES.setup, pieces } };
  return { ...plan, name: NAMES.title, setups };
}

function pdfOf(plan: Plan, id: string, kind: SheetKind, changes: Partial<KindOptions> = {}): Uint8Array {
  const source = { plan, setupId: id, layout: layoutOf(plan, id), checked: checkedOf(plan, id) };
  const against = plan.order.filter((each) => each !== id).slice(0, 1);
  return toPdf(makeSheets(kind, source, { paper: 'a4', date: '2026-03-14', fonts, against, ...changes }), fonts).bytes;
}

interface Read {
  /** Width and height of each page, mm. */
  readonly pages: readonly (readonly [number, number])[];
  readonly text: string;
  readonly fonts: readonly { readonly name: string; readonly embedded: boolean }[];
}

async function byPdfjs(bytes: Uint8Array): Promise<Read> {
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0, fontExtraProperties: true }).promise;
  const pages: [number, number][] = [];
  const words: string[] = [];
  const faces = new Map<string, boolean>();
  for (let k = 1; k <= doc.numPages; k++) {
    const page = await doc.getPage(k);
    const [x0, y0, x1, y1] = page.view;
    pages.push([(x1 - x0) * MM_PER_PT, (y1 - y0) * MM_PER_PT]);
    for (const part of (await page.getTextContent()).items) if ('str' in part) words.push(part.str);
    const { fnArray, argsArray } = await page.getOperatorList();
    fnArray.forEach((fn, i) => {
      if (fn !== OPS.setFont) return;
      const face = page.commonObjs.get(argsArray[i][0]);
      faces.set(face.name, face.missingFile !== true);
    });
  }
  return { pages, text: words.join(' '), fonts: [...faces].map(([name, embedded]) => ({ name, embedded })) };
}

function byPoppler(bytes: Uint8Array): Read {
  const file = join(folder, 'sheet.pdf');
  writeFileSync(file, bytes);
  const run = (program: string, ...words: string[]) => {
    const { stdout, stderr, status } = spawnSync(program, words, { encoding: 'utf8' });
    expect(stderr, program).toBe('');
    expect(status, program).toBe(0);
    return stdout;
  };
  const sizes = run('pdfinfo', '-f', '1', '-l', '-1', file).matchAll(/Page +\d+ size: +([\d.]+) x ([\d.]+) pts/g);
  const rows = run('pdffonts', file).trim().split('\n').slice(2);
  return {
    pages: [...sizes].map(([, w, h]) => [Number(w) * MM_PER_PT, Number(h) * MM_PER_PT] as const),
    text: run('pdftotext', '-layout', file, '-').replace(/\s+/g, ' '),
    fonts: rows.map((row) => {
      const [name] = row.split(/ +/);
      const [emb, sub] = /(yes|no) +(yes|no) +(yes|no) +\d+ +\d+ *$/.exec(row)!.slice(1, 3);
      expect(sub, row).toBe('yes');
      return { name, embedded: emb === 'yes' };
    }),
  };
}

/** What both readers, or the one there is, make of a file. */
async function readers(bytes: Uint8Array): Promise<[string, Read][]> {
  const all: [string, Read][] = [['pdf.js', await byPdfjs(bytes)]];
  if (poppler) all.push(['poppler', byPoppler(bytes)]);
  return all;
}

const KINDS_AND_PAPERS = [
  ['venue', 'a4'],
  ['venue', 'letter'],
  ['marks', 'a4'],
  ['template', 'letter'],
  ['pull', 'a4'],
  ['comparison', 'letter'],
] as const;

test.each(KINDS_AND_PAPERS)('%s on %s: pages, faces and names in three scripts', async (kind, paper) => {
  const bytes = pdfOf(named(sample), sample.id, kind, { paper });
  expect(bytes.length).toBeLessThan(MOST_BYTES);
  for (const [reader, { pages, text, fonts: faces }] of await readers(bytes)) {
    expect(pages.length, reader).toBeGreaterThan(0);
    for (const page of pages) {
      const sides = [...page].sort((a, b) => a - b);
      expect(sides[0], reader).toBeCloseTo(PAPER_MM[paper][0], 1);
      expect(sides[1], reader).toBeCloseTo(PAPER_MM[paper][1], 1);
    }
    expect(faces.length, reader).toBe(2);
    for (const { name, embedded } of faces) {
      expect(name, reader).toMatch(/^[A-Z]{6}\+OpenSans-/);
      expect(embedded, reader).toBe(true);
    }
    expect(text, reader).toContain(NAMES.title);
    expect(text, reader).toContain(NAMES.setup);
    // A template shows feet alone; a long name is set on two lines.
    if (kind === 'venue' || kind === 'pull')
      for (const word of NAMES.piece.split(' ')) expect(text, reader).toContain(word);
    expect(text, reader).not.toMatch(/[□\uFFFD]/);
  }
});

test('the template on one long page: as large as what it shows, and its check bars are 100 mm', async () => {
  const bytes = pdfOf(sample.plan, sample.id, 'template', { long: true });
  const layout = layoutOf(sample.plan, sample.id);
  const feet = layout.bodies.filter(({ touchesFloor, kind }) => touchesFloor && kind !== 'stageItem');
  expect(feet.length).toBeGreaterThan(3);
  for (const [reader, { pages, text }] of await readers(bytes)) {
    expect(pages.length, reader).toBe(1);
    expect(Math.min(...pages[0]), reader).toBeGreaterThan(800);
    expect(text, reader).toMatch(/100 mm/);
  }
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const { fnArray, argsArray } = await (await doc.getPage(1)).getOperatorList();
  const lengths: [number, number][] = [];
  fnArray.forEach((fn, i) => {
    if (fn !== OPS.constructPath) return;
    const box = argsArray[i][2] as ArrayLike<number>;
    lengths.push([(box[2] - box[0]) * MM_PER_PT, (box[3] - box[1]) * MM_PER_PT]);
  });
  const isBar = (length: number, thin: number) => Math.abs(length - 100) < 0.01 && thin < 5;
  expect(lengths.filter(([w, h]) => isBar(w, h)).length).toBeGreaterThanOrEqual(1);
  expect(lengths.filter(([w, h]) => isBar(h, w)).length).toBeGreaterThanOrEqual(1);
});

/** The largest in every run. */
const largest = others.filter(({ name }) => name.startsWith('sixty'));
test.each([...new Set([...largest, ...some(sampleSetups(), 6)])])(
  '$name: its venue sheet is below 400 kB',
  ({ plan, id }) => expect(pdfOf(plan, id, 'venue').length).toBeLessThan(MOST_BYTES),
);
