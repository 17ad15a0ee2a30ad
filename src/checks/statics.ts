/**
 * Bodies at rest: mass centres, how far a thing is from tipping, which push tips or slides it, and what each foot carries.
 *
 * Units:  mm, kg, N, radians; x to the right, y upstage, z up.
 * Source: Baker and Haynes, Engineering Statics, 9.2 (slipping against tipping); OpenStax University Physics vol. 1, 12.1
 *         and 12.2 (mass centre over the base, torque balance).
 */
import { pointsOf } from '../gather.ts';
import { roundsOf, upperEnvelope } from '../geometry/envelope.ts';
import { TAU, wrapAngle } from '../geometry/frame.ts';
import type { Swept } from '../geometry/shapes.ts';

/** Standard gravity, m/s2: so many N a kg weighs. */
export const GRAVITY = 9.80665;

export interface PointMass {
  readonly massKg: number;
  readonly at: readonly [number, number, number];
}

/** All masses as one, at their common centre. Null when nothing has mass. */
export function massCentre(masses: readonly PointMass[]): PointMass | null {
  let massKg = 0;
  let x = 0;
  let y = 0;
  let z = 0;
  for (const each of masses) {
    massKg += each.massKg;
    x += each.massKg * each.at[0];
    y += each.massKg * each.at[1];
    z += each.massKg * each.at[2];
  }
  return massKg > 0 ? { massKg, at: [x / massKg, y / massKg, z / massKg] } : null;
}

export interface TipMargin {
  /** Distance in plan from the mass centre to the nearest tipping line. < 0: it lies this far outside its feet and falls. */
  readonly marginMm: number;
  /** The direction in which it falls first. */
  readonly directionRad: number;
}

/**
 * Distance from a point to the edge of the support polygon: the convex hull of all floor contacts. A contact counts with its
 * whole outline (Body.touchesFloor says so), so a foot bar's own width and the rubber tip's radius help.
 *
 * The hull reaches h(u) in direction u; the point is h(u) - p.u from that tangent. The least of all directions is the distance
 * to the edge from within, and minus the distance to the hull from outside. In the stretch of directions where one round is
 * farthest out it is r + (c - p).u, a cosine, whose least value is at an end of the stretch or opposite to c - p.
 *
 * Exact:  closed form, relative error about 1e-15. Null without contacts.
 */
export function tipMargin(contacts: readonly Swept[], x: number, y: number): TipMargin | null {
  let best: TipMargin | null = null;
  for (const { from, to, round } of upperEnvelope(roundsOf(contacts))) {
    const dx = round.x - x;
    const dy = round.y - y;
    const distance = Math.hypot(dx, dy);
    const offer = (directionRad: number) => {
      const marginMm = round.r + dx * Math.cos(directionRad) + dy * Math.sin(directionRad);
      if (!best || marginMm < best.marginMm) best = { marginMm, directionRad: wrapAngle(directionRad) };
    };
    offer(from);
    offer(to);
    const opposite = Math.atan2(-dy, -dx);
    if (distance > 0 && wrapAngle(opposite - from) <= to - from && to - from <= TAU) {
      // Here the cosine is -1: r - |c - p| without the rounding of sines.
      const marginMm = round.r - distance;
      if (!best || marginMm < (best as TipMargin).marginMm) best = { marginMm, directionRad: wrapAngle(opposite) };
    }
  }
  return best;
}

/** How far the floor may tilt before it tips: the angle at which the mass centre stands over the tipping line. */
export const tipAngle = (marginMm: number, centreHeightMm: number): number => Math.atan2(marginMm, centreHeightMm);

/** The level push at a height that puts all weight on the tipping line, N. 0 if it falls by itself. */
export const tipPush = (massKg: number, marginMm: number, heightMm: number): number =>
  Math.max(0, (massKg * GRAVITY * marginMm) / heightMm);

/** The level push at which it slides, N: friction times weight, wherever the push is. */
export const slidePush = (massKg: number, friction: number): number => friction * massKg * GRAVITY;

export interface PushAnswer {
  readonly tipN: number;
  readonly slideN: number;
  /** What happens first as the push grows; even: tipping, the worse one. */
  readonly first: 'tips' | 'slides';
  /** Pushed below this height it slides, above it tips. */
  readonly turnoverHeightMm: number;
}

/** Slipping or tipping: the smaller push governs. Inputs: heightMm > 0, friction >= 0. */
export function pushed(massKg: number, marginMm: number, heightMm: number, friction: number): PushAnswer {
  const tipN = tipPush(massKg, marginMm, heightMm);
  const slideN = slidePush(massKg, friction);
  return {
    tipN,
    slideN,
    first: slideN < tipN ? 'slides' : 'tips',
    turnoverHeightMm: friction > 0 ? Math.max(0, marginMm) / friction : Number.POSITIVE_INFINITY,
  };
}

/** Where a contact presses on the floor: its own point, a foot bar's two ends, a plate's corners. */
export function supportPoints({ core }: Swept): readonly (readonly [number, number])[] {
  switch (core.kind) {
    case 'point':
      return [[core.x, core.y]];
    case 'segment':
      return [
        [core.x0, core.y0],
        [core.x1, core.y1],
      ];
    case 'polygon':
      return pointsOf(core.points);
    case 'arc':
      return [0, 0.5, 1].map((share) => {
        const angle = core.start + core.sweep * share;
        return [core.cx + core.r * Math.cos(angle), core.cy + core.r * Math.sin(angle)] as const;
      });
  }
}

/** A support this near to the load is right under it, mm: rounding of places that were turned and shifted. */
const RIGHT_UNDER = 1e-6;
/** More steps than any set of feet needs (a handful do); a bound so that a load off its feet ends. */
const NEWTON_STEPS = 100;
/** Of the load: forces and moments that balance this well are in balance. Far above rounding, far below a gram. */
const BALANCED = 1e-9;

/**
 * What each support carries of a load at (x, y).
 *
 * Three supports not in line, and two with the load between them: from equilibrium alone, exact. More supports: a rigid frame
 * on equal springs (feet of one kind on an even deck), which may lift but not pull: each carries max(0, a + b x + c y).
 * Supports in one line carry the load's moment along that line; what is across it is left to the width of the feet.
 *
 * Units:  forces in the load's own unit; sum of the result = load.
 * Exact:  1e-9 of the load.
 * Inputs: load > 0. Null: no supports, or the load is not over them, so that the thing tips.
 */
export function supportLoads(
  supports: readonly (readonly [number, number])[],
  load: number,
  x: number,
  y: number,
): number[] | null {
  const n = supports.length;
  if (n === 0) return null;
  // In a frame about the load, sized by the supports, so that the three unknowns are alike. Loads as shares of 1.
  const size = Math.max(...supports.map(([sx, sy]) => Math.hypot(sx - x, sy - y)));
  if (size <= RIGHT_UNDER) return supports.map(() => load / n);
  const rows = supports.map(([sx, sy]) => [1, (sx - x) / size, (sy - y) / size] as const);
  // The least of sum(max(0, row.k)^2)/2 - k0 is where force (1) and both moments (0) balance: convex, so Newton's way with halving.
  let k = [1 / n, 0, 0];
  const cost = (c: readonly number[]) =>
    rows.reduce((sum, row) => sum + Math.max(0, row[0] * c[0] + row[1] * c[1] + row[2] * c[2]) ** 2 / 2, 0) - c[0];
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const gradient = [-1, 0, 0];
    const matrix = [0, 0, 0, 0, 0, 0, 0, 0, 0];
    for (const row of rows) {
      const carried = row[0] * k[0] + row[1] * k[1] + row[2] * k[2];
      if (carried <= 0) continue;
      for (let i = 0; i < 3; i++) {
        gradient[i] += row[i] * carried;
        for (let j = 0; j < 3; j++) matrix[3 * i + j] += row[i] * row[j];
      }
    }
    const move = leastSquares(matrix, gradient);
    // What no move of the active supports can mend: across a line of feet. It is theirs to bear.
    const mendable = [0, 1, 2].map(
      (i) => matrix[3 * i] * move[0] + matrix[3 * i + 1] * move[1] + matrix[3 * i + 2] * move[2],
    );
    if (Math.hypot(...mendable) <= BALANCED) {
      const shares = rows.map((row) => Math.max(0, row[0] * k[0] + row[1] * k[1] + row[2] * k[2]));
      const total = shares.reduce((sum, share) => sum + share, 0);
      if (Math.abs(total - 1) > BALANCED * n) return null;
      return shares.map((share) => (share / total) * load);
    }
    const before = cost(k);
    let part = 1;
    let next = k;
    for (let half = 0; half < 60; half++, part /= 2) {
      next = k.map((value, i) => value - part * move[i]);
      if (cost(next) < before) break;
    }
    if (!(cost(next) < before)) break;
    k = next;
  }
  return null;
}

/** Directions of a 3 x 3 matrix weaker than this share of the strongest are no directions: supports in a line, or one point. */
const FLAT = 1e-12;

/** The shortest move with matrix . move = gradient, for a symmetric matrix that may be flat in some directions (Jacobi's turns). */
function leastSquares(matrix: readonly number[], gradient: readonly number[]): number[] {
  const a = [...matrix];
  const v = [1, 0, 0, 0, 1, 0, 0, 0, 1];
  for (let sweep = 0; sweep < 30; sweep++) {
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ]) {
      const off = a[3 * p + q];
      if (off === 0) continue;
      const theta = Math.atan2(2 * off, a[4 * q] - a[4 * p]) / 2;
      const c = Math.cos(theta);
      const s = Math.sin(theta);
      const turn = (of: number[], k: number, l: number) => {
        [of[k], of[l]] = [c * of[k] - s * of[l], s * of[k] + c * of[l]];
      };
      for (let i = 0; i < 3; i++) turn(a, 3 * i + p, 3 * i + q);
      for (let i = 0; i < 3; i++) turn(a, 3 * p + i, 3 * q + i);
      for (let i = 0; i < 3; i++) turn(v, 3 * i + p, 3 * i + q);
    }
  }
  const strongest = Math.max(a[0], a[4], a[8]);
  const move = [0, 0, 0];
  for (let d = 0; d < 3; d++) {
    const strength = a[4 * d];
    if (strength <= FLAT * strongest) continue;
    const along = v[d] * gradient[0] + v[3 + d] * gradient[1] + v[6 + d] * gradient[2];
    for (let i = 0; i < 3; i++) move[i] += (v[3 * i + d] * along) / strength;
  }
  return move;
}
