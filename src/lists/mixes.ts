/** Who hears what: a setup's monitor mixes, with what plays each. */
import type { Item, Mix, Plan, Setup } from '../plan/schema.ts';
import { stageItems } from './stageItems.ts';

/** Pieces that hear a mix, or play it, in the setup's order. */
export const hearing = (setup: Setup, mix: string): Item[] =>
  setup.order.flatMap((id) => {
    const piece = setup.pieces[id];
    return piece?.kind === 'item' && piece.mix === mix ? [piece] : [];
  });

export interface MixLine {
  /** From 1 on. */
  readonly number: number;
  readonly mix: Mix;
  /** How many wedges play it. */
  readonly wedges: number;
}

export function mixList(plan: Plan, setup: Setup): MixLine[] {
  const wedges = stageItems(plan, setup, 'wedge');
  return (setup.mixes ?? []).map((mix, k) => ({
    number: k + 1,
    mix,
    wedges: wedges.filter((wedge) => wedge.mix === mix.id).length,
  }));
}
