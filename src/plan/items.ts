/** A setup's items with their gear, in its order: what neither the plan nor the catalogue knows is left out, and racks. */
import { gearOf } from '../gear/catalogue.ts';
import type { Gear, GearKind, GearOf } from '../gear/schema.ts';
import type { Point3 } from '../geometry/solids.ts';
import { toRadians } from '../units.ts';
import { own } from './places.ts';
import type { Item, Plan, Setup } from './schema.ts';

export interface KnownItem<G extends Gear = Gear> {
  readonly item: Item;
  readonly gear: G;
}

/** The gear of a piece of a setup; undefined for a rack, and where nobody knows it. */
export function gearOfPiece(plan: Plan, setup: Setup, id: string): Gear | undefined {
  const piece = own(setup.pieces, id);
  return piece?.kind === 'item' ? gearOf(plan.gear, piece.gear) : undefined;
}

export const knownItems = (plan: Plan, setup: Setup): KnownItem[] =>
  setup.order.flatMap((id) => {
    const gear = gearOfPiece(plan, setup, id);
    return gear ? [{ item: setup.pieces[id] as Item, gear }] : [];
  });

/** Those of one kind. */
export const itemsOfKind = <K extends GearKind>(plan: Plan, setup: Setup, kind: K) =>
  knownItems(plan, setup).filter((one): one is KnownItem<GearOf<K>> => one.gear.kind === kind);

/** At right angles to a drum's head or a cymbal's edge plane, upwards; it leans to the piece's back by the tilt. */
export function headNormal({ place: { headingDeg, tiltDeg = 0 } }: Pick<Item, 'place'>): Point3 {
  const tilt = toRadians(tiltDeg);
  const heading = toRadians(headingDeg);
  return [-Math.sin(heading) * Math.sin(tilt), Math.cos(heading) * Math.sin(tilt), Math.cos(tilt)];
}
