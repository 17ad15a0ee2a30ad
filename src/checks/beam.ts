/**
 * A straight beam on two supports, with ends that stand out beyond them: reactions, shear, bending moment, slope and
 * deflection under point loads and a uniform load, in closed form (Macaulay's method).
 *
 * Between two loads the shear is linear in x, and moment, slope and deflection follow by integration:
 * EI y'' = M. So each stretch is four polynomials, and extremes are found at stops of polynomials, not by sampling.
 *
 * Units:  any that fit together; here N, mm, MPa (N/mm2), mm4. Slopes in radians.
 * Sign:   x along the beam from its start; forces downwards > 0; deflection upwards > 0 (so a sag is below 0); moments
 *         that sag the beam > 0.
 * Exact:  for small slopes and no shear deformation: the theory of the handbooks' tables. Rounding about 1e-12 of the largest part.
 * Inputs: finite; 0 <= x <= length; supports at different places; E I > 0. Loads beyond the ends are held to them.
 * Source: Machinery's Handbook, 31st ed., beam deflections.
 */
import { rootsIn } from '../geometry/roots.ts';

export interface PointLoad {
  readonly x: number;
  readonly force: number;
}

export interface Beam {
  readonly length: number;
  /** Young's modulus times second moment of area. */
  readonly stiffness: number;
  /** Two places that carry up and down but let the beam turn. */
  readonly supports: readonly [number, number];
  readonly points: readonly PointLoad[];
  /** Force per length over the whole beam, its own weight say. */
  readonly uniform: number;
}

export interface BeamState {
  readonly shear: number;
  readonly moment: number;
  readonly slope: number;
  readonly deflection: number;
}

export interface Extreme {
  readonly x: number;
  readonly value: number;
}

export interface SolvedBeam {
  /** Of the supports, upwards > 0; below 0 where the beam would lift off. */
  readonly reactions: readonly [number, number];
  /** At x; at a load's own place, just beyond it. */
  at(x: number): BeamState;
  /** The lowest and the highest place of the bent beam. */
  readonly lowest: Extreme;
  readonly highest: Extreme;
  /** The bending moment of the largest size, with its sign. */
  readonly mostMoment: Extreme;
}

/** From x on: polynomials in (place - x), coefficients by rising power. */
interface Stretch {
  readonly x: number;
  readonly to: number;
  readonly moment: readonly number[];
  readonly slope: readonly number[];
  readonly deflection: readonly number[];
}

function polynomialAt(p: readonly number[], x: number): number {
  let y = 0;
  for (let k = p.length - 1; k >= 0; k--) y = y * x + p[k];
  return y;
}

const integrated = (p: readonly number[], start: number): number[] => [start, ...p.map((c, k) => c / (k + 1))];

/** Bounds of mayLeave(), which never leave this file. */
const bound = new Float64Array(5);

/**
 * Whether a polynomial of degree 4 at most may leave [low, high] somewhere in [0, end]: false is certain. Source: it lies between
 * the least and the largest of its Bernstein coefficients (Farouki and Rajan 1987).
 */
function mayLeave(p: readonly number[], end: number, low: number, high: number): boolean {
  const n = p.length - 1;
  let power = 1;
  let ways = 1;
  for (let k = 0; k <= n; k++) {
    bound[k] = (p[k] * power) / ways;
    power *= end;
    ways = (ways * (n - k)) / (k + 1);
  }
  for (let pass = 1; pass <= n; pass++) for (let k = n; k >= pass; k--) bound[k] += bound[k - 1];
  for (let k = 0; k <= n; k++) if (bound[k] < low || bound[k] > high) return true;
  return false;
}

/** Solves a beam. See the head of this file. Throws: RangeError if its supports are one place, or it has no stiffness. */
export function solveBeam(beam: Beam): SolvedBeam {
  const { length, stiffness, uniform } = beam;
  const [a, b] = beam.supports;
  if (!(stiffness > 0)) throw new RangeError('A beam needs a stiffness above 0.');
  const held = (x: number) => Math.min(Math.max(x, 0), length);
  const points = beam.points.map(({ x, force }) => ({ x: held(x), force }));
  if (a === b) throw new RangeError('A beam needs two supports at different places.');

  // Equilibrium: all loads' force, and their moment about the first support.
  const force = points.reduce((sum, load) => sum + load.force, uniform * length);
  const aboutA = points.reduce((sum, load) => sum + load.force * (load.x - a), 0) + uniform * length * (length / 2 - a);
  const atB = aboutA / (b - a);
  const atA = force - atB;

  // March along the beam with the deflection and slope of its start left at 0, then tilt and lift it onto its supports.
  const acting = [...points, { x: a, force: -atA }, { x: b, force: -atB }];
  const stops = [...new Set([0, length, ...acting.map((load) => load.x)])].sort((p, q) => p - q);
  let shear = 0;
  let moment = 0;
  const raw: Stretch[] = [];
  let slope = 0;
  let deflection = 0;
  for (let k = 0; k < stops.length; k++) {
    const x = stops[k];
    for (const load of acting) if (load.x === x) shear -= load.force;
    const to = stops[k + 1] ?? x;
    const momentLine = [moment, shear, -uniform / 2];
    const slopeLine = integrated(
      momentLine.map((c) => c / stiffness),
      slope,
    );
    const deflectionLine = integrated(slopeLine, deflection);
    raw.push({ x, to, moment: momentLine, slope: slopeLine, deflection: deflectionLine });
    const step = to - x;
    moment = polynomialAt(momentLine, step);
    slope = polynomialAt(slopeLine, step);
    deflection = polynomialAt(deflectionLine, step);
    shear -= uniform * step;
  }
  const stretchAt = (list: readonly Stretch[], x: number): Stretch => {
    let best = list[0];
    for (const each of list) if (each.x <= x) best = each;
    return best;
  };
  const rawDeflection = (x: number) => {
    const stretch = stretchAt(raw, x);
    return polynomialAt(stretch.deflection, x - stretch.x);
  };
  const tilt = -(rawDeflection(b) - rawDeflection(a)) / (b - a);
  const lift = -rawDeflection(a) - tilt * a;
  const stretches = raw.map((stretch): Stretch => {
    const slopeLine = [...stretch.slope];
    slopeLine[0] += tilt;
    const deflectionLine = [...stretch.deflection];
    deflectionLine[0] += lift + tilt * stretch.x;
    deflectionLine[1] += tilt;
    return { ...stretch, slope: slopeLine, deflection: deflectionLine };
  });

  let lowest: Extreme = { x: 0, value: Number.POSITIVE_INFINITY };
  let highest: Extreme = { x: 0, value: Number.NEGATIVE_INFINITY };
  let mostMoment: Extreme = { x: 0, value: 0 };
  const offer = ({ x, deflection: line }: Stretch, step: number) => {
    const value = polynomialAt(line, step);
    if (value < lowest.value) lowest = { x: x + step, value };
    if (value > highest.value) highest = { x: x + step, value };
  };
  const offerMoment = ({ x, moment: line }: Stretch, step: number) => {
    const value = polynomialAt(line, step);
    if (Math.abs(value) > Math.abs(mostMoment.value)) mostMoment = { x: x + step, value };
  };
  for (const stretch of stretches) {
    for (const step of [0, stretch.to - stretch.x]) {
      offer(stretch, step);
      offerMoment(stretch, step);
    }
  }
  // Between its ends most stretches stay within what the ends reach, and their stops need not be found.
  for (const stretch of stretches) {
    const end = stretch.to - stretch.x;
    if (mayLeave(stretch.deflection, end, lowest.value, highest.value))
      for (const step of rootsIn(stretch.slope, 0, end)) offer(stretch, step);
    const most = Math.abs(mostMoment.value);
    const [, atStart, curve] = stretch.moment;
    if (mayLeave(stretch.moment, end, -most, most))
      for (const step of rootsIn([atStart, 2 * curve], 0, end)) offerMoment(stretch, step);
  }
  return {
    reactions: [atA, atB],
    at(x) {
      const stretch = stretchAt(stretches, x);
      const step = x - stretch.x;
      return {
        shear: stretch.moment[1] + 2 * stretch.moment[2] * step,
        moment: polynomialAt(stretch.moment, step),
        slope: polynomialAt(stretch.slope, step),
        deflection: polynomialAt(stretch.deflection, step),
      };
    },
    lowest,
    highest,
    mostMoment,
  };
}

export interface Section {
  readonly areaMm2: number;
  /** Second moment of area about any diameter. */
  readonly inertiaMm4: number;
  /** Elastic section modulus: bending stress is moment over this. */
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

/**
 * Stress at which a plain tube begins to bend for good, MPa: steel 235 (the lowest usual structural grade), aluminium 160 and
 * stainless 200. Common practice, no source: the grade of a rack's tube is seldom known, so these are low.
 */
export const YIELD_MPA = { steel: 235, aluminium: 160, stainless: 200 } as const;
