/**
 * Cores as rows of numbers in flat arrays, which is how nearest.ts reads them; and bodies with their boxes and heights beside
 * the cores, ready for closePairs(). Build a table once, or fill it again for each frame of a drag.
 */
import { SPAN, spanOf } from './gapSpan.ts';
import type { Core, Swept } from './shapes.ts';
import { boxInto, openBox } from './support.ts';

/** Kinds of cores as numbers; a pair is measured with the lesser kind first. */
export const POINT = 0;
export const SEGMENT = 1;
export const ARC = 2;
export const POLYGON = 3;

/** Where the centre, the radius and the span (see gapSpan.ts) of an arc stand in its row; its ends come first. */
export const CENTRE = 4;
export const BEND = 6;
export const SPAN_AT = 7;

/** Numbers of one core in `data`. */
export const STRIDE = SPAN_AT + SPAN;

function grown(array: Float64Array, length = 2 * array.length + 16): Float64Array {
  const wider = new Float64Array(length);
  wider.set(array);
  return wider;
}

/** Cores in rows, from i * STRIDE on in `data`. */
export class Cores {
  count = 0;
  kind: Uint8Array;
  data: Float64Array;
  /** Corners of all polygons, each polygon's first corner repeated at its end. */
  corners: Float64Array;
  private cornersUsed = 0;

  constructor(capacity = 1) {
    this.kind = new Uint8Array(capacity);
    this.data = new Float64Array(capacity * STRIDE);
    this.corners = new Float64Array(capacity * 4);
  }

  /** Forgets all cores and keeps the memory. */
  clear(): void {
    this.count = 0;
    this.cornersUsed = 0;
  }

  /** Adds a core and returns its index. */
  add(core: Core): number {
    const i = this.count;
    if (i === this.kind.length) {
      const kind = new Uint8Array(2 * i + 8);
      kind.set(this.kind);
      this.kind = kind;
      this.data = grown(this.data, kind.length * STRIDE);
    }
    this.count = i + 1;
    const d = this.data;
    const at = i * STRIDE;
    switch (core.kind) {
      case 'point':
        this.kind[i] = POINT;
        d[at] = core.x;
        d[at + 1] = core.y;
        break;
      case 'segment': // both ends
        this.kind[i] = SEGMENT;
        d[at] = core.x0;
        d[at + 1] = core.y0;
        d[at + 2] = core.x1;
        d[at + 3] = core.y1;
        break;
      case 'arc': // both ends as a segment has them, centre, radius, span
        this.kind[i] = ARC;
        spanOf(core, d, at + SPAN_AT);
        d[at] = core.cx + core.r * d[at + SPAN_AT];
        d[at + 1] = core.cy + core.r * d[at + SPAN_AT + 1];
        d[at + 2] = core.cx + core.r * d[at + SPAN_AT + 2];
        d[at + 3] = core.cy + core.r * d[at + SPAN_AT + 3];
        d[at + CENTRE] = core.cx;
        d[at + CENTRE + 1] = core.cy;
        d[at + BEND] = core.r;
        break;
      case 'polygon': {
        // Where its corners begin and end in `corners`, the repeated first one not counted.
        this.kind[i] = POLYGON;
        const from = this.cornersUsed;
        const to = from + core.points.length;
        this.cornersUsed = to + 2;
        while (this.cornersUsed > this.corners.length) this.corners = grown(this.corners);
        this.corners.set(core.points, from);
        this.corners[to] = core.points[0];
        this.corners[to + 1] = core.points[1];
        d[at] = from;
        d[at + 1] = to;
      }
    }
    return i;
  }
}

/** A body as closePairs() wants it: an outline and its height interval, mm. */
export interface Standing {
  readonly shape: Swept;
  readonly z0: number;
  readonly z1: number;
}

/** Bodies of no group. */
export const ALONE = -1;

/** Many bodies: their cores, and for each a radius, a box that holds the radius, heights, and a group. */
export class CoreTable {
  readonly cores: Cores;
  private readonly box = openBox();
  radius: Float64Array;
  minX: Float64Array;
  minY: Float64Array;
  maxX: Float64Array;
  maxY: Float64Array;
  z0: Float64Array;
  z1: Float64Array;
  /** What is of one group makes no pair: parts of one thing. */
  group: Int32Array;

  constructor(capacity = 64) {
    this.cores = new Cores(capacity);
    this.radius = new Float64Array(capacity);
    this.minX = new Float64Array(capacity);
    this.minY = new Float64Array(capacity);
    this.maxX = new Float64Array(capacity);
    this.maxY = new Float64Array(capacity);
    this.z0 = new Float64Array(capacity);
    this.z1 = new Float64Array(capacity);
    this.group = new Int32Array(capacity);
  }

  static of(bodies: readonly Standing[]): CoreTable {
    const table = new CoreTable(bodies.length);
    for (const { shape, z0, z1 } of bodies) table.add(shape, z0, z1);
    return table;
  }

  get count(): number {
    return this.cores.count;
  }

  /** Forgets all bodies and keeps the memory. */
  clear(): void {
    this.cores.clear();
  }

  /** Adds a body and returns its index. */
  add(shape: Swept, z0: number, z1: number, group = ALONE): number {
    const i = this.cores.add(shape.core);
    if (i >= this.radius.length) {
      for (const name of ['radius', 'minX', 'minY', 'maxX', 'maxY', 'z0', 'z1'] as const)
        this[name] = grown(this[name], 2 * i + 8);
      const group = new Int32Array(2 * i + 8);
      group.set(this.group);
      this.group = group;
    }
    const box = boxInto(shape, this.box);
    this.radius[i] = shape.radius;
    this.minX[i] = box.minX;
    this.minY[i] = box.minY;
    this.maxX[i] = box.maxX;
    this.maxY[i] = box.maxY;
    this.z0[i] = z0;
    this.z1[i] = z1;
    this.group[i] = group;
    return i;
  }
}
