/**
 * What hangs in the sockets of an arm that gives way to another: each piece keeps the socket of the same name, else one of the same kind,
 * else any that takes its arm. What finds none is named, and the swap is refused: nobody is moved or let go in silence.
 */
import { gearOf } from '../../gear/catalogue.ts';
import { socketMisfit } from '../../gear/fits.ts';
import { type AnySocket, type ArmGear, isArm, socketsOf } from '../../gear/kinds.ts';
import { own } from '../places.ts';
import type { Carrier, Item, Mount, Plan, Setup } from '../schema.ts';

export interface SocketSwap {
  /** New sockets by what was hung: a piece's id and which of its carriers, -1 for its mount, else the tie's number. */
  readonly moves: readonly { readonly piece: string; readonly tie: number; readonly socket: number }[];
  /** Pieces that no socket is left for. */
  readonly lost: readonly string[];
}

interface Hung {
  readonly piece: string;
  readonly tie: number;
  readonly socket: number;
  readonly arm: ArmGear | null;
}

const NOTHING: SocketSwap = { moves: [], lost: [] };

function hungIn(plan: Plan, setup: Setup, holder: string): Hung[] {
  const arm = (id: string | null | undefined) => {
    const gear = id ? gearOf(plan.gear, id) : undefined;
    return isArm(gear) ? gear : null;
  };
  const isHere = (carrier: Carrier): carrier is Carrier & { on: 'socket' } =>
    carrier.on === 'socket' && carrier.piece === holder;
  return setup.order.flatMap((id): Hung[] => {
    const item = own(setup.pieces, id);
    if (item?.kind !== 'item') return [];
    const hung: Hung[] = [];
    const { mount, ties = [] } = item;
    if (mount && isHere(mount.carrier))
      hung.push({ piece: id, tie: -1, socket: mount.carrier.socket, arm: arm(mount.arm) });
    ties.forEach(({ carrier, link }, tie) => {
      if (isHere(carrier)) hung.push({ piece: id, tie, socket: carrier.socket, arm: arm(link) });
    });
    return hung;
  });
}

/** What becomes of those in the sockets of `holder` when its mount is `next`. Nothing where its arm stays, or goes altogether. */
export function socketSwap(plan: Plan, setup: Setup, holder: Item, next: Mount): SocketSwap {
  const was = holder.mount?.arm ?? null;
  if (was === null || next.arm === null || next.arm === was) return NOTHING;
  const [before, after] = [gearOf(plan.gear, was), gearOf(plan.gear, next.arm)];
  if (!isArm(after)) return NOTHING;
  const old: readonly AnySocket[] = isArm(before) ? socketsOf(before) : [];
  const sockets = socketsOf(after);
  const free = new Set(sockets.keys());
  const waiting = new Set(hungIn(plan, setup, holder.id));
  const moves: { piece: string; tie: number; socket: number }[] = [];
  const fits = (k: number, { arm }: Hung) => arm === null || socketMisfit(sockets[k], arm) === null;
  const settle = (alike: (a: AnySocket, b: AnySocket | undefined) => boolean) => {
    for (const hung of waiting) {
      const found = [...free].find((k) => fits(k, hung) && alike(sockets[k], old[hung.socket]));
      if (found === undefined) continue;
      moves.push({ piece: hung.piece, tie: hung.tie, socket: found });
      free.delete(found);
      waiting.delete(hung);
    }
  };
  const name = (socket: AnySocket | undefined) => socket?.name ?? null;
  settle((a, b) => name(a) !== null && name(a) === name(b) && a.use === b?.use);
  settle((a, b) => a.use === b?.use);
  settle(() => true);
  // Its own arm needs a socket too.
  const held = next.platformArm ? gearOf(plan.gear, next.platformArm) : undefined;
  const lost = [...waiting].map(({ piece }) => piece);
  if (isArm(held) && after.kind === 'platform' && ![...free].some((k) => socketMisfit(sockets[k], held) === null)) {
    const last = moves.findLast(({ socket }) => socketMisfit(sockets[socket], held) === null);
    if (last) lost.push(last.piece);
  }
  return { moves, lost };
}
