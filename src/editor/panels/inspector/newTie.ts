/** A link to begin with: from a stand to the nearest tube, by the shortest link that is long enough, as level as the stand allows. */
import { clampsFor } from '../../../gear/fits.ts';
import type { Gear, GearOf } from '../../../gear/schema.ts';
import { pointAlong } from '../../../geometry/arcsLine.ts';
import { tubeUnder } from '../../../plan/carriers.ts';
import { rackFrame } from '../../../plan/rackFrame.ts';
import type { Carrier, Item, Plan, Setup, Tie } from '../../../plan/schema.ts';
import type { Choice } from '../fields/rows.ts';
import { carrierFrom } from './carriers.ts';

/** How high up a stand's tube a link is put at most; lower where the tube that carries it is. Common practice, no source. */
const TIE_MOST_MM = 380;

/** Where a carrier is, mm: x, y, height. Null: no tube. */
function placeOf(carrier: Carrier, setup: Setup): readonly [number, number, number] | null {
  if (carrier.on !== 'bar' && carrier.on !== 'leg') return null;
  const rack = setup.pieces[carrier.rack];
  if (rack?.kind !== 'rack') return null;
  const { bars, legs } = rackFrame(rack);
  if (carrier.on === 'leg') {
    const leg = legs.find(({ id }) => id === carrier.leg);
    return leg ? [leg.x, leg.y, carrier.heightMm] : null;
  }
  const bar = bars.find(({ id }) => id === carrier.bar);
  if (!bar) return null;
  const { x, y } = pointAlong(bar.line, carrier.atMm);
  return [x, y, bar.heightMm];
}

/** Inputs: the tubes among which it may choose (carriers.ts). Null without a tube or a link. */
export function newTie(
  plan: Plan,
  setup: Setup,
  item: Item,
  tubes: readonly Choice[],
  gear: readonly Gear[],
): Tie | null {
  const links = gear.filter((one): one is GearOf<'link'> => one.kind === 'link' && one.passHeightMm === 0);
  if (links.length === 0) return null;
  let nearest: { readonly carrier: Carrier; readonly away: number; readonly heightMm: number } | null = null;
  for (const { id } of tubes) {
    const found = carrierFrom(id, plan, setup, item);
    // An upright carries a link at any height: level with the stand.
    const carrier = found?.on === 'leg' ? { ...found, heightMm: Math.min(found.heightMm, TIE_MOST_MM) } : found;
    const place = carrier && placeOf(carrier, setup);
    if (!carrier || !place) continue;
    const heightMm = Math.min(Math.round(place[2]), TIE_MOST_MM);
    const away = Math.hypot(place[0] - item.place.xMm, place[1] - item.place.yMm, place[2] - heightMm);
    if (nearest === null || away < nearest.away) nearest = { carrier, away, heightMm };
  }
  if (nearest === null) return null;
  const { carrier, away, heightMm } = nearest;
  const byLength = links.sort((a, b) => a.lengthMm[1] - b.lengthMm[1]);
  const link = byLength.find(({ lengthMm }) => lengthMm[1] >= away) ?? byLength[byLength.length - 1];
  const tube = tubeUnder(plan, setup, carrier);
  const clamp = tube ? (clampsFor(gear, tube.outsideMm, link)[0]?.id ?? null) : null;
  return { carrier, link: link.id, clamp, heightMm };
}
