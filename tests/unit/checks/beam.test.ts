import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Beam, type SolvedBeam, solveBeam, standBeam } from '../../../src/checks/beam.ts';
import { equivalentMoment } from '../../../src/checks/tubeSection.ts';
import { pointAlong } from '../../../src/geometry/arcsLine.ts';
import { arcLine, straightLine } from '../../fixtures/lines.ts';
import { runs } from '../../fixtures/seeds.ts';

const EI = 6e9;
const plain = { line: straightLine(1000), bending: EI, torsion: EI / 1.3, loads: [], uniform: 0 } as const;
const legs = (a: number, b: number): Beam['supports'] => [
  { at: a, holds: 'grip' },
  { at: b, holds: 'grip' },
];

describe('ends that stand out beyond the supports', () => {
  test('a load at the end: Pc2(L + c)/3EI below, and the bar between the legs bows up', () => {
    // Textbook overhang case: span 600 from 0 to 600, overhang 400, load 50 N at its end.
    const beam = solveBeam({ ...plain, supports: legs(0, 600), loads: [{ at: 1000, force: 50 }] });
    expect(beam.at(1000).deflection).toBeCloseTo(-(50 * 400 ** 2 * (600 + 400)) / (3 * EI), 12);
    expect(beam.highest.at).toBeCloseTo(600 / Math.sqrt(3), 6);
    expect(beam.highest.value).toBeCloseTo((50 * 400 * 600 ** 2) / (9 * Math.sqrt(3) * EI), 12);
    expect(beam.reactions[0].force).toBeCloseTo((-50 * 400) / 600, 10);
    expect(beam.reactions[1].force).toBeCloseTo((50 * 1000) / 600, 10);
    expect(beam.mostMoment).toEqual({ at: 600, value: expect.closeTo(50 * 400, 7) });
  });

  test('equal loads at both ends of equal overhangs: a constant moment between the legs', () => {
    const beam = solveBeam({
      ...plain,
      supports: legs(200, 800),
      loads: [
        { at: 0, force: 30 },
        { at: 1000, force: 30 },
      ],
    });
    for (const x of [200, 300, 500, 799]) expect(beam.at(x).moment).toBeCloseTo(-30 * 200, 8);
    expect(beam.highest.at).toBeCloseTo(500, 6);
    expect(beam.highest.value).toBeCloseTo((30 * 200 * 600 ** 2) / (8 * EI), 12);
  });

  test('supports at the same place, or that let it turn freely, are refused in a sentence', () => {
    expect(() => solveBeam({ ...plain, supports: legs(300, 300) })).toThrow('two different places');
    expect(() => solveBeam({ ...plain, supports: [{ at: 0, holds: 'grip' }] })).toThrow('two different places');
    expect(() => solveBeam({ ...plain, bending: 0, supports: legs(0, 300) })).toThrow('stiffness');
    // A bow between two props that do not grip falls over.
    const props: Beam['supports'] = [0, 600].map((at) => ({ at, holds: 'up' }));
    expect(() => solveBeam({ ...plain, line: arcLine(500, 1.2), supports: props })).toThrow('holds it');
  });
});

const place = fc.integer({ min: 0, max: 1000 });
const couple = fc.tuple(fc.integer({ min: -9000, max: 9000 }), fc.integer({ min: -9000, max: 9000 }));
const beams = fc
  .record({
    a: fc.integer({ min: 0, max: 400 }),
    b: fc.integer({ min: 500, max: 1000 }),
    // Straight, and bends from slight to three quarters of a turn, to either side.
    angle: fc.constantFrom(0, 0, 0.01, 0.4, 1.5, 4.5, -0.8),
    loads: fc.array(fc.record({ at: place, force: fc.integer({ min: -200, max: 200 }), couple }), { maxLength: 6 }),
    uniform: fc.integer({ min: 0, max: 5 }).map((n) => n / 100),
  })
  .map(({ a, b, angle, ...loads }): Beam => {
    const line =
      angle === 0 ? straightLine(1000) : { ...arcLine(800 / Math.abs(angle), angle), before: 100, after: 100 };
    return { ...plain, line, supports: legs(a, b), ...loads };
  });

/** Force and moment in plan of all that acts before s, from their definition; the weight as many small loads. */
function sumBefore(beam: Beam, { reactions }: SolvedBeam, s: number) {
  const here = pointAlong(beam.line, s);
  let force = 0;
  const moment = [0, 0];
  const act = (at: number, up: number, [cx, cy]: readonly [number, number] = [0, 0]) => {
    const { x, y } = pointAlong(beam.line, at);
    force += up;
    moment[0] += (y - here.y) * up + cx;
    moment[1] += -(x - here.x) * up + cy;
  };
  for (const { at, force: down, couple: own } of beam.loads) if (at < s) act(at, -down, own);
  beam.supports.forEach(({ at }, k) => {
    if (at < s) act(at, reactions[k].force, reactions[k].couple);
  });
  const parts = 2000;
  for (let k = 0; k < parts; k++) act(((k + 0.5) * s) / parts, (-beam.uniform * s) / parts);
  const [c, n] = [Math.cos(here.heading), Math.sin(here.heading)];
  return { force, moment: moment[1] * c - moment[0] * n, torsion: moment[0] * c + moment[1] * n };
}

describe('laws on random beams, straight and bent', () => {
  test('forces and moments balance, supports stay put, and moments are those of the loads before', () => {
    fc.assert(
      fc.property(beams, fc.double({ min: 0.01, max: 999.99, noNaN: true }), (beam, s) => {
        const solved = solveBeam(beam);
        const all = sumBefore(beam, solved, 1000.001);
        expect(all.force).toBeCloseTo(0, 4);
        expect(all.moment).toBeCloseTo(0, 0);
        expect(all.torsion).toBeCloseTo(0, 0);
        for (const { at } of beam.supports) expect(Math.abs(solved.at(at).deflection)).toBeLessThan(1e-9);
        const { moment, torsion } = solved.at(s);
        const before = sumBefore(beam, solved, s);
        expect(moment).toBeCloseTo(before.moment, 0);
        expect(torsion).toBeCloseTo(before.torsion, 0);
      }),
      runs(200),
    );
  });

  test('the slope is how the deflection grows, and nothing lies beyond the extremes', () => {
    fc.assert(
      fc.property(beams, (beam) => {
        const { at, lowest, highest, mostMoment } = solveBeam(beam);
        const size = Math.max(Math.abs(lowest.value), Math.abs(highest.value), 1e-6);
        // At a couple the curvature jumps, and a difference over 0.02 mm takes the mean of both.
        const couples = beam.loads.reduce((sum, { couple = [0, 0] }) => sum + Math.hypot(...couple), 0);
        const kink = (0.01 * couples) / beam.bending;
        for (let s = 5; s < 1000; s += 10) {
          const here = at(s);
          const rise = (at(s + 0.01).deflection - at(s - 0.01).deflection) / 0.02;
          expect(Math.abs(rise - here.slope) * 1000).toBeLessThan(1e-4 * size + 1000 * kink);
          expect(here.deflection).toBeGreaterThanOrEqual(lowest.value - 1e-6 * size);
          expect(here.deflection).toBeLessThanOrEqual(highest.value + 1e-6 * size);
          expect(equivalentMoment(here.moment, here.torsion)).toBeLessThanOrEqual(mostMoment.value * (1 + 1e-9) + 1e-6);
        }
      }),
      runs(200),
    );
  });

  test('works of two loads on each other are the same (Betti): what P does at Q, Q does at P', () => {
    fc.assert(
      fc.property(beams, place, place, (beam, p, q) => {
        const bare = { ...beam, uniform: 0 };
        const sunk = (on: number, where: number) =>
          solveBeam({ ...bare, loads: [{ at: on, force: 100 }] }).at(where).deflection;
        expect(Math.abs(sunk(p, q) - sunk(q, p))).toBeLessThan(1e-9);
      }),
      runs(100),
    );
  });

  test('a beam that stands answers one set of loads after another as one made for each', () => {
    fc.assert(
      fc.property(beams, fc.double({ min: -5, max: 5, noNaN: true }), ({ loads, uniform, ...beam }, more) => {
        const stands = standBeam({ ...beam, places: loads.map(({ at }) => at) });
        for (const share of [1, more, 1]) {
          const laden = loads.map(({ force, ...load }) => ({ ...load, force: share * force }));
          const [one, other] = [
            stands(laden, share * uniform),
            solveBeam({ ...beam, loads: laden, uniform: share * uniform }),
          ];
          expect([one.reactions, one.lowest, one.highest, one.mostMoment]).toEqual([
            other.reactions,
            other.lowest,
            other.highest,
            other.mostMoment,
          ]);
        }
        const shifted = { ...beam, line: { ...beam.line, x: beam.line.x + 1234.5, y: beam.line.y - 67.8 } };
        expect(solveBeam({ ...shifted, loads, uniform }).lowest).toEqual(solveBeam({ ...beam, loads, uniform }).lowest);
      }),
      runs(100),
    );
  });

  test('turned in plan with its couples, a beam bends the same', () => {
    fc.assert(
      fc.property(beams, fc.double({ min: -4, max: 4, noNaN: true }), (beam, turn) => {
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const turned = {
          ...beam,
          line: { ...beam.line, x: 300, y: -200, heading: beam.line.heading + turn },
          loads: beam.loads.map(({ couple: [x, y] = [0, 0], ...load }) => ({
            ...load,
            couple: [c * x - s * y, s * x + c * y] as const,
          })),
        };
        const [one, other] = [solveBeam(beam), solveBeam(turned)];
        expect(other.lowest.value).toBeCloseTo(one.lowest.value, 8);
        expect(other.mostMoment.value).toBeCloseTo(one.mostMoment.value, 4);
        for (const [k, { twist }] of one.reactions.entries()) expect(other.reactions[k].twist).toBeCloseTo(twist, 4);
      }),
      runs(50),
    );
  });
});
