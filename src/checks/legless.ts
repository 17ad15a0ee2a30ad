/**
 * Snare and hi-hat stands without legs, tied to a rack by links: what they free and what they cost against the same stand
 * on legs, at the same place and height.
 *
 * The stand on legs is the same piece's in another setup of the plan, where it has one; else the catalogue's first tripod stand
 * of the same use that reaches the height, one with the same basket before others (STAND-IN below).
 *
 * Freed, exact: the shadow of everything of the kit that comes down to the deck (tips, the legs above them, uprights, T-feet,
 * pedals; z0 = 0), and the hull of everything that touches it, each with the one stand less with the other. Feet: floor
 * contacts but footboards and pedals.
 * Speed:  an answer is kept while everything that comes down to the deck is the same objects, so a drag of what hangs on a rack
 *         pays nothing; where a foot moves, about 0.1 ms a stand. For the shadow only what lies beside the stand is measured.
 */

import type { BodyKind } from '../gear/bodyKinds.ts';
import { CATALOGUE, gearOf, massKgOf } from '../gear/catalogue.ts';
import type { GearOf } from '../gear/schema.ts';
import { STAND_USES } from '../gear/uses.ts';
import { gapValue } from '../geometry/gap.ts';
import { hullArea } from '../geometry/hull.ts';
import { disc, type Swept } from '../geometry/shapes.ts';
import { boxOf, extent } from '../geometry/support.ts';
import { unionArea } from '../geometry/union.ts';
import { keeper } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import { standsOnTip, TIP_BEYOND_MM } from '../layout/floorGear.ts';
import { type Layout, layoutSetup } from '../layout/layout.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { checkOf, code, type OnePiece, type State, saysOf, type Told } from './codes.ts';
import { type MountReading, SLACK_MM } from './mountReach.ts';
import { feetOf, isLow, MM2_PER_M2 } from './readings.ts';

/** What a piece frees and costs against the one that would stand there in its place. Freed: > 0 less than before. */
export interface Trade {
  /** Gear id of the other, and the setup that it stands in; null: the catalogue's, for no setup has one. */
  readonly against: string;
  readonly setup: string | null;
  /** m2: of what comes down to the deck, seen from above; and of the hull about all that touches it. */
  readonly floor: number;
  readonly hull: number;
  /** Fewer feet on the deck. */
  readonly feet: number;
  readonly links: number;
  readonly clamps: number;
  /** kg: the links and clamps; and all of it against the other, links and clamps included. Null: not all of it is weighed. */
  readonly partsMass: number | null;
  readonly moreMass: number | null;
  /** mm: across the circle that the other's legs take, tips included. */
  readonly circle: number;
  /** The pedal or foot that its legs come nearest to, and the gap beside it with legs and without, mm; 0 or less: they touch. Null: none is near. */
  readonly room: Room | null;
}

interface Room {
  readonly piece: string;
  readonly before: number;
  readonly now: number;
}

/** The number is the floor that it frees. */
type Freed = OnePiece & { readonly value: number; readonly limit: null; readonly trade: Trade };

/** Of the link that comes nearest: its gear, what it misses by, whether it is too long for its place, and gear that would do. */
interface Loose {
  readonly link: string;
  readonly missingMm: number;
  readonly tooLong: boolean;
  readonly wouldDo: string | null;
}

/** `Against "Snare stand" it frees the 52 cm circle ... and costs 1 link and 1 clamp, 1.2 kg`, without a full stop. */
function tradeWords({ piece, gear, setup: setupName, length, mass, counted }: Told, trade: Trade): string {
  const { against, setup, feet, links, clamps, partsMass, moreMass, circle, room } = trade;
  const where = setup === null ? '' : `, as it stands in "${setupName(setup)}"`;
  const beside = (mm: number) => (mm > 0 ? length(mm) : 'none');
  const does = [`frees the circle that its legs take, ${length(circle)} across`];
  // What the display's rounding makes alike is no difference to whoever reads it.
  if (room && beside(room.now) !== beside(room.before))
    does.push(`leaves ${beside(room.now)} beside ${piece(room.piece)} instead of ${beside(room.before)}`);
  if (feet !== 0)
    does.push(`has ${counted(Math.abs(feet), 'foot', 'feet')} ${feet > 0 ? 'fewer' : 'more'} on the deck`);
  const weigh = partsMass === null ? 'not all of them weighed' : mass(Math.abs(partsMass));
  const more = moreMass === null ? null : mass(Math.abs(moreMass));
  const all =
    moreMass === null
      ? ''
      : more === mass(0)
        ? '; with the stand that weighs the same'
        : `; with the stand that is ${more} ${moreMass > 0 ? 'heavier' : 'lighter'}`;
  return `Against "${gear(against)}"${where}, it ${does.join(', ')}, and costs ${counted(links, 'link')} and ${counted(clamps, 'clamp')}, ${weigh}${all}`;
}

export const LEGLESS = checkOf('legless', {
  word: 'Legless stands',
  caution: null,
  codes: {
    legless_frees: code<Freed>(
      'm2',
      null,
      (told, { trade }) => `${told.names[0]} stands without legs. ${tradeWords(told, trade)}.`,
    ),
    /** Said instead of what the mounts say of its links (run.ts). */
    legless_loose: code<Freed & Loose>('m2', null, (told, { trade, link, missingMm, tooLong, wouldDo }) => {
      const { names, gear, length } = told;
      return `${names[0]} has no legs, and ${gear(link)} that ties it is ${length(missingMm)} ${tooLong ? 'too long' : 'short'}: ${wouldDo === null ? '' : `take ${gear(wouldDo)}, or `}move the stand or its clamp. ${tradeWords(told, trade)}.`;
    }),
    legless_untied: code<Freed>(
      'm2',
      null,
      (told, { trade }) =>
        `${told.names[0]} has no legs, and nothing ties it: link it to a rack. ${tradeWords(told, trade)} so far.`,
    ),
  },
});
const says = saysOf(LEGLESS);

type Stand = GearOf<'stand'>;

const onLegs = ({ base }: Stand): boolean => base.form === 'tripod' || base.form === 'twoLeg';

const standOf = (plan: Plan, item: Item): Stand | null => {
  const gear = gearOf(plan.gear, item.gear);
  return gear?.kind === 'stand' && STAND_USES[gear.use].legless ? gear : null;
};

interface StandIn {
  readonly item: Item;
  readonly gear: Stand;
  /** What it was made from: the piece in the other setup, or the catalogue's entry. */
  readonly from: Item | Stand;
  readonly setup: string | null;
}

/** STAND-IN: the same stand on legs, put where the legless one is. Null: the catalogue has none of that use. */
function standIn(plan: Plan, setup: Setup, item: Item, legless: Stand): StandIn | null {
  const at = (gear: Stand, from: Item | null, where: string | null): StandIn => {
    const { ties: _, ...rest } = item;
    const made = { ...rest, gear: gear.id, legsTurnDeg: from?.legsTurnDeg, mount: null };
    return { item: made, gear, from: from ?? gear, setup: where };
  };
  for (const id of plan.order) {
    const other = id === setup.id ? undefined : plan.setups[id]?.pieces[item.id];
    const gear = other?.kind === 'item' ? standOf(plan, other) : null;
    if (other?.kind === 'item' && gear && gear.use === legless.use && onLegs(gear)) return at(gear, other, id);
  }
  const height = item.place.heightMm ?? (legless.heightMm[0] + legless.heightMm[1]) / 2;
  let best: { gear: Stand; rank: number } | null = null;
  for (const { id } of CATALOGUE) {
    const gear = gearOf(plan.gear, id);
    if (gear?.kind !== 'stand' || gear.use !== legless.use || gear.base.form !== 'tripod') continue;
    const reaches = gear.heightMm[0] <= height && height <= gear.heightMm[1];
    const sameBasket = gear.basketMm?.[1] === legless.basketMm?.[1];
    const rank = (reaches ? 0 : 2) + (sameBasket ? 0 : 1);
    if (!best || rank < best.rank) best = { gear, rank };
  }
  return best && at(best.gear, null, null);
}

/** The bodies of one piece by itself. */
function bodiesOf(plan: Plan, setup: Setup, item: Item): readonly Body[] {
  const alone: Setup = { ...setup, riser: null, pieces: { [item.id]: item }, order: [item.id] };
  return layoutSetup({ ...plan, setups: { [setup.id]: alone } }, setup.id).bodies;
}

/** What feet and pedals stand on the deck with: what a drummer moves about between. */
const IN_THE_WAY: ReadonlySet<BodyKind> = new Set<BodyKind>(['pedal', 'foot', 'throne', 'stand', 'spur']);
/** Farther than this from a tripod's legs nothing is crowded by them, mm. A shoe's width and a hand. Our own default. */
const NEAR_MM = 250;

/** Of what stands round a legless stand, the one that its legs would crowd most. */
function roomBeside(others: readonly Body[], now: Swept, before: readonly Body[]): Room | null {
  const reach = extent(shapesOf(before));
  let room: Room | null = null;
  for (const { piece, kind, shape } of others) {
    if (!IN_THE_WAY.has(kind) || reach === null) continue;
    const box = boxOf(shape);
    if (box.minX > reach.maxX + NEAR_MM || box.maxX < reach.minX - NEAR_MM) continue;
    if (box.minY > reach.maxY + NEAR_MM || box.maxY < reach.minY - NEAR_MM) continue;
    const gapBefore = before.reduce((least, body) => Math.min(least, gapValue(shape, body.shape)), NEAR_MM);
    if (gapBefore >= Math.min(NEAR_MM, room?.before ?? NEAR_MM)) continue;
    room = { piece, before: gapBefore, now: gapValue(shape, now) };
  }
  return room;
}

const shapesOf = (bodies: readonly Body[]): Swept[] => bodies.map(({ shape }) => shape);

/** mm2 freed: what others cover apart from both stands is the same before and after, so only what reaches their box is measured. */
function shadowFreed(others: readonly Body[], now: readonly Body[], before: readonly Body[]): number {
  const all = extent(shapesOf([...now, ...before]));
  const near = others.filter(({ shape }) => {
    const box = boxOf(shape);
    return all && box.minX <= all.maxX && box.maxX >= all.minX && box.minY <= all.maxY && box.maxY >= all.minY;
  });
  const covered = (stand: readonly Body[]) => unionArea(shapesOf([...near, ...stand])).area;
  return covered(before) - covered(now);
}

/** What of a legless stand is near the deck: its tube, or the foot that it rests on. */
function tubeOf({ place, tip }: Item, gear: Stand): Swept {
  const tube = gear.tubeDiameterMm / 2;
  const foot = standsOnTip(gear, tip) && gear.base.form === 'foot' ? gear.base.radiusMm : 0;
  return disc(place.xMm, place.yMm, Math.max(tube, foot));
}

/** mm2; 0 where nothing touches the floor. */
const hullOf = (bodies: readonly Body[]): number => (bodies.length === 0 ? 0 : hullArea(shapesOf(bodies)));

function sumMass(masses: readonly (number | null)[]): number | null {
  let sum = 0;
  for (const each of masses) {
    if (each === null) return null;
    sum += each;
  }
  return sum;
}

/**
 * `before`: the bodies of the stand on legs; `low`: of the kit, the legless stand's own among them, all that comes down to the deck.
 */
function tradeOf(
  plan: Plan,
  item: Item,
  gear: Stand,
  other: StandIn,
  before: readonly Body[],
  low: readonly Body[],
): Trade {
  const now = low.filter(({ piece }) => piece === item.id);
  const others = low.filter(({ piece }) => piece !== item.id);
  const lowBefore = before.filter(isLow);
  const touching = (stand: readonly Body[]) => [...others, ...stand].filter((body) => body.touchesFloor);
  const ties = item.ties ?? [];
  const massOf = (id: string) => {
    const known = gearOf(plan.gear, id);
    return known ? massKgOf(known) : null;
  };
  const partsMass = sumMass(ties.flatMap(({ link, clamp }) => (clamp === null ? [link] : [link, clamp])).map(massOf));
  const [own, legs] = [massKgOf(gear), massKgOf(other.gear)];
  return {
    against: other.gear.id,
    setup: other.setup,
    floor: shadowFreed(others, now, lowBefore) / MM2_PER_M2,
    hull: (hullOf(touching(lowBefore)) - hullOf(touching(now))) / MM2_PER_M2,
    feet: feetOf(before) - feetOf(now),
    links: ties.length,
    clamps: ties.filter(({ clamp }) => clamp !== null).length,
    partsMass,
    moreMass: partsMass === null || own === null || legs === null ? null : partsMass + own - legs,
    circle: 2 * (other.gear.base.radiusMm + other.gear.base.legDiameterMm / 2 + TIP_BEYOND_MM),
    room: roomBeside(
      others,
      tubeOf(item, gear),
      lowBefore.filter(({ kind }) => kind === 'stand'),
    ),
  };
}

/** By piece, for immer keeps a piece that a command does not touch. */
const keepBefore = keeper<readonly Body[]>();
const keepTrade = keeper<Trade>();

function keptTrade(plan: Plan, setup: Setup, low: readonly Body[], item: Item, gear: Stand): Trade | null {
  const other = standIn(plan, setup, item, gear);
  if (!other) return null;
  const from = [plan.gear, other.from, other.setup];
  const before = keepBefore(item, from, () => bodiesOf(plan, setup, other.item));
  return keepTrade(item, [...from, low], () => tradeOf(plan, item, gear, other, before, low));
}

/** Held by a link that reaches: clear; by one that all but reaches: tight; by none that does: blocked; without any: unmeasured. */
function stateOf(ties: readonly MountReading[]): State {
  if (ties.length === 0) return 'unmeasured';
  if (ties.some(({ reached }) => reached)) return 'clear';
  return ties.some(({ left, tiltShort }) => tiltShort === 0 && left >= -SLACK_MM) ? 'tight' : 'blocked';
}

/** What the findings on a setup's legless stands are made from beside the setup itself: the stands that they are held against. */
export function heldAgainst(plan: Plan, setup: Setup): readonly unknown[] {
  return setup.order.flatMap((id) => {
    const item = setup.pieces[id];
    const gear = item?.kind === 'item' ? standOf(plan, item) : null;
    const other = item?.kind === 'item' && gear && !onLegs(gear) ? standIn(plan, setup, item, gear) : null;
    return other ? [other.from, other.setup] : [];
  });
}

/** One finding for each snare or hi-hat stand without legs. */
export function legless(
  plan: Plan,
  setup: Setup,
  layout: Layout,
  mounts: readonly MountReading[],
): ReturnType<typeof says>[] {
  const findings: ReturnType<typeof says>[] = [];
  let low: readonly Body[] | null = null;
  for (const id of setup.order) {
    const item = setup.pieces[id];
    if (item?.kind !== 'item') continue;
    const gear = standOf(plan, item);
    if (!gear || onLegs(gear)) continue;
    low ??= layout.bodies.filter(isLow);
    const trade = keptTrade(plan, setup, low, item, gear);
    if (!trade) continue;
    const ties = mounts.filter(({ piece, holds }) => piece === id && holds === 'tie');
    const state = stateOf(ties);
    const base = {
      state,
      pieces: [id],
      bodies: [],
      value: trade.floor,
      limit: null,
      source: trade.setup === null ? 'the stand in the catalogue' : 'the same stand in another setup',
      at: [item.place.xMm, item.place.yMm],
      trade,
    } as const;
    if (state === 'clear' || ties.length === 0)
      findings.push(says(state === 'clear' ? 'legless_frees' : 'legless_untied', base));
    else {
      const { arm, left, tooLong, wouldDo } = ties.reduce((best, each) => (each.left > best.left ? each : best));
      findings.push(says('legless_loose', { ...base, link: arm, missingMm: Math.max(0, -left), tooLong, wouldDo }));
    }
  }
  return findings;
}
