/**
 * One open document on its way into the store: where its journal stands, what was last written whole, which states of it are
 * kept. What is shown, and who may write, is the session's (session.ts).
 */
import type { Plan } from '../../plan/schema.ts';
import { writePlan } from '../../plan/write.ts';
import { type Autosave, type AutosaveState, createAutosave } from './autosave.ts';
import { BEGINNING, type JournalEntry, type JournalPoint, nextEntry } from './journal.ts';
import { CONFLICT, type KeptPlan, type PlanStore } from './planStore.ts';
import { type TabLock, UNGUARDED } from './tabLock.ts';
import { type KeptVersion, type Packed, VERSION_STEP } from './versions.ts';

/** A state of the plan that may become a version. */
interface PlanState {
  readonly n: number;
  readonly text: string;
  readonly keptAt: number;
}

export interface OpenDocument {
  id: string;
  handle: FileSystemFileHandle | null;
  fileName: string | null;
  /** The file's text as it was last read or written. */
  fileText: string | null;
  /** The plan that text was made of, so that most comparisons need no text. */
  filePlan: Plan | null;
  /** The text that the program gave it, as a sample or an empty plan has; null: it is the user's from the beginning. */
  readonly givenText: string | null;
  lock: TabLock;
  isYielding: boolean;
  /** How far the plan has come here, and as far as this page knows in the store; null: what is there is written over. */
  at: JournalPoint;
  stored: JournalPoint | null;
  /** The newest state that is kept as a version. */
  versionAt: number;
  /** The plan as it was opened, until a change makes a version of it. */
  opened: PlanState | null;
  /** The next writing keeps the state as a version, however few its changes. */
  isMarked: boolean;
  readonly autosave: Autosave<Plan, JournalEntry>;
}

export interface DocumentParts {
  readonly store: PlanStore;
  readonly now: () => number;
  readonly newId: () => string;
  readonly pack: (text: string) => Promise<Packed>;
  readonly onState: (document: OpenDocument, state: AutosaveState) => void;
  /** The plan's text, before it is written. */
  readonly onText: (document: OpenDocument, plan: Plan, text: string) => void;
  /** Another page wrote the plan, and nothing keeps them apart: what is here goes on as a plan of its own. */
  readonly onParted: (document: OpenDocument) => void;
}

/** What a document begins with: from a file, from the program, or from the store. */
export type Origin = Pick<KeptPlan, 'fileName' | 'fileText' | 'handle'> & {
  readonly id: string;
  readonly text: string;
  readonly givenText: string | null;
  /** Where its journal stands; null: the store does not have it yet. */
  readonly at: JournalPoint | null;
  readonly stored: JournalPoint | null;
};

/** Whether a document is in no file and is as the program gave it. */
export const isUntouched = ({ fileText, givenText }: OpenDocument, text: string): boolean =>
  fileText === null && text === givenText;

export function openDocument(origin: Origin, parts: DocumentParts): OpenDocument {
  const { store } = parts;
  const isTheirs = () => document.lock.access === 'theirs' && !document.isYielding;

  async function versionsOf(states: readonly PlanState[]): Promise<KeptVersion[]> {
    const made = states.map(async ({ text, ...rest }) => ({
      plan: document.id,
      ...rest,
      text: await parts.pack(text),
    }));
    return Promise.all(made);
  }

  /**
   * What another tab writes must not be overwritten by what was waiting here. While this tab is asked to let go it still holds
   * the lock, and its last change must go in.
   */
  async function keep(plan: Plan): Promise<void> {
    if (isTheirs()) return;
    const { at, opened, versionAt } = document;
    const text = writePlan(plan);
    parts.onText(document, plan, text);
    const untouched = isUntouched(document, text);
    const keptAt = parts.now();
    const states: PlanState[] = [];
    if (opened !== null && opened.n < at.n) states.push(opened);
    const isDue = document.isMarked || at.n - Math.max(versionAt, opened?.n ?? 0) >= VERSION_STEP;
    if (isDue && at.n > versionAt) states.push({ n: at.n, text, keptAt });
    const kept: KeptPlan = {
      id: document.id,
      name: plan.name,
      text,
      at,
      keptAt,
      fileName: document.fileName,
      fileText: document.fileText,
      ...(document.handle === null ? {} : { handle: document.handle }),
      ...(untouched ? { untouched } : {}),
    };
    try {
      await store.keep(kept, document.stored, await versionsOf(states));
    } catch (problem) {
      if ((problem as Error).name !== CONFLICT) throw problem;
      document.id = parts.newId();
      document.stored = null;
      await store.keep({ ...kept, id: document.id }, null, await versionsOf(states));
      parts.onParted(document);
    }
    document.stored = at;
    document.isMarked = false;
    if (states.length === 0) return;
    document.opened = null;
    document.versionAt = states[states.length - 1].n;
  }

  const document: OpenDocument = {
    id: origin.id,
    handle: origin.handle ?? null,
    fileName: origin.fileName,
    fileText: origin.fileText,
    filePlan: null,
    givenText: origin.givenText,
    lock: UNGUARDED,
    isYielding: false,
    at: origin.at ?? BEGINNING,
    stored: origin.stored,
    versionAt: -1,
    opened: { n: (origin.at ?? BEGINNING).n, text: origin.text, keptAt: parts.now() },
    isMarked: false,
    autosave: createAutosave<Plan, JournalEntry>({
      isBased: origin.stored !== null,
      keep,
      append: async (entries) => {
        // A plan that was parted from another page's has another id than when the line was made.
        if (isTheirs()) return;
        await store.append(entries.map((entry) => ({ ...entry, plan: document.id })));
        const { n, sum } = entries[entries.length - 1];
        document.stored = { n, sum };
      },
      onState: (state) => parts.onState(document, state),
    }),
  };
  return document;
}

/** The plan changed from one object to another. */
export function noteChange(document: OpenDocument, before: Plan, after: Plan): void {
  const entry = nextEntry(document.id, document.at, before, after);
  if (entry !== null) document.at = { n: entry.n, sum: entry.sum };
  document.autosave.changed(after, entry);
}
