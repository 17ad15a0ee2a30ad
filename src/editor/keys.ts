/** Every key of the drawing, in one table: the help lists it row by row, the canvas obeys it, and a test walks it. */
import { toPlaces } from './carry.ts';
import type { EditorStore } from './store.ts';
import { setupOf } from './store.ts';
import { zoomedAt } from './view.ts';

export interface KeyRow {
  /** As KeyboardEvent.key says it, lower case, after the modifiers it wants: `ctrl+z`, `shift+arrowleft`. */
  readonly keys: readonly string[];
  readonly shown: string;
  readonly does: string;
  run(store: EditorStore, key: string): void;
}

const STEP_MM = 10;
const FINE_MM = 1;
const TURN_DEG = 5;
const FINE_DEG = 1;
const ZOOM_STEP = 1.25;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  arrowleft: [-1, 0],
  arrowright: [1, 0],
  arrowup: [0, 1],
  arrowdown: [0, -1],
};

function nudge(store: EditorStore, key: string, mm: number): void {
  const state = store.getState();
  const arrow = ARROWS[key.split('+').pop() ?? ''];
  if (!arrow || state.selection.length === 0) return;
  const places = toPlaces(setupOf(state), state.selection, state.carryAlong, {
    angle: 0,
    dx: arrow[0] * mm,
    dy: arrow[1] * mm,
  });
  store.dispatch({ type: 'placePieces', setup: state.setupId, places }, `nudge ${state.selection.join(' ')}`);
}

function turn(store: EditorStore, degrees: number): void {
  const { selection, setupId, history } = store.getState();
  const { pieces } = history.plan.setups[setupId];
  const places = Object.fromEntries(selection.map((id) => [id, { headingDeg: pieces[id].place.headingDeg + degrees }]));
  if (selection.length > 0)
    store.dispatch({ type: 'placePieces', setup: setupId, places }, `turn ${selection.join(' ')}`);
}

function zoom(store: EditorStore, factor: number): void {
  const { view, size } = store.getState();
  store.setView(zoomedAt(view, size, size.width / 2, size.height / 2, factor));
}

/** The next piece in the setup's order, or the one before; round and round. */
function walk(store: EditorStore, step: 1 | -1): void {
  const state = store.getState();
  const { order } = setupOf(state);
  if (order.length === 0) return;
  const at = order.indexOf(state.selection[0] ?? '');
  const next = at < 0 ? (step > 0 ? 0 : order.length - 1) : (at + step + order.length) % order.length;
  store.select([order[next]]);
}

export const KEYS: readonly KeyRow[] = [
  {
    keys: Object.keys(ARROWS),
    shown: 'Arrows',
    does: 'Move what is selected by 10 mm',
    run: (store, key) => nudge(store, key, STEP_MM),
  },
  {
    keys: Object.keys(ARROWS).map((key) => `shift+${key}`),
    shown: 'Shift + arrows',
    does: 'Move it by 1 mm',
    run: (store, key) => nudge(store, key, FINE_MM),
  },
  {
    keys: ['['],
    shown: '[',
    does: 'Turn it 5° to the left (counter-clockwise)',
    run: (store) => turn(store, TURN_DEG),
  },
  { keys: [']'], shown: ']', does: 'Turn it 5° to the right', run: (store) => turn(store, -TURN_DEG) },
  { keys: ['shift+{', '{'], shown: 'Shift + [', does: 'Turn it 1° to the left', run: (store) => turn(store, FINE_DEG) },
  {
    keys: ['shift+}', '}'],
    shown: 'Shift + ]',
    does: 'Turn it 1° to the right',
    run: (store) => turn(store, -FINE_DEG),
  },
  { keys: ['n'], shown: 'N', does: 'Select the next piece', run: (store) => walk(store, 1) },
  { keys: ['shift+n'], shown: 'Shift + N', does: 'Select the piece before', run: (store) => walk(store, -1) },
  {
    keys: ['ctrl+a'],
    shown: 'Ctrl + A',
    does: 'Select everything',
    run: (store) => store.select(setupOf(store.getState()).order),
  },
  {
    keys: ['delete', 'backspace'],
    shown: 'Delete',
    does: 'Remove what is selected',
    run(store) {
      const { selection, setupId } = store.getState();
      if (selection.length > 0) store.dispatch({ type: 'removePieces', setup: setupId, pieces: selection });
    },
  },
  { keys: ['ctrl+z'], shown: 'Ctrl + Z', does: 'Undo', run: (store) => store.undo() },
  { keys: ['ctrl+y', 'ctrl+shift+z'], shown: 'Ctrl + Y', does: 'Redo', run: (store) => store.redo() },
  { keys: ['+', '=', 'shift++'], shown: '+', does: 'Zoom in', run: (store) => zoom(store, ZOOM_STEP) },
  { keys: ['-'], shown: '−', does: 'Zoom out', run: (store) => zoom(store, 1 / ZOOM_STEP) },
  { keys: ['0'], shown: '0', does: 'Show the whole plan', run: (store) => store.fit() },
  { keys: ['v'], shown: 'V', does: 'Select and move', run: (store) => store.setTool('select') },
  { keys: ['m'], shown: 'M', does: 'Measure between two things', run: (store) => store.setTool('measure') },
  { keys: ['h'], shown: 'H', does: 'Move the view', run: (store) => store.setTool('pan') },
  {
    keys: ['c'],
    shown: 'C',
    does: 'Carry along what hangs on a rack, or leave it where it is played',
    run: (store) => store.set({ carryAlong: !store.getState().carryAlong }),
  },
  {
    keys: ['g'],
    shown: 'G',
    does: 'Snap to the grid of 10 mm and 5°, or do not',
    run: (store) => store.set({ snap: !store.getState().snap }),
  },
  {
    keys: ['escape'],
    shown: 'Escape',
    does: 'Let go of a drag; then of the tool; then of the selection',
    run(store) {
      const { preview, tool, measure } = store.getState();
      if (preview) store.endPreview(false);
      else if (tool !== 'select' || measure.a !== null) store.setTool('select');
      else store.select([]);
    },
  },
];

/** The way a key press is written in the table. Cmd counts as Ctrl. */
export function keyName(event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey'>): string {
  const parts = [];
  if (event.ctrlKey || event.metaKey) parts.push('ctrl');
  if (event.shiftKey) parts.push('shift');
  return [...parts, event.key.toLowerCase()].join('+');
}

const byKey = new Map(KEYS.flatMap((row) => row.keys.map((key) => [key, row] as const)));

/** True when the key was one of the table's. */
export function pressKey(store: EditorStore, event: Parameters<typeof keyName>[0]): boolean {
  const name = keyName(event);
  const row = byKey.get(name);
  row?.run(store, name);
  return row !== undefined;
}
