/**
 * The browser's pointers on the drawing, as presses of the gesture machine: one finger or the mouse does what the tool
 * does, two fingers move and zoom the view, the wheel zooms at the pointer.
 *
 * Moves are taken once a frame: a mouse may report a thousand a second.
 */

import type Konva from 'konva/lib/Core';
import type { Finding } from '../../checks/finding.ts';
import { findingKey } from '../state/findingRows.ts';
import type { Gesture, Press } from '../state/gestures/gesture.ts';
import type { Handle } from '../state/handles.ts';
import type { Editor } from '../state/store.ts';
import { type Point, panned, zoomedAt } from '../state/view.ts';

/** One notch of an ordinary wheel is about 100 px and zooms by a sixth. */
const WHEEL_ZOOM = 0.0015;
/** Trackpads send pinches as small wheel moves with Ctrl. */
const PINCH_ZOOM = 0.01;
const LINE_PX = 16;
const PAGE_PX = 400;

/** What a node of the overlay lets itself be taken by. */
export type Grip =
  | { readonly kind: 'handle'; readonly handle: Handle }
  | { readonly kind: 'flag'; readonly finding: Finding };

/** How far beside a grip's middle it is still meant, CSS px: a finger's is 44 px wide. */
const GRIP_PX = 12;
const GRIP_PX_COARSE = 22;

/** The grip nearest to a point within reach, of two as near the upper one; or null. */
function gripAt(stage: Konva.Stage | null, { x, y }: Point, coarse: boolean): Grip | null {
  let best: Grip | null = null;
  let least = coarse ? GRIP_PX_COARSE : GRIP_PX;
  for (const node of stage?.find('.grip') ?? []) {
    const distance = Math.hypot(node.x() - x, node.y() - y);
    if (distance > least) continue;
    best = node.getAttr('grip');
    least = distance;
  }
  return best;
}

const cursorOf = (grip: Grip): string =>
  grip.kind === 'flag' ? 'pointer' : grip.handle.kind === 'second' || grip.handle.kind === 'module' ? 'move' : 'alias';

interface Two {
  readonly middle: Point;
  readonly apart: number;
}

/** `stageOf`: the stage whose grips can be taken; none before the drawing is there. */
export function listenToPointers(
  element: HTMLElement,
  editor: Editor,
  gesture: Gesture,
  stageOf: () => Konva.Stage | null,
): () => void {
  const events = new AbortController();
  const down = new Map<number, Point>();
  let two: Two | null = null;
  let waiting: PointerEvent | null = null;
  let frame = 0;
  let spaceHeld = false;

  const on = <K extends keyof HTMLElementEventMap>(
    type: K,
    listener: (event: HTMLElementEventMap[K]) => void,
    passive = true,
  ) => element.addEventListener(type, listener as EventListener, { signal: events.signal, passive });

  const place = (event: { clientX: number; clientY: number }): Point => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const pressOf = (event: PointerEvent): Press => {
    const { x, y } = place(event);
    return {
      px: x,
      py: y,
      shift: event.shiftKey,
      alt: event.altKey,
      pans: spaceHeld || event.button === 1 || (event.buttons & 4) !== 0,
      coarse: event.pointerType === 'touch',
    };
  };
  /** Only choosing and moving takes hold of grips. */
  const gripUnder = ({ px, py, coarse, pans }: Press): Grip | null =>
    pans || editor.store.getState().tool !== 'select' ? null : gripAt(stageOf(), { x: px, y: py }, coarse);
  const fingers = (): Two => {
    const [a, b] = [...down.values()];
    return { middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, apart: Math.hypot(a.x - b.x, a.y - b.y) };
  };
  const cursor = () => {
    const { tool, hover } = editor.store.getState();
    if (gesture.isPanning) return 'grabbing';
    if (tool === 'pan' || spaceHeld) return 'grab';
    if (tool === 'measure') return 'crosshair';
    return hover === null ? 'default' : 'move';
  };
  const point = (look = cursor()) => {
    element.style.cursor = look;
  };

  const flush = () => {
    frame = 0;
    const event = waiting;
    waiting = null;
    if (event === null) return;
    if (two !== null && down.size >= 2) {
      const now = fingers();
      const { view, size } = editor.store.getState();
      const moved = panned(view, now.middle.x - two.middle.x, now.middle.y - two.middle.y);
      editor.set({ view: zoomedAt(moved, size, now.middle.x, now.middle.y, now.apart / Math.max(1, two.apart)) });
      two = now;
      return;
    }
    const press = pressOf(event);
    if (gesture.isActive) {
      gesture.move(press);
      point(gesture.isPanning ? 'grabbing' : element.style.cursor);
    } else if (event.pointerType !== 'touch') {
      const grip = gripUnder(press);
      if (grip) editor.setHover(null);
      else gesture.hover(press.px, press.py);
      point(grip ? cursorOf(grip) : cursor());
    }
  };

  on('pointerdown', (event) => {
    if (event.button === 2) return;
    element.setPointerCapture(event.pointerId);
    down.set(event.pointerId, place(event));
    if (down.size === 2) {
      // The second finger means the view: what the first began is forgotten.
      gesture.cancel();
      two = fingers();
      return;
    }
    if (down.size > 2) return;
    const press = pressOf(event);
    const grip = gripUnder(press);
    if (grip?.kind === 'flag') {
      const key = findingKey(grip.finding);
      const isChosen = editor.store.getState().finding === key;
      editor.select(isChosen ? [] : grip.finding.pieces);
      editor.set({ finding: isChosen ? null : key });
      return;
    }
    gesture.begin({ ...press, handle: grip?.handle });
    if (gesture.isPanning) point('grabbing');
  });
  on('pointermove', (event) => {
    if (down.has(event.pointerId)) down.set(event.pointerId, place(event));
    waiting = event;
    if (frame === 0) frame = requestAnimationFrame(flush);
  });
  const up = (event: PointerEvent, keep: boolean) => {
    if (!down.delete(event.pointerId)) return;
    if (two !== null) {
      if (down.size < 2) two = null;
      return;
    }
    // The last move counts, even if its frame has not come yet.
    if (keep && waiting !== null) {
      cancelAnimationFrame(frame);
      flush();
    }
    if (keep) gesture.end(pressOf(event));
    else gesture.cancel();
    point();
  };
  on('pointerup', (event) => up(event, true));
  on('pointercancel', (event) => up(event, false));
  on('pointerleave', () => {
    waiting = null;
    if (!gesture.isActive) editor.setHover(null);
  });
  on('contextmenu', (event) => event.preventDefault(), false);
  // The middle button would otherwise scroll the page by itself.
  on('mousedown', (event) => event.button === 1 && event.preventDefault(), false);
  on(
    'wheel',
    (event) => {
      event.preventDefault();
      if (gesture.isActive) return;
      const unit = event.deltaMode === 1 ? LINE_PX : event.deltaMode === 2 ? PAGE_PX : 1;
      const { view, size } = editor.store.getState();
      const { x, y } = place(event);
      if (event.shiftKey) editor.set({ view: panned(view, -(event.deltaX || event.deltaY) * unit, 0) });
      else {
        const speed = event.ctrlKey ? PINCH_ZOOM : WHEEL_ZOOM;
        editor.set({ view: zoomedAt(view, size, x, y, Math.exp(-event.deltaY * unit * speed)) });
      }
    },
    false,
  );
  on(
    'keydown',
    (event) => {
      if (event.key !== ' ') return;
      event.preventDefault();
      spaceHeld = true;
      point();
    },
    false,
  );
  on('keyup', (event) => {
    if (event.key !== ' ') return;
    spaceHeld = false;
    point();
  });
  on('blur', () => {
    spaceHeld = false;
  });
  return () => {
    events.abort();
    cancelAnimationFrame(frame);
  };
}
