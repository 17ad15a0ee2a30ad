/**
 * The plan as the panels show it: the plan itself at once; a gesture's preview a few times a second, so that the lists
 * beside the drawing do not take the drawing's frames.
 */
import { useEffect, useState } from 'react';
import type { Plan } from '../../plan/schema.ts';
import { type Editor, shownPlan } from './store.ts';

/** Often enough to be read as live, rarely enough for the slowest telephone. */
const CALM_MS = 160;

export function useCalmPlan(editor: Editor): Plan {
  const [plan, setPlan] = useState(() => shownPlan(editor.store.getState()));
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const show = () => {
      timer = undefined;
      setPlan(shownPlan(editor.store.getState()));
    };
    const stop = editor.store.subscribe((now, before) => {
      if (shownPlan(now) === shownPlan(before)) return;
      if (now.preview === null) {
        clearTimeout(timer);
        show();
      } else timer ??= setTimeout(show, CALM_MS);
    });
    show();
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, [editor]);
  return plan;
}
