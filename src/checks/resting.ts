/**
 * What of a floor contact rests on the deck. Without a riser, or on one that is no higher than the floor around it, all of it does. A
 * contact that reaches over the edge rests with what of its core lies on the deck and nothing beyond it: a foot bar as far as the edge, a
 * plate to where the edge cuts it, a tip by as much of a disc about its middle as the deck holds.
 *
 * Units: mm.
 * Exact: contacts wholly on the deck or wholly off it, and cores' crossings of the edge. Of what reaches over, a little less is
 *        counted than rests (a bar's width is left out), so that a thing is never called safer than it is.
 */
import { deckMargin } from '../geometry/deck.ts';
import { disc, type Swept } from '../geometry/shapes.ts';
import { keeper } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import type { DeckLayout } from '../layout/layout.ts';
import { bodyMargin, preparedDeck } from './riserFit.ts';

/** Rounding of corners that were turned and shifted; what is over by less is on. */
const ON_MM = 1e-6;

/** By body: layout keeps those that did not move. */
const keepResting = keeper<readonly Swept[]>();

/** What of a floor contact rests on the deck: the contact itself, or the corners of what does; none where it is off the deck. */
export function restingOn(deck: DeckLayout | null, body: Body): readonly Swept[] {
  return keepResting(body, [deck], () => (isOver(deck, body) ? partsOn(deck as DeckLayout, body.shape) : [body.shape]));
}

/** Whether a contact stands over the edge, or off the deck altogether. */
export const isOver = (deck: DeckLayout | null, body: Body): boolean =>
  deck !== null && deck.heightMm > 0 && bodyMargin(deck, body) < -ON_MM;

function partsOn(deck: DeckLayout, { core, radius }: Swept): Swept[] {
  switch (core.kind) {
    case 'point': {
      const margin = deckMargin(preparedDeck(deck), disc(core.x, core.y, 0));
      return margin >= 0 ? [disc(core.x, core.y, Math.min(radius, margin))] : [];
    }
    case 'segment':
      return cut(deck, [core.x0, core.y0, core.x1, core.y1]);
    case 'polygon':
      return cut(deck, core.points);
    case 'arc': {
      // As the corners along it: no foot is bent, and corners on the deck rest in any case.
      const corners = Array.from({ length: ARC_CORNERS + 1 }, (_, k) => {
        const angle = core.start + (core.sweep * k) / ARC_CORNERS;
        return disc(core.cx + core.r * Math.cos(angle), core.cy + core.r * Math.sin(angle), 0);
      });
      return corners.filter((corner) => deckMargin(preparedDeck(deck), corner) >= 0);
    }
  }
}

const ARC_CORNERS = 16;

/** The corners of a convex core's part on each module: cut along the module's sides one after another (Sutherland and Hodgman 1974). */
function cut({ modules }: DeckLayout, points: readonly number[]): Swept[] {
  const found: Swept[] = [];
  const add = (x: number, y: number) => {
    const isKnown = found.some(({ core }) => core.kind === 'point' && Math.hypot(core.x - x, core.y - y) <= ON_MM);
    if (!isKnown) found.push(disc(x, y, 0));
  };
  for (const corners of modules) {
    let left: readonly number[] = points;
    for (let i = 0, n = corners.length; i < n && left.length > 0; i += 2) {
      const x0 = corners[i];
      const y0 = corners[i + 1];
      const ex = corners[(i + 2) % n] - x0;
      const ey = corners[(i + 3) % n] - y0;
      const inside = (x: number, y: number) => ex * (y - y0) - ey * (x - x0);
      const next: number[] = [];
      for (let k = 0, m = left.length; k < m; k += 2) {
        const [ax, ay, bx, by] = [left[k], left[k + 1], left[(k + 2) % m], left[(k + 3) % m]];
        const a = inside(ax, ay);
        const b = inside(bx, by);
        if (a >= 0) next.push(ax, ay);
        if (a < 0 !== b < 0) next.push(ax + ((bx - ax) * a) / (a - b), ay + ((by - ay) * a) / (a - b));
      }
      left = next;
    }
    for (let k = 0; k < left.length; k += 2) add(left[k], left[k + 1]);
  }
  return found;
}
