/**
 * The setup's lists as they stand at the moment of a change, not as they were last drawn: a field that is left by moving its
 * line commits first, and the move must not undo that.
 */
import type { SetLists } from '../../../plan/commands/lists.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';

export interface Lists {
  readonly now: () => { readonly plan: Plan; readonly setup: Setup };
  /** Writes lists; null, or why it was refused. */
  readonly write: (set: SetLists['set'], gesture?: string) => string | null;
}

export function useLists(): Lists {
  const { editor, setupId, run } = usePanel();
  return {
    now: () => {
      const plan = editor.plan();
      return { plan, setup: plan.setups[setupId] };
    },
    write: (set, gesture) => run({ type: 'setLists', setup: setupId, set }, gesture),
  };
}
