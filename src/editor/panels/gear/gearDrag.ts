/**
 * Dragging a piece of gear from the drawer onto the drawing: a preview while the pointer is over the drawing, one
 * command where it is let go, nothing where it is let go elsewhere or Escape is pressed.
 */

import type { Placeable } from '../../../gear/kinds.ts';
import type { Editor } from '../../state/store.ts';
import { planPoint } from '../../state/view.ts';
import { placedItem } from './newPiece.ts';
import { takenAt } from './takenAt.ts';

type Pointer = Pick<PointerEvent, 'clientX' | 'clientY' | 'pointerId'>;

/** The piece as it would stand under the pointer; null while the pointer is not over the drawing. */
function itemUnder(editor: Editor, gear: Placeable, pointer: Pointer, box: DOMRect | undefined) {
  if (box === undefined) return null;
  const px = pointer.clientX - box.left;
  const py = pointer.clientY - box.top;
  if (px < 0 || py < 0 || px > box.width || py > box.height) return null;
  const { view } = editor.store.getState();
  const { x, y } = planPoint(view, box, px, py);
  const { plan, setup } = editor.committed();
  const item = placedItem(plan, setup, gear, Math.round(x), Math.round(y));
  const takes = takenAt(plan, setup, gear, x, y);
  return takes === undefined ? item : { ...item, takes };
}

export function dragGear(editor: Editor, gear: Placeable, first: Pointer): void {
  const events = new AbortController();
  const on = <K extends keyof WindowEventMap>(type: K, listener: (event: WindowEventMap[K]) => void) =>
    window.addEventListener(type, listener, { signal: events.signal, capture: true });
  const show = (pointer: Pointer) => {
    const item = itemUnder(editor, gear, pointer, editor.frame.element?.getBoundingClientRect());
    const setup = editor.store.getState().setupId;
    editor.previewCommand(item === null ? null : { type: 'addPiece', setup, piece: item });
  };
  const end = (keep: boolean) => {
    events.abort();
    document.documentElement.classList.remove('is-dragging-gear');
    const command = editor.store.getState().preview?.command;
    if (!keep) editor.previewCommand(null);
    else if (editor.commitPreview() === null && command?.type === 'addPiece') editor.select([command.piece.id]);
  };
  document.documentElement.classList.add('is-dragging-gear');
  on('pointermove', (event) => {
    if (event.pointerId === first.pointerId) show(event);
  });
  on('pointerup', (event) => {
    if (event.pointerId === first.pointerId) end(true);
  });
  on('pointercancel', () => end(false));
  on('keydown', (event) => {
    if (event.key !== 'Escape') return;
    event.stopPropagation();
    end(false);
  });
  show(first);
}
