/** The least distance between a core and a straight side of a deck; 0 where they meet or the side lies in a polygon core. */
import { TAU, turn, wrapAngle } from './frame.ts';
import { distanceToArc } from './outline.ts';
import type { ArcCore, Core } from './shapes.ts';

export function pointSegment(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  const lengthSq = dx * dx + dy * dy;
  const t = ((x - x0) * dx + (y - y0) * dy) / lengthSq;
  // Written so that a segment too short to square (t is no number) counts as its first end.
  if (!(t > 0)) return Math.hypot(x - x0, y - y0);
  if (t >= 1) return Math.hypot(x - x1, y - y1);
  return Math.abs((x - x0) * dy - (y - y0) * dx) / Math.sqrt(lengthSq);
}

/** Exact: whether two segments meet. */
function segmentsMeet(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): boolean {
  const c = turn(ax, ay, bx, by, cx, cy);
  const d = turn(ax, ay, bx, by, dx, dy);
  const a = turn(cx, cy, dx, dy, ax, ay);
  const b = turn(cx, cy, dx, dy, bx, by);
  // A touch is found by the distances of the ends; here only a true crossing matters.
  return c > 0 !== d > 0 && a > 0 !== b > 0 && c !== 0 && d !== 0 && a !== 0 && b !== 0;
}

function segmentSegment(p: readonly number[], x0: number, y0: number, x1: number, y1: number): number {
  const [ax, ay, bx, by] = p;
  if (segmentsMeet(ax, ay, bx, by, x0, y0, x1, y1)) return 0;
  return Math.min(
    pointSegment(ax, ay, x0, y0, x1, y1),
    pointSegment(bx, by, x0, y0, x1, y1),
    pointSegment(x0, y0, ax, ay, bx, by),
    pointSegment(x1, y1, ax, ay, bx, by),
  );
}

function arcSegment(core: ArcCore, x0: number, y0: number, x1: number, y1: number): number {
  const { cx, cy, r, start, sweep } = core;
  const sees = (angle: number) => sweep >= TAU || wrapAngle(angle - start) <= sweep;
  const end = start + sweep;
  let least = Math.min(
    distanceToArc(core, x0, y0),
    distanceToArc(core, x1, y1),
    pointSegment(cx + r * Math.cos(start), cy + r * Math.sin(start), x0, y0, x1, y1),
    pointSegment(cx + r * Math.cos(end), cy + r * Math.sin(end), x0, y0, x1, y1),
  );
  const length = Math.hypot(x1 - x0, y1 - y0);
  const ux = (x1 - x0) / length;
  const uy = (y1 - y0) / length;
  const foot = (cx - x0) * ux + (cy - y0) * uy;
  const off = (cx - x0) * uy - (cy - y0) * ux;
  if (Math.abs(off) < r) {
    const half = Math.sqrt((r - Math.abs(off)) * (r + Math.abs(off)));
    for (const s of [foot - half, foot + half])
      if (s >= 0 && s <= length && sees(Math.atan2(y0 + s * uy - cy, x0 + s * ux - cx))) return 0;
  }
  // Straight across from the bend's centre, on either side of it.
  if (foot >= 0 && foot <= length) {
    for (const side of [1, -1]) {
      const angle = Math.atan2(side * ux, -side * uy);
      if (sees(angle)) least = Math.min(least, Math.abs(off - side * r));
    }
  }
  return least;
}

export function distanceCoreSegment(core: Core, x0: number, y0: number, x1: number, y1: number): number {
  switch (core.kind) {
    case 'point':
      return pointSegment(core.x, core.y, x0, y0, x1, y1);
    case 'segment':
      return segmentSegment([core.x0, core.y0, core.x1, core.y1], x0, y0, x1, y1);
    case 'arc':
      return arcSegment(core, x0, y0, x1, y1);
    case 'polygon': {
      const p = core.points;
      let least = Number.POSITIVE_INFINITY;
      let holds = true;
      for (let i = 0; i < p.length; i += 2) {
        const j = (i + 2) % p.length;
        least = Math.min(least, segmentSegment([p[i], p[i + 1], p[j], p[j + 1]], x0, y0, x1, y1));
        if (turn(p[i], p[i + 1], p[j], p[j + 1], x0, y0) < 0) holds = false;
      }
      return holds ? 0 : least;
    }
  }
}
