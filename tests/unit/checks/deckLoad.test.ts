import { describe, expect, test } from 'vitest';
import { deckLoad, deckLoadReading } from '../../../src/checks/deckLoad.ts';
import { assembliesOf, othersOf } from '../../../src/checks/stability.ts';
import { GRAVITY } from '../../../src/checks/statics.ts';
import { disc, rectangle, type Swept } from '../../../src/geometry/shapes.ts';
import type { Body } from '../../../src/layout/body.ts';
import type { DeckLayout } from '../../../src/layout/layout.ts';
import { samplePlan } from '../../fixtures/plans.ts';

const plan = samplePlan();
/** Two modules of 1 x 1 m side by side. */
const deckOf = (ratedKPa: number | null): DeckLayout => ({
  name: 'Riser',
  modules: [
    [0, 0, 1000, 0, 1000, 1000, 0, 1000],
    [1000, 0, 2000, 0, 2000, 1000, 1000, 1000],
  ],
  heightMm: 300,
  ratedKPa,
  edgeMarginMm: 50,
});
const body = (id: string, assembly: string, shape: Swept, part: Partial<Body>): Body => ({
  id,
  piece: assembly,
  part: id,
  label: id,
  kind: 'stand',
  assembly,
  touchesFloor: false,
  z0: 0,
  z1: 100,
  shape,
  massKg: 0,
  massCentre: null,
  ...part,
});
/** Three tips of 10 mm radius about (x, y), the mass over their middle. */
const tripod = (assembly: string, x: number, y: number, massKg: number | null, part: Partial<Body> = {}): Body[] => [
  ...[0, 1, 2].map((k) => {
    const angle = (k * 2 * Math.PI) / 3;
    return body(`${assembly}/tip${k}`, assembly, disc(x + 200 * Math.cos(angle), y + 200 * Math.sin(angle), 10), {
      touchesFloor: true,
    });
  }),
  body(`${assembly}/tube`, assembly, disc(x, y, 15), {
    massKg,
    massCentre: massKg === null ? null : [x, y, 400],
    ...part,
  }),
];
const read = (deck: DeckLayout | null, ...bodies: Body[]) => deckLoadReading(plan, deck, assembliesOf(bodies));

test('a tripod of 30 kg: 10 kg on each tip, over its own area; all of it on one module', () => {
  const reading = read(deckOf(5), ...tripod('a', 500, 500, 30));
  expect(reading.mass).toBe(30);
  expect(reading.player).toBe(0);
  expect(reading.feet).toHaveLength(3);
  for (const foot of reading.feet) {
    expect(foot.force).toBeCloseTo(10 * GRAVITY, 6);
    expect(foot.pressure).toBeCloseTo(((10 * GRAVITY) / (Math.PI * 100)) * 1000, 4);
  }
  expect(reading.spread).toBeCloseTo((30 * GRAVITY) / 2000, 9);
  expect(reading.worstModule).toBeCloseTo((30 * GRAVITY) / 1000, 6);
});

test('the player sits on the first throne, and on no other', () => {
  const seat = { kind: 'throne', part: 'seat' } as const;
  const reading = read(deckOf(5), ...tripod('t', 500, 500, 7, seat), ...tripod('u', 1500, 500, 7, seat));
  expect(reading.mass).toBe(99);
  expect(reading.player).toBe(85);
  expect(reading.feet[0]).toMatchObject({ piece: 't' });
  expect(reading.feet[0].force).toBeCloseTo((92 / 3) * GRAVITY, 6);
  const light = deckLoadReading(
    { ...plan, limits: { playerKg: 60 } },
    deckOf(5),
    assembliesOf(tripod('t', 500, 500, 7, seat)),
  );
  expect(light.mass).toBe(67);
});

describe('all that is on the riser', () => {
  const amplifier = (x: number, y: number, massKg: number | null = 40) => [
    body('amp', 'amp', rectangle(x, y, 600, 300, 0), {
      kind: 'stageItem',
      touchesFloor: true,
      massKg,
      massCentre: massKg === null ? null : [x, y, 450],
    }),
  ];
  const all = (bodies: Body[]) => {
    const reading = deckLoadReading(plan, deckOf(0.5), assembliesOf(bodies), othersOf(bodies));
    return { reading, codes: deckLoad(plan, deckOf(0.5), reading).map(({ code }) => code) };
  };

  test('an amplifier on one module loads it: 0.73 kN/m2 where 0.5 is rated is too much, not “the riser holds it”', () => {
    const kit = tripod('a', 500, 500, 34.5);
    expect(all(kit).codes).toEqual(['deck_holds']);
    const { reading, codes } = all([...kit, ...amplifier(500, 200)]);
    expect(codes).toEqual(['deck_overloaded']);
    expect(reading).toMatchObject({ mass: 74.5, others: 40 });
    expect(reading.worstModule).toBeCloseTo((74.5 * GRAVITY) / 1000, 6);
    // Its four corners carry a quarter each, and its whole outline presses.
    expect(reading.feet[0]).toMatchObject({ piece: 'amp' });
    expect(reading.feet[0].force).toBeCloseTo(40 * GRAVITY, 6);
  });

  test('what stands beside the riser loads it with nothing, and need not be weighed', () => {
    const { reading } = all([...tripod('a', 500, 500, 30), ...amplifier(500, -400), ...tripod('b', 3000, 500, null)]);
    expect(reading).toMatchObject({ mass: 30, others: 0, unmeasured: [] });
  });

  test('half over the edge it stands on what is on the deck; not weighed it leaves the load unknown', () => {
    const { reading } = all(amplifier(500, 30));
    expect(reading.mass).toBe(40);
    expect(reading.worstModule).toBeCloseTo((40 * GRAVITY) / 1000, 6);
    expect(all(amplifier(500, 500, null))).toMatchObject({ codes: ['load_unknown'], reading: { unmeasured: ['amp'] } });
  });

  test('a clipped microphone hangs over the deck, and presses where it hangs', () => {
    const mic = (x: number) => [
      body('mic', 'mic', disc(x, 500, 30), { kind: 'stageItem', z0: 600, massKg: 0.15, massCentre: [x, 500, 650] }),
    ];
    expect(all(mic(1500)).reading).toMatchObject({ mass: 0.15, others: 0.15 });
    expect(all(mic(2500)).reading.mass).toBe(0);
  });

  test('the drummer off the riser does not load it', () => {
    const throne = (x: number) => tripod('t', x, 500, 7, { kind: 'throne', part: 'seat' });
    expect(all(throne(500)).reading).toMatchObject({ mass: 92, player: 85 });
    expect(all(throne(3000)).reading).toMatchObject({ mass: 0, player: 0 });
  });

  test('a foot within a crack of where two clamped modules meet presses on both', () => {
    const deck: DeckLayout = {
      ...deckOf(5),
      modules: [
        [800, 0, 1000, 0, 1000, 1000, 800, 1000],
        [1000, 0, 2000, 0, 2000, 1000, 1000, 1000],
      ],
    };
    const worst = (x: number) => {
      const post = [body('p', 'p', disc(x, 500, 5), { touchesFloor: true, massKg: 50, massCentre: [x, 500, 500] })];
      return deckLoadReading(plan, deck, assembliesOf(post)).worstModule;
    };
    expect(worst(1010)).toBeCloseTo((50 * GRAVITY) / 1000, 9);
    expect(worst(1002)).toBeCloseTo((50 * GRAVITY) / 200, 9);
  });
});

describe('DL-1 findings', () => {
  const heavy = (kg: number | null) => tripod('a', 500, 500, kg);
  test.each([
    // 1 m2 of module: 1 kPa is 1000 N, 102 kg
    ['far below', 5, 100, 'deck_holds', 'clear'],
    ['above four fifths', 5, 420, 'deck_nearly_full', 'tight'],
    ['over', 5, 520, 'deck_overloaded', 'blocked'],
    ['no rating', null, 100, 'rating_unknown', 'unmeasured'],
  ])('%s', (_, rated, kg, code, state) => {
    const deck = deckOf(rated);
    expect(deckLoad(plan, deck, read(deck, ...heavy(kg)))).toEqual([
      expect.objectContaining({ code, state, limit: rated }),
    ]);
  });

  test('an unknown mass: at least so much, unless that is too much already', () => {
    const deck = deckOf(5);
    const unknown = tripod('b', 1500, 500, null);
    expect(deckLoad(plan, deck, read(deck, ...heavy(100), ...unknown))[0]).toMatchObject({
      code: 'load_unknown',
      state: 'unmeasured',
      pieces: ['b'],
    });
    expect(deckLoad(plan, deck, read(deck, ...heavy(600), ...unknown))[0].state).toBe('blocked');
  });

  test('no riser, no finding; the feet are still known', () => {
    const reading = read(null, ...heavy(30));
    expect(deckLoad(plan, null, reading)).toEqual([]);
    expect(reading.feet).toHaveLength(3);
    expect(reading.spread).toBeNull();
  });
});
