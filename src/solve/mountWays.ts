/** What in a setup could carry a piece: bars, uprights, free sockets, bass drums; and stands, which hold by themselves. */

import { freeStretches, type RackRoom } from '../checks/barRoom.ts';
import { ON_STAND_MM, SEAT_PLAY_MM } from '../checks/seats.ts';
import { gearOf } from '../gear/catalogue.ts';
import { socketMisfit } from '../gear/fits.ts';
import { type ArmGear, isArm, type SocketArm, socketsOf } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { armOfStand, holdOf } from '../gear/standHolds.ts';
import { STAND_USES } from '../gear/uses.ts';
import { nearestAlong } from '../geometry/nearestAlong.ts';
import { holdPoint } from '../layout/holdPoint.ts';
import type { Layout } from '../layout/layout.ts';
import { onPlatform } from '../layout/platformHead.ts';
import { tubeDiameter } from '../layout/rackJoints.ts';
import { type Reach, reachOf } from '../layout/reach.ts';
import { restHeight } from '../layout/seats.ts';
import { socketUses } from '../layout/sockets.ts';
import type { Carrier, Item, Plan, Rack, Setup } from '../plan/schema.ts';

/** How far from the nearest place a clamp is looked for, and how finely. */
const WALK_MM = 400;
const STEP_MM = 20;

/** Whole mm in free stretches where a clamp fits, from the one nearest to `near` outwards. */
export function placesFor(stretches: readonly (readonly [number, number])[], widthMm: number, near: number): number[] {
  const places = new Set<number>();
  for (const [from, to] of stretches) {
    const low = Math.ceil(from + widthMm / 2);
    const high = Math.floor(to - widthMm / 2);
    if (low > high) continue;
    const first = Math.min(Math.max(Math.round(near), low), high);
    for (let off = 0; off <= WALK_MM; off += STEP_MM)
      for (const place of [first - off, first + off]) if (place >= low && place <= high) places.add(place);
  }
  return [...places]
    .filter((place) => Math.abs(place - near) <= 2 * WALK_MM)
    .sort((a, b) => Math.abs(a - near) - Math.abs(b - near) || a - b);
}

/** Something that can carry: the tube it is, and the places for a clamp of some width. */
export interface Way {
  readonly kind: 'bar' | 'upright' | 'socket' | 'bassDrum';
  /** Null: no tube, so that the arm needs no clamp. */
  readonly tubeMm: number | null;
  readonly needsClamp: boolean;
  readonly places: (widthMm: number) => Carrier[];
  /** Left out: any arm. */
  readonly takes?: (arm: ArmGear) => boolean;
}

/** Bars and uprights of a rack. */
export function rackWays(plan: Plan, rack: Rack, layout: Layout, room: RackRoom, item: Item, heightMm: number): Way[] {
  const laid = layout.racks[rack.id];
  if (!laid) return [];
  const { xMm, yMm } = item.place;
  const ways: Way[] = [];
  for (const bar of laid.frame.bars) {
    const stretches = room.bars.find((each) => each.piece === rack.id && each.bar === bar.id)?.stretches ?? [];
    const near = nearestAlong(bar.line, xMm, yMm);
    ways.push({
      kind: 'bar',
      tubeMm: tubeDiameter(plan.gear, rack.spans[bar.span].bars[bar.index].tube),
      needsClamp: true,
      places: (widthMm) =>
        placesFor(stretches, widthMm, near).map((atMm) => ({ on: 'bar', rack: rack.id, bar: bar.id, atMm })),
    });
  }
  for (const leg of rack.legs) {
    const clamps =
      room.legs.find((each) => each.piece === rack.id && each.leg === leg.id)?.clamps ??
      laid.joints
        .filter((joint) => joint.leg === leg.id)
        .map((joint) => ({ piece: rack.id, gear: null, joint: true, atMm: joint.heightMm, widthMm: joint.widthMm }));
    const stretches = freeStretches(leg.lengthMm, clamps);
    const near = Math.min(heightMm, leg.lengthMm);
    ways.push({
      kind: 'upright',
      tubeMm: tubeDiameter(plan.gear, leg.tube),
      needsClamp: true,
      places: (widthMm) =>
        placesFor(stretches, widthMm, near).map((at) => ({ on: 'leg', rack: rack.id, leg: leg.id, heightMm: at })),
    });
  }
  return ways;
}

/** Sockets of another piece's arm that nothing is in; those of a platform that are meant for such a piece. */
export function freeSockets(plan: Plan, setup: Setup, layout: Layout, holder: Item, isDrum: boolean): number[] {
  const arm = holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  if (!isArm(arm)) return [];
  const taken = new Set((socketUses(setup).get(holder.id) ?? []).map(({ socket }) => socket));
  if (arm.kind !== 'platform') return [...socketsOf(arm).keys()].filter((socket) => !taken.has(socket));
  const own = layout.mounts.find(({ piece, holds }) => piece === holder.id && holds === 'mount');
  const used = own?.head ? own.head.socket : own?.reach.settings.socket;
  if (typeof used === 'number') taken.add(used);
  return arm.sockets.flatMap(({ use }, k) => (!taken.has(k) && (use === 'tom') === isDrum ? [k] : []));
}

/** Ways in free sockets of one piece's arm. */
export function socketWays(plan: Plan, setup: Setup, layout: Layout, holder: Item, isDrum: boolean): Way[] {
  const under = holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  const sockets = isArm(under) ? socketsOf(under) : [];
  return freeSockets(plan, setup, layout, holder, isDrum).map((socket) => ({
    kind: 'socket',
    tubeMm: null,
    needsClamp: false,
    places: () => [{ on: 'socket', piece: holder.id, socket }],
    takes: (arm) => socketMisfit(sockets[socket], arm) === null,
  }));
}

/** A tom's post may stand in a bass drum's shell. */
export function bassDrumWay(plan: Plan, holder: Item, gear: Gear | undefined): Way | null {
  if (gear?.kind !== 'drum' || gearOf(plan.gear, holder.gear)?.kind !== 'bassDrum') return null;
  return { kind: 'bassDrum', tubeMm: null, needsClamp: false, places: () => [{ on: 'piece', piece: holder.id }] };
}

export interface StandOffer {
  /** The stand's own height and arm, as an arm that stands on the deck. */
  readonly arm: SocketArm;
  readonly reach: Reach;
  /** Straight on the stand's tube, and not by an arm of it. */
  readonly isOnTop: boolean;
}

/**
 * What a stand holds without a part of the plan (gear/standHolds.ts), at any height that it can be set to, or at the one that the plan
 * sets it to. Hi-hats are offered their own stands alone.
 */
export function standOffer(plan: Plan, stand: Item, item: Item, gear: Gear | undefined): StandOffer | null {
  const on = gearOf(plan.gear, stand.gear);
  const hold = holdOf(on, gear);
  if (on?.kind !== 'stand' || !gear || hold === null) return null;
  if (gear.kind === 'cymbal' && STAND_USES[on.use].cymbals !== (gear.use === 'hiHat' ? 'hiHats' : 'others'))
    return null;
  if (gear.kind === 'drum' && hold === 'basket') {
    const [low, high] = on.basketMm ?? [1, 0];
    if (gear.diameterMm < low || gear.diameterMm > high) return null;
  }
  const set = stand.place.heightMm;
  const isOnTop = hold === 'rod' || hold === 'basket';
  if (!isOnTop) {
    const postMm: [number, number] = set === undefined ? on.heightMm : [set, set];
    const arm = onPlatform({ postMm }, armOfStand(on, hold));
    const [x, y, z] = holdPoint(item, gear, stand.place.xMm, stand.place.yMm);
    const away = Math.hypot(x - stand.place.xMm, y - stand.place.yMm);
    const reach = reachOf(arm, away, z, item.place.tiltDeg);
    return reach.reached ? { arm, reach, isOnTop } : null;
  }
  const away = Math.hypot(item.place.xMm - stand.place.xMm, item.place.yMm - stand.place.yMm);
  const postMm: [number, number] =
    set === undefined ? on.heightMm : [set - SEAT_PLAY_MM[hold], set + SEAT_PLAY_MM[hold]];
  const { id, name, tubeDiameterMm } = on;
  const tubeMm = Math.min(tubeDiameterMm, 60);
  const arm: SocketArm = {
    kind: 'boom',
    id,
    name,
    massKg: 0,
    tubeMm,
    postMm,
    armMm: [0, ON_STAND_MM],
    tiltDeg: [0, 0],
  };
  const reach = reachOf(arm, away, restHeight(item, gear));
  return reach.reached ? { arm, reach, isOnTop } : null;
}
