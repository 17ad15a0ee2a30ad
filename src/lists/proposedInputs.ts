/**
 * Which channels the kit and the stage ask for: kick, snare top and bottom, hi-hat, rack toms, floor toms, overheads for the
 * cymbals; then the stage from stage right to stage left. A piece on which microphones were placed gets a channel each.
 *
 * Source: common practice, no source, for the order, the devices and the stands alike. They are generic words, and the
 * sound engineer has the last one.
 */
import { sourceOf } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { SOURCES, type Source, STAGE_USES } from '../gear/uses.ts';
import { type KnownItem, knownItems } from '../plan/items.ts';
import { own } from '../plan/places.ts';
import { type Input, LIMITS, type Plan, type Setup } from '../plan/schema.ts';

export type ProposedLine = Pick<Input, 'source' | 'piece' | 'by' | 'device' | 'stand' | 'phantom'>;
type Taking = Pick<Input, 'by' | 'device' | 'stand' | 'phantom'>;

const mic = (device: string, stand: string, phantom = false): Taking => ({ by: 'microphone', device, stand, phantom });
const di = (device: string, phantom = false): Taking => ({ by: 'di', device, stand: '', phantom });

/** What usually takes what. Common practice, no source. */
const USUAL = {
  bassDrum: mic('large-diaphragm dynamic', 'short boom'),
  snareTop: mic('dynamic, cardioid', 'short boom'),
  snareBottom: mic('small-diaphragm condenser', 'short boom', true),
  cymbal: mic('small-diaphragm condenser', 'boom', true),
  tom: mic('clip-on condenser', 'clip', true),
  tomOnStand: mic('dynamic, cardioid', 'short boom'),
  overhead: mic('small-diaphragm condenser', 'tall boom', true),
  voice: mic('vocal dynamic', 'boom'),
  amplifier: mic('dynamic, cardioid', 'short boom'),
  bassAmplifier: di('DI, active', true),
  keyboard: di('DI, passive'),
  box: di('DI'),
};

/** Words in a microphone's name that say it stands at the kit, which has its channels already. */
const AT_KIT = /kick|bass drum|overhead|snare|hi-?hat|tom/i;

/** A DI, or a microphone too low for a voice, this near an amplifier or a keyboard is taken to be its own. mm. */
const NEAR_MM = 1000;
const VOICE_MM = 1000;

type Known = KnownItem;
type StageItem = KnownItem<GearOf<'stageItem'>>;

const nameOf = ({ item, gear }: Known): string => item.name || gear.name;

/** Named by its user, rather than after its gear and a number. */
const hasOwnName = ({ item, gear }: Known): boolean => item.name !== '' && !item.name.startsWith(gear.name);

/** The stand in a microphone's gear name: "Microphone on a short stand" -> "short stand"; '' when it tells of none. */
const standIn = (gear: Gear): string => / on an? (.+)$/i.exec(gear.name)?.[1] ?? '';

const isTaker = ({ gear }: StageItem): boolean => STAGE_USES[gear.use].asks === 'source';

/** Which microphones and direct boxes take which piece: as the plan says, else by where they stand; and those left over. */
function takersIn(stage: readonly StageItem[], setup: Setup) {
  const of = new Map<string, StageItem[]>();
  const free: StageItem[] = [];
  const sources = stage.filter(({ gear }) => sourceOf(gear) !== null);
  for (const taker of stage.filter(isTaker)) {
    const { item, gear } = taker;
    let taken = item.takes !== undefined && own(setup.pieces, item.takes) ? item.takes : undefined;
    if (taken === undefined && (gear.use === 'di' || gear.heightMm < VOICE_MM) && !AT_KIT.test(nameOf(taker))) {
      const far = ({ item: { place } }: Known) => Math.hypot(place.xMm - item.place.xMm, place.yMm - item.place.yMm);
      const near = sources.filter((one) => far(one) <= NEAR_MM).sort((a, b) => far(a) - far(b));
      taken = near[0]?.item.id;
    }
    if (taken === undefined) free.push(taker);
    else of.set(taken, [...(of.get(taken) ?? []), taker]);
  }
  return { of, free };
}

/** What usually takes a piece, a line each; `parts` where there are two. */
interface Usual {
  readonly lines: readonly Taking[];
  readonly parts?: readonly [string, string];
  /** When a microphone on a stand stands there instead of one that clips on. */
  readonly onStand?: Taking;
}

const USUAL_OF: Readonly<Record<Source, Usual>> = {
  bassDrum: { lines: [USUAL.bassDrum], parts: ['inside', 'outside'] },
  snare: { lines: [USUAL.snareTop, USUAL.snareBottom], parts: ['top', 'bottom'] },
  hiHat: { lines: [USUAL.cymbal] },
  rackTom: { lines: [USUAL.tom], onStand: USUAL.tomOnStand },
  floorTom: { lines: [USUAL.tom], onStand: USUAL.tomOnStand },
  overhead: { lines: [USUAL.cymbal] },
  amplifier: { lines: [USUAL.amplifier] },
  keyboard: { lines: [USUAL.keyboard] },
  other: { lines: [USUAL.voice] },
};

const BASS_AMPLIFIER: Usual = { lines: [USUAL.bassAmplifier] };

/** The device of one placed microphone or DI, given what usually takes the piece. */
function takingBy(taker: StageItem, usual: Usual, k: number): Taking {
  const like = usual.lines[Math.min(k, usual.lines.length - 1)];
  if (taker.gear.use === 'di') return like.by === 'di' ? like : USUAL.box;
  const stand = standIn(taker.gear);
  const device = like.by === 'di' ? USUAL.amplifier : stand !== '' ? (usual.onStand ?? like) : like;
  return stand === '' ? device : { ...device, stand };
}

/** A line for each microphone placed on a piece, or else the usual ones. */
function linesFor(piece: Known, usual: Usual, placed: readonly StageItem[]): ProposedLine[] {
  const count = placed.length || usual.lines.length;
  const sourceOf = (k: number) => {
    const part = count === 1 ? '' : `, ${(count === 2 && usual.parts?.[k]) || k + 1}`;
    return `${nameOf(piece)}${part}`;
  };
  if (placed.length === 0)
    return usual.lines.map((line, k) => ({ source: sourceOf(k), piece: piece.item.id, ...line }));
  return placed.map((taker, k) => ({
    source: hasOwnName(taker) ? taker.item.name : sourceOf(k),
    piece: piece.item.id,
    ...takingBy(taker, usual, k),
  }));
}

/** What usually takes a piece. */
function usualFor({ item, gear }: Known): Usual {
  const source = sourceOf(gear) ?? 'other';
  return source === 'amplifier' && /bass/i.test(`${gear.name} ${item.name}`) ? BASS_AMPLIFIER : USUAL_OF[source];
}

/** Every channel that the setup asks for, in order; at most as many as a list may hold. */
export function proposedLines(plan: Plan, setup: Setup): ProposedLine[] {
  const known = knownItems(plan, setup);
  const stage = known.filter((one): one is StageItem => one.gear.kind === 'stageItem');
  const takers = takersIn(stage, setup);
  const take = (pieces: readonly Known[]) =>
    pieces.flatMap((piece) => linesFor(piece, usualFor(piece), takers.of.get(piece.item.id) ?? []));
  const sounding = (source: Source) => known.filter(({ gear }) => sourceOf(gear) === source);
  const above = sounding('overhead');

  const voices = new Set(takers.free.filter((one) => one.gear.use === 'di' || !AT_KIT.test(nameOf(one))));
  const beside = known
    .filter((one) => {
      if (one.gear.kind === 'stageItem' && isTaker(one as StageItem)) return voices.has(one as StageItem);
      const source = sourceOf(one.gear);
      if (source !== null && SOURCES[source] === 'kit') return false;
      return source !== null || takers.of.has(one.item.id);
    })
    .sort((a, b) => a.item.place.xMm - b.item.place.xMm);
  const lines = [
    ...take(sounding('bassDrum')),
    ...take(sounding('snare')),
    ...take(sounding('hiHat')),
    ...take(sounding('rackTom')),
    ...take(sounding('floorTom')),
    // One pair for all that rings above the kit, and those that have a microphone of their own.
    ...(above.length === 0 ? [] : ['left', 'right']).map((side) => ({
      source: `Overhead, ${side}`,
      ...USUAL.overhead,
    })),
    ...take(above.filter(({ item }) => takers.of.has(item.id))),
    ...beside.flatMap((one) =>
      voices.has(one as StageItem)
        ? [{ source: nameOf(one), piece: one.item.id, ...takingBy(one as StageItem, USUAL_OF.other, 0) }]
        : take([one]),
    ),
  ];
  return lines.slice(0, LIMITS.inputs);
}
