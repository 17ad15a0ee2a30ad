/** Gives every panel below it the plan as it is shown now, and the way to change it. */
import { type ReactNode, useMemo } from 'react';
import { PanelContext } from '../state/panelContext.ts';
import { useEditor } from '../state/store.ts';
import { useCalmPlan } from '../state/useCalmPlan.ts';
import { browserFiles } from '../storage/browserFiles.ts';
import { type Workplace, WorkplaceContext } from './workplace.ts';

export interface PanelProviderProps {
  readonly workplace: Workplace;
  readonly children: ReactNode;
}

export function PanelProvider({ workplace, children }: PanelProviderProps) {
  const { editor } = workplace;
  // A drag is shown here as well, but the drawing goes first: panels follow a few times a second.
  const plan = useCalmPlan(editor);
  const chosen = useEditor(editor, ({ setupId }) => setupId);
  const isReadOnly = useEditor(editor, (state) => state.isReadOnly);
  const carries = useEditor(editor, (state) => state.carries);
  // For a moment the plan may be the one before the setup was added.
  const setupId = Object.hasOwn(plan.setups, chosen) ? chosen : plan.order[0];
  const data = useMemo(
    () => ({ plan, setupId, units: plan.units, isReadOnly, carries, run: editor.run, editor, files: browserFiles }),
    [plan, setupId, isReadOnly, carries, editor],
  );
  return (
    <WorkplaceContext value={workplace}>
      <PanelContext value={data}>{children}</PanelContext>
    </WorkplaceContext>
  );
}
