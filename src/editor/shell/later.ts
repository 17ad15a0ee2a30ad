/** The inspector, the list of pieces and the menus, which nobody needs to see the drawing: they come with the first movement of a hand, or when shown. */
import { loadMenu } from '../panels/shared/MenuButton.tsx';

export const loadInspector = () => import('../panels/inspector/Inspector.tsx');
export const loadPieces = () => import('../panels/findings/PiecesList.tsx');

/** Whoever moves the pointer or presses a key may choose a piece next: its fields are there by then, and the list to choose it from. */
export function fetchAtFirstMove(): void {
  const events = new AbortController();
  const fetch = () => {
    events.abort();
    // Whoever needs one that does not come is told when it is shown.
    loadInspector().catch(() => undefined);
    loadPieces().catch(() => undefined);
    loadMenu().catch(() => undefined);
  };
  for (const type of ['pointermove', 'pointerdown', 'keydown'])
    window.addEventListener(type, fetch, { signal: events.signal, passive: true, capture: true });
}
