/** The drawing in the page: gives the canvas its element, its size, its look and its keys; and says in words what it shows. */
import type Konva from 'konva/lib/Core';
import { useEffect, useId, useRef } from 'react';
import { countByState } from '../../checks/finding.ts';
import { pieceName } from '../../words/names.ts';
import { Gesture } from '../state/gestures/gesture.ts';
import { liveOf } from '../state/live.ts';
import { usePanel } from '../state/panelContext.ts';
import { type Editor, useEditor } from '../state/store.ts';
import { Drawing } from './Drawing.tsx';
import { listenToPointers } from './pointers.ts';
import { watchSurface } from './surface.ts';

export interface CanvasProps {
  readonly editor: Editor;
  readonly look: 'light' | 'dark';
}

export function Canvas({ editor, look }: CanvasProps) {
  const frame = useRef<HTMLDivElement>(null);
  const stage = useRef<Konva.Stage>(null);
  const described = useId();

  useEffect(() => {
    const element = frame.current!;
    editor.frame.element = element;
    const gesture = new Gesture(editor);
    const stopPointers = listenToPointers(element, editor, gesture, () => stage.current);
    const letGo = () => {
      const { isActive } = gesture;
      if (isActive) gesture.cancel();
      return isActive;
    };
    const stopWatching = watchSurface(element, editor, letGo, editor.setSize);
    return () => {
      stopWatching();
      stopPointers();
      editor.frame.element = null;
    };
  }, [editor]);

  return (
    <div className="drawing-frame">
      {/* The lists beside the drawing hold everything in it; this is for whoever draws by keys. */}
      <div
        ref={frame}
        id="drawing"
        className="drawing"
        role="application"
        aria-roledescription="drawing"
        aria-label="Drawing from above"
        aria-describedby={described}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the drawing takes keys; it is an application of its own
        tabIndex={0}
      >
        <div className="drawing-surface" aria-hidden="true">
          <Drawing ref={stage} editor={editor} look={look} />
        </div>
      </div>
      <Description id={described} editor={editor} />
    </div>
  );
}

/** What the drawing shows, in a sentence or two, and what was just chosen. */
function Description({ id, editor }: { readonly id: string; readonly editor: Editor }) {
  const { plan, setup, setupId } = usePanel();
  const selection = useEditor(editor, (state) => state.selection);
  const { blocked, tight } = countByState(liveOf(plan, setupId).checked.findings);
  const chosen =
    selection.length === 0
      ? 'Nothing is selected.'
      : `Selected: ${selection.map((one) => pieceName(plan, setupId, one)).join(', ')}.`;
  return (
    <>
      <p id={id} className="unseen">
        {setup.name}: {setup.order.length} pieces, {blocked} findings blocked, {tight} tight. Press N for the next
        piece, arrows to move it, question mark for all keys. The panels beside the drawing list everything in it.
      </p>
      <p className="unseen" role="status">
        {chosen}
      </p>
    </>
  );
}
