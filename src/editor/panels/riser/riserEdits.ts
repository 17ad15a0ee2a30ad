/** Risers put together from deck modules, and the kit moved onto them as a whole. */

import type { GearOf } from '../../../gear/schema.ts';
import { rectangle } from '../../../geometry/shapes.ts';
import { support } from '../../../geometry/support.ts';
import { tidyMm } from '../../../plan/numbers.ts';
import type { Riser } from '../../../plan/schema.ts';
import { type DisplayUnit, MM_PER_IN, toRadians } from '../../../units.ts';
import { freeId, identity } from '../gear/newPiece.ts';

export type Module = Riser['modules'][number];

/** A wanted margin that spurs and feet of a kit live with. Common practice, no source. */
const USUAL_MARGIN_MM = 50;

/** A riser of one module, its middle near (x, y), at a number that a field shows whole. Without a deck in the gear: 2 m square, nothing rated. */
export function newRiser(
  deck: GearOf<'deck'> | undefined,
  xMm: number,
  yMm: number,
  risers: readonly Riser[],
  units: DisplayUnit,
): Riser {
  const step = units === 'in' ? MM_PER_IN : 10;
  const whole = (mm: number) => tidyMm(Math.round(mm / step) * step);
  return {
    ...identity('riser', 'Riser', risers),
    heightMm: deck?.heightsMm[0] ?? 200,
    ratedKPa: deck?.ratedKPa ?? null,
    edgeMarginMm: USUAL_MARGIN_MM,
    modules: [
      {
        id: 'module-1',
        xMm: whole(xMm),
        yMm: whole(yMm),
        widthMm: deck?.widthMm ?? 2000,
        depthMm: deck?.depthMm ?? 2000,
        headingDeg: 0,
        ...(deck === undefined ? {} : { gear: deck.id }),
      },
    ],
  };
}

/** One more module, turned as the first is: to stage left of all others, its front edge in line with the last one's. */
export function nextModule(modules: readonly Module[], deck: GearOf<'deck'> | undefined): Module {
  const [first] = modules;
  const last = modules[modules.length - 1];
  const widthMm = deck?.widthMm ?? last.widthMm;
  const depthMm = deck?.depthMm ?? last.depthMm;
  // Along the first module's width and depth.
  const angle = toRadians(first.headingDeg);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const reach = (module: Module, ux: number, uy: number) => {
    const { xMm, yMm, widthMm: w, depthMm: d, headingDeg } = module;
    return support(rectangle(xMm, yMm, w, d, toRadians(headingDeg)), ux, uy);
  };
  const side = Math.max(...modules.map((module) => reach(module, c, s))) + widthMm / 2;
  const up = -reach(last, s, -c) + depthMm / 2;
  return {
    id: freeId(
      'module',
      modules.map(({ id }) => id),
    ),
    xMm: tidyMm(c * side - s * up),
    yMm: tidyMm(s * side + c * up),
    widthMm,
    depthMm,
    headingDeg: first.headingDeg,
    ...(deck === undefined ? {} : { gear: deck.id }),
  };
}

/** A module with another size: it is called after the deck that has this size, if there is one. */
export function sized(module: Module, decks: readonly GearOf<'deck'>[]): Module {
  const { gear, ...bare } = module;
  // A size in round millimetres is the same deck as one in feet.
  const near = (a: number, b: number) => Math.abs(a - b) < 0.5;
  const fits = decks.filter((deck) => near(deck.widthMm, module.widthMm) && near(deck.depthMm, module.depthMm));
  const deck = fits.find(({ id }) => id === gear) ?? fits[0];
  return deck === undefined ? bare : { ...bare, gear: deck.id };
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
