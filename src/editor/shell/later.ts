/** Parts of the page that nobody needs to see the drawing: they come with the first movement of a hand, or when they are shown. */

export const later = {
  inspector: () => import('../panels/inspector/Inspector.tsx'),
  pieces: () => import('../panels/findings/PiecesList.tsx'),
} as const;

/** Whoever moves the pointer or presses a key may choose a piece next: its fields are there by then. */
export function fetchAtFirstMove(): void {
  const events = new AbortController();
  const fetch = () => {
    events.abort();
    for (const load of Object.values(later)) void load();
  };
  for (const type of ['pointermove', 'pointerdown', 'keydown'])
    window.addEventListener(type, fetch, { signal: events.signal, passive: true, capture: true });
}
