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

const row = (keys: readonly string[], shown: string, does: string, run: KeyRow['run']): KeyRow => ({
  keys,
  shown,
  does,
  run,
});

export const KEYS: readonly KeyRow[] = [
  row(Object.keys(ARROWS), 'Arrows', `Move what is selected by ${COARSE_WORDS}`, (editor, key) =>
    nudge(editor, key, 'coarseMm'),
  ),
  row(
    Object.keys(ARROWS).map((key) => `shift+${key}`),
    'Shift + arrows',
    `Move it by ${FINE_WORDS}`,
    (editor, key) => nudge(editor, key, 'fineMm'),
  ),
  row(['['], '[', 'Turn it 5° to the left (counter-clockwise)', (editor) => turn(editor, TURN_DEG)),
  row([']'], ']', 'Turn it 5° to the right', (editor) => turn(editor, -TURN_DEG)),
  row(['shift+{', '{'], 'Shift + [', 'Turn it 1° to the left', (editor) => turn(editor, FINE_DEG)),
  row(['shift+}', '}'], 'Shift + ]', 'Turn it 1° to the right', (editor) => turn(editor, -FINE_DEG)),
  row(['n'], 'N', 'Select the next piece', (editor) => walk(editor, 1)),
  row(['shift+n'], 'Shift + N', 'Select the piece before', (editor) => walk(editor, -1)),
  row(['ctrl+a'], 'Ctrl + A', 'Select everything', (editor) => editor.select(editor.committed().setup.order)),
  row(['delete', 'backspace'], 'Delete', 'Remove what is selected', (editor) => editor.removeSelected()),
  row(['ctrl+z'], 'Ctrl + Z', 'Undo', (editor) => editor.undo()),
  row(['ctrl+y', 'ctrl+shift+z'], 'Ctrl + Y', 'Redo', (editor) => editor.redo()),
  row(['+', '=', 'shift++'], '+', 'Zoom in', (editor) => editor.zoomBy(ZOOM_STEP)),
  row(['-'], '−', 'Zoom out', (editor) => editor.zoomBy(1 / ZOOM_STEP)),
  row(['0'], '0', 'Show the whole plan', (editor) => editor.fitView()),
  row(['s'], 'S', 'Select and move', (editor) => editor.setTool('select')),
  row(['m'], 'M', 'Measure between two things', (editor) => editor.setTool('measure')),
  row(['p'], 'P', 'Pan the view', (editor) => editor.setTool('pan')),
  row(['c'], 'C', 'Carry along what hangs on a rack, or leave it where it is played', (editor) =>
    editor.set({ carries: !editor.store.getState().carries }),
  ),
  row(['g'], 'G', `Snap to the grid of ${COARSE_WORDS} and 5°, or do not`, (editor) =>
    editor.set({ snaps: !editor.store.getState().snaps }),
  ),
  row(['e'], 'E', 'Show the side elevation beneath the plan, or put it away', (editor) =>
    editor.set({ elevation: editor.store.getState().elevation === null ? 'audience' : null }),
  ),
  row(['d'], 'D', 'Show the drummer’s legs, or hide them', (editor) =>
    editor.set({ legs: !editor.store.getState().legs }),
  ),
  row(['escape'], 'Escape', 'Let go of a drag; then of the tool; then of the selection', (editor) => {
    const { preview, tool, finding } = editor.store.getState();
    if (preview) editor.previewCommand(null);
    else if (tool !== 'select') editor.setTool('select');
    else {
      if (finding !== null) editor.set({ finding: null });
      editor.select([]);
    }
  }),
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
