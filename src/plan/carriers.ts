/** What carries a piece: whose it is, and all that one piece hangs on. */
import { kept } from '../keep.ts';
import { own } from './places.ts';
import type { Bar, Carrier, Item, Rack, Setup } from './schema.ts';

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
