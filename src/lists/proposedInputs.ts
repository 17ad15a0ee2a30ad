/**
 * Which channels the kit and the stage ask for: kick, snare top and bottom, hi-hat, rack toms, floor toms, overheads for the
 * cymbals; then the stage from stage right to stage left. A piece on which microphones were placed gets a channel each.
 *
 * Source: common practice, no source, for the order, the devices and the stands alike. They are generic words, and the
 * sound engineer has the last one.
 */
import { gearOf } from '../gear/catalogue.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { own } from '../plan/places.ts';
import { type Input, type Item, LIMITS, type Plan, type Setup } from '../plan/schema.ts';

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

interface Known {
  readonly item: Item;
  readonly gear: Gear;
}
type StageItem = Known & { readonly gear: GearOf<'stageItem'> };

function knownIn(plan: Plan, setup: Setup): Known[] {
  return setup.order.flatMap((id) => {
    const item = setup.pieces[id];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    return item?.kind === 'item' && gear !== undefined ? [{ item, gear }] : [];
  });
}

const nameOf = ({ item, gear }: Known): string => item.name || gear.name;

/** Named by its user, rather than after its gear and a number. */
const hasOwnName = ({ item, gear }: Known): boolean => item.name !== '' && !item.name.startsWith(gear.name);

/** The stand in a microphone's gear name: "Microphone on a short stand" -> "short stand"; '' when it tells of none. */
const standIn = (gear: Gear): string => / on an? (.+)$/i.exec(gear.name)?.[1] ?? '';

const isTaker = ({ gear }: StageItem): boolean => gear.use === 'microphone' || gear.use === 'di';

/** Which microphones and direct boxes take which piece: as the plan says, else by where they stand; and those left over. */
function takersIn(stage: readonly StageItem[], setup: Setup) {
  const of = new Map<string, StageItem[]>();
  const free: StageItem[] = [];
  const sources = stage.filter(({ gear }) => gear.use === 'amplifier' || gear.use === 'keyboard');
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

const USUAL_OF = {
  bassDrum: { lines: [USUAL.bassDrum], parts: ['inside', 'outside'] },
  snare: { lines: [USUAL.snareTop, USUAL.snareBottom], parts: ['top', 'bottom'] },
  tom: { lines: [USUAL.tom], onStand: USUAL.tomOnStand },
  cymbal: { lines: [USUAL.cymbal] },
  bassAmplifier: { lines: [USUAL.bassAmplifier] },
  amplifier: { lines: [USUAL.amplifier] },
  keyboard: { lines: [USUAL.keyboard] },
  other: { lines: [USUAL.voice] },
} as const satisfies Readonly<Record<string, Usual>>;

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

/** What is on the stage beside the kit, and what usually takes it. */
function usualOnStage({ item, gear }: Known): Usual {
  if (gear.kind !== 'stageItem') return USUAL_OF.other;
  if (gear.use === 'keyboard') return USUAL_OF.keyboard;
  if (gear.use !== 'amplifier') return USUAL_OF.other;
  return /bass/i.test(`${gear.name} ${item.name}`) ? USUAL_OF.bassAmplifier : USUAL_OF.amplifier;
}

/** Every channel that the setup asks for, in order; at most as many as a list may hold. */
export function proposedLines(plan: Plan, setup: Setup): ProposedLine[] {
  const known = knownIn(plan, setup);
  const stage = known.filter((one): one is StageItem => one.gear.kind === 'stageItem');
  const takers = takersIn(stage, setup);
  const take = (pieces: readonly Known[], usual: Usual) =>
    pieces.flatMap((piece) => linesFor(piece, usual, takers.of.get(piece.item.id) ?? []));
  const drums = (use: GearOf<'drum'>['use']) => known.filter(({ gear }) => gear.kind === 'drum' && gear.use === use);
  const hats = known.filter(({ gear }) => gear.kind === 'cymbal' && gear.use === 'hiHat');
  const above = known.filter(({ gear }) => gear.kind === 'cymbal' && gear.use !== 'hiHat');
  const bass = known.filter(({ gear }) => gear.kind === 'bassDrum');

  const atKit = new Set<Gear['kind']>(['bassDrum', 'drum', 'cymbal']);
  const voices = new Set(takers.free.filter((one) => one.gear.use === 'di' || !AT_KIT.test(nameOf(one))));
  const beside = known
    .filter((one) => {
      if (atKit.has(one.gear.kind)) return false;
      if (one.gear.kind === 'stageItem' && isTaker(one as StageItem)) return voices.has(one as StageItem);
      const sounds = one.gear.kind === 'stageItem' && (one.gear.use === 'amplifier' || one.gear.use === 'keyboard');
      return sounds || takers.of.has(one.item.id);
    })
    .sort((a, b) => a.item.place.xMm - b.item.place.xMm);
  const lines = [
    ...take(bass, USUAL_OF.bassDrum),
    ...take(drums('snare'), USUAL_OF.snare),
    ...take(hats, USUAL_OF.cymbal),
    ...take(drums('rackTom'), USUAL_OF.tom),
    ...take(drums('floorTom'), USUAL_OF.tom),
    // One pair for all that rings above the kit, and those that have a microphone of their own.
    ...(above.length === 0 ? [] : ['left', 'right']).map((side) => ({
      source: `Overhead, ${side}`,
      ...USUAL.overhead,
    })),
    ...take(
      above.filter(({ item }) => takers.of.has(item.id)),
      USUAL_OF.cymbal,
    ),
    ...beside.flatMap((one) =>
      voices.has(one as StageItem)
        ? [{ source: nameOf(one), piece: one.item.id, ...takingBy(one as StageItem, USUAL_OF.other, 0) }]
        : take([one], usualOnStage(one)),
    ),
  ];
  return lines.slice(0, LIMITS.inputs);
}
