/**
 * The page's state: the plan with its history, and what is not in the plan (selection, view, tool, a drag's preview).
 *
 * Pure of React and of the canvas, so that gestures and keys are tested with plain calls. The plan changes only by
 * dispatch(), undo(), redo() and replacePlan(); a drag shows a preview and dispatches once.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Finding } from '../checks/finding.ts';
import { extent } from '../geometry/support.ts';
import type { Command } from '../plan/commands/index.ts';
import { emptyHistory, type History, push, redo, type Selection, undo } from '../plan/history.ts';
import { runCommand } from '../plan/run.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { refusalSentence } from '../plan/words.ts';
import { type Evaluated, evaluate } from './evaluate.ts';
import { type Box, fitted, type Size, type View } from './view.ts';

export type Tool = 'select' | 'pan' | 'measure';

/** The two things a measure is taken between; b follows the pointer until it is chosen. */
export interface Measure {
  readonly a: string | null;
  readonly b: string | null;
}

export interface EditorState {
  readonly history: History;
  readonly setupId: string;
  readonly selection: Selection;
  readonly finding: Finding | null;
  readonly hover: string | null;
  readonly tool: Tool;
  readonly measure: Measure;
  /** What a drag would make of the plan; null while nothing is dragged. */
  readonly preview: { readonly command: Command; readonly plan: Plan; readonly moving: ReadonlySet<string> } | null;
  /** A marquee being drawn, mm. */
  readonly marquee: Box | null;
  readonly view: View;
  readonly size: Size;
  /** The view follows the whole plan until the user moves it. */
  readonly isFitted: boolean;
  readonly carryAlong: boolean;
  readonly snap: boolean;
  readonly isReadOnly: boolean;
  /** A sentence for the status line: why something was refused. */
  readonly notice: string | null;
}

export interface EditorActions {
  /** Carries out a command. Null when done, else the sentence why not; the plan is then as it was. */
  dispatch(command: Command, gesture?: string): string | null;
  undo(): void;
  redo(): void;
  replacePlan(plan: Plan): void;
  chooseSetup(setupId: string): void;
  select(pieces: Selection): void;
  selectFinding(finding: Finding | null): void;
  setTool(tool: Tool): void;
  pickMeasure(pieceId: string): void;
  /** Shows a command's result without doing it. A refused one shows nothing and says why. */
  preview(command: Command, moving: readonly string[]): void;
  /** Does what is previewed, or with keep false forgets it. */
  endPreview(keep: boolean): void;
  setView(view: View): void;
  resize(size: Size): void;
  fit(): void;
  set(change: Partial<Pick<EditorState, 'hover' | 'marquee' | 'carryAlong' | 'snap' | 'notice' | 'isReadOnly'>>): void;
}

export type EditorStore = StoreApi<EditorState> & EditorActions;

/** The plan on the screen: as it would be while something is dragged. */
export const shownPlan = (state: EditorState): Plan => state.preview?.plan ?? state.history.plan;
export const setupOf = (state: EditorState): Setup => state.history.plan.setups[state.setupId];
export const live = (state: EditorState): Evaluated => evaluate(shownPlan(state), state.setupId);

/** All that is drawn: bodies and deck; a square of 3 m where there is nothing yet. */
export function contentBox(plan: Plan, setupId: string): Box {
  const { layout } = evaluate(plan, setupId);
  const boxes: Box[] = [];
  const bodies = extent(layout.bodies.map((body) => body.shape));
  if (bodies) boxes.push(bodies);
  for (const module of layout.deck?.modules ?? []) {
    const xs = module.filter((_, i) => i % 2 === 0);
    const ys = module.filter((_, i) => i % 2 === 1);
    boxes.push({ minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) });
  }
  if (boxes.length === 0) return { minX: -1500, minY: -1500, maxX: 1500, maxY: 1500 };
  return boxes.reduce((a, b) => ({
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  }));
}

const READ_ONLY = 'Another tab writes this plan. Take over there is in the bar at the top.';

export function createEditor(plan: Plan): EditorStore {
  const store = createStore<EditorState>(() => ({
    history: emptyHistory(plan),
    setupId: plan.order[0],
    selection: [],
    finding: null,
    hover: null,
    tool: 'select',
    measure: { a: null, b: null },
    preview: null,
    marquee: null,
    view: { x: 0, y: 0, pxPerMm: 0.3 },
    size: { width: 800, height: 600 },
    isFitted: true,
    carryAlong: false,
    snap: false,
    isReadOnly: false,
    notice: null,
  }));
  const { getState: get, setState: set } = store;

  /** Keeps setup and selection to what the plan still has. */
  function withHistory(history: History, selection: Selection): Partial<EditorState> {
    const { setupId } = get();
    const known = Object.hasOwn(history.plan.setups, setupId) ? setupId : history.plan.order[0];
    const { pieces } = history.plan.setups[known];
    return {
      history,
      setupId: known,
      selection: selection.filter((id) => Object.hasOwn(pieces, id)),
      finding: null,
      preview: null,
    };
  }
  function refit(): void {
    const { history, setupId, size, isFitted } = get();
    if (isFitted) set({ view: fitted(contentBox(history.plan, setupId), size) });
  }

  const actions: EditorActions = {
    dispatch(command, gesture) {
      const { history, selection, isReadOnly } = get();
      if (isReadOnly) {
        set({ notice: READ_ONLY, preview: null });
        return READ_ONLY;
      }
      const pushed = push(history, command, { gesture, selection });
      if (!pushed.ok) {
        const sentence = refusalSentence(pushed.refusal);
        set({ notice: sentence, preview: null });
        return sentence;
      }
      set({ ...withHistory(pushed.history, selection), notice: null });
      return null;
    },
    undo() {
      if (get().isReadOnly) return;
      const { history, selection } = undo(get().history);
      set({ ...withHistory(history, selection ?? get().selection), notice: null });
    },
    redo() {
      if (get().isReadOnly) return;
      const { history, selection } = redo(get().history);
      set({ ...withHistory(history, selection ?? get().selection), notice: null });
    },
    replacePlan(next) {
      set({
        history: emptyHistory(next),
        setupId: next.order[0],
        selection: [],
        finding: null,
        preview: null,
        measure: { a: null, b: null },
        isFitted: true,
        notice: null,
      });
      refit();
    },
    chooseSetup(setupId) {
      if (!Object.hasOwn(get().history.plan.setups, setupId)) return;
      const { pieces } = get().history.plan.setups[setupId];
      // The same piece in another setup has the same id, so a selection goes along.
      set({
        setupId,
        selection: get().selection.filter((id) => Object.hasOwn(pieces, id)),
        finding: null,
        preview: null,
        measure: { a: null, b: null },
      });
      refit();
    },
    select(selection) {
      set({ selection, finding: null });
    },
    selectFinding(finding) {
      set({ finding, selection: finding ? finding.pieces.filter((id) => Object.hasOwn(setupOf(get()).pieces, id)) : [] });
    },
    setTool(tool) {
      set({ tool, measure: { a: null, b: null } });
    },
    pickMeasure(pieceId) {
      const { a, b } = get().measure;
      set({ measure: a === null || b !== null || a === pieceId ? { a: pieceId, b: null } : { a, b: pieceId } });
    },
    preview(command, moving) {
      const { history, isReadOnly, preview } = get();
      if (isReadOnly) {
        set({ notice: READ_ONLY });
        return;
      }
      const ran = runCommand(history.plan, command);
      if (!ran.ok) {
        set({ notice: refusalSentence(ran.refusal) });
        return;
      }
      const same = preview && preview.moving.size === moving.length && moving.every((id) => preview.moving.has(id));
      set({ preview: { command, plan: ran.plan, moving: same ? preview.moving : new Set(moving) }, notice: null });
    },
    endPreview(keep) {
      const { preview } = get();
      if (!preview) return;
      if (keep) actions.dispatch(preview.command);
      else set({ preview: null });
    },
    setView(view) {
      set({ view, isFitted: false });
    },
    resize(size) {
      set({ size });
      refit();
    },
    fit() {
      set({ isFitted: true });
      refit();
    },
    set(change) {
      set(change);
    },
  };
  return Object.assign(store, actions);
}
