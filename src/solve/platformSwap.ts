/**
 * Two drums that hang on mounts of their own, on one platform with two arms instead: one clamp and one post on the rack
 * where there were two. The drums stay where the player has them.
 *
 * The platform's clamp is looked for on the bars of the rack that holds the first drum, from the place nearest to the middle
 * of the two drums outwards. The first drum hangs on the platform itself, the second in its other socket by the shortest
 * L-arm that reaches. A plan names one arm a mount, and a platform's sockets are bare, so the first drum's own L-arm is not
 * in the plan: a place counts when the check of mounts says that the drum hangs there or names the arm that bridges the way.
 *
 * Units: mm.
 */
import { rackRoom } from '../checks/barRoom.ts';
import { mountReadings } from '../checks/mountReach.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { ArmGear, GearOf } from '../gear/schema.ts';
import { nearestAlong } from '../geometry/nearestAlong.ts';
import type { Layout } from '../layout/layout.ts';
import { tubeDiameter } from '../layout/rackJoints.ts';
import { longestMm } from '../layout/reach.ts';
import { MountResolver } from '../layout/reachMounts.ts';
import type { Many } from '../plan/commands/index.ts';
import type { Item, Mount, Plan, Setup } from '../plan/schema.ts';
import { clampsFor, KEPT_MM, knownGear, placesFor } from './proposeMount.ts';

export type PlatformSwap =
  | {
      readonly ok: true;
      readonly command: Many;
      readonly platform: GearOf<'platform'>;
      readonly arm: ArmGear;
    }
  | { readonly ok: false; readonly code: 'not_two_drums' | 'not_on_one_rack' | 'holds_others' | 'out_of_reach' };

const rackOf = ({ mount }: Item): string | null =>
  mount && (mount.carrier.on === 'bar' || mount.carrier.on === 'leg') ? mount.carrier.rack : null;

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
      [piece.mount?.carrier, ...(piece.ties ?? []).map((tie) => tie.carrier)].some(
        (carrier) => carrier?.on === 'socket' && ids.includes(carrier.piece),
      ),
  );
  if (inSocket) return { ok: false, code: 'holds_others' };
  const known = knownGear(plan);
  const platforms = known
    .filter((one): one is GearOf<'platform'> => one.kind === 'platform')
    .filter(({ sockets }) => sockets.filter(({ use }) => use === 'tom').length >= 2)
    .sort((a, b) => a.sockets.length - b.sockets.length || (a.id < b.id ? -1 : 1));
  const arms = known
    .filter((one): one is GearOf<'lArm'> => one.kind === 'lArm')
    .sort((a, b) => longestMm(a) - longestMm(b) || (a.id < b.id ? -1 : 1));
  // The room of both clamps is free for the platform's.
  const pieces = { ...setup.pieces };
  for (const item of items) pieces[item.id] = { ...item, mount: null };
  const trial: Setup = { ...setup, pieces };
  const { bars } = rackRoom(plan, trial, layout);
  const held = setup.pieces[rack];
  if (held.kind !== 'rack') return { ok: false, code: 'not_on_one_rack' };

  for (const platform of platforms)
    for (const [first, second] of [items, [items[1], items[0]]])
      for (const bar of layout.racks[rack]?.frame.bars ?? []) {
        const [clamp] = clampsFor(known, tubeDiameter(plan.gear, held.spans[bar.span].bars[bar.index].tube), platform);
        const stretches = bars.find((each) => each.piece === rack && each.bar === bar.id)?.stretches;
        if (!clamp || !stretches) continue;
        const [x, y] = [(first.place.xMm + second.place.xMm) / 2, (first.place.yMm + second.place.yMm) / 2];
        for (const atMm of placesFor(stretches, clamp.widthMm, nearestAlong(bar.line, x, y))) {
          const mount: Mount = { carrier: { on: 'bar', rack, bar: bar.id, atMm }, clamp: clamp.id, arm: platform.id };
          pieces[first.id] = { ...first, mount };
          pieces[second.id] = { ...second, mount: null };
          const pose = new MountResolver(plan, trial, layout.racks).pose(first.id);
          if (!pose) continue;
          const [reading] = mountReadings(plan, [pose]);
          if (!reading.reached && reading.wouldDo === null) continue;
          const socket = platform.sockets.findIndex(({ use }, k) => use === 'tom' && k !== pose.reach.settings.socket);
          for (const arm of arms) {
            const other: Mount = { carrier: { on: 'socket', piece: first.id, socket }, clamp: null, arm: arm.id };
            pieces[second.id] = { ...second, mount: other };
            const reach = new MountResolver(plan, trial, layout.racks).pose(second.id)?.reach;
            if (!reach?.reached || reach.leftMm < KEPT_MM) continue;
            const set = (piece: string, wanted: Mount) =>
              ({ type: 'setPiece', setup: setup.id, piece, set: { mount: wanted } }) as const;
            const commands = [set(first.id, mount), set(second.id, other)];
            return { ok: true, command: { type: 'many', commands }, platform, arm };
          }
        }
      }
  return { ok: false, code: 'out_of_reach' };
}
