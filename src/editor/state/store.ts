/**
 * The editor's state, free of React: the history of the plan, and everything that is not in the plan - what is chosen,
 * shown and measured, and the preview of a gesture that has not been dropped yet.
 *
 * The plan changes in one way only: a command goes into the history. A gesture shows its command as a preview, which is
 * laid out and checked like the plan itself, and becomes one command when it is dropped.
 */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import type { ElevationSide } from '../../drawing/elevation.ts';
import type { Box } from '../../geometry/support.ts';
import type { Command } from '../../plan/commands/index.ts';
import { bringBack, emptyHistory, type History, push, redo, undo } from '../../plan/history.ts';
import { carriedBy } from '../../plan/motion.ts';
import { newPlan } from '../../plan/newPlan.ts';
import { runCommand } from '../../plan/run.ts';
import type { Plan } from '../../plan/schema.ts';
import { refusalSentence } from '../../plan/words.ts';
import { contentBox, wholeBox } from './content.ts';
import type { LentGrips, RiserLines } from './handles.ts';
import { type Live, liveOf } from './live.ts';
import { changedLooks } from './marks.ts';
import { carriedPieces, type Nudge, nudge } from './nudge.ts';
import { type Air, fitted, type Size, type View, zoomedAt } from './view.ts';

export type Tool = 'select' | 'measure' | 'pan';
export type Theme = 'system' | 'light' | 'dark';

export interface Preview {
  readonly command: Command;
  readonly plan: Plan;
  /** Pieces that look different from the plan's, and what stands on them: drawn in the overlay while the gesture lasts. */
  readonly moving: readonly string[];
  /** Those of them that are elsewhere. The others stay: a tie of theirs follows its rack, or they stand on such a piece. */
  readonly moved: readonly string[];
  /** Of the riser, where the gesture moves a module of it; null: it does not. */
  readonly riser: RiserLines | null;
}

export interface EditorState {
  readonly history: History;
  readonly setupId: string;
  readonly selection: readonly string[];
  readonly hover: string | null;
  readonly tool: Tool;
  readonly preview: Preview | null;
  readonly view: View;
  readonly size: Size;
  readonly theme: Theme;
  /** From where the elevation beneath the plan is seen; null: it is put away. */
  readonly elevation: ElevationSide | null;
  /** Whether the drummer's legs are drawn over the kit. */
  readonly legs: boolean;
  /** Whether dragged pieces go to the grid. */
  readonly snaps: boolean;
  /** Whether what hangs on a dragged rack or stand moves with it. */
  readonly carries: boolean;
  /** Up to two pieces between which the tape lies. */
  readonly measured: readonly string[];
  /** Key of the finding that is lit up (panels/findings/findingRows.ts). */
  readonly finding: string | null;
  /** Marquee on the drawing, mm. */
  readonly marquee: Box | null;
  /** Handles that an open panel lends the drawing. */
  readonly lent: LentGrips | null;
  /** A sentence for the user, until the next gesture. */
  readonly message: string | null;
  /** What the plan broke the page with; null: it stands. Until it is cleared another page stands in its place. */
  readonly failure: unknown;
  /** Another tab writes this plan. */
  readonly isReadOnly: boolean;
}

/** Room for rulers, tools, rows of dimensions and the title block round what is fitted into sight; less on a telephone. */
const FIT_AIR: Air = { left: 146, right: 32, top: 48, bottom: 150 };
const FIT_AIR_SMALL: Air = { left: 94, right: 14, top: 84, bottom: 118 };
const SMALL_PX = 600;

/** What the screen shows: the plan as a gesture would make it, else as it is. */
export const shownPlan = ({ preview, history }: EditorState): Plan => preview?.plan ?? history.plan;
export const shownLive = (state: EditorState): Live => liveOf(shownPlan(state), state.setupId);
export const committedLive = ({ history, setupId }: EditorState): Live => liveOf(history.plan, setupId);

/** More names than these would hide what is dragged. */
const NAMED_ON_TOP = 12;

/** Pieces whose names are written above everything: what a gesture moves, and what is chosen. */
export const namedOnTop = ({ preview, selection }: EditorState): string[] => [
  ...new Set([...(preview?.moved ?? []), ...selection].slice(0, NAMED_ON_TOP)),
];

/** Parts of the state that are set by themselves: nothing follows from them, nor they from anything. */
type Settable =
  | 'theme'
  | 'elevation'
  | 'legs'
  | 'snaps'
  | 'carries'
  | 'finding'
  | 'marquee'
  | 'message'
  | 'view'
  | 'lent';

export type Editor = ReturnType<typeof createEditor>;

/** Nothing is going on, and nothing is lit or said. */
const QUIET = { hover: null, preview: null, finding: null, marquee: null, message: null, failure: null };

export function createEditor(first: Plan = newPlan('')) {
  const store = createStore<EditorState>(() => ({
    history: emptyHistory(first),
    setupId: first.order[0],
    selection: [],
    tool: 'select',
    view: { xMm: 0, yMm: 0, zoom: 0.2 },
    size: { width: 0, height: 0 },
    theme: 'system',
    elevation: null,
    legs: true,
    snaps: false,
    carries: false,
    measured: [],
    isReadOnly: false,
    lent: null,
    ...QUIET,
  }));
  const get = store.getState;
  const set = store.setState;
  const plan = () => get().history.plan;

  /** A history and a selection that fit each other: what is gone cannot be chosen, and a setup that is gone not shown. */
  function land(history: History, wanted: readonly string[]): void {
    const { setupId, measured, selection } = get();
    const next = Object.hasOwn(history.plan.setups, setupId) ? setupId : history.plan.order[0];
    const { pieces } = history.plan.setups[next];
    const there = (id: string) => Object.hasOwn(pieces, id);
    const chosen = wanted.filter(there);
    // The same pieces are the same choice: the side panel turns to what is newly chosen.
    const same = chosen.length === selection.length && chosen.every((id, i) => id === selection[i]);
    set({
      history,
      setupId: next,
      selection: same ? selection : chosen,
      measured: measured.filter(there),
      preview: null,
      marquee: null,
      failure: null,
    });
  }

  /** Null when it was carried out, else the sentence why not. */
  function run(command: Command, gesture?: string): string | null {
    const { history, selection, isReadOnly } = get();
    if (isReadOnly) return 'This plan is open in another tab: take it over to change it here.';
    const pushed = push(history, command, { gesture, selection });
    if (!pushed.ok) {
      const sentence = refusalSentence(pushed.refusal);
      set({ preview: null, message: sentence });
      return sentence;
    }
    land(pushed.history, selection);
    set({ message: null });
    return null;
  }

  /** One step through the history, back or forth. */
  function travel(step: typeof undo): void {
    if (get().isReadOnly) return;
    const { history, selection } = step(get().history);
    if (selection !== null) land(history, selection);
  }

  function fitBox(box: Box): View {
    const { size } = get();
    return fitted(box, size, size.width < SMALL_PX ? FIT_AIR_SMALL : FIT_AIR);
  }

  function fitKit(): void {
    if (get().size.width === 0) return;
    try {
      set({ view: fitBox(contentBox(committed().layout)) });
    } catch (failure) {
      set({ failure });
    }
  }

  /** Brings all of the stage into sight. */
  function fitStage(): void {
    const { setup, layout } = committed();
    if (get().size.width > 0) set({ view: fitBox(wholeBox(plan(), setup, layout)) });
  }

  /** The kit on its riser; where that is in sight just so, all of the stage. */
  function fitView(): void {
    const { size, view } = get();
    if (size.width === 0) return;
    const kit = fitBox(contentBox(committed().layout));
    const isKit = kit.zoom === view.zoom && kit.xMm === view.xMm && kit.yMm === view.yMm;
    if (isKit) fitStage();
    else set({ view: kit });
  }

  const committed = () => liveOf(plan(), get().setupId);

  return {
    store,
    /** Where the drawing is on the page, for what is dragged onto it from beside it; null while there is none. */
    frame: { element: null as Pick<HTMLElement, 'getBoundingClientRect'> | null },
    plan,
    /** The current setup laid out and checked: as the preview has it, or as the plan has it. */
    live: () => liveOf(get().preview?.plan ?? plan(), get().setupId),
    committed,
    run,
    /** Null takes the preview away. A command that would be refused leaves the last preview standing. */
    previewCommand(command: Command | null, riser: RiserLines | null = null): void {
      if (command === null) {
        if (get().preview !== null) set({ preview: null });
        return;
      }
      const { setupId, isReadOnly } = get();
      if (isReadOnly) return;
      const ran = runCommand(plan(), command);
      if (!ran.ok) {
        const message = refusalSentence(ran.refusal);
        if (message !== get().message) set({ message });
        return;
      }
      const live = liveOf(ran.plan, setupId);
      const { order, pieces } = live.setup;
      const looks = changedLooks(committed(), live);
      const tied = looks.filter((id) => {
        const piece = pieces[id];
        return piece.kind === 'item' && piece.ties && !piece.mount && piece === committed().setup.pieces[id];
      });
      const lifted = new Set([...looks, ...tied.flatMap((id) => carriedBy(live.setup, id))]);
      const moving = order.filter((id) => lifted.has(id));
      const moved = looks.filter((id) => !tied.includes(id));
      const before = get().preview?.moving;
      // The same pieces are the same list: what does not move is not painted again.
      const isSame = before?.length === moving.length && moving.every((id, k) => id === before[k]);
      set({ preview: { command, plan: ran.plan, moving: isSame ? before : moving, moved, riser }, message: null });
    },
    commitPreview(): string | null {
      const { preview } = get();
      return preview === null ? null : run(preview.command);
    },
    /** The plan broke the page; null: try it again. */
    fail: (failure: unknown): void => set({ failure }),
    undo: () => travel(undo),
    redo: () => travel(redo),
    select(ids: readonly string[]): void {
      const { pieces } = committed().setup;
      set({ selection: ids.filter((id) => Object.hasOwn(pieces, id)), message: null });
    },
    setHover(hover: string | null): void {
      if (hover !== get().hover) set({ hover });
    },
    setTool: (tool: Tool): void => set({ tool, measured: [] }),
    set: (change: Partial<Pick<EditorState, Settable>>): void => set(change),
    setReadOnly: (isReadOnly: boolean): void => set({ isReadOnly, preview: null }),
    measurePick(id: string | null): void {
      const { measured } = get();
      if (id === null) set({ measured: [] });
      // A third pick begins anew; the same piece again puts the tape away.
      else if (measured.length === 1 && measured[0] !== id) set({ measured: [measured[0], id] });
      else set({ measured: measured.length === 1 ? [] : [id] });
    },
    chooseSetup(id: string): void {
      if (!Object.hasOwn(plan().setups, id) || id === get().setupId) return;
      // The same id is the same piece in every setup, so what is chosen stays chosen where it is there.
      const { pieces } = plan().setups[id];
      const there = (one: string) => Object.hasOwn(pieces, one);
      const { selection, measured } = get();
      set({
        setupId: id,
        selection: selection.filter(there),
        measured: measured.filter(there),
        finding: null,
        preview: null,
        hover: null,
      });
    },
    /** Another document; what was done to the one before is forgotten. */
    replacePlan(next: Plan): void {
      set({
        history: emptyHistory(next),
        setupId: next.order[0],
        selection: [],
        measured: [],
        ...QUIET,
      });
      fitKit();
    },
    /** An earlier state of the plan, as one step that undo takes back. */
    bringBack(earlier: Plan): void {
      const { history, selection, isReadOnly } = get();
      if (!isReadOnly) land(bringBack(history, earlier, selection), selection);
    },
    setSize(size: Size): void {
      const { size: before } = get();
      if (before.width === size.width && before.height === size.height) return;
      set({ size });
      if (before.width === 0) fitKit();
    },
    fitView,
    fitStage,
    zoomBy(factor: number): void {
      const { view, size } = get();
      set({ view: zoomedAt(view, size, size.width / 2, size.height / 2, factor) });
    },
    nudge(how: Nudge, gesture: string): void {
      const { setupId, selection, carries } = get();
      const { setup } = committed();
      const chosen = selection.map((id) => setup.pieces[id]).filter((piece) => piece !== undefined);
      if (chosen.length > 0) run(nudge(setupId, chosen, how, carriedPieces(plan(), setup, chosen, carries)), gesture);
    },
    removeSelected(): void {
      const { setupId, selection } = get();
      if (selection.length > 0) run({ type: 'removePieces', setup: setupId, pieces: selection });
    },
  };
}

/** A part of the editor's state in a React component. */
export function useEditor<T>(editor: Editor, pick: (state: EditorState) => T): T {
  return useStore(editor.store, pick);
}
