/**
 * What could hold a drum or cymbal where it is: for every bar, upright and free socket near by, the smallest arm that reaches,
 * the clamp for it, and the place for that clamp; the stand under it; and, where none of those is clear with room to spare, a bass drum
 * or a boom stand.
 *
 * A bar comes before an upright: a clamp slides along it, and uprights are asked only for a shorter arm than any bar needs.
 * For one carrier: arms from the shortest up; for each, clamps from the narrowest up, and places among the free stretches
 * from the one nearest to the piece outwards. The first that reaches with KEPT_MM to spare and runs into nothing is taken, so that
 * the piece can still be moved a little; if none has that, the first that reaches. Each try is resolved as layout resolves the mount
 * itself (layout/reachMounts.ts), so what is proposed is what the check of mounts then says.
 *
 * Order:  on top of a stand; then arms with room to spare, the smaller arm, the nearer carrier, the setup's order. An arm that would
 *         run into something, its own piece too, is not offered.
 * Speed:  a place from which the arm cannot reach is not resolved.
 * Units:  mm.
 * Inputs: a plan that reads; `item` may be new to the setup.
 */
import { rackRoom } from '../checks/barRoom.ts';
import { gearOf, knownGear } from '../gear/catalogue.ts';
import { clampsFor } from '../gear/fits.ts';
import { type ArmGear, heightMmIn, isPlaceable, isSocketArm, placedKind, type SocketArm } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { holdOf, mostHeld } from '../gear/standHolds.ts';
import { isArmBody } from '../layout/body.ts';
import { holdPoint } from '../layout/holdPoint.ts';
import type { Layout } from '../layout/layout.ts';
import { longestMm, mayReach, type Reach } from '../layout/reach.ts';
import { type MountPose, MountResolver } from '../layout/reachMounts.ts';
import { Surroundings } from '../layout/roomRound.ts';
import { socketUses } from '../layout/sockets.ts';
import { carriedBy } from '../plan/motion.ts';
import type { Carrier, Item, Mount, Plan, Setup } from '../plan/schema.ts';
import { bassDrumWay, rackWays, socketWays, standOffer, type Way } from './mountWays.ts';
import { Obstacles } from './obstacles.ts';

/** An arm at its very end lets go of a piece that is moved by a finger's breadth. Our own default. */
export const KEPT_MM = 15;
/** So many places from which an arm runs into something are tried before a carrier is left. */
const MOST_STRUCK = 12;
/** Thinner arms are for splashes and microphones (common practice, no source). */
const LEAST_ARM_TUBE_MM = 15;
const SMALL_CYMBAL_MM = 320;
/** The catalogue's one boom that is not for cymbals. */
const NOT_FOR_CYMBALS: ReadonlySet<string> = new Set(['arm-microphone']);

export interface MountProposal {
  /** A stand holds without a part of the plan: no clamp and no arm. */
  readonly mount: Mount;
  /** The mount's arm, or what a stand itself is as an arm. */
  readonly arm: ArmGear;
  readonly clamp: GearOf<'clamp'> | null;
  readonly reach: Reach;
  /** The straight way from the arm's post to the piece. */
  readonly wayMm: number;
  /** Length of the arm that stays unused. */
  readonly wasteMm: number;
}

interface Tried extends MountProposal {
  /** The piece that arm or clamp would run into; such a mount is never offered. */
  readonly struck: string | null;
}

export type MountSearch =
  | { readonly ok: true; readonly proposals: readonly MountProposal[] }
  | { readonly ok: false; readonly code: 'not_held_by_arms' | 'holds_others' | 'nothing_carries' | 'no_room' }
  /** Arms reach, but each runs into something: the one that comes first, and into what. */
  | { readonly ok: false; readonly code: 'runs_into'; readonly carrier: Carrier; readonly struck: string }
  /** The least change of place with which some arm would reach, and from where. */
  | { readonly ok: false; readonly code: 'too_far'; readonly carrier: Carrier; readonly shortMm: number };

/** Arms for a piece, the shortest first; of equal ones the lighter. Null: arms do not hold such a thing. */
function armsFor(gear: Gear | undefined, known: readonly Gear[]): SocketArm[] | null {
  const heldBy = gear && isPlaceable(gear) ? placedKind(gear).heldBy : null;
  if (!gear || heldBy === null) return null;
  const fits = (arm: SocketArm): boolean => {
    if (arm.kind !== heldBy) return false;
    if (gear.kind !== 'cymbal') return true;
    return !NOT_FOR_CYMBALS.has(arm.id) && (arm.tubeMm >= LEAST_ARM_TUBE_MM || gear.diameterMm <= SMALL_CYMBAL_MM);
  };
  return known
    .filter((one): one is SocketArm => isSocketArm(one) && fits(one))
    .sort((a, b) => longestMm(a) - longestMm(b) || (a.massKg ?? 0) - (b.massKg ?? 0) || (a.id < b.id ? -1 : 1));
}

/** A place for a clamp, with what is seen of the piece from where the post may stand; null: not known before it is tried. */
interface Spot {
  readonly carrier: Carrier;
  readonly sights: readonly { readonly near: number; readonly far: number; readonly rise: number }[] | null;
}

interface Found {
  readonly proposal: Tried;
  /** 0: on top of a stand. */
  readonly rank: number;
  readonly order: number;
}

const isSpare = ({ reach }: Tried): boolean => reach.leftMm >= KEPT_MM;

/** Tries for one piece, in a setup of our own in which it hangs on one thing after another. */
class Search {
  readonly known: readonly Gear[];
  readonly trial: Setup;
  readonly gear: Gear | undefined;
  nearest: { carrier: Carrier; shortMm: number } | null = null;
  tried = false;
  private readonly round = new Surroundings();
  private readonly finder: MountResolver;
  private blocks: Obstacles | null = null;

  constructor(
    private readonly plan: Plan,
    setup: Setup,
    private readonly layout: Layout,
    private readonly item: Item,
    private readonly below: ReadonlySet<string>,
  ) {
    this.known = knownGear(plan.gear);
    this.gear = gearOf(plan.gear, item.gear);
    // The piece as if held by nothing: the room that its own clamp takes is free for it.
    this.trial = {
      ...setup,
      pieces: { ...setup.pieces, [item.id]: { ...item, mount: null } },
      order: setup.order.includes(item.id) ? setup.order : [...setup.order, item.id],
    };
    // As layout has it: pieces, and the arms that are set before.
    const turn = this.trial.order.indexOf(item.id);
    const later = new Set(this.trial.order.slice(turn));
    this.round.add(
      layout.bodies.filter((body) => !below.has(body.piece) && !(isArmBody(body) && later.has(body.piece))),
    );
    this.finder = new MountResolver(plan, this.trial, layout.racks);
  }

  private spots(way: Way, clamp: GearOf<'clamp'> | null): Spot[] {
    return way.places(clamp?.widthMm ?? 0).map((carrier) => {
      const foot = carrier.on === 'socket' ? null : this.finder.foot(carrier, clamp?.reachMm ?? 0);
      const { item, gear } = this;
      if (!foot || !gear) return { carrier, sights: null };
      const sights = foot.posts.map(([x, y, z]) => {
        const target = holdPoint(item, gear, x, y);
        const direct = Math.hypot(target[0] - x, target[1] - y);
        const swing = foot.swingMm;
        return { near: Math.abs(direct - swing), far: direct + swing, rise: target[2] - z };
      });
      return { carrier, sights };
    });
  }

  private struck(pose: MountPose): string | null {
    this.blocks ??= new Obstacles(this.plan, this.layout.bodies, this.below);
    return this.blocks.struckBy(pose);
  }

  /** Other arms on the same platform must still reach: its head may have to stand elsewhere for this one. */
  private leavesOthers({ piece }: Carrier & { readonly on: 'socket' }, resolver: MountResolver): boolean {
    const others = [piece, ...(socketUses(this.trial).get(piece) ?? []).map(({ id }) => id)];
    return this.layout.mounts
      .filter((pose) => pose.piece !== this.item.id && pose.holds === 'mount' && others.includes(pose.piece))
      .every((pose) => !pose.reach.reached || resolver.pose(pose.piece)?.reach.reached === true);
  }

  private attempt(carrier: Carrier, clamp: GearOf<'clamp'> | null, arm: ArmGear): Tried | null {
    this.tried = true;
    const mount: Mount = { carrier, clamp: clamp?.id ?? null, arm: arm.id };
    this.trial.pieces[this.item.id] = { ...this.item, mount };
    const resolver = new MountResolver(this.plan, this.trial, this.layout.racks, this.round);
    const pose = resolver.pose(this.item.id);
    if (!pose) return null;
    const { reach } = pose;
    if (!reach.reached) {
      if (reach.shortMm > 0 && (this.nearest === null || reach.shortMm < this.nearest.shortMm))
        this.nearest = { carrier, shortMm: reach.shortMm };
      return null;
    }
    if (carrier.on === 'socket' && !this.leavesOthers(carrier, resolver)) return null;
    const wayMm = Math.hypot(pose.horizontalMm, pose.riseMm);
    return { mount, arm, clamp, reach, wayMm, wasteMm: longestMm(arm) - wayMm, struck: this.struck(pose) };
  }

  /** The best of one carrier: arms no longer than `longest`. */
  along(way: Way, arms: readonly SocketArm[], longest: number): Tried | null {
    const spots = new Map<string, Spot[]>();
    let best: Tried | null = null;
    let struck = 0;
    for (const arm of arms) {
      if (longestMm(arm) >= longest) break;
      if (way.takes?.(arm) === false) continue;
      let asked = false;
      for (const clamp of way.needsClamp ? clampsFor(this.known, way.tubeMm, arm) : [null]) {
        const key = clamp?.id ?? '';
        const all = spots.get(key) ?? this.spots(way, clamp);
        spots.set(key, all);
        for (const { carrier, sights } of all) {
          // Each arm's first place is asked whatever comes, so that a miss can say by how much.
          if (asked && sights && !sights.some(({ near, far, rise }) => mayReach(arm, near, far, rise))) continue;
          asked = true;
          const proposal = this.attempt(carrier, clamp, arm);
          if (!proposal) continue;
          if (proposal.struck === null && isSpare(proposal)) return proposal;
          if (best === null || better(proposal, best)) best = proposal;
          if (proposal.struck !== null && ++struck >= MOST_STRUCK) return best;
        }
      }
    }
    return best;
  }
}

const better = (a: Tried, b: Tried): boolean =>
  (a.struck === null) !== (b.struck === null) ? a.struck === null : isSpare(a) && !isSpare(b);

/** Stands that have a place left and could hold the piece. */
function standProposals(plan: Plan, setup: Setup, item: Item, gear: Gear | undefined, below: ReadonlySet<string>) {
  const used = new Map<string, number>();
  for (const piece of Object.values(setup.pieces))
    if (piece.kind === 'item' && piece.id !== item.id && piece.mount?.carrier.on === 'piece')
      used.set(piece.mount.carrier.piece, (used.get(piece.mount.carrier.piece) ?? 0) + 1);
  const isFull = (stand: Item): boolean => {
    const on = gearOf(plan.gear, stand.gear);
    const hold = holdOf(on, gear);
    const most = on?.kind === 'stand' && hold !== null ? mostHeld(on, hold) : null;
    return (used.get(stand.id) ?? 0) >= (most ?? 1);
  };
  const found: { proposal: Tried; isOnTop: boolean }[] = [];
  for (const id of setup.order) {
    const stand = setup.pieces[id];
    if (stand?.kind !== 'item' || isFull(stand) || below.has(id)) continue;
    const offer = standOffer(plan, stand, item, gear);
    if (!offer) continue;
    const { arm, reach, isOnTop } = offer;
    const mount: Mount = { carrier: { on: 'piece', piece: id }, clamp: null, arm: null };
    const wayMm = Math.hypot(item.place.xMm - stand.place.xMm, item.place.yMm - stand.place.yMm);
    const wasteMm = arm.armMm[1] - wayMm;
    found.push({ proposal: { mount, arm, clamp: null, reach, wayMm, wasteMm, struck: null }, isOnTop });
  }
  return found;
}

/** Every carrier that could hold the piece, each with its smallest arm; or why there is none. */
export function searchMounts(plan: Plan, setup: Setup, layout: Layout, item: Item): MountSearch {
  const below = new Set([item.id, ...carriedBy(setup, item.id)]);
  const search = new Search(plan, setup, layout, item, below);
  const { gear, known, trial } = search;
  const arms = armsFor(gear, known);
  if (!arms) return { ok: false, code: 'not_held_by_arms' };
  // With another arm their sockets would be gone.
  if (socketUses(setup).has(item.id)) return { ok: false, code: 'holds_others' };
  const isDrum = gear?.kind === 'drum';
  const room = rackRoom(plan, trial, layout);
  const ways: Way[] = [];
  const drums: Way[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (below.has(id) || !piece) continue;
    if (piece.kind === 'rack')
      ways.push(...rackWays(plan, piece, layout, room, item, heightMmIn(item.place, gear) ?? 0));
    else {
      ways.push(...socketWays(plan, trial, layout, piece, isDrum));
      const drum = bassDrumWay(plan, piece, gear);
      if (drum) drums.push(drum);
    }
  }
  const stands = standProposals(plan, setup, item, gear, below);
  const found: Found[] = stands
    .filter(({ isOnTop }) => isOnTop)
    .map(({ proposal }, order) => ({ proposal, rank: 0, order }));

  /** The shortest arm that is clear and has room to spare so far. */
  let shortest = Number.POSITIVE_INFINITY;
  const ask = (some: readonly Way[], rank: number) => {
    for (const way of some) {
      const proposal = search.along(way, arms, way.kind === 'upright' ? shortest : Number.POSITIVE_INFINITY);
      if (!proposal) continue;
      found.push({ proposal, rank, order: found.length });
      if (proposal.struck === null && isSpare(proposal)) shortest = Math.min(shortest, longestMm(proposal.arm));
    }
  };
  for (const isUpright of [false, true]) {
    const some = ways.filter(({ kind }) => (kind === 'upright') === isUpright);
    ask(some, 1);
  }
  if (!found.some(({ rank, proposal }) => rank === 0 || (proposal.struck === null && isSpare(proposal)))) {
    ask(drums, 2);
    for (const { proposal, isOnTop } of stands) if (!isOnTop) found.push({ proposal, rank: 2, order: found.length });
  }
  if (found.length > 0) {
    found.sort(
      (a, b) =>
        Math.min(a.rank, 1) - Math.min(b.rank, 1) ||
        Number(a.proposal.struck !== null) - Number(b.proposal.struck !== null) ||
        Number(isSpare(b.proposal)) - Number(isSpare(a.proposal)) ||
        a.rank - b.rank ||
        longestMm(a.proposal.arm) - longestMm(b.proposal.arm) ||
        a.proposal.wayMm - b.proposal.wayMm ||
        a.order - b.order,
    );
    const clear = found.flatMap(({ proposal: { struck, ...proposal } }) => (struck === null ? [proposal] : []));
    if (clear.length > 0) return { ok: true, proposals: clear };
    const { mount, struck } = found[0].proposal;
    return { ok: false, code: 'runs_into', carrier: mount.carrier, struck: struck ?? item.id };
  }
  if (ways.length === 0 && drums.length === 0) return { ok: false, code: 'nothing_carries' };
  if (!search.tried) return { ok: false, code: 'no_room' };
  return search.nearest ? { ok: false, code: 'too_far', ...search.nearest } : { ok: false, code: 'nothing_carries' };
}

/** The best of them, or null. */
export function proposeMount(plan: Plan, setup: Setup, layout: Layout, item: Item): MountProposal | null {
  const search = searchMounts(plan, setup, layout, item);
  return search.ok ? search.proposals[0] : null;
}
