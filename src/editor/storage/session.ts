/**
 * One tab's work on one document: restores the last one, keeps it while it changes, guards it against other tabs, and
 * knows whether the user's own file has it all. What is kept nowhere is not left without the user's word.
 *
 * The plan itself lives in the editor's store (the host); here is only what surrounds it.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import { readPlan } from '../../plan/read.ts';
import type { Plan } from '../../plan/schema.ts';
import { writePlan } from '../../plan/write.ts';
import { type Files, type PickedFile, planFileName } from '../state/files.ts';
import type { AutosaveState } from './autosave.ts';
import { isUntouched, noteChange, type OpenDocument, type Origin, openDocument } from './openDocument.ts';
import type { OpeningMarks } from './openingMarks.ts';
import { unpack } from './packed.ts';
import type { KeptPlan, PlanStore, StoredPlan } from './planStore.ts';
import type { Replayed } from './replay.ts';
import { type Access, type Channel, holdPlan, type Locks, lockName } from './tabLock.ts';
import type { KeptVersion, Packed } from './versions.ts';

/** The editor's store as far as a session needs it. */
export interface SessionHost {
  readonly plan: () => Plan;
  /** Calls the listener after each change of the plan. Returns what ends it. */
  readonly subscribe: (listener: () => void) => () => void;
  /** Another document, or the same one as another tab left it: history starts anew. */
  readonly replacePlan: (plan: Plan) => void;
  /** The same document as it was before: one step, which undo takes back. */
  readonly bringBack: (plan: Plan) => void;
}

/** A plan that stays in the store unopened, untouched. */
export interface PassedOver {
  readonly id: string;
  readonly name: string;
  /** Why it was not opened. */
  readonly sentence: string;
  readonly text: string;
  /** Whether it can be opened at the user's word. */
  readonly canOpen: boolean;
}

/** What only the user can say. */
export type Question =
  /** What is open is kept nowhere. `answer(true)`: go on without it. */
  | { readonly kind: 'unkept'; readonly name: string; readonly answer: (goOn: boolean) => void }
  /** Another program changed the user's file since it was read or written. */
  | { readonly kind: 'fileChanged'; readonly theirs: PickedFile }
  | { readonly kind: 'passedOver'; readonly plans: readonly PassedOver[] }
  /** Something to know, and nothing to answer. */
  | { readonly kind: 'said'; readonly sentence: string };

export interface SessionState {
  /** The document that is open; empty: none yet. */
  readonly id: string;
  readonly access: Access;
  /** Whether this browser has the plan as it is now. */
  readonly kept: AutosaveState;
  /** The user's own file: none yet, as the plan is, or behind it. */
  readonly file: 'none' | 'current' | 'behind';
  readonly fileName: string | null;
  readonly question: Question | null;
}

/** What this tab itself remembers between reloads: a window that is opened anew remembers nothing. */
export interface TabMemory {
  /** The id of the document that it had open. */
  read(): string | null;
  write(id: string): void;
}

export interface SessionParts {
  readonly store: PlanStore;
  /** Null in a browser without Web Locks. */
  readonly locks: Locks | null;
  readonly channel: (name: string) => Channel;
  readonly saveFile: Files['save'];
  readonly pack: (text: string) => Promise<Packed>;
  readonly marks: OpeningMarks;
  readonly tab: TabMemory;
  readonly now: () => number;
  readonly newId: () => string;
}

export interface Session {
  readonly state: StoreApi<SessionState>;
  /** The plans that this browser keeps. */
  readonly store: PlanStore;
  readonly newId: () => string;
  /**
   * Puts into the host the document that this tab had, else the one that was written last; one that cannot be read, or that
   * broke the page before, is passed over and said. False when there is none to open.
   */
  restore(): Promise<boolean>;
  /**
   * Begins a new document in the host: a new plan, a sample, an opened file, a plan out of a link. The one before is kept first,
   * unless it was a sample or an empty plan that nobody changed; where it cannot be kept, the user is asked. False: the user
   * stays with it. `isTheirs`: in no file, and the user's all the same, as a plan from a link is.
   */
  begin(plan: Plan, file?: PickedFile, isTheirs?: boolean): Promise<boolean>;
  /** Opens a kept document. Null when it is open or the user stays with the one before, else the sentence why not. */
  reopen(id: string): Promise<string | null>;
  /** Earlier states of the document, the newest first, and its present place among them. */
  versions(): Promise<{ readonly now: number; readonly versions: readonly KeptVersion[] }>;
  /** Goes back to an earlier state; the present one becomes a version too. Null, or the sentence why not. */
  bringBack(version: KeptVersion): Promise<string | null>;
  /**
   * Saves the user's file. Null when it is saved, the user changed their mind or is asked (a file that another program changed),
   * else the sentence why not. `over`: also over what another program wrote.
   */
  save(elsewhere?: boolean, over?: boolean): Promise<string | null>;
  takeOver(): void;
  /** The plan is drawn: call it when the page stands. Until then a visit that ends counts against the plan. */
  drawn(): void;
  /** The plan that is open broke the page: it is not brought back by itself again until it has been drawn. */
  broke(): void;
  /** What is open would be lost with the page. */
  isUnkept(): boolean;
  /** Takes the question away: it was answered, or read. */
  settle(): void;
  /** Keep what waits, now: the page is about to go. */
  flush(): Promise<void>;
  /** The page is looked at again: try what failed. */
  retry(): void;
  close(): Promise<void>;
}

/** So long a store may take before the user is asked whether to go on without it, ms. */
const PATIENCE_MS = 4000;

const HELD_BACK = 'The page did not get as far as drawing it the last time, so it was not opened by itself.';

const givenTextOf = ({ untouched, text }: KeptPlan): string | null => (untouched === true ? text : null);

async function withJournal({ plan: { text, at }, journal }: StoredPlan): Promise<Replayed> {
  if (journal.length > 0) return (await import('./replay.ts')).replay(text, at, journal);
  const read = readPlan(text);
  return read.ok
    ? { ok: true, plan: read.plan, at, count: 0, unfit: 0 }
    : { ok: false, sentence: read.problem.sentence };
}

/** Whether a file's text is the one that is known, in whatever writing. */
function isSameFile(found: string, known: string | null): boolean {
  if (known === null || found === known) return true;
  const read = readPlan(found);
  return read.ok && writePlan(read.plan) === known;
}

export function createSession(host: SessionHost, parts: SessionParts): Session {
  const { store, marks } = parts;
  const state = createStore<SessionState>(() => ({
    id: '',
    access: 'mine',
    kept: 'kept',
    file: 'none',
    fileName: null,
    question: null,
  }));
  let open: OpenDocument | null = null;
  let unsubscribe: (() => void) | null = null;

  function ask(question: Question | null): void {
    const before = state.getState().question;
    state.setState({ question });
    // Whoever waited for another answer stays.
    if (before?.kind === 'unkept') before.answer(false);
  }

  const makeDocument = (origin: Origin): OpenDocument =>
    openDocument(origin, {
      ...parts,
      onState(document, kept) {
        if (document === open) state.setState({ kept });
      },
      onText(document, plan, text) {
        if (document !== open || document.fileText === null) return;
        const isCurrent = text === document.fileText;
        if (isCurrent) document.filePlan = plan;
        if (plan === host.plan()) state.setState({ file: isCurrent ? 'current' : 'behind' });
      },
      onParted(document) {
        if (document !== open) return;
        parts.tab.write(document.id);
        state.setState({ id: document.id });
        ask({
          kind: 'said',
          sentence:
            'This plan was changed in another tab as well. What you have here goes on as a plan of its own; the other is kept beside it.',
        });
      },
    });

  /** A document out of the store, and its plan with everything that was in its journal; or why it cannot be read. */
  async function takeUp(
    id: string,
    stored: StoredPlan,
  ): Promise<{ readonly document: OpenDocument; readonly plan: Plan; readonly unfit: number } | string> {
    const { plan: kept } = stored;
    const replayed = await withJournal(stored);
    if (!replayed.ok) return replayed.sentence;
    const { plan, at, unfit } = replayed;
    const text = replayed.count === 0 ? kept.text : writePlan(plan);
    // Lines that do not fit are written over.
    const known = unfit > 0 ? null : at;
    const document = makeDocument({ ...kept, id, text, givenText: givenTextOf(kept), at, stored: known });
    return { document, plan, unfit };
  }

  /** The lock came to this tab after another had it: what that tab kept last is the plan now. */
  async function catchUp(document: OpenDocument): Promise<void> {
    const kept = await store.read(document.id).catch(() => null);
    if (kept === null) return;
    const replayed = await withJournal(kept);
    if (!replayed.ok || document !== open) return;
    document.at = replayed.at;
    document.stored = replayed.unfit > 0 ? null : replayed.at;
    document.autosave.based();
    if (writePlan(replayed.plan) !== writePlan(host.plan())) show(document, replayed.plan);
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

  /** Puts a plan into the host, and follows its changes from there. */
  function show(document: OpenDocument, plan: Plan): void {
    unsubscribe?.();
    marks.opening(document.id);
    host.replacePlan(plan);
    let last = host.plan();
    unsubscribe = host.subscribe(() => {
      const now = host.plan();
      if (now === last || document !== open) return;
      const before = last;
      last = now;
      if (document.lock.access === 'theirs') return;
      if (document.fileText !== null) state.setState({ file: now === document.filePlan ? 'current' : 'behind' });
      noteChange(document, before, now);
    });
  }

  function isUnkept(): boolean {
    if (open === null || open.autosave.state === 'kept' || open.lock.access === 'theirs') return false;
    return state.getState().file !== 'current' && !isUntouched(open, writePlan(host.plan()));
  }

  /** Keeps what is open, or has the user's word that it may go. */
  async function mayLeave(): Promise<boolean> {
    if (open === null) return true;
    const patience = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS));
    await Promise.race([open.autosave.flush(), patience]);
    if (!isUnkept()) return true;
    return new Promise((resolve) => {
      const question: Question = {
        kind: 'unkept',
        name: host.plan().name,
        answer(goOn) {
          if (state.getState().question === question) state.setState({ question: null });
          resolve(goOn);
        },
      };
      ask(question);
    });
  }

  async function adopt(document: OpenDocument, plan: Plan): Promise<void> {
    const before = open;
    if (before !== null) {
      before.autosave.stop();
      // A sample that was only looked at is no plan of the user's.
      const isOurs = before.lock.access !== 'theirs' && isUntouched(before, writePlan(host.plan()));
      if (isOurs) await store.remove(before.id).catch(() => undefined);
      before.lock.release();
    }
    open = document;
    parts.tab.write(document.id);
    show(document, plan);
    const text = document.fileText === null ? null : writePlan(host.plan());
    if (text !== null && text === document.fileText) document.filePlan = host.plan();
    state.setState({
      id: document.id,
      kept: 'kept',
      fileName: document.fileName,
      file: text === null ? 'none' : text === document.fileText ? 'current' : 'behind',
    });
    guard(document);
  }

  const sayUnfit = (unfit: number) => {
    if (unfit === 0) return;
    const sentence = `The last ${unfit === 1 ? 'change' : `${unfit} changes`} did not fit the plan as it was kept, and ${unfit === 1 ? 'was' : 'were'} left out: look whether something is missing.`;
    ask({ kind: 'said', sentence });
  };

  return {
    state,
    store,
    newId: parts.newId,
    async restore() {
      const ids = await store.ids().catch((): string[] => []);
      const own = parts.tab.read();
      const order = own !== null && ids.includes(own) ? [own, ...ids.filter((id) => id !== own)] : ids;
      const passed: PassedOver[] = [];
      const sayPassed = () => passed.length > 0 && ask({ kind: 'passedOver', plans: passed });
      for (const id of order) {
        const kept = await store.read(id).catch(() => null);
        if (kept === null) continue;
        const { name, text } = kept.plan;
        const canOpen = marks.isHeldBack(id);
        const taken = canOpen ? HELD_BACK : await takeUp(id, kept);
        if (typeof taken === 'string') {
          passed.push({ id, name, sentence: taken, text, canOpen });
          continue;
        }
        await adopt(taken.document, taken.plan);
        sayUnfit(taken.unfit);
        sayPassed();
        return true;
      }
      sayPassed();
      return false;
    },
    async begin(plan, file, isTheirs = file !== undefined) {
      if (!(await mayLeave())) return false;
      // In this program's own writing: a file indented by hand holds the same plan.
      const text = writePlan(plan);
      const document = makeDocument({
        id: parts.newId(),
        text,
        fileName: file?.name ?? null,
        fileText: file === undefined ? null : text,
        handle: file?.handle ?? undefined,
        givenText: isTheirs ? null : text,
        at: null,
        stored: null,
      });
      await adopt(document, plan);
      document.autosave.changed(host.plan(), null);
      // A plan out of a link stands nowhere else: whoever leaves in the next second has it all the same.
      if (isTheirs) void document.autosave.flush();
      return true;
    },
    async reopen(id) {
      if (!(await mayLeave())) return null;
      const kept = await store.read(id).catch(() => null);
      if (kept === null) return 'This browser no longer keeps that plan.';
      const taken = await takeUp(id, kept);
      if (typeof taken === 'string') return taken;
      await adopt(taken.document, taken.plan);
      sayUnfit(taken.unfit);
      taken.document.autosave.changed(host.plan(), null);
      return null;
    },
    async versions() {
      if (open === null) return { now: 0, versions: [] };
      await open.autosave.flush();
      return { now: open.at.n, versions: await store.versions(open.id).catch(() => []) };
    },
    async bringBack(version) {
      const document = open;
      if (document === null) return null;
      const read = readPlan(await unpack(version.text).catch(() => ''));
      if (!read.ok) return read.problem.sentence;
      document.isMarked = true;
      document.autosave.changed(host.plan(), null);
      await document.autosave.flush();
      if (document.isMarked)
        return 'This browser has no room for the plan as it is now, which would be lost: save it to a file first.';
      host.bringBack(read.plan);
      return null;
    },
    async save(elsewhere = false, over = false) {
      const document = open;
      if (document === null) return 'There is no plan to save.';
      const plan = host.plan();
      const text = writePlan(plan);
      const fileName = document.fileName ?? planFileName(plan.name);
      const { handle, fileText } = document;
      const isExpected = (found: string) => over || isSameFile(found, fileText);
      const saved = await parts.saveFile(text, { fileName, handle, elsewhere, isExpected });
      if (!saved.ok) {
        if (saved.changed && document === open) ask({ kind: 'fileChanged', theirs: saved.changed });
        return saved.sentence;
      }
      document.handle = saved.handle;
      document.fileName = saved.name;
      document.fileText = text;
      document.filePlan = plan;
      document.isMarked = true;
      if (document === open) {
        state.setState({ fileName: saved.name, file: host.plan() === plan ? 'current' : 'behind' });
        document.autosave.changed(host.plan(), null);
      }
      return null;
    },
    takeOver: () => open?.lock.takeOver(),
    drawn: () => {
      if (open !== null) marks.opened(open.id);
    },
    broke: () => {
      if (open !== null) marks.broke(open.id);
    },
    isUnkept,
    settle: () => ask(null),
    flush: async () => open?.autosave.flush(),
    retry: () => open?.autosave.retry(),
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
