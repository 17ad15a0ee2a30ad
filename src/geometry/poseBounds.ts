/**
 * What a kit's margin can be at most anywhere in a cell of poses on a deck of any outline: straight bounds in turn and shift.
 *
 * A pose turns the shapes about a pivot and puts the pivot at (x, y). A cell is a middle pose, half a width of the turn and half
 * widths of the shift. Where all shapes lie on the deck, a margin is at most the distance from any point of a core to any point
 * off the deck, less the radius. Three kinds of such pairs are taken, those that are nearest in the cell's middle:
 *
 * - a core's corner and the deck's edge: the distance to the nearest edge changes no faster than the corner moves;
 * - a core's corner and the line of one side: straight in the shift, a wave in the turn. It counts where the side, run on as
 *   far as it stays off the deck, lies across from the corner in the whole cell (always, for a side of the deck's hull);
 * - one of the deck's inward corners, and a core's corner or side: likewise.
 *
 * In wide cells only the kit's outermost points are asked: leaving bounds out loosens the least of them and breaks none.
 *
 * What a turn bends away from the straight line is added to the bound, so each holds in the whole cell. A bend's core counts by
 * its ends and by the points of it that face each side and corner.
 *
 * Exact:  bounds hold for every pose of the cell that leaves more than `level` of margin, `level` being 0 or more; those of boundOff() for
 *         every pose, where nothing fits too.
 */
import type { PreparedDeck } from './deck.ts';
import { TAU, wrapAngle } from './frame.ts';
import type { Bounds } from './poseProgramme.ts';
import { lineUp, type Side } from './poseSides.ts';
import type { ArcCore, Swept } from './shapes.ts';

export interface Cell {
  /** The middle: turn, and where the pivot is. */
  readonly angle: number;
  readonly x: number;
  readonly y: number;
  /** Half widths. */
  readonly turn: number;
  readonly wide: number;
  readonly deep: number;
}

/** What of the kit can limit the margin in a cell: corners of cores; cores' sides with inward corners of the deck. */
export interface Near {
  readonly points: Int32Array;
  readonly pairs: Int32Array;
}

/** Whether a part of the kit rules the whole cell out, may limit its margin, or cannot. */
type Verdict = 0 | 1 | 2;
const DEAD = 0;
const NEAR = 1;
const FAR = 2;

/** In cells wider than this only the outermost points of the kit are asked; leaving some out loosens a bound, never breaks it. */
const COARSE_MM = 300;
const OUTER_WAYS = 32;

/** Rounding of a bound. */
const SLACK_MM = 1e-9;

interface Cornered {
  /** Corners from the pivot; a segment has two, a polygon runs counter-clockwise. */
  readonly points: readonly number[];
  readonly closed: boolean;
  readonly radius: number;
}

/** A pivot near the middle of the smallest circle around some points; always in their hull. */
function pivotOf(points: readonly number[]): [number, number] {
  let [x, y] = points;
  for (let step = 1; step <= 200; step++) {
    let far = 0;
    let at = 0;
    for (let i = 0; i < points.length; i += 2) {
      const d = (points[i] - x) ** 2 + (points[i + 1] - y) ** 2;
      if (d > far) [far, at] = [d, i];
    }
    x += (points[at] - x) / (step + 1);
    y += (points[at + 1] - y) / (step + 1);
  }
  return [x, y];
}

function arcEnds({ cx, cy, r, start, sweep }: ArcCore): number[] {
  const end = start + sweep;
  return [cx + r * Math.cos(start), cy + r * Math.sin(start), cx + r * Math.cos(end), cy + r * Math.sin(end)];
}

function cornersOf({ core }: Swept): readonly number[] {
  switch (core.kind) {
    case 'point':
      return [core.x, core.y];
    case 'segment':
      return [core.x0, core.y0, core.x1, core.y1];
    case 'polygon':
      return core.points;
    case 'arc':
      return arcEnds(core);
  }
}

export class KitOnDeck {
  readonly pivotX: number;
  readonly pivotY: number;
  /** The farthest that a point of a core is from the pivot. */
  readonly reach: number;
  readonly all: Near;
  /** So many points, the first ones, are the outermost. */
  private readonly outer: number;
  private readonly sides: readonly Side[];
  /** Inward corners x, y. */
  private readonly inward: readonly number[];
  private readonly px: number[] = [];
  private readonly py: number[] = [];
  private readonly away: number[] = [];
  private readonly radius: number[] = [];
  private readonly cornered: Cornered[] = [];
  private readonly arcs: { readonly core: ArcCore; readonly radius: number }[] = [];
  private level = 0;
  private most = 0;
  private cos = 1;
  private sin = 0;
  private shift = 0;
  /** Of each side, the least top of the bounds before it so far; and the least bound that is the same everywhere. */
  private readonly lowest: Float64Array;
  private readonly lines: Float64Array;
  private readonly alongs: Float64Array;
  private readonly offs: Float64Array;
  private readonly kept: Int32Array;
  private flattest = 0;
  private flatSwing = 0;

  constructor(deck: PreparedDeck, shapes: readonly Swept[]) {
    const { sides, inward } = lineUp(deck.sides);
    this.sides = sides;
    this.inward = inward;
    const count = this.sides.length;
    this.lowest = new Float64Array(count);
    this.alongs = new Float64Array(count);
    this.offs = new Float64Array(count);
    this.lines = new Float64Array(this.sides.flatMap(({ x, y, ux, uy, length, y1 }) => [x, y, ux, uy, length, y1]));
    [this.pivotX, this.pivotY] = pivotOf(shapes.flatMap(cornersOf));
    let reach = 0;
    for (const shape of shapes) {
      const corners = cornersOf(shape).map((value, i) => value - (i % 2 ? this.pivotY : this.pivotX));
      const { core, radius } = shape;
      for (let i = 0; i < corners.length; i += 2) {
        if (core.kind !== 'arc') this.addPoint(corners[i], corners[i + 1], radius);
        reach = Math.max(reach, Math.hypot(corners[i], corners[i + 1]));
      }
      if (core.kind === 'segment' || core.kind === 'polygon')
        this.cornered.push({ points: corners, closed: core.kind === 'polygon', radius });
      if (core.kind !== 'arc') continue;
      const [cx, cy] = [core.cx - this.pivotX, core.cy - this.pivotY];
      this.arcs.push({ core: { ...core, cx, cy }, radius });
      reach = Math.max(reach, Math.hypot(cx, cy) + core.r);
    }
    this.reach = reach;
    const points = this.px.map((_, i) => i);
    const pairs: number[] = [];
    for (let core = 0; core < this.cornered.length; core++)
      for (let at = 0; at < this.inward.length; at += 2) pairs.push(core * this.inward.length + at);
    // The outermost first, then the farther from the pivot: they speak for most of the others.
    const outer = this.outermost();
    this.outer = outer.size;
    points.sort((a, b) => +outer.has(b) - +outer.has(a) || this.away[b] - this.away[a] || a - b);
    for (const list of [this.px, this.py, this.away, this.radius]) {
      const sorted = points.map((i) => list[i]);
      for (let i = 0; i < sorted.length; i++) list[i] = sorted[i];
    }
    points.sort((a, b) => a - b);
    this.all = { points: new Int32Array(points), pairs: new Int32Array(pairs) };
    this.kept = new Int32Array(Math.max(points.length, pairs.length));
  }

  /** The points that reach farthest in any of some directions. */
  private outermost(): Set<number> {
    const found = new Set<number>();
    for (let k = 0; k < OUTER_WAYS; k++) {
      const [ux, uy] = [Math.cos((k * TAU) / OUTER_WAYS), Math.sin((k * TAU) / OUTER_WAYS)];
      let most = Number.NEGATIVE_INFINITY;
      let at = 0;
      for (let i = 0; i < this.px.length; i++) {
        const reach = this.px[i] * ux + this.py[i] * uy + this.radius[i];
        if (reach > most) [most, at] = [reach, i];
      }
      if (this.px.length > 0) found.add(at);
    }
    return found;
  }

  private flat(value: number, swing: number): void {
    if (value >= this.flattest) return;
    this.flattest = value;
    this.flatSwing = swing;
  }

  private addPoint(x: number, y: number, radius: number): void {
    this.px.push(x);
    this.py.push(y);
    this.away.push(Math.hypot(x, y));
    this.radius.push(radius);
  }

  /** The distance from the deck's edge, below 0 off the deck; on the way, where the point is along each side and how far inside it. */
  private fromEdge(x: number, y: number): number {
    const { lines, alongs, offs } = this;
    let least = Number.POSITIVE_INFINITY;
    let on = false;
    for (let k = 0, at = 0; k < offs.length; k++, at += 6) {
      const dx = x - lines[at];
      const dy = y - lines[at + 1];
      const ux = lines[at + 2];
      const uy = lines[at + 3];
      const length = lines[at + 4];
      const along = dx * ux + dy * uy;
      const off = dy * ux - dx * uy;
      alongs[k] = along;
      offs[k] = off;
      const over = along < 0 ? along : along > length ? along - length : 0;
      const d = off * off + over * over;
      if (d < least) least = d;
      // By the corners' own heights, so that two sides that meet are never both counted or both missed.
      if (y < lines[at + 1] !== y < lines[at + 5] && dx * uy < dy * ux === uy > 0) on = !on;
    }
    return on ? Math.sqrt(least) : -Math.sqrt(least);
  }

  /** Bounds of one point of a core. */
  private point(
    px: number,
    py: number,
    away: number,
    radius: number,
    cell: Cell,
    enough: number,
    out: Bounds,
  ): Verdict {
    const rx = this.cos * px - this.sin * py;
    const ry = this.sin * px + this.cos * py;
    const x = cell.x + rx;
    const y = cell.y + ry;
    const { turn, wide, deep } = cell;
    const swing = turn * away;
    const move = swing + this.shift;
    const depth = this.fromEdge(x, y) - radius;
    if (depth + move <= enough) return DEAD;
    if (depth - move > this.most + SLACK_MM) return FAR;
    this.flat(depth + move, swing);
    const { sides, lowest, alongs, offs } = this;
    const over = this.most + move + radius;
    const under = move - this.level - radius;
    for (let k = 0; k < sides.length; k++) {
      const off = offs[k];
      // Before one side all bounds slope alike with the shift, so one that is above another at every turn says nothing.
      if (off > over || off - radius - swing >= lowest[k]) continue;
      const side = sides[k];
      if (alongs[k] - move < side.from || alongs[k] + move > side.to || (!side.hull && off < under)) continue;
      const nx = side.uy;
      const ny = -side.ux;
      const slope = nx * ry - ny * rx;
      const bent = (Math.max(0, nx * rx + ny * ry) + (Math.abs(slope) * turn) / 3) * turn * turn * 0.5;
      const value = off + bent - radius;
      const tilt = turn * Math.abs(slope);
      if (value - tilt >= lowest[k]) continue;
      if (value + tilt < lowest[k]) lowest[k] = value + tilt;
      out.push(value, turn * slope, -nx * wide, -ny * deep, bent, 0);
    }
    for (let k = 0; k < this.inward.length; k += 2) {
      const vx = x - this.inward[k];
      const vy = y - this.inward[k + 1];
      const far = Math.hypot(vx, vy);
      if (far - move - radius > this.most || far < 1e-9) continue;
      const bent = 0.5 * turn * swing;
      const share = move / (2 * far);
      const [turnSlack, shiftSlack] = [bent + share * swing, share * this.shift];
      const slope = (-vx * ry + vy * rx) / far;
      out.push(
        far + turnSlack + shiftSlack - radius,
        turn * slope,
        (vx / far) * wide,
        (vy / far) * deep,
        turnSlack,
        shiftSlack,
      );
    }
    return NEAR;
  }

  /** The distance of an inward corner, seen from the pivot, from a core; below 0 inside a polygon. */
  private fromCore({ points, closed }: Cornered, qx: number, qy: number): number {
    let least = Number.POSITIVE_INFINITY;
    let inside = closed;
    for (let i = 0; i < points.length; i += 2) {
      const j = (i + 2) % points.length;
      const ex = points[j] - points[i];
      const ey = points[j + 1] - points[i + 1];
      const dx = qx - points[i];
      const dy = qy - points[i + 1];
      const t = Math.max(0, Math.min(1, (dx * ex + dy * ey) / (ex * ex + ey * ey)));
      least = Math.min(least, (dx - t * ex) ** 2 + (dy - t * ey) ** 2);
      if (dx * ey - dy * ex > 0) inside = false;
    }
    return inside ? -Math.sqrt(least) : Math.sqrt(least);
  }

  /** Bounds of an inward corner before the sides of a core. */
  private pair(core: Cornered, at: number, cell: Cell, enough: number, out: Bounds): Verdict {
    const wx = this.inward[at] - cell.x;
    const wy = this.inward[at + 1] - cell.y;
    const qx = this.cos * wx + this.sin * wy;
    const qy = -this.sin * wx + this.cos * wy;
    const away = Math.hypot(wx, wy);
    const swing = cell.turn * away;
    const move = swing + this.shift;
    const { points, closed, radius } = core;
    const far = this.fromCore(core, qx, qy) - radius;
    if (far + move <= enough) return DEAD;
    if (far - move > this.most + SLACK_MM) return FAR;
    this.flat(far + move, swing);
    const { turn, wide, deep } = cell;
    for (let i = 0; i < (closed ? points.length : 2); i += 2) {
      const j = (i + 2) % points.length;
      const length = Math.hypot(points[j] - points[i], points[j + 1] - points[i + 1]);
      const ux = (points[j] - points[i]) / length;
      const uy = (points[j + 1] - points[i + 1]) / length;
      const dx = qx - points[i];
      const dy = qy - points[i + 1];
      const along = dx * ux + dy * uy;
      if (along < move || along > length - move) continue;
      const right = dx * uy - dy * ux;
      const way = closed || right >= 0 ? 1 : -1;
      const off = way * right;
      if (off - move < -(this.level + radius) || off - move - radius > this.most) continue;
      const mx = way * (this.cos * uy + this.sin * ux);
      const my = way * (this.sin * uy - this.cos * ux);
      const slope = mx * wy - my * wx;
      const bent =
        (Math.max(0, -(mx * wx + my * wy)) + (Math.abs(slope) * turn) / 3) * turn * turn * 0.5 +
        turn * this.shift * 0.5;
      const crossed = turn * this.shift * 0.5;
      out.push(off + bent + crossed - radius, turn * slope, -mx * wide, -my * deep, bent, crossed);
    }
    return NEAR;
  }

  /** The points of a bend that face the deck's sides and inward corners, and its ends. */
  private facing(core: ArcCore, cell: Cell): number[] {
    const { cx, cy, r, start, sweep } = core;
    const found = arcEnds(core);
    const see = (angle: number) => {
      if (sweep < TAU && wrapAngle(angle - start) > sweep) return;
      found.push(cx + r * Math.cos(angle), cy + r * Math.sin(angle));
    };
    for (const { ux, uy } of this.sides) see(Math.atan2(-ux, uy) - cell.angle);
    for (let k = 0; k < this.inward.length; k += 2) {
      const wx = this.inward[k] - cell.x;
      const wy = this.inward[k + 1] - cell.y;
      see(Math.atan2(-this.sin * wx + this.cos * wy - cy, this.cos * wx + this.sin * wy - cx));
    }
    return found;
  }

  /**
   * Fills `out` with the bounds that count in a cell below `most`, and says what of `near` can count in its parts; null where no pose
   * of it leaves more than `enough`. Bounds hold for poses that leave more than `level`.
   */
  bound(cell: Cell, near: Near, level: number, enough: number, most: number, out: Bounds): Near | null {
    out.count = 0;
    this.level = level;
    this.most = most;
    this.cos = Math.cos(cell.angle);
    this.sin = Math.sin(cell.angle);
    this.shift = Math.hypot(cell.wide, cell.deep);
    this.lowest.fill(Number.POSITIVE_INFINITY);
    this.flattest = Number.POSITIVE_INFINITY;
    const { kept } = this;
    let count = 0;
    // A wide cell learns little from what stands inside the kit.
    const wholeKit = this.shift + cell.turn * this.reach < COARSE_MM;
    for (const i of near.points) {
      if (i >= this.outer && !wholeKit) {
        kept[count++] = i;
        continue;
      }
      const verdict = this.point(this.px[i], this.py[i], this.away[i], this.radius[i], cell, enough, out);
      if (verdict === DEAD) return null;
      if (verdict === NEAR) kept[count++] = i;
    }
    const points = count === near.points.length ? near.points : kept.slice(0, count);
    const corners = this.inward.length;
    count = 0;
    for (const pair of wholeKit ? near.pairs : []) {
      const verdict = this.pair(this.cornered[Math.floor(pair / corners)], pair % corners, cell, enough, out);
      if (verdict === DEAD) return null;
      if (verdict === NEAR) kept[count++] = pair;
    }
    const pairs = !wholeKit || count === near.pairs.length ? near.pairs : kept.slice(0, count);
    for (const { core, radius } of this.arcs) {
      const found = this.facing(core, cell);
      for (let i = 0; i < found.length; i += 2) {
        const away = Math.hypot(found[i], found[i + 1]);
        if (this.point(found[i], found[i + 1], away, radius, cell, enough, out) === DEAD) return null;
      }
    }
    if (this.flattest < Number.POSITIVE_INFINITY) out.push(this.flattest, 0, 0, 0, this.flatSwing, this.shift);
    else if (out.count === 0) out.push(most, 0, 0, 0, 0, 0);
    return { points, pairs };
  }

  /**
   * The same where nothing fits: bounds that hold for margins below 0 too. Of each point of the kit the line of every side of the deck's hull,
   * and the line through the edge's nearest place, where no part of the deck lies beyond it as far as the cell and the point's radius reach. A
   * point off the deck bounds the margin by its distance as well.
   */
  boundOff(cell: Cell, enough: number, out: Bounds): boolean {
    out.count = 0;
    this.cos = Math.cos(cell.angle);
    this.sin = Math.sin(cell.angle);
    this.shift = Math.hypot(cell.wide, cell.deep);
    this.flattest = Number.POSITIVE_INFINITY;
    for (let i = 0; i < this.px.length; i++)
      if (!this.pointOff(this.px[i], this.py[i], this.radius[i], cell, enough, out)) return false;
    for (const { core, radius } of this.arcs) {
      const found = this.facing(core, cell);
      for (let i = 0; i < found.length; i += 2)
        if (!this.pointOff(found[i], found[i + 1], radius, cell, enough, out)) return false;
    }
    if (this.flattest < Number.POSITIVE_INFINITY) out.push(this.flattest, 0, 0, 0, this.flatSwing, this.shift);
    return true;
  }

  private pointOff(px: number, py: number, radius: number, cell: Cell, enough: number, out: Bounds): boolean {
    const rx = this.cos * px - this.sin * py;
    const ry = this.sin * px + this.cos * py;
    const x = cell.x + rx;
    const y = cell.y + ry;
    const swing = cell.turn * Math.hypot(px, py);
    const move = swing + this.shift;
    const depth = this.fromEdge(x, y);
    if (depth < 0) {
      if (depth + move <= enough) return false;
      this.flat(depth + move, swing);
    }
    // A way out of the deck, and how far in the point is.
    const row = (nx: number, ny: number, off: number): boolean => {
      if (off + move - radius <= enough) return false;
      const slope = nx * ry - ny * rx;
      const { turn, wide, deep } = cell;
      const bent = (Math.max(0, nx * rx + ny * ry) + (Math.abs(slope) * turn) / 3) * turn * turn * 0.5;
      out.push(off + bent - radius, turn * slope, -nx * wide, -ny * deep, bent, 0);
      return true;
    };
    for (let k = 0; k < this.sides.length; k++) {
      const { hull, ux, uy } = this.sides[k];
      if (hull && !row(uy, -ux, this.offs[k])) return false;
    }
    // The nearest place of the edge, and away from the deck there.
    let [least, wx, wy] = [Number.POSITIVE_INFINITY, 0, 0];
    for (let k = 0; k < this.sides.length; k++) {
      const { x: x0, y: y0, ux, uy, length } = this.sides[k];
      const along = Math.max(0, Math.min(length, this.alongs[k]));
      const [dx, dy] = [x - x0 - along * ux, y - y0 - along * uy];
      const d = Math.hypot(dx, dy);
      if (d < least) [least, wx, wy] = [d, dx, dy];
    }
    const way = depth < 0 ? 1 : -1;
    if (least < 1e-6) return true;
    const [gx, gy] = [(way * wx) / least, (way * wy) / least];
    const [atX, atY] = [x - wx, y - wy];
    const far = Math.hypot(x + radius * gx - atX, y + radius * gy - atY) + 2 * move;
    if (!this.isClearBeyond(atX, atY, gx, gy, x + radius * gx, y + radius * gy, far)) return true;
    return row(gx, gy, -way * least);
  }

  /** Whether all of the deck's edge within `far` of a place lies behind the line through (atX, atY) that faces (gx, gy). */
  private isClearBeyond(atX: number, atY: number, gx: number, gy: number, x: number, y: number, far: number): boolean {
    for (const { x: x0, y: y0, ux, uy, length } of this.sides) {
      const foot = (x - x0) * ux + (y - y0) * uy;
      const off = (x - x0) * uy - (y - y0) * ux;
      if (Math.abs(off) >= far) continue;
      const half = Math.sqrt(far * far - off * off);
      const [from, to] = [Math.max(0, foot - half), Math.min(length, foot + half)];
      if (from > to) continue;
      for (const t of [from, to]) if ((x0 + t * ux - atX) * gx + (y0 + t * uy - atY) * gy > SLACK_MM) return false;
    }
    return true;
  }
}
