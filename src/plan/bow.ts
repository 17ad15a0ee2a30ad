/** Which way a rack's bars bow: away from the throne, so that the bar comes round the drummer. */
import { gearOf } from '../gear/catalogue.ts';
import { isBesideKit } from '../gear/kinds.ts';
import type { GearOf } from '../gear/schema.ts';
import { rackFrame } from './rackFrame.ts';
import type { Bend, Plan, Rack, Setup } from './schema.ts';

type Point = readonly [number, number];

/** What the kit is played from: the throne; without one the middle of what stands there but racks. Null: nothing does. */
function seatOfKit({ gear }: Pick<Plan, 'gear'>, setup: Setup): Point | null {
  const played: Point[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    const known = piece?.kind === 'item' ? gearOf(gear, piece.gear) : undefined;
    if (piece?.kind !== 'item' || known === undefined || isBesideKit(known)) continue;
    if (known.kind === 'throne') return [piece.place.xMm, piece.place.yMm];
    played.push([piece.place.xMm, piece.place.yMm]);
  }
  if (played.length === 0) return null;
  const sum = played.reduce<Point>(([x, y], [px, py]) => [x + px, y + py], [0, 0]);
  return [sum[0] / played.length, sum[1] / played.length];
}

export interface Bow {
  readonly side: Bend['side'];
  /** The direction that the bars bow in, radians; of all spans together. */
  readonly angleRad: number;
}

/**
 * Going along the rack from its first leg, the side that the throne is not on; where spans disagree, as most of their length has it.
 * Left where nobody sits anywhere, or in line with it.
 */
export function bowAway(plan: Pick<Plan, 'gear'>, setup: Setup, rack: Rack): Bow {
  const seat = seatOfKit(plan, setup);
  const { legs } = rackFrame(rack);
  let left = 0;
  for (let k = 1; seat !== null && k < legs.length; k++) {
    const [a, b] = [legs[k - 1], legs[k]];
    // Twice the area of leg, leg and seat: above 0 the seat is to the left.
    left += (b.x - a.x) * (seat[1] - a.y) - (b.y - a.y) * (seat[0] - a.x);
  }
  const side = left > 0 ? 'right' : 'left';
  const [first, last] = [legs[0], legs[legs.length - 1]];
  const along = Math.atan2(last.y - first.y, last.x - first.x);
  return { side, angleRad: along + (side === 'left' ? Math.PI / 2 : -Math.PI / 2) };
}

/** The direction in which a bar bows on one of its sides, radians. 0 for a bar that is gone. */
export function bowAngle(rack: Rack, barId: string, side: Bend['side']): number {
  const { bars, legs } = rackFrame(rack);
  const bar = bars.find(({ id }) => id === barId);
  if (!bar) return 0;
  const [a, b] = [legs[bar.span], legs[bar.span + 1]];
  return Math.atan2(b.y - a.y, b.x - a.x) + (side === 'left' ? Math.PI / 2 : -Math.PI / 2);
}

/** As a tube is sold: straight (null), or bent; which way it bows is the rack's. */
export const bendOfTube = ({ bendRadiusMm, straightEndsMm = 0 }: GearOf<'tube'>, side: Bend['side']): Bend | null =>
  bendRadiusMm === undefined ? null : { radiusMm: bendRadiusMm, straightEndsMm, side };
