/**
 * In which order the loads of a setup come on to the deck.
 *
 * Rule (common practice, no source): the deck is made ready first (riser, rug, marks). Then what all else is set to: racks,
 * the heaviest first, while all hands are free. Then bass drums, their pedals, drums and stands, stands that hold cymbals
 * alone, and the throne, which stands in the way of everybody who works inside. Cymbals go up last.
 * Among things of one kind whatever stands farthest from the way in comes first, so that nothing that stands already is in the
 * way of what follows. Where nothing rings the throne, the way in is from upstage, behind the throne.
 *
 * Ties keep the order of the setup, so the same plan gives the same numbers.
 */

import type { PartsLoad } from '../checks/parts.ts';
import { wayIn } from '../checks/wayIn.ts';
import { gearOf } from '../gear/catalogue.ts';
import { isPlaceable, placedKind, UNIT_KINDS, type UnitKind } from '../gear/kinds.ts';
import { extent } from '../geometry/support.ts';
import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { own } from '../plan/places.ts';
import type { Plan } from '../plan/schema.ts';

type Point = readonly [number, number];

export function unitKind(plan: Plan, setupId: string, { id, parts }: Pick<PartsLoad, 'id' | 'parts'>): UnitKind {
  const piece = own(plan.setups[setupId].pieces, id);
  if (piece?.kind === 'rack') return 'rack';
  const gear = piece && gearOf(plan.gear, piece.gear);
  if (gear === undefined || !isPlaceable(gear)) return 'drumOrStand';
  return placedKind(gear).loadsIn(gear, (part) => parts.some(({ kind }) => kind === part));
}

/** Where one walks in: the middle of the widest way in, or behind the throne, or behind the kit. Null for an empty setup. */
function entrance({ bodies }: Layout): Point | null {
  const way = wayIn(bodies);
  if (way) {
    const [x0, y0, x1, y1] = way.line;
    return [(x0 + x1) / 2, (y0 + y1) / 2];
  }
  const kit = bodies.filter(isKit);
  const box = extent(kit.map(({ shape }) => shape));
  if (!box) return null;
  const throne = extent(kit.filter(({ kind }) => kind === 'throne').map(({ shape }) => shape));
  return throne ? [(throne.minX + throne.maxX) / 2, box.maxY] : [(box.minX + box.maxX) / 2, box.maxY];
}

/** Loads in the order of loading in. Inputs: a setup's loads (checks/parts.ts) and its layout. */
export function loadInOrder(plan: Plan, setupId: string, layout: Layout, units: readonly PartsLoad[]): PartsLoad[] {
  const from = entrance(layout);
  const distance = ({ pieces }: PartsLoad): number => {
    const box = extent(layout.bodies.filter(({ piece }) => pieces.includes(piece)).map(({ shape }) => shape));
    if (!box || !from) return 0;
    return Math.hypot((box.minX + box.maxX) / 2 - from[0], (box.minY + box.maxY) / 2 - from[1]);
  };
  return units
    .map((unit) => {
      const kind = unitKind(plan, setupId, unit);
      return { unit, rank: UNIT_KINDS.indexOf(kind), first: kind === 'rack' ? unit.knownMass : distance(unit) };
    })
    .sort((a, b) => a.rank - b.rank || b.first - a.first)
    .map(({ unit }) => unit);
}
