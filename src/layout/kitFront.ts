/**
 * Which way a kit faces: what breaks a tie between two places that are as good as each other, so that a kit that is turned or mirrored
 * has the turned or mirrored arms. The throne says it; without one the first bass drum, else the first piece.
 */
import { gearOf } from '../gear/catalogue.ts';
import type { Piece, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';

/** A place, and the heading of what is there: at 0 it faces the audience, as the page lies. */
export interface KitFront {
  readonly xMm: number;
  readonly yMm: number;
  readonly headingDeg: number;
}

const PAGE: KitFront = { xMm: 0, yMm: 0, headingDeg: 0 };

export function kitFront(plan: Plan, { order, pieces }: Setup): KitFront {
  let second: Piece | null = null;
  for (const id of order) {
    const piece = pieces[id];
    if (piece?.kind !== 'item') continue;
    const kind = gearOf(plan.gear, piece.gear)?.kind;
    if (kind === 'throne') return piece.place;
    if (kind === 'bassDrum') second ??= piece;
  }
  return (second ?? pieces[order[0]])?.place ?? PAGE;
}

type At = readonly [number, number, ...unknown[]];

/** The steps by which a comes before b, below 0: nearer to the audience, then nearer to the line on which the drummer looks out. */
export function nearerFront({ xMm, yMm, headingDeg }: KitFront, a: At, b: At): number[] {
  const [c, s] = [Math.cos(toRadians(headingDeg)), Math.sin(toRadians(headingDeg))];
  const back = ([x, y]: At) => c * (y - yMm) - s * (x - xMm);
  const aside = ([x, y]: At) => Math.abs(c * (x - xMm) + s * (y - yMm));
  return [back(a) - back(b), aside(a) - aside(b)];
}
