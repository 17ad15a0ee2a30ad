/**
 * A right-handed setup made left-handed: everything changes sides about a line that runs upstage.
 *
 * Heights, tilts, lengths and what holds what stay. Riser and stage stay: they belong to the venue, and other setups stand on
 * them. The drummer leads with the other hand here, and in other setups with their own.
 */
import type { Draft } from 'immer';
import { gearOf } from '../../gear/catalogue.ts';
import { SECOND_PEDAL } from '../../gear/kinds.ts';
import { carriersOf } from '../carriers.ts';
import { tidyDeg, tidyMm } from '../numbers.ts';
import { own } from '../places.ts';
import type { Item, Piece, Plan, Rack } from '../schema.ts';
import { type OnSetup, type Rule, refuseSetup } from './rule.ts';

export interface MirrorSetup extends OnSetup<'mirrorSetup'> {
  /** x of the line, mm; 0 is the plan's centre line. */
  readonly axisXMm: number;
}

const isSecondDefault = (second: NonNullable<Item['second']>): boolean =>
  Object.keys(second).length === 3 && Object.entries(SECOND_PEDAL).every(([field, value]) => second[field] === value);
const otherSide = (side: 'left' | 'right') => (side === 'left' ? 'right' : 'left');

/** An item's heading counts from facing the audience, which is along the line: it changes its sign. */
function mirrorItem(item: Draft<Item>, isDouble: boolean): void {
  item.place.headingDeg = tidyDeg(-item.place.headingDeg);
  // Left out, it is where layout puts it: its mirror image has to be said, and what comes back to that place is left out again.
  const second = item.second ?? (isDouble ? SECOND_PEDAL : null);
  if (second) {
    const made = { ...second, xMm: tidyMm(-second.xMm), headingDeg: tidyDeg(-second.headingDeg) };
    if (isSecondDefault(made)) delete item.second;
    else item.second = made;
  }
  if (item.mount?.side !== undefined) item.mount.side = otherSide(item.mount.side);
  if (item.legsTurnDeg !== undefined) item.legsTurnDeg = tidyDeg(-item.legsTurnDeg);
}

/** A rack's heading counts from the page's x, which is across the line; what is relative to it changes its sign. */
function mirrorRack(rack: Draft<Rack>): void {
  rack.place.headingDeg = tidyDeg(180 - rack.place.headingDeg);
  for (const leg of rack.legs) if (leg.foot) leg.foot.headingDeg = tidyDeg(-leg.foot.headingDeg);
  for (const span of rack.spans) {
    span.turnDeg = tidyDeg(-span.turnDeg);
    for (const bar of span.bars) if (bar.bend) bar.bend.side = otherSide(bar.bend.side);
  }
}

/** Two sockets are each other's mirror image when their places differ by less, mm. */
const SAME_PLACE_MM = 1e-6;

/** The socket whose place is the mirror image of a platform's socket; the same one where there is none, and on other arms. */
function mirroredSocket(plan: Plan, holder: Piece | undefined, socket: number): number {
  const arm = holder?.kind === 'item' && holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  const from = arm?.kind === 'platform' ? arm.sockets[socket] : undefined;
  if (arm?.kind !== 'platform' || !from) return socket;
  const isImage = (k: number) => {
    const { xMm, yMm, use } = arm.sockets[k];
    return use === from.use && Math.abs(xMm + from.xMm) < SAME_PLACE_MM && Math.abs(yMm - from.yMm) < SAME_PLACE_MM;
  };
  if (isImage(socket)) return socket;
  const found = arm.sockets.findIndex((_, k) => isImage(k));
  return found < 0 ? socket : found;
}

export const mirrorSetup: Rule<MirrorSetup> = {
  refuse: (plan, { setup }) => refuseSetup(plan, setup),
  apply(draft, { setup, axisXMm }) {
    for (const piece of Object.values(draft.setups[setup].pieces)) {
      piece.place.xMm = tidyMm(2 * axisXMm - piece.place.xMm);
      if (piece.kind === 'rack') mirrorRack(piece);
      else {
        const gear = gearOf(draft.gear, piece.gear);
        mirrorItem(piece, gear?.kind === 'pedal' && gear.use === 'double');
        for (const carrier of carriersOf(piece))
          if (carrier.on === 'socket')
            carrier.socket = mirroredSocket(draft, own(draft.setups[setup].pieces, carrier.piece), carrier.socket);
      }
    }
    // Nobody named leads with the hand that the kit is set for.
    const made = draft.setups[setup];
    if (made.otherHand) delete made.otherHand;
    else if (made.drummer !== undefined) made.otherHand = true;
    for (const cable of draft.setups[setup].cables ?? [])
      for (const point of cable.points) point.xMm = tidyMm(2 * axisXMm - point.xMm);
  },
};
