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
