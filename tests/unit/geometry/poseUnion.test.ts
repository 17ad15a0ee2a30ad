import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deckMargin, type PreparedDeck, prepareDeck } from '../../../src/geometry/deck.ts';
import { compose, type Motion, movePoint } from '../../../src/geometry/frame.ts';
import { ANY_TURN, bestPoseConvex, bestShiftConvex } from '../../../src/geometry/pose.ts';
import { KitOnDeck } from '../../../src/geometry/poseBounds.ts';
import { Bounds, highest } from '../../../src/geometry/poseProgramme.ts';
import { bestPosesUnion, PROVEN_MM } from '../../../src/geometry/poseUnion.ts';
import { bentCapsule, capsule, disc, moved, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import { seeded } from '../../fixtures/kits.ts';
import { few, runs, seeds } from '../../fixtures/seeds.ts';

type Ask = Parameters<typeof bestPosesUnion>;
let asked: Ask | null = null;
let answer: ReturnType<typeof bestPosesUnion>;
/** Pose and shift come of one search: who asks for one after the other has it made once. */
function bestPoses(...ask: Ask) {
  if (asked === null || asked.length !== ask.length || ask.some((value, k) => value !== asked?.[k])) {
    answer = bestPosesUnion(...ask);
    asked = ask;
  }
  return answer;
}
const bestPoseUnion = (...ask: Ask) => bestPoses(...ask).pose;
const bestShiftUnion = (...ask: Ask) => bestPoses(...ask).shift;

const { PI } = Math;
const box = (x0: number, y0: number, x1: number, y1: number) => [x0, y0, x1, y0, x1, y1, x0, y1];

const DECKS: readonly [string, number[][]][] = [
  ['L', [box(0, 0, 2000, 2000), box(-1000, 1000, 0, 2000)]],
  ['T', [box(0, 0, 3000, 1500), box(1000, -1000, 2000, 0)]],
  ['U', [box(0, 0, 3000, 1200), box(0, -1000, 1100, 0), box(1900, -1000, 3000, 0)]],
  ['with a hole', [box(0, 0, 3000, 1200), box(0, -400, 1300, 0), box(1700, -400, 3000, 0), box(0, -1500, 3000, -400)]],
  [
    'with a dent',
    [
      [0, 0, 3000, 0, 3000, 2000],
      [0, 0, 3000, 2000, 1200, 1500],
      [0, 0, 1200, 1500, 0, 2200],
    ],
  ],
];

const marginAt = (deck: PreparedDeck, shapes: readonly Swept[], motion: Motion) =>
  Math.min(...shapes.map((shape) => deckMargin(deck, moved(shape, motion))));

function turned(points: readonly number[], motion: Motion): number[] {
  const { core } = moved({ core: { kind: 'polygon', points }, radius: 0 }, motion);
  return core.kind === 'polygon' ? [...core.points] : [];
}

/** Feet and footboards strewn over an ellipse of the given half widths. */
function feet(n: number, seed: number, wide: number, deep: number): Swept[] {
  const random = seeded(seed);
  return Array.from({ length: n }, (_, i) => {
    const [a, d, t] = [random() * 2 * PI, Math.sqrt(random()), random() * 2 * PI];
    const [x, y] = [d * Math.cos(a) * wide, d * Math.sin(a) * deep];
    if (i % 4 === 0) return disc(x, y, 20);
    if (i % 4 === 1) return capsule(x, y, x + 250 * Math.cos(t), y + 250 * Math.sin(t), 15);
    return i % 4 === 2 ? rectangle(x, y, 100, 250, t) : bentCapsule(x, y, 150, t, 1 + 4 * random(), 12);
  });
}

describe('solved cases', () => {
  test('a disc in the corner of an L: as far from the inward corner as from both outer sides', () => {
    // Sides x = 0 and y = 0, inward corner at (1000, 1000): the middle (c, c) has c = sqrt 2 (1000 - c).
    const deck = prepareDeck([box(0, 0, 2000, 1000), box(0, 1000, 1000, 2000)]);
    const c = (Math.SQRT2 * 1000) / (1 + Math.SQRT2);
    for (const best of [bestPoseUnion, bestShiftUnion]) {
      const pose = best(deck, [disc(300, 200, 40)]);
      expect(pose?.margin).toBeCloseTo(c - 40, 5);
      expect(pose?.dx).toBeCloseTo(c - 300, 2);
      expect(pose?.dy).toBeCloseTo(c - 200, 2);
      expect(pose?.within).toBeLessThanOrEqual(PROVEN_MM);
    }
  });

  test('a long tube turns into the long arm of an L', () => {
    const deck = prepareDeck([box(0, 0, 3000, 600), box(0, 600, 600, 1200)]);
    const tube = [capsule(0, -1300, 0, 1300, 20)];
    // Flat in the arm it keeps (3000 - 2600) / 2 - 20 at its ends, and more at its sides.
    expect(bestPoseUnion(deck, tube)?.margin).toBeGreaterThanOrEqual(180 - 1e-6);
    // Standing across, it is longer than the arm is deep: the rest sticks out, half at each end.
    expect(bestShiftUnion(deck, tube)?.margin).toBeLessThan(0);
  });

  test('a ring of feet round a hole', () => {
    const deck = prepareDeck(DECKS[3][1]);
    const ring = [0, 1, 2, 3].map((k) => disc(700 * Math.cos((k * PI) / 2), 500 * Math.sin((k * PI) / 2), 10));
    const pose = bestShiftUnion(deck, ring);
    // Across: feet 500 above and below the hole's middle have 300 to its sides; those 700 left and right have 500, and 800 outside.
    expect(pose?.margin).toBeGreaterThanOrEqual(290 - 1e-6);
  });

  test('a footboard that would cover the hole does not count as on the deck', () => {
    const frame = prepareDeck([
      box(0, 0, 1000, 300),
      box(0, 700, 1000, 1000),
      box(0, 300, 300, 700),
      box(700, 300, 1000, 700),
    ]);
    // Wherever it lies, some of it is over the hole or over the edge.
    expect(bestPoseUnion(frame, [rectangle(500, 500, 600, 600, 0)])?.margin).toBeLessThan(-100);
  });

  test('too much for the deck', () => {
    // A disc of 1100 on the square of 2000 of an L: 100 out on both sides, or less where the arm is.
    const pose = bestPoseUnion(prepareDeck(DECKS[0][1]), [disc(0, 0, 1100)]);
    expect(pose?.margin).toBeGreaterThanOrEqual(-100 - 1e-6);
    expect(pose?.margin).toBeLessThan(-50);
  });

  test('feet on the heights of the corners of a deck turned a little', () => {
    // A foot level with a corner must not be taken for one off the deck.
    for (const turn of [0, 0.1, 0.3]) {
      const motion = { angle: turn, dx: 0.1, dy: 0.7 };
      const deck = prepareDeck(DECKS[0][1].map((points) => turned(points, motion)));
      for (const [x, y] of [0, 2, 4, 6].map((i) => turned(DECKS[0][1][0], motion).slice(i, i + 2))) {
        const pose = bestShiftUnion(deck, [disc(x, y, 0), disc(x + 10, y, 0)]);
        expect(pose?.margin).toBeGreaterThan(990);
      }
    }
  });

  test('nothing to place is refused', () => {
    expect(() => bestPoseUnion(prepareDeck(DECKS[0][1]), [])).toThrow('at least one shape');
  });
});

describe.each(DECKS)('a deck: %s', (_, modules) => {
  const deck = prepareDeck(modules);
  test.each(seeds(4))('no pose of a dense search does better, kit %i', (seed) => {
    const shapes = feet(9, seed * 11, 550 + 60 * seed, 350 + 40 * seed);
    const pose = bestPoseUnion(deck, shapes);
    const shift = bestShiftUnion(deck, shapes);
    for (const found of [pose, shift]) {
      if (!found) throw new Error('There is always a best one.');
      expect(marginAt(deck, shapes, found)).toBe(found.margin);
      if (found.margin > 0) expect(found.within).toBeLessThanOrEqual(PROVEN_MM);
    }
    if (shift) expect(pose?.margin).toBeGreaterThanOrEqual(shift.margin - PROVEN_MM);
    // Coarse steps over everything, then finer ones round the best, as anyone would search.
    const limit = [pose ? pose.margin + pose.within : PROVEN_MM, shift ? shift.margin + shift.within : PROVEN_MM];
    for (const turning of [true, false]) {
      let best = { margin: 0, angle: 0, dx: 0, dy: 0 };
      const look = (angle: number, dx: number, dy: number) => {
        let least = Number.POSITIVE_INFINITY;
        for (const shape of shapes) {
          least = Math.min(least, insideMargin(deck, moved(shape, { angle, dx, dy })));
          if (least <= best.margin) return;
        }
        best = { margin: least, angle, dx, dy };
      };
      for (const k of turning ? seeds(60, 12) : [0])
        for (let x = -1000; x <= 3000; x += 125) for (let y = -1500; y <= 2200; y += 125) look((k * PI) / 30, x, y);
      for (let size = 100; size > 0.01; size /= 1.5) {
        const { angle, dx, dy } = best;
        for (const a of turning ? [-1, -0.5, 0, 0.5, 1] : [0])
          for (const x of [-1, -0.5, 0, 0.5, 1])
            for (const y of [-1, -0.5, 0, 0.5, 1]) look(angle + (a * size) / 800, dx + x * size, dy + y * size);
      }
      expect(best.margin).toBeLessThanOrEqual(limit[turning ? 0 : 1] + 1e-9);
    }
  });
});

/** The margin where it is above 0, else any number below: the overhang's size is slow and not wanted here. */
function insideMargin(deck: PreparedDeck, shape: Swept): number {
  const { core } = shape;
  const [x, y] =
    core.kind === 'point'
      ? [core.x, core.y]
      : core.kind === 'segment'
        ? [core.x0, core.y0]
        : core.kind === 'arc'
          ? [core.cx + core.r * Math.cos(core.start), core.cy + core.r * Math.sin(core.start)]
          : core.points;
  return deckMargin(deck, disc(x, y, 0)) > 0 ? deckMargin(deck, shape) : -1;
}

describe('bounds', () => {
  test('the least bound of a cell is nowhere below a margin in it, and close to it in a small cell', () => {
    let close = 0;
    let seen = 0;
    for (const [, modules] of DECKS) {
      const deck = prepareDeck(modules);
      // Two of small cells in every run, where a bound must be close.
      for (const seed of new Set([...seeds(40, 4), 7, 19])) {
        const random = seeded(seed);
        const shapes = feet(4, seed, 300, 250);
        const kit = new KitOnDeck(deck, shapes);
        const width = 10 ** (3 * random() - 0.5);
        const middle = { angle: (2 * random() - 1) * PI, x: 3000 * random(), y: 2000 * random() };
        const cell = { ...middle, turn: (random() * width) / 500, wide: width * random(), deep: width * random() };
        const bounds = new Bounds();
        const near = kit.bound(cell, kit.all, 0, 0, Number.POSITIVE_INFINITY, bounds);
        const top = near ? highest(bounds).value : 0;
        let most = Number.NEGATIVE_INFINITY;
        for (let k = 0; k < 60; k++) {
          const [a, b, c] = [0, 0, 0].map(() => Math.max(-1, Math.min(1, 2.4 * random() - 1.2)));
          const [angle, x, y] = [cell.angle + a * cell.turn, cell.x + b * cell.wide, cell.y + c * cell.deep];
          const [px, py] = movePoint({ angle, dx: 0, dy: 0 }, kit.pivotX, kit.pivotY);
          const motion = { angle, dx: x - px, dy: y - py };
          const margin = Math.min(...shapes.map((shape) => insideMargin(deck, moved(shape, motion))));
          if (margin <= 0) continue;
          seen++;
          most = Math.max(most, margin);
          expect(margin).toBeLessThanOrEqual(top + 1e-9);
          if (!near) continue;
          for (let row = 0; row < bounds.count; row++) {
            const [v, g1, g2, g3] = bounds.data.subarray(6 * row, 6 * row + 4);
            expect(margin).toBeLessThanOrEqual(v + a * g1 + b * g2 + c * g3 + 1e-9);
          }
        }
        if (width < 3 && top - most < 0.5) close++;
      }
    }
    expect(seen).toBeGreaterThan(few(1000));
    expect(close).toBeGreaterThan(few(10, 0));
  });

  test('the highest point of the least of some bounds, against a dense search', () => {
    for (const seed of seeds(60, 6)) {
      const random = seeded(seed);
      const bounds = new Bounds();
      const n = 1 + Math.floor(random() * 12);
      const rows = Array.from({ length: n }, () => [0, 0, 0, 0].map(() => Math.round(20 * random() - 10) / 2));
      for (const [v, a, b, c] of rows) bounds.push(v, a, b, c, 0, 0);
      const { value, at } = highest(bounds);
      const least = (d: readonly number[]) =>
        Math.min(...rows.map(([v, a, b, c]) => v + a * d[0] + b * d[1] + c * d[2]));
      // Its own point reaches the value, so it is the highest; and nothing of the search goes above.
      expect(least(at)).toBeCloseTo(value, 8);
      for (let a = -1; a <= 1; a += 0.25)
        for (let b = -1; b <= 1; b += 0.25)
          for (let c = -1; c <= 1; c += 0.25) expect(least([a, b, c])).toBeLessThanOrEqual(value + 1e-9);
    }
  });
});

describe('laws', () => {
  test('on a convex deck of modules it agrees with the exact solver', () => {
    const corners = box(0, 0, 3000, 2000);
    const deck = prepareDeck([box(0, 0, 1500, 2000), box(1500, 0, 3000, 2000)]);
    for (const seed of seeds(12, 3)) {
      const shapes = feet(3 + seed * 3, seed, 1000, 700);
      for (const [union, convex] of [
        [bestPoseUnion, bestPoseConvex],
        [bestShiftUnion, bestShiftConvex],
      ] as const) {
        const exact = convex(corners, shapes).margin;
        const found = union(deck, shapes);
        expect((found?.margin ?? 0) + (found?.within ?? 0)).toBeGreaterThanOrEqual(exact - 1e-6);
        expect(found?.margin).toBeLessThanOrEqual(exact + 1e-6);
        if (exact > PROVEN_MM) expect(found?.within).toBeLessThanOrEqual(PROVEN_MM);
      }
    }
  });

  test('turning and shifting the kit, or deck and kit, changes nothing', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.constantFrom(...DECKS),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (seed, [, modules], angle) => {
          const shapes = feet(6, seed, 700, 500);
          const motion = { angle, dx: 321, dy: -456 };
          const turnedDeck = prepareDeck(modules.map((points) => turned(points, motion)));
          const best = bestPoseUnion(prepareDeck(modules), shapes)!;
          const placed = shapes.map((shape) => moved(shape, motion));
          for (const [deck, kit] of [
            [prepareDeck(modules), placed],
            [turnedDeck, placed],
            [turnedDeck, shapes],
          ] as const) {
            const { margin, within } = bestPoseUnion(deck, kit)!;
            expect(margin).toBeLessThanOrEqual(best.margin + best.within + 1e-3);
            expect(best.margin).toBeLessThanOrEqual(margin + within + 1e-3);
          }
        },
      ),
      runs(12, 2),
    );
  });

  test('a deck grown leaves no less', () => {
    for (const seed of seeds(6)) {
      for (const [, modules] of DECKS) {
        const shapes = feet(7, seed * 3, 600, 450);
        const small = bestPoseUnion(prepareDeck(modules), shapes)?.margin ?? 0;
        const grown = bestPoseUnion(prepareDeck([...modules, box(3000, 0, 3500, 1000)]), shapes)!;
        expect(grown.margin + grown.within).toBeGreaterThanOrEqual(small - PROVEN_MM);
      }
    }
  });

  test('a pose that is the best already is kept', () => {
    const deck = prepareDeck(DECKS[0][1]);
    const shapes = feet(8, 5, 700, 500);
    const first = bestPoseUnion(deck, shapes);
    expect(first).not.toBeNull();
    const again = bestPoseUnion(
      deck,
      shapes.map((shape) => moved(shape, first ?? { angle: 0, dx: 0, dy: 0 })),
    );
    expect(Math.abs(again?.angle ?? 1)).toBeLessThan(1e-3);
    const both = compose(again ?? { angle: 0, dx: 0, dy: 0 }, first ?? { angle: 0, dx: 0, dy: 0 });
    expect(marginAt(deck, shapes, both)).toBeGreaterThanOrEqual((first?.margin ?? 0) - 1e-6);
  });

  test('without a budget it says how much may be missing', () => {
    const deck = prepareDeck(DECKS[1][1]);
    const shapes = feet(9, 33, 700, 500);
    const full = bestPoseUnion(deck, shapes);
    const short = bestPoseUnion(deck, shapes, ANY_TURN, { budget: 20 });
    expect(short?.within).toBeGreaterThan(PROVEN_MM);
    expect((short?.margin ?? 0) + (short?.within ?? 0)).toBeGreaterThanOrEqual((full?.margin ?? 0) - 1e-9);
  });
});

describe('decks that hold a kit, or do not', () => {
  test.each(seeds(24, 3))('no turn or shift of a dense search sticks out less than is said, deck %i', (seed) => {
    const random = seeded(seed * 17);
    const big = 0.6 + 1.2 * random();
    const modules = Array.from({ length: 2 + Math.floor(3 * random()) }, (_, k) => {
      const { core } = rectangle(
        ...([1200 * k * random(), 1000 * k * random(), 1000 + 1000 * random(), 700 + 800 * random()] as [
          number,
          number,
          number,
          number,
        ]),
        seed % 2 ? 0 : random(),
      );
      return core.kind === 'polygon' ? core.points : [];
    });
    const deck = prepareDeck(modules);
    const shapes = feet(7, seed, 1000 * big, 700 * big);
    const most = 0.26;
    const { pose, shift } = bestPosesUnion(deck, shapes, { least: -most, most });
    const clamp = (angle: number) => Math.max(-most, Math.min(most, angle));
    for (const [found, turning] of [
      [shift, [0]],
      [pose, [-1, 0, 1]],
    ] as const) {
      if (!found) throw new Error('There is always a best one.');
      expect(marginAt(deck, shapes, found)).toBeCloseTo(found.margin, 6);
      let best = { margin: Number.NEGATIVE_INFINITY, angle: 0, dx: 0, dy: 0 };
      const look = (angle: number, dx: number, dy: number) => {
        let least = Number.POSITIVE_INFINITY;
        for (const shape of shapes) {
          least = Math.min(least, deckMargin(deck, moved(shape, { angle, dx, dy })));
          if (least <= best.margin) return;
        }
        best = { margin: least, angle, dx, dy };
      };
      for (const a of turning)
        for (let x = -1000; x <= 3500; x += 250) for (let y = -1000; y <= 3000; y += 250) look(most * a, x, y);
      for (let size = 200; size > 0.1; size /= 1.7) {
        const { angle, dx, dy } = best;
        for (const a of turning)
          for (const x of [-1, -0.5, 0, 0.5, 1])
            for (const y of [-1, -0.5, 0, 0.5, 1]) look(clamp(angle + (a * size) / 800), dx + x * size, dy + y * size);
      }
      expect(best.margin).toBeLessThanOrEqual(found.margin + found.within + 1e-6);
    }
  });
});
