/**
 * Does everything that stands on the riser stand on it with the wanted margin, and what hangs out over its edge?
 *
 * Margins are geometry/deck.ts': inside, the distance to the nearest edge; outside, minus the farthest distance beyond.
 */
import { deckMargin, deckOutline, type PreparedDeck, prepareDeck } from '../geometry/deck.ts';
import { turn } from '../geometry/frame.ts';
import { boxOf } from '../geometry/support.ts';
import { keeper, kept } from '../keep.ts';
import { type Body, isKit } from '../layout/body.ts';
import type { DeckLayout, Layout } from '../layout/layout.ts';
import { checkOf, code, saysOf } from './codes.ts';
import { isBelow } from './tolerance.ts';

export const RISER_FIT = checkOf('riserFit', {
  word: 'Riser fit',
  caution: null,
  codes: {
    off_the_riser: code(
      'mm',
      'atLeast',
      ({ names: [first], missing }) =>
        `${first} stands ${missing} over the riser's edge: move it onto the riser, or turn the kit.`,
    ),
    near_the_edge: code(
      'mm',
      'atLeast',
      ({ names: [first], value, limit }) => `${first} stands ${value} from the riser's edge, and ${limit} is wanted.`,
    ),
    on_the_riser: code(
      'mm',
      'atLeast',
      ({ names: [first], value, limit }) =>
        `Everything stands on the riser: ${first} comes nearest to its edge, ${value} away with ${limit} wanted.`,
    ),
  },
});
const says = saysOf(RISER_FIT);

/** By body: layout keeps those that did not move. */
const keepMargin = keeper<number>();

function convexOutline(loops: readonly (readonly number[])[]): readonly number[] | null {
  if (loops.length !== 1) return null;
  const [p] = loops;
  const n = p.length;
  for (let i = 0; i < n; i += 2) {
    const [j, k] = [(i + 2) % n, (i + 4) % n];
    if (turn(p[i], p[i + 1], p[j], p[j + 1], p[k], p[k + 1]) < 0) return null;
  }
  return p;
}

/** The deck's outline when it is one convex loop, x0 y0 x1 y1 ..., else null. */
export const convexDeck = kept((deck: DeckLayout): readonly number[] | null =>
  convexOutline(deckOutline(deck.modules)),
);

/** The deck made ready for geometry's questions. */
export const preparedDeck = kept((deck: DeckLayout): PreparedDeck => prepareDeck(deck.modules));

/** Margin of one body, mm. */
export const bodyMargin = (deck: DeckLayout, body: Body): number =>
  keepMargin(body, [deck], () => deckMargin(preparedDeck(deck), body.shape));

/** Least margin over bodies, mm; Infinity for none. */
export function leastMargin(deck: DeckLayout, bodies: readonly Body[]): number {
  return bodies.reduce((least, body) => Math.min(least, bodyMargin(deck, body)), Number.POSITIVE_INFINITY);
}

const middle = (body: Body): [number, number] => {
  const { minX, maxX, minY, maxY } = boxOf(body.shape);
  return [(minX + maxX) / 2, (minY + maxY) / 2];
};

/** Whether a margin is off the riser: the one rule wherever it is said. */
export const isOff = (margin: number): boolean => isBelow(margin, 0);

interface PieceMargin {
  readonly body: Body;
  readonly margin: number;
}

/** Of each piece the contact nearest to the edge, or farthest off; the worst first. */
function pieceMargins(deck: DeckLayout, contacts: readonly Body[]): PieceMargin[] {
  const worst = new Map<string, PieceMargin>();
  for (const body of contacts) {
    const margin = bodyMargin(deck, body);
    const before = worst.get(body.piece);
    if (!before || margin < before.margin) worst.set(body.piece, { body, margin });
  }
  return [...worst.values()].sort((a, b) => a.margin - b.margin);
}

/** What of the kit stands over the riser's edge, piece by piece, the farthest first; empty without a riser. */
export function standingOff({ deck, bodies }: Layout): PieceMargin[] {
  if (!deck) return [];
  const contacts = bodies.filter((body) => isKit(body) && body.touchesFloor);
  return pieceMargins(deck, contacts).filter(({ margin }) => isOff(margin));
}

/** One finding for each piece with a contact too near or over the edge; when there is none, one with the least margin. */
export function riserFit(deck: DeckLayout | null, contacts: readonly Body[]): ReturnType<typeof says>[] {
  if (!deck || contacts.length === 0) return [];
  const limit = deck.edgeMarginMm;
  const all = pieceMargins(deck, contacts);
  const isNear = (margin: number) => isBelow(margin, limit);
  const short = all.filter(({ margin }) => isOff(margin) || isNear(margin));
  return (short.length > 0 ? short : all.slice(0, 1)).map(({ body, margin }) =>
    says(isOff(margin) ? 'off_the_riser' : isNear(margin) ? 'near_the_edge' : 'on_the_riser', {
      state: isOff(margin) ? 'blocked' : isNear(margin) ? 'tight' : 'clear',
      pieces: [body.piece],
      bodies: [body.id],
      value: margin,
      limit,
      source: 'set in this plan',
      at: middle(body),
    }),
  );
}
