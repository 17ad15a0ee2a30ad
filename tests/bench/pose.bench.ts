/**
 * Best pose on a convex deck and on decks of any outline, and margins on decks of modules. There is no program to compare with: the plain way is a
 * search over turns, timed here at the fineness that gets within 0.01 mm of the exact answer.
 *
 *   npx tsx tests/bench/pose.bench.ts
 */
import { deckMargin, prepareDeck } from '../../src/geometry/deck.ts';
import { bestPoseConvex } from '../../src/geometry/pose.ts';
import { bestPosesUnion, PROVEN_MM } from '../../src/geometry/poseUnion.ts';
import { capsule, disc, rectangle as rectangleShape, type Swept } from '../../src/geometry/shapes.ts';
import { kitBodies, seeded } from '../fixtures/kits.ts';
import { width } from '../fixtures/measures.ts';
import { checksum, growth, row, type Timing, time } from './timing.ts';

type Ask = Parameters<typeof bestPosesUnion>;
const bestPoseUnion = (...ask: Ask) => bestPosesUnion(...ask).pose;
const bestShiftUnion = (...ask: Ask) => bestPosesUnion(...ask).shift;

const rectangle = [0, 0, 3000, 0, 3000, 2000, 0, 2000];
const hexagon = [1000, 0, 2000, 0, 2600, 1000, 2000, 2100, 1000, 2000, 500, 1000];
const box = (x0: number, y0: number, x1: number, y1: number) => [x0, y0, x1, y0, x1, y1, x0, y1];

const ours = new Map<number, Timing>();
for (const n of [30, 100, 1000, 5000]) {
  const shapes = kitBodies(n, 7).map((body) => body.shape);
  const own = time(() => bestPoseConvex(rectangle, shapes).margin);
  ours.set(n, own);
  console.log(row('pose on a rectangle', n, own));
  console.log(
    row(
      'pose on a hexagon',
      n,
      time(() => bestPoseConvex(hexagon, shapes).margin),
    ),
  );
  if (n > 100) continue;
  const exact = bestPoseConvex(rectangle, shapes).margin;
  const search = (turns: number): number => {
    let best = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < turns; k++) {
      const t = (k * Math.PI) / turns;
      best = Math.max(best, Math.min(3000 - width(shapes, t), 2000 - width(shapes, t + Math.PI / 2)) / 2);
    }
    return best;
  };
  let turns = 100;
  while (exact - search(turns) > 0.01) turns *= 2;
  console.log(
    row(
      `search over ${turns} turns`,
      n,
      time(() => search(turns), 3),
      own,
    ),
  );
}
console.log(`growth: N^${growth(ours.get(100)!, 100, ours.get(5000)!, 5000).toFixed(2)} from 100 to 5000 bodies`);

const shapes = kitBodies(26, 7).map((body) => body.shape);
for (const [name, modules] of [
  [
    'rectangle of 4 modules',
    [box(-1000, -1200, 0, 0), box(0, -1200, 1000, 0), box(-1000, 0, 0, 800), box(0, 0, 1000, 800)],
  ],
  ['L of 3 modules', [box(-1200, -1200, 0, 0), box(0, -1200, 1200, 0), box(-1200, 0, 0, 900)]],
] as const) {
  console.log(
    row(
      `prepare ${name}`,
      modules.length,
      time(() => prepareDeck(modules).sides.length),
    ),
  );
  const deck = prepareDeck(modules);
  const all = time(() => shapes.reduce((least, s) => Math.min(least, deckMargin(deck, s)), Number.POSITIVE_INFINITY));
  console.log(row(`26 margins, ${name}`, 26, all));
}
/** Feet, tubes and footboards strewn over an ellipse, so that the deck's inward corners count. */
function feet(n: number): Swept[] {
  const random = seeded(7);
  return Array.from({ length: n }, (_, i) => {
    const [a, d, t] = [random() * 2 * Math.PI, Math.sqrt(random()), random() * 2 * Math.PI];
    const [x, y] = [d * Math.cos(a) * 800, d * Math.sin(a) * 550];
    if (i % 3 === 0) return disc(x, y, 20);
    return i % 3 === 1
      ? capsule(x, y, x + 250 * Math.cos(t), y + 250 * Math.sin(t), 15)
      : rectangleShape(x, y, 100, 250, t);
  });
}

for (const [name, modules] of [
  ['L', [box(0, 0, 2000, 2000), box(-1000, 1000, 0, 2000)]],
  ['T', [box(0, 0, 3000, 1500), box(1000, -1000, 2000, 0)]],
  ['U', [box(0, 0, 3000, 1200), box(0, -1000, 1100, 0), box(1900, -1000, 3000, 0)]],
] as const) {
  const deck = prepareDeck(modules);
  for (const n of [15, 60]) {
    const some = feet(n);
    console.log(
      row(
        `pose on a deck: ${name}, proven to ${PROVEN_MM} mm`,
        n,
        time(() => bestPoseUnion(deck, some)?.margin ?? 0, 5),
      ),
    );
    console.log(
      row(
        `shift on a deck: ${name}`,
        n,
        time(() => bestShiftUnion(deck, some)?.margin ?? 0, 5),
      ),
    );
  }
}
console.log(`checksum ${checksum().toExponential(6)}`);
