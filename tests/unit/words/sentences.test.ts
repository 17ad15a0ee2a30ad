/** Findings in words: every unit in the plan's own, and no sentence left in metric where feet and inches are read. */
import { describe, expect, test } from 'vitest';
import type { Unit } from '../../../src/checks/codes.ts';
import { comparedSetup } from '../../../src/checks/compare.ts';
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
