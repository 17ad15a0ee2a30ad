/**
 * The pose (turn and shift) of many shapes on a convex deck that leaves the most margin to the deck's edges.
 *
 * The margin to an edge with outward normal n at offset o is o - reach(n), where reach is the shapes' support function. On a
 * rectangle the best shift centres them, so the margin at a turn is the lesser of (W - width) / 2 and (D - depth) / 2:
 * between two stops of the calipers both are waves p cos t + q sin t + r, and the best turn is a stop, a crest of one, or a tie.
 *
 * On any other convex deck the best shift for a turn is a linear programme in the shift and the margin. By duality its
 * value is the least, over all sets of two opposite or three edges whose normals balance (l1 n1 + l2 n2 + l3 n3 = 0, l
 * positive, sum 1), of the same mean of the edges' slack. Each such mean is a wave between stops, so the best turn is a stop, a
 * crest of one mean or a tie of two.
 *
 * Units:  one length unit; angle in radians, in (-pi/2, pi/2] on a rectangle, else (-pi, pi].
 * Sign:   margin >= 0: all on the deck. Below 0 it is the distance beyond the worst edge's line (at a corner the body
 *         may stick out farther than that; deckMargin tells).
 * Exact:  closed form; margin within 1e-9 mm for coordinates up to 1e4 mm.
 * Inputs: deck corners x0, y0, x1, y1 ... convex, either order; at least one shape. Throws: RangeError otherwise.
 * Ties:   poses within 1e-9 of the best margin count as equal; the least turn wins, then the counter-clockwise one.
 */
import { roundsOf, type Stretch, upperEnvelope } from './envelope.ts';
import { type Motion, TAU, wrapAngle } from './frame.ts';
import { depthWave, middleAt, quarters, type Wave, waveAt, widthWave } from './quarters.ts';
import { type PolygonCore, roundedPolygon, type Swept } from './shapes.ts';
import { supportOfMany } from './support.ts';

/** A motion about the origin, as frame.ts has it, and the least margin it leaves. */
export interface Pose extends Motion {
  readonly margin: number;
}

const EQUAL_MM = 1e-9;

/** The same turn in (-half, half] when turns repeat every 2 half. */
function nearestTurn(angle: number, half: number): number {
  const turn = angle - 2 * half * Math.round(angle / (2 * half));
  return turn <= -half ? turn + 2 * half : turn;
}

/** Whether a pose beats the best so far: by margin, or at equal margin by turning less. */
function beats(margin: number, angle: number, best: Pose | undefined): boolean {
  if (!best || margin > best.margin + EQUAL_MM) return true;
  if (margin < best.margin - EQUAL_MM) return false;
  const less = Math.abs(best.angle) - Math.abs(angle);
  return less > 1e-12 || (less >= -1e-12 && angle > 0 && best.angle < 0);
}

/** The turns in [from, to] at which a wave is `level`. */
function turnsAt({ p, q, r }: Wave, level: number, from: number, to: number, out: number[]): void {
  const size = Math.hypot(p, q);
  const ratio = (level - r) / size;
  if (!(ratio >= -1 && ratio <= 1)) return;
  const phase = Math.atan2(q, p);
  const open = Math.acos(ratio);
  pushTurn(phase + open, from, to, out);
  pushTurn(phase - open, from, to, out);
}

function pushTurn(angle: number, from: number, to: number, out: number[]): void {
  const first = angle - TAU * Math.floor((angle - from) / TAU);
  if (first <= to) out.push(first);
}

function crests({ p, q }: Wave, from: number, to: number, out: number[]): void {
  if (p === 0 && q === 0) return;
  const phase = Math.atan2(q, p);
  pushTurn(phase, from, to, out);
  pushTurn(phase + Math.PI, from, to, out);
}

const minus = (a: Wave, b: Wave): Wave => ({ p: a.p - b.p, q: a.q - b.q, r: a.r - b.r });

interface DeckRectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly depth: number;
  readonly angle: number;
}

/** The deck as a rectangle, if its four corners are square within rounding. */
function asRectangle(p: readonly number[]): DeckRectangle | undefined {
  if (p.length !== 8) return undefined;
  const ax = p[2] - p[0];
  const ay = p[3] - p[1];
  const bx = p[4] - p[2];
  const by = p[5] - p[3];
  const width = Math.hypot(ax, ay);
  const depth = Math.hypot(bx, by);
  // A corner off by this is off by less than a rounding of the coordinates.
  const slack = 1e-12 * (Math.abs(p[0]) + Math.abs(p[1]) + width + depth);
  if (Math.abs(ax * bx + ay * by) > slack * Math.max(width, depth)) return undefined;
  if (Math.hypot(p[0] + p[4] - p[2] - p[6], p[1] + p[5] - p[3] - p[7]) > slack) return undefined;
  return { x: (p[0] + p[4]) / 2, y: (p[1] + p[5]) / 2, width, depth, angle: Math.atan2(ay, ax) };
}

function poseOnRectangle(deck: DeckRectangle, stretches: readonly Stretch[]): Pose {
  const half = Math.PI / 2;
  let best: Pose | undefined;
  const turns: number[] = [];
  // The turn of the calipers at which the shapes stay as they are, and its match a quarter turn on.
  const still = deck.angle - half * Math.floor(deck.angle / half);
  for (const quarter of quarters(stretches)) {
    const w = widthWave(quarter);
    const d = depthWave(quarter);
    for (let sideways = 0; sideways < 2; sideways++) {
      const width = sideways ? d : w;
      const depth = sideways ? w : d;
      turns.length = 0;
      turns.push(quarter.from, quarter.to);
      if (still >= quarter.from && still <= quarter.to) turns.push(still);
      crests(width, quarter.from, quarter.to, turns);
      crests(depth, quarter.from, quarter.to, turns);
      turnsAt(minus(width, depth), deck.width - deck.depth, quarter.from, quarter.to, turns);
      for (const t of turns) {
        const margin = Math.min(deck.width - waveAt(width, t), deck.depth - waveAt(depth, t)) / 2;
        if (best && margin < best.margin - EQUAL_MM) continue;
        const angle = nearestTurn(deck.angle - t - sideways * half, half);
        if (!beats(margin, angle, best)) continue;
        const [mx, my] = middleAt(quarter, t);
        const c = Math.cos(angle);
        const s = Math.sin(angle);
        best = { angle, dx: deck.x - (c * mx - s * my), dy: deck.y - (s * mx + c * my), margin };
      }
    }
  }
  return best!;
}

interface Edge {
  readonly nx: number;
  readonly ny: number;
  readonly offset: number;
  readonly angle: number;
}

function edgesOf(p: readonly number[]): Edge[] {
  const edges: Edge[] = [];
  for (let i = 0; i < p.length; i += 2) {
    const j = (i + 2) % p.length;
    const length = Math.hypot(p[j] - p[i], p[j + 1] - p[i + 1]);
    const nx = (p[j + 1] - p[i + 1]) / length;
    const ny = (p[i] - p[j]) / length;
    edges.push({ nx, ny, offset: nx * p[i] + ny * p[i + 1], angle: Math.atan2(ny, nx) });
  }
  return edges;
}

/** Two opposite or three edges whose normals balance, with their weights. */
interface Balance {
  readonly edges: readonly number[];
  readonly weights: readonly number[];
}

function balances(edges: readonly Edge[]): Balance[] {
  const found: Balance[] = [];
  const cross = (a: Edge, b: Edge) => a.nx * b.ny - a.ny * b.nx;
  // Normals this nearly opposite count as opposite: rounding of unit vectors.
  const flat = 1e-12;
  for (let i = 0; i < edges.length; i++) {
    for (let j = i + 1; j < edges.length; j++) {
      const ij = cross(edges[i], edges[j]);
      if (Math.abs(ij) < flat && edges[i].nx * edges[j].nx + edges[i].ny * edges[j].ny < 0)
        found.push({ edges: [i, j], weights: [0.5, 0.5] });
      for (let k = j + 1; k < edges.length; k++) {
        const weights = [cross(edges[j], edges[k]), cross(edges[k], edges[i]), ij];
        if (weights.some((w) => w < flat)) continue;
        const sum = weights[0] + weights[1] + weights[2];
        found.push({ edges: [i, j, k], weights: weights.map((w) => w / sum) });
      }
    }
  }
  return found;
}

/** The shift that reaches `margin` when edge e has slack b[e]; in the middle where there is a choice. */
function bestShift(edges: readonly Edge[], b: readonly number[], tight: Balance, margin: number): [number, number] {
  if (tight.edges.length === 2) {
    const [i, j] = tight.edges;
    const { nx, ny } = edges[i];
    const along = (b[i] - b[j]) / 2;
    let lo = Number.NEGATIVE_INFINITY;
    let hi = Number.POSITIVE_INFINITY;
    edges.forEach((edge, e) => {
      const across = edge.ny * nx - edge.nx * ny;
      if (e === i || e === j || Math.abs(across) < 1e-12) return;
      const limit = (b[e] - margin - along * (edge.nx * nx + edge.ny * ny)) / across;
      if (across > 0) hi = Math.min(hi, limit);
      else lo = Math.max(lo, limit);
    });
    const side = (lo + hi) / 2;
    return [along * nx - side * ny, along * ny + side * nx];
  }
  let best: [number, number] = [0, 0];
  let widest = 0;
  for (let m = 0; m < 3; m++) {
    const i = tight.edges[m];
    const j = tight.edges[(m + 1) % 3];
    const cross = edges[i].nx * edges[j].ny - edges[i].ny * edges[j].nx;
    if (Math.abs(cross) <= widest) continue;
    widest = Math.abs(cross);
    const p = b[i] - margin;
    const q = b[j] - margin;
    best = [(p * edges[j].ny - q * edges[i].ny) / cross, (edges[i].nx * q - edges[j].nx * p) / cross];
  }
  return best;
}

function poseOnPolygon(corners: readonly number[], stretches: readonly Stretch[]): Pose {
  const edges = edgesOf(corners);
  const sets = balances(edges);
  // Turning the shapes by t shows edge e the round they have in direction angle_e - t.
  const stops = [-Math.PI, 0, Math.PI];
  for (const { angle } of edges) for (const { from } of stretches) stops.push(nearestTurn(angle - from, Math.PI));
  stops.sort((a, b) => a - b);
  const slackWave = ({ nx, ny, offset, angle }: Edge, t: number): Wave => {
    const direction = wrapAngle(angle - t);
    const { round } = stretches.find(({ to }) => direction <= to) ?? stretches[stretches.length - 1];
    return { p: -(nx * round.x + ny * round.y), q: nx * round.y - ny * round.x, r: offset - round.r };
  };
  const intervals: { from: number; to: number; slacks: Wave[]; means: Wave[] }[] = [];
  for (let k = 1; k < stops.length; k++) {
    const from = stops[k - 1];
    const to = stops[k];
    if (to - from < 1e-15) continue;
    const slacks = edges.map((edge) => slackWave(edge, (from + to) / 2));
    const means = sets.map(({ edges: e, weights }) => {
      let p = 0;
      let q = 0;
      let r = 0;
      for (let m = 0; m < e.length; m++) {
        p += weights[m] * slacks[e[m]].p;
        q += weights[m] * slacks[e[m]].q;
        r += weights[m] * slacks[e[m]].r;
      }
      return { p, q, r };
    });
    intervals.push({ from, to, slacks, means });
  }
  let best: Pose | undefined;
  const visit = ({ slacks, means }: (typeof intervals)[number], t: number) => {
    let margin = Number.POSITIVE_INFINITY;
    let tight = 0;
    for (let m = 0; m < means.length; m++) {
      const mean = waveAt(means[m], t);
      if (mean < margin) {
        margin = mean;
        tight = m;
      }
    }
    const angle = nearestTurn(t, Math.PI);
    if (!beats(margin, angle, best)) return;
    const b = slacks.map((slack) => waveAt(slack, t));
    const [dx, dy] = bestShift(edges, b, sets[tight], margin);
    best = { angle, dx, dy, margin };
  };
  for (const interval of intervals) {
    visit(interval, interval.from);
    visit(interval, interval.to);
  }
  const turns: number[] = [];
  for (const interval of intervals) {
    const { from, to, means } = interval;
    // No turn in here beats the best if some mean stays below it throughout.
    const hopeless = means.some((mean) => {
      const crest = Math.atan2(mean.q, mean.p);
      const inside = crest - TAU * Math.floor((crest - from) / TAU) <= to;
      const top = inside ? Math.hypot(mean.p, mean.q) + mean.r : Math.max(waveAt(mean, from), waveAt(mean, to));
      return top < best!.margin - EQUAL_MM;
    });
    if (hopeless) continue;
    turns.length = 0;
    for (let m = 0; m < means.length; m++) {
      crests(means[m], from, to, turns);
      for (let k = m + 1; k < means.length; k++) turnsAt(minus(means[m], means[k]), 0, from, to, turns);
    }
    for (const t of turns) visit(interval, t);
  }
  return best!;
}

/** The pose of all shapes together with the most margin on a convex deck. */
export function bestPoseConvex(deck: readonly number[], shapes: readonly Swept[]): Pose {
  if (shapes.length === 0) throw new RangeError('A pose needs at least one shape to place.');
  const { points } = roundedPolygon(deck, 0).core as PolygonCore;
  const stretches = upperEnvelope(roundsOf(shapes));
  const rectangle = asRectangle(points);
  return rectangle ? poseOnRectangle(rectangle, stretches) : poseOnPolygon(points, stretches);
}

/** The best shift without any turn: a linear programme, solved as above at the turn 0. Inputs, sign and errors as bestPoseConvex(). */
export function bestShiftConvex(deck: readonly number[], shapes: readonly Swept[]): Pose {
  if (shapes.length === 0) throw new RangeError('A pose needs at least one shape to place.');
  const edges = edgesOf((roundedPolygon(deck, 0).core as PolygonCore).points);
  const slacks = edges.map(({ nx, ny, offset }) => offset - supportOfMany(shapes, nx, ny));
  let margin = Number.POSITIVE_INFINITY;
  let tight: Balance | undefined;
  for (const balance of balances(edges)) {
    const mean = balance.edges.reduce((sum, e, m) => sum + balance.weights[m] * slacks[e], 0);
    if (mean >= margin) continue;
    margin = mean;
    tight = balance;
  }
  const [dx, dy] = bestShift(edges, slacks, tight!, margin);
  return { angle: 0, dx, dy, margin };
}
