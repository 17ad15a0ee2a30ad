/** What a round tube is to a beam: its section, and its material's stiffness and strength. mm, MPa (N/mm2). */

export interface Section {
  readonly areaMm2: number;
  /** Second moment of area about any diameter; against twisting a round tube has twice that. */
  readonly inertiaMm4: number;
  /** Elastic section modulus: bending stress is moment over this; stress of twisting is torque over twice this. */
  readonly modulusMm3: number;
}

/**
 * A round tube's section. Inputs: a wall of half the outside diameter or more makes a solid bar.
 * Source: pi (D^4 - d^4) / 64; the section tables of EN 10210-2 and 10219-2. Some public tables are wrong (tests/outside/beam).
 */
export function tubeSection(outsideMm: number, wallMm: number): Section {
  const inside = Math.max(0, outsideMm - 2 * wallMm);
  const inertiaMm4 = (Math.PI / 64) * (outsideMm ** 4 - inside ** 4);
  return {
    areaMm2: (Math.PI / 4) * (outsideMm ** 2 - inside ** 2),
    inertiaMm4,
    modulusMm3: inertiaMm4 / (outsideMm / 2),
  };
}

/**
 * Young's moduli, MPa. Steel 210, aluminium 70 and stainless 200 GPa: the usual engineering values (common
 * practice, no source).
 */
export const YOUNG_MPA = { steel: 210_000, aluminium: 70_000, stainless: 200_000 } as const;

/** Shear moduli, MPa: E / 2(1 + nu) with Poisson's ratio 0.3, of aluminium 0.33 (common practice, no source). */
export const SHEAR_MPA = { steel: 210_000 / 2.6, aluminium: 70_000 / 2.66, stainless: 200_000 / 2.6 } as const;

/**
 * Stress at which a plain tube begins to bend for good, MPa: steel 235 (the lowest usual structural grade), aluminium 160 and
 * stainless 200. Common practice, no source: the grade of a rack's tube is seldom known, so these are low.
 */
export const YIELD_MPA = { steel: 235, aluminium: 160, stainless: 200 } as const;

/** Bending and torsion of a round tube as one stress: von Mises, sqrt(s2 + 3 t2) with s = M/W and t = T/2W. */
export const equivalentMoment = (bending: number, torsion: number): number =>
  Math.sqrt(bending * bending + 0.75 * torsion * torsion);
