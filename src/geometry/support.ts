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

/** A box that boxInto() fills again and again. */
export type OpenBox = { -readonly [K in keyof Box]: number };

export const openBox = (): OpenBox => ({ minX: 0, minY: 0, maxX: 0, maxY: 0 });

/** The smallest upright box around one shape. */
export const boxOf = (shape: Swept): Box => boxInto(shape, openBox());

/** The same in a box that stands already, for those who ask of many in a frame. */
export function boxInto(shape: Swept, box: OpenBox): OpenBox {
  const { core, radius: r } = shape;
  switch (core.kind) {
    case 'point':
      box.minX = core.x - r;
      box.minY = core.y - r;
      box.maxX = core.x + r;
      box.maxY = core.y + r;
      return box;
    case 'segment':
      box.minX = Math.min(core.x0, core.x1) - r;
      box.minY = Math.min(core.y0, core.y1) - r;
      box.maxX = Math.max(core.x0, core.x1) + r;
      box.maxY = Math.max(core.y0, core.y1) + r;
      return box;
    case 'arc':
      box.minX = -support(shape, -1, 0);
      box.minY = -support(shape, 0, -1);
      box.maxX = support(shape, 1, 0);
      box.maxY = support(shape, 0, 1);
      return box;
    case 'polygon': {
      const p = core.points;
      let [minX, minY, maxX, maxY] = [p[0], p[1], p[0], p[1]];
      for (let i = 2; i < p.length; i += 2) {
        if (p[i] < minX) minX = p[i];
        else if (p[i] > maxX) maxX = p[i];
        if (p[i + 1] < minY) minY = p[i + 1];
        else if (p[i + 1] > maxY) maxY = p[i + 1];
      }
      box.minX = minX - r;
      box.minY = minY - r;
      box.maxX = maxX + r;
      box.maxY = maxY + r;
      return box;
    }
  }
}

/** The smallest upright box around many shapes, or null for none. */
export function extent(shapes: Iterable<Swept>): Box | null {
  const own = openBox();
  let all: OpenBox | null = null;
  for (const shape of shapes) {
    if (all === null) {
      all = boxInto(shape, openBox());
      continue;
    }
    boxInto(shape, own);
    all.minX = Math.min(all.minX, own.minX);
    all.minY = Math.min(all.minY, own.minY);
    all.maxX = Math.max(all.maxX, own.maxX);
    all.maxY = Math.max(all.maxY, own.maxY);
  }
  return all;
}
