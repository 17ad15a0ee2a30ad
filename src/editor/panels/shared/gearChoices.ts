/** Gear as choices of a list box. */
import { kindOf } from '../../../gear/kinds.ts';
import type { Gear } from '../../../gear/schema.ts';
import { type Choice, NONE } from '../fields/rows.ts';

/** Choices of the gear that `fits`; the one in use is always among them, so that the field can show it. */
export function gearChoices(gear: readonly Gear[], fits: (gear: Gear) => boolean, inUse: string | null): Choice[] {
  const choices = gear.filter((one) => fits(one) || one.id === inUse);
  const found: Choice[] = choices.map((one) => ({ id: one.id, label: one.name, group: kindOf(one).shelf(one) }));
  if (inUse !== null && !choices.some(({ id }) => id === inUse))
    found.push({ id: inUse, label: `${inUse} (not known)` });
  return found;
}

/** The same with a first choice of nothing. */
export const orNone = (choices: readonly Choice[], label: string): Choice[] => [{ id: NONE, label }, ...choices];
