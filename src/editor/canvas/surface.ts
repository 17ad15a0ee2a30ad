/** What whatever is drawn on has in common: it takes the drawing's keys and follows its own size. */
import { pressKey } from '../state/keys.ts';
import type { Editor } from '../state/store.ts';
import type { Size } from '../state/view.ts';

/** `letGo`: ends a drag at Escape; true where there was one. Returns what undoes it. */
export function watchSurface(
  element: HTMLElement,
  editor: Editor,
  letGo: () => boolean,
  onSize: (size: Size) => void,
): () => void {
  const onKey = (event: KeyboardEvent) => {
    if (event.altKey || (event.key === 'Escape' && letGo())) return;
    if (pressKey(editor, event)) event.preventDefault();
  };
  element.addEventListener('keydown', onKey);
  const sizes = new ResizeObserver(([{ contentRect: box }]) =>
    onSize({ width: Math.floor(box.width), height: Math.floor(box.height) }),
  );
  sizes.observe(element);
  return () => {
    sizes.disconnect();
    element.removeEventListener('keydown', onKey);
  };
}
