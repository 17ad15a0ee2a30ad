/**
 * Outlines: directed straight and round pieces with the solid on their left, and what can be integrated along them.
 *
 * A swept shape's edge consists of pieces at distance `radius` from its core. Only a curved tube can cover its own
 * pieces (a bend tighter than the tube, or ends that meet); ownOutline() takes those covered stretches away.
 */
import { TAU, wrapAngle } from './frame.ts';
import { gapValue } from './gap.ts';
import { type ArcCore, disc, type Swept } from './shapes.ts';

export interface SegmentPiece {
  readonly kind: 'segment';
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** From angle `start` through `sweep`; counter-clockwise where sweep > 0, clockwise where sweep < 0. */
export interface ArcPiece {
  readonly kind: 'arc';
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly start: number;
  readonly sweep: number;
}

export type Piece = SegmentPiece | ArcPiece;

/** A closed loop: each piece begins where the one before ends. Counter-clockwise round solid, clockwise round a hole. */
export type Loop = readonly Piece[];

/** What takes an outline piece by piece: an integral, a list, a drawing. */
export interface Pen {
  segment(x0: number, y0: number, x1: number, y1: number): void;
  arc(cx: number, cy: number, r: number, start: number, sweep: number): void;
}

/** A core shorter than this is drawn as a disc: it is as short as the rounding of its ends, and has no direction. */
export const SHORTEST = 1e-10;

/** A shape without area (a point, line or arc of radius 0) has no edge and no inside. */
export function hasArea(s: Swept): boolean {
  return s.radius > 0 || s.core.kind === 'polygon';
}

/** The edge of a shape piece by piece, counter-clockwise; a curved tube's own overlaps are still in it. */
export function drawRaw({ core, radius }: Swept, pen: Pen): void {
  switch (core.kind) {
    case 'point':
      pen.arc(core.x, core.y, radius, 0, TAU);
      return;
    case 'segment': {
      const { x0, y0, x1, y1 } = core;
      const length = Math.hypot(x1 - x0, y1 - y0);
      if (length < SHORTEST) {
        pen.arc(x0, y0, radius, 0, TAU);
        return;
      }
      const nx = ((y1 - y0) / length) * radius;
      const ny = (-(x1 - x0) / length) * radius;
      const angle = Math.atan2(ny, nx);
      pen.segment(x0 + nx, y0 + ny, x1 + nx, y1 + ny);
      pen.arc(x1, y1, radius, angle, Math.PI);
      pen.segment(x1 - nx, y1 - ny, x0 - nx, y0 - ny);
      pen.arc(x0, y0, radius, angle + Math.PI, Math.PI);
      return;
    }
    case 'arc': {
      const { cx, cy, r, start, sweep } = core;
      const end = start + sweep;
      if (r * sweep < SHORTEST) {
        pen.arc(cx + r * Math.cos(start), cy + r * Math.sin(start), radius, 0, TAU);
        return;
      }
      pen.arc(cx, cy, r + radius, start, sweep);
      if (sweep < TAU) pen.arc(cx + r * Math.cos(end), cy + r * Math.sin(end), radius, end, Math.PI);
      if (r > radius) pen.arc(cx, cy, r - radius, end, -sweep);
      if (sweep < TAU) pen.arc(cx + r * Math.cos(start), cy + r * Math.sin(start), radius, start + Math.PI, Math.PI);
      return;
    }
    case 'polygon': {
      const p = core.points;
      const n = p.length;
      for (let i = 0; i < n; i += 2) {
        const j = (i + 2) % n;
        const k = (i + 4) % n;
        const ex = p[j] - p[i];
        const ey = p[j + 1] - p[i + 1];
        if (radius === 0) {
          pen.segment(p[i], p[i + 1], p[j], p[j + 1]);
          continue;
        }
        const length = Math.hypot(ex, ey);
        const nx = (ey / length) * radius;
        const ny = (-ex / length) * radius;
        pen.segment(p[i] + nx, p[i + 1] + ny, p[j] + nx, p[j + 1] + ny);
        const fx = p[k] - p[j];
        const fy = p[k + 1] - p[j + 1];
        pen.arc(p[j], p[j + 1], radius, Math.atan2(-ex, ey), Math.atan2(ex * fy - ey * fx, ex * fx + ey * fy));
      }
    }
  }
}

/** Whether a curved tube's ends or its tight bend may cover part of its own raw edge. */
export function overlapsItself({ core, radius }: Swept): boolean {
  if (core.kind !== 'arc' || core.sweep >= TAU || core.r * core.sweep < SHORTEST) return false;
  const gap = TAU - core.sweep;
  return core.r < radius || (gap < Math.PI && core.r * Math.sin(gap / 2) < radius);
}

/** The two crossings of a curved tube's end circles, as angles from the first centre; empty where they do not cross. */
function endCircleCrossings(core: ArcCore, radius: number): [number, number][] {
  const gap = TAU - core.sweep;
  const half = core.r * Math.abs(Math.sin(gap / 2));
  if (!(half > 0 && half < radius)) return [];
  // Both centres lie on the bend, so their crossings lie on the line from its centre through the middle of the gap.
  const middle = core.start + core.sweep + gap / 2;
  const along = core.r * Math.cos(gap / 2);
  const rise = Math.sqrt((radius - half) * (radius + half));
  return [along - rise, along + rise].map((d) => [core.cx + d * Math.cos(middle), core.cy + d * Math.sin(middle)]);
}

/** The edge of one shape with its own overlaps taken away: the pieces of its true boundary, in no promised order. */
export function ownOutline(s: Swept): Piece[] {
  const pieces: Piece[] = [];
  if (!hasArea(s)) return pieces;
  const core = s.core;
  const push: Pen = {
    segment: (x0, y0, x1, y1) => pieces.push({ kind: 'segment', x0, y0, x1, y1 }),
    arc: (cx, cy, r, start, sweep) => pieces.push({ kind: 'arc', cx, cy, r, start, sweep }),
  };
  if (core.kind !== 'arc' || !overlapsItself(s)) {
    drawRaw(s, push);
    return pieces;
  }
  const crossings = endCircleCrossings(core, s.radius);
  // A stretch of an end's half circle is either at distance `radius` from the core throughout or nearer throughout.
  const slack = s.radius * 1e-12;
  const bare = { core, radius: 0 };
  drawRaw(s, {
    segment: push.segment,
    arc(cx, cy, r, start, sweep) {
      if (r !== s.radius || (cx === core.cx && cy === core.cy)) {
        push.arc(cx, cy, r, start, sweep);
        return;
      }
      const stops = [0, sweep];
      for (const [x, y] of crossings) {
        const at = wrapAngle(Math.atan2(y - cy, x - cx) - start);
        if (at < sweep) stops.push(at);
      }
      stops.sort((a, b) => a - b);
      for (let k = 1; k < stops.length; k++) {
        const a = stops[k - 1];
        const middle = start + (a + stops[k]) / 2;
        if (stops[k] === a) continue;
        if (gapValue(bare, disc(cx + r * Math.cos(middle), cy + r * Math.sin(middle), 0)) >= r - slack)
          push.arc(cx, cy, r, start + a, stops[k] - a);
      }
    },
  });
  return pieces;
}

/** What an outline encloses and how long it is, gathered piece by piece about a point near the shape. */
export class Integral implements Pen {
  /** Twice the area. */
  private twice = 0;
  private firstX = 0;
  private firstY = 0;
  length = 0;

  constructor(
    private readonly ox: number,
    private readonly oy: number,
  ) {}

  segment(x0: number, y0: number, x1: number, y1: number): void {
    const ax = x0 - this.ox;
    const ay = y0 - this.oy;
    const bx = x1 - this.ox;
    const by = y1 - this.oy;
    this.twice += ax * by - bx * ay;
    this.firstX += ((by - ay) * (ax * ax + ax * bx + bx * bx)) / 6;
    this.firstY -= ((bx - ax) * (ay * ay + ay * by + by * by)) / 6;
    this.length += Math.hypot(bx - ax, by - ay);
  }

  arc(cx: number, cy: number, r: number, start: number, sweep: number): void {
    const x = cx - this.ox;
    const y = cy - this.oy;
    const c0 = Math.cos(start);
    const s0 = Math.sin(start);
    const c1 = Math.cos(start + sweep);
    const s1 = Math.sin(start + sweep);
    const ds = s1 - s0;
    const dc = c1 - c0;
    this.twice += r * (r * sweep + x * ds - y * dc);
    // First moments by Green's theorem: the integrals of x^2 dy / 2 and -y^2 dx / 2.
    const cosSq = sweep / 2 + (s1 * c1 - s0 * c0) / 2;
    const sinSq = sweep - cosSq;
    this.firstX += (r / 2) * (x * x * ds + 2 * x * r * cosSq + r * r * (ds - (s1 ** 3 - s0 ** 3) / 3));
    this.firstY += (r / 2) * (-y * y * dc + 2 * y * r * sinSq + r * r * (-dc + (c1 ** 3 - c0 ** 3) / 3));
    this.length += r * Math.abs(sweep);
  }

  draw(pieces: Iterable<Piece>): this {
    for (const p of pieces) {
      if (p.kind === 'segment') this.segment(p.x0, p.y0, p.x1, p.y1);
      else this.arc(p.cx, p.cy, p.r, p.start, p.sweep);
    }
    return this;
  }

  get area(): number {
    return this.twice / 2;
  }

  get centroid(): [number, number] {
    return [this.ox + this.firstX / this.area, this.oy + this.firstY / this.area];
  }
}

/** A point close to a shape, for integrals without loss of figures. */
export function anchor({ core }: Swept): [number, number] {
  switch (core.kind) {
    case 'point':
      return [core.x, core.y];
    case 'segment':
      return [(core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2];
    case 'arc':
      return [core.cx, core.cy];
    case 'polygon':
      return [core.points[0], core.points[1]];
  }
}
