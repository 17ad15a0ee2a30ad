/**
 * Two drums that hang on mounts of their own, on one platform with two arms instead: one clamp and one post on the rack
 * where there were two. The drums stay where the player has them.
 *
 * The platform's clamp is looked for on the bars of the rack that holds the first drum, from the place nearest to the middle
 * of the two drums outwards. The platform is the first drum's mount, with the shortest L-arm that reaches from one of its
 * sockets; the second drum hangs in another by the shortest that reaches from there. Every try is resolved as layout resolves it, both
 * arms at one height of the head. What reaches is laid out and held to the check of clearances: a swap whose arms run into something is
 * not made.
 *
 * Units: mm.
 */
import { rackRoom } from '../checks/barRoom.ts';
import { pairReadings, pairState } from '../checks/clearance.ts';
import { jointPairs } from '../checks/joints.ts';
import { gearOf, knownGear } from '../gear/catalogue.ts';
import { clampsFor } from '../gear/fits.ts';
import type { ArmGear } from '../gear/kinds.ts';
import type { GearOf } from '../gear/schema.ts';
import { pointAlong } from '../geometry/arcsLine.ts';
import { nearestAlong } from '../geometry/nearestAlong.ts';
import { type Body, isArmBody } from '../layout/body.ts';
import { type Layout, layoutSetup } from '../layout/layout.ts';
import { tubeDiameter } from '../layout/rackJoints.ts';
import { longestMm } from '../layout/reach.ts';
import { type MountPose, MountResolver } from '../layout/reachMounts.ts';
import { carriersOf } from '../plan/carriers.ts';
import type { Many } from '../plan/commands/index.ts';
import type { Item, Mount, Plan, Setup } from '../plan/schema.ts';
import { placesFor } from './mountWays.ts';
import { KEPT_MM } from './proposeMount.ts';

export type PlatformSwap =
  | {
      readonly ok: true;
      readonly command: Many;
      readonly platform: GearOf<'platform'>;
      /** In the platform's own socket, and the second drum's. */
      readonly firstArm: ArmGear;
      readonly arm: ArmGear;
    }
  | { readonly ok: false; readonly code: 'not_two_drums' | 'not_on_one_rack' | 'holds_others' | 'out_of_reach' }
  /** Arms reach, but run into a piece wherever the platform is: into this one first. */
  | { readonly ok: false; readonly code: 'runs_into'; readonly struck: string };

/** So many tries that run into something are laid out, and of one place so many, before the answer is no. */
const MOST_STRUCK = 24;
const MOST_STRUCK_HERE = 2;

const rackOf = ({ mount }: Item): string | null =>
  mount && (mount.carrier.on === 'bar' || mount.carrier.on === 'leg') ? mount.carrier.rack : null;

/** How far a platform's sockets are from its post at most. */
const outOf = ({ sockets }: GearOf<'platform'>): number => Math.max(...sockets.map((s) => Math.hypot(s.xMm, s.yMm)));

/** However a drum is tilted, its shell lies within this of its top's centre in plan. */
function tooFar(plan: Plan, { gear, place }: Item, at: { x: number; y: number }, reachMm: number): boolean {
  const drum = gearOf(plan.gear, gear);
  const shell = drum?.kind === 'drum' ? drum.diameterMm / 2 + drum.depthMm : 0;
  return Math.hypot(at.x - place.xMm, at.y - place.yMm) > shell + reachMm;
}

const keeps = (pose: MountPose | null): boolean => pose?.reach.reached === true && pose.reach.leftMm >= KEPT_MM;

/** The piece that an arm of these runs into; null: they are clear. False: set as layout sets them, with what is round them, they reach no more. */
function struckBy(plan: Plan, trial: Setup, ids: readonly string[]): string | null | false {
  // A setup of its own: what is laid out is kept by it.
  const setup: Setup = { ...trial, pieces: { ...trial.pieces } };
  const layout = layoutSetup({ ...plan, setups: { ...plan.setups, [setup.id]: setup } }, setup.id);
  if (!layout.mounts.every((pose) => !ids.includes(pose.piece) || pose.holds !== 'mount' || keeps(pose))) return false;
  const isOurs = (body: Body) => isArmBody(body) && ids.includes(body.piece);
  for (const pair of [...pairReadings(plan, setup, layout.bodies), ...jointPairs(layout)]) {
    const { a, b } = pair;
    if (pairState(pair) === 'blocked' && (isOurs(a) || isOurs(b))) return isOurs(a) ? b.piece : a.piece;
  }
  return null;
}

export function swapForPlatform(plan: Plan, setup: Setup, layout: Layout, ids: readonly string[]): PlatformSwap {
  const items = ids
    .map((id) => setup.pieces[id])
    .filter((piece): piece is Item => piece?.kind === 'item' && gearOf(plan.gear, piece.gear)?.kind === 'drum');
  if (ids.length !== 2 || items.length !== 2) return { ok: false, code: 'not_two_drums' };
  const rack = rackOf(items[0]);
  if (rack === null || rackOf(items[1]) !== rack) return { ok: false, code: 'not_on_one_rack' };
  const inSocket = Object.values(setup.pieces).some(
    (piece) =>
      piece.kind === 'item' &&
      carriersOf(piece).some((carrier) => carrier.on === 'socket' && ids.includes(carrier.piece)),
  );
  if (inSocket) return { ok: false, code: 'holds_others' };
  const known = knownGear(plan.gear);
  const platforms = known
    .filter((one): one is GearOf<'platform'> => one.kind === 'platform')
    .filter(({ sockets }) => sockets.filter(({ use }) => use === 'tom').length >= 2)
    .sort((a, b) => a.sockets.length - b.sockets.length || (a.id < b.id ? -1 : 1));
  const arms = known
    .filter((one): one is GearOf<'lArm'> => one.kind === 'lArm')
    .sort((a, b) => longestMm(a) - longestMm(b) || (a.id < b.id ? -1 : 1));
  const farthest = Math.max(0, ...arms.map(({ armMm }) => armMm[1]));
  // The room of both clamps is free for the platform's.
  const pieces = { ...setup.pieces };
  for (const item of items) pieces[item.id] = { ...item, mount: null };
  const trial: Setup = { ...setup, pieces };
  const { bars } = rackRoom(plan, trial, layout);
  const held = setup.pieces[rack];
  if (held.kind !== 'rack') return { ok: false, code: 'not_on_one_rack' };

  let struck: string | null = null;
  let laidOut = 0;
  for (const platform of platforms)
    for (const [first, second] of [items, [items[1], items[0]]])
      for (const bar of layout.racks[rack]?.frame.bars ?? []) {
        const [clamp] = clampsFor(known, tubeDiameter(plan.gear, held.spans[bar.span].bars[bar.index].tube), platform);
        const stretches = bars.find((each) => each.piece === rack && each.bar === bar.id)?.stretches;
        if (!clamp || !stretches) continue;
        const [x, y] = [(first.place.xMm + second.place.xMm) / 2, (first.place.yMm + second.place.yMm) / 2];
        for (const atMm of placesFor(stretches, clamp.widthMm, nearestAlong(bar.line, x, y))) {
          const at = pointAlong(bar.line, atMm);
          if (items.some((item) => tooFar(plan, item, at, clamp.reachMm + outOf(platform) + farthest))) continue;
          const carrier: Mount['carrier'] = { on: 'bar', rack, bar: bar.id, atMm };
          let here = 0;
          for (const firstArm of arms) {
            if (here >= MOST_STRUCK_HERE || laidOut >= MOST_STRUCK) break;
            const mount: Mount = { carrier, clamp: clamp.id, arm: platform.id, platformArm: firstArm.id };
            pieces[first.id] = { ...first, mount };
            pieces[second.id] = { ...second, mount: null };
            const alone = new MountResolver(plan, trial, layout.racks).pose(first.id);
            if (!alone?.head || !alone.reach.reached) continue;
            const used = alone.head.socket;
            const socket = platform.sockets.findIndex(({ use }, k) => use === 'tom' && k !== used);
            for (const arm of arms) {
              const other: Mount = { carrier: { on: 'socket', piece: first.id, socket }, clamp: null, arm: arm.id };
              pieces[second.id] = { ...second, mount: other };
              const resolver = new MountResolver(plan, trial, layout.racks);
              if (!keeps(resolver.pose(second.id)) || !keeps(resolver.pose(first.id))) continue;
              const hit = struckBy(plan, trial, ids);
              if (hit !== null) {
                struck ??= hit || null;
                here++;
                laidOut++;
                break;
              }
              const set = (piece: string, wanted: Mount) =>
                ({ type: 'setPiece', setup: setup.id, piece, set: { mount: wanted } }) as const;
              const commands = [set(first.id, mount), set(second.id, other)];
              return { ok: true, command: { type: 'many', commands }, platform, firstArm, arm };
            }
          }
        }
      }
  return struck === null ? { ok: false, code: 'out_of_reach' } : { ok: false, code: 'runs_into', struck };
}
