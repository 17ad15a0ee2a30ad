/**
 * The pose (turn and shift) of many shapes on a convex deck that leaves the most margin to the deck's edges, among the turns
 * that are allowed.
 *
 * The margin of a pose is the least, over all unit directions n, of the deck's reach along n less that of the shapes: where all
 * lie on the deck the least is always across an edge; where some hang out it may be away from a corner, which gives the farthest that
 * any point lies beyond the deck, as deckMargin() has it.
 *
 * At one turn the best shift is a linear programme in the shift and the margin. By duality its value is the least, over all sets of two
 * opposite or three directions that balance (l1 n1 + l2 n2 + l3 n3 = 0, l positive, sum 1), of the same mean of their slacks. It
 * begins with the deck's edges; as long as something hangs out farther past a corner, that direction is added (the exchange
 * method for semi-infinite programmes).
 *
 * The set that decides at one turn bounds the margin at every other: what of the shapes lies farthest out there reaches at least as
 * far as any of their points, so the mean of the slacks of the points that touch now is a wave p cos t + q sin t + r above the
 * margin. Between two turns the margin lies below both turns' waves; the place where the lesser of the two is highest is looked at
 * next, until nothing above the best is left.
 *
 * Units:  one length unit; angles in radians. The turn lies within the turns asked for.
 * Sign:   as deckMargin(): at 0 and above all lie on the deck; below, minus the farthest that any point lies beyond it.
 * Exact:  no allowed pose leaves more than 1e-9 mm above the margin, for coordinates up to 1e4 mm; below 0, more than 1e-6 mm.
 * Inputs: deck corners x0, y0, x1, y1 ... convex, either order; at least one shape; turns that hold 0 or not, within one whole turn. Throws: RangeError otherwise.
 * Ties:   poses as close as that to the best margin count as equal; the least turn wins (to 1e-4), then the counter-clockwise one.
 */
import { type Round, roundsOf, type Stretch, upperEnvelope } from './envelope.ts';
import { type Motion, TAU, wrapAngle } from './frame.ts';
import { type Wave, waveAt } from './quarters.ts';
import { type PolygonCore, roundedPolygon, type Swept } from './shapes.ts';

/** A motion about the origin, as frame.ts has it, and the least margin it leaves. */
export interface Pose extends Motion {
  readonly margin: number;
}

/** The turns that a pose may take, radians. */
export interface Turns {
  readonly least: number;
  readonly most: number;
}

export const ANY_TURN: Turns = { least: -Math.PI, most: Math.PI };

/** Margins closer than this are equal. Past a corner the answer is closed in on, and directions to it that nearly agree lose figures. */
const equalMm = (margin: number): number => (margin < 0 ? 1e-6 : 1e-9);
/** So closely is the shift at one turn closed in on. */
const CORNER_MM = 1e-7;
/** Of poses with equal margins one turns less if it does by this. */
const LESS_RAD = 1e-4;
/** Widest stretch of turns to begin with. */
const SLICE_RAD = Math.PI / 8;
/** Turns looked at, and corners added at one turn, before the search stops with what it has. Random kits need some 60 and 10. */
const MOST_TURNS = 4000;
const MOST_CORNERS = 100;
/** Directions this nearly opposite count as opposite: rounding of unit vectors. */
const FLAT = 1e-12;

/** Whether a pose beats the best so far: by margin, or at equal margin by turning less. */
function beats(margin: number, angle: number, best: Pose | undefined): boolean {
  if (!best || margin > best.margin + equalMm(best.margin)) return true;
  if (margin < best.margin - equalMm(best.margin)) return false;
  const less = Math.abs(best.angle) - Math.abs(angle);
  return less > LESS_RAD || (less >= -LESS_RAD && angle > 0 && best.angle < 0);
}

/** A direction: a unit vector. */
interface Way {
  readonly nx: number;
  readonly ny: number;
}

interface Edge extends Way {
  readonly offset: number;
  readonly angle: number;
  /** Where it begins. */
  readonly x: number;
  readonly y: number;
}

function edgesOf(p: readonly number[]): Edge[] {
  const edges: Edge[] = [];
  for (let i = 0; i < p.length; i += 2) {
    const j = (i + 2) % p.length;
    const length = Math.hypot(p[j] - p[i], p[j + 1] - p[i + 1]);
    const nx = (p[j + 1] - p[i + 1]) / length;
    const ny = (p[i] - p[j]) / length;
    edges.push({ nx, ny, offset: nx * p[i] + ny * p[i + 1], angle: Math.atan2(ny, nx), x: p[i], y: p[i + 1] });
  }
  return edges;
}

/** A direction at one turn: how much farther the deck reaches than the unshifted shapes, and the deck's reach and the round that say so. */
interface Hold extends Way {
  readonly offset: number;
  readonly round: Round;
  readonly slack: number;
}

/** Two opposite or three directions that balance, by number, with their weights; `mean` is that of their slacks. */
interface Balance {
  readonly ways: readonly number[];
  readonly weights: readonly number[];
  readonly mean: number;
}

const cross = (a: Way, b: Way) => a.nx * b.ny - a.ny * b.nx;

/** The balance with the least mean: the least so far, or one that has direction k and otherwise only earlier ones. */
function leastWith(holds: readonly Hold[], k: number, least: Balance | null): Balance | null {
  const c = holds[k];
  for (let i = 0; i < k; i++) {
    const a = holds[i];
    const ca = cross(c, a);
    if (Math.abs(ca) < FLAT && a.nx * c.nx + a.ny * c.ny < 0) {
      const mean = (a.slack + c.slack) / 2;
      if (!least || mean < least.mean) least = { ways: [i, k], weights: [0.5, 0.5], mean };
    }
    for (let j = i + 1; j < k; j++) {
      const b = holds[j];
      const ab = cross(a, b);
      const bc = cross(b, c);
      // All three turn one way round.
      const turning = ab > 0 ? 1 : -1;
      if (ab * turning < FLAT || bc * turning < FLAT || ca * turning < FLAT) continue;
      const sum = ab + bc + ca;
      const mean = (bc * a.slack + ca * b.slack + ab * c.slack) / sum;
      if (!least || mean < least.mean) least = { ways: [i, j, k], weights: [bc / sum, ca / sum, ab / sum], mean };
    }
  }
  return least;
}

/** The shift that leaves the mean in all directions; in the middle where there is a choice. */
function bestShift(holds: readonly Hold[], { ways, mean: margin }: Balance): [number, number] {
  if (ways.length === 2) {
    const [i, j] = ways;
    const { nx, ny } = holds[i];
    const along = (holds[i].slack - holds[j].slack) / 2;
    let lo = Number.NEGATIVE_INFINITY;
    let hi = Number.POSITIVE_INFINITY;
    holds.forEach((hold, e) => {
      const across = hold.ny * nx - hold.nx * ny;
      if (e === i || e === j || Math.abs(across) < FLAT) return;
      const limit = (hold.slack - margin - along * (hold.nx * nx + hold.ny * ny)) / across;
      if (across > 0) hi = Math.min(hi, limit);
      else lo = Math.max(lo, limit);
    });
    const side = (lo + hi) / 2;
    return [along * nx - side * ny, along * ny + side * nx];
  }
  let best: [number, number] = [0, 0];
  let widest = 0;
  for (let m = 0; m < 3; m++) {
    const a = holds[ways[m]];
    const b = holds[ways[(m + 1) % 3]];
    const across = cross(a, b);
    if (Math.abs(across) <= widest) continue;
    widest = Math.abs(across);
    const p = a.slack - margin;
    const q = b.slack - margin;
    best = [(p * b.ny - q * a.ny) / across, (a.nx * q - b.nx * p) / across];
  }
  return best;
}

/** The best pose at one turn, and the directions that decide it. */
interface Look extends Pose {
  readonly tight: readonly { readonly hold: Hold; readonly weight: number }[];
}

class ConvexDeck {
  private readonly edges: readonly Edge[];
  private readonly stretches: readonly Stretch[];
  private readonly rounds: readonly Round[];

  constructor(deck: readonly number[], shapes: readonly Swept[]) {
    if (shapes.length === 0) throw new RangeError('A pose needs at least one shape to place.');
    this.edges = edgesOf((roundedPolygon(deck, 0).core as PolygonCore).points);
    this.stretches = upperEnvelope(roundsOf(shapes));
    this.rounds = [...new Set(this.stretches.map(({ round }) => round))];
  }

  look(angle: number): Look {
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const slackOf = ({ nx, ny }: Way, offset: number, { x, y, r }: Round) =>
      offset - r - (nx * (c * x - s * y) + ny * (s * x + c * y));
    const holds: Hold[] = this.edges.map(({ nx, ny, offset, angle: facing }) => {
      const direction = wrapAngle(facing - angle);
      const { round } = this.stretches.find(({ to }) => direction <= to) ?? this.stretches[this.stretches.length - 1];
      return { nx, ny, offset, round, slack: slackOf({ nx, ny }, offset, round) };
    });
    let least: Balance | null = null;
    for (let k = 1; k < holds.length; k++) least = leastWith(holds, k, least);
    for (;;) {
      const tight = least!;
      const [dx, dy] = bestShift(holds, tight);
      const corner = this.pastCorner(angle, c, s, dx, dy, CORNER_MM - tight.mean);
      if (!corner || holds.length >= this.edges.length + MOST_CORNERS) {
        const deciding = tight.ways.map((at, m) => ({ hold: holds[at], weight: tight.weights[m] }));
        return { angle, dx, dy, margin: corner ? -corner.out : tight.mean, tight: deciding };
      }
      const { way, offset, round } = corner;
      holds.push({ ...way, offset, round, slack: slackOf(way, offset, round) });
      least = leastWith(holds, holds.length - 1, tight);
    }
  }

  /** What hangs out farthest past a corner of the deck and by more than `least`: the direction, the corner's reach along it, and how far. */
  private pastCorner(angle: number, c: number, s: number, dx: number, dy: number, least: number) {
    const { edges } = this;
    let out = Math.max(0, least);
    let found: { way: Way; offset: number; round: Round; out: number } | null = null;
    for (const round of this.rounds) {
      const x = dx + c * round.x - s * round.y;
      const y = dy + s * round.x + c * round.y;
      for (let e = 0; e < edges.length; e++) {
        const edge = edges[e];
        const before = edges[e === 0 ? edges.length - 1 : e - 1];
        const [vx, vy] = [x - edge.x, y - edge.y];
        // Nearest the corner: past the end of the edge before and not yet at the beginning of the one after.
        if (vx * -before.ny + vy * before.nx < 0 || vx * -edge.ny + vy * edge.nx > 0) continue;
        const far = Math.hypot(vx, vy);
        if (far === 0 || far + round.r <= out) continue;
        if (round.sweep < TAU && wrapAngle(Math.atan2(vy, vx) - angle - round.start) > round.sweep) continue;
        out = far + round.r;
        const way = { nx: vx / far, ny: vy / far };
        found = { way, offset: way.nx * edge.x + way.ny * edge.y, round, out };
      }
    }
    return found;
  }
}

/** A wave over the turns that no margin from one turn to another exceeds, and that touches it at the turn looked at. */
function waveAbove({ angle, tight }: Look, from: number, to: number): Wave {
  let [p, q, r] = [0, 0, 0];
  for (const { hold, weight } of tight) {
    const { nx, ny, offset, round } = hold;
    // Seen from the shapes. A bend's outer edge counts if it faces that way at all these turns; the point of it that touches is always there.
    const facing = Math.atan2(ny, nx) - angle;
    const first = wrapAngle(facing + angle - to - round.start);
    const whole = round.sweep >= TAU || first + (to - from) <= round.sweep;
    const x = round.x + (whole ? 0 : round.r * Math.cos(facing));
    const y = round.y + (whole ? 0 : round.r * Math.sin(facing));
    p -= weight * (nx * x + ny * y);
    q -= weight * (ny * x - nx * y);
    r += weight * (offset - (whole ? round.r : 0));
  }
  return { p, q, r };
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

const minus = (a: Wave, b: Wave): Wave => ({ p: a.p - b.p, q: a.q - b.q, r: a.r - b.r });

/** A stretch of turns between two that were looked at, and the most that a turn within it can leave. */
interface Cell {
  readonly from: Look;
  readonly to: Look;
  readonly most: number;
  /** The turn at which it might. */
  readonly at: number;
}

function cellOf(from: Look, to: Look): Cell {
  const turns = [from.angle, to.angle];
  const above = [from, to].map((look) => waveAbove(look, from.angle, to.angle));
  for (const { p, q } of above) if (p !== 0 || q !== 0) pushTurn(Math.atan2(q, p), from.angle, to.angle, turns);
  turnsAt(minus(above[0], above[1]), 0, from.angle, to.angle, turns);
  let most = Number.NEGATIVE_INFINITY;
  let at = from.angle;
  for (const turn of turns) {
    const top = Math.min(waveAt(above[0], turn), waveAt(above[1], turn));
    if (top > most) [most, at] = [top, turn];
  }
  return { from, to, most, at };
}

/** Whether a stretch of turns may hold a pose that beats the best. */
function isOpen({ from, to, most }: Cell, best: Pose): boolean {
  if (most > best.margin + equalMm(best.margin)) return true;
  if (most < best.margin - equalMm(best.margin)) return false;
  const nearest = Math.max(0, from.angle, -to.angle);
  return nearest < Math.abs(best.angle) - LESS_RAD || (best.angle < 0 && to.angle > 0 && nearest <= -best.angle);
}

/** The pose of all shapes together with the most margin on a convex deck, among the turns allowed. */
export function bestPoseConvex(deck: readonly number[], shapes: readonly Swept[], turns: Turns = ANY_TURN): Pose {
  const ready = new ConvexDeck(deck, shapes);
  const stops = [turns.least, turns.most];
  const slices = Math.ceil((turns.most - turns.least) / SLICE_RAD);
  for (let k = 1; k < slices; k++) stops.push(turns.least + ((turns.most - turns.least) * k) / slices);
  if (turns.least < 0 && turns.most > 0) stops.push(0);
  stops.sort((a, b) => a - b);
  const looks = stops.map((angle) => ready.look(angle));
  let best = looks[0];
  for (const look of looks) if (beats(look.margin, look.angle, best)) best = look;
  let cells = looks.slice(1).map((to, k) => cellOf(looks[k], to));
  for (let count = 0; count < MOST_TURNS; count++) {
    cells = cells.filter((cell) => isOpen(cell, best));
    if (cells.length === 0) break;
    const next = cells.reduce((top, cell) => (cell.most > top.most ? cell : top));
    cells.splice(cells.indexOf(next), 1);
    const { from, to, at } = next;
    const width = to.angle - from.angle;
    if (width < 1e-13) continue;
    // A guess at an end says nothing new.
    const inside = at - from.angle > 1e-6 * width && to.angle - at > 1e-6 * width;
    const look = ready.look(inside ? at : (from.angle + to.angle) / 2);
    if (beats(look.margin, look.angle, best)) best = look;
    cells.push(cellOf(from, look), cellOf(look, to));
  }
  const { angle, dx, dy, margin } = best;
  return { angle, dx, dy, margin };
}

/** The best shift without any turn. Inputs, sign and errors as bestPoseConvex(). */
export function bestShiftConvex(deck: readonly number[], shapes: readonly Swept[]): Pose {
  return bestPoseConvex(deck, shapes, { least: 0, most: 0 });
}
