/** Which pieces stand and travel as one: what a rack or stand carries, and legless stands tied to it. */
import { keeper } from '../keep.ts';
import { carrierPiece, holdings } from '../plan/carriers.ts';
import type { Setup } from '../plan/schema.ts';

export { carrierPiece };

/**
 * For each piece the root of its rigid assembly: what it is mounted on, followed to the end; a stand that is tied to
 * something belongs to that. Pieces that neither hold nor are held are their own root.
 *
 * Inputs: mounts without cycles (plan/rules.ts); a cycle ends where it began.
 */
export const assemblyRoots = (setup: Setup): ReadonlyMap<string, string> =>
  keepRoots(setup.order, [holdings(setup)], () => rootsOf(setup));

const keepRoots = keeper<ReadonlyMap<string, string>>();

function rootsOf(setup: Setup): ReadonlyMap<string, string> {
  const roots = new Map<string, string>();
  const above = (id: string): string | null => {
    const piece = setup.pieces[id];
    if (piece?.kind !== 'item') return null;
    const carrier = piece.mount?.carrier ?? piece.ties?.[0]?.carrier;
    if (!carrier) return null;
    const holder = carrierPiece(carrier);
    return Object.hasOwn(setup.pieces, holder) ? holder : null;
  };
  for (const id of setup.order) {
    const chain: string[] = [];
    let at = id;
    let known = roots.get(at);
    while (known === undefined) {
      chain.push(at);
      const next = above(at);
      if (next === null || chain.includes(next)) break;
      at = next;
      known = roots.get(at);
    }
    for (const piece of chain) roots.set(piece, known ?? at);
  }
  return roots;
}
