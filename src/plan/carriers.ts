/** What carries a piece: whose it is, and all that one piece hangs on. */
import type { Bar, Carrier, Item, Rack } from './schema.ts';

/** The piece that a carrier belongs to: the rack of a bar or an upright, the holder of a socket, the stand itself. */
export const carrierPiece = (carrier: Carrier): string =>
  carrier.on === 'bar' || carrier.on === 'leg' ? carrier.rack : carrier.piece;

/** Of a piece's mount and its ties. */
export const carriersOf = ({ mount, ties = [] }: Item): Carrier[] => [
  ...(mount ? [mount.carrier] : []),
  ...ties.map(({ carrier }) => carrier),
];

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
