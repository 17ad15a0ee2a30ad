/**
 * When something that holds pieces goes, the pieces stay where the player wants them and are held by nothing until they
 * get another mount; ties to it go.
 */
import type { Draft } from 'immer';
import { carriersOf } from '../carriers.ts';
import { own } from '../places.ts';
import type { Carrier, Plan, Setup } from '../schema.ts';

/** Let go of every carrier for which `gone` says yes; whether there was one. */
function letGo(pieces: Draft<Setup>['pieces'], gone: (carrier: Carrier) => boolean): boolean {
  let any = false;
  for (const piece of Object.values(pieces)) {
    if (piece.kind !== 'item' || !carriersOf(piece).some(gone)) continue;
    any = true;
    if (piece.mount !== null && gone(piece.mount.carrier)) piece.mount = null;
    if (!piece.ties?.some((tie) => gone(tie.carrier))) continue;
    piece.ties = piece.ties.filter((tie) => !gone(tie.carrier));
    if (piece.ties.length === 0) delete piece.ties;
  }
  return any;
}

/** Let go of every carrier for which `gone` says yes, in one setup, and of what hung in sockets there. */
export function detach(draft: Draft<Plan>, setup: string, gone: (carrier: Carrier) => boolean): void {
  letGo(draft.setups[setup].pieces, gone);
  freeSockets(draft, setup);
}

/** A piece in a socket of an arm that is gone is held by nothing either; that may free further ones. */
export function freeSockets(draft: Draft<Plan>, setup: string): void {
  const { pieces } = draft.setups[setup];
  const armless = (carrier: Carrier) => {
    if (carrier.on !== 'socket') return false;
    const holder = own(pieces, carrier.piece);
    return holder?.kind !== 'item' || !holder.mount?.arm;
  };
  while (letGo(pieces, armless));
}

/** No microphone takes what is gone, and no line of the input list does; the line itself stays, with its words. */
export function forget(draft: Draft<Plan>, setup: string, gone: ReadonlySet<string>): void {
  const { pieces, inputs } = draft.setups[setup];
  for (const piece of Object.values(pieces))
    if (piece.kind === 'item' && piece.takes !== undefined && gone.has(piece.takes)) delete piece.takes;
  for (const input of inputs ?? []) if (input.piece !== undefined && gone.has(input.piece)) delete input.piece;
}
