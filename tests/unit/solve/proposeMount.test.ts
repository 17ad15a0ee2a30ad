/** Proposed mounts: named cases on a straight bar, and laws on every sample. */
import { describe, expect, test } from 'vitest';
import { pairReadings } from '../../../src/checks/clearance.ts';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { type Layout, layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { freeSockets, placesFor } from '../../../src/solve/mountWays.ts';
import { KEPT_MM, proposeMount, searchMounts } from '../../../src/solve/proposeMount.ts';
import { whyNot } from '../../../src/words/mountWords.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';
import { layoutOf, sampleSetups } from '../../fixtures/samplePlans.ts';

/** One straight bar along x at 700 mm, legs at 0 and 900; gear from the catalogue alone, but for the rack's own tubes. */
function onePlan(...items: Item[]): Plan {
  const plan = samplePlan();
  const pieces = [rack('rack', 'Rack', 0, 0, 0), ...items];
  const { 'tube-bar': bar, 'tube-leg': leg, 'foot-t': foot, crash, tom } = plan.gear;
  return {
    ...plan,
    gear: { 'tube-bar': bar, 'tube-leg': leg, 'foot-t': foot, crash, tom },
    setups: {
      one: {
        id: 'one',
        name: 'One',
        riser: null,
        pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
        order: pieces.map(({ id }) => id),
      },
    },
    order: ['one'],
  };
}

function search(plan: Plan, id: string) {
  const setup = plan.setups.one;
  return searchMounts(plan, setup, layoutSetup(plan, 'one'), setup.pieces[id] as Item);
}

/** A tom 250 mm beside the bar: its shell, 152.5 mm in radius, ends 97.5 mm from the tube, its middle 98.5 mm above it. */
const beside = (id: string, xMm: number): Item => ({
  ...item(id, id, 'tom', xMm, 250),
  place: { xMm, yMm: 250, headingDeg: 0, heightMm: 900 },
});

describe('a drum beside a bar', () => {
  test('gets the shortest L-arm, its clamp abreast of the drum', () => {
    const plan = onePlan(beside('tom1', 400));
    const found = search(plan, 'tom1');
    // 98.5 mm up and 97.5 - 40 out: the short one's arm of 40 to 180 mm with a post of 0 to 200 mm does, 17.5 mm to spare.
    expect(found.ok && found.proposals[0].mount).toEqual({
      carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm: 450 },
      clamp: 'clamp-arm-narrow',
      arm: 'l-arm-short',
    });
  });

  test('goes aside where another clamp sits, and does not come nearer than the two are wide', () => {
    const first: Item = {
      ...item('crash1', 'Crash', 'crash', 400, -200),
      mount: { carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm: 450 }, clamp: 'clamp-arm', arm: 'boom-short' },
    };
    const found = search(onePlan(first, beside('tom1', 400)), 'tom1');
    const carrier = found.ok ? found.proposals[0].mount.carrier : null;
    if (carrier?.on !== 'bar') throw new Error('The drum hangs on the bar.');
    // 50 and 40 mm wide: 45 mm from middle to middle.
    expect(Math.abs(carrier.atMm - 450)).toBeGreaterThanOrEqual(45);
    expect(Math.abs(carrier.atMm - 450)).toBeLessThan(110);
  });

  test('far from everything is told by how much the best arm is short', () => {
    const found = search(
      onePlan({ ...beside('tom1', 450), place: { xMm: 450, yMm: 1500, headingDeg: 0, heightMm: 900 } }),
      'tom1',
    );
    if (found.ok || found.code !== 'too_far') throw new Error('Nothing reaches that far.');
    // Shell at 1347.5; the longest L-arm is 460 mm out from a post at most 60 mm from the tube: 827.5 mm are missing.
    expect(found.shortMm).toBeGreaterThan(820);
    expect(found.shortMm).toBeLessThan(850);
  });

  test('finds no room where clamps fill the tubes', () => {
    const full = onePlan(beside('tom1', 400));
    const { rack: one } = full.setups.one.pieces;
    if (one.kind !== 'rack') throw new Error('A rack.');
    // Legs 20 mm apart: two joints of 60 mm leave nothing of a 60 mm tube; uprights are joint from end to end.
    const bars = [{ ...one.spans[0].bars[0], cutLengthMm: 60, overhangMm: 20, heightMm: 40 }];
    const spans = [{ ...one.spans[0], farOverhangMm: 20, bars }];
    const legs = one.legs.map((leg) => ({ ...leg, lengthMm: 80 }));
    full.setups.one.pieces.rack = { ...one, spans, legs };
    expect(search(full, 'tom1')).toMatchObject({ ok: false, code: 'no_room' });
  });
});

test('a cymbal hangs on a boom that is not for microphones, a throne on nothing', () => {
  const throne = item('throne', 'Throne', 'throne-round', 300, 600);
  const plan = onePlan(item('crash1', 'Crash', 'crash', 400, 150), throne);
  const found = search(plan, 'crash1');
  expect(found.ok && found.proposals[0].arm.kind).toBe('boom');
  expect(found.ok && found.proposals[0].arm.id).not.toBe('arm-microphone');
  expect(search(plan, 'throne')).toEqual({ ok: false, code: 'not_held_by_arms' });
});

test('without a rack nothing carries', () => {
  const plan = onePlan(beside('tom1', 400));
  const { tom1 } = plan.setups.one.pieces;
  plan.setups.one = { ...plan.setups.one, pieces: { tom1 }, order: ['tom1'] };
  expect(search(plan, 'tom1')).toEqual({ ok: false, code: 'nothing_carries' });
});

test('sockets: the holder of a platform has one itself; what hangs in one keeps it; rear ones are for cymbals', () => {
  const holder: Item = {
    ...beside('tom1', 400),
    mount: {
      carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm: 450 },
      clamp: 'clamp-arm',
      arm: 'tom-holder-double-rear',
    },
  };
  const plan = onePlan(holder);
  const layout = layoutSetup(plan, 'one');
  const drums = freeSockets(plan, plan.setups.one, layout, holder, true);
  expect(drums).toHaveLength(1);
  expect(freeSockets(plan, plan.setups.one, layout, holder, false)).toEqual([2]);
  const second: Item = {
    ...beside('tom2', 700),
    mount: { carrier: { on: 'socket', piece: 'tom1', socket: drums[0] }, clamp: null, arm: 'l-arm' },
  };
  const both = onePlan(holder, second);
  expect(freeSockets(both, both.setups.one, layoutSetup(both, 'one'), holder, true)).toEqual([]);
});

test('places lie wholly in free stretches, nearest first', () => {
  const places = placesFor([[100, 200]], 50, 300);
  expect(places[0]).toBe(175);
  expect(Math.min(...places)).toBeGreaterThanOrEqual(125);
  expect(placesFor([[0, 40]], 50, 20)).toEqual([]);
});

/** The best proposal for each piece on an arm, of every sample, and the plan with it: searched for once. */
const proposed = () =>
  (known ??= sampleSetups().flatMap(({ plan, id }) =>
    Object.values(plan.setups[id].pieces).flatMap((piece) => {
      if (piece.kind !== 'item' || !piece.mount?.arm) return [];
      const best = proposeMount(plan, plan.setups[id], layoutOf(plan, id), piece);
      if (!best?.mount.arm) return []; // on a stand
      const ran = runCommand(plan, { type: 'setPiece', setup: id, piece: piece.id, set: { mount: best.mount } });
      if (!ran.ok) throw new Error(JSON.stringify(ran.refusal));
      return [{ plan: ran.plan, id, piece: piece.id, best, after: layoutSetup(ran.plan, id) }];
    }),
  ));
interface Proposed {
  readonly plan: Plan;
  readonly id: string;
  readonly piece: string;
  readonly best: NonNullable<ReturnType<typeof proposeMount>>;
  readonly after: Layout;
}
let known: readonly Proposed[] | null = null;

test('on every sample a proposal is a mount that the checks call reached', () => {
  for (const { plan, piece, after } of proposed()) {
    const readings = mountReadings(
      plan,
      after.mounts.filter((pose) => pose.piece === piece && pose.holds === 'mount'),
    );
    expect(readings).toHaveLength(1);
    expect(readings[0].reached).toBe(true);
    expect(readings[0].left).toBeGreaterThanOrEqual(KEPT_MM);
  }
  expect(proposed().length).toBeGreaterThan(50);
}, 30_000);

/** Obstacles, and pieces that carry. */
describe('arms that run into something', () => {
  // The tom's clamp abreast of it at 450 mm along the bar, its arm straight over y from 0 to 97.5.
  const post = (xMm: number): Item => ({
    ...item('post', 'Post', 'stand-cymbal-straight', xMm, 70),
    place: { xMm, yMm: 70, headingDeg: 0, heightMm: 1000 },
  });

  test('the clamp goes aside to where the arm is clear', () => {
    const free = search(onePlan(beside('tom1', 400)), 'tom1');
    const found = search(onePlan(post(400), beside('tom1', 400)), 'tom1');
    if (!free.ok || !found.ok) throw new Error('The bar has room.');
    expect(free.proposals[0].mount.carrier).toMatchObject({ on: 'bar', atMm: 450 });
    const [best] = found.proposals;
    expect(best.mount.carrier).not.toEqual(free.proposals[0].mount.carrier);
  });

  test('one that is blocked wherever it is is not offered; with no other, the answer names what it runs into', () => {
    // Stands all along the near bar; a second rack behind the drum is clear.
    const stands = Array.from({ length: 19 }, (_, k) => ({ ...post(k * 45), id: `post${k}`, name: `Post ${k}` }));
    const plan = onePlan(beside('tom1', 400), ...stands);
    const near = search(plan, 'tom1');
    expect(near).toMatchObject({ ok: false, code: 'runs_into', carrier: { rack: 'rack' } });
    expect(near.ok === false && near.code === 'runs_into' && near.struck).toMatch(/^post/);
    const setup = plan.setups.one;
    if (!near.ok)
      expect(whyNot(near, plan, setup, setup.pieces.tom1 as Item)).toMatch(
        /^Every arm that reaches it runs into something: from Rack, .*, into Post \d+\. Move one of them\.$/,
      );
    const far = rack('far', 'Far rack', 0, 640, 0);
    plan.setups.one.pieces.far = far;
    plan.setups.one.order.push('far');
    const found = search(plan, 'tom1');
    if (!found.ok) throw new Error('The far bar has room.');
    for (const { mount } of found.proposals) expect(mount.carrier).toMatchObject({ rack: 'far' });
  });

  test('what is proposed as clear is what the check of clearances finds clear, on every sample', () => {
    for (const { plan, id, piece, after } of proposed()) {
      const struck = pairReadings(plan, plan.setups[id], after.bodies).some(
        ({ a, b, gap }) => gap <= 0 && [a, b].some((body) => body.piece === piece && body.kind === 'arm'),
      );
      expect([id, piece, struck]).toEqual([id, piece, false]);
    }
    expect(proposed().length).toBeGreaterThan(50);
  }, 60_000);
});

describe('pieces that carry', () => {
  const bare = (...items: Item[]): Plan => {
    const plan = onePlan(...items);
    const { rack: _, ...pieces } = plan.setups.one.pieces;
    plan.setups.one = { ...plan.setups.one, pieces, order: plan.setups.one.order.filter((id) => id !== 'rack') };
    return plan;
  };
  const crash = (xMm: number, yMm: number, heightMm: number): Item => ({
    ...item('crash1', 'Crash', 'crash', xMm, yMm),
    place: { xMm, yMm, headingDeg: 0, heightMm },
  });

  test('a tom over a bass drum gets an L-arm in its shell', () => {
    // The drum's top is 22 in and two hoops high; the tom's middle 101.5 below its top, its shell 47.5 mm aside of the drum's middle.
    const tom: Item = { ...beside('tom1', 250), place: { xMm: 250, yMm: 0, headingDeg: 0, heightMm: 800 } };
    const found = search(bare(item('bd', 'Bass drum', 'bass-22x18', 0, 0), tom), 'tom1');
    expect(found.ok && found.proposals[0]).toMatchObject({
      mount: { carrier: { on: 'piece', piece: 'bd' }, clamp: null },
      arm: { kind: 'lArm' },
      reach: { reached: true },
    });
    // Not where a bar holds it clear and with room to spare.
    const both = search(onePlan(item('bd', 'Bass drum', 'bass-22x18', 400, 400), beside('tom1', 400)), 'tom1');
    expect(both.ok && both.proposals.map(({ mount }) => mount.carrier.on)).not.toContain('piece');
  });

  test('a cymbal on a straight stand is on it, before any rack; on a boom stand where nothing better is near', () => {
    const stand = (gear: string) => item('stand', 'Stand', gear, 400, 150);
    const on = search(onePlan(stand('stand-cymbal-straight'), crash(402, 150, 1000)), 'crash1');
    expect(on.ok && on.proposals[0].mount).toEqual({
      carrier: { on: 'piece', piece: 'stand' },
      clamp: null,
      arm: null,
    });
    // Every boom from the rack would run into that stand's own tube.
    expect(on.ok && on.proposals.length).toBe(1);
    const boom = search(bare(stand('stand-boom'), crash(700, 150, 1100)), 'crash1');
    expect(boom.ok && boom.proposals.map(({ mount }) => mount)).toEqual([
      { carrier: { on: 'piece', piece: 'stand' }, clamp: null, arm: null },
    ]);
    // 420 mm is its longest arm.
    expect(search(bare(stand('stand-boom'), crash(830, 150, 1100)), 'crash1').ok).toBe(false);
    // One that holds a cymbal already holds no other.
    const other: Item = {
      ...crash(402, 150, 1000),
      id: 'other',
      mount: { carrier: { on: 'piece', piece: 'stand' }, clamp: null, arm: null },
    };
    expect(search(bare(stand('stand-cymbal-straight'), other, crash(400, 150, 1000)), 'crash1').ok).toBe(false);
    // A hi-hat stand holds hi-hats.
    expect(search(bare(stand('stand-hi-hat-tripod'), crash(400, 150, 900)), 'crash1').ok).toBe(false);
  });

  test('a snare in a basket that it fits', () => {
    const snare = (gear: string): Item => ({
      ...item('snare1', 'Snare', gear, 0, 0),
      place: { xMm: 0, yMm: 0, headingDeg: 0, heightMm: 650 },
    });
    const held = (gear: string) => search(bare(item('stand', 'Stand', 'stand-snare', 0, 0), snare(gear)), 'snare1').ok;
    expect(held('snare-14x5.5')).toBe(true);
    expect(held('snare-10x5')).toBe(false);
  });
});

describe('sockets of a platform that stands', () => {
  const holder: Item = {
    ...beside('tom1', 150),
    mount: {
      carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm: 450 },
      clamp: 'clamp-arm',
      arm: 'tom-holder-double-rear',
      platformArm: 'l-arm',
    },
  };

  test('a crash near the rear socket is offered it, a tom the free tom socket, and the first drum still reaches', () => {
    for (const [piece, wanted] of [
      [{ ...item('new', 'New', 'crash', 400, -300), place: { xMm: 400, yMm: -300, headingDeg: 0, heightMm: 1100 } }, 2],
      [beside('new', 650), null],
    ] as const) {
      const plan = onePlan(holder, piece);
      const found = search(plan, 'new');
      const sockets = found.ok ? found.proposals.filter(({ mount }) => mount.carrier.on === 'socket') : [];
      expect(sockets).toHaveLength(1);
      const [{ mount }] = sockets;
      const used = layoutSetup(plan, 'one').mounts.find((pose) => pose.piece === 'tom1')?.head?.socket;
      expect(mount.carrier).toMatchObject({ piece: 'tom1', socket: wanted ?? 1 - (used ?? 9) });
      const ran = runCommand(plan, { type: 'setPiece', setup: 'one', piece: 'new', set: { mount } });
      if (!ran.ok) throw new Error('It may hang there.');
      const readings = mountReadings(ran.plan, layoutSetup(ran.plan, 'one').mounts);
      expect(readings.map(({ reached }) => reached)).toEqual([true, true]);
      // While it holds another, no other arm is proposed for the first.
      expect(search(ran.plan, 'tom1')).toEqual({ ok: false, code: 'holds_others' });
    }
  });
});
