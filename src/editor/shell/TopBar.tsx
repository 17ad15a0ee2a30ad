/** The bar at the top on the editor's state: opens, saves, undoes, and shows the dialogs that belong to the document. */
import { lazy, type ReactNode, Suspense, useCallback, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { newPlan } from '../../plan/newPlan.ts';
import { readPlan } from '../../plan/read.ts';
import type { PickResult } from '../state/files.ts';
import { KEYS } from '../state/keys.ts';
import { usePanel } from '../state/panelContext.ts';
import { useEditor } from '../state/store.ts';
import { droppedFile, pickPlanFile } from '../storage/planFile.ts';
import type { EarlierPlan } from '../storage/session.ts';
import { FileBar } from './file/FileBar.tsx';
import { SAMPLES, type Sample } from './file/samples.ts';
import { openSample, useWorkplace } from './workplace.ts';

// What most visits never open is loaded when it is opened.
const BrokenFileDialog = lazy(async () => ({
  default: (await import('./file/BrokenFileDialog.tsx')).BrokenFileDialog,
}));
const HelpDialog = lazy(async () => ({ default: (await import('./file/HelpDialog.tsx')).HelpDialog }));
const SheetsDialog = lazy(async () => ({ default: (await import('../panels/sheets/SheetsDialog.tsx')).SheetsDialog }));

type Open =
  | { readonly dialog: 'sheet' | 'help' }
  | { readonly dialog: 'broken'; readonly fileName: string; readonly sentence: string };

/** The day on the user's own calendar, YYYY-MM-DD. */
function today(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** So many earlier plans stand in the menu: it has to fit on a telephone. */
const SHOWN_EARLIER = 5;

export interface TopBarProps {
  /** More tools of the page, before help. */
  readonly children?: ReactNode;
}

export function TopBar({ children }: TopBarProps) {
  const workplace = useWorkplace();
  const { editor, session } = workplace;
  const { plan, units, run } = usePanel();
  const state = useStore(session.state);
  const theme = useEditor(editor, (one) => one.theme);
  const canUndo = useEditor(editor, ({ history }) => history.past.length > 0);
  const canRedo = useEditor(editor, ({ history }) => history.future.length > 0);
  const [open, setOpen] = useState<Open | null>(null);
  const [isOver, setIsOver] = useState(false);
  const [earlier, setEarlier] = useState<readonly EarlierPlan[]>([]);
  const close = () => setOpen(null);
  const fail = (fileName: string, sentence: string) => setOpen({ dialog: 'broken', fileName, sentence });

  const take = useCallback(
    async (picked: PickResult | null) => {
      if (picked === null) return;
      const say = (fileName: string, sentence: string) => setOpen({ dialog: 'broken', fileName, sentence });
      if (!picked.ok) {
        if (picked.sentence !== null) say('', picked.sentence);
        return;
      }
      const { file } = picked;
      const read = readPlan(file.text);
      if (read.ok) await session.begin(read.plan, file);
      else say(file.name, read.problem.sentence);
    },
    [session],
  );
  const save = useCallback(
    async (elsewhere: boolean) => {
      const sentence = await session.save(elsewhere);
      if (sentence !== null) setOpen({ dialog: 'broken', fileName: '', sentence });
    },
    [session],
  );
  const sample = (one: Sample) => openSample(workplace, one).catch((problem: Error) => fail(one.name, problem.message));

  const reopen = async (id: string) => {
    const sentence = await session.reopen(id);
    if (sentence !== null) fail('', sentence);
  };

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
    const hasFile = (event: DragEvent) => event.dataTransfer?.types.includes('Files') === true;
    const over = (event: DragEvent) => {
      if (!hasFile(event)) return;
      event.preventDefault();
      setIsOver(true);
    };
    const leave = (event: DragEvent) => {
      if (event.relatedTarget === null) setIsOver(false);
    };
    const drop = (event: DragEvent) => {
      setIsOver(false);
      if (!hasFile(event) || event.dataTransfer === null) return;
      event.preventDefault();
      void droppedFile(event.dataTransfer).then(take);
    };
    window.addEventListener('dragover', over);
    window.addEventListener('dragleave', leave);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', over);
      window.removeEventListener('dragleave', leave);
      window.removeEventListener('drop', drop);
    };
  }, [take]);

  return (
    <>
      <FileBar
        planName={plan.name}
        session={state}
        canUndo={canUndo}
        canRedo={canRedo}
        onUndo={editor.undo}
        onRedo={editor.redo}
        onNew={() => void session.begin(newPlan('New plan', units))}
        onOpen={() => void pickPlanFile().then(take)}
        onSave={(elsewhere) => void save(elsewhere)}
        earlier={earlier.slice(0, SHOWN_EARLIER)}
        onMenu={() => void session.earlier().then(setEarlier)}
        onReopen={(id) => void reopen(id)}
        samples={SAMPLES}
        onSample={(one) => void sample(one)}
        onSheet={() => setOpen({ dialog: 'sheet' })}
        units={units}
        onUnits={(next) => void run({ type: 'setUnits', units: next })}
        theme={theme}
        onTheme={(next) => editor.set({ theme: next })}
        onHelp={() => setOpen({ dialog: 'help' })}
        onTakeOver={session.takeOver}
      >
        {children}
      </FileBar>
      {isOver && (
        <div className="drop-veil" aria-hidden="true">
          Let go to open the plan
        </div>
      )}
      <Suspense>
        {open?.dialog === 'sheet' && <SheetsDialog today={today()} onClose={close} />}
        {open?.dialog === 'help' && <HelpDialog keys={KEYS} onClose={close} />}
        {open?.dialog === 'broken' && (
          <BrokenFileDialog fileName={open.fileName} sentence={open.sentence} onClose={close} />
        )}
      </Suspense>
    </>
  );
}
