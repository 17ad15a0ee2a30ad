/** Hangs a piece of a starter kit where it is, by a mount that solve/proposeMount.ts offers. */
import { carrierPiece, carriersOf } from '../../plan/carriers.ts';
import type { Setup } from '../../plan/schema.ts';
import { searchMounts } from '../proposeMount.ts';
import { BLOCKED, type Trial } from './trial.ts';

/** So many of the mounts offered are tried. */
const MOST_TRIED = 4;

/** The kit as a search for mounts should see it: what else could carry is out of its sight, what is in the way is not. */
function onlyOn(kit: Trial, id: string, holder: string): Setup {
  const { setup } = kit;
  const seen = setup.order.filter((each) => {
    const piece = setup.pieces[each];
    if (each === holder || each === id) return true;
    return piece.kind === 'item' && carriersOf(piece).some((carrier) => carrierPiece(carrier) === holder);
  });
  return { ...setup, order: seen, pieces: Object.fromEntries(seen.map((each) => [each, setup.pieces[each]])) };
}

/** Whether a mount with nothing wrong about it was found on one of `holders`, the first that has one. Else the best there is, if any. */
export function hang(kit: Trial, id: string, holders: readonly string[]): boolean {
  const item = kit.item(id);
  let least = Number.POSITIVE_INFINITY;
  let best = item.mount;
  for (const holder of holders) {
    const search = searchMounts(kit.plan, onlyOn(kit, id, holder), kit.layout, item);
    if (!search.ok) continue;
    for (const { mount } of search.proposals.slice(0, MOST_TRIED)) {
      kit.put({ ...item, mount });
      const wrong = kit.wrong([id]);
      if (wrong === 0) return true;
      if (wrong < least) [least, best] = [wrong, mount];
    }
    kit.put(item);
  }
  kit.put({ ...item, mount: best });
  return best !== null && least < BLOCKED;
}
