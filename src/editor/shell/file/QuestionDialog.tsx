/** What only the user can say: go on without what is kept nowhere, write over another program's work; and what was not opened. */
import { readPlan } from '../../../plan/read.ts';
import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import { planFileName } from '../../state/files.ts';
import { usePanel } from '../../state/panelContext.ts';
import type { PassedOver, Question } from '../../storage/session.ts';
import { useWorkplace } from '../workplace.ts';

export interface QuestionDialogProps {
  readonly question: Question;
  /** Says what went wrong; null: nothing did. */
  readonly tell: (sentence: string | null) => void;
}

export function QuestionDialog({ question, tell }: QuestionDialogProps) {
  const { session } = useWorkplace();
  switch (question.kind) {
    case 'unkept':
      return <Unkept {...question} tell={tell} />;
    case 'fileChanged':
      return <FileChanged {...question} tell={tell} />;
    case 'passedOver':
      return <NotOpened plans={question.plans} tell={tell} />;
    case 'said':
      return (
        <PanelDialog title="About what is kept" alert onClose={session.settle}>
          <p className="alert-sentence">{question.sentence}</p>
          <div className="dialog-buttons">
            <TextButton look="main" autoFocus onPress={session.settle}>
              Back to the plan
            </TextButton>
          </div>
        </PanelDialog>
      );
  }
}

type Kind<K extends Question['kind']> = Extract<Question, { kind: K }> & Pick<QuestionDialogProps, 'tell'>;

function Unkept({ name, answer, tell }: Kind<'unkept'>) {
  const { session } = useWorkplace();
  const save = async () => {
    const sentence = await session.save();
    // A picker that was closed is no answer: the question stays.
    if (sentence === null && !session.isUnkept()) answer(true);
    else tell(sentence);
  };
  return (
    <PanelDialog title={`“${name}” is kept nowhere`} alert onClose={() => answer(false)}>
      <p className="alert-sentence">
        This browser could not keep the last changes: it has no room, or lets this page keep nothing. They are on this
        page alone, and gone when another plan takes its place.
      </p>
      <div className="dialog-buttons">
        <TextButton onPress={() => answer(true)}>Go on without them</TextButton>
        <TextButton onPress={() => answer(false)}>Stay with this plan</TextButton>
        <TextButton look="main" autoFocus onPress={() => void save()}>
          Save to a file and go on
        </TextButton>
      </div>
    </PanelDialog>
  );
}

function FileChanged({ theirs, tell }: Kind<'fileChanged'>) {
  const { session } = useWorkplace();
  const write = (elsewhere: boolean) => {
    session.settle();
    void session.save(elsewhere, true).then(tell);
  };
  const read = readPlan(theirs.text);
  return (
    <PanelDialog title={`“${theirs.name}” is not as it was`} alert onClose={session.settle}>
      <p className="alert-sentence">
        Another program, or another tab, has changed the file since it was opened here. Nothing was saved yet.
        {!read.ok && ' What is in it now is no plan that this program reads.'}
      </p>
      <div className="dialog-buttons">
        <TextButton onPress={() => write(false)}>Write over it</TextButton>
        {read.ok && (
          <TextButton
            onPress={() => {
              session.settle();
              void session.begin(read.plan, theirs);
            }}
          >
            Open what is in the file
          </TextButton>
        )}
        <TextButton onPress={session.settle}>Save nothing</TextButton>
        <TextButton look="main" autoFocus onPress={() => write(true)}>
          Save to another file …
        </TextButton>
      </div>
    </PanelDialog>
  );
}

function NotOpened({ plans, tell }: { readonly plans: readonly PassedOver[] } & Pick<QuestionDialogProps, 'tell'>) {
  const { session } = useWorkplace();
  const { files } = usePanel();
  return (
    <PanelDialog
      title={plans.length === 1 ? `“${plans[0].name}” was not opened` : `${plans.length} plans were not opened`}
      alert
      onClose={session.settle}
    >
      <p className="hint">What was not opened is still kept in this browser, as it was.</p>
      <ul className="kept-plans">
        {plans.map(({ id, name, sentence, text, canOpen }) => (
          <li key={id}>
            {plans.length > 1 && <b>{name || 'Unnamed plan'}</b>}
            <p className="alert-sentence">{sentence}</p>
            <div className="dialog-buttons">
              <TextButton onPress={() => files.download(new Blob([text]), planFileName(name))}>Download it</TextButton>
              {canOpen && (
                <TextButton
                  onPress={() => {
                    session.settle();
                    void session.reopen(id).then(tell);
                  }}
                >
                  Open it all the same
                </TextButton>
              )}
            </div>
          </li>
        ))}
      </ul>
      <div className="dialog-buttons">
        <TextButton look="main" autoFocus onPress={session.settle}>
          Go on
        </TextButton>
      </div>
    </PanelDialog>
  );
}
