/** The way in: rings with known gaps, and random floors against a flood fill on a grid that knows nothing of rings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leadsStraightOut } from '../../../src/checks/straightWay.ts';
import { wayIn, wayInFinding, widestWay } from '../../../src/checks/wayIn.ts';
import type { BodyKind } from '../../../src/gear/bodyKinds.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { bentCapsule, capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';
import type { Layout } from '../../../src/layout/layout.ts';
import { mirrored } from '../../fixtures/measures.ts';
import { runs } from '../../fixtures/seeds.ts';

function body(id: string, shape: Swept, z: [number, number] = [0, 700], kind: BodyKind = 'stand'): Body {
  return {
    id,
    piece: id.split('/')[0],
    part: id.split('/')[1] ?? '',
    label: id,
    kind,
    assembly: id,
    touchesFloor: z[0] === 0,
    z0: z[0],
    z1: z[1],
    shape,
    massKg: 0,
    massCentre: null,
  };
}

const bodies = (...shapes: Swept[]) => shapes.map((shape, k) => body(`b${k}/x`, shape));
const width = (shapes: Swept[], x = 0, y = 0) => widestWay(bodies(...shapes), x, y)?.width ?? null;

/** Discs of radius r on a circle of radius R, at the given degrees. */
const ring = (R: number, r: number, ...degrees: number[]) =>
  degrees.map((d) => disc(R * Math.cos((d * Math.PI) / 180), R * Math.sin((d * Math.PI) / 180), r));

describe('WI-1 rings with known gaps', () => {
  test('four discs at the corners of a square: each side is the same way', () =>
    expect(width([disc(-500, -500, 100), disc(500, -500, 100), disc(500, 500, 100), disc(-500, 500, 100)])).toBeCloseTo(
      800,
      9,
    ));

  test('a horseshoe of tubes: its mouth', () =>
    expect(
      width([capsule(-600, -600, 600, -600, 20), capsule(-600, -600, -600, 700, 20), capsule(600, -600, 600, 500, 20)]),
    ).toBeCloseTo(Math.hypot(1200, 0) - 40, 9));

  test('one bent tube of 300 degrees: the chord of its mouth less the tube', () =>
    expect(width([bentCapsule(0, 0, 700, Math.PI / 6, (300 * Math.PI) / 180, 19)])).toBeCloseTo(700 - 38, 9));

  test('a bow and its string: the throne outside of the bow is not shut in', () =>
    expect(width([bentCapsule(0, 0, 700, 0, Math.PI, 19), capsule(-700, 0, 700, 0, 19)], 0, -100)).toBeNull());

  test('a bow and its string: the throne within them is', () =>
    expect(width([bentCapsule(0, 0, 700, 0, Math.PI, 19), capsule(-700, 0, 700, 0, 19)], 0, 300)).toBeCloseTo(-38, 9));

  test('a clutter of touching drums beside the throne is no ring round it', () =>
    expect(
      width(ring(200, 120, 0, 60, 120, 180, 240, 300).map((s) => moved(s, { angle: 0, dx: 900, dy: 0 }))),
    ).toBeNull());

  test('the way is the widest gap of the tightest ring, whatever else stands about', () =>
    // Five of six drums; the far disc would close the ring by a gap of 590.
    expect(width([...ring(500, 150, 0, 60, 120, 180, 240), disc(500, -433, 10)])).toBeCloseTo(
      500 * Math.sqrt(3) - 300,
      9,
    ));
});

test('only what is neither stepped over nor ducked under counts, and the throne itself does not', () => {
  const seat = body('throne/seat', disc(0, 0, 160), [400, 500], 'throne');
  const legs = body('throne/leg1', disc(0, 250, 12), [0, 200], 'throne');
  const posts = ring(600, 50, 0, 90, 180, 270).map((shape, k) => body(`p${k}/x`, shape));
  const foot = body('low/foot', disc(424, 424, 200), [0, 55]);
  const high = body('high/cymbal', disc(424, 424, 200), [1300, 1340]);
  expect(wayIn([seat, legs, ...posts])?.width).toBeCloseTo(600 * Math.SQRT2 - 100, 9);
  expect(wayIn([seat, legs, ...posts, foot, high])?.width).toBeCloseTo(600 * Math.SQRT2 - 100, 9);
  expect(wayIn([...posts])).toBeNull();
});

test('WI-2 a narrow way is tight, and so is none at all; wider than the limit is clear', () => {
  const seat = body('throne/seat', disc(0, 0, 160), [400, 500], 'throne');
  const told = (r: number) => {
    const posts = ring(600, r, 0, 90, 180, 270).map((shape, k) => body(`p${k}/x`, shape));
    return wayInFinding({ bodies: [seat, ...posts] } as unknown as Layout);
  };
  // Neighbours stand 848.5 mm apart, middle to middle.
  expect(told(250)).toMatchObject([{ code: 'way_in_narrow', state: 'tight', limit: 450 }]);
  expect(told(250)[0].value).toBeCloseTo(600 * Math.SQRT2 - 500, 9);
  expect(told(430)[0]).toMatchObject({ code: 'way_in_narrow', state: 'tight' });
  expect(told(430)[0].value).toBeLessThan(0);
  expect(told(50)).toMatchObject([
    { code: 'way_in_wide', state: 'clear', pieces: ['throne'], value: null, limit: 450 },
  ]);
  expect(wayInFinding({ bodies: [] } as unknown as Layout)).toEqual([]);
});

test('WI-1 hips go past what reaches above the knees, knees past the rest', () => {
  const seat = body('throne/seat', disc(0, 0, 160), [400, 500], 'throne');
  const sizes = { hipMm: 378, kneeMm: 553, shoeMm: 25 };
  const figure = { sitter: { sizes }, radiiMm: { knee: 61.5 } };
  const told = (r: number, top: number) => {
    const posts = ring(600, r, 0, 90, 180, 270).map((shape, k) => body(`p${k}/x`, shape, [0, top]));
    return wayInFinding({ bodies: [seat, ...posts], figure } as unknown as Layout);
  };
  // Ways of 388.5 mm: too narrow for hips of 378 and 50, wide enough for two knees of 123 and 50.
  expect(told(230, 900)).toMatchObject([{ code: 'way_in_narrow', of: 'hips', limit: 428 }]);
  expect(told(230, 400)).toMatchObject([{ code: 'way_in_wide', limit: 428 }]);
  expect(told(280, 400)).toMatchObject([{ code: 'way_in_narrow', of: 'knees', limit: 296 }]);
  expect(told(280, 240)).toMatchObject([{ code: 'way_in_wide' }]);
});

const number = (min: number, max: number) => fc.integer({ min: min * 16, max: max * 16 }).map((n) => n / 16);
const anywhere = number(-900, 900);
/** Random shapes that leave room for someone on the seat. */
const shape = fc
  .oneof(
    fc.tuple(anywhere, anywhere, number(10, 250)).map(([x, y, r]) => disc(x, y, r)),
    fc.tuple(anywhere, anywhere, anywhere, anywhere, number(10, 40)).map(([a, b, c, d, r]) => capsule(a, b, c, d, r)),
    fc
      .tuple(anywhere, anywhere, number(100, 500), number(100, 500), number(0, 6))
      .map(([x, y, w, d, a]) => rectangle(x, y, w, d, a)),
    fc
      .tuple(anywhere, anywhere, number(200, 800), number(0, 6), number(1, 3), number(10, 30))
      .map(([x, y, r, a, s, t]) => bentCapsule(x, y, r, a, s, t)),
  )
  .filter((s) => gapValue(s, disc(0, 0, 0)) > 250);

/** Every random shape ends within this of the origin: 900 to a bend's middle, 800 to its tube, 30 for the tube, along each axis. */
const OUTSIDE_MM = 1900;

/** Can a round body of this width get from the origin to beyond everything, on a grid of `step` mm? */
function getsOut(shapes: readonly Swept[], wide: number, step: number): boolean {
  const half = Math.round(OUTSIDE_MM / step);
  const side = 2 * half + 1;
  const seen = new Uint8Array(side * side);
  const free = (i: number, j: number) => {
    const at = disc((i - half) * step, (j - half) * step, 0);
    return shapes.every((s) => gapValue(s, at) > wide / 2);
  };
  // It starts where it is: obstacles that reach over the seat do not hold it, only rings do.
  const stack = [half * side + half];
  seen[stack[0]] = 1;
  while (stack.length > 0) {
    const at = stack.pop()!;
    const i = Math.floor(at / side);
    const j = at % side;
    if (i === 0 || j === 0 || i === side - 1 || j === side - 1) return true;
    for (const [di, dj] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ]) {
      const next = (i + di) * side + j + dj;
      if (seen[next] || !free(i + di, j + dj)) continue;
      seen[next] = 1;
      stack.push(next);
    }
  }
  return false;
}

test('random floors against a flood fill: a body a little narrower gets out, one a little wider does not', () => {
  const STEP_MM = 12;
  let closed = 0;
  fc.assert(
    fc.property(fc.array(shape, { minLength: 6, maxLength: 14 }), (shapes) => {
      const way = width(shapes);
      const room = Math.min(...shapes.map((s) => gapValue(s, disc(0, 0, 0))));
      if (way === null) return;
      // The fill can judge a body only that fits on the seat at all, and only to within its step.
      const narrower = way - 3 * STEP_MM;
      if (narrower > 2 && narrower / 2 < room - STEP_MM) expect(getsOut(shapes, narrower, STEP_MM)).toBe(true);
      const wider = Math.max(way, 0) + 3 * STEP_MM;
      if (wider / 2 < room - STEP_MM) {
        closed++;
        expect(getsOut(shapes, wider, STEP_MM)).toBe(false);
      }
    }),
    { ...runs(600, 80), endOnFailure: true },
  );
  expect(closed).toBeGreaterThan(5);
}, 60000);

test('random floors: where a strip leads straight out, no gap narrower than it shuts the throne in', () => {
  let free = 0;
  let shut = 0;
  fc.assert(
    fc.property(fc.array(shape, { minLength: 3, maxLength: 14 }), number(50, 900), (shapes, wide) => {
      const way = width(shapes);
      const straight = leadsStraightOut(bodies(...shapes), 0, 0, wide);
      if (straight) free++;
      if (way !== null && way < wide) shut++;
      if (straight && way !== null) expect(way).toBeGreaterThanOrEqual(wide);
      // Whatever is asked first, the answer is that of the whole search.
      const asked = widestWay(bodies(...shapes), 0, 0, wide);
      expect(asked?.width ?? null).toBe(way !== null && way < wide ? way : null);
    }),
    runs(600, 100),
  );
  expect(Math.min(free, shut)).toBeGreaterThan(5);
});

test('a ring of which a bend bows 1.7 m out: nobody is outside before that', () => {
  // Found by the random floors: a fill that ends 1.5 m from the seat calls the space within this bend outside.
  const floor = [
    disc(-478.5625, -899.8125, 245.875),
    bentCapsule(-899.6875, -213, 800, 2.0625, 2.9375, 10.375),
    capsule(899.875, 608, -128.25, -691.3125, 17.9375),
    capsule(899.5625, -624.75, 0.3125, 679.5625, 18.75),
    bentCapsule(-487.5, 85.75, 799.5625, 0.125, 2.75, 13.125),
  ];
  expect(width(floor)).toBeCloseTo(143.8529, 3);
  expect(getsOut(floor, 108, 12)).toBe(true);
  expect(getsOut(floor, 180, 12)).toBe(false);
});

test('a mirrored or turned floor has the same way in', () => {
  fc.assert(
    fc.property(fc.array(shape, { minLength: 3, maxLength: 12 }), number(-3, 3), (shapes, angle) => {
      const way = width(shapes);
      const again = [shapes.map(mirrored), shapes.map((s) => moved(s, { angle, dx: 0, dy: 0 }))].map((s) => width(s));
      for (const other of again)
        if (way === null) expect(other).toBeNull();
        else expect(other).toBeCloseTo(way, 4);
    }),
    { ...runs(150, 30), endOnFailure: true },
  );
});
