/** Arms and what they are joined to: they may touch at the joint and nowhere else. And a rack that stands in its own way. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { type Layout, layoutSetup } from '../../../src/layout/layout.ts';
import type { Bar, Item, Mount, Piece, Plan, Rack } from '../../../src/plan/schema.ts';
import { findingSentence } from '../../../src/words/sentences.ts';
import { bar, chain, item, planOf, rack } from '../../fixtures/plans.ts';
import { sampleOf } from '../../fixtures/samplePlans.ts';
import { runs } from '../../fixtures/seeds.ts';

function clashes(plan: Plan, id = 's') {
  const { findings } = runChecks(plan, id, layoutSetup(plan, id));
  return findings
    .filter(({ check, state }) => (check === 'clearance' || check === 'rack') && state !== 'clear')
    .map((finding) => ({ ...finding, text: findingSentence(finding, plan, id) }));
}

const withPiece = (plan: Plan, setup: string, piece: Piece): Plan => ({
  ...plan,
  setups: {
    ...plan.setups,
    [setup]: { ...plan.setups[setup], pieces: { ...plan.setups[setup].pieces, [piece.id]: piece } },
  },
});

const onBar = (atMm: number, arm: string, clamp: string | null = 'clamp-own'): Mount => ({
  carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm },
  clamp,
  arm,
});
/** Along the page's x, its bar 700 mm up: b1 from x = -50. */
const straight = rack('left', 'Left rack', 0, 0, 0);

test('CL-5 an arm in a socket of another drum does not run through that drum', () => {
  const plan = sampleOf('four-bases');
  const { pieces } = plan.setups.offset;
  const [tom1, tom2] = [pieces['tom-1'] as Item, pieces['tom-2'] as Item];
  expect(clashes(plan, 'offset')).toEqual([]);
  const pose = layoutSetup(plan, 'offset').mounts.find(({ piece }) => piece === 'tom-1');
  const [x, y] = pose!.head!.sockets[0];
  // Straight past the first drum, as far as leaves both drums a hand apart.
  const away = Math.hypot(tom1.place.xMm - x, tom1.place.yMm - y);
  const share = 1 + 330 / away;
  const place = {
    ...tom2.place,
    xMm: x + (tom1.place.xMm - x) * share,
    yMm: y + (tom1.place.yMm - y) * share,
    tiltDeg: 0,
  };
  const told = clashes(withPiece(plan, 'offset', { ...tom2, place }), 'offset');
  const through = told.filter(({ pieces: both }) => both.join() === 'tom-1,tom-2');
  expect(through).toMatchObject([{ code: 'overlap', state: 'blocked' }]);
  expect(through[0].text).toContain('the arm of ');
});

describe('CL-5 an arm and the bar it is clamped to', () => {
  /** A tom that an L-arm reaches from the bar's side, its shell's middle at the bar's height so that the post has no length. */
  const tom = (xMm: number, yMm: number): Item => ({
    ...item('tom', 'Tom', 'tom', xMm, yMm),
    place: { xMm, yMm, headingDeg: 0, heightMm: 700 + 203 / 2 },
    mount: onBar(450, 'l-arm-extra-long'),
  });
  test('straight out from it: clear', () => expect(clashes(planOf(straight, tom(400, 500)))).toEqual([]));
  test('back over its own bar farther along: not', () => {
    // A bent bar whose bow comes back to where the arm runs.
    const bent: Bar = { ...bar('b1', 2000), bend: { radiusMm: 400, straightEndsMm: 100, side: 'left' } };
    const bow: Rack = { ...straight, spans: [{ ...straight.spans[0], bars: [bent] }] };
    const laid = layoutSetup(planOf(bow), 's').racks.left.bars[0];
    const [from, to] = [laid.pointAt(300), laid.pointAt(1700)];
    const length = Math.hypot(to.x - from.x, to.y - from.y);
    const out = (mm: number) => [from.x + ((to.x - from.x) * mm) / length, from.y + ((to.y - from.y) * mm) / length];
    const held = (mm: number): Item => ({
      ...tom(0, 0),
      place: { xMm: out(mm)[0], yMm: out(mm)[1], headingDeg: 0, heightMm: 700 + 203 / 2 },
      mount: onBar(300, 'l-arm-extra-long', null),
    });
    const told = clashes(planOf(bow, held(length + 160 + 152)));
    expect(told.filter(({ code }) => code === 'overlap').map(({ text }) => text)).toContainEqual(
      expect.stringContaining('The arm of Tom runs into a bar of Left rack, which carries it'),
    );
  });
});

test('CL-5 a brace that lies along its own bar runs into it; one across does not', () => {
  const stand = (xMm: number, yMm: number): Item => ({
    ...item('hat-stand', 'Hi-hat stand', 'hat-stand', xMm, yMm),
    ties: [
      {
        carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 450 },
        link: 'link-1',
        clamp: 'clamp-own',
        heightMm: 700,
      },
    ],
  });
  expect(clashes(planOf(straight, stand(400, 300)))).toEqual([]);
  const told = clashes(planOf(straight, stand(800, 45)));
  expect(told.map(({ text }) => text)).toContain(
    'The brace of Hi-hat stand runs into a bar of Left rack, which carries it: move its clamp, or take another arm.',
  );
});

describe('CL-9 an arm and its own piece', () => {
  const tom = (mount: Mount): Item => ({
    ...item('tom', 'Tom', 'tom', 400, 0),
    place: { xMm: 400, yMm: 0, headingDeg: 0, heightMm: 1000 },
    mount,
  });
  test('a post that stands in its own drum', () => {
    // The drum is right above the bar: whatever side of it the post stands on, it is within the shell's circle.
    const told = clashes(planOf(straight, tom(onBar(360, 'l-arm'))));
    expect(told).toContainEqual(
      expect.objectContaining({
        code: 'overlaps_itself',
        state: 'blocked',
        pieces: ['tom'],
        text: 'The post of Tom runs through Tom itself: move its clamp, or take another arm.',
      }),
    );
  });
  test('a post beside it', () =>
    expect(
      clashes(planOf(straight, tom(onBar(780, 'l-arm-long')))).filter(({ pieces }) => pieces.length === 1),
    ).toEqual([]));
});

describe('CL-10 a rack in its own way', () => {
  const turned = (...headings: number[]): Rack => ({
    ...straight,
    spans: [{ ...straight.spans[0], bars: [bar('b1', 560)] }],
    legs: straight.legs.map((leg, k) => ({ ...leg, foot: { gear: 'foot-t', lengthMm: 500, headingDeg: headings[k] } })),
  });
  test('T-feet side by side are clear, turned towards each other they cross', () => {
    expect(clashes(planOf(turned(90, 90)))).toEqual([]);
    const told = clashes(planOf(turned(20, -20)));
    expect(told).toMatchObject([{ code: 'overlaps_itself', state: 'blocked', pieces: ['left'] }]);
    expect(told[0].text).toBe(
      'A T-foot of Left rack and a T-foot of Left rack run into each other: turn a foot, or set the legs farther apart.',
    );
  });
  test('T-feet that nearly touch are tight', () => {
    // In line they leave 500 - 500 + 8 = 8 mm, and 10 are wanted.
    const rack = turned(0, 0);
    const near = { ...rack, spans: [{ ...rack.spans[0], bars: [bar('b1', 608)] }] };
    expect(clashes(planOf(near))).toMatchObject([{ code: 'too_close_itself', state: 'tight', limit: 10 }]);
    expect(clashes(planOf(near))[0].value).toBeCloseTo(8, 9);
  });

  const twoBars = (apart: number): Rack => ({
    ...straight,
    spans: [{ ...straight.spans[0], bars: [bar('b1', 1000, 600), bar('b2', 1000, 600 + apart)] }],
  });
  test.each([
    [10, 'overlaps_itself'],
    [38, 'overlaps_itself'],
    [60, undefined],
  ] as const)('two bars %d mm apart, axis to axis', (apart, code) =>
    expect(clashes(planOf(twoBars(apart))).find(({ check }) => check === 'clearance')?.code).toBe(code),
  );

  test('a bar so low that it lies in the T-feet, and one in the deck', () => {
    const low = (heightMm: number): Rack => ({
      ...straight,
      spans: [{ ...straight.spans[0], bars: [bar('b1', 1000, heightMm)] }],
    });
    expect(clashes(planOf(low(85)))).toEqual([]);
    const told = clashes(planOf(low(30)));
    expect(told.map(({ text }) => text)).toContain(
      'A bar of Left rack and a T-foot of Left rack run into each other: raise the bar.',
    );
    expect(clashes(planOf(low(10)))).toContainEqual(
      expect.objectContaining({
        code: 'bar_in_deck',
        value: 10,
        limit: 19.05,
        text: 'A bar of Left rack lies in the deck: raise it, its middle to 19.1 mm at least.',
      }),
    );
  });

  test('bars of two spans meet at their leg, at any angle', () => {
    const corner = chain('front', 'Front rack');
    expect(clashes(planOf(corner))).toEqual([]);
  });
  test('PR-4 a bar that rests on the deck is not in it', () => {
    const lying = { ...straight, legs: straight.legs.map((leg) => ({ ...leg, foot: null })) };
    const at = (heightMm: number) =>
      clashes(planOf({ ...lying, spans: [{ ...lying.spans[0], bars: [bar('b1', 1000, heightMm)] }] }));
    expect(at(19.05)).toEqual([]);
    expect(at(19)).toMatchObject([{ code: 'bar_in_deck' }]);
  });
});

/** The least distance between the straight stretches of an arm and its own shell, by looking at many places of both. */
function sampledInside({ mounts }: Layout, plan: Plan): boolean {
  const pose = mounts[0];
  const { place, gear } = plan.setups.s.pieces.tom as Item;
  const drum = gearOf(plan.gear, gear);
  if (drum?.kind !== 'drum') throw new Error('It is a tom.');
  const tilt = ((place.tiltDeg ?? 0) * Math.PI) / 180;
  const turned = (place.headingDeg * Math.PI) / 180;
  const inside = (x: number, y: number, z: number) => {
    const [dx, dy, dz] = [x - place.xMm, y - place.yMm, z - place.heightMm!];
    const back = -Math.sin(turned) * dx + Math.cos(turned) * dy;
    const side = Math.cos(turned) * dx + Math.sin(turned) * dy;
    const up = back * Math.sin(tilt) + dz * Math.cos(tilt);
    const along = back * Math.cos(tilt) - dz * Math.sin(tilt);
    return up <= 0 && up >= -drum.depthMm && Math.hypot(side, along) <= drum.diameterMm / 2;
  };
  const [post, elbow] = [pose.post, pose.elbow];
  for (let k = 0; k <= 400; k++) if (inside(post[0], post[1], post[2] + ((elbow[2] - post[2]) * k) / 400)) return true;
  return false;
}

test('CL-9 law: a post whose axis is in its own tilted drum is always told', () => {
  let hits = 0;
  fc.assert(
    fc.property(
      fc.integer({ min: 150, max: 700 }),
      fc.integer({ min: -250, max: 250 }),
      fc.integer({ min: 0, max: 360 }),
      fc.integer({ min: -60, max: 60 }),
      fc.integer({ min: 780, max: 1050 }),
      (xMm, yMm, headingDeg, tiltDeg, heightMm) => {
        const tom: Item = {
          ...item('tom', 'Tom', 'tom', xMm, yMm),
          place: { xMm, yMm, headingDeg, tiltDeg, heightMm },
          mount: onBar(450, 'l-arm-extra-long'),
        };
        const plan = planOf(straight, tom);
        if (!sampledInside(layoutSetup(plan, 's'), plan)) return;
        hits++;
        expect(clashes(plan).map(({ code }) => code)).toContain('overlaps_itself');
      },
    ),
    runs(2000),
  );
  expect(hits).toBeGreaterThan(0);
});
