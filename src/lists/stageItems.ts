/** The things on a stage of one use, in the setup's order: the wedges, the people, the power drops. */
import { gearOf } from '../gear/catalogue.ts';
import type { GearOf } from '../gear/schema.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';

export function stageItems(plan: Plan, setup: Setup, use: GearOf<'stageItem'>['use']): Item[] {
  return setup.order.flatMap((id) => {
    const item = setup.pieces[id];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    return item?.kind === 'item' && gear?.kind === 'stageItem' && gear.use === use ? [item] : [];
  });
}
