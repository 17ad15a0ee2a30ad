import { describe, expect, test } from 'vitest';
import { circleMark, style } from '../../../src/drawing/displayList.ts';
import { InkMap } from '../../../src/drawing/inkMap.ts';
import { type LabelField, type LabelRequest, placeLabels } from '../../../src/drawing/labels.ts';
import { segmentMeetsBox } from '../../../src/drawing/placing.ts';
import { seeded } from '../../fixtures/kits.ts';

const BOUNDS = { minX: -1500, minY: -1500, maxX: 1500, maxY: 1500 };

function field(marks: Parameters<InkMap['add']>[0][] = []): LabelField {
  const ink = new InkMap(BOUNDS, 10);
  for (const mark of marks) ink.add(mark);
  const measure = (text: string, size: number) => text.length * size * 0.55;
  return { bounds: BOUNDS, taken: [], ink, scale: 10, measure, topPiece: () => 'p', groundAt: () => 'paper' };
}

const request = (id: string, x: number, y: number, changes: Partial<LabelRequest> = {}): LabelRequest => ({
  id,
  text: `Piece ${id}`,
  sizeMm: 2.5,
  bold: false,
  form: 'name',
  ink: 'ink',
  x,
  y,
  reachMm: 150,
  inside: { halfW: 150, halfH: 150, round: true },
  pieceId: 'p',
  backing: 'middle',
  ...changes,
});

test('a name that fits stands in the middle of its thing', () => {
  const [place] = placeLabels([request('1', 100, 200)], field());
  expect(place.leader).toBeNull();
  expect([(place.box.minX + place.box.maxX) / 2, (place.box.minY + place.box.maxY) / 2]).toEqual([100, 200]);
});

test('a name too long for its thing stands beside it, with a leader that ends in the thing', () => {
  const [place] = placeLabels([request('1', 0, 0, { text: 'Unbreakablenamethatislong' })], field());
  const [, , x, y] = place.leader!;
  expect(Math.hypot(x, y)).toBeLessThan(150);
  expect(Math.hypot(place.leader![0], place.leader![1])).toBeGreaterThan(150);
});

test('60 things on one spot: no two names overlap, none leaves the field, no leader runs through a name', () => {
  const random = seeded(7);
  const requests = Array.from({ length: 60 }, (_, k) =>
    request(String(k), (random() - 0.5) * 900, (random() - 0.5) * 900, { inside: null, reachMm: 60 }),
  );
  const places = placeLabels(requests, field(requests.map(({ x, y }) => circleMark(style('drums'), x, y, 60))));
  expect(places).toHaveLength(60);
  places.forEach((a, i) => {
    expect(a.box.minX).toBeGreaterThanOrEqual(BOUNDS.minX);
    expect(a.box.maxY).toBeLessThanOrEqual(BOUNDS.maxY);
    places.forEach((b, j) => {
      if (i === j) return;
      const apart =
        a.box.maxX <= b.box.minX || b.box.maxX <= a.box.minX || a.box.maxY <= b.box.minY || b.box.maxY <= a.box.minY;
      expect(apart, `${a.request.text} on ${b.request.text}`).toBe(true);
      if (a.leader) expect(segmentMeetsBox(...a.leader, b.box)).toBe(false);
    });
  });
});

test('the same requests give the same places', () => {
  const requests = [request('1', 0, 0), request('2', 60, 0), request('3', 0, 80)];
  expect(placeLabels(requests, field())).toEqual(placeLabels(requests, field()));
});

test('flags always have a leader to the very place', () => {
  const [flag] = placeLabels([request('1', 30, 40, { form: 'flag', text: '1', inside: null, reachMm: 0 })], field());
  expect(flag.leader?.slice(2)).toEqual([30, 40]);
});

describe('a segment and a box', () => {
  const box = { minX: 0, minY: 0, maxX: 10, maxY: 5 };
  test.each<[string, [number, number, number, number], boolean]>([
    ['through', [-5, 2, 15, 3], true],
    ['inside', [1, 1, 2, 2], true],
    ['past a corner', [-5, 4, 4, 12], false],
    ['upright beside', [11, -5, 11, 10], false],
    ['touching an edge', [-3, 5, 3, 5], true],
    ['ending before', [-5, 2, -1, 2], false],
  ])('%s', (_, [x0, y0, x1, y1], meets) => expect(segmentMeetsBox(x0, y0, x1, y1, box)).toBe(meets));
});
