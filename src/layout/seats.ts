/**
 * What sits on a stand without an arm of the plan, and how the stand is set to hold it.
 *
 * A stand whose height the plan leaves out is set for what sits on it: its rod ends at the cymbal, its basket under the drum, its tilter where
 * boom or tom arms reach, half-way between the lowest and the highest that do. Out of its gear's range it is set to the end of the range,
 * and checks/seats.ts says how far off that leaves the piece.
 *
 * Units: mm above the deck, degrees in and out as in the plan.
 */

import { gearOf } from '../gear/catalogue.ts';
import { heightMmIn, KINDS, type SocketArm } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { armOfStand, holdOf, mostHeld, type StandHold } from '../gear/standHolds.ts';
import { keeper } from '../keep.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { holdPoint } from './holdPoint.ts';
import { headHeight, headRanges, onPlatform } from './platformHead.ts';
import { type Reach, reachOf } from './reach.ts';
import type { Range } from './reachRegion.ts';

type Own = Plan['gear'];
type Stand = GearOf<'stand'>;

/** For each piece that others sit on without an arm of the plan: which, in the order of the setup. */
export function seatedOn(setup: Setup): ReadonlyMap<string, readonly Item[]> {
  const seated = new Map<string, Item[]>();
  for (const id of setup.order) {
    const item = Object.hasOwn(setup.pieces, id) ? setup.pieces[id] : undefined;
    if (item?.kind !== 'item' || item.mount?.carrier.on !== 'piece' || item.mount.arm !== null) continue;
    const before = seated.get(item.mount.carrier.piece);
    if (before) before.push(item);
    else seated.set(item.mount.carrier.piece, [item]);
  }
  return seated;
}

/** The height of what a piece rests on: a cymbal's edge plane, the middle of a drum's lower end. */
export function restHeight(item: Item, gear: Gear): number {
  const height = heightMmIn(item.place, gear) ?? 0;
  return gear.kind === 'drum' ? height - gear.depthMm * Math.cos(toRadians(item.place.tiltDeg ?? 0)) : height;
}

const within = (value: number, [low, high]: Range): number => Math.min(Math.max(value, low), high);

/** Heights of a stand's top from which its own arm reaches a piece. `isNearest`: for a piece that none reaches, the one that comes nearest. */
function topsFor(
  stand: Item,
  gear: Stand,
  hold: 'boom' | 'tomArm',
  item: Item,
  held: Gear,
  isNearest: boolean,
): Range[] {
  const arm = armOfStand(gear, hold);
  const tube = { postMm: gear.heightMm };
  const [x, y, z] = holdPoint(item, held, stand.place.xMm, stand.place.yMm);
  const away = Math.hypot(x - stand.place.xMm, y - stand.place.yMm);
  const found = headRanges(tube, arm, away, z, null);
  if (found.length > 0 || !isNearest) return found;
  return headRanges(tube, arm, away, z, reachOf(onPlatform(tube, arm), away, z).settings.postMm);
}

const keepHeight = keeper<number>();
const NOBODY: readonly Item[] = [];

/** How high a stand is set: as the plan says, else for what sits on it, else half-way up. The first that it can hold decides. */
export const standHeight = (own: Own, stand: Item, gear: Stand, seated: readonly Item[] = NOBODY): number =>
  stand.place.heightMm ?? keepHeight(stand, [own, seated], () => heightFor(own, stand, gear, seated));

function heightFor(own: Own, stand: Item, gear: Stand, seated: readonly Item[]): number {
  const held = seated.flatMap((item) => {
    const what = gearOf(own, item.gear);
    const hold = holdOf(gear, what);
    return what && hold ? [{ item, what, hold }] : [];
  });
  const [first, ...others] = held;
  if (!first) return KINDS.stand.placed.ownHeightMm(gear);
  const { hold } = first;
  if (hold === 'rod' || hold === 'basket') return within(restHeight(first.item, first.what), gear.heightMm);
  const rest = others
    .filter((other) => other.hold === hold)
    .slice(0, (mostHeld(gear, hold) ?? 1) - 1)
    .map(({ item, what }) => topsFor(stand, gear, hold, item, what, false));
  return headHeight(topsFor(stand, gear, hold, first.item, first.what, true), rest);
}

/** A piece on a stand, as it is held there. */
export interface Seat {
  readonly stand: Item;
  readonly gear: Stand;
  /** Null: such a stand does not hold such a piece. */
  readonly hold: StandHold | null;
  /** What the stand is set to. */
  readonly heightMm: number;
}

/** Held by an arm that is part of the stand. */
export const hasArm = (seat: Seat): seat is Seat & { readonly hold: 'boom' | 'tomArm' } =>
  seat.hold === 'boom' || seat.hold === 'tomArm';

/** The stand that a piece sits on without an arm of the plan; null: it sits on none. */
export function seatOf(
  own: Own,
  setup: Setup,
  item: Item,
  held: Gear,
  seated: ReturnType<typeof seatedOn>,
): Seat | null {
  if (item.mount?.carrier.on !== 'piece' || item.mount.arm !== null) return null;
  const { piece } = item.mount.carrier;
  const stand = Object.hasOwn(setup.pieces, piece) ? setup.pieces[piece] : undefined;
  const gear = stand?.kind === 'item' ? gearOf(own, stand.gear) : undefined;
  if (stand?.kind !== 'item' || gear?.kind !== 'stand') return null;
  const heightMm = standHeight(own, stand, gear, seated.get(piece));
  return { stand, gear, hold: holdOf(gear, held), heightMm };
}

/** How a stand's own arm is set to hold a piece from the height that the stand has; what is left over counts all heights that it may have. */
export function standReach(
  { stand, gear, hold, heightMm }: Seat & { readonly hold: 'boom' | 'tomArm' },
  isAlone: boolean,
  away: number,
  rise: number,
  tiltDeg: number,
): { readonly reach: Reach; readonly arm: SocketArm } {
  const arm = armOfStand(gear, hold);
  const from = (postMm: Range) => reachOf(onPlatform({ postMm }, arm), away, rise, tiltDeg);
  const here = from([heightMm, heightMm]);
  if (!isAlone || stand.place.heightMm !== undefined) return { reach: here, arm };
  const free = from(gear.heightMm);
  return { reach: here.reached ? { ...free, settings: here.settings } : free, arm };
}
