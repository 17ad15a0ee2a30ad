/** What the stage's lists can say by themselves: power, mixes at wedges, what the venue must bring. Pure. */
import { gearOf } from '../../../gear/catalogue.ts';
import type { GearOf } from '../../../gear/schema.ts';
import { inputList } from '../../../lists/inputList.ts';
import type { SingleCommand } from '../../../plan/commands/index.ts';
import type { Cable, Item, Mix, Plan, Setup } from '../../../plan/schema.ts';
import { type DisplayUnit, formatLength, formatNumber } from '../../../units.ts';
import { nextId } from './listEdits.ts';
import type { Corner } from './stageEdits.ts';

export type Use = GearOf<'stageItem'>['use'];

export function stageItems(plan: Plan, setup: Setup, use: Use): Item[] {
  return setup.order.flatMap((id) => {
    const piece = setup.pieces[id];
    if (piece?.kind !== 'item') return [];
    const gear = gearOf(plan.gear, piece.gear);
    return gear?.kind === 'stageItem' && gear.use === use ? [piece] : [];
  });
}

export interface PowerTotal {
  readonly drops: number;
  readonly loadW: number;
  /** Drops of which no load is known. */
  readonly unknown: number;
}

export function powerTotal(drops: readonly Item[]): PowerTotal {
  const loads = drops.map(({ power }) => power?.loadW ?? null);
  return {
    drops: drops.length,
    loadW: loads.reduce<number>((sum, load) => sum + (load ?? 0), 0),
    unknown: loads.filter((load) => load === null).length,
  };
}

const wattText = (watt: number): string =>
  watt < 1000 ? `${formatNumber(watt, 0)} W` : `${formatNumber(watt / 1000, 2)} kW`;

export function powerText({ drops, loadW, unknown }: PowerTotal): string {
  if (drops === 0) return 'No power drop stands in this setup.';
  const on = drops === 1 ? 'one power drop' : `${drops} power drops`;
  const missing = unknown === 0 ? '' : unknown === drops ? '; no load known' : `; the load of ${unknown} is not known`;
  return `Together ${wattText(loadW)} on ${on}${missing}.`;
}

/** Pieces that hear a mix, in the setup's order. */
export const hearing = (setup: Setup, mix: string): Item[] =>
  setup.order.flatMap((id) => {
    const piece = setup.pieces[id];
    return piece?.kind === 'item' && piece.mix === mix ? [piece] : [];
  });

/** People this near a wedge are those it is for. mm. */
const AT_WEDGE_MM = 2000;

/** A mix for each wedge that has none, named after who stands before it; the wedges are given theirs. */
export function mixPerWedge(plan: Plan, setup: Setup): SingleCommand[] {
  const mixes: Mix[] = [...(setup.mixes ?? [])];
  const people = stageItems(plan, setup, 'person');
  const set: SingleCommand[] = [];
  for (const wedge of stageItems(plan, setup, 'wedge')) {
    if (wedge.mix !== undefined && mixes.some(({ id }) => id === wedge.mix)) continue;
    const far = ({ place }: Item) => Math.hypot(place.xMm - wedge.place.xMm, place.yMm - wedge.place.yMm);
    const [nearest] = people.filter((one) => far(one) <= AT_WEDGE_MM).sort((a, b) => far(a) - far(b));
    const mix: Mix = { id: nextId('mix', mixes), name: nearest?.name || wedge.name, by: 'wedge' };
    mixes.push(mix);
    set.push({ type: 'setPiece', setup: setup.id, piece: wedge.id, set: { mix: mix.id } });
  }
  return set.length === 0 ? [] : [{ type: 'setLists', setup: setup.id, set: { mixes } }, ...set];
}

const counted = (count: number, one: string, many: string): string => (count === 1 ? `1 ${one}` : `${count} ${many}`);

/** Lines for the venue that follow from the setup: riser, channels, mixes, power. To be edited. */
export function proposedVenueLines(plan: Plan, setup: Setup, units: DisplayUnit): string[] {
  const lines: string[] = [];
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  if (riser) lines.push(`${riser.name || 'Riser'}, ${formatLength(riser.heightMm, units)} high, legs braced`);
  const channels = inputList(plan, setup);
  if (channels.length > 0) {
    const boxes = channels.filter(({ by }) => by === 'di').length;
    const phantom = channels.filter(({ phantom: powered }) => powered).length;
    lines.push(`${counted(channels.length, 'channel', 'channels')} at the console, ${phantom} with phantom power`);
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

/** Length of a cable run on the floor, mm: slack and heights not counted. */
export function runLength(points: readonly Corner[]): number {
  return points
    .slice(1)
    .reduce((sum, { xMm, yMm }, i) => sum + Math.hypot(xMm - points[i].xMm, yMm - points[i].yMm), 0);
}

/** A run from the first piece to 2 m downstage of it, to begin with. */
export function newCable(setup: Setup): Cable {
  const first = setup.pieces[setup.order[0]]?.place ?? { xMm: 0, yMm: 0 };
  const { xMm, yMm } = first;
  return {
    id: nextId('cable', setup.cables ?? []),
    note: 'Cable run',
    points: [
      { xMm, yMm },
      { xMm, yMm: yMm - 2000 },
    ],
  };
}
