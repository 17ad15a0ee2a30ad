/** Every key of the drawing, in one table: the help lists it row by row, the canvas obeys it, and a test walks it. */
import { COARSE_WORDS, FINE_WORDS, type Steps, stepsOf } from './steps.ts';
import type { Editor } from './store.ts';

export interface KeyRow {
  /** As KeyboardEvent.key says it, lower case, after the modifiers it wants: `ctrl+z`, `shift+arrowleft`. */
  readonly keys: readonly string[];
  readonly shown: string;
  readonly does: string;
  run(editor: Editor, key: string): void;
}

const TURN_DEG = 5;
const FINE_DEG = 1;
export const ZOOM_STEP = 1.25;

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  arrowleft: [-1, 0],
  arrowright: [1, 0],
  arrowup: [0, 1],
  arrowdown: [0, -1],
};

function nudge(editor: Editor, key: string, size: keyof Steps): void {
  const mm = stepsOf(editor.plan().units)[size];
  const arrow = ARROWS[key.split('+').pop() ?? ''];
  const { selection } = editor.store.getState();
  if (arrow) editor.nudge({ dxMm: arrow[0] * mm, dyMm: arrow[1] * mm }, `nudge ${selection.join(' ')}`);
}

function turn(editor: Editor, turnDeg: number): void {
  editor.nudge({ turnDeg }, `turn ${editor.store.getState().selection.join(' ')}`);
}

/** The next piece in the setup's order, or the one before; round and round. */
function walk(editor: Editor, step: 1 | -1): void {
  const { order } = editor.committed().setup;
  if (order.length === 0) return;
  const at = order.indexOf(editor.store.getState().selection[0] ?? '');
  const next = at < 0 ? (step > 0 ? 0 : order.length - 1) : (at + step + order.length) % order.length;
  editor.select([order[next]]);
}

export const KEYS: readonly KeyRow[] = [
  {
    keys: Object.keys(ARROWS),
    shown: 'Arrows',
    does: `Move what is selected by ${COARSE_WORDS}`,
    run: (editor, key) => nudge(editor, key, 'coarseMm'),
  },
  {
    keys: Object.keys(ARROWS).map((key) => `shift+${key}`),
    shown: 'Shift + arrows',
    does: `Move it by ${FINE_WORDS}`,
    run: (editor, key) => nudge(editor, key, 'fineMm'),
  },
  {
    keys: ['['],
    shown: '[',
    does: 'Turn it 5° to the left (counter-clockwise)',
    run: (editor) => turn(editor, TURN_DEG),
  },
  { keys: [']'], shown: ']', does: 'Turn it 5° to the right', run: (editor) => turn(editor, -TURN_DEG) },
  {
    keys: ['shift+{', '{'],
    shown: 'Shift + [',
    does: 'Turn it 1° to the left',
    run: (editor) => turn(editor, FINE_DEG),
  },
  {
    keys: ['shift+}', '}'],
    shown: 'Shift + ]',
    does: 'Turn it 1° to the right',
    run: (editor) => turn(editor, -FINE_DEG),
  },
  { keys: ['n'], shown: 'N', does: 'Select the next piece', run: (editor) => walk(editor, 1) },
  { keys: ['shift+n'], shown: 'Shift + N', does: 'Select the piece before', run: (editor) => walk(editor, -1) },
  {
    keys: ['ctrl+a'],
    shown: 'Ctrl + A',
    does: 'Select everything',
    run: (editor) => editor.select(editor.committed().setup.order),
  },
  {
    keys: ['delete', 'backspace'],
    shown: 'Delete',
    does: 'Remove what is selected',
    run: (editor) => editor.removeSelected(),
  },
  { keys: ['ctrl+z'], shown: 'Ctrl + Z', does: 'Undo', run: (editor) => editor.undo() },
  { keys: ['ctrl+y', 'ctrl+shift+z'], shown: 'Ctrl + Y', does: 'Redo', run: (editor) => editor.redo() },
  { keys: ['+', '=', 'shift++'], shown: '+', does: 'Zoom in', run: (editor) => editor.zoomBy(ZOOM_STEP) },
  { keys: ['-'], shown: '−', does: 'Zoom out', run: (editor) => editor.zoomBy(1 / ZOOM_STEP) },
  { keys: ['0'], shown: '0', does: 'Show the whole plan', run: (editor) => editor.fitView() },
  { keys: ['s'], shown: 'S', does: 'Select and move', run: (editor) => editor.setTool('select') },
  { keys: ['m'], shown: 'M', does: 'Measure between two things', run: (editor) => editor.setTool('measure') },
  { keys: ['p'], shown: 'P', does: 'Pan the view', run: (editor) => editor.setTool('pan') },
  {
    keys: ['c'],
    shown: 'C',
    does: 'Carry along what hangs on a rack, or leave it where it is played',
    run: (editor) => editor.set({ carries: !editor.store.getState().carries }),
  },
  {
    keys: ['g'],
    shown: 'G',
    does: `Snap to the grid of ${COARSE_WORDS} and 5°, or do not`,
    run: (editor) => editor.set({ snaps: !editor.store.getState().snaps }),
  },
  {
    keys: ['e'],
    shown: 'E',
    does: 'Show the side elevation beneath the plan, or put it away',
    run: (editor) => editor.set({ elevation: editor.store.getState().elevation === null ? 'audience' : null }),
  },
  {
    keys: ['escape'],
    shown: 'Escape',
    does: 'Let go of a drag; then of the tool; then of the selection',
    run(editor) {
      const { preview, tool, finding } = editor.store.getState();
      if (preview) editor.previewCommand(null);
      else if (tool !== 'select') editor.setTool('select');
      else {
        if (finding !== null) editor.set({ finding: null });
        editor.select([]);
      }
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
export function pressKey(editor: Editor, event: Parameters<typeof keyName>[0]): boolean {
  const name = keyName(event);
  const row = byKey.get(name);
  row?.run(editor, name);
  return row !== undefined;
}
