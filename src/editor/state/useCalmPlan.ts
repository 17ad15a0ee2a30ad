/**
 * The plan as the panels show it: the plan itself at once; a gesture's preview a few times a second, so that the lists
 * beside the drawing do not take the drawing's frames.
 */
import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Plan } from '../../plan/schema.ts';
import { type Editor, shownPlan } from './store.ts';

/** Often enough to be read as live, rarely enough for the slowest telephone. */
const CALM_MS = 160;
/** Panels of a large stage take longer: they rest ten times as long as they worked, and a long drag is not held up by them. */
const REST = 10;

export function useCalmPlan(editor: Editor): Plan {
  const [plan, setPlan] = useState(() => shownPlan(editor.store.getState()));
  const begun = useRef(0);
  const tookMs = useRef(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: when the plan's panels have come, and at no other time
  useLayoutEffect(() => {
    if (begun.current > 0) tookMs.current = performance.now() - begun.current;
  }, [plan]);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const show = () => {
      timer = undefined;
      begun.current = performance.now();
      setPlan(shownPlan(editor.store.getState()));
    };
    const stop = editor.store.subscribe((now, before) => {
      if (shownPlan(now) === shownPlan(before)) return;
      if (now.preview === null) {
        clearTimeout(timer);
        show();
      } else timer ??= setTimeout(show, Math.max(CALM_MS, REST * tookMs.current));
    });
    show();
    return () => {
      stop();
      clearTimeout(timer);
    };
  }, [editor]);
  return plan;
}
