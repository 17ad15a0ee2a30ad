/** When the page offers a mount by itself: a drum or cymbal that nothing holds was just put down near something that could. */

import { gearOf } from '../../gear/catalogue.ts';
import { mustHang } from '../../gear/kinds.ts';
import type { Plan } from '../../plan/schema.ts';
import { type MountProposal, proposeMount } from '../../solve/proposeMount.ts';
import { liveOf } from './live.ts';

export interface MountOffer {
  readonly piece: string;
  readonly proposal: MountProposal;
}

/**
 * The one drum or cymbal that came or moved between two states of a setup and is held by nothing, not even by legs of its
 * own; else null. Several at once are a change of layout: nobody wants a question for each.
 */
export function putDown(before: Plan, after: Plan, setupId: string): string | null {
  const old = before.setups[setupId]?.pieces;
  const now = after.setups[setupId]?.pieces;
  if (!old || !now) return null;
  const moved = Object.values(now).filter((piece) => {
    if (!Object.hasOwn(old, piece.id)) return true;
    const { xMm, yMm, heightMm } = old[piece.id].place;
    const { place } = piece;
    return place.xMm !== xMm || place.yMm !== yMm || place.heightMm !== heightMm;
  });
  const [piece] = moved;
  if (moved.length !== 1 || piece.kind !== 'item' || piece.mount !== null) return null;
  const gear = gearOf(after.gear, piece.gear);
  return gear !== undefined && mustHang(gear) ? piece.id : null;
}

export function offerFor(before: Plan, after: Plan, setupId: string): MountOffer | null {
  const id = putDown(before, after, setupId);
  if (id === null) return null;
  const { setup, layout } = liveOf(after, setupId);
  const item = setup.pieces[id];
  if (item?.kind !== 'item') return null;
  const proposal = proposeMount(after, setup, layout, item);
  return proposal && { piece: id, proposal };
}
