/**
 * How far a point lies outside (> 0) or inside (< 0) a swept shape, and which way the distance grows there.
 * For union.ts, which asks it of one point after another; the slope is kept from the last question.
 */
import { TAU, wrapAngle } from './frame.ts';
import { SHORTEST } from './outline.ts';
import type { Swept } from './shapes.ts';

/** Of the last question: the slope's x and y, and the bend. In an array, for a number that a module assigns is put on the heap each time. */
const last = new Float64Array(3);
const GX = 0;
const GY = 1;
const BEND = 2;

/** The last question's direction away from the shape, a unit vector (0, 0 on the core itself). */
export const slopeX = (): number => last[GX];
export const slopeY = (): number => last[GY];

/** How the shape's edge bends at the last question's nearest place: 1 / its radius, below 0 where it is hollow, 0 if straight. */
export const edgeBend = (): number => last[BEND];

/** Distance from (cx, cy), slope noted. */
function away(x: number, y: number, cx: number, cy: number): number {
  const dx = x - cx;
  const dy = y - cy;
  const d = Math.sqrt(dx * dx + dy * dy);
  last[GX] = d > 0 ? dx / d : 0;
  last[GY] = d > 0 ? dy / d : 0;
  return d;
}

/**
 * Whether a point is farther than `slack` outside a disc or off a curved tube's full ring: cheap, and most points asked
 * about are. Says no where it cannot tell.
 */
export function clearlyOutside({ core, radius }: Swept, x: number, y: number, slack: number): boolean {
  if (core.kind === 'point') {
    const reach = radius + slack;
    return (x - core.x) * (x - core.x) + (y - core.y) * (y - core.y) > reach * reach;
  }
  if (core.kind === 'arc') {
    const dSq = (x - core.cx) * (x - core.cx) + (y - core.cy) * (y - core.cy);
    const far = core.r + radius + slack;
    const close = core.r - radius - slack;
    return dSq > far * far || (close > 0 && dSq < close * close);
  }
  return false;
}

/**
 * Sign: > 0 outside, < 0 inside, 0 on the edge. Exact outside and on the edge; inside a curved tube with ends that meet it
 * is the depth below the nearest core point's circle, which has the right sign.
 */
export function signedDistance({ core, radius }: Swept, x: number, y: number): number {
  switch (core.kind) {
    case 'point':
      last[BEND] = 1 / radius;
      return away(x, y, core.x, core.y) - radius;
    case 'segment': {
      last[BEND] = 1 / radius;
      const dx = core.x1 - core.x0;
      const dy = core.y1 - core.y0;
      const lengthSq = dx * dx + dy * dy;
      const t = ((x - core.x0) * dx + (y - core.y0) * dy) / lengthSq;
      if (t <= 0 || lengthSq < SHORTEST * SHORTEST) return away(x, y, core.x0, core.y0) - radius;
      if (t >= 1) return away(x, y, core.x1, core.y1) - radius;
      // Across the line rather than to the foot: no loss of figures on a long tube.
      last[BEND] = 0;
      const length = Math.sqrt(lengthSq);
      const off = ((x - core.x0) * dy - (y - core.y0) * dx) / length;
      const side = off < 0 ? -1 : 1;
      last[GX] = (side * dy) / length;
      last[GY] = (-side * dx) / length;
      return side * off - radius;
    }
    case 'arc': {
      // A closed ring without a hole is a disc; its centre, which may be `radius` from the core, is no edge.
      last[BEND] = 1 / (core.r + radius);
      if (core.sweep >= TAU && core.r <= radius) return away(x, y, core.cx, core.cy) - core.r - radius;
      const short = core.r * core.sweep < SHORTEST;
      const angle = wrapAngle(Math.atan2(y - core.cy, x - core.cx) - core.start);
      if (angle <= core.sweep && !short) {
        const off = away(x, y, core.cx, core.cy) - core.r;
        if (off >= 0) return off - radius;
        last[BEND] = -1 / (core.r - radius);
        last[GX] = -last[GX];
        last[GY] = -last[GY];
        return -off - radius;
      }
      last[BEND] = 1 / radius;
      const end = core.start + core.sweep;
      const ex = core.cx + core.r * Math.cos(end);
      const ey = core.cy + core.r * Math.sin(end);
      const sx = core.cx + core.r * Math.cos(core.start);
      const sy = core.cy + core.r * Math.sin(core.start);
      const toEnd = (x - ex) * (x - ex) + (y - ey) * (y - ey);
      const toStart = (x - sx) * (x - sx) + (y - sy) * (y - sy);
      return (short || toStart < toEnd ? away(x, y, sx, sy) : away(x, y, ex, ey)) - radius;
    }
    case 'polygon': {
      const p = core.points;
      const n = p.length;
      let inside = Number.NEGATIVE_INFINITY;
      let outside = Number.POSITIVE_INFINITY;
      let ix = 0;
      let iy = 0;
      for (let i = 0, j = n - 2; i < n; j = i, i += 2) {
        const dx = p[i] - p[j];
        const dy = p[i + 1] - p[j + 1];
        const length = Math.sqrt(dx * dx + dy * dy);
        const off = ((x - p[j]) * dy - (y - p[j + 1]) * dx) / length;
        if (off > inside) {
          inside = off;
          ix = dy / length;
          iy = -dx / length;
        }
        if (off > 0) {
          const t = ((x - p[j]) * dx + (y - p[j + 1]) * dy) / (length * length);
          if (t >= 0 && t <= 1) {
            last[BEND] = 0;
            last[GX] = dy / length;
            last[GY] = -dx / length;
            return off - radius;
          }
          const cx = t < 0 ? p[j] : p[i];
          const cy = t < 0 ? p[j + 1] : p[i + 1];
          const d = (x - cx) * (x - cx) + (y - cy) * (y - cy);
          if (d < outside) {
            outside = d;
            last[GX] = x - cx;
            last[GY] = y - cy;
          }
        }
      }
      if (inside <= 0) {
        last[BEND] = 0;
        last[GX] = ix;
        last[GY] = iy;
        return inside - radius;
      }
      last[BEND] = 1 / radius;
      const d = Math.sqrt(outside);
      last[GX] /= d;
      last[GY] /= d;
      return d - radius;
    }
  }
}
