/**
 * A level beam that may be bent in plan (a straight, an arc, a straight), under vertical loads and couples: reactions, bending,
 * torsion, slope and deflection. A load beside the line through a bent beam's supports twists it as well as bends it; a straight
 * beam is the bend of no angle.
 *
 * The section at s turns by a small vector (ax, ay) in plan and sinks by w. With t the tangent, n its left normal, M the moment of
 * all loads before s about the section (a vector in plan) and F their force:
 *   F' = -q,   M' = F (-t.y, t.x),   a' = -(M.t / GJ) t - (M.n / EI) n,   w' = a x t
 * (equilibrium and Hooke's law of each slice). F and M are closed forms; a and w are their integrals, by Gauss's rule on
 * stretches no longer than a quarter radian. Supports are what the state at the start and the reactions have to fit: linear.
 *
 * Units:  any that fit together; here N, mm, N mm. Angles in radians.
 * Sign:   along the beam from its start; forces downwards > 0, reactions upwards > 0; deflection upwards > 0 (a sag is below 0);
 *         moments that sag the beam > 0; couples and torsion by the right hand, torsion as what the part before s hands on.
 * Exact:  for small turns, a thin bar (bend radius far above the tube's) and no shear deformation: the theory of the handbooks'
 *         tables. Gauss's rule is exact on straights; on arcs its error is below 1e-10 of the deflection. A hump of the line that
 *         begins and ends between two stops (an eighth of the length at most) may be missed in lowest and highest.
 * Inputs: finite; 0 <= at <= length, held to it; supports at different places; stiffnesses > 0.
 * Source: Machinery's Handbook, 31st ed., beam deflections, for straight ones; for bent ones the equations above, which any text on
 *         curved beams loaded normal to their plane has.
 */
import { type CentreLine, headingAlong, lineLength, pointAlong } from '../geometry/arcsLine.ts';
import { equivalentMoment } from './tubeSection.ts';

export interface BeamLoad {
  readonly at: number;
  readonly force: number;
  /** About x and y of the plan. */
  readonly couple?: readonly [number, number];
}

/** 'up': carries, and lets the beam turn. 'grip': holds it against twisting too. 'fixed': holds it altogether. */
export interface Support {
  readonly at: number;
  readonly holds: 'up' | 'grip' | 'fixed';
}

export interface Beam {
  /** In plan. */
  readonly line: CentreLine;
  /** EI: Young's modulus times second moment of area. */
  readonly bending: number;
  /** GJ: shear modulus times the section's torsion constant. */
  readonly torsion: number;
  readonly supports: readonly Support[];
  readonly loads: readonly BeamLoad[];
  /** Force per length over the whole beam, its own weight say. */
  readonly uniform: number;
}

export interface BeamState {
  readonly shear: number;
  readonly moment: number;
  readonly torsion: number;
  readonly slope: number;
  readonly deflection: number;
}

export interface Extreme {
  readonly at: number;
  readonly value: number;
}

export interface Reaction {
  /** Upwards > 0; below 0 where the beam would lift off. */
  readonly force: number;
  /** What it holds against: about x and y of the plan, and of that about the tube's own axis. */
  readonly couple: readonly [number, number];
  readonly twist: number;
}

export interface SolvedBeam {
  readonly reactions: readonly Reaction[];
  /** At a load's own place, just beyond it. */
  at(along: number): BeamState;
  /** The lowest and the highest place of the bent beam. */
  readonly lowest: Extreme;
  readonly highest: Extreme;
  /** The largest bending and torsion together (equivalentMoment). */
  readonly mostMoment: Extreme;
}

/** Gauss's rule of four points on [0, 1]: exact to the seventh degree. Source: any table of it. */
const GAUSS_AT = [0.06943184420297371, 0.33000947820757187, 0.6699905217924281, 0.9305681557970263];
const GAUSS_WEIGHT = [0.17392742256872692, 0.3260725774312731, 0.3260725774312731, 0.17392742256872692];

const MOST_TURN = 0.25;
const LEAST_STRETCHES = 8;
/** Steps towards the place where something changes its sign, and when that is near enough: a part of the stretch. */
const STEPS = 60;
const NEAR = 1e-12;

/** Of each of Gauss's points and then of the end: tangent, offset from the stretch's start, lever of a uniform load before it. */
const SPOT = 6;
const END = 4 * SPOT;
const SPOTS = 5 * SPOT;

/** A stretch of one curvature in a row of numbers: where it starts and how long it is, its tangent there (c, n), its curvature, its spots. */
const AT = 0;
const LONG = 1;
const TANGENT = 2;
const CURVE = 4;
const SPOTS_AT = 5;
const ROW = SPOTS_AT + SPOTS;

/** F, Mx, My, ax, ay, w: the beam just beyond a place. States of a whole beam stand one after another. */
const STATE = 6;

/** Fills in a place `u` from a stretch's start. */
function spotInto(out: Float64Array, o: number, c: number, n: number, curve: number, u: number): void {
  if (curve === 0) {
    out[o] = c;
    out[o + 1] = n;
    out[o + 2] = c * u;
    out[o + 3] = n * u;
    out[o + 4] = c * -(u * u) * 0.5;
    out[o + 5] = n * -(u * u) * 0.5;
    return;
  }
  const a = curve * u;
  const aa = a * a;
  // sin(a)/a, (1 - cos a)/a2 and (a - sin a)/a3 as series, which keep their digits for slight bends; |a| <= MOST_TURN.
  const s1 = 1 - (aa / 6) * (1 - (aa / 20) * (1 - (aa / 42) * (1 - aa / 72)));
  const c2 = (1 - (aa / 12) * (1 - (aa / 30) * (1 - (aa / 56) * (1 - aa / 90)))) / 2;
  const s3 = (1 - (aa / 20) * (1 - (aa / 42) * (1 - (aa / 72) * (1 - aa / 110)))) / 6;
  const sin = a * s1;
  const cos = 1 - aa * c2;
  const along = u * s1;
  const aside = u * a * c2;
  // Where all of [0, u] lies, less u times the place itself: the integral of r(v) - r(u).
  const alongSum = u * u * c2 - u * along;
  const asideSum = u * u * a * s3 - u * aside;
  out[o] = c * cos - n * sin;
  out[o + 1] = n * cos + c * sin;
  out[o + 2] = c * along - n * aside;
  out[o + 3] = n * along + c * aside;
  out[o + 4] = c * alongSum - n * asideSum;
  out[o + 5] = n * alongSum + c * asideSum;
}

function spotsInto(out: Float64Array, o: number, c: number, n: number, curve: number, u: number): void {
  for (let g = 0; g < 4; g++) spotInto(out, o + g * SPOT, c, n, curve, u * GAUSS_AT[g]);
  spotInto(out, o + END, c, n, curve, u);
}

/** What a beam is made of, as the marching needs it. */
interface Stiff {
  readonly bending: number;
  readonly torsion: number;
  readonly uniform: number;
}

/** The state `u` further on, at the end of the spots at `p`, from the state at `f` of `from`. */
function advance(
  out: Float64Array,
  o: number,
  from: Float64Array,
  f: number,
  spots: Float64Array,
  p: number,
  u: number,
  stiff: Stiff,
): void {
  const { bending, torsion, uniform } = stiff;
  const force = from[f];
  const mx = from[f + 1];
  const my = from[f + 2];
  const end = p + END;
  const endX = spots[end + 2];
  const endY = spots[end + 3];
  let ax = from[f + 3];
  let ay = from[f + 4];
  let w = from[f + 5] + ax * endY - ay * endX;
  const soft = 1 / bending;
  const softer = 1 / torsion - soft;
  for (let g = 0; g < 4; g++) {
    const k = p + g * SPOT;
    const tx = spots[k];
    const ty = spots[k + 1];
    const dx = spots[k + 2];
    const dy = spots[k + 3];
    const px = mx - dy * force - uniform * spots[k + 5];
    const py = my + dx * force + uniform * spots[k + 4];
    const twisting = (px * tx + py * ty) * softer;
    const turnX = -(px * soft + twisting * tx) * GAUSS_WEIGHT[g] * u;
    const turnY = -(py * soft + twisting * ty) * GAUSS_WEIGHT[g] * u;
    ax += turnX;
    ay += turnY;
    w += turnX * (endY - dy) - turnY * (endX - dx);
  }
  out[o] = force - uniform * u;
  out[o + 1] = mx - endY * force - uniform * spots[end + 5];
  out[o + 2] = my + endX * force + uniform * spots[end + 4];
  out[o + 3] = ax;
  out[o + 4] = ay;
  out[o + 5] = w;
}

/** Where the stretches of a beam begin, and its end: stops at loads, supports, ends of the bend, and no longer than the two bounds above. */
function startsOf({ before, radius, angle }: CentreLine, length: number, places: readonly number[]): number[] {
  const bendEnd = angle === 0 ? before : before + radius * Math.abs(angle);
  const stops = [0, length, before, bendEnd, ...places].filter((s) => s >= 0 && s <= length).sort((a, b) => a - b);
  const starts: number[] = [];
  for (let k = 1; k < stops.length; k++) {
    const from = stops[k - 1];
    const to = stops[k];
    if (to === from) continue;
    const bent = angle !== 0 && from >= before && to <= bendEnd;
    const span = to - from;
    const parts = Math.ceil(Math.max((span / length) * LEAST_STRETCHES, bent ? span / radius / MOST_TURN : 0));
    const h = span / parts;
    for (let part = 0; part < parts; part++) starts.push(from + part * h);
  }
  starts.push(length);
  return starts;
}

/** Fills in the rows of a beam's stretches. */
function layRows(out: Float64Array, line: CentreLine, starts: readonly number[]): void {
  const { before, radius, angle } = line;
  const bendEnd = before + radius * Math.abs(angle);
  let heading = Number.NaN;
  let c = 0;
  let n = 0;
  for (let k = 0; k + 1 < starts.length; k++) {
    const s = starts[k];
    const h = starts[k + 1] - s;
    const isBent = angle !== 0 && s + h / 2 > before && s + h / 2 < bendEnd;
    const turned = headingAlong(line, s);
    if (turned !== heading) {
      heading = turned;
      c = Math.cos(heading);
      n = Math.sin(heading);
    }
    const row = k * ROW;
    out[row + AT] = s;
    out[row + LONG] = h;
    out[row + TANGENT] = c;
    out[row + TANGENT + 1] = n;
    out[row + CURVE] = isBent ? Math.sign(angle) / radius : 0;
    spotsInto(out, row + SPOTS_AT, c, n, out[row + CURVE], h);
  }
}

/** Lent to one question at a time: a state within a stretch, and its spots. Nothing foreign is called while they are in use. */
const here = new Float64Array(STATE);
const lent = new Float64Array(SPOTS);

/** Pivots of a beam that stands are far above this, of one that turns freely below; all unknowns are scaled to about 1. */
const LOOSE = 1e-9;

/**
 * Solves n equations, a row each with its right side as its last number, by Gauss's way with pivots. The rows change places, and the
 * last number of the k-th is the k-th unknown then. False: they do not settle it.
 */
function settles(order: Float64Array[], n: number): boolean {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(order[i][k]) > Math.abs(order[pivot][k])) pivot = i;
    if (!(Math.abs(order[pivot][k]) > LOOSE)) return false;
    const row = order[pivot];
    order[pivot] = order[k];
    order[k] = row;
    for (let i = k + 1; i < n; i++) {
      const other = order[i];
      const share = other[k] / row[k];
      if (share === 0) continue;
      for (let j = k; j <= n; j++) other[j] -= share * row[j];
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    const row = order[k];
    for (let j = k + 1; j < n; j++) row[n] -= row[j] * order[j][n];
    row[n] /= row[k];
  }
  return true;
}

/** A load at the start of a stretch, or (of their count) at the far end. */
interface StopLoad {
  readonly stop: number;
  readonly force: number;
  readonly cx: number;
  readonly cy: number;
}

/** What a support does to the beam and is not known: a force upwards, or a couple in this direction. */
interface Unknown {
  readonly support: number;
  readonly couple: readonly [number, number] | null;
}

/** Solves a beam. See the head of this file. Throws: RangeError if its supports leave it loose, or it has no stiffness. */
export function solveBeam(beam: Beam): SolvedBeam {
  const { line, bending, torsion, uniform } = beam;
  if (!(bending > 0 && torsion > 0)) throw new RangeError('A beam needs a stiffness above 0.');
  const length = lineLength(line);
  const held = (at: number): number => Math.min(Math.max(at, 0), length);
  const supportAt = beam.supports.map(({ at }) => held(at));
  const starts = startsOf(line, length, [...beam.loads.map(({ at }) => held(at)), ...supportAt]);
  const n = starts.length - 1;
  // All numbers of a beam in one list: its stretches, then the states at the start of each and at the end: those asked for, and a column's.
  const numbers = new Float64Array(n * ROW + 2 * (n + 1) * STATE);
  const statesAt = n * ROW;
  const columnAt = statesAt + (n + 1) * STATE;
  layRows(numbers, line, starts);
  const stopAt = (s: number): number => {
    let k = 0;
    while (k < n && starts[k] < s) k++;
    return k;
  };
  const loads = beam.loads.map(
    ({ at, force, couple }): StopLoad => ({
      stop: stopAt(held(at)),
      force,
      cx: couple?.[0] ?? 0,
      cy: couple?.[1] ?? 0,
    }),
  );
  const supportStop = supportAt.map(stopAt);
  const headings = supportAt.map((at) => headingAlong(line, at));

  /** The states at the start of each stretch and at the end, loads there included, from what stands in the first of them. */
  const march = (base: number, acting: readonly StopLoad[], stiff: Stiff, first = 0): void => {
    for (let k = first; k <= n; k++) {
      const o = base + k * STATE;
      for (const { stop, force, cx, cy } of acting) {
        if (stop !== k) continue;
        numbers[o] -= force;
        numbers[o + 1] += cx;
        numbers[o + 2] += cy;
      }
      if (k < n) advance(numbers, o + STATE, numbers, o, numbers, k * ROW + SPOTS_AT, numbers[k * ROW + LONG], stiff);
    }
  };

  // What is not known: how the start turns and sinks, and each support's reactions; in units that make them all about 1.
  const unitForce = bending / length ** 3;
  const unitCouple = unitForce * length;
  const unknowns: Unknown[] = [];
  beam.supports.forEach(({ holds }, support) => {
    const c = Math.cos(headings[support]);
    const s = Math.sin(headings[support]);
    unknowns.push({ support, couple: null });
    if (holds !== 'up') unknowns.push({ support, couple: [c, s] });
    if (holds === 'fixed') unknowns.push({ support, couple: [-s, c] });
  });
  const asLoad = ({ support, couple }: Unknown, part: number): StopLoad => ({
    stop: supportStop[support],
    force: couple ? 0 : -unitForce * part,
    cx: couple ? couple[0] * unitCouple * part : 0,
    cy: couple ? couple[1] * unitCouple * part : 0,
  });
  // A support does not sink, and does not turn as far as it holds; beyond the far end nothing is left over. One equation a row.
  const count = unknowns.length + 3;
  const rows = Array.from({ length: count }, () => new Float64Array(count + 1));
  const tell = (column: number, sign: number): void => {
    unknowns.forEach(({ support, couple }, i) => {
      const o = columnAt + supportStop[support] * STATE;
      const value = couple ? (couple[0] * numbers[o + 3] + couple[1] * numbers[o + 4]) * length : numbers[o + 5];
      rows[i][column] = sign * value;
    });
    const end = columnAt + n * STATE;
    rows[count - 3][column] = (sign * numbers[end]) / unitForce;
    rows[count - 2][column] = (sign * numbers[end + 1]) / unitCouple;
    rows[count - 1][column] = (sign * numbers[end + 2]) / unitCouple;
  };
  // The start turned about x, about y, and raised: the whole beam goes along, and nothing in it changes.
  const start = pointAlong(line, 0);
  unknowns.forEach(({ support, couple }, i) => {
    if (couple) {
      rows[i][0] = couple[0];
      rows[i][1] = couple[1];
      return;
    }
    const { x, y } = pointAlong(line, supportAt[support]);
    rows[i][0] = (y - start.y) / length;
    rows[i][1] = -(x - start.x) / length;
    rows[i][2] = 1;
  });
  const weightless: Stiff = { bending, torsion, uniform: 0 };
  unknowns.forEach((unknown, k) => {
    const load = asLoad(unknown, 1);
    numbers.fill(0, columnAt);
    march(columnAt, [load], weightless, load.stop);
    tell(3 + k, 1);
  });
  numbers.fill(0, columnAt);
  march(columnAt, loads, beam);
  tell(count, -1);
  if (!settles(rows, count))
    throw new RangeError('A beam needs supports at two different places, or one that holds it altogether.');
  const z = rows.map((row) => row[count]);
  const shares = z.slice(3);
  numbers[statesAt + 3] = z[0] / length;
  numbers[statesAt + 4] = z[1] / length;
  numbers[statesAt + 5] = z[2];
  march(statesAt, [...loads, ...unknowns.map((unknown, k) => asLoad(unknown, shares[k]))], beam);

  /** The state `u` from the start of a stretch, into `here`, and its place into `lent`. */
  const go = (k: number, u: number): void => {
    const row = k * ROW;
    spotsInto(lent, 0, numbers[row + TANGENT], numbers[row + TANGENT + 1], numbers[row + CURVE], u);
    advance(here, 0, numbers, statesAt + k * STATE, lent, 0, u, beam);
  };
  const slope = (): number => here[3] * lent[END + 1] - here[4] * lent[END];
  const moment = (): number => here[2] * lent[END] - here[1] * lent[END + 1];
  const twisting = (): number => here[1] * lent[END] + here[2] * lent[END + 1];
  const slopeAt = (k: number) => (u: number) => {
    go(k, u);
    return slope();
  };
  const momentAt = (k: number) => (u: number) => {
    go(k, u);
    return moment();
  };
  /** (M2 + 3/4 T2)' = 2 M times this, with M' = F - curve T and T' = curve M. */
  const growthAt = (k: number) => (u: number) => {
    go(k, u);
    return here[0] - (numbers[k * ROW + CURVE] * twisting()) / 4;
  };

  let lowest: Extreme = { at: 0, value: Number.POSITIVE_INFINITY };
  let highest: Extreme = { at: 0, value: Number.NEGATIVE_INFINITY };
  let mostMoment: Extreme = { at: 0, value: 0 };
  const offer = (at: number, value: number): void => {
    if (value < lowest.value) lowest = { at, value };
    if (value > highest.value) highest = { at, value };
  };
  const offerMoment = (at: number, bent: number, twisted: number): void => {
    const value = equivalentMoment(bent, twisted);
    if (value > mostMoment.value) mostMoment = { at, value };
  };
  for (let k = 0; k < n; k++) {
    const row = k * ROW;
    const s = numbers[row + AT];
    const h = numbers[row + LONG];
    const c = numbers[row + TANGENT];
    const aside = numbers[row + TANGENT + 1];
    const curve = numbers[row + CURVE];
    const end = row + SPOTS_AT + END;
    const o = statesAt + k * STATE;
    const force = numbers[o];
    const slope0 = numbers[o + 3] * aside - numbers[o + 4] * c;
    const moment0 = numbers[o + 2] * c - numbers[o + 1] * aside;
    const torsion0 = numbers[o + 1] * c + numbers[o + 2] * aside;
    const tx = numbers[end];
    const ty = numbers[end + 1];
    const slope1 = numbers[o + STATE + 3] * ty - numbers[o + STATE + 4] * tx;
    // At its end, before what acts there.
    const mx = numbers[o + 1] - numbers[end + 3] * force - uniform * numbers[end + 5];
    const my = numbers[o + 2] + numbers[end + 2] * force + uniform * numbers[end + 4];
    const moment1 = my * tx - mx * ty;
    const torsion1 = mx * tx + my * ty;
    offer(s, numbers[o + 5]);
    offerMoment(s, moment0, torsion0);
    offerMoment(s + h, moment1, torsion1);
    // The line is level where its slope changes its sign: once, or twice about the place where the bending does.
    const level = (lo: number, hi: number, a: number, b: number): void => {
      if (a < 0 === b < 0) return;
      const u = signChange(slopeAt(k), lo, hi, a, b);
      go(k, u);
      offer(s + u, here[5]);
    };
    let between = slope0;
    let turns = 0;
    if (moment0 < 0 !== moment1 < 0) {
      turns = signChange(momentAt(k), 0, h, moment0, moment1);
      go(k, turns);
      between = slope();
      // On a bend the twisting may be largest where the bending is none.
      offerMoment(s + turns, moment(), twisting());
      level(0, turns, slope0, between);
    }
    level(turns, h, between, slope1);
    const growth0 = force - (curve * torsion0) / 4;
    const growth1 = force - uniform * h - (curve * torsion1) / 4;
    if (growth0 < 0 !== growth1 < 0) {
      const u = signChange(growthAt(k), 0, h, growth0, growth1);
      go(k, u);
      offerMoment(s + u, moment(), twisting());
    }
  }
  offer(length, numbers[statesAt + n * STATE + 5]);

  return {
    reactions: beam.supports.map((_, support): Reaction => {
      let force = 0;
      let cx = 0;
      let cy = 0;
      for (const [k, unknown] of unknowns.entries()) {
        if (unknown.support !== support) continue;
        const load = asLoad(unknown, shares[k]);
        force -= load.force;
        cx += load.cx;
        cy += load.cy;
      }
      const twist = cx * Math.cos(headings[support]) + cy * Math.sin(headings[support]);
      return { force, couple: [cx, cy], twist };
    }),
    at(along) {
      let k = 0;
      while (k + 1 < n && starts[k + 1] <= along) k++;
      go(k, Math.min(Math.max(along - starts[k], 0), numbers[k * ROW + LONG]));
      return { shear: here[0], moment: moment(), torsion: twisting(), slope: slope(), deflection: here[5] };
    },
    lowest,
    highest,
    mostMoment,
  };
}

/** Where f changes its sign between lo and hi, at which it is a and b (regula falsi, the Illinois way). */
function signChange(f: (u: number) => number, lo: number, hi: number, a: number, b: number): number {
  const near = NEAR * (hi - lo);
  let last = lo;
  let side = 0;
  for (let k = 0; k < STEPS; k++) {
    const u = (lo * b - hi * a) / (b - a);
    if (Math.abs(u - last) <= near) return u;
    last = u;
    const value = f(u);
    if (value < 0 === a < 0) {
      lo = u;
      a = value;
      // An end that stays twice counts half, or it would stay for good.
      if (side === 1) b /= 2;
      side = 1;
    } else {
      hi = u;
      b = value;
      if (side === 2) a /= 2;
      side = 2;
    }
  }
  return last;
}
