/**
 * When something that holds pieces goes, the pieces stay where the player wants them and are held by nothing until they
 * get another mount; ties to it go.
 */
import type { Draft } from 'immer';
import type { Carrier, Plan } from '../schema.ts';

/** Let go of every carrier for which `gone` says yes, in one setup. */
export function detach(draft: Draft<Plan>, setup: string, gone: (carrier: Carrier) => boolean): void {
  for (const piece of Object.values(draft.setups[setup].pieces)) {
    if (piece.kind !== 'item') continue;
    if (piece.mount !== null && gone(piece.mount.carrier)) piece.mount = null;
    if (piece.ties?.some((tie) => gone(tie.carrier))) {
      const kept = piece.ties.filter((tie) => !gone(tie.carrier));
      if (kept.length > 0) piece.ties = kept;
      else delete piece.ties;
    }
  }
  freeSockets(draft, setup);
}

/** A piece in a socket of an arm that is gone is held by nothing either; that may free further ones. */
export function freeSockets(draft: Draft<Plan>, setup: string): void {
  const { pieces } = draft.setups[setup];
  const armless = (id: string) => {
    const holder = Object.hasOwn(pieces, id) ? pieces[id] : undefined;
    return holder?.kind !== 'item' || !holder.mount?.arm;
  };
  let again = true;
  while (again) {
    again = false;
    for (const piece of Object.values(pieces)) {
      if (piece.kind !== 'item') continue;
      if (piece.mount?.carrier.on === 'socket' && armless(piece.mount.carrier.piece)) {
        piece.mount = null;
        again = true;
      }
      if (piece.ties?.some((tie) => tie.carrier.on === 'socket' && armless(tie.carrier.piece))) {
        const kept = piece.ties.filter((tie) => !(tie.carrier.on === 'socket' && armless(tie.carrier.piece)));
        if (kept.length > 0) piece.ties = kept;
        else delete piece.ties;
        again = true;
      }
    }
  }
}

/** No microphone takes what is gone, and no line of the input list does; the line itself stays, with its words. */
export function forget(draft: Draft<Plan>, setup: string, gone: ReadonlySet<string>): void {
  const { pieces, inputs } = draft.setups[setup];
  for (const piece of Object.values(pieces))
    if (piece.kind === 'item' && piece.takes !== undefined && gone.has(piece.takes)) delete piece.takes;
  for (const input of inputs ?? []) if (input.piece !== undefined && gone.has(input.piece)) delete input.piece;
}
