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
 *         tables. Gauss's rule is exact on straights; on arcs its error is below 1e-9 of the deflection. A hump of the line that
 *         begins and ends between two stops (an eighth of the length at most) may be missed in lowest and highest.
 * Inputs: finite; 0 <= at <= length, held to it; supports at different places; stiffnesses > 0.
 * Source: Machinery's Handbook, 31st ed., beam deflections, for straight ones; for bent ones the equations above, which any text on
 *         curved beams loaded normal to their plane has.
 */
import { type CentreLine, lineLength, pointAlong } from '../geometry/arcsLine.ts';
import { signChange } from '../geometry/roots.ts';
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

/** Gauss's rule of three points on [0, 1]: exact to the fifth degree, and on a straight nothing is above the third. Source: any table of it. */
const GAUSS_AT = [0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)];
const GAUSS_WEIGHT = [5 / 18, 8 / 18, 5 / 18];
const GAUSS = 3;

const MOST_TURN = 0.25;
const LEAST_STRETCHES = 8;

/** A stretch of one curvature, from `s`: its tangent there is (c, n). */
interface Stretch {
  readonly s: number;
  readonly h: number;
  readonly c: number;
  readonly n: number;
  readonly curve: number;
}

/**
 * Of each of Gauss's points and then of the end: tangent, offset from the stretch's start, lever of a uniform load before it. A beam's
 * stretches have theirs one after another.
 */
const SPOT = 6;
const END = GAUSS * SPOT;
const SPOTS = END + SPOT;

/** F, Mx, My, ax, ay, w: the beam just beyond a place. States of a whole beam stand one after another. */
const STATE = 6;

/** Fills in a place `u` from a stretch's start. */
function spotInto(out: Float64Array, o: number, c: number, n: number, curve: number, u: number): void {
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
  for (let g = 0; g < GAUSS; g++) spotInto(out, o + g * SPOT, c, n, curve, u * GAUSS_AT[g]);
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
  const endX = spots[p + END + 2];
  const endY = spots[p + END + 3];
  let ax = from[f + 3];
  let ay = from[f + 4];
  let w = from[f + 5] + ax * endY - ay * endX;
  const soft = 1 / bending;
  const softer = 1 / torsion - soft;
  for (let g = 0; g < GAUSS; g++) {
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
  out[o + 1] = mx - endY * force - uniform * spots[p + END + 5];
  out[o + 2] = my + endX * force + uniform * spots[p + END + 4];
  out[o + 3] = ax;
  out[o + 4] = ay;
  out[o + 5] = w;
}

/** The stretches of a beam: stops at loads, supports, ends of the bend, and no longer than the two bounds above. */
function stretchesOf(line: CentreLine, length: number, places: readonly number[]): Stretch[] {
  const { before, radius, angle } = line;
  const bendEnd = angle === 0 ? before : before + radius * Math.abs(angle);
  const stops = [0, length, before, bendEnd, ...places].filter((s) => s >= 0 && s <= length).sort((a, b) => a - b);
  const stretches: Stretch[] = [];
  for (let k = 1; k < stops.length; k++) {
    const from = stops[k - 1];
    const to = stops[k];
    if (to === from) continue;
    const bent = angle !== 0 && from >= before && to <= bendEnd;
    const curve = bent ? Math.sign(angle) / radius : 0;
    const span = to - from;
    const parts = Math.ceil(Math.max((span / length) * LEAST_STRETCHES, (span * Math.abs(curve)) / MOST_TURN));
    const h = span / parts;
    for (let part = 0; part < parts; part++) {
      const s = from + part * h;
      const { heading } = pointAlong(line, s);
      stretches.push({ s, h, c: Math.cos(heading), n: Math.sin(heading), curve });
    }
  }
  return stretches;
}

/** Pivots of a beam that stands are far above this, of one that turns freely below; all unknowns are scaled to about 1. */
const LOOSE = 1e-9;

/** Solves rows . z = right in place, by Gauss's way with pivots. Null: they do not settle it. */
function solved(rows: number[][], right: number[]): number[] | null {
  const n = right.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i][k]) > Math.abs(rows[pivot][k])) pivot = i;
    if (!(Math.abs(rows[pivot][k]) > LOOSE)) return null;
    [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
    [right[k], right[pivot]] = [right[pivot], right[k]];
    for (let i = k + 1; i < n; i++) {
      const share = rows[i][k] / rows[k][k];
      if (share === 0) continue;
      for (let j = k; j < n; j++) rows[i][j] -= share * rows[k][j];
      right[i] -= share * right[k];
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) right[k] -= rows[k][j] * right[j];
    right[k] /= rows[k][k];
  }
  return right;
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

/** A beam without what it carries: what it is worked out from stays the same as long as loads only grow or turn. */
export interface BareBeam extends Omit<Beam, 'loads' | 'uniform'> {
  /** Where its loads will be, in their order. */
  readonly places: readonly number[];
}

/** What acts on a beam that stands: at each of its places a load, and over all of it its own weight. */
type Laden = (loads: readonly Omit<BeamLoad, 'at'>[], uniform: number) => SolvedBeam;

/** Solves a beam. See the head of this file. Throws: RangeError if its supports leave it loose, or it has no stiffness. */
export const solveBeam = ({ loads, uniform, ...beam }: Beam): SolvedBeam =>
  standBeam({ ...beam, places: loads.map(({ at }) => at) })(loads, uniform);

/** A beam on its supports, to be solved under one set of loads after another. Throws: as solveBeam(). */
export function standBeam({ line, bending, torsion, supports, places }: BareBeam): Laden {
  if (!(bending > 0 && torsion > 0)) throw new RangeError('A beam needs a stiffness above 0.');
  const length = lineLength(line);
  const held = (at: number): number => Math.min(Math.max(at, 0), length);
  const supportAt = supports.map(({ at }) => held(at));
  const stretches = stretchesOf(line, length, [...places.map(held), ...supportAt]);
  const n = stretches.length;
  const spots = new Float64Array(n * SPOTS);
  for (let k = 0; k < n; k++) {
    const { c, n: aside, curve, h } = stretches[k];
    spotsInto(spots, k * SPOTS, c, aside, curve, h);
  }
  const stopAt = (s: number): number => {
    let k = 0;
    while (k < n && stretches[k].s < s) k++;
    return k;
  };
  const placeStop = places.map((at) => stopAt(held(at)));
  const supportStop = supportAt.map(stopAt);
  const headings = supportAt.map((at) => pointAlong(line, at).heading);

  /**
   * From what stands at `base`: the states at the start of each stretch and at the end, loads there included. `first`: before that stop
   * nothing acts and all is still.
   */
  const march = (
    states: Float64Array,
    base: number,
    acting: readonly StopLoad[],
    stiff: Stiff,
    first: number,
  ): void => {
    for (let k = first; k <= n; k++) {
      const o = base + k * STATE;
      for (const { stop, force, cx, cy } of acting) {
        if (stop !== k) continue;
        states[o] -= force;
        states[o + 1] += cx;
        states[o + 2] += cy;
      }
      if (k < n) advance(states, o + STATE, states, o, spots, k * SPOTS, stretches[k].h, stiff);
    }
  };

  // What is not known: how the start turns and sinks, and each support's reactions; in units that make them all about 1.
  const unitForce = bending / length ** 3;
  const unitCouple = unitForce * length;
  const unknowns: Unknown[] = supports.flatMap(({ holds }, support): Unknown[] => {
    const c = Math.cos(headings[support]);
    const s = Math.sin(headings[support]);
    const up: Unknown = { support, couple: null };
    if (holds === 'up') return [up];
    const grip: Unknown = { support, couple: [c, s] };
    return holds === 'grip' ? [up, grip] : [up, grip, { support, couple: [-s, c] }];
  });
  const asLoad = ({ support, couple }: Unknown, part: number): StopLoad => ({
    stop: supportStop[support],
    force: couple ? 0 : -unitForce * part,
    cx: couple ? couple[0] * unitCouple * part : 0,
    cy: couple ? couple[1] * unitCouple * part : 0,
  });
  // A support does not sink, and does not turn as far as it holds; beyond the far end nothing is left over.
  const conditions = (states: Float64Array, base: number): number[] => {
    const end = base + n * STATE;
    return [
      ...unknowns.map(({ support, couple }) => {
        const o = base + supportStop[support] * STATE;
        return couple ? (couple[0] * states[o + 3] + couple[1] * states[o + 4]) * length : states[o + 5];
      }),
      states[end] / unitForce,
      states[end + 1] / unitCouple,
      states[end + 2] / unitCouple,
    ];
  };
  const whole = (n + 1) * STATE;
  const weightless: Stiff = { bending, torsion, uniform: 0 };
  const told = unknowns.map((unknown) => {
    const alone = new Float64Array(whole);
    const load = asLoad(unknown, 1);
    march(alone, 0, [load], weightless, load.stop);
    return conditions(alone, 0);
  });
  // The start turned about x, about y, and raised: the whole beam goes along, and nothing in it changes.
  const atOrigin = { ...line, x: 0, y: 0 };
  const rigid = unknowns.map(({ support, couple }) => {
    if (couple) return [couple[0], couple[1], 0];
    const { x, y } = pointAlong(atOrigin, supportAt[support]);
    return [y / length, -x / length, 1];
  });
  const rows = [...rigid, [0, 0, 0], [0, 0, 0], [0, 0, 0]].map((row, i) => [
    ...row,
    ...told.map((column) => column[i]),
  ]);

  return (given, uniform) => {
    const beam: Stiff = { bending, torsion, uniform };
    const loads = given.map(
      ({ force, couple }, k): StopLoad => ({ stop: placeStop[k], force, cx: couple?.[0] ?? 0, cy: couple?.[1] ?? 0 }),
    );
    // The beam itself, then its given loads alone.
    const states = new Float64Array(2 * whole);
    march(states, whole, loads, beam, 0);
    const z = solved(
      rows.map((row) => row.slice()),
      conditions(states, whole).map((value) => -value),
    );
    if (!z) throw new RangeError('A beam needs supports at two different places, or one that holds it altogether.');
    const shares = z.slice(3);
    states[3] = z[0] / length;
    states[4] = z[1] / length;
    states[5] = z[2];
    march(states, 0, [...loads, ...unknowns.map((unknown, k) => asLoad(unknown, shares[k]))], beam, 0);

    const here = new Float64Array(STATE);
    const lent = new Float64Array(SPOTS);
    /** The state `u` from the start of a stretch, into `here`, and its place into `lent`. */
    const go = (k: number, u: number): void => {
      const { c, n: aside, curve } = stretches[k];
      spotsInto(lent, 0, c, aside, curve, u);
      advance(here, 0, states, k * STATE, lent, 0, u, beam);
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
      return here[0] - (stretches[k].curve * twisting()) / 4;
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
      const { s, h, c, n: aside, curve } = stretches[k];
      const o = k * STATE;
      const end = k * SPOTS + END;
      const force = states[o];
      const slope0 = states[o + 3] * aside - states[o + 4] * c;
      const moment0 = states[o + 2] * c - states[o + 1] * aside;
      const torsion0 = states[o + 1] * c + states[o + 2] * aside;
      const tx = spots[end];
      const ty = spots[end + 1];
      const slope1 = states[o + STATE + 3] * ty - states[o + STATE + 4] * tx;
      // At its end, before what acts there.
      const mx = states[o + 1] - spots[end + 3] * force - uniform * spots[end + 5];
      const my = states[o + 2] + spots[end + 2] * force + uniform * spots[end + 4];
      const moment1 = my * tx - mx * ty;
      const torsion1 = mx * tx + my * ty;
      offer(s, states[o + 5]);
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
    offer(length, states[n * STATE + 5]);

    return {
      reactions: supports.map((_, support): Reaction => {
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
        while (k + 1 < n && stretches[k + 1].s <= along) k++;
        go(k, Math.min(Math.max(along - stretches[k].s, 0), stretches[k].h));
        return { shear: here[0], moment: moment(), torsion: twisting(), slope: slope(), deflection: here[5] };
      },
      lowest,
      highest,
      mostMoment,
    };
  };
}
