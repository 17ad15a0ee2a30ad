/** Risers put together from deck modules, and the kit moved onto them as a whole. */

import type { GearOf } from '../../../gear/schema.ts';
import { tidyMm } from '../../../plan/numbers.ts';
import type { Riser } from '../../../plan/schema.ts';
import { toRadians } from '../../../units.ts';
import { freeId, identity } from '../gear/newPiece.ts';

export type Module = Riser['modules'][number];

/** A wanted margin that spurs and feet of a kit live with. Common practice, no source. */
const USUAL_MARGIN_MM = 50;

/** A riser of one module, its middle at (x, y). Without a deck in the gear: 2 m square, nothing rated. */
export function newRiser(deck: GearOf<'deck'> | undefined, xMm: number, yMm: number, risers: readonly Riser[]): Riser {
  return {
    ...identity('riser', 'Riser', risers),
    heightMm: deck?.heightsMm[0] ?? 200,
    ratedKPa: deck?.ratedKPa ?? null,
    edgeMarginMm: USUAL_MARGIN_MM,
    modules: [
      {
        id: 'module-1',
        xMm: Math.round(xMm),
        yMm: Math.round(yMm),
        widthMm: deck?.widthMm ?? 2000,
        depthMm: deck?.depthMm ?? 2000,
        headingDeg: 0,
        ...(deck === undefined ? {} : { gear: deck.id }),
      },
    ],
  };
}

/** Half of a turned module's width along the page's x. */
const halfAcross = ({ widthMm, depthMm, headingDeg }: Module): number => {
  const angle = toRadians(headingDeg);
  return (Math.abs(widthMm * Math.cos(angle)) + Math.abs(depthMm * Math.sin(angle))) / 2;
};

/** One more module, to stage left of the others and flush with the last. */
export function nextModule(modules: readonly Module[], deck: GearOf<'deck'> | undefined): Module {
  const last = modules[modules.length - 1];
  const widthMm = deck?.widthMm ?? last.widthMm;
  const depthMm = deck?.depthMm ?? last.depthMm;
  const rightmost = Math.max(...modules.map((module) => module.xMm + halfAcross(module)));
  return {
    id: freeId(
      'module',
      modules.map(({ id }) => id),
    ),
    xMm: tidyMm(rightmost + widthMm / 2),
    yMm: last.yMm,
    widthMm,
    depthMm,
    headingDeg: 0,
    ...(deck === undefined ? {} : { gear: deck.id }),
  };
}

/** The least of the modules' ratings, for a riser made of these decks; null when one of them has none. */
export function ratingOf(decks: readonly (GearOf<'deck'> | undefined)[]): number | null {
  let least = Number.POSITIVE_INFINITY;
  for (const deck of decks) {
    if (deck?.ratedKPa == null) return null;
    least = Math.min(least, deck.ratedKPa);
  }
  return Number.isFinite(least) ? least : null;
}
