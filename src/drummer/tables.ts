/**
 * Sizes of the body, as published: the 5th, 50th and 95th percentile of men and of women, mm.
 *
 * Source: ANSUR II, Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007 (2014): its public data files
 * (4,082 men, 1,986 women), linear interpolation between ranks, unweighted; the report's own tables may differ by a millimetre or two.
 * Soldiers, barefoot, in little clothing. The shoulder's height is sitting height less stature plus acromial height, person by person;
 * the arm is upper arm plus forearm to the centre of grip.
 */
import type { Drummer } from '../plan/schema.ts';

export type Measure = keyof {
  [K in keyof NonNullable<Drummer['measuredMm']> as K extends `${string}Mm` ? K : never]: 0;
};

/** The 5th, 50th and 95th percentile. */
type Percentiles = readonly [number, number, number];

export const BODY_TABLE: Readonly<Record<Measure, Readonly<Record<Drummer['sex'], Percentiles>>>> = {
  // Sitting height.
  sittingMm: { man: [860, 918, 977], woman: [803, 857, 912] },
  // Acromion above the seat.
  shoulderMm: { man: [552, 603, 653], woman: [515, 564, 609] },
  // Biacromial breadth.
  shouldersMm: { man: [384, 415, 447], woman: [335, 365, 396] },
  // Upper arm and forearm to the centre of grip; forearm to the centre of grip.
  armMm: { man: [631, 684, 740], woman: [577, 627, 684] },
  forearmMm: { man: [320, 349, 379], woman: [290, 316, 350] },
  // Hip breadth, sitting.
  hipMm: { man: [333, 378, 431], woman: [348, 397, 456] },
  // Thigh clearance.
  thighMm: { man: [157, 180, 207], woman: [145, 167, 191] },
  // Buttock-knee length.
  buttockKneeMm: { man: [569, 617, 669], woman: [541, 589, 646] },
  // Knee height, sitting; popliteal height.
  kneeMm: { man: [509, 553, 602], woman: [469, 510, 557] },
  poplitealMm: { man: [390, 430, 471], woman: [350, 387, 428] },
  // Foot length; foot breadth.
  footMm: { man: [250, 271, 293], woman: [226, 246, 268] },
  footBreadthMm: { man: [94, 102, 111], woman: [85, 93, 101] },
};

export const MEASURES = Object.keys(BODY_TABLE) as readonly Measure[];
