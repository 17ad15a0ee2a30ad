import { describe, expect, test } from 'vitest';
import {
  crossingAngle,
  crossingOf,
  FLATTEST_RAD,
  type Point,
  READING_ERROR_MM,
  SHORTEST_TAPE_MM,
  sideOf,
  TOLERANCE_MM,
  worstDirection,
  worstError,
} from '../../../src/checks/marks/crossing.ts';
import { inFrame, outOfFrame } from '../../../src/checks/marks/datums.ts';
import { tellApart } from '../../../src/checks/marks/floorMarks.ts';
import { markPlan, READ_STEP_MM } from '../../../src/checks/marks/markPlan.ts';
import { gapValue } from '../../../src/geometry/gap.ts';
import { disc } from '../../../src/geometry/shapes.ts';
import { isKit } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { toRadians } from '../../../src/units.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

const away = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Numbers from 0 to 1, the same every time. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

describe('the error of a crossing', () => {
  test.each([
    [90, 3 * Math.SQRT2],
    [60, 6],
    [120, 6],
    [30, 3 / Math.sin(toRadians(15))],
  ])('tapes %f degrees apart: 3 mm wrong readings put the mark %f mm off', (degrees, mm) =>
    expect(worstError(toRadians(degrees))).toBeCloseTo(mm, 12),
  );

  test('MK-2 the tolerance is met from 60 to 120 degrees, and refused tapes would miss it by half or more', () => {
    expect(worstError(toRadians(60))).toBeCloseTo(TOLERANCE_MM, 12);
    expect(worstError(FLATTEST_RAD)).toBeGreaterThan(1.5 * TOLERANCE_MM);
  });

  test('it is the farthest of the four crossings with both readings wrong, up to second order; every reading within stays inside', () => {
    const random = seeded(20261128);
    let tried = 0;
    for (let n = 0; n < 4000; n++) {
      const a: Point = [0, 0];
      const b: Point = [600 + 3000 * random(), 800 * (random() - 0.5)];
      const mark: Point = [6000 * (random() - 0.4), 4000 * (random() - 0.5)];
      const [r1, r2] = [away(mark, a), away(mark, b)];
      const angle = crossingAngle(mark, a, b);
      if (Math.min(angle, Math.PI - angle) < FLATTEST_RAD || Math.min(r1, r2) < SHORTEST_TAPE_MM) continue;
      tried++;
      const side = sideOf(mark, a, b);
      const shift = (p: number, q: number): number => {
        const at = crossingOf(a, b, r1 + p, r2 + q, side);
        expect(at).not.toBeNull();
        return away(at!, mark);
      };
      const e = READING_ERROR_MM;
      const brute = Math.max(shift(e, e), shift(e, -e), shift(-e, e), shift(-e, -e));
      const said = worstError(angle, e);
      // Second order: the square of the shift over the shorter tape.
      const left = (said * said) / Math.min(r1, r2);
      expect(Math.abs(brute - said)).toBeLessThan(2 * left + 1e-9);
      for (let k = 0; k < 3; k++)
        expect(shift(e * (2 * random() - 1), e * (2 * random() - 1))).toBeLessThan(brute + 1e-9);
      // The direction of the farthest crossing, either way along it.
      const corners = [
        [e, e],
        [e, -e],
        [-e, e],
        [-e, -e],
      ].map(([p, q]) => crossingOf(a, b, r1 + p, r2 + q, side)!);
      const far = corners.reduce((best, at) => (away(at, mark) > away(best, mark) ? at : best));
      const [dx, dy] = worstDirection(mark, a, b);
      const along = Math.abs((far[0] - mark[0]) * dx + (far[1] - mark[1]) * dy) / away(far, mark);
      // Where both corners are as far, near a right angle, either is right.
      if (Math.abs(Math.cos(angle)) > 0.1) expect(along).toBeGreaterThan(0.9);
    }
    expect(tried).toBeGreaterThan(1000);
  });

  test('circles that do not meet cross nowhere', () => {
    expect(crossingOf([0, 0], [1000, 0], 300, 400, 1)).toBeNull();
    expect(crossingOf([0, 0], [0, 0], 300, 300, 1)).toBeNull();
  });
});

test.each<[string, Point[], unknown]>([
  ['one', [[3, 4]], [null]],
  [
    'two side by side',
    [
      [0, 0],
      [100, 20],
    ],
    ['right', 'left'],
  ],
  [
    'two one behind the other',
    [
      [0, 0],
      [20, 100],
    ],
    ['down', 'up'],
  ],
  [
    'a tripod',
    [
      [0, -200],
      [173, 100],
      [-173, 100],
    ],
    ['down', 'upLeft', 'upRight'],
  ],
  [
    'four in a row have no eighths of their own',
    [
      [0, 0],
      [1, 0],
      [2, 0],
      [3, 0],
    ],
    [1, 2, 3, 4],
  ],
])('%s: told apart by the side of the stage', (_, places, words) => expect(tellApart(places)).toEqual(words));

const turned = (plan: Plan, id: string, degrees: number): Plan => {
  const c = Math.cos(toRadians(degrees));
  const s = Math.sin(toRadians(degrees));
  const move = <P extends { xMm: number; yMm: number; headingDeg: number }>(p: P): P => ({
    ...p,
    xMm: c * p.xMm - s * p.yMm,
    yMm: s * p.xMm + c * p.yMm,
    headingDeg: p.headingDeg + degrees,
  });
  const setup = plan.setups[id];
  const pieces = Object.fromEntries(
    Object.entries(setup.pieces).map(([key, piece]) => [key, { ...piece, place: move(piece.place) }]),
  ) as typeof setup.pieces;
  const risers = Object.fromEntries(
    Object.entries(plan.risers).map(([key, riser]) => [key, { ...riser, modules: riser.modules.map(move) }]),
  );
  return { ...plan, risers, setups: { ...plan.setups, [id]: { ...setup, pieces } } };
};

const onStage = (plan: Plan, id: string): Plan => ({
  ...plan,
  stages: {
    s: {
      id: 's',
      name: 'Hall',
      centreXMm: 200,
      outline: [
        { xMm: -4000, yMm: -2500 },
        { xMm: 4400, yMm: -2500 },
        { xMm: 4000, yMm: 4000 },
        { xMm: -3600, yMm: 4000 },
      ],
      wings: [],
    },
  },
  setups: { ...plan.setups, [id]: { ...plan.setups[id], riser: null, stage: 's' } },
});
const onNothing = (plan: Plan, id: string): Plan => ({
  ...plan,
  setups: { ...plan.setups, [id]: { ...plan.setups[id], riser: null, stage: null } },
});

const plain = sampleSetups();
const cases = [
  ...plain,
  ...plain.map(({ name, plan, id }) => ({
    name: `${name}, riser turned by 20 degrees`,
    plan: turned(plan, id, 20),
    id,
  })),
  ...plain.map(({ name, plan, id }) => ({ name: `${name}, on a stage without a riser`, plan: onStage(plan, id), id })),
  ...plain.map(({ name, plan, id }) => ({ name: `${name}, on a bare floor`, plan: onNothing(plan, id), id })),
];

describe.each(cases)('$name', ({ plan, id }) => {
  const layout = layoutSetup(plan, id);
  const made = markPlan(plan, id, layout);
  const { marks, frame, datums } = made;
  const byLetter = new Map<string | number, Point>(datums.map(({ letter, at }) => [letter, at]));
  byLetter.set('O', frame.origin);

  test('MK-1 every floor contact of the kit has a mark on its own body, in or at its edge', () => {
    const contacts = layout.bodies.filter((body) => body.touchesFloor && isKit(body));
    for (const body of contacts) {
      const own = marks.filter(({ mark }) => mark.body === body.id);
      expect(own.length, body.id).toBeGreaterThan(0);
      for (const { mark } of own) expect(gapValue(disc(...mark.at, 0), body.shape), mark.id).toBeLessThan(1e-6);
    }
    expect(new Set(marks.map(({ mark }) => mark.id)).size).toBe(marks.length);
  });

  test('names tell every mark from every other', () => {
    const names = marks.map(({ mark: { piece, part, which, end } }) => `${piece} ${part} ${which} ${end}`);
    expect(new Set(names).size).toBe(names.length);
  });

  test('coordinates lead back to the place', () => {
    for (const { mark, fromCentreMm, fromFrontMm } of marks) {
      expect(inFrame(frame, mark.at)).toEqual([fromCentreMm, fromFrontMm]);
      expect(away(outOfFrame(frame, [fromCentreMm, fromFrontMm]), mark.at)).toBeLessThan(1e-9);
    }
  });

  test('MK-2 the printed readings lead to the place within what is said, and no pair of datums serves much better', () => {
    const step = READ_STEP_MM[plan.units];
    for (const { mark, tapes, refused } of marks) {
      if (!tapes) {
        expect(refused).not.toBeNull();
        continue;
      }
      const { first, second, firstMm, secondMm, side, errorMm } = tapes;
      for (const mm of [firstMm, secondMm]) expect(Math.abs(mm / step - Math.round(mm / step))).toBeLessThan(1e-9);
      const at = crossingOf(first.at, second.at, firstMm, secondMm, side);
      expect(away(at!, mark.at)).toBeLessThan(errorMm);
      const others = datums.flatMap((a, i) =>
        datums.slice(i + 1).flatMap((b) => {
          const angle = crossingAngle(mark.at, a.at, b.at);
          return away(mark.at, a.at) < 100 || away(mark.at, b.at) < 100 ? [] : [worstError(angle)];
        }),
      );
      expect(errorMm).toBeLessThanOrEqual(Math.max(TOLERANCE_MM, Math.min(...others) + 2 * step) + 1e-9);
    }
  });

  test('MK-3 numbers follow the order of laying; a control is to a datum or a mark laid before', () => {
    expect(marks.map(({ number }) => number)).toEqual(marks.map((_, k) => k + 1));
    const laid = new Map(byLetter);
    const step = READ_STEP_MM[plan.units];
    for (const { number, mark, control } of marks) {
      if (control) {
        const to = laid.get(control.to);
        expect(to, `${mark.id} to ${control.to}`).toBeDefined();
        expect(Math.abs(away(to!, mark.at) - control.distanceMm)).toBeLessThanOrEqual(step / 2 + 1e-9);
      }
      laid.set(number, mark.at);
    }
  });

  test('marks of one group lie on the same side of its line, in growing angle', () => {
    for (const { first, second, marks: own } of made.groups) {
      expect(new Set(own.map(({ mark }) => sideOf(mark.at, first.at, second.at))).size).toBe(1);
      const angles = own.map(({ mark }) => {
        const [a, b] = [second.at[0] - first.at[0], second.at[1] - first.at[1]];
        const [x, y] = [mark.at[0] - first.at[0], mark.at[1] - first.at[1]];
        return Math.acos((a * x + b * y) / (Math.hypot(a, b) * Math.hypot(x, y)));
      });
      // A base line in feet has other ends than the one in mm by which the order goes.
      const slack = frame.from === 'baseLine' && plan.units === 'in' ? 0.05 : 1e-7;
      for (let k = 1; k < angles.length; k++) expect(angles[k]).toBeGreaterThanOrEqual(angles[k - 1] - slack);
    }
    expect(made.groups.flatMap((group) => group.marks).length + made.byCoordinates.length).toBe(marks.length);
  });

  test('MK-3 racks come first; every mark keeps its number and its hooks whatever units are read', () => {
    for (const part of [made.groups.flatMap((group) => group.marks), made.byCoordinates]) {
      const racks = part.map(({ mark }) => plan.setups[id].pieces[mark.piece]?.kind === 'rack');
      if (racks.includes(false)) expect(racks.slice(racks.indexOf(false))).not.toContain(true);
    }
    const units = plan.units === 'mm' ? 'in' : 'mm';
    const other = markPlan({ ...plan, units }, id, layout);
    const numbers = ({ marks: all }: typeof made) =>
      all.map(({ number, mark, tapes, refused }) => [
        number,
        mark.id,
        tapes?.first.letter,
        tapes?.second.letter,
        refused,
      ]);
    expect(numbers(other)).toEqual(numbers(made));
  });

  test('the same plan gives the same marks', () => expect(markPlan(plan, id, layoutSetup(plan, id))).toEqual(made));
});

test('a riser turned with everything on it has the same coordinates and the same readings', () => {
  for (const { plan, id } of plain) {
    const before = markPlan(plan, id, layoutSetup(plan, id));
    const after = markPlan(turned(plan, id, 20), id, layoutSetup(turned(plan, id, 20), id));
    const moved = new Map(after.marks.map((laid) => [laid.mark.id, laid]));
    for (const laid of before.marks) {
      const other = moved.get(laid.mark.id);
      expect(other?.fromCentreMm).toBeCloseTo(laid.fromCentreMm, 6);
      expect(other?.fromFrontMm).toBeCloseTo(laid.fromFrontMm, 6);
    }
  }
});

test('a contact over the edge is not laid with tapes that would hang in the air', () => {
  const { plan, id } = plain.find(({ name }) => name === 'compact-one-up-two-down, straight')!;
  const { byCoordinates } = markPlan(plan, id, layoutSetup(plan, id));
  expect(byCoordinates.map(({ refused }) => refused)).toEqual(['off_deck', 'off_deck']);
});

test('a mark that every pair crosses too flatly is laid by its coordinates', () => {
  const { plan, id } = plain[0];
  const far: Plan = onStage(plan, id);
  const stage = far.stages!.s;
  const outline = [
    { xMm: -300, yMm: -9000 },
    { xMm: 300, yMm: -9000 },
    { xMm: 300, yMm: 9000 },
    { xMm: -300, yMm: 9000 },
  ];
  const narrow = { ...far, stages: { s: { ...stage, outline } } };
  const { byCoordinates, marks } = markPlan(narrow, id, layoutSetup(narrow, id));
  expect(byCoordinates.length).toBe(marks.length);
  expect(byCoordinates.every(({ refused }) => refused === 'too_flat')).toBe(true);
});

test('a setup that the plan does not have is refused', () => {
  const { plan, id } = plain[0];
  expect(() => markPlan(plan, 'constructor', layoutSetup(plan, id))).toThrow(/no setup/);
});
