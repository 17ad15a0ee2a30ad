/**
 * What could hold a drum or cymbal where it is: for every bar, upright and free socket near by, the smallest arm that reaches,
 * the clamp for it, and the place for that clamp.
 *
 * A bar comes before an upright: a clamp slides along it, and uprights are asked only for a shorter arm than any bar needs.
 * For one carrier: arms from the shortest up; for each, clamps from the narrowest up, and places among the free stretches
 * from the one nearest to the piece outwards. The first that reaches with KEPT_MM to spare is taken, so that the piece can still
 * be moved a little; if none has that, the first that reaches. Each try is resolved as layout resolves the mount itself
 * (layout/reachMounts.ts), so what is proposed is what the check of mounts then says.
 *
 * Order:  arms with room to spare first, then the smaller arm, then the nearer carrier, then the setup's order.
 * Speed:  a place from which even the whole arm is too short is not resolved.
 * Units:  mm.
 * Inputs: a plan that reads; `item` may be new to the setup.
 */
import { freeStretches, type RackRoom, rackRoom } from '../checks/barRoom.ts';
import { CATALOGUE, gearOf } from '../gear/catalogue.ts';
import type { ArmGear, Gear, GearOf } from '../gear/schema.ts';
import { pointAlong } from '../geometry/arcsLine.ts';
import { nearestAlong } from '../geometry/nearestAlong.ts';
import type { Layout } from '../layout/layout.ts';
import { rackJoints, tubeDiameter } from '../layout/rackJoints.ts';
import { longestMm, type Reach } from '../layout/reach.ts';
import { MountResolver, type Point3 } from '../layout/reachMounts.ts';
import { carriedBy } from '../plan/motion.ts';
import type { Carrier, Item, Mount, Plan, Rack, Setup } from '../plan/schema.ts';

/** An arm at its very end lets go of a piece that is moved by a finger's breadth. Our own default. */
export const KEPT_MM = 15;
/** How far from the nearest place a clamp is looked for, and how finely. */
const WALK_MM = 400;
const STEP_MM = 20;
/** Thinner arms are for splashes and microphones (common practice, no source). */
const LEAST_ARM_TUBE_MM = 15;
const SMALL_CYMBAL_MM = 320;
/** Platforms do not say how thick their post is: that of long L-arms (common practice, no source). */
const PLATFORM_POST_MM = 22.2;
/** The catalogue's one boom that is not for cymbals. */
const NOT_FOR_CYMBALS: ReadonlySet<string> = new Set(['arm-microphone']);

export interface MountProposal {
  readonly mount: Mount;
  readonly arm: ArmGear;
  readonly clamp: GearOf<'clamp'> | null;
  readonly reach: Reach;
  /** The straight way from the arm's post to the piece. */
  readonly wayMm: number;
  /** Length of the arm that stays unused. */
  readonly wasteMm: number;
}

export type MountSearch =
  | { readonly ok: true; readonly proposals: readonly MountProposal[] }
  | { readonly ok: false; readonly code: 'not_held_by_arms' | 'nothing_carries' | 'no_room' }
  /** The least change of place with which some arm would reach, and from where. */
  | { readonly ok: false; readonly code: 'too_far'; readonly carrier: Carrier; readonly shortMm: number };

/** The catalogue's gear and the plan's own; an entry of the plan's own takes the place of the catalogue's. */
export function knownGear(plan: Plan): Gear[] {
  return [...CATALOGUE.filter(({ id }) => !Object.hasOwn(plan.gear, id)), ...Object.values(plan.gear)];
}

/** Arms for a piece, the shortest first; of equal ones the lighter. Null: arms do not hold such a thing. */
function armsFor(gear: Gear | undefined, known: readonly Gear[]): ArmGear[] | null {
  let fits: (arm: ArmGear) => boolean;
  if (gear?.kind === 'drum') fits = (arm) => arm.kind === 'lArm';
  else if (gear?.kind === 'cymbal')
    fits = (arm) =>
      arm.kind === 'boom' &&
      !NOT_FOR_CYMBALS.has(arm.id) &&
      (arm.tubeMm >= LEAST_ARM_TUBE_MM || gear.diameterMm <= SMALL_CYMBAL_MM);
  else return null;
  return known
    .filter((one): one is ArmGear => (one.kind === 'boom' || one.kind === 'lArm') && fits(one))
    .sort((a, b) => longestMm(a) - longestMm(b) || (a.massKg ?? 0) - (b.massKg ?? 0) || (a.id < b.id ? -1 : 1));
}

/** Clamps that hold an arm on a tube, the narrowest first; those that need no setting before tilting ones. */
export function clampsFor(known: readonly Gear[], tubeMm: number | null, arm: ArmGear): GearOf<'clamp'>[] {
  const inside = (range: readonly [number, number], mm: number) => range[0] <= mm && mm <= range[1];
  return known
    .filter((one): one is GearOf<'clamp'> => one.kind === 'clamp')
    .filter(({ use }) => use === 'arm' || use === 'swivel')
    .filter((clamp) => tubeMm !== null && inside(clamp.tubeMm, tubeMm))
    .filter(({ socketMm }) => !socketMm || inside(socketMm, arm.kind === 'platform' ? PLATFORM_POST_MM : arm.tubeMm))
    .sort(
      (a, b) =>
        Number(a.use === 'swivel') - Number(b.use === 'swivel') || a.widthMm - b.widthMm || (a.id < b.id ? -1 : 1),
    );
}

/** Whole mm in free stretches where a clamp fits, from the one nearest to `near` outwards. */
export function placesFor(stretches: readonly (readonly [number, number])[], widthMm: number, near: number): number[] {
  const places = new Set<number>();
  for (const [from, to] of stretches) {
    const low = Math.ceil(from + widthMm / 2);
    const high = Math.floor(to - widthMm / 2);
    if (low > high) continue;
    const first = Math.min(Math.max(Math.round(near), low), high);
    for (let off = 0; off <= WALK_MM; off += STEP_MM)
      for (const place of [first - off, first + off]) if (place >= low && place <= high) places.add(place);
  }
  return [...places]
    .filter((place) => Math.abs(place - near) <= 2 * WALK_MM)
    .sort((a, b) => Math.abs(a - near) - Math.abs(b - near) || a - b);
}

/** Something that can carry: the tube it is, and the places for a clamp of some width. */
interface Way {
  /** Null: a socket, which takes the arm without a clamp. */
  readonly tubeMm: number | null;
  readonly places: (widthMm: number) => Carrier[];
  readonly needsClamp: boolean;
  readonly isUpright: boolean;
  /** Where a clamp at that place is; null for a socket, whose own mount says. */
  readonly at: (carrier: Carrier) => Point3 | null;
}

function heightOf(item: Item, gear: Gear | undefined): number {
  if (item.place.heightMm !== undefined) return item.place.heightMm;
  return gear?.kind === 'drum' || gear?.kind === 'cymbal' ? gear.playHeightMm : 0;
}

function rackWays(plan: Plan, rack: Rack, layout: Layout, room: RackRoom, item: Item, heightMm: number): Way[] {
  const laid = layout.racks[rack.id];
  if (!laid) return [];
  const { xMm, yMm } = item.place;
  const ways: Way[] = [];
  for (const bar of laid.frame.bars) {
    const stretches = room.bars.find((each) => each.piece === rack.id && each.bar === bar.id)?.stretches ?? [];
    const near = nearestAlong(bar.line, xMm, yMm);
    ways.push({
      tubeMm: tubeDiameter(plan.gear, rack.spans[bar.span].bars[bar.index].tube),
      needsClamp: true,
      isUpright: false,
      at: (carrier) => {
        if (carrier.on !== 'bar') return null;
        const { x, y } = pointAlong(bar.line, carrier.atMm);
        return [x, y, bar.heightMm];
      },
      places: (widthMm) =>
        placesFor(stretches, widthMm, near).map((atMm) => ({ on: 'bar', rack: rack.id, bar: bar.id, atMm })),
    });
  }
  const joints = rackJoints(plan.gear, rack, laid.frame);
  for (const leg of rack.legs) {
    const stands = laid.legs.find(({ id }) => id === leg.id);
    const clamps =
      room.legs.find((each) => each.piece === rack.id && each.leg === leg.id)?.clamps ??
      joints
        .filter((joint) => joint.leg === leg.id)
        .map((joint) => ({ piece: rack.id, gear: null, joint: true, atMm: joint.heightMm, widthMm: joint.widthMm }));
    const stretches = freeStretches(leg.lengthMm, clamps);
    ways.push({
      tubeMm: tubeDiameter(plan.gear, leg.tube),
      needsClamp: true,
      isUpright: true,
      at: (carrier) => (carrier.on === 'leg' && stands ? [stands.x, stands.y, carrier.heightMm] : null),
      places: (widthMm) =>
        placesFor(stretches, widthMm, Math.min(heightMm, leg.lengthMm)).map((at) => ({
          on: 'leg',
          rack: rack.id,
          leg: leg.id,
          heightMm: at,
        })),
    });
  }
  return ways;
}

/** Sockets of another piece's arm that nothing is in; those of a platform that are meant for such a piece. */
export function freeSockets(plan: Plan, setup: Setup, layout: Layout, holder: Item, isDrum: boolean): number[] {
  const arm = holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  if (arm?.kind !== 'platform' && arm?.kind !== 'boom' && arm?.kind !== 'lArm') return [];
  const taken = new Set<number>();
  for (const piece of Object.values(setup.pieces)) {
    if (piece.kind !== 'item') continue;
    for (const carrier of [piece.mount?.carrier, ...(piece.ties ?? []).map((tie) => tie.carrier)])
      if (carrier?.on === 'socket' && carrier.piece === holder.id) taken.add(carrier.socket);
  }
  if (arm.kind !== 'platform') {
    return Array.from({ length: arm.sockets ?? 0 }, (_, k) => k).filter((socket) => !taken.has(socket));
  }
  const own = layout.mounts.find(({ piece, holds }) => piece === holder.id && holds === 'mount');
  const used = own?.head ? own.head.socket : own?.reach.settings.socket;
  if (typeof used === 'number') taken.add(used);
  return arm.sockets.flatMap(({ use }, k) => (!taken.has(k) && (use === 'tom') === isDrum ? [k] : []));
}

/** Every point by which an arm may take hold of the piece is within this of its middle axis in plan, and in this height interval. */
function holdBounds(
  item: Item,
  gear: Gear | undefined,
): { readonly out: number; readonly low: number; readonly high: number } {
  const height = heightOf(item, gear);
  if (gear?.kind !== 'drum') return { out: 0, low: height, high: height };
  // However it is tilted, the shell lies within this of its top centre.
  const all = gear.diameterMm / 2 + gear.depthMm;
  return { out: item.place.tiltDeg ? all : gear.diameterMm / 2, low: height - all, high: height + all };
}

interface Found {
  readonly proposal: MountProposal;
  readonly spare: boolean;
  readonly order: number;
}

/** Every carrier that could hold the piece, each with its smallest arm; or why there is none. */
export function searchMounts(plan: Plan, setup: Setup, layout: Layout, item: Item): MountSearch {
  const known = knownGear(plan);
  const gear = gearOf(plan.gear, item.gear);
  const arms = armsFor(gear, known);
  if (!arms) return { ok: false, code: 'not_held_by_arms' };
  const isDrum = gear?.kind === 'drum';
  // The piece as if held by nothing: the room that its own clamp takes is free for it.
  const trial: Setup = {
    ...setup,
    pieces: { ...setup.pieces, [item.id]: { ...item, mount: null } },
    order: setup.order.includes(item.id) ? setup.order : [...setup.order, item.id],
  };
  const room = rackRoom(plan, trial, layout);
  const below = new Set([item.id, ...carriedBy(setup, item.id)]);
  const ways: Way[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (below.has(id) || !piece) continue;
    if (piece.kind === 'rack') ways.push(...rackWays(plan, piece, layout, room, item, heightOf(item, gear)));
    else
      for (const socket of freeSockets(plan, trial, layout, piece, isDrum))
        ways.push({
          tubeMm: null,
          needsClamp: false,
          isUpright: false,
          at: () => null,
          places: () => [{ on: 'socket', piece: id, socket }],
        });
  }
  if (ways.length === 0) return { ok: false, code: 'nothing_carries' };

  let tried = false;
  let nearest: { carrier: Carrier; shortMm: number } | null = null;
  const attempt = (carrier: Carrier, clamp: GearOf<'clamp'> | null, arm: ArmGear): MountProposal | null => {
    tried = true;
    const mount: Mount = { carrier, clamp: clamp?.id ?? null, arm: arm.id };
    trial.pieces[item.id] = { ...item, mount };
    const pose = new MountResolver(plan, trial, layout.racks).pose(item.id);
    if (!pose) return null;
    const { reach } = pose;
    if (!reach.reached) {
      if (reach.shortMm > 0 && (nearest === null || reach.shortMm < nearest.shortMm))
        nearest = { carrier, shortMm: reach.shortMm };
      return null;
    }
    const wayMm = Math.hypot(pose.horizontalMm, pose.riseMm);
    return { mount, arm, clamp, reach, wayMm, wasteMm: longestMm(arm) - wayMm };
  };

  const bounds = holdBounds(item, gear);
  const { xMm, yMm } = item.place;
  const outOfReach = (at: Point3 | null, clampMm: number, arm: ArmGear): boolean => {
    if (at === null) return false;
    const across = Math.max(0, Math.hypot(at[0] - xMm, at[1] - yMm) - bounds.out - clampMm);
    const up = Math.max(0, bounds.low - at[2], at[2] - bounds.high);
    return Math.hypot(across, up) > longestMm(arm) + 1;
  };
  const found: Found[] = [];
  /** The shortest arm with room to spare so far. */
  let shortest = Number.POSITIVE_INFINITY;
  const inTurn = [...ways.filter(({ isUpright }) => !isUpright), ...ways.filter(({ isUpright }) => isUpright)];
  inTurn.forEach((way, order) => {
    let bare: MountProposal | null = null;
    for (const arm of arms) {
      let asked = false;
      if (way.isUpright && longestMm(arm) >= shortest) break;
      const clamps = way.needsClamp ? clampsFor(known, way.tubeMm, arm) : [null];
      for (const clamp of clamps)
        for (const carrier of way.places(clamp?.widthMm ?? 0)) {
          // Each arm's first place is asked whatever comes, so that a miss can say by how much.
          if (asked && outOfReach(way.at(carrier), clamp?.reachMm ?? 0, arm)) continue;
          asked = true;
          const proposal = attempt(carrier, clamp, arm);
          if (proposal && proposal.reach.leftMm >= KEPT_MM) {
            found.push({ proposal, spare: true, order });
            shortest = Math.min(shortest, longestMm(arm));
            return;
          }
          bare ??= proposal;
        }
    }
    if (bare) found.push({ proposal: bare, spare: false, order });
  });
  if (found.length > 0) {
    found.sort(
      (a, b) =>
        Number(b.spare) - Number(a.spare) ||
        longestMm(a.proposal.arm) - longestMm(b.proposal.arm) ||
        a.proposal.wayMm - b.proposal.wayMm ||
        a.order - b.order,
    );
    return { ok: true, proposals: found.map(({ proposal }) => proposal) };
  }
  if (!tried) return { ok: false, code: 'no_room' };
  const miss = nearest as { carrier: Carrier; shortMm: number } | null;
  return miss ? { ok: false, code: 'too_far', ...miss } : { ok: false, code: 'nothing_carries' };
}

/** The best of them, or null. */
export function proposeMount(plan: Plan, setup: Setup, layout: Layout, item: Item): MountProposal | null {
  const search = searchMounts(plan, setup, layout, item);
  return search.ok ? search.proposals[0] : null;
}
