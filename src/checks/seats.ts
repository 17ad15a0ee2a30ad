/**
 * Does what sits on a stand sit on it, and is everything set to a height that its gear allows?
 *
 * On a rod or in a basket a piece is where its stand is: the tube under the middle of the piece, for a tilted drum under its axis from
 * the head down to the basket's joint, the rod's end at the cymbal, the basket at the drum's lower end. What hangs on a stand's
 * boom or tom arm is asked in mountReach.ts. Heights that gear gives no range for are not asked.
 *
 * Units: mm.
 */
import { gearOf } from '../gear/catalogue.ts';
import { heightMmIn, isPlaceable, placedKind } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { holdOf, mostHeld } from '../gear/standHolds.ts';
import { restHeight, type Seat, seatedOn, seatOf, standHeight } from '../layout/seats.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import {
  checkOf,
  code,
  type Measured,
  type OnePiece,
  saysOf,
  type Told,
  type TwoPieces,
  type Unmeasured,
} from './codes.ts';
import { isAbove, isBelow } from './tolerance.ts';

/** The piece, then its stand. `part`: what of the stand it should sit on. */
interface OnStand extends TwoPieces {
  readonly part: 'rod' | 'basket';
}

/** `set`: what the stand is set to; `range`: what it can be set to. mm above the deck. */
interface Heights {
  readonly set: number;
  readonly range: readonly [number, number];
}

/** `stand`: its gear; `takes`: diameters that its basket takes, mm. */
interface Basket extends TwoPieces {
  readonly stand: string;
}

/** What a stand is set to, where it does not meet what sits on it: at the end of its range, or short of it. */
const standWay = (length: Told['length'], set: number, end: number, way: 'up' | 'down'): string =>
  way === 'up'
    ? set >= end
      ? `goes up to ${length(end)}: lower the piece, or take a taller stand`
      : `is set to ${length(set)}: raise the stand`
    : set <= end
      ? `goes down to ${length(end)}: raise the piece, or take a lower stand`
      : `is set to ${length(set)}: lower the stand`;

export const SEATS = checkOf('seats', {
  word: 'Stands and heights',
  caution: null,
  codes: {
    beside_its_stand: code<Measured & OnStand>(
      'mm',
      'atMost',
      ({ names: [first, second], value }, { part }) =>
        `${first} is ${value} beside the ${part} of ${second}: put one under the other.`,
    ),
    above_its_stand: code<Measured & OnStand & Heights>(
      'mm',
      'atMost',
      ({ names: [first, second], value, length }, { part, set, range }) =>
        `${first} is ${value} above the ${part} of ${second}, which ${standWay(length, set, range[1], 'up')}.`,
    ),
    below_its_stand: code<Measured & OnStand & Heights>(
      'mm',
      'atMost',
      ({ names: [first, second], value, length }, { part, set, range }) =>
        `${first} is ${value} below the ${part} of ${second}, which ${standWay(length, set, range[0], 'down')}.`,
    ),
    stand_too_full: code<Unmeasured & TwoPieces & { readonly stand: string }>(
      'mm',
      null,
      ({ names: [first, second], gear }, { stand }) =>
        `${gear(stand)} has no place for ${first}: it holds ${second} already. Take another stand for one of them.`,
    ),
    stand_holds_no_such: code<Unmeasured & TwoPieces>(
      'mm',
      null,
      ({ names: [first, second] }) =>
        `${second} does not hold ${first} by itself: take an arm for it, or another stand.`,
    ),
    basket_too_small: code<Measured & Basket>(
      'mm',
      'atMost',
      ({ names: [first], value, limit, gear }, { stand }) =>
        `${first}, ${value} wide, does not fit into the basket of ${gear(stand)}, which opens to ${limit}: take a larger one.`,
    ),
    basket_too_large: code<Measured & Basket>(
      'mm',
      'atLeast',
      ({ names: [first], value, limit, gear }, { stand }) =>
        `${first}, ${value} wide, falls through the basket of ${gear(stand)}, which closes to ${limit}: take a smaller one.`,
    ),
    height_too_high: code<Measured & OnePiece>(
      'mm',
      'atMost',
      ({ names: [first], value, limit }) =>
        `${first} is set to ${value}, and it goes up to ${limit}: lower it, or measure its gear.`,
    ),
    height_too_low: code<Measured & OnePiece>(
      'mm',
      'atLeast',
      ({ names: [first], value, limit }) =>
        `${first} is set to ${value}, and it goes down to ${limit}: raise it, or measure its gear.`,
    ),
  },
});
const says = saysOf(SEATS);

type Found = ReturnType<typeof says>;

/** Nobody sets a piece on a stand more exactly by eye. Our own default. */
export const ON_STAND_MM = 5;
/**
 * How far a piece may be above or below what it sits on: clutch, felts and the rod's end; a drum in its basket. Common practice, no source.
 */
export const SEAT_PLAY_MM = { rod: 60, basket: 15 } as const;
/** A basket's joint is this far below its arms: it tilts there. Common practice, no source. */
const JOINT_MM = 45;

/** How far a stand's tube is from where it has to be under a piece, in plan: the middle, or for a drum the line of its axis. */
function besideMm(item: Item, gear: Gear, { stand }: Seat): number {
  const dx = stand.place.xMm - item.place.xMm;
  const dy = stand.place.yMm - item.place.yMm;
  if (gear.kind !== 'drum') return Math.hypot(dx, dy);
  // The head's normal leans to the piece's back by the tilt (layout/drums.ts); down the axis is the other way.
  const heading = toRadians(item.place.headingDeg);
  const lean = Math.sin(toRadians(item.place.tiltDeg ?? 0));
  const [ux, uy] = [Math.sin(heading) * lean, -Math.cos(heading) * lean];
  const long = (gear.depthMm + JOINT_MM) * lean ** 2;
  const along = long === 0 ? 0 : Math.min(Math.max((dx * ux + dy * uy) / lean ** 2, 0), gear.depthMm + JOINT_MM);
  return Math.hypot(dx - along * ux, dy - along * uy);
}

/** One piece on the rod or in the basket of its stand. */
function seatFindings(item: Item, gear: Gear, seat: Seat & { readonly hold: 'rod' | 'basket' }): Found[] {
  const { stand, gear: on, heightMm, hold: part } = seat;
  const base = {
    state: 'blocked',
    pieces: [item.id, stand.id],
    bodies: [],
    source: "Legroom's own default",
    at: [item.place.xMm, item.place.yMm],
    part,
  } as const;
  const found: Found[] = [];
  const beside = besideMm(item, gear, seat);
  if (isAbove(beside, ON_STAND_MM))
    found.push(says('beside_its_stand', { ...base, value: beside, limit: ON_STAND_MM }));
  const up = restHeight(item, gear) - heightMm;
  const heights = { set: heightMm, range: on.heightMm };
  const room = SEAT_PLAY_MM[part];
  if (isAbove(up, room)) found.push(says('above_its_stand', { ...base, ...heights, value: up, limit: room }));
  if (isAbove(-up, room)) found.push(says('below_its_stand', { ...base, ...heights, value: -up, limit: room }));
  if (gear.kind === 'drum' && on.basketMm) found.push(...basketFit(item, gear, stand, on, on.basketMm));
  return found;
}

function basketFit(
  item: Item,
  { diameterMm }: GearOf<'drum'>,
  stand: Item,
  on: GearOf<'stand'>,
  [low, high]: readonly [number, number],
): Found[] {
  if (!isBelow(diameterMm, low) && !isAbove(diameterMm, high)) return [];
  const small = diameterMm > high;
  return [
    says(small ? 'basket_too_small' : 'basket_too_large', {
      state: 'blocked',
      pieces: [item.id, stand.id],
      bodies: [],
      source: "the stand's own range",
      at: [item.place.xMm, item.place.yMm],
      value: diameterMm,
      limit: small ? high : low,
      stand: on.id,
    }),
  ];
}

const isSeated = (seat: Seat): seat is Seat & { readonly hold: 'rod' | 'basket' } =>
  seat.hold === 'rod' || seat.hold === 'basket';

/** What is more than a stand holds, and what it does not hold at all. */
function unfit(item: Item, seat: Seat, before: readonly Item[], plan: Plan): Found[] {
  const { stand, gear: on, hold } = seat;
  const at = [item.place.xMm, item.place.yMm] as const;
  const bare = { state: 'blocked', bodies: [], value: null, limit: null, source: 'the plan', at } as const;
  if (hold === null) return [says('stand_holds_no_such', { ...bare, pieces: [item.id, stand.id] })];
  const most = mostHeld(on, hold);
  const alike = before.filter((one) => holdOf(on, gearOf(plan.gear, one.gear)) === hold);
  if (most === null || alike.length < most) return [];
  return [says('stand_too_full', { ...bare, pieces: [item.id, alike[alike.length - 1].id], stand: on.id })];
}

/** Each piece that stands by itself against the heights that its gear can be set to. */
function heightFindings(plan: Plan, item: Item, gear: Gear, heightMm: number): Found[] {
  if (item.mount !== null && gear.kind !== 'stand') return [];
  const range = isPlaceable(gear) ? placedKind(gear).heightsMm(gear) : null;
  if (range === null || (!isBelow(heightMm, range[0]) && !isAbove(heightMm, range[1]))) return [];
  const high = heightMm > range[1];
  return [
    says(high ? 'height_too_high' : 'height_too_low', {
      state: 'blocked',
      pieces: [item.id],
      bodies: [],
      source:
        (gear.measured ?? []).length > 0 && Object.hasOwn(plan.gear, gear.id)
          ? 'the gear, as measured'
          : 'the gear’s own range',
      at: [item.place.xMm, item.place.yMm],
      value: heightMm,
      limit: high ? range[1] : range[0],
    }),
  ];
}

export function seats(plan: Plan, setup: Setup): Found[] {
  const found: Found[] = [];
  const seated = seatedOn(setup);
  for (const id of setup.order) {
    const item = setup.pieces[id];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    if (item?.kind !== 'item' || gear === undefined) continue;
    const heightMm =
      gear.kind === 'stand' ? standHeight(plan.gear, item, gear, seated.get(id)) : heightMmIn(item.place, gear);
    if (heightMm !== null) found.push(...heightFindings(plan, item, gear, heightMm));
    const seat = seatOf(plan.gear, setup, item, gear, seated);
    if (seat === null) continue;
    const on = seated.get(seat.stand.id) ?? [];
    found.push(...unfit(item, seat, on.slice(0, on.indexOf(item)), plan));
    if (isSeated(seat)) found.push(...seatFindings(item, gear, seat));
  }
  return found;
}
