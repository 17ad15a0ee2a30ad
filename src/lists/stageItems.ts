/** The things on a stage of one use, in the setup's order: the wedges, the people, the power drops. */
import type { GearOf } from '../gear/schema.ts';
import { itemsOfKind } from '../plan/items.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';

export function stageItems(plan: Plan, setup: Setup, use: GearOf<'stageItem'>['use']): Item[] {
  return itemsOfKind(plan, setup, 'stageItem').flatMap(({ item, gear }) => (gear.use === use ? [item] : []));
}
