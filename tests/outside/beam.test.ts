/**
 * Beams and sections against published values (SOURCES.md). EQ: equation-library chapter (columns and beams) of a
 * scientific calculator's reference guide, pp. 5-5 to 5-7. Formulas: Machinery's Handbook, 31st ed., beam deflections.
 * Sections: EN 10210-2 / EN 10219-2 tables.
 */
import { describe, expect, test } from 'vitest';
import { type Beam, type PointLoad, solveBeam, tubeSection } from '../../src/checks/beam.ts';

const toDegrees = (radians: number) => (radians * 180) / Math.PI;
const FT = 12; // in

/** A couple of the published examples, counter-clockwise > 0, as two forces a hair apart on either side of its place. */
const couple = (x: number, moment: number): PointLoad[] => {
  const half = 0.005;
  return [
    { x: x - half, force: moment / (2 * half) },
    { x: x + half, force: -moment / (2 * half) },
  ];
};

/**
 * A published cantilever as the end of a beam that stands out beyond its second support: measured from the beam's own
 * tangent there, that end bends as if it were fixed. Span of the same length before it.
 */
function cantilever({ length, stiffness, points, uniform }: Omit<Beam, 'supports'>) {
  const out = points.map(({ x, force }) => ({ x: length + x, force }));
  const beam = solveBeam({ length: 2 * length, stiffness, supports: [0, length], points: out, uniform });
  const tangent = beam.at(length).slope;
  return (x: number) => {
    const { deflection, slope } = beam.at(length + x);
    return { deflection: deflection - tangent * x, slope: slope - tangent };
  };
}

describe('cantilever (EQ 1,7 and 1,8): L 10 ft, E 29e6 psi, I 15 in4', () => {
  const beam = { length: 10 * FT, stiffness: 29e6 * 15 };
  const load = [{ x: 3 * FT, force: 500 }];
  const turned = couple(6 * FT, 800 * FT);
  test('y = -0.3316 in and slope -0.2652 degrees at 8 ft', () => {
    const { deflection, slope } = cantilever({ ...beam, points: [...load, ...turned], uniform: 100 / FT })(8 * FT);
    expect(Math.abs(deflection - -0.3316)).toBeLessThan(0.00005);
    expect(Math.abs(toDegrees(slope) - -0.2652)).toBeLessThan(0.00005);
  });

  test.each([
    // The parts alone, by superposition, to five places
    ['point load', load, 0, -0.06257],
    ['uniform load', [], 100 / FT, -0.3644],
    ['couple', turned, 0, 0.09534],
  ])('the cantilever, %s alone', (_, points, uniform, y) => {
    expect(Math.abs(cantilever({ ...beam, points, uniform })(8 * FT).deflection - y)).toBeLessThan(0.000006);
  });
});

test('beam on two supports (EQ 1,3 to 1,6): L 20 ft, I 40 in4, at 9 ft', () => {
  const beam = solveBeam({
    length: 20 * FT,
    stiffness: 29e6 * 40,
    supports: [0, 20 * FT],
    points: [{ x: 10 * FT, force: 674.427 }, ...couple(17 * FT, 3687.81 * FT)],
    uniform: 102.783 / FT,
  });
  const { moment, shear, slope, deflection } = beam.at(9 * FT);
  expect(Math.abs(moment / FT - 9782.1945)).toBeLessThan(0.00006);
  expect(Math.abs(shear - 624.387)).toBeLessThan(0.0006);
  expect(Math.abs(toDegrees(slope) - -0.0876)).toBeLessThan(0.00005);
  expect(Math.abs(deflection - -0.60049)).toBeLessThan(0.000006); // calculated, not seen printed
});

describe('the handbook cases', () => {
  const L = 1200;
  const EI = 210_000 * 28_930;
  const P = 90;
  const w = 0.02;
  const plain = { length: L, stiffness: EI, points: [], uniform: 0 } as const;
  test.each([
    // name                  loads                                    lowest, mm
    ['centre load PL3/48EI', { points: [{ x: L / 2, force: P }] }, (P * L ** 3) / (48 * EI)],
    ['uniform 5wL4/384EI', { uniform: w }, (5 * w * L ** 4) / (384 * EI)],
  ])('%s', (_, loads, sag) => {
    expect(solveBeam({ ...plain, supports: [0, L], ...loads }).lowest.value / -sag).toBeCloseTo(1, 12);
  });
  test.each([
    // name                           loads                              at the tip, mm
    ['cantilever end load PL3/3EI', { points: [{ x: L, force: P }] }, (P * L ** 3) / (3 * EI)],
    ['cantilever uniform wL4/8EI', { uniform: w }, (w * L ** 4) / (8 * EI)],
    [
      'cantilever, load part-way: Pl2(2l + 3b)/6EI at the tip (case 12)',
      { points: [{ x: 500, force: P }] },
      (P * 500 ** 2 * (2 * 500 + 3 * 700)) / (6 * EI),
    ],
  ])('%s', (_, loads, sag) => {
    expect(cantilever({ ...plain, ...loads })(L).deflection / -sag).toBeCloseTo(1, 12);
  });
});

test('handbook formulas on a rack bar: 48.3 x 3.2 steel, 500 N mid-span on 1 m; 100 N at the end of 0.5 m', () => {
  const none = { uniform: 0, stiffness: 210_000 * tubeSection(48.3, 3.2).inertiaMm4 };
  const span = solveBeam({ ...none, length: 1000, supports: [0, 1000], points: [{ x: 500, force: 500 }] });
  expect(Math.abs(span.lowest.value - -0.428)).toBeLessThan(0.0005);
  const arm = cantilever({ ...none, length: 500, points: [{ x: 500, force: 100 }] });
  expect(Math.abs(arm(500).deflection - -0.171)).toBeLessThan(0.0005);
});

describe('tube.steel.*: area cm2, I cm4, W cm3, printed to three figures (half of the last, and a hair for their own rounding)', () => {
  test.each([
    // outside, wall, area, I, W, half of the last place of each
    [33.7, 2.6, 2.54, 3.09, 1.84],
    [33.7, 3.2, 3.07, 3.6, 2.14],
    [42.4, 2.6, 3.25, 6.46, 3.05],
    [42.4, 3.2, 3.94, 7.62, 3.59],
    [48.3, 3.0, 4.27, 11.0, 4.55],
    [48.3, 3.2, 4.53, 11.6, 4.8],
    [48.3, 4.0, 5.57, 13.8, 5.7],
  ])('%s x %s', (outside, wall, area, inertia, modulus) => {
    const section = tubeSection(outside, wall);
    expect(Math.abs(section.areaMm2 / 100 - area)).toBeLessThan(0.0051);
    expect(Math.abs(section.inertiaMm4 / 1e4 - inertia)).toBeLessThan(inertia >= 10 ? 0.051 : 0.0051);
    expect(Math.abs(section.modulusMm3 / 1e3 - modulus)).toBeLessThan(0.0051);
  });

  test('38.1 x 1.5: 1.725 cm2, 2.893 cm4, 1.519 cm3', () => {
    const section = tubeSection(38.1, 1.5);
    expect(section.areaMm2 / 100).toBeCloseTo(1.725, 3);
    expect(section.inertiaMm4 / 1e4).toBeCloseTo(2.893, 3);
    expect(section.modulusMm3 / 1e3).toBeCloseTo(1.519, 3);
  });

  test('EN section table: 48.3 x 3.2 is 11.59 cm4, not the 12.2 of some public tables', () => {
    expect(tubeSection(48.3, 3.2).inertiaMm4 / 1e4).toBeCloseTo(11.59, 2);
  });
});
