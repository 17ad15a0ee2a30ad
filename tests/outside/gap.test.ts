/**
 * Gaps against GEOS (geos-wasm 3.1.1, a build of GEOS in C++): plain polygon distance between outlines
 * flattened at 0.001 mm.
 *
 * Corners lie on the true outline; chords run inside the shape, or outside it along the inner side of a bend, by at most
 * 0.001 mm. So the library's distance is off by at most 0.001 mm for each outline: that, and a little rounding, is the
 * tolerance. Its plain distance sees overlap and containment (0), which indexed facet distances do not (so they are not
 * used), but gives no depth: there we check the sign.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { gap } from '../../src/geometry/gap.ts';
import { CoreTable, closePairs } from '../../src/geometry/pairs.ts';
import { bentCapsule, capsule, disc, rectangle, roundedPolygon, type Swept } from '../../src/geometry/shapes.ts';
import { kitBodies } from '../fixtures/kits.ts';
import { few, runs } from '../fixtures/seeds.ts';
import { flattened } from './gapFlatten.ts';
import { boxesApart, program, reach } from './reportOutlines.ts';

const FLAT_MM = 0.001;
const ROUNDING_MM = 1e-6;

let geos: Awaited<ReturnType<typeof program>>;
beforeAll(async () => {
  geos = await program();
});

const geometry = (shape: Swept): number => geos.polygon(flattened(shape, FLAT_MM));

function expectAgreement(ours: number, theirs: number): void {
  const tolerance = 2 * FLAT_MM + ROUNDING_MM;
  if (theirs === 0) expect(ours).toBeLessThan(tolerance);
  else expect(Math.abs(ours - theirs)).toBeLessThan(tolerance);
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const place = number(-400, 400);
const kinds = {
  disc: fc.tuple(place, place, number(5, 250)).map(([x, y, r]) => disc(x, y, r)),
  tube: fc
    .tuple(place, place, number(5, 900), number(-4, 4), number(5, 60))
    .map(([x, y, l, a, r]) => capsule(x, y, x + l * Math.cos(a), y + l * Math.sin(a), r)),
  // Bends whose outline is one simple ring: a tube thinner than the bend, and a mouth wider than the tube.
  bend: fc
    .tuple(place, place, number(60, 900), number(-4, 4), number(0.05, 5), number(5, 25))
    .filter(([, , r, , sweep, tube]) => sweep < 2 * Math.PI - 2 * Math.asin(Math.min(1, (tube + 1) / r)))
    .map(([x, y, r, a, sweep, tube]) =>
      bentCapsule(x - r * Math.cos(a + sweep / 2), y - r * Math.sin(a + sweep / 2), r, a, sweep, tube),
    ),
  box: fc
    .tuple(place, place, number(20, 600), number(20, 500), number(-4, 4), fc.oneof(fc.constant(0), number(1, 30)))
    .map(([x, y, w, d, a, r]) => rectangle(x, y, w, d, a, r)),
  corners: fc
    .tuple(
      place,
      place,
      number(40, 300),
      fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { minLength: 3, maxLength: 8 }),
    )
    .map(([x, y, size, hours]) =>
      roundedPolygon(
        hours
          .sort((p, q) => p - q)
          .flatMap((t) => [x + size * Math.cos((t * Math.PI) / 6), y + size * Math.sin((t * Math.PI) / 6)]),
        3,
      ),
    ),
};

const names = Object.keys(kinds) as (keyof typeof kinds)[];
const pairs = names.flatMap((a, i) => names.slice(i).map((b) => [a, b] as const));

describe('random pairs against GEOS', () => {
  test.each(pairs)('%s and %s', (a, b) => {
    let apart = 0;
    fc.assert(
      fc.property(kinds[a], kinds[b], (p, q) => {
        const [gp, gq] = [geometry(p), geometry(q)];
        const theirs = geos.distance(gp, gq);
        geos.forget(gp);
        geos.forget(gq);
        if (theirs > 0) apart++;
        expectAgreement(gap(p, q).gap, theirs);
      }),
      { ...runs(60, 20), endOnFailure: true },
    );
    // Agreement on overlap alone would prove little.
    expect(apart).toBeGreaterThan(few(5, 1));
  });
});

test('every pair of a kit: the same pairs under 60 mm, and each gap (kit seed 11)', () => {
  const bodies = kitBodies(52, 11);
  const rings = bodies.map(({ shape }) => flattened(shape, FLAT_MM));
  const outlines = rings.map((ring) => geos.polygon(ring));
  const boxes = rings.map((ring) => reach(ring, 0));
  const found = closePairs(CoreTable.of(bodies), 60, { heightSlackMm: Number.POSITIVE_INFINITY });
  const gaps = new Map(Array.from({ length: found.count }, (_, k) => [`${found.ia[k]}-${found.ib[k]}`, found.gap[k]]));
  for (let i = 0; i < bodies.length; i++)
    for (let j = i + 1; j < bodies.length; j++) {
      const ours = gaps.get(`${i}-${j}`);
      // The library takes long over what is far apart, and boxes tell as much.
      if (boxesApart(boxes[i], boxes[j]) > 60 + 2 * FLAT_MM) {
        expect(ours).toBeUndefined();
        continue;
      }
      const theirs = geos.distance(outlines[i], outlines[j]);
      if (ours === undefined) expect(theirs).toBeGreaterThan(60);
      else expectAgreement(ours, theirs);
    }
  expect(found.count).toBeGreaterThan(50);
}, 60000);
