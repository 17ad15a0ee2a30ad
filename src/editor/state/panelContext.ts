/** What every panel is given: the plan as it stands, how the user reads lengths, and the one way to change it. */
import { createContext, useContext } from 'react';
import type { Command } from '../../plan/commands/index.ts';
import type { Plan, Setup } from '../../plan/schema.ts';
import type { DisplayUnit } from '../../units.ts';
import type { Files } from './files.ts';
import type { Editor } from './store.ts';

/**
 * Carries out a command. The answer is null, or the sentence why it was refused; the plan is then untouched.
 * Commands with the same gesture undo as one step.
 */
type Run = (command: Command, gesture?: string) => string | null;

export interface PanelData {
  readonly plan: Plan;
  readonly setupId: string;
  readonly units: DisplayUnit;
  /** Another tab writes this plan. */
  readonly isReadOnly: boolean;
  /** Whether what hangs on a piece moves with it. */
  readonly carries: boolean;
  readonly run: Run;
  readonly editor: Editor;
  /** The user's own files, and the stock list that the browser keeps. */
  readonly files: Files;
}

export const PanelContext = createContext<PanelData | null>(null);

export function usePanel(): PanelData & { readonly setup: Setup } {
  const data = useContext(PanelContext);
  if (data === null) throw new Error('There is no PanelContext.');
  return { ...data, setup: data.plan.setups[data.setupId] };
}
