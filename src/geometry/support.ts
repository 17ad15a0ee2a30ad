/**
 * How far shapes extend along a direction, and their boxes. A sum with the sweeping disc only adds its radius,
 * so each is the core's extent plus the radius.
 *
 * Exact: within a few 1e-16 of the largest coordinate.
 */
import { spanHas, spanOf } from './gapSpan.ts';
import type { Core, Swept } from './shapes.ts';

/** An upright box, in the shapes' unit. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The extent of a core along a direction: the largest x ux + y uy over the core. */
export function supportOfCore(core: Core, ux: number, uy: number): number {
  switch (core.kind) {
    case 'point':
      return core.x * ux + core.y * uy;
    case 'segment':
      return Math.max(core.x0 * ux + core.y0 * uy, core.x1 * ux + core.y1 * uy);
    case 'arc': {
      const span = spanOf(core);
      const centre = core.cx * ux + core.cy * uy;
      // Does the arc reach the circle's own extreme? If not, the further end is it.
      if (spanHas(span, 0, ux, uy)) return centre + core.r * Math.hypot(ux, uy);
      return centre + core.r * Math.max(span[0] * ux + span[1] * uy, span[2] * ux + span[3] * uy);
    }
    case 'polygon': {
      let most = Number.NEGATIVE_INFINITY;
      for (let i = 0; i < core.points.length; i += 2)
        most = Math.max(most, core.points[i] * ux + core.points[i + 1] * uy);
      return most;
    }
  }
}

/** The extent of a shape along (ux, uy), from the origin. Inputs: a unit direction gives a length. */
export function support({ core, radius }: Swept, ux: number, uy: number): number {
  return supportOfCore(core, ux, uy) + radius * Math.hypot(ux, uy);
}

/** The smallest upright box around one shape. */
export function boxOf(shape: Swept): Box {
  const { core, radius: r } = shape;
  switch (core.kind) {
    case 'point':
      return { minX: core.x - r, minY: core.y - r, maxX: core.x + r, maxY: core.y + r };
    case 'segment':
      return {
        minX: Math.min(core.x0, core.x1) - r,
        minY: Math.min(core.y0, core.y1) - r,
        maxX: Math.max(core.x0, core.x1) + r,
        maxY: Math.max(core.y0, core.y1) + r,
      };
    case 'arc':
      return {
        minX: -support(shape, -1, 0),
        minY: -support(shape, 0, -1),
        maxX: support(shape, 1, 0),
        maxY: support(shape, 0, 1),
      };
    case 'polygon': {
      const p = core.points;
      let [minX, minY, maxX, maxY] = [p[0], p[1], p[0], p[1]];
      for (let i = 2; i < p.length; i += 2) {
        if (p[i] < minX) minX = p[i];
        else if (p[i] > maxX) maxX = p[i];
        if (p[i + 1] < minY) minY = p[i + 1];
        else if (p[i + 1] > maxY) maxY = p[i + 1];
      }
      return { minX: minX - r, minY: minY - r, maxX: maxX + r, maxY: maxY + r };
    }
  }
}

/** The extent of many shapes along a direction; -Infinity for none. */
export function supportOfMany(shapes: Iterable<Swept>, ux: number, uy: number): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const shape of shapes) most = Math.max(most, support(shape, ux, uy));
  return most;
}

/** The smallest upright box around many shapes, or null for none. */
export function extent(shapes: Iterable<Swept>): Box | null {
  let box: Box | null = null;
  for (const shape of shapes) {
    const own = boxOf(shape);
    box = box
      ? {
          minX: Math.min(box.minX, own.minX),
          minY: Math.min(box.minY, own.minY),
          maxX: Math.max(box.maxX, own.maxX),
          maxY: Math.max(box.maxY, own.maxY),
        }
      : own;
  }
  return box;
}
