/**
 * The setup's lists as they stand at the moment of a change, not as they were last drawn: a field that is left by moving its
 * line commits first, and the move must not undo that.
 */
import type { SetLists } from '../../../plan/commands/lists.ts';
import { usePanel } from '../../state/panelContext.ts';

export function useLists() {
  const { editor, setupId, run } = usePanel();
  return {
    now: () => {
      const plan = editor.plan();
      return { plan, setup: plan.setups[setupId] };
    },
    /** Writes lists; null, or why it was refused. */
    write: (set: SetLists['set']) => run({ type: 'setLists', setup: setupId, set }),
  };
}
