/**
 * One tab's work on one document: restores the last one, keeps it while it changes, guards it against other tabs, and
 * knows whether the user's own file has it all.
 *
 * The plan itself lives in the editor's store (the host); here is only what surrounds it.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import { readPlan } from '../../plan/read.ts';
import type { Plan } from '../../plan/schema.ts';
import { writePlan } from '../../plan/write.ts';
import { type Files, type PickedFile, planFileName } from '../state/files.ts';
import { type Autosave, type AutosaveState, createAutosave } from './autosave.ts';
import type { OpeningMarks } from './openingMarks.ts';
import type { KeptPlan, PlanStore } from './planStore.ts';
import { type Access, type Channel, holdPlan, type Locks, lockName, type TabLock, UNGUARDED } from './tabLock.ts';

/** The editor's store as far as a session needs it. */
export interface SessionHost {
  readonly plan: () => Plan;
  /** Calls the listener after each change of the plan. Returns what ends it. */
  readonly subscribe: (listener: () => void) => () => void;
  /** Another document, or the same one as another tab left it: history starts anew. */
  readonly replacePlan: (plan: Plan) => void;
}

export interface SessionState {
  /** The document that is open; empty: none yet. */
  readonly id: string;
  readonly access: Access;
  /** Whether this browser has the plan as it is now. */
  readonly kept: AutosaveState;
  /** The user's own file: none yet, as the plan is, or behind it. */
  readonly file: 'none' | 'current' | 'behind';
  readonly fileName: string | null;
  /** The last plan, which broke the page before and so was not brought back by itself; `reopen(id)` opens it all the same. */
  readonly heldBack: EarlierPlan | null;
}

/** A document that was open before and is still kept in this browser. */
export type EarlierPlan = Pick<KeptPlan, 'id' | 'name' | 'keptAt'>;

export interface SessionParts {
  readonly store: PlanStore;
  /** Null in a browser without Web Locks. */
  readonly locks: Locks | null;
  readonly channel: (name: string) => Channel;
  readonly saveFile: Files['save'];
  readonly marks: OpeningMarks;
  readonly now: () => number;
  readonly newId: () => string;
}

export interface Session {
  readonly state: StoreApi<SessionState>;
  /**
   * Puts the last document into the host. False when there is none, none that can be read, or one that broke the page before
   * (`state.heldBack`).
   */
  restore(): Promise<boolean>;
  /**
   * Begins a new document in the host: a new plan, a sample, an opened file. The one before is kept first, unless it was a
   * sample or an empty plan that nobody changed.
   */
  begin(plan: Plan, file?: PickedFile): Promise<void>;
  /** The documents before this one that the browser still keeps, the newest first. */
  earlier(): Promise<EarlierPlan[]>;
  /** Goes back to an earlier document. Null when it is open, else the sentence why not. */
  reopen(id: string): Promise<string | null>;
  /** Saves the user's file. Null when it is saved or the user changed their mind, else the sentence why not. */
  save(elsewhere?: boolean): Promise<string | null>;
  takeOver(): void;
  /** The plan is drawn: call it when the page stands. Until then a visit that ends counts against the plan. */
  drawn(): void;
  /** The plan that is open broke the page: it is not brought back by itself again until it has been drawn. */
  broke(): void;
  /** Keep what waits, now: the page is about to go. */
  flush(): Promise<void>;
  close(): Promise<void>;
}

interface OpenDocument {
  readonly id: string;
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
  autosave: Autosave<Plan>;
}

const earlierOf = ({ id, name, keptAt }: KeptPlan): EarlierPlan => ({ id, name, keptAt });

const givenTextOf = ({ untouched, text }: KeptPlan): string | null => (untouched === true ? text : null);

/** Whether a document is in no file and is as the program gave it. */
const isUntouched = ({ fileText, givenText }: OpenDocument, text: string): boolean =>
  fileText === null && text === givenText;

export function createSession(host: SessionHost, parts: SessionParts): Session {
  const state = createStore<SessionState>(() => ({
    id: '',
    access: 'mine',
    kept: 'kept',
    file: 'none',
    fileName: null,
    heldBack: null,
  }));
  let open: OpenDocument | null = null;
  let unsubscribe: (() => void) | null = null;

  const keep = (document: OpenDocument) => async (plan: Plan) => {
    // What another tab writes must not be overwritten by what was waiting here. While this tab is asked to let go it
    // still holds the lock, and its last change must go in.
    if (document.lock.access === 'theirs' && !document.isYielding) return;
    const text = writePlan(plan);
    if (document === open && document.fileText !== null) {
      const isCurrent = text === document.fileText;
      if (isCurrent) document.filePlan = plan;
      if (plan === host.plan()) state.setState({ file: isCurrent ? 'current' : 'behind' });
    }
    const untouched = isUntouched(document, text);
    const kept: KeptPlan = {
      id: document.id,
      name: plan.name,
      text,
      keptAt: parts.now(),
      fileName: document.fileName,
      fileText: document.fileText,
      ...(document.handle === null ? {} : { handle: document.handle }),
      ...(untouched ? { untouched } : {}),
    };
    await parts.store.keep(kept);
  };

  /** The lock came to this tab after another had it: what that tab kept last is the plan now. */
  async function catchUp(document: OpenDocument): Promise<void> {
    const kept = await parts.store.read(document.id).catch(() => null);
    if (kept === null || document !== open || kept.text === writePlan(host.plan())) return;
    const read = readPlan(kept.text);
    if (read.ok) host.replacePlan(read.plan);
  }

  function openDocument(
    id: string,
    file: Pick<KeptPlan, 'fileName' | 'fileText' | 'handle'>,
    givenText: string | null,
  ): OpenDocument {
    const document: OpenDocument = {
      id,
      handle: file.handle ?? null,
      fileName: file.fileName,
      fileText: file.fileText,
      filePlan: null,
      givenText,
      lock: UNGUARDED,
      isYielding: false,
      autosave: createAutosave<Plan>({
        keep: (plan) => keep(document)(plan),
        onState: (kept) => {
          if (document === open) state.setState({ kept });
        },
      }),
    };
    return document;
  }

  function guard(document: OpenDocument): void {
    let wasTheirs = false;
    state.setState({ access: parts.locks === null ? 'mine' : 'asking' });
    if (parts.locks === null) return;
    document.lock = holdPlan(document.id, {
      locks: parts.locks,
      channel: parts.channel(lockName(document.id)),
      beforeYield: async () => {
        document.isYielding = true;
        await document.autosave.flush();
        document.isYielding = false;
      },
      onAccess: (access) => {
        if (access === 'theirs') wasTheirs = true;
        if (document !== open) return;
        if (access === 'mine' && wasTheirs) {
          // Writable only when it shows what the other tab left.
          void catchUp(document).then(() => state.setState({ access: document.lock.access }));
        } else state.setState({ access });
      },
    });
  }

  async function adopt(document: OpenDocument, plan: Plan): Promise<void> {
    const before = open;
    if (before !== null) {
      await before.autosave.flush();
      before.autosave.stop();
      // A sample that was only looked at would push plans of the user's own out of what is kept.
      const isOurs = before.lock.access !== 'theirs' && isUntouched(before, writePlan(host.plan()));
      if (isOurs) await parts.store.remove(before.id).catch(() => undefined);
      before.lock.release();
    }
    open = document;
    parts.marks.opening(document.id);
    host.replacePlan(plan);
    const text = document.fileText === null ? null : writePlan(host.plan());
    if (text !== null && text === document.fileText) document.filePlan = host.plan();
    state.setState({
      id: document.id,
      kept: 'kept',
      fileName: document.fileName,
      file: text === null ? 'none' : text === document.fileText ? 'current' : 'behind',
    });
    guard(document);
    unsubscribe?.();
    let last = host.plan();
    unsubscribe = host.subscribe(() => {
      const now = host.plan();
      if (now === last || document !== open) return;
      last = now;
      if (document.lock.access === 'theirs') return;
      if (document.fileText !== null) state.setState({ file: now === document.filePlan ? 'current' : 'behind' });
      document.autosave.changed(now);
    });
  }

  return {
    state,
    async restore() {
      const kept = await parts.store.latest().catch(() => null);
      if (kept === null) return false;
      if (parts.marks.isHeldBack(kept.id)) {
        state.setState({ heldBack: earlierOf(kept) });
        return false;
      }
      const read = readPlan(kept.text);
      if (!read.ok) return false;
      await adopt(openDocument(kept.id, kept, givenTextOf(kept)), read.plan);
      return true;
    },
    async begin(plan, file) {
      // In this program's own writing: a file indented by hand holds the same plan.
      const text = writePlan(plan);
      const document = openDocument(
        parts.newId(),
        {
          fileName: file?.name ?? null,
          fileText: file === undefined ? null : text,
          handle: file?.handle ?? undefined,
        },
        file === undefined ? text : null,
      );
      await adopt(document, plan);
      document.autosave.changed(host.plan());
    },
    async earlier() {
      const kept = await parts.store.all().catch(() => []);
      return kept.filter(({ id }) => id !== open?.id).map(earlierOf);
    },
    async reopen(id) {
      const kept = await parts.store.read(id).catch(() => null);
      if (kept === null) return 'This browser no longer keeps that plan.';
      const read = readPlan(kept.text);
      if (!read.ok) return read.problem.sentence;
      const document = openDocument(kept.id, kept, givenTextOf(kept));
      await adopt(document, read.plan);
      document.autosave.changed(host.plan());
      return null;
    },
    async save(elsewhere = false) {
      const document = open;
      if (document === null) return 'There is no plan to save.';
      const plan = host.plan();
      const text = writePlan(plan);
      const fileName = document.fileName ?? planFileName(plan.name);
      const saved = await parts.saveFile(text, { fileName, handle: document.handle, elsewhere });
      if (!saved.ok) return saved.sentence;
      document.handle = saved.handle;
      document.fileName = saved.name;
      document.fileText = text;
      document.filePlan = plan;
      if (document === open) {
        state.setState({ fileName: saved.name, file: host.plan() === plan ? 'current' : 'behind' });
        document.autosave.changed(host.plan());
      }
      return null;
    },
    takeOver: () => open?.lock.takeOver(),
    drawn: () => {
      if (open !== null) parts.marks.opened(open.id);
    },
    broke: () => {
      if (open !== null) parts.marks.broke(open.id);
    },
    flush: async () => open?.autosave.flush(),
    async close() {
      unsubscribe?.();
      unsubscribe = null;
      if (open === null) return;
      await open.autosave.flush();
      open.autosave.stop();
      open.lock.release();
      open = null;
    },
  };
}
