/** Findings in words: every unit in the plan's own, and no sentence left in metric where feet and inches are read. */
import { describe, expect, test } from 'vitest';
import type { Unit } from '../../../src/checks/codes.ts';
import { comparedSetup } from '../../../src/checks/compare.ts';
import type { Finding } from '../../../src/checks/finding.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { READING_ROWS, rowText } from '../../../src/words/readingRows.ts';
import { findingSentence, valueText } from '../../../src/words/sentences.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

/** kN/m² may stand behind its lb/ft², for a rating plate may be stamped in either. */
const METRIC = /\d (?:mm|cm²|m²|kg|N|N m|MPa|kN\/m²)(?![\w\u0370-\u03ff²])/;
const withoutPlate = (text: string) => text.replace(/lb\/ft² \([\d.]+ kN\/m²\)/g, 'lb/ft²');

test('every unit of a finding has its inch form', () => {
  const units: Unit[] = ['mm', 'm2', 'kg', 'deg', 'kPa', 'Nm', 'MPa'];
  expect(units.map((unit) => valueText(20, unit, 'in'))).toEqual([
    '13/16"',
    '215.3 ft²',
    '44.1 lb',
    '20°',
    '417.7 lb/ft² (20 kN/m²)',
    '14.8 lb ft',
    '2901 psi',
  ]);
});

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  const inches = { ...plan, units: 'in' as const };
  test('in inches no sentence and no reading stays metric; in millimetres none is in inches', () => {
    for (const units of ['in', 'mm'] as const) {
      const shown = { ...plan, units };
      const { findings } = runChecks(shown, id, layoutSetup(shown, id));
      const { readings } = comparedSetup(shown, id);
      const told = findings.map((finding) => findingSentence(finding, shown, id));
      expect(told.length).toBeGreaterThan(0);
      for (const text of [...told, ...READING_ROWS.map((row) => rowText(row, readings, units))])
        if (units === 'in') expect(withoutPlate(text)).not.toMatch(METRIC);
        else expect(text).not.toMatch(/\d (?:lb|psi|ft²|in²)(?!\w)/);
    }
  });
  test('what presses on the deck is said both ways in inches', () => {
    const { findings } = runChecks(inches, id, layoutSetup(inches, id));
    for (const finding of findings.filter(({ check }) => check === 'deckLoad'))
      expect(findingSentence(finding, inches, id)).toMatch(/[\d.]+ lb\/ft² \([\d.]+ kN\/m²\)/);
  });
});

describe('what rounding prints as its limit, or as nothing', () => {
  const told = (units: 'mm' | 'in', finding: object) =>
    findingSentence(
      { bodies: [], source: '', at: null, unit: 'mm', sense: 'atLeast', ...finding } as unknown as Finding,
      { ...plan, units },
      plan.order[0],
    );
  const [{ plan }] = sampleSetups();
  const [first, second] = plan.setups[plan.order[0]].order;

  test('just under its limit, and never the limit itself twice', () => {
    const near = (value: number, state: string) => ({
      check: 'clearance',
      code: state === 'clear' ? 'apart' : 'too_close',
      state,
      pieces: [first, second],
      parts: [
        { kind: 'throne', part: 'seat' },
        { kind: 'throne', part: 'seat' },
      ],
      value,
      limit: 15,
      line: [0, 0, 0, 0],
      space: false,
      upper: null,
    });
    expect(told('mm', near(14.98, 'tight'))).toContain('are just under 15 mm apart, and 15 mm is wanted');
    expect(told('in', near(14.5, 'tight'))).toContain('are just under 9/16" apart, and 9/16" is wanted');
    expect(told('mm', near(14, 'tight'))).toContain('are 14 mm apart');
    expect(told('mm', near(15, 'clear'))).toContain('come nearest, 15 mm apart with 15 mm wanted');
  });

  test('less than the least that is printed, and never 0 over an edge', () => {
    const over = (value: number) => ({
      check: 'riserFit',
      code: 'off_the_riser',
      state: 'blocked',
      pieces: [first],
      value,
      limit: 50,
    });
    expect(told('mm', over(-0.02))).toContain("stands less than 0.1 mm over the riser's edge");
    expect(told('in', over(-0.5))).toContain(`stands less than 1/16" over the riser's edge`);
    expect(told('mm', over(-3))).toContain("stands 3 mm over the riser's edge");
  });
});
