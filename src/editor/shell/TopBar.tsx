/** The bar at the top on the editor's state: opens, saves, undoes, and shows the dialogs that belong to the document. */
import { Suspense, useCallback, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { newPlan } from '../../plan/newPlan.ts';
import { readPlan } from '../../plan/read.ts';
import { lazyPart } from '../panels/shared/lazyPart.tsx';
import { type PickResult, PLAN_MARK } from '../state/files.ts';
import { usePanel } from '../state/panelContext.ts';
import { arrive } from '../state/parts.ts';
import { droppedFile, pickPlanFile } from '../storage/planFile.ts';
import { FileBar } from './file/FileBar.tsx';
import { openSample, useWorkplace } from './workplace.ts';

// What most visits never open is loaded when it is opened.
const BrokenFileDialog = lazyPart(async () => (await import('./file/BrokenFileDialog.tsx')).BrokenFileDialog);
const LinkDialog = lazyPart(async () => (await import('./file/LinkDialog.tsx')).LinkDialog);
const HelpDialog = lazyPart(async () => (await import('./file/HelpDialog.tsx')).HelpDialog);
const SheetsDialog = lazyPart(async () => (await import('../panels/sheets/SheetsDialog.tsx')).SheetsDialog);
const StarterDialog = lazyPart(async () => (await import('./file/StarterDialog.tsx')).StarterDialog);
const PlansDialog = lazyPart(async () => (await import('./file/PlansDialog.tsx')).PlansDialog);
const VersionsDialog = lazyPart(async () => (await import('./file/VersionsDialog.tsx')).VersionsDialog);
const QuestionDialog = lazyPart(async () => (await import('./file/QuestionDialog.tsx')).QuestionDialog);

type Open =
  | { readonly dialog: 'sheet' | 'help' | 'link' | 'plans' | 'versions' | 'starter' }
  | { readonly dialog: 'broken'; readonly fileName: string; readonly sentence: string };

/** The day on the user's own calendar, YYYY-MM-DD. */
function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

export function TopBar() {
  const workplace = useWorkplace();
  const { session } = workplace;
  const { units } = usePanel();
  const [open, setOpen] = useState<Open | null>(null);
  const [isOver, setIsOver] = useState(false);
  const question = useStore(session.state, (state) => state.question);
  const close = () => setOpen(null);
  /** Says what went wrong; null: nothing did, or the user changed their mind. */
  const tell = useCallback((sentence: string | null, fileName = '') => {
    if (sentence !== null) setOpen({ dialog: 'broken', fileName, sentence });
  }, []);

  const take = useCallback(
    async (picked: PickResult | null) => {
      if (picked === null) return;
      if (!picked.ok) return tell(picked.sentence);
      const { file } = picked;
      const read = readPlan(file.text);
      if (read.ok) await session.begin(read.plan, file);
      else tell(read.problem.sentence, file.name);
    },
    [session, tell],
  );
  const save = useCallback(async (elsewhere: boolean) => tell(await session.save(elsewhere)), [session, tell]);

  // Saving, opening and help work wherever the focus is: browsers would save the page itself.
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key === 'F1') {
        event.preventDefault();
        setOpen({ dialog: 'help' });
        return;
      }
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key !== 's' && key !== 'o') return;
      event.preventDefault();
      if (key === 'o') void pickPlanFile().then(take);
      // A field that is being typed in commits when it is left.
      else {
        (document.activeElement as HTMLElement | null)?.blur?.();
        void save(event.shiftKey);
      }
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [save, take]);

  // A file dropped anywhere on the page is opened, not shown in the page's place.
  useEffect(() => {
    const events = new AbortController();
    const on = (type: 'dragover' | 'dragleave' | 'drop', listener: (event: DragEvent) => void) =>
      window.addEventListener(type, listener, { signal: events.signal });
    const hasFile = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;
    on('dragover', (event) => {
      if (!hasFile(event)) return;
      event.preventDefault();
      setIsOver(true);
    });
    on('dragleave', (event) => {
      if (event.relatedTarget === null) setIsOver(false);
    });
    on('drop', (event) => {
      setIsOver(false);
      if (!hasFile(event) || event.dataTransfer === null) return;
      event.preventDefault();
      void droppedFile(event.dataTransfer).then(take);
    });
    return () => events.abort();
  }, [take]);

  // A plan in the page's address, at the start or put there later. It is taken out at once: a reload is no second opening.
  useEffect(() => {
    const openHash = () => {
      const { hash, pathname, search } = location;
      if (!hash.startsWith(PLAN_MARK)) return;
      history.replaceState(null, '', pathname + search);
      void arrive(import('./file/openLink.ts'))
        .then(({ openLink }) => openLink(session, hash))
        .catch(({ message }: Error) => message)
        .then((sentence) => tell(sentence, 'Link'));
    };
    openHash();
    window.addEventListener('hashchange', openHash);
    return () => window.removeEventListener('hashchange', openHash);
  }, [session, tell]);

  return (
    <>
      <FileBar
        onNew={() => void session.begin(newPlan('New plan', units))}
        onStarter={() => setOpen({ dialog: 'starter' })}
        onOpen={() => void pickPlanFile().then(take)}
        onSave={(elsewhere) => void save(elsewhere)}
        onPlans={() => setOpen({ dialog: 'plans' })}
        onVersions={() => setOpen({ dialog: 'versions' })}
        onSample={(one) => void openSample(workplace, one).catch(({ message }: Error) => tell(message, one.name))}
        onSheet={() => setOpen({ dialog: 'sheet' })}
        onLink={() => setOpen({ dialog: 'link' })}
        onHelp={() => setOpen({ dialog: 'help' })}
      />
      {isOver && (
        <div className="drop-veil" aria-hidden="true">
          Let go to open the plan
        </div>
      )}
      <Suspense>
        {open?.dialog === 'sheet' && <SheetsDialog today={today()} onClose={close} />}
        {open?.dialog === 'link' && <LinkDialog onClose={close} />}
        {open?.dialog === 'starter' && (
          <StarterDialog units={units} onMake={(plan) => void session.begin(plan)} onClose={close} />
        )}
        {open?.dialog === 'help' && <HelpDialog onClose={close} />}
        {open?.dialog === 'plans' && <PlansDialog today={today()} tell={tell} onClose={close} />}
        {open?.dialog === 'versions' && <VersionsDialog tell={tell} onClose={close} />}
        {question !== null && <QuestionDialog question={question} tell={tell} />}
        {open?.dialog === 'broken' && (
          <BrokenFileDialog fileName={open.fileName} sentence={open.sentence} onClose={close} />
        )}
      </Suspense>
    </>
  );
}
