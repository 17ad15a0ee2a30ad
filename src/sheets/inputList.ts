/**
 * The input list: which channels the kit and the stage ask for, proposed from what stands there. One close microphone a
 * drum (a snare two), the hi-hats one, overheads for the cymbals; then the stage's own microphones and direct boxes, from
 * stage right to stage left. Common practice, no source: the sound engineer has the last word.
 */
import { gearOf } from '../gear/catalogue.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';

export const INPUT_HEADING = 'Input list, proposed';

export interface Channel {
  readonly number: number;
  readonly source: string;
}

/** Words in a microphone's name that say it stands at the kit, which has its channels already. */
const AT_KIT = /kick|bass drum|overhead|snare|hi-?hat|tom/i;

type Known<K extends Gear['kind']> = { readonly item: Item; readonly gear: GearOf<K> };

function itemsOf<K extends Gear['kind']>(plan: Plan, setup: Setup, kind: K): Known<K>[] {
  return setup.order.flatMap((id) => {
    const item = setup.pieces[id];
    if (item?.kind !== 'item') return [];
    const gear = gearOf(plan.gear, item.gear);
    return gear?.kind === kind ? [{ item, gear: gear as GearOf<K> }] : [];
  });
}

const nameOf = ({ item, gear }: { item: Item; gear: Gear }): string => item.name || gear.name;

export function inputList(plan: Plan, setup: Setup): Channel[] {
  const sources: string[] = [];
  const drums = itemsOf(plan, setup, 'drum');
  const cymbals = itemsOf(plan, setup, 'cymbal');
  for (const bass of itemsOf(plan, setup, 'bassDrum')) sources.push(nameOf(bass));
  for (const drum of drums)
    if (drum.gear.use === 'snare') sources.push(`${nameOf(drum)}, top`, `${nameOf(drum)}, bottom`);
  for (const cymbal of cymbals) if (cymbal.gear.use === 'hiHat') sources.push(nameOf(cymbal));
  for (const use of ['rackTom', 'floorTom'] as const)
    for (const drum of drums) if (drum.gear.use === use) sources.push(nameOf(drum));
  // One pair for all that rings above the kit.
  if (cymbals.some(({ gear }) => gear.use !== 'hiHat')) sources.push('Overhead, left', 'Overhead, right');
  const stage = itemsOf(plan, setup, 'stageItem')
    .filter(({ gear }) => gear.use === 'microphone' || gear.use === 'di')
    .filter((each) => !(each.gear.use === 'microphone' && AT_KIT.test(nameOf(each))))
    .sort((a, b) => a.item.place.xMm - b.item.place.xMm);
  for (const each of stage) sources.push(nameOf(each));
  return sources.map((source, k) => ({ number: k + 1, source }));
}
