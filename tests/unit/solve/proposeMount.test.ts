/** Proposed mounts: named cases on a straight bar, and laws on every sample. */
import { describe, expect, test } from 'vitest';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { freeSockets, KEPT_MM, placesFor, proposeMount, searchMounts } from '../../../src/solve/proposeMount.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

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
    mount: { carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm: 450 }, clamp: 'clamp-arm', arm: 'platform-two-rear' },
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

test('on every sample a proposal is a mount that the checks call reached', () => {
  let proposed = 0;
  for (const { plan, id } of sampleSetups()) {
    const layout = layoutSetup(plan, id);
    for (const piece of Object.values(plan.setups[id].pieces)) {
      if (piece.kind !== 'item' || !piece.mount?.arm) continue;
      const best = proposeMount(plan, plan.setups[id], layout, piece);
      if (!best) continue;
      proposed++;
      const ran = runCommand(plan, { type: 'setPiece', setup: id, piece: piece.id, set: { mount: best.mount } });
      if (!ran.ok) throw new Error(JSON.stringify(ran.refusal));
      const after = layoutSetup(ran.plan, id);
      const readings = mountReadings(
        ran.plan,
        after.mounts.filter((pose) => pose.piece === piece.id && pose.holds === 'mount'),
      );
      expect(readings).toHaveLength(1);
      expect(readings[0].reached).toBe(true);
      expect(readings[0].left).toBeGreaterThanOrEqual(KEPT_MM);
    }
  }
  expect(proposed).toBeGreaterThan(50);
}, 30_000);
