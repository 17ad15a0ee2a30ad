/**
 * Two-tape marks against published rows, and against the places that the measure report gives to anybody.
 *
 * Sources (SOURCES.md): a stage managers' thread (readings of 10 ft 3 in and 9 ft 4 in), worked by hand (points 16 ft apart: x = 8.561 ft
 * from the first, y = 5.637 ft off the line; 24 ft apart: no solution), two-tape tape-out (1/4 in). Expected places of the kit
 * come from the report's cores, recomputed here with the law of cosines, not with the code that made the sheet.
 */
import { describe, expect, test } from 'vitest';
import { crossingOf, TOLERANCE_MM } from '../../src/checks/marks/crossing.ts';
import { markPlan } from '../../src/checks/marks/markPlan.ts';
import { runChecks } from '../../src/checks/run.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { measureReport } from '../../src/words/report.ts';
import { sampleSetups } from '../fixtures/samplePlans.ts';

const FT = 304.8;
const IN = 25.4;

test('worked by hand: 10 ft 3 in and 9 ft 4 in from points 16 ft apart', () => {
  const at = crossingOf([0, 0], [16 * FT, 0], 10 * FT + 3 * IN, 9 * FT + 4 * IN, 1);
  expect(at![0] / FT).toBeCloseTo(8.561, 3);
  expect(at![1] / FT).toBeCloseTo(5.637, 3);
  const below = crossingOf([0, 0], [16 * FT, 0], 10 * FT + 3 * IN, 9 * FT + 4 * IN, -1);
  expect(below![1] / FT).toBeCloseTo(-5.637, 3);
});

test('worked by hand: from points 24 ft apart the tapes do not meet', () =>
  expect(crossingOf([0, 0], [24 * FT, 0], 10 * FT + 3 * IN, 9 * FT + 4 * IN, 1)).toBeNull());

test('two-tape tape-out: the tolerance is no wider than a quarter of an inch', () =>
  expect(TOLERANCE_MM).toBeLessThanOrEqual(IN / 4));

type Spot = [number, number];

/** The angle at a datum from the three sides of the triangle. */
function placeFrom(a: Spot, b: Spot, ra: number, rb: number, near: Spot): Spot {
  const base = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const atA = Math.acos((ra * ra + base * base - rb * rb) / (2 * ra * base));
  const line = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const both = [line + atA, line - atA].map((t): Spot => [a[0] + ra * Math.cos(t), a[1] + ra * Math.sin(t)]);
  return both.sort(
    (p, q) => Math.hypot(p[0] - near[0], p[1] - near[1]) - Math.hypot(q[0] - near[0], q[1] - near[1]),
  )[0];
}

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  const layout = layoutSetup(plan, id);
  const report = measureReport(plan, id, layout, runChecks(plan, id, layout));
  const bodies = new Map([...report.bodies, ...report.stage].map((body) => [body.id, body]));
  const { marks, datums } = markPlan(plan, id, layout);
  const corners = report.deck!.polygons.flat();

  test('every datum is a corner of the reported deck', () => {
    for (const { at } of datums)
      expect(Math.min(...corners.map(([x, y]) => Math.hypot(x - at[0], y - at[1])))).toBeLessThan(1e-6);
  });

  test('two printed readings put the crossing on the reported contact, within the printed rounding', () => {
    // Rounding to half a step moves a crossing by at most half a step over sin(15 degrees), the flattest that is allowed.
    const allowed = (plan.units === 'in' ? IN / 16 : 1) / 2 / Math.sin(Math.PI / 12);
    let measured = 0;
    for (const { mark, tapes } of marks) {
      const body = bodies.get(mark.body)!;
      const { core, radius } = body;
      const own: Spot[] =
        core.type === 'point'
          ? [core.at]
          : core.type === 'polygon'
            ? core.points
            : core.type === 'segment'
              ? (() => {
                  const [[x0, y0], [x1, y1]] = [core.from, core.to];
                  const length = Math.hypot(x1 - x0, y1 - y0);
                  const [ux, uy] = [((x1 - x0) / length) * radius, ((y1 - y0) / length) * radius];
                  return [
                    [x0 - ux, y0 - uy],
                    [x1 + ux, y1 + uy],
                    [(x0 + x1) / 2, (y0 + y1) / 2],
                  ] as Spot[];
                })()
              : [];
      const off = (spot: Spot) => Math.min(...own.map(([x, y]) => Math.hypot(x - spot[0], y - spot[1])));
      expect(off([...mark.at]), mark.id).toBeLessThan(1e-6);
      if (!tapes) continue;
      measured++;
      const spot = placeFrom([...tapes.first.at], [...tapes.second.at], tapes.firstMm, tapes.secondMm, [...mark.at]);
      expect(off(spot), mark.id).toBeLessThan(allowed + 1e-6);
    }
    expect(measured).toBeGreaterThan(20);
  });
});
