/** What a stage's lists come to, in sentences: its power, and what the venue must bring. */
import { inputList } from '../lists/inputList.ts';
import type { Power } from '../lists/power.ts';
import { stageItems } from '../lists/stageItems.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { type DisplayUnit, formatLength, formatNumber } from '../units.ts';
import { counted } from './names.ts';

const wattText = (watt: number): string =>
  watt < 1000 ? `${formatNumber(watt, 0)} W` : `${formatNumber(watt / 1000, 2)} kW`;

export function powerText({ drops: { length }, loadW, unknown }: Power): string {
  if (length === 0) return 'No power drop stands in this setup.';
  const on = length === 1 ? 'one power drop' : `${length} power drops`;
  const missing = unknown === 0 ? '' : unknown === length ? '; no load known' : `; the load of ${unknown} is not known`;
  return `Together ${wattText(loadW)} on ${on}${missing}.`;
}

/** Lines for the venue that follow from the setup: riser, channels, mixes, power. To be edited. */
export function proposedVenueLines(plan: Plan, setup: Setup, units: DisplayUnit): string[] {
  const lines: string[] = [];
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  if (riser) lines.push(`${riser.name || 'Riser'}, ${formatLength(riser.heightMm, units)} high, legs braced`);
  const channels = inputList(plan, setup);
  if (channels.length > 0) {
    const boxes = channels.filter(({ by }) => by === 'di').length;
    const phantom = channels.filter(({ phantom: powered }) => powered).length;
    lines.push(`${counted(channels.length, 'channel')} at the console, ${phantom} with phantom power`);
    if (boxes > 0) lines.push(counted(boxes, 'DI box', 'DI boxes'));
  }
  const mixes = setup.mixes ?? [];
  const wedges = stageItems(plan, setup, 'wedge').length;
  if (mixes.length > 0)
    lines.push(`${counted(mixes.length, 'monitor mix', 'monitor mixes')}, ${counted(wedges, 'wedge', 'wedges')}`);
  for (const { name, power } of stageItems(plan, setup, 'power')) {
    const load = power === undefined || power.loadW === null ? '' : `, ${wattText(power.loadW)}`;
    lines.push(`${name}${power === undefined ? '' : `: ${formatNumber(power.volts, 0)} V${load}`}`);
  }
  return lines.map((line) => line.slice(0, 120));
}
