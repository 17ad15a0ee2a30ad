/**
 * Outlines of swept shapes as rings of corners, for programs without arcs. Written for the tests alone, from the
 * definition of a swept shape, with no use of our distances.
 */
import type { Swept } from '../../src/geometry/shapes.ts';

export type Ring = [number, number][];

/** Corners of an arc from angle `from` through `sweep` (either sign), ends included, chords no more than `error` off. */
function arcCorners(cx: number, cy: number, r: number, from: number, sweep: number, error: number): Ring {
  if (r <= error) return [[cx + r * Math.cos(from), cy + r * Math.sin(from)]];
  const step = 2 * Math.acos(1 - error / r);
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / step));
  return Array.from({ length: count + 1 }, (_, k) => {
    const angle = from + (sweep * k) / count;
    return [cx + r * Math.cos(angle), cy + r * Math.sin(angle)];
  });
}

/**
 * The outline as one ring, its corners on the true outline and its chords within `error` of it.
 * Inputs: for bends, less than a turn, a tube radius of more than 0 and less than the bend radius, and no end of the
 * tube touching the other: outside that the outline is not one simple ring.
 */
export function flattened({ core, radius }: Swept, error: number): Ring {
  switch (core.kind) {
    case 'point':
      return arcCorners(core.x, core.y, radius, 0, 2 * Math.PI, error).slice(0, -1);
    case 'segment': {
      const heading = Math.atan2(core.y1 - core.y0, core.x1 - core.x0);
      return [
        ...arcCorners(core.x1, core.y1, radius, heading - Math.PI / 2, Math.PI, error),
        ...arcCorners(core.x0, core.y0, radius, heading + Math.PI / 2, Math.PI, error),
      ];
    }
    case 'arc': {
      const { cx, cy, r, start, sweep } = core;
      const end = start + sweep;
      const at = (angle: number): [number, number] => [cx + r * Math.cos(angle), cy + r * Math.sin(angle)];
      return [
        ...arcCorners(cx, cy, r + radius, start, sweep, error),
        // The caps' own ends would double the sides' ends, but for rounding, and cross them.
        ...arcCorners(...at(end), radius, end, Math.PI, error).slice(1, -1),
        ...arcCorners(cx, cy, r - radius, end, -sweep, error),
        ...arcCorners(...at(start), radius, start + Math.PI, Math.PI, error).slice(1, -1),
      ];
    }
    case 'polygon': {
      const p = core.points;
      if (radius === 0) return Array.from({ length: p.length / 2 }, (_, k) => [p[2 * k], p[2 * k + 1]]);
      const ring: Ring = [];
      for (let k = 0; k < p.length; k += 2) {
        const before = (k + p.length - 2) % p.length;
        const after = (k + 2) % p.length;
        const from = Math.atan2(p[k + 1] - p[before + 1], p[k] - p[before]) - Math.PI / 2;
        const to = Math.atan2(p[after + 1] - p[k + 1], p[after] - p[k]) - Math.PI / 2;
        ring.push(...arcCorners(p[k], p[k + 1], radius, from, (to - from + 4 * Math.PI) % (2 * Math.PI), error));
      }
      return ring;
    }
  }
}
