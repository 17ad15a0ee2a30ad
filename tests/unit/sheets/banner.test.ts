/** A kit that stands off its riser says so: one figure, one rule, wherever it is read, and first of all on every sheet. */
import { describe, expect, test } from 'vitest';
import { comparedSetup } from '../../../src/checks/compare.ts';
import { standingOff } from '../../../src/checks/riserFit.ts';
import { sheetFonts } from '../../../src/cli/fonts.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { KINDS, makeSheets } from '../../../src/sheets/kinds.ts';
import { READING_ROWS, rowText } from '../../../src/words/readingRows.ts';
import { marginText, offRiserLine } from '../../../src/words/riserWords.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { seeds } from '../../fixtures/seeds.ts';
import { textsOf } from '../../fixtures/sheetLaws.ts';

/** The riser shifted under the kit. */
function shifted(plan: Plan, riser: string, dx: number, dy: number): Plan {
  const modules = plan.risers[riser].modules.map((m) => ({ ...m, xMm: m.xMm + dx, yMm: m.yMm + dy }));
  return { ...plan, risers: { ...plan.risers, [riser]: { ...plan.risers[riser], modules } } };
}

const cases = sampleSetups().filter(({ plan, id }) => plan.setups[id].riser !== null);
const options = { paper: 'a4', date: '2026-03-14', fonts: sheetFonts() } as const;

describe.each(cases)('$name', ({ plan, id }) => {
  test.each(seeds(8, 2))('shift %i: margin, overhang, findings, row and words say the same', (k) => {
    const [dx, dy] = [Math.cos(k) * 120 * k, Math.sin(k) * 120 * k];
    const moved = shifted(plan, plan.setups[id].riser!, dx, dy);
    const { readings, layout, checked } = comparedSetup(moved, id);
    const off = standingOff(layout);
    const margin = readings.riserMargin!;
    const found = checked.findings.filter(({ code }) => code === 'off_the_riser');
    expect(found.map(({ value }) => value)).toEqual(off.map((each) => each.margin));
    expect(off.length > 0).toBe(margin < -1e-6);
    expect(off[0]?.margin ?? margin).toBe(margin);
    // What is out over the edge counts the feet.
    expect(readings.overhang!).toBeGreaterThanOrEqual(-margin - 1e-9);
    expect(rowText(READING_ROWS.find(({ key }) => key === 'margin')!, readings, plan.units)).toBe(
      marginText(margin, plan.units),
    );
    expect(marginText(margin, plan.units).includes('off the riser')).toBe(off.length > 0);
    expect(offRiserLine(moved, id, layout) === null).toBe(off.length === 0);
  });

  test('a banner on the first page of every sheet, and on no other; none where all stands on the riser', () => {
    const off = shifted(plan, plan.setups[id].riser!, 900, 0);
    const other = plan.order.find((each) => each !== id);
    for (const kind of KINDS) {
      if (kind === 'comparison' && other === undefined) continue;
      const pagesOf = (of: Plan) => {
        const { layout, checked } = comparedSetup(of, id);
        const against = other === undefined ? [] : [other];
        return makeSheets(kind, { plan: of, setupId: id, layout, checked }, { ...options, against });
      };
      const said = pagesOf(off).map(
        (sheet) => textsOf(sheet).filter(({ text }) => text.includes('Off the riser:')).length,
      );
      expect(said[0], kind).toBe(1);
      expect(said.slice(1), kind).toEqual(said.slice(1).map(() => 0));
      const before = comparedSetup(plan, id);
      if (standingOff(before.layout).length > 0 || kind === 'comparison') continue;
      expect(
        pagesOf(plan).flatMap((sheet) => textsOf(sheet).filter(({ text }) => text.includes('Off the riser:'))),
      ).toEqual([]);
    }
  });
});
