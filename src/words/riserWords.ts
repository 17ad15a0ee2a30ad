/** A kit on its riser in words: the same figure and the same rule wherever it is said. */
import { isOff, standingOff } from '../checks/riserFit.ts';
import { type Layout, layoutSetup } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type DisplayUnit, formatLength } from '../units.ts';
import { listed, pieceName } from './names.ts';

/** A margin as it is read: below 0 `4" off the riser`. */
export const marginText = (mm: number, units: DisplayUnit): string =>
  isOff(mm) ? `${formatLength(-mm, units)} off the riser` : formatLength(Math.max(0, mm), units);

/** How many names fit a line before it says how many more there are. */
const MOST_NAMES = 4;

/** `Off the riser: 3 pieces stand up to 4" over its edge (Rack, Bass drum, Hi-hat).` Null where everything stands on it. */
export function offRiserLine(plan: Plan, setupId: string, layout: Layout): string | null {
  const off = standingOff(layout);
  if (off.length === 0) return null;
  const most = formatLength(-off[0].margin, plan.units);
  const names = off.map(({ body }) => pieceName(plan, setupId, body.piece));
  if (names.length === 1) return `Off the riser: ${names[0]} stands ${most} over its edge.`;
  const more = names.length > MOST_NAMES ? [`${names.length - MOST_NAMES} more`] : [];
  const told = listed([...names.slice(0, MOST_NAMES), ...more]);
  return `Off the riser: ${names.length} pieces stand up to ${most} over its edge (${told}).`;
}

/** The same of several setups, each by its name. */
export function offRiserLines(plan: Plan, setupIds: readonly string[]): string[] {
  return setupIds.flatMap((id) => {
    const line = offRiserLine(plan, id, layoutSetup(plan, id));
    return line === null ? [] : [setupIds.length > 1 ? `${plan.setups[id].name}: ${line}` : line];
  });
}
