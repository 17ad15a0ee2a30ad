import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Beam, solveBeam } from '../../../src/checks/beam.ts';
import { runs } from '../../fixtures/seeds.ts';

const EI = 6e9;
const plain = { length: 1000, stiffness: EI, points: [], uniform: 0 } as const;

describe('ends that stand out beyond the supports', () => {
  test('a load at the end: Pc2(L + c)/3EI below, and the bar between the legs bows up', () => {
    // Textbook overhang case: span 600 from 0 to 600, overhang 400, load 50 N at its end.
    const beam = solveBeam({ ...plain, supports: [0, 600], points: [{ x: 1000, force: 50 }] });
    expect(beam.at(1000).deflection).toBeCloseTo(-(50 * 400 ** 2 * (600 + 400)) / (3 * EI), 12);
    expect(beam.highest.x).toBeCloseTo(600 / Math.sqrt(3), 6);
    expect(beam.highest.value).toBeCloseTo((50 * 400 * 600 ** 2) / (9 * Math.sqrt(3) * EI), 12);
    expect(beam.reactions[0]).toBeCloseTo((-50 * 400) / 600, 10);
    expect(beam.reactions[1]).toBeCloseTo((50 * 1000) / 600, 10);
    expect(beam.mostMoment).toEqual({ x: 600, value: expect.closeTo(-50 * 400, 8) });
  });

  test('equal loads at both ends of equal overhangs: a constant moment between the legs', () => {
    const beam = solveBeam({
      ...plain,
      supports: [200, 800],
      points: [
        { x: 0, force: 30 },
        { x: 1000, force: 30 },
      ],
    });
    for (const x of [200, 300, 500, 799]) expect(beam.at(x).moment).toBeCloseTo(-30 * 200, 8);
    expect(beam.highest.x).toBeCloseTo(500, 6);
    expect(beam.highest.value).toBeCloseTo((30 * 200 * 600 ** 2) / (8 * EI), 12);
  });

  test('supports at the same place are refused in a sentence', () => {
    expect(() => solveBeam({ ...plain, supports: [300, 300] })).toThrow('two supports');
    expect(() => solveBeam({ ...plain, stiffness: 0, supports: [0, 300] })).toThrow('stiffness');
  });
});

const place = fc.integer({ min: 0, max: 1000 });
const beams = fc
  .record({
    a: fc.integer({ min: 0, max: 400 }),
    b: fc.integer({ min: 500, max: 1000 }),
    points: fc.array(fc.record({ x: place, force: fc.integer({ min: -200, max: 200 }) }), { maxLength: 6 }),
    uniform: fc.integer({ min: 0, max: 5 }).map((n) => n / 100),
  })
  .map(({ a, b, ...loads }): Beam => ({ length: 1000, stiffness: EI, supports: [a, b], ...loads }));

/** The bending moment at x from everything left of it, straight from its definition. */
function momentAt(beam: Beam, reactions: readonly [number, number], x: number): number {
  let moment = -(beam.uniform * x * x) / 2;
  beam.supports.forEach((at, k) => {
    if (at < x) moment += reactions[k] * (x - at);
  });
  for (const { x: at, force } of beam.points) if (at < x) moment -= force * (x - at);
  return moment;
}

describe('laws on random beams', () => {
  test('forces and moments balance, supports stay put, and moments are those of the loads on the left', () => {
    fc.assert(
      fc.property(beams, fc.double({ min: 0.01, max: 999.99, noNaN: true }), (beam, x) => {
        const { reactions, at } = solveBeam(beam);
        const force = beam.points.reduce((sum, load) => sum + load.force, 0) + beam.uniform * 1000;
        expect(reactions[0] + reactions[1]).toBeCloseTo(force, 8);
        for (const support of beam.supports) expect(Math.abs(at(support).deflection)).toBeLessThan(1e-9);
        expect(at(x).moment).toBeCloseTo(momentAt(beam, reactions, x), 5);
      }),
      runs(300),
    );
  });

  test('deflection is the moment integrated twice (Simpson), and nothing lies beyond the extremes', () => {
    fc.assert(
      fc.property(beams, (beam) => {
        const { reactions, at, lowest, highest, mostMoment } = solveBeam(beam);
        // Virtual work: the slope's change between two places is the moment's area over EI.
        const stops = [...new Set([0, 1000, ...beam.points.map((p) => p.x), ...beam.supports])].sort((p, q) => p - q);
        for (let k = 1; k < stops.length; k++) {
          const from = stops[k - 1];
          const to = stops[k];
          const m = (share: number) => momentAt(beam, reactions, from + (to - from) * share);
          const simpson = ((to - from) / 6) * (m(0) + 4 * m(0.5) + m(1));
          expect(Math.abs(at(to).slope - at(from).slope - simpson / EI)).toBeLessThan(1e-9);
        }
        for (let x = 0; x <= 1000; x += 10) {
          expect(at(x).deflection).toBeGreaterThanOrEqual(lowest.value - 1e-9);
          expect(at(x).deflection).toBeLessThanOrEqual(highest.value + 1e-9);
          expect(Math.abs(at(x).moment)).toBeLessThanOrEqual(Math.abs(mostMoment.value) + 1e-6);
        }
      }),
      runs(200),
    );
  });
});
