/**
 * What stands in the page's place when a plan breaks it: in rendering, in layout and checks, or while the drawing is painted. The plan
 * is marked, so that it is not brought back by itself, and the page says what can be done with it.
 */
import { lazy, type ReactNode, Suspense, useEffect } from 'react';
import { Boundary } from '../../state/Boundary.tsx';
import { PaintingProblem } from '../../state/failure.ts';
import { liveOf } from '../../state/live.ts';
import { runsOf } from '../../state/marks.ts';
import { useEditor } from '../../state/store.ts';
import type { Workplace } from '../workplace.ts';

/** Seldom needed, so no part of the first visit. */
const BrokenPage = lazy(async () => ({ default: (await import('./BrokenPage.tsx')).BrokenPage }));

export interface PageBoundaryProps {
  readonly workplace: Workplace;
  readonly children: ReactNode;
}

export function PageBoundary({ workplace, children }: PageBoundaryProps) {
  const { editor, session } = workplace;
  const failure = useEditor(editor, (state) => state.failure);

  useEffect(() => {
    // Outside rendering an error is the plan's where the plan cannot be laid out, checked or drawn; else it ended one gesture.
    const onError = ({ error }: ErrorEvent) => {
      if (error instanceof PaintingProblem) return editor.fail(error);
      try {
        const live = liveOf(editor.plan(), editor.store.getState().setupId);
        runsOf(live);
        void live.checked.findings;
      } catch (problem) {
        editor.fail(problem);
      }
    };
    window.addEventListener('error', onError);
    return () => window.removeEventListener('error', onError);
  }, [editor]);

  useEffect(() => {
    if (failure !== null) session.broke();
  }, [failure, session]);

  if (failure === null) return <Boundary onError={editor.fail}>{children}</Boundary>;
  return (
    <Suspense fallback={<p className="cannot-start">This plan broke the page. It is kept as it is.</p>}>
      <BrokenPage workplace={workplace} problem={failure} />
    </Suspense>
  );
}
