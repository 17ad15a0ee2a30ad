/**
 * The upper envelope of support functions: which of many rounds lies farthest out in each direction.
 *
 * A round is a circle of radius r >= 0 about (x, y) seen in the directions [start, start + sweep]; in direction u its
 * reach is x cos u + y sin u + r. A disc, a tube's end and a rounded corner are rounds seen from everywhere; a curved tube adds
 * its outer edge, seen in the directions of its bend. Two rounds tie in at most two directions, so an envelope of n rounds
 * is made by merging halves: at most two ties in each stretch. (Sharir and Agarwal, Davenport-Schinzel Sequences, 1995, ch. 6.)
 */
import { kept } from '../keep.ts';
import { TAU, wrapAngle } from './frame.ts';
import type { Swept } from './shapes.ts';

export interface Round {
  readonly x: number;
  readonly y: number;
  readonly r: number;
  /** Directions in which it is seen; start in [0, 2 pi), sweep 2 pi for all. */
  readonly start: number;
  readonly sweep: number;
}

/** A stretch [from, to] of directions in which one round lies farthest out. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly round: Round;
}

/** The rounds whose hull is that of one shape. */
const roundsOfShape = kept(({ core, radius }: Swept): readonly Round[] => {
  const all = (x: number, y: number): Round => ({ x, y, r: radius, start: 0, sweep: TAU });
  switch (core.kind) {
    case 'point':
      return [all(core.x, core.y)];
    case 'segment':
      return [all(core.x0, core.y0), all(core.x1, core.y1)];
    case 'polygon': {
      const rounds: Round[] = [];
      for (let i = 0; i < core.points.length; i += 2) rounds.push(all(core.points[i], core.points[i + 1]));
      return rounds;
    }
    case 'arc': {
      const { cx, cy, r, start, sweep } = core;
      const outer = { x: cx, y: cy, r: r + radius, start, sweep };
      if (sweep >= TAU) return [outer];
      const end = start + sweep;
      const at = (angle: number) => all(cx + r * Math.cos(angle), cy + r * Math.sin(angle));
      return [outer, at(start), at(end)];
    }
  }
});

/** The rounds whose hull is the hull of the shapes. */
export function roundsOf(shapes: readonly Swept[]): Round[] {
  const rounds: Round[] = [];
  for (const shape of shapes) for (const round of roundsOfShape(shape)) rounds.push(round);
  return rounds;
}

/** Directions in which the quick test looks for rounds that cannot matter. */
const LOOKS = 16;
const LOOK_X = Array.from({ length: LOOKS }, (_, k) => Math.cos((k * TAU) / LOOKS));
const LOOK_Y = Array.from({ length: LOOKS }, (_, k) => Math.sin((k * TAU) / LOOKS));

/**
 * Leaves out rounds that lie wholly inside the polygon of the farthest points in sixteen directions, and clear of its edges by
 * more than rounding: a sharp corner that is itself one of these points must stay. What it leaves out touches the hull nowhere.
 */
function outerRounds(rounds: readonly Round[]): readonly Round[] {
  if (rounds.length <= LOOKS) return rounds;
  const px: number[] = [];
  const py: number[] = [];
  for (let k = 0; k < LOOKS; k++) {
    const ux = LOOK_X[k];
    const uy = LOOK_Y[k];
    let best = Number.NEGATIVE_INFINITY;
    let far: Round | undefined;
    for (const round of rounds) {
      const reach = round.x * ux + round.y * uy + round.r;
      if (reach > best && (round.sweep >= TAU || sees(round, (k * TAU) / LOOKS))) {
        best = reach;
        far = round;
      }
    }
    px.push(far!.x + far!.r * ux);
    py.push(far!.y + far!.r * uy);
  }
  const edges: number[] = [];
  for (let k = 0; k < LOOKS; k++) {
    const m = (k + 1) % LOOKS;
    const dx = px[m] - px[k];
    const dy = py[m] - py[k];
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length > 0) edges.push(dy / length, -dx / length, (px[k] * dy - py[k] * dx) / length);
  }
  if (edges.length === 0) return rounds;
  let extent = 1;
  for (let k = 0; k < LOOKS; k++) extent = Math.max(extent, Math.abs(px[k]), Math.abs(py[k]));
  const slack = 1e-12 * extent;
  return rounds.filter(({ x, y, r }) => {
    for (let e = 0; e < edges.length; e += 3)
      if (edges[e] * x + edges[e + 1] * y + r >= edges[e + 2] - slack) return true;
    return false;
  });
}

function sees(round: Round, angle: number): boolean {
  return round.sweep >= TAU || wrapAngle(angle - round.start) <= round.sweep;
}

// An envelope is three arrays of equal length: the end of each stretch and its round (-1: none seen). It begins at 0.
interface Envelope {
  readonly ends: number[];
  readonly ids: number[];
}

function single(items: readonly Round[], id: number): Envelope {
  const { start, sweep } = items[id];
  if (sweep >= TAU) return { ends: [TAU], ids: [id] };
  const end = start + sweep;
  if (end <= TAU) {
    if (start === 0) return { ends: [end, TAU], ids: [id, -1] };
    return { ends: [start, end, TAU], ids: [-1, id, -1] };
  }
  return { ends: [end - TAU, start, TAU], ids: [id, -1, id] };
}

function put(out: Envelope, end: number, id: number): void {
  const last = out.ids.length - 1;
  const from = last >= 0 ? out.ends[last] : 0;
  if (end <= from) return;
  if (last >= 0 && out.ids[last] === id) out.ends[last] = end;
  else {
    out.ends.push(end);
    out.ids.push(id);
  }
}

/** Adds the farther of rounds f and g over [from, to]. */
function putFarther(items: readonly Round[], out: Envelope, from: number, to: number, f: number, g: number): void {
  if (f === g || f < 0 || g < 0) {
    put(out, to, f < 0 ? g : f);
    return;
  }
  const a = items[f].x - items[g].x;
  const b = items[f].y - items[g].y;
  const c = items[f].r - items[g].r;
  // f is farther where a cos u + b sin u + c > 0, that is size cos(u - phase) > -c.
  const sizeSq = a * a + b * b;
  if (sizeSq <= c * c) {
    put(out, to, c >= 0 ? f : g);
    return;
  }
  const phase = Math.atan2(b, a);
  const open = Math.acos(-c / Math.sqrt(sizeSq));
  let at = from;
  // f's stretch is (phase - open, phase + open) and its turns by 2 pi.
  for (let lap = -1; lap <= 1; lap++) {
    const first = phase - open + lap * TAU;
    const last = phase + open + lap * TAU;
    if (last <= at) continue;
    if (first >= to) break;
    if (first > at) put(out, first, g);
    at = Math.min(last, to);
    put(out, at, f);
  }
  put(out, to, g);
}

function merge(items: readonly Round[], p: Envelope, q: Envelope): Envelope {
  const out: Envelope = { ends: [], ids: [] };
  let i = 0;
  let j = 0;
  let from = 0;
  while (from < TAU) {
    const to = Math.min(p.ends[i], q.ends[j]);
    if (to > from) putFarther(items, out, from, to, p.ids[i], q.ids[j]);
    if (p.ends[i] <= to) i++;
    if (q.ends[j] <= to) j++;
    from = to;
  }
  return out;
}

function build(items: readonly Round[], first: number, last: number): Envelope {
  if (last - first === 1) return single(items, first);
  const middle = (first + last) >> 1;
  return merge(items, build(items, first, middle), build(items, middle, last));
}

/** The stretches of [0, 2 pi] in order, each with the round that lies farthest out. Empty for no rounds. */
export function upperEnvelope(rounds: readonly Round[]): Stretch[] {
  if (rounds.length === 0) return [];
  const items = outerRounds(rounds);
  const { ends, ids } = build(items, 0, items.length);
  const stretches: Stretch[] = [];
  let from = 0;
  for (let k = 0; k < ids.length; k++) {
    if (ids[k] >= 0) stretches.push({ from, to: ends[k], round: items[ids[k]] });
    from = ends[k];
  }
  return stretches;
}
