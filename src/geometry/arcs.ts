/**
 * A curved tube's measures, each from the others: cut length along the centre line, bend radius, chord between the
 * ends, rise of the middle above the chord, and a straight of equal length at each end (0 for none).
 *
 * Half the angle is phi, the bent length is A = length - 2 straight = 2 radius phi, and so
 *   chord = 2 radius sin(phi) + 2 straight cos(phi),   rise = radius (1 - cos(phi)) + straight sin(phi).
 *
 * Units:  mm and radians. A straight tube has angle 0, rise 0 and an infinite radius.
 * Exact:  chord with rise, and length with radius, are closed forms. Length with chord, and length with rise, have
 *         none: they are solved by Newton's method held in a bracket, to 1e-12 of phi.
 * Inputs: finite numbers, checked here, because people type them.
 * Throws: RangeError in words when no such tube exists.
 * Source: Machinery's Handbook, 31st ed., pp. 79 and 83 (straight = 0); the straight ends by the same right triangles.
 */
import { TAU } from './frame.ts';

export interface Bend {
  readonly length: number;
  readonly radius: number;
  /** Angle of the bend, 0 to 2 pi. */
  readonly angle: number;
  readonly chord: number;
  readonly rise: number;
  /** Length of the straight at each end. */
  readonly straight: number;
}

/** Steps of the bracketed Newton's method; halving alone would need 50 for the last digit. */
const MAX_STEPS = 100;

function need(condition: boolean, message: string): void {
  if (!condition) throw new RangeError(message);
}

function needLengths(straight: number, ...lengths: number[]): void {
  for (const value of lengths)
    need(Number.isFinite(value) && value >= 0, `A tube's measure must be 0 or more, not ${value}.`);
  need(Number.isFinite(straight) && straight >= 0, `A straight end must be 0 or longer, not ${straight}.`);
}

function straightTube(length: number, straight: number): Bend {
  return { length, radius: Number.POSITIVE_INFINITY, angle: 0, chord: length, rise: 0, straight };
}

/** Cut length, radius, straight ends -> angle, chord, rise. */
export function bendFromLengthRadius(length: number, radius: number, straight = 0): Bend {
  needLengths(straight, length);
  need(radius > 0, `A bend radius must be more than 0, not ${radius}.`);
  need(2 * straight <= length, 'The straight ends are longer than the tube.');
  if (radius === Number.POSITIVE_INFINITY || length === 2 * straight) return straightTube(length, straight);
  const angle = (length - 2 * straight) / radius;
  need(angle <= TAU, 'A tube this long would bend past a full turn at that radius.');
  return fromAngle(length, radius, angle, straight);
}

function fromAngle(length: number, radius: number, angle: number, straight: number): Bend {
  const phi = angle / 2;
  // 1 - cos(phi) as 2 sin(phi / 2) squared, which keeps its digits for slight bends.
  const rise = 2 * radius * Math.sin(phi / 2) ** 2 + straight * Math.sin(phi);
  const chord = 2 * radius * Math.sin(phi) + 2 * straight * Math.cos(phi);
  return { length, radius, angle, chord, rise, straight };
}

/**
 * Chord between the ends, rise of the middle, straight ends -> length, radius, angle.
 * With t = tan(phi / 2) the straights drop out of the rise: rise = t (chord / 2 + straight).
 */
export function bendFromChordRise(chord: number, rise: number, straight = 0): Bend {
  needLengths(straight, chord, rise);
  need(chord > 0 || rise > 0, 'A chord and a rise that are both 0 make no tube.');
  if (rise === 0) {
    need(2 * straight <= chord, 'The straight ends are longer than the tube.');
    return straightTube(chord, straight);
  }
  const t = rise / (chord / 2 + straight);
  const angle = 4 * Math.atan2(rise, chord / 2 + straight);
  // A full turn with no straights has no chord, and t is infinite.
  const radius = Number.isFinite(t) ? (rise * (1 + t * t) - 2 * straight * t) / (2 * t * t) : rise / 2;
  need(radius > 0, 'The straight ends are too long for that chord and rise.');
  return { length: radius * angle + 2 * straight, radius, angle, chord, rise, straight };
}

/** 1 - sin(x) / x, by its series where the difference would cancel. */
function oneLessSinc(x: number): number {
  if (x > 0.5) return 1 - Math.sin(x) / x;
  const q = x * x;
  // Terms up to x^14 / 15!: at 0.5 the next is 2e-19 of the first.
  let sum = 0;
  for (let k = 7; k >= 1; k--) sum = (q / (2 * k * (2 * k + 1))) * (1 - sum);
  return sum;
}

/** The slope of oneLessSinc(). */
function oneLessSincSlope(x: number): number {
  if (x > 0.5) return (Math.sin(x) / x - Math.cos(x)) / x;
  const q = x * x;
  let sum = 0;
  // The derivative of x^2k / (2k+1)!, with the signs in turn.
  for (let k = 7; k >= 1; k--) sum = (k === 1 ? x / 3 : q / ((2 * k - 2) * (2 * k + 1))) * (1 - sum);
  return sum;
}

/**
 * The x in [low, high] where a rising function reaches `goal`, by Newton's method; a step out of the bracket is
 * replaced by a halving, so it always ends. Inputs: value(low) <= goal <= value(high).
 */
function solveRising(
  value: (x: number) => number,
  slope: (x: number) => number,
  goal: number,
  low: number,
  high: number,
  guess: number,
): number {
  let x = Math.min(Math.max(guess, low), high);
  for (let step = 0; step < MAX_STEPS; step++) {
    const miss = value(x) - goal;
    if (miss === 0) return x;
    if (miss > 0) high = x;
    else low = x;
    const newton = x - miss / slope(x);
    const nextX = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(nextX - x) <= 1e-15 * Math.abs(x)) return nextX;
    x = nextX;
  }
  return x;
}

/** Cut length, chord, straight ends -> radius, angle, rise. The chord shrinks all the way from no bend to a full turn. */
export function bendFromLengthChord(length: number, chord: number, straight = 0): Bend {
  needLengths(straight, length, chord);
  need(length > 0, 'A tube needs a length.');
  need(chord <= length, 'A chord cannot be longer than the tube.');
  need(2 * straight <= length, 'The straight ends are longer than the tube.');
  if (chord === length) return straightTube(length, straight);
  const bent = length - 2 * straight;
  need(bent > 0, 'A tube with no bent part cannot have a shorter chord.');
  // What the chord lost, not the chord itself, so that slight bends keep their digits.
  const lost = (phi: number) => bent * oneLessSinc(phi) + 4 * straight * Math.sin(phi / 2) ** 2;
  const slope = (phi: number) => bent * oneLessSincSlope(phi) + 2 * straight * Math.sin(phi);
  // For slight bends lost = phi^2 (bent / 6 + straight).
  const guess = Math.sqrt((length - chord) / (bent / 6 + straight));
  const phi = solveRising(lost, slope, length - chord, 0, Math.PI, guess);
  return { ...fromAngle(length, bent / (2 * phi), 2 * phi, straight), chord };
}

/**
 * Cut length, rise, straight ends -> radius, angle, chord. The rise grows with the bend up to a largest (at 267
 * degrees without straights) and shrinks after it: of the two bends that share a rise, this is the lesser.
 */
export function bendFromLengthRise(length: number, rise: number, straight = 0): Bend {
  needLengths(straight, length, rise);
  need(length > 0, 'A tube needs a length.');
  need(2 * straight <= length, 'The straight ends are longer than the tube.');
  if (rise === 0) return straightTube(length, straight);
  const bent = length - 2 * straight;
  need(bent > 0, 'A tube with no bent part has no rise.');
  const riseAt = (phi: number) => (bent * Math.sin(phi / 2) ** 2) / phi + straight * Math.sin(phi);
  const slope = (phi: number) =>
    (bent * (phi * Math.sin(phi) - 2 * Math.sin(phi / 2) ** 2)) / (2 * phi * phi) + straight * Math.cos(phi);
  // The slope changes sign between a quarter turn and where it would without straights (2.3311...).
  const most = solveRising(
    (phi) => -slope(phi),
    () => 0,
    0,
    Math.PI / 2,
    2.34,
    2,
  );
  const largest = riseAt(most);
  need(rise <= largest, `A tube this long can rise no more than ${largest.toFixed(1)} mm.`);
  const guess = rise / (bent / 4 + straight);
  const phi = solveRising(riseAt, slope, rise, 0, most, guess);
  return { ...fromAngle(length, bent / (2 * phi), 2 * phi, straight), rise };
}

/** Tangent of a quarter of the angle: rise over half the chord of a plain arc; 0 straight, 1 a half turn. */
export function bulge(angle: number): number {
  return Math.tan(angle / 4);
}
