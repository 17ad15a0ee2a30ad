/** Gives every panel below it the plan as it is shown now, and the way to change it. */
import { type ReactNode, useMemo } from 'react';
import { useEditor } from '../../store.ts';
import { useCalmPlan } from '../../useCalmPlan.ts';
import { PanelContext } from '../shared/panelContext.ts';
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
    () => ({ plan, setupId, units: plan.units, isReadOnly, carries, run: editor.run }),
    [plan, setupId, isReadOnly, carries, editor],
  );
  return (
    <WorkplaceContext value={workplace}>
      <PanelContext value={data}>{children}</PanelContext>
    </WorkplaceContext>
  );
}
