/** The sample plans are real plans: they read, write back the same bytes, and what is wrong with one is its point. */

import { describe, expect, test } from 'vitest';
import { comparedSetup } from '../../src/checks/compare.ts';
import { differences } from '../../src/checks/differences.ts';
import { partsOf } from '../../src/checks/parts.ts';
import { gearOf } from '../../src/gear/catalogue.ts';
import type { GearOf } from '../../src/gear/schema.ts';
import { gapValue } from '../../src/geometry/gap.ts';
import { standHeight } from '../../src/layout/seats.ts';
import type { Item, Mount, Plan, Setup } from '../../src/plan/schema.ts';
import { writePlan } from '../../src/plan/write.ts';
import { checkedOf, layoutOf, SAMPLE_PLANS, sampleOf } from '../fixtures/samplePlans.ts';

const names = SAMPLE_PLANS.map(({ name }) => name);

const setups = SAMPLE_PLANS.flatMap(({ name: file, plan }) =>
  plan.order.map((id) => ({ name: `${file}, ${plan.setups[id].name}`, plan, id, setup: plan.setups[id] })),
);

/** On the boom that is part of a boom stand. */
function isOnBoom(plan: Plan, setup: Setup, mount: Mount | null): boolean {
  const under = mount?.carrier.on === 'piece' ? setup.pieces[mount.carrier.piece] : undefined;
  const stand = under?.kind === 'item' ? gearOf(plan.gear, under.gear) : undefined;
  return stand?.kind === 'stand' && stand.use === 'boom';
}

const items = (setup: Setup) => Object.values(setup.pieces).filter((piece): piece is Item => piece.kind === 'item');

/** Clutch, felts and the rod's end: cymbals sit this far above or below the top of a stand's tube (common practice, no source). */
const ROD_MM = 60;
/** A drum may lie this much into its basket or above it (common practice, no source). */
const SEAT_MM = 15;

/** A stand that is set within its range, right under its piece or as far away as its boom reaches, at the piece's height. */
function standFits(piece: Item, gear: GearOf<'cymbal' | 'drum'>, under: Item, stand: GearOf<'stand'>): void {
  const [low, high] = stand.heightMm;
  const top = standHeight({ [stand.id]: stand, [gear.id]: gear }, under, stand, [piece]);
  expect(top, under.name).toBeGreaterThanOrEqual(low);
  expect(top, under.name).toBeLessThanOrEqual(high);
  const away = Math.hypot(piece.place.xMm - under.place.xMm, piece.place.yMm - under.place.yMm);
  const height = piece.place.heightMm ?? gear.playHeightMm;
  if (gear.kind === 'drum') {
    expect(away, piece.name).toBe(0);
    expect(Math.abs(height - gear.depthMm - top), piece.name).toBeLessThanOrEqual(SEAT_MM);
    expect(gear.diameterMm, piece.name).toBeGreaterThanOrEqual(stand.basketMm![0]);
    expect(gear.diameterMm, piece.name).toBeLessThanOrEqual(stand.basketMm![1]);
  } else if (stand.armMm) expect(Math.hypot(away, height - top), piece.name).toBeLessThanOrEqual(stand.armMm[1]);
  else {
    expect(away, piece.name).toBe(0);
    expect(Math.abs(height - top), piece.name).toBeLessThanOrEqual(ROD_MM);
  }
}

/** Setups that are blocked on purpose: file and setup -> check -> the reason, in the words of the setup's note. */
const BLOCKED_ON_PURPOSE: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  'compact-one-up-two-down, Straight side racks': {
    riserFit: 'a rear foot of either rack stands off this 6 x 6 ft riser',
  },
};

test('there are at least seven files', () => expect(names.length).toBeGreaterThanOrEqual(7));

test.each(SAMPLE_PLANS)('$name writes back the same bytes', ({ plan, text }) => expect(writePlan(plan)).toBe(text));

describe.each(setups)('$name', ({ name, plan, id, setup }) => {
  test('nothing is blocked but what its note says', () => {
    const blocked = checkedOf(plan, id).findings.filter((finding) => finding.state === 'blocked');
    const reasons = BLOCKED_ON_PURPOSE[name] ?? {};
    const allowed = Object.keys(reasons);
    const told = blocked.map(({ check, code, pieces, value, limit }) => ({ check, code, pieces, value, limit }));
    expect(told.filter(({ check }) => !allowed.includes(check))).toEqual([]);
    for (const check of allowed) {
      expect(told.map((finding) => finding.check)).toContain(check);
      expect(setup.note).toContain(reasons[check]);
    }
  });

  test('layout has no problems of its own', () => expect(layoutOf(plan, id).problems).toEqual([]));

  test('every arm and link reaches, and there is one for each mount and tie that has one', () => {
    const { mounts } = checkedOf(plan, id).rig;
    expect(mounts.filter(({ reached }) => !reached)).toEqual([]);
    const named = items(setup).flatMap(({ id: piece, mount, ties }) => [
      ...(mount?.arm || isOnBoom(plan, setup, mount) ? [piece] : []),
      ...(ties ?? []).map(() => piece),
    ]);
    expect(mounts.map(({ piece }) => piece).sort()).toEqual(named.sort());
    expect(mounts.length).toBeGreaterThanOrEqual(5);
  });

  test('every drum and cymbal is held by a real mount: a clamp and an arm, an arm in a socket, or a stand that fits', () => {
    for (const piece of items(setup)) {
      const gear = gearOf(plan.gear, piece.gear)!;
      if (gear.kind !== 'cymbal' && gear.kind !== 'drum') continue;
      const { mount } = piece;
      if (mount === null) throw new Error(`Nothing holds ${piece.name}.`);
      const { carrier } = mount;
      if (carrier.on !== 'piece') {
        expect(gearOf(plan.gear, mount.arm ?? '')?.kind, piece.name).toMatch(/^(boom|lArm|platform)$/);
        if (carrier.on !== 'socket') expect(gearOf(plan.gear, mount.clamp ?? '')?.kind, piece.name).toBe('clamp');
        continue;
      }
      const under = setup.pieces[carrier.piece] as Item;
      const stand = gearOf(plan.gear, under.gear)!;
      if (stand.kind === 'bassDrum') expect(gearOf(plan.gear, mount.arm ?? '')?.kind, piece.name).toBe('lArm');
      else if (stand.kind === 'stand') standFits(piece, gear, under, stand);
      else throw new Error(`${piece.name} is on ${stand.name}.`);
    }
  });
});

describe.each(['one-up-two-down', 'compact-one-up-two-down'])('%s: straight against curved', (file) => {
  const plan = sampleOf(file);
  const { straight, curved } = plan.setups;

  test('the playing layout is the same, piece by piece', () => {
    const places = (setup: Setup) =>
      Object.fromEntries(items(setup).map((piece) => [piece.id, { gear: piece.gear, place: piece.place }]));
    expect(places(curved)).toEqual(places(straight));
    expect(curved.riser).toBe(straight.riser);
  });

  test('every bar keeps its cut length', () => {
    const cuts = (setup: Setup) =>
      Object.values(setup.pieces).flatMap((piece) =>
        piece.kind === 'rack'
          ? piece.spans.flatMap((span) => span.bars.map((bar) => [piece.id, bar.id, bar.cutLengthMm]))
          : [],
      );
    expect(cuts(curved)).toEqual(cuts(straight));
  });

  test('the curved racks take less floor, and the rear legs stand nearer to the centre line', () => {
    const area = (id: string) => checkedOf(plan, id).readings.floorHullArea!;
    expect(area('curved')).toBeLessThan(area('straight'));
    const rearLegs = (id: string) =>
      Object.values(layoutOf(plan, id).racks).map((rack) => Math.abs(rack.legs[rack.legs.length - 1].x));
    rearLegs('curved').forEach((x, i) => {
      expect(x).toBeLessThan(rearLegs('straight')[i]);
    });
  });
});

test('the compact kit: no pose on its riser suits the straight racks, the curved ones stand within the margin', () => {
  const plan = sampleOf('compact-one-up-two-down');
  const readings = (id: string) => comparedSetup(plan, id).readings;
  expect(readings('straight').bestRiserPose?.margin).toBeLessThan(0);
  expect(readings('curved').riserMargin).toBeGreaterThanOrEqual(plan.risers['riser-6x6'].edgeMarginMm);
});

test('on the L-shaped riser a shift leaves more than the kit has now, and a turn more still', () => {
  const plan = sampleOf('l-shaped-riser');
  const { riserMargin, bestRiserPose, bestRiserShift } = comparedSetup(plan, plan.order[0]).readings;
  expect(bestRiserShift!.margin).toBeGreaterThan(riserMargin! + 10);
  expect(bestRiserPose!.margin).toBeGreaterThan(bestRiserShift!.margin + 10);
});

test('sixty pieces', () => expect(sampleOf('sixty-pieces').setups.festival.order.length).toBe(60));

test('the left-handed kit has its hi-hats on the right hand side of the player', () => {
  const { pieces } = sampleOf('left-handed-one-rack').setups['left-handed'];
  // The player faces the page's bottom, so the right hand is on the page's left.
  expect(pieces['hi-hats'].place.xMm).toBeLessThan(pieces.throne.place.xMm);
  expect(pieces['floor-tom-1'].place.xMm).toBeGreaterThan(pieces.throne.place.xMm);
});

test('the L-shaped riser is no rectangle, and something stands on its wing', () => {
  const plan = sampleOf('l-shaped-riser');
  expect(plan.risers['riser-l'].modules.length).toBe(3);
  const layout = layoutOf(plan, 'straight-on-l');
  const onWing = layout.bodies.filter(
    ({ touchesFloor, shape }) =>
      touchesFloor && shape.core.kind === 'segment' && Math.min(shape.core.x0, shape.core.x1) < -1000,
  );
  expect(onWing.length).toBeGreaterThan(0);
});

describe('four bases for one kit: what its notes say, in numbers', () => {
  const plan = sampleOf('four-bases');
  const found = Object.fromEntries(plan.order.map((id) => [id, checkedOf(plan, id)]));
  const area = (id: string) => found[id].readings.floorHullArea!;
  const part = (id: string, gear: string) =>
    partsOf(plan, id)
      .all.filter((row) => row.gear === gear)
      .reduce((sum, row) => sum + row.count, 0);
  const assembly = (id: string, root: string) => found[id].rig.assemblies.find((each) => each.id === root)!;
  const freeBar = (id: string, rack: string) => found[id].rig.room.bars.find((bar) => bar.piece === rack)!.free;
  const between = (a: string, b: string) => differences(plan, a, b);

  test('four setups on one riser', () => {
    expect(plan.order).toEqual(['straight', 'curved', 'offset', 'legless']);
    for (const id of plan.order) expect(plan.setups[id].riser).toBe('riser-8x6');
  });

  test('one playing layout; with offset toms the two rack toms move, and nothing else', () => {
    expect(between('straight', 'curved').samePlayingLayout).toBe(true);
    expect(between('straight', 'legless').samePlayingLayout).toBe(true);
    expect(between('straight', 'offset').playing).toEqual(['tom-1', 'tom-2']);
  });

  test('curved: the same cut lengths, about a fifth less floor, both rear legs further in', () => {
    const bars = (id: string) => ['rack-left', 'rack-right'].map((rack) => layoutOf(plan, id).racks[rack].bars[0]);
    expect(bars('curved').map(({ length }) => length)).toEqual(bars('straight').map(({ length }) => length));
    expect(1 - area('curved') / area('straight')).toBeGreaterThan(0.17);
    expect(1 - area('curved') / area('straight')).toBeLessThan(0.23);
    const throne = plan.setups.straight.pieces.throne.place.xMm;
    for (const rack of ['rack-left', 'rack-right']) {
      const rear = (id: string) => Math.abs(layoutOf(plan, id).racks[rack].legs[1].x - throne);
      expect(rear('curved')).toBeLessThan(rear('straight'));
    }
  });

  test('which would stand on 6 x 6 ft with the margin that the riser asks for', () => {
    const side = 6 * 304.8 - 2 * plan.risers['riser-8x6'].edgeMarginMm;
    const fits = (id: string) => {
      const { width, depth } = found[id].readings.floorRectangle!;
      return Math.max(width, depth) <= side;
    };
    expect(plan.order.filter(fits)).toEqual(['curved', 'legless']);
    for (const id of plan.order) expect(found[id].readings.riserMargin).toBeGreaterThanOrEqual(50);
  });

  test('offset toms: one platform and one clamp fewer, a 42 in tube in place of 54 in, the load on the other rack', () => {
    expect(part('offset', 'tom-holder-double')).toBe(1);
    expect(part('offset', 'clamp-arm')).toBe(part('curved', 'clamp-arm') - 1);
    expect([part('curved', 'tube-curved-54in'), part('offset', 'tube-curved-54in')]).toEqual([1, 0]);
    expect(part('offset', 'tube-curved-42in')).toBe(1);
    // The left rack holds one drum more and keeps its free tube; the right one has lost 12 in and a clamp.
    expect(freeBar('offset', 'rack-left')).toBeCloseTo(freeBar('curved', 'rack-left'), 6);
    expect(freeBar('curved', 'rack-right') - freeBar('offset', 'rack-right')).toBeCloseTo(12 * 25.4 - 50, 6);
    expect(assembly('offset', 'rack-left').mass! - assembly('curved', 'rack-left').mass!).toBeGreaterThan(4);
    expect(assembly('curved', 'rack-right').mass! - assembly('offset', 'rack-right').mass!).toBeGreaterThan(4);
  });

  test('legless: three feet fewer, two links and two clamps more, the least floor, a rack twice as heavy in one piece', () => {
    expect(plan.order.map((id) => found[id].readings.feetOnFloor)).toEqual([15, 15, 15, 12]);
    expect(part('legless', 'link-short') + part('legless', 'link-bent-long')).toBe(2);
    expect(part('legless', 'clamp-arm')).toBe(part('curved', 'clamp-arm') + 2);
    expect(Math.min(...plan.order.map(area))).toBe(area('legless'));
    const ratio = assembly('legless', 'rack-left').mass! / assembly('curved', 'rack-left').mass!;
    expect(ratio).toBeGreaterThan(1.8);
    expect(ratio).toBeLessThan(2.2);
    const freed = found.legless.findings.filter(({ check }) => check === 'legless');
    expect(freed.map(({ pieces }) => pieces[0])).toEqual(['snare-stand', 'hi-hat-stand']);
  });

  test('legless: the bent link lies across the drive shaft in plan, and above it', () => {
    const { bodies } = layoutOf(plan, 'legless');
    const shaft = bodies.find(({ kind }) => kind === 'shaft')!;
    const across = bodies.filter(
      ({ kind, piece, shape }) => kind === 'link' && piece === 'snare-stand' && gapValue(shape, shaft.shape) < 0,
    );
    expect(across.length).toBeGreaterThan(0);
    for (const { z0 } of across) expect(z0 - shaft.z1).toBeGreaterThan(50);
    // Its ends are below the shaft's top: only the bend takes it over.
    const { ties } = plan.setups.legless.pieces['snare-stand'] as Item;
    expect(ties![0].heightMm).toBeLessThan(shaft.z1);
  });

  test('whole masses, kg, to the tenth: legless costs 1.4 kg more than the same racks with stands on legs', () => {
    const total = (id: string) => partsOf(plan, id).knownMass;
    for (const id of plan.order) expect(partsOf(plan, id).unmeasured).toBe(0);
    expect(plan.order.map((id) => Math.round(total(id) * 10) / 10)).toEqual([83.2, 83.8, 83.9, 85.2]);
  });
});
