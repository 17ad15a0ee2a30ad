/**
 * Is each arm held by something that it fits: a clamp of the right kind and size on its tube, the arm in the clamp, an arm in a socket that
 * takes it, or an arm let into the open top of a leg?
 *
 * A clamp on a bar or a leg holds the tube it is on; one on a stand, the stand's. Without a clamp an arm stands in the open top of a leg,
 * when it is at its top and thinner than the tube is inside, and nowhere else on a tube. A clamp without an arm holds what is within its own reach.
 * What no entry says (a clamp without socket sizes, a platform's post) is taken to fit.
 *
 * Units: mm.
 */
import { gearOf, knownGear } from '../gear/catalogue.ts';
import { clampsFor, footMm, holdsArms, socketMisfit, takes } from '../gear/fits.ts';
import { type AnySocket, type ArmGear, isArm, isPlaceable, placedKind, socketsOf } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { holdPoint } from '../layout/holdPoint.ts';
import type { Layout } from '../layout/layout.ts';
import { tubePoint } from '../layout/racks.ts';
import { socketUses } from '../layout/sockets.ts';
import { carrierPiece, legOf, tubeUnder } from '../plan/carriers.ts';
import { own } from '../plan/places.ts';
import type { Carrier, Item, Plan, Setup } from '../plan/schema.ts';
import {
  checkOf,
  code,
  type Measured,
  type OnePiece,
  saysOf,
  type Told,
  type TwoPieces,
  type Unmeasured,
} from './codes.ts';
import { SLACK_MM } from './mountReach.ts';
import { isAbove } from './tolerance.ts';

/** `clamp`, `arm`: gear ids. `wouldDo`: a clamp that fits the tube and the arm; null: none known. */
interface Clamped extends OnePiece {
  readonly clamp: string;
  readonly arm: string | null;
  readonly wouldDo: string | null;
}

/** `range`: the diameters that are taken. */
interface Ranged {
  readonly range: readonly [number, number];
}

/** The piece, then the one in the socket of whose arm it stands. `socket`: which, from 0. `freeSocket`: one there that takes the arm; null: none. */
interface Socketed extends TwoPieces {
  readonly arm: string;
  readonly holder: string;
  readonly socket: number;
  readonly freeSocket: number | null;
}

/** `36 to 40 mm`, or one length where both are alike. */
const between = (length: Told['length'], [low, high]: readonly [number, number]): string =>
  low === high ? length(low) : `${length(low)} to ${length(high)}`;

const instead = (id: string | null, gear: Told['gear'], otherwise: string): string =>
  id === null ? otherwise : `take ${gear(id)}`;

export const MOUNT_FIT = checkOf('mountFit', {
  word: 'Clamps and sockets',
  caution: null,
  codes: {
    clamp_misfits_tube: code<Measured & Clamped & Ranged>(
      'mm',
      null,
      ({ names: [first], value, gear, length }, { clamp, range, wouldDo }) =>
        `${gear(clamp)} of ${first} takes tubes of ${between(length, range)}, and it is on one of ${value}: ${instead(wouldDo, gear, 'take another clamp')}.`,
    ),
    clamp_holds_no_arm: code<Unmeasured & Clamped>(
      'mm',
      null,
      ({ names: [first], gear }, { clamp, wouldDo }) =>
        `${gear(clamp)} holds no arm, so nothing holds ${first}: ${instead(wouldDo, gear, 'take a clamp for an arm')}.`,
    ),
    arm_misfits_clamp: code<Measured & Clamped & Ranged>(
      'mm',
      null,
      ({ names: [first], value, gear, length }, { clamp, arm, range, wouldDo }) =>
        `${gear(arm ?? '')} of ${first} is ${value} thick, and ${gear(clamp)} takes ${between(length, range)}: ${instead(wouldDo, gear, 'take another clamp or arm')}.`,
    ),
    arm_misfits_socket: code<Measured & Socketed & Ranged>(
      'mm',
      null,
      ({ names: [first], value, gear, length, socket }, { arm, holder, socket: at, freeSocket, range }) =>
        `${gear(arm)} of ${first} is ${value} thick, and the ${socket(holder, at)} of ${gear(holder)} takes ${between(length, range)}: ${freeSocket === null ? 'take another arm' : `use its ${socket(holder, freeSocket)}`}.`,
    ),
    socket_takes_no_such: code<Unmeasured & Socketed>(
      'mm',
      null,
      ({ names: [first], gear, socket }, { arm, holder, socket: at }) =>
        `${gear(arm)} of ${first} does not go into the ${socket(holder, at)} of ${gear(holder)}: only an arm does.`,
    ),
    socket_for_toms: code<Unmeasured & Socketed>(
      'mm',
      null,
      ({ names: [first], gear, socket }, { holder, socket: at, freeSocket }) =>
        `${first} is in the ${socket(holder, at)} of ${gear(holder)}, which is for a tom: ${freeSocket === null ? 'take a holder with a rear socket, or check that its arm fits' : `use its ${socket(holder, freeSocket)}`}.`,
    ),
    arm_without_clamp: code<Unmeasured & OnePiece & { readonly arm: string }>(
      'mm',
      null,
      ({ names: [first], gear }, { arm }) => `No clamp holds ${gear(arm)} of ${first} on its tube: choose a clamp.`,
    ),
    arm_below_leg_top: code<Measured & OnePiece & { readonly arm: string }>(
      'mm',
      'atMost',
      ({ names: [first], value, gear }, { arm }) =>
        `${gear(arm)} of ${first} has no clamp and is ${value} below the top of its leg: choose a clamp, or let it into the leg's open top.`,
    ),
    arm_misfits_leg: code<Measured & OnePiece & { readonly arm: string }>(
      'mm',
      'atMost',
      ({ names: [first], value, limit, gear }, { arm }) =>
        `${gear(arm)} of ${first} is ${value} thick and does not go into its leg, ${limit} wide inside: choose a clamp.`,
    ),
    leg_top_taken: code<Unmeasured & TwoPieces>(
      'mm',
      null,
      ({ names: [first, second] }) =>
        `${first} and ${second} are both let into the top of one leg: choose a clamp for one of them.`,
    ),
    clamp_without_arm: code<Measured & OnePiece & { readonly clamp: string }>(
      'mm',
      'atMost',
      ({ names: [first], value, limit, gear }, { clamp }) =>
        `${first} is ${value} from its tube, and ${gear(clamp)} alone holds it within ${limit}: choose an arm.`,
    ),
    nothing_between: code<Unmeasured & TwoPieces>(
      'mm',
      null,
      ({ names: [first, second] }) =>
        `${first} is on ${second} without a clamp and an arm, so nothing holds it: choose them.`,
    ),
  },
});
const says = saysOf(MOUNT_FIT);

type Found = ReturnType<typeof says>;

interface Tube {
  readonly outsideMm: number;
  readonly insideMm: number;
}

/** A mount or a tie: `arm` is the platform where there is one. */
interface Held {
  readonly item: Item;
  readonly carrier: Carrier;
  readonly clamp: GearOf<'clamp'> | null;
  readonly arm: ArmGear | null;
  readonly isTie: boolean;
}

/** What a clamp is on: a bar, a leg, or a stand's tube. */
function tubeAt(plan: Plan, setup: Setup, carrier: Carrier): Tube | null {
  const tube = tubeUnder(plan, setup, carrier);
  if (tube) return { outsideMm: tube.outsideMm, insideMm: tube.outsideMm - 2 * tube.wallMm };
  const holder = carrier.on === 'piece' ? own(setup.pieces, carrier.piece) : undefined;
  const stand = holder?.kind === 'item' ? gearOf(plan.gear, holder.gear) : undefined;
  return stand?.kind === 'stand' ? { outsideMm: stand.tubeDiameterMm, insideMm: stand.tubeDiameterMm } : null;
}

const nearEnd = ([low, high]: readonly [number, number], value: number): number => (value < low ? low : high);

/** What all findings on one mount have alike. */
const common = ({ item }: Held) =>
  ({ state: 'blocked', pieces: [item.id], bodies: [], at: [item.place.xMm, item.place.yMm] }) as const;
const BARE = { value: null, limit: null, source: 'the plan' } as const;

/** The clamp on its tube, and the arm in the clamp. */
function clampFindings(plan: Plan, held: Held, clamp: GearOf<'clamp'>, tube: Tube | null): Found[] {
  const { arm } = held;
  const about = () => {
    const better = tube && arm ? clampsFor(knownGear(plan.gear), tube.outsideMm, arm)[0] : undefined;
    return { ...common(held), clamp: clamp.id, arm: arm?.id ?? null, wouldDo: better?.id ?? null };
  };
  if (arm && !holdsArms(clamp)) return [says('clamp_holds_no_arm', { ...about(), ...BARE })];
  const found: Found[] = [];
  const source = "the clamp's own range";
  if (tube && !takes(clamp.tubeMm, tube.outsideMm)) {
    const range = clamp.tubeMm;
    const value = tube.outsideMm;
    found.push(says('clamp_misfits_tube', { ...about(), value, limit: nearEnd(range, value), source, range }));
  }
  if (arm && arm.kind !== 'platform' && clamp.socketMm && !takes(clamp.socketMm, footMm(arm))) {
    const range = clamp.socketMm;
    const value = footMm(arm);
    found.push(says('arm_misfits_clamp', { ...about(), value, limit: nearEnd(range, value), source, range }));
  }
  return found;
}

/** An arm that no clamp holds on a tube: it is in the open top of its leg, or it is held by nothing. */
function openTop(setup: Setup, held: Held, arm: ArmGear, tube: Tube | null): Found[] {
  const { carrier } = held;
  const leg = legOf(setup, carrier);
  const about = { ...common(held), arm: arm.id };
  if (carrier.on !== 'leg' || !leg || held.isTie || arm.kind === 'platform')
    return [says('arm_without_clamp', { ...about, ...BARE })];
  const below = leg.lengthMm - carrier.heightMm;
  if (below > SLACK_MM)
    return [says('arm_below_leg_top', { ...about, value: below, limit: SLACK_MM, source: "Legroom's own default" })];
  if (tube === null || footMm(arm) <= tube.insideMm) return [];
  return [
    says('arm_misfits_leg', { ...about, value: footMm(arm), limit: tube.insideMm, source: "the leg's own tube" }),
  ];
}

/** A piece that a clamp or a carrier should hold without an arm. */
function armless(plan: Plan, setup: Setup, layout: Layout, held: Held): Found[] {
  const { item, carrier, clamp } = held;
  const gear = gearOf(plan.gear, item.gear);
  if (!gear || !isPlaceable(gear) || placedKind(gear).heldBy === null) return [];
  const holderId = carrierPiece(carrier);
  const holder = own(setup.pieces, holderId);
  const under = holder?.kind === 'item' ? gearOf(plan.gear, holder.gear) : undefined;
  if (!holder || (carrier.on === 'piece' && under?.kind === 'stand')) return [];
  const at = clamp && tubePoint(layout.racks, carrier);
  if (clamp === null || at === null)
    return [says('nothing_between', { ...common(held), ...BARE, pieces: [item.id, holderId] })];
  const [x, y, z] = holdPoint(item, gear, at[0], at[1]);
  const away = Math.hypot(x - at[0], y - at[1], z - at[2]);
  const limit = clamp.reachMm + SLACK_MM;
  if (!isAbove(away, limit)) return [];
  return [
    says('clamp_without_arm', {
      ...common(held),
      value: away,
      limit,
      source: "the clamp's own reach",
      clamp: clamp.id,
    }),
  ];
}

/** An arm in a socket of another's: the sockets that are left there count for what would do. */
function socketFindings(plan: Plan, setup: Setup, held: Held, arm: ArmGear): Found[] {
  const { item, carrier } = held;
  if (carrier.on !== 'socket') return [];
  const holder = own(setup.pieces, carrier.piece);
  const under = holder?.kind === 'item' && holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  if (!isArm(under)) return [];
  const sockets: readonly AnySocket[] = socketsOf(under);
  const socket = sockets[carrier.socket];
  const misfit = socket && socketMisfit(socket, arm);
  if (!misfit) return [];
  const taken = socketUses(setup).get(carrier.piece) ?? [];
  const free = sockets.findIndex((one, k) => !taken.some((use) => use.socket === k) && socketMisfit(one, arm) === null);
  const about = {
    ...common(held),
    pieces: [item.id, carrier.piece],
    arm: arm.id,
    holder: under.id,
    socket: carrier.socket,
    freeSocket: free < 0 ? null : free,
  } as const;
  if (misfit === 'arm') return [says('socket_takes_no_such', { ...about, ...BARE })];
  if (misfit === 'kind') return [says('socket_for_toms', { ...about, ...BARE, state: 'tight' })];
  const range = socket.takesMm as [number, number];
  const value = footMm(arm);
  return [
    says('arm_misfits_socket', {
      ...about,
      value,
      limit: nearEnd(range, value),
      source: "the socket's own range",
      range,
    }),
  ];
}

const clampOf = (gear: Gear | undefined): GearOf<'clamp'> | null => (gear?.kind === 'clamp' ? gear : null);
const armOf = (gear: Gear | undefined): ArmGear | null => (isArm(gear) ? gear : null);

/** Everything that is held in a setup: each mount, then each tie. */
function heldIn(plan: Plan, setup: Setup): Held[] {
  const gear = (id: string | null | undefined) => (id ? gearOf(plan.gear, id) : undefined);
  return setup.order.flatMap((id): Held[] => {
    const item = own(setup.pieces, id);
    if (item?.kind !== 'item') return [];
    const { mount, ties = [] } = item;
    const mounts = mount
      ? [{ item, carrier: mount.carrier, clamp: clampOf(gear(mount.clamp)), arm: armOf(gear(mount.arm)), isTie: false }]
      : [];
    const tied = ties.map(({ carrier, clamp, link }) => ({
      item,
      carrier,
      clamp: clampOf(gear(clamp)),
      arm: armOf(gear(link)),
      isTie: true,
    }));
    return [...mounts, ...tied];
  });
}

export function mountFit(plan: Plan, setup: Setup, layout: Layout): Found[] {
  const tops = new Map<string, string>();
  const found: Found[] = [];
  for (const held of heldIn(plan, setup)) {
    const { item, carrier, clamp, arm, isTie } = held;
    const tube = tubeAt(plan, setup, carrier);
    const isOnTube = carrier.on === 'bar' || carrier.on === 'leg';
    if (clamp) found.push(...clampFindings(plan, held, clamp, tube));
    if (arm === null) found.push(...armless(plan, setup, layout, held));
    else if (clamp === null && isOnTube) found.push(...openTop(setup, held, arm, tube));
    if (arm) found.push(...socketFindings(plan, setup, held, arm));
    if (isTie || !arm || clamp !== null || carrier.on !== 'leg') continue;
    const key = `${carrier.rack} ${carrier.leg}`;
    const other = tops.get(key);
    if (other === undefined) tops.set(key, item.id);
    else found.push(says('leg_top_taken', { ...common(held), ...BARE, pieces: [other, item.id] }));
  }
  return found;
}
