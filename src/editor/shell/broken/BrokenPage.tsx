/** A plan that broke the page: it can be saved, taken back a step, or left for another one. */
import { Download, FilePlus2, History, RotateCcw, Undo2 } from 'lucide-react';
import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { newPlan } from '../../../plan/newPlan.ts';
import { writePlan } from '../../../plan/write.ts';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { planFileName } from '../../state/files.ts';
import { useEditor } from '../../state/store.ts';
import { browserFiles } from '../../storage/browserFiles.ts';
import type { KeptPlan } from '../../storage/planStore.ts';
import type { Workplace } from '../workplace.ts';
import './broken.css';

export interface BrokenPageProps {
  readonly workplace: Workplace;
  readonly problem: unknown;
}

export function BrokenPage({ workplace: { editor, session }, problem }: BrokenPageProps) {
  const plan = useEditor(editor, ({ history }) => history.plan);
  const canUndo = useEditor(editor, ({ history, isReadOnly }) => history.past.length > 0 && !isReadOnly);
  const [earlier, setEarlier] = useState<readonly Pick<KeptPlan, 'id' | 'name'>[]>([]);
  const question = useStore(session.state, (state) => state.question);
  const [said, setSaid] = useState<string | null>(null);
  useEffect(() => {
    const others = (kept: readonly KeptPlan[]) => kept.filter(({ id }) => id !== session.state.getState().id);
    session.store.all().then(
      (kept) => setEarlier(others(kept)),
      () => undefined,
    );
  }, [session]);
  const save = () =>
    browserFiles.download(new Blob([writePlan(plan)], { type: 'application/json' }), planFileName(plan.name));
  return (
    <main className="broken-page">
      <h1>“{plan.name || 'Unnamed plan'}” broke the page</h1>
      <p role="alert">
        Nothing in it is lost: this browser keeps the plan as it is, and does not open it by itself again.
      </p>
      <div className="broken-ways">
        <TextButton icon={Download} onPress={save}>
          Download the plan
        </TextButton>
        <TextButton icon={Undo2} look="main" isDisabled={!canUndo} onPress={editor.undo}>
          Undo the last step
        </TextButton>
        <TextButton icon={RotateCcw} onPress={() => editor.fail(null)}>
          Try again
        </TextButton>
        <TextButton icon={FilePlus2} onPress={() => void session.begin(newPlan('New plan', plan.units))}>
          New plan
        </TextButton>
      </div>
      {question?.kind === 'unkept' && (
        <section role="alert">
          <p>
            This browser could not keep the last changes to “{question.name}”. Download the plan first, or go on without
            them.
          </p>
          <div className="broken-ways">
            <TextButton onPress={() => question.answer(true)}>Go on without them</TextButton>
            <TextButton onPress={() => question.answer(false)}>Stay with this plan</TextButton>
          </div>
        </section>
      )}
      {earlier.length > 0 && (
        <section aria-labelledby="broken-earlier">
          <h2 id="broken-earlier">Other plans kept here</h2>
          <ul>
            {earlier.map(({ id, name }) => (
              <li key={id}>
                <TextButton icon={History} look="quiet" onPress={() => void session.reopen(id).then(setSaid)}>
                  {name || 'Unnamed plan'}
                </TextButton>
              </li>
            ))}
          </ul>
        </section>
      )}
      {said !== null && <p role="status">{said}</p>}
      <p className="broken-why">What went wrong: {problem instanceof Error ? problem.message : String(problem)}</p>
    </main>
  );
}
