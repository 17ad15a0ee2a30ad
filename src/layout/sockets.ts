/** What is in whose sockets, and where a platform's sockets are. */
import { keeper } from '../keep.ts';
import { holdings } from '../plan/carriers.ts';
import type { Carrier, Item, Mount, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import type { Point3 } from './holdPoint.ts';

/** A piece in a socket of another's arm. */
export interface InSocket {
  readonly id: string;
  readonly socket: number;
  /** Its mount; null for a tie. */
  readonly mount: Mount | null;
}

/** A socket of the platform that holds a piece, in space: the head is turned with the piece. */
export function fromPost(holder: Item, place: { xMm: number; yMm: number }, post: Point3, z: number): Point3 {
  const heading = toRadians(holder.place.headingDeg);
  const c = Math.cos(heading);
  const s = Math.sin(heading);
  return [post[0] + place.xMm * c - place.yMm * s, post[1] + place.xMm * s + place.yMm * c, z];
}

/** For each piece in whose arm's sockets others are: which, in the order of the setup. */
export const socketUses = (setup: Setup): ReadonlyMap<string, readonly InSocket[]> =>
  keepUses(setup.order, [holdings(setup)], () => usesOf(setup));

const keepUses = keeper<ReadonlyMap<string, readonly InSocket[]>>();

function usesOf(setup: Setup): ReadonlyMap<string, readonly InSocket[]> {
  const uses = new Map<string, InSocket[]>();
  const add = (id: string, carrier: Carrier, mount: Mount | null) => {
    if (carrier.on !== 'socket') return;
    const before = uses.get(carrier.piece);
    const use = { id, socket: carrier.socket, mount };
    if (before) before.push(use);
    else uses.set(carrier.piece, [use]);
  };
  for (const id of setup.order) {
    const item = setup.pieces[id];
    if (item?.kind !== 'item') continue;
    if (item.mount) add(id, item.mount.carrier, item.mount);
    for (const tie of item.ties ?? []) add(id, tie.carrier, null);
  }
  return uses;
}
