/** The inspector, which nobody needs to see the drawing: it comes with the first movement of a hand, or when it is shown. */

export const loadInspector = () => import('../panels/inspector/Inspector.tsx');

/** Whoever moves the pointer or presses a key may choose a piece next: its fields are there by then. */
export function fetchAtFirstMove(): void {
  const events = new AbortController();
  const fetch = () => {
    events.abort();
    void loadInspector();
  };
  for (const type of ['pointermove', 'pointerdown', 'keydown'])
    window.addEventListener(type, fetch, { signal: events.signal, passive: true, capture: true });
}
