/** What carries a piece: whose it is, and all that one piece hangs on. */

import { gearOf } from '../gear/catalogue.ts';
import type { GearOf } from '../gear/schema.ts';
import { kept } from '../keep.ts';
import { own } from './places.ts';
import type { Bar, Carrier, Item, Leg, Plan, Rack, Setup } from './schema.ts';

/** The piece that a carrier belongs to: the rack of a bar or an upright, the holder of a socket, the stand itself. */
export const carrierPiece = (carrier: Carrier): string =>
  carrier.on === 'bar' || carrier.on === 'leg' ? carrier.rack : carrier.piece;

/** Of a piece's mount and its ties. */
export const carriersOf = ({ mount, ties = [] }: Item): Carrier[] => [
  ...(mount ? [mount.carrier] : []),
  ...ties.map(({ carrier }) => carrier),
];

/**
 * Everything that says what hangs on what in a setup: each item's mount and ties, in the setup's order. What is made from these alone
 * stays as it is while pieces are only moved.
 */
export const holdings = kept(({ order, pieces }: Setup): readonly unknown[] => {
  const all: unknown[] = [];
  for (const id of order) {
    const piece = own(pieces, id);
    if (piece?.kind === 'item') all.push(piece.mount, piece.ties);
    else all.push(piece?.kind);
  }
  return all;
});

/** A rack's bar with its place in the chain, both from 0. */
export interface PlacedBar {
  readonly bar: Bar;
  readonly span: number;
  readonly index: number;
}

/** Every bar of a rack, span by span. */
export const barsOf = ({ spans }: Rack): PlacedBar[] =>
  spans.flatMap(({ bars }, span) => bars.map((bar, index) => ({ bar, span, index })));

/** A rack's bar by id, in whichever span it is. */
export const barOf = (rack: Rack, id: string): Bar | undefined => barsOf(rack).find(({ bar }) => bar.id === id)?.bar;

/** The leg that a carrier is on; undefined for any other, and where it is gone. */
export function legOf(setup: Pick<Setup, 'pieces'>, carrier: Carrier): Leg | undefined {
  const rack = carrier.on === 'leg' ? own(setup.pieces, carrier.rack) : undefined;
  return carrier.on === 'leg' && rack?.kind === 'rack' ? rack.legs.find(({ id }) => id === carrier.leg) : undefined;
}

/** The tube of the bar or leg that a carrier is on; null for any other, and where it is not known. */
export function tubeUnder(
  { gear }: Pick<Plan, 'gear'>,
  setup: Pick<Setup, 'pieces'>,
  carrier: Carrier,
): GearOf<'tube'> | null {
  if (carrier.on !== 'bar' && carrier.on !== 'leg') return null;
  const rack = own(setup.pieces, carrier.rack);
  if (rack?.kind !== 'rack') return null;
  const part = carrier.on === 'bar' ? barOf(rack, carrier.bar) : legOf(setup, carrier);
  const tube = part && gearOf(gear, part.tube);
  return tube?.kind === 'tube' ? tube : null;
}
