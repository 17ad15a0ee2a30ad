/** What ties panels to the page: the editor's state, and the session around its document. */
import { createContext, useContext } from 'react';
import { readPlan } from '../../plan/read.ts';
import { arrive } from '../state/parts.ts';
import type { Editor } from '../state/store.ts';
import { browserSession } from '../storage/browserSession.ts';
import type { Session } from '../storage/session.ts';
import { SAMPLES, type Sample } from './file/samples.ts';

export interface Workplace {
  readonly editor: Editor;
  readonly session: Session;
}

export const WorkplaceContext = createContext<Workplace | null>(null);

export function useWorkplace(): Workplace {
  const workplace = useContext(WorkplaceContext);
  if (workplace === null) throw new Error('There is no WorkplaceContext.');
  return workplace;
}

/** The sample that a first visit shows. */
const FIRST_SAMPLE = 'one-up-two-down';

/** Opens a sample as a document of its own. Throws (rejects): when the sample's file did not come, or is broken. */
export async function openSample({ session }: Workplace, sample: Sample): Promise<void> {
  const read = readPlan(await arrive(sample.text()));
  if (!read.ok) throw new Error(read.problem.sentence);
  await session.begin(read.plan);
}

/**
 * A session around the editor: its last document is restored, or a sample opened; the editor is read-only while another
 * tab writes. Resolves when there is a plan to look at.
 */
export async function startWork(editor: Editor): Promise<Workplace> {
  const session = browserSession({
    plan: editor.plan,
    subscribe: (listener) =>
      editor.store.subscribe((now, before) => {
        if (now.history.plan !== before.history.plan) listener();
      }),
    replacePlan: editor.replacePlan,
    bringBack: editor.bringBack,
  });
  const follow = () => editor.setReadOnly(session.state.getState().access === 'theirs');
  session.state.subscribe((now, before) => {
    if (now.access !== before.access) follow();
  });
  const workplace = { editor, session };
  if (!(await session.restore())) {
    const sample = SAMPLES.find(({ id }) => id === FIRST_SAMPLE) ?? SAMPLES[0];
    if (sample !== undefined) await openSample(workplace, sample);
  }
  follow();
  return workplace;
}
