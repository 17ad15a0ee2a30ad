/**
 * Buffers are kept from question to question. Whatever is asked inside another question's callback, or between two looks at an
 * answer, gets the answer that it gets alone, and so does the question around it.
 */
import { describe, expect, test } from 'vitest';
import { deckMargin, prepareDeck } from '../../../src/geometry/deck.ts';
import { roundsOf, upperEnvelope } from '../../../src/geometry/envelope.ts';
import { gap, nearestOnCores } from '../../../src/geometry/gap.ts';
import { Lent } from '../../../src/geometry/lent.ts';
import { Bounds, highest } from '../../../src/geometry/poseProgramme.ts';
import { bentCapsule, disc, type Swept } from '../../../src/geometry/shapes.ts';
import { drawUnion, unionArea } from '../../../src/geometry/union.ts';
import { meetingBoxes } from '../../../src/geometry/unionBoxes.ts';
import { kitBodies } from '../../fixtures/kits.ts';

const shapesOf = (n: number, seed: number): Swept[] => kitBodies(n, seed).map(({ shape }) => shape);

/** Everything that a union draws, as numbers; `meanwhile` is asked at every stroke. */
function strokes(shapes: readonly Swept[], meanwhile = () => {}): number[][] {
  const drawn: number[][] = [];
  const stroke = (...numbers: number[]) => {
    drawn.push(numbers);
    meanwhile();
  };
  drawUnion(shapes, { segment: stroke, arc: stroke });
  return drawn;
}

const ELL = [
  [0, 0, 2000, 0, 2000, 900, 0, 900],
  [0, 900, 900, 900, 900, 2000, 0, 2000],
];

/** One of each question, with its answer as text. */
const QUESTIONS: Record<string, () => string> = {
  union: () => JSON.stringify(unionArea(shapesOf(40, 3))),
  'large union': () => JSON.stringify(unionArea(shapesOf(500, 4))),
  gap: () => JSON.stringify(gap(bentCapsule(0, 0, 400, 1, 2, 20), disc(50, 70, 10))),
  deck: () => JSON.stringify(shapesOf(26, 5).map((shape) => deckMargin(prepareDeck(ELL), shape))),
  hull: () => JSON.stringify(upperEnvelope(roundsOf(shapesOf(60, 6)))),
};

describe('asked at every stroke of a union', () => {
  test.each(Object.entries(QUESTIONS))('%s', (_, ask) => {
    const alone = ask();
    const shapes = shapesOf(26, 7);
    const drawn = strokes(shapes);
    expect(drawn.length).toBeGreaterThan(40);
    const answers = new Set<string>();
    let asked = 0;
    expect(strokes(shapes, () => asked++ % 40 === 0 && answers.add(ask()))).toEqual(drawn);
    expect([...answers]).toEqual([alone]);
  });
});

describe('an answer stands when the next is asked', () => {
  const boxes = (shift: number) => Float64Array.from([0, 0, 10, 10, shift, 5, shift + 10, 15, 40, 40, 50, 50]);
  const bounds = (v: number) => {
    const some = new Bounds();
    some.push(v, 1, 0, 0, 0, 0);
    some.push(v, -1, 0.5, 0, 0, 0);
    return some;
  };
  test.each<[string, (variant: number) => unknown]>([
    ['nearestOnCores', (v) => nearestOnCores(disc(v, 0, 1), bentCapsule(0, 0, 400, 1, 2, 20)).numbers],
    ['gap', (v) => gap(disc(v, 0, 1), disc(90, 9, 1))],
    ['meetingBoxes', (v) => meetingBoxes(boxes(v === 0 ? 5 : 200), 3, 0)],
    ['highest', (v) => highest(bounds(v))],
    ['upperEnvelope', (v) => upperEnvelope(roundsOf(shapesOf(30, 8 + v)))],
    ['prepareDeck', (v) => prepareDeck(v === 0 ? ELL : [ELL[0]])],
  ])('%s', (_, ask) => {
    const first = ask(0);
    const before = JSON.stringify(first);
    const second = ask(1);
    expect(JSON.stringify(first)).toBe(before);
    expect(JSON.stringify(second)).not.toBe(before);
  });
});

describe('what is lent', () => {
  test('is the same from question to question, and another to a question within a question', () => {
    let made = 0;
    const lent = new Lent(() => ({ number: made++ }));
    const used = () => lent.use(({ number }) => number);
    expect([used(), used(), made]).toEqual([0, 0, 1]);
    expect(lent.use(({ number }) => [number, used(), number])).toEqual([0, 1, 0]);
    expect([used(), made]).toEqual([0, 2]);
  });

  test('comes back from a question that throws', () => {
    let made = 0;
    const lent = new Lent(() => ++made);
    const fails = () =>
      lent.use(() => {
        throw new Error('no answer');
      });
    for (let k = 0; k < 3; k++) expect(fails).toThrow('no answer');
    expect([lent.use((number) => number), made]).toEqual([1, 1]);
  });
});
