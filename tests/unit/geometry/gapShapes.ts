/** Random swept shapes of every kind for property tests, with the ends of each range among them. */
import fc from 'fast-check';
import {
  bentCapsule,
  capsule,
  disc,
  mirrored,
  moved,
  rectangle,
  roundedPolygon,
  type Swept,
} from '../../../src/geometry/shapes.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const place = number(-1500, 1500);
const radius = fc.oneof(fc.constant(0), number(0, 300));
const length = fc.oneof(number(0.5, 5), number(5, 900));

const discs = () => fc.tuple(place, place, radius).map(([x, y, r]) => disc(x, y, r));

const tubes = () =>
  fc
    .tuple(place, place, number(-4, 4), length, radius)
    .map(([x, y, a, l, r]) => capsule(x, y, x + l * Math.cos(a), y + l * Math.sin(a), r));

/** Slight bends of huge radius, ordinary bends, more than half a turn, nearly closed and closed rings. */
const bends = () =>
  fc
    .tuple(
      place,
      place,
      fc.oneof(number(0.5, 20), number(20, 900), number(900, 20000)),
      number(-4, 4),
      fc.oneof(
        number(0.001, 1),
        number(1, 6.28),
        fc.constant(2 * Math.PI),
        fc.constant(2 * Math.PI - 1e-6),
        fc.constant(Math.PI),
      ),
      radius,
    )
    // The middle of the bend is at the place, so that huge bends pass through the same ground as the rest.
    .map(([x, y, r, a, sweep, tube]) =>
      bentCapsule(x - r * Math.cos(a + sweep / 2), y - r * Math.sin(a + sweep / 2), r, a, sweep, tube),
    );

const polygons = () =>
  fc.oneof(
    fc
      .tuple(place, place, length, length, number(-4, 4), radius)
      .map(([x, y, w, d, a, r]) => rectangle(x, y, w, d, a, r)),
    // Corners of one circle in order are convex.
    fc
      .tuple(
        place,
        place,
        number(20, 500),
        fc.uniqueArray(fc.integer({ min: 0, max: 35 }), { minLength: 3, maxLength: 9 }),
        radius,
      )
      .map(([x, y, size, tens, r]) =>
        roundedPolygon(
          tens
            .sort((p, q) => p - q)
            .flatMap((t) => [x + size * Math.cos(t * 0.17453), y + size * Math.sin(t * 0.17453)]),
          r,
        ),
      ),
  );

export const shapes = (): fc.Arbitrary<Swept> => fc.oneof(discs(), tubes(), bends(), polygons());

export const KINDS = { point: discs, segment: tubes, arc: bends, polygon: polygons } as const;

/** Ten times, a hundredth ...: the same shape at another scale, about the origin. */
export function scaled({ core, radius }: Swept, k: number): Swept {
  switch (core.kind) {
    case 'point':
      return { core: { ...core, x: core.x * k, y: core.y * k }, radius: radius * k };
    case 'segment':
      return {
        core: { ...core, x0: core.x0 * k, y0: core.y0 * k, x1: core.x1 * k, y1: core.y1 * k },
        radius: radius * k,
      };
    case 'arc':
      return { core: { ...core, cx: core.cx * k, cy: core.cy * k, r: core.r * k }, radius: radius * k };
    case 'polygon':
      return { core: { ...core, points: core.points.map((c) => c * k) }, radius: radius * k };
  }
}

export { mirrored, moved };

/** A place of a core, `part` (0 to 1) of the way along its curve or round its edge. */
export function placeOn({ core }: Swept, part: number): [number, number] {
  switch (core.kind) {
    case 'point':
      return [core.x, core.y];
    case 'segment':
      return [core.x0 + part * (core.x1 - core.x0), core.y0 + part * (core.y1 - core.y0)];
    case 'arc': {
      const angle = core.start + part * core.sweep;
      return [core.cx + core.r * Math.cos(angle), core.cy + core.r * Math.sin(angle)];
    }
    case 'polygon': {
      const count = core.points.length / 2;
      const at = Math.min(Math.floor(part * count), count - 1);
      const t = part * count - at;
      const [i, j] = [2 * at, 2 * ((at + 1) % count)];
      return [
        core.points[i] + t * (core.points[j] - core.points[i]),
        core.points[i + 1] + t * (core.points[j + 1] - core.points[i + 1]),
      ];
    }
  }
}

function toSegment(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
  const t = ((x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)) / ((x1 - x0) ** 2 + (y1 - y0) ** 2);
  const held = Math.min(1, Math.max(0, t));
  return Math.hypot(x - x0 - held * (x1 - x0), y - y0 - held * (y1 - y0));
}

/** Distance from a place to a core by the school's formulas, angles and all: none of it is the code under test. */
export function distanceTo({ core }: Swept, x: number, y: number): number {
  switch (core.kind) {
    case 'point':
      return Math.hypot(x - core.x, y - core.y);
    case 'segment':
      return toSegment(x, y, core.x0, core.y0, core.x1, core.y1);
    case 'arc': {
      const turn = 2 * Math.PI;
      const angle = Math.atan2(y - core.cy, x - core.cx) - core.start;
      if (angle - turn * Math.floor(angle / turn) <= core.sweep)
        return Math.abs(Math.hypot(x - core.cx, y - core.cy) - core.r);
      const end = (at: number) => Math.hypot(x - core.cx - core.r * Math.cos(at), y - core.cy - core.r * Math.sin(at));
      return Math.min(end(core.start), end(core.start + core.sweep));
    }
    case 'polygon': {
      const p = core.points;
      let least = Number.POSITIVE_INFINITY;
      let inside = true;
      for (let i = 0; i < p.length; i += 2) {
        const [x1, y1] = [p[(i + 2) % p.length], p[(i + 3) % p.length]];
        least = Math.min(least, toSegment(x, y, p[i], p[i + 1], x1, y1));
        if ((x1 - p[i]) * (y - p[i + 1]) - (y1 - p[i + 1]) * (x - p[i]) < 0) inside = false;
      }
      return inside ? 0 : least;
    }
  }
}

/**
 * A distance of two cores that is never too small: many places of one core against the whole of the other, and from the best of
 * them downhill (golden section). It may stop in the wrong valley, so it can only show that another answer is too large.
 */
export function descent(a: Swept, b: Swept, places = 24): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [from, to] of [
    [a, b],
    [b, a],
  ]) {
    const at = (part: number) => distanceTo(to, ...placeOn(from, Math.min(1, Math.max(0, part))));
    let best = 0;
    for (let k = 0; k <= places; k++) if (at(k / places) < at(best / places)) best = k;
    let [low, high] = [(best - 1) / places, (best + 1) / places];
    const golden = (Math.sqrt(5) - 1) / 2;
    for (let k = 0; k < 60; k++) {
      const [p, q] = [high - golden * (high - low), low + golden * (high - low)];
      if (at(p) <= at(q)) high = q;
      else low = p;
    }
    least = Math.min(least, at(best / places), at((low + high) / 2));
  }
  return least;
}
