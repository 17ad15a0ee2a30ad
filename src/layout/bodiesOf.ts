/** A layout's bodies by piece, gathered once for each layout. */
import { kept } from '../keep.ts';
import type { Body } from './body.ts';

const byPiece = kept((bodies: readonly Body[]): ReadonlyMap<string, readonly Body[]> => {
  const index = new Map<string, Body[]>();
  for (const body of bodies) {
    const own = index.get(body.piece);
    if (own) own.push(body);
    else index.set(body.piece, [body]);
  }
  return index;
});

const NONE: readonly Body[] = [];

/** The bodies of one piece, its arms and links included, in the layout's order. Inputs: a layout's own list, not a copy. */
export const bodiesOf = (bodies: readonly Body[], piece: string): readonly Body[] => byPiece(bodies).get(piece) ?? NONE;
