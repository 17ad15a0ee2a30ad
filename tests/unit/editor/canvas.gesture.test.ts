/** Gestures on the drawing with plain presses: no browser, no React. The plan: one rack, a tom that hangs on it, a throne. */
import { beforeEach, describe, expect, test } from 'vitest';
import { Gesture, type Press } from '../../../src/editor/state/gestures/gesture.ts';
import { handleKey, handlesOf } from '../../../src/editor/state/handles.ts';
import { KEYS, keyName, pressKey } from '../../../src/editor/state/keys.ts';
import { moduleGrips } from '../../../src/editor/state/moduleGrips.ts';
import { createEditor, type Editor } from '../../../src/editor/state/store.ts';
import { screenPoint } from '../../../src/editor/state/view.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Plan, Rack } from '../../../src/plan/schema.ts';
import { samplePlanText } from './samplePlan.ts';

let editor: Editor;
let gesture: Gesture;

function samplePlan(): Plan {
  const read = readPlan(samplePlanText());
  if (!read.ok) throw new Error(read.problem.sentence);
  return read.plan;
}

const piece = (id: string) => editor.committed().setup.pieces[id];
const place = (id: string) => piece(id).place;

function press(x: number, y: number, change: Partial<Press> = {}): Press {
  const { view, size } = editor.store.getState();
  const at = screenPoint(view, size, x, y);
  return { px: at.x, py: at.y, shift: false, alt: false, pans: false, coarse: false, ...change };
}

function drag(from: readonly [number, number], to: readonly [number, number], change: Partial<Press> = {}): void {
  gesture.begin(press(...from, change));
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  for (const share of [0.25, 0.5, 1]) gesture.move(press(from[0] + dx * share, from[1] + dy * share, change));
  gesture.end(press(...to, change));
}

/** A place where the snare alone is under the pointer. */
const onThrone = (): [number, number] => [place('throne').xMm, place('throne').yMm];

beforeEach(() => {
  editor = createEditor(samplePlan());
  editor.setSize({ width: 1000, height: 800 });
  gesture = new Gesture(editor);
});

describe('clicking', () => {
  test('selects what is under the pointer, and a click on nothing lets it go', () => {
    const [x, y] = onThrone();
    gesture.begin(press(x, y));
    gesture.end(press(x, y));
    expect(editor.store.getState().selection).toEqual(['throne']);
    gesture.begin(press(9000, 9000));
    gesture.end(press(9000, 9000));
    expect(editor.store.getState().selection).toEqual([]);
  });

  test('with Shift adds and takes away', () => {
    editor.select(['snare']);
    const [x, y] = onThrone();
    gesture.begin(press(x, y, { shift: true }));
    gesture.end(press(x, y, { shift: true }));
    expect(editor.store.getState().selection).toEqual(['snare', 'throne']);
    gesture.begin(press(x, y, { shift: true }));
    gesture.end(press(x, y, { shift: true }));
    expect(editor.store.getState().selection).toEqual(['snare']);
  });
});

describe('dragging', () => {
  test('is one command: a preview while it lasts, one step of undo afterwards', () => {
    const before = editor.plan();
    const [x, y] = onThrone();
    const { xMm, yMm } = place('throne');
    gesture.begin(press(x, y));
    gesture.move(press(x + 200, y + 60));
    expect(editor.plan()).toBe(before);
    expect(editor.live().setup.pieces.throne.place.xMm).toBeCloseTo(xMm + 200, 6);
    gesture.move(press(x + 240, y - 300));
    gesture.end(press(x + 240, y - 300));
    expect(place('throne').xMm).toBeCloseTo(xMm + 240, 6);
    expect(place('throne').yMm).toBeCloseTo(yMm - 300, 6);
    expect(editor.store.getState().history.past).toHaveLength(1);
    editor.undo();
    expect(place('throne')).toEqual(before.setups[editor.store.getState().setupId].pieces.throne.place);
  });

  test('a rack moves alone, and the playing layout stays', () => {
    const held = heldBy(rackId());
    const before = held.map((id) => place(id));
    const rack = rackBarPoint();
    editor.select([rackId()]);
    const was = place(rackId());
    drag(rack, [rack[0] + 150, rack[1] + 40]);
    expect(place(rackId()).xMm).toBeCloseTo(was.xMm + 150, 6);
    expect(held.length).toBeGreaterThan(0);
    expect(held.map((id) => place(id))).toEqual(before);
  });

  test('with Alt it carries along what hangs on it', () => {
    const held = heldBy(rackId());
    const before = held.map((id) => place(id));
    const rack = rackBarPoint();
    editor.select([rackId()]);
    drag(rack, [rack[0] + 150, rack[1] + 40], { alt: true });
    held.forEach((id, k) => {
      expect(place(id).xMm).toBeCloseTo(before[k].xMm + 150, 6);
    });
  });

  test('a locked piece stays, and the page says why', () => {
    const { setupId } = editor.store.getState();
    expect(editor.run({ type: 'setPiece', setup: setupId, piece: 'throne', set: { locked: true } })).toBeNull();
    const was = place('throne');
    const [x, y] = onThrone();
    drag([x, y], [x + 300, y]);
    expect(place('throne')).toEqual(was);
    expect(editor.store.getState().message).toMatch(/locked/);
  });

  test('cancelled, it leaves no trace', () => {
    const before = editor.plan();
    const [x, y] = onThrone();
    gesture.begin(press(x, y));
    gesture.move(press(x + 500, y));
    gesture.cancel();
    expect(editor.plan()).toBe(before);
    expect(editor.store.getState().preview).toBeNull();
  });

  test.each([
    ['mm', 10],
    ['in', 12.7],
  ] as const)('to the grid where that is chosen, of a plan in %s: %f mm', (units, stepMm) => {
    editor.run({ type: 'setUnits', units });
    editor.set({ snaps: true });
    const [x, y] = onThrone();
    drag([x, y], [x + 213.7, y + 101.2]);
    for (const at of [place('throne').xMm, place('throne').yMm])
      expect(at / stepMm).toBeCloseTo(Math.round(at / stepMm), 4);
  });
});

describe('handles', () => {
  test('a leg turns the rack about its other leg, and the distance between them stays', () => {
    editor.select([rackId()]);
    const legs = () => editor.committed().layout.racks[rackId()].legs;
    const [first, second] = legs();
    const apart = Math.hypot(second.x - first.x, second.y - first.y);
    const handle = handleOf(rackId(), `leg:${second.id}`);
    expect([handle.x, handle.y]).toEqual([second.x, second.y]);
    drag([second.x, second.y], [second.x + 200, second.y + 50], { handle });
    const [a, b] = legs();
    expect([a.x, a.y]).toEqual([first.x, first.y]);
    expect(Math.hypot(b.x - a.x, b.y - a.y)).toBeCloseTo(apart, 6);
    // It points to where the pointer was let go.
    expect(Math.atan2(b.y - a.y, b.x - a.x)).toBeCloseTo(Math.atan2(second.y + 50 - a.y, second.x + 200 - a.x), 6);
  });

  test('a foot turns by its end, in steps of 5 degrees with Shift', () => {
    editor.select([rackId()]);
    const handle = handlesNow(rackId()).find((one) => one.kind === 'foot');
    if (handle?.kind !== 'foot') throw new Error('The rack of the sample has no foot to turn.');
    drag([handle.x, handle.y], [handle.about.x + 130, handle.about.y + 271], { shift: true, handle });
    const leg = (piece(rackId()) as Rack).legs.find(({ id }) => id === handle.leg);
    expect(Math.abs((leg?.foot?.headingDeg ?? 1) % 5)).toBe(0);
  });

  test('the handle before a piece turns it about its own anchor', () => {
    editor.select(['throne']);
    const handle = handleOf('throne', 'turn');
    const { xMm, yMm, headingDeg } = place('throne');
    const reach = Math.hypot(handle.x - xMm, handle.y - yMm);
    // A quarter turn to the left of where the handle is.
    const [ux, uy] = [(handle.x - xMm) / reach, (handle.y - yMm) / reach];
    drag([handle.x, handle.y], [xMm - uy * reach, yMm + ux * reach], { handle });
    expect(place('throne')).toMatchObject({ xMm, yMm });
    expect((place('throne').headingDeg - headingDeg + 360) % 360).toBeCloseTo(90, 9);
  });
});

describe('other tools', () => {
  test('measuring picks two pieces and changes nothing', () => {
    const before = editor.plan();
    editor.setTool('measure');
    for (const id of ['throne', 'snare']) {
      const { xMm, yMm } = place(id);
      gesture.begin(press(xMm, yMm));
      gesture.end(press(xMm, yMm));
    }
    expect(editor.store.getState().measured).toEqual(['throne', 'snare']);
    expect(editor.plan()).toBe(before);
  });

  test('a pan moves the view by what the pointer moved', () => {
    const { view } = editor.store.getState();
    gesture.begin({ ...press(0, 0), pans: true, px: 100, py: 100 });
    gesture.move({ ...press(0, 0), pans: true, px: 160, py: 80 });
    gesture.end({ ...press(0, 0), pans: true, px: 160, py: 80 });
    const now = editor.store.getState().view;
    expect((view.xMm - now.xMm) * view.zoom).toBeCloseTo(60, 6);
    expect((now.yMm - view.yMm) * view.zoom).toBeCloseTo(-20, 6);
  });

  test('a marquee takes what lies wholly in it', () => {
    const { layout } = editor.committed();
    expect(layout.bodies.length).toBeGreaterThan(10);
    drag([-20_000, -20_000], [20_000, 20_000]);
    expect(editor.store.getState().selection.toSorted()).toEqual(editor.committed().setup.order.toSorted());
  });
});

describe('keys', () => {
  test.each(KEYS.flatMap((row) => row.keys.map((key) => [key, row] as const)))('%s is in the table once', (key) => {
    expect(KEYS.filter((row) => row.keys.includes(key))).toHaveLength(1);
  });

  test.each([
    ['mm', 10],
    ['in', 12.7],
  ] as const)('in a plan in %s arrows move by %f mm, and undo as one', (units, stepMm) => {
    editor.run({ type: 'setUnits', units });
    editor.select(['throne']);
    const { xMm } = place('throne');
    const key = { key: 'ArrowRight', ctrlKey: false, metaKey: false, shiftKey: false };
    for (let i = 0; i < 5; i++) expect(pressKey(editor, key)).toBe(true);
    expect(place('throne').xMm).toBeCloseTo(xMm + 5 * stepMm, 6);
    editor.undo();
    expect(place('throne').xMm).toBe(xMm);
  });

  test('with "carry along", arrows take what hangs on a rack with it', () => {
    const rack = rackId();
    const hung = heldBy(rack);
    expect(hung.length).toBeGreaterThan(0);
    const before = hung.map((id) => place(id).xMm);
    const press = () => pressKey(editor, { key: 'ArrowRight', ctrlKey: false, metaKey: false, shiftKey: false });
    editor.select([rack]);
    press();
    expect(hung.map((id) => place(id).xMm)).toEqual(before);
    editor.set({ carries: true });
    const { xMm } = place(rack);
    press();
    const moved = place(rack).xMm - xMm;
    expect(moved).toBeGreaterThan(0);
    hung.forEach((id, k) => {
      expect(place(id).xMm).toBeCloseTo(before[k] + moved, 6);
    });
  });

  test('Delete removes, Ctrl Z brings back, with the selection', () => {
    editor.select(['throne']);
    pressKey(editor, { key: 'Delete', ctrlKey: false, metaKey: false, shiftKey: false });
    expect(piece('throne')).toBeUndefined();
    pressKey(editor, { key: 'z', ctrlKey: false, metaKey: true, shiftKey: false });
    expect(piece('throne')).toBeDefined();
    expect(editor.store.getState().selection).toEqual(['throne']);
  });

  test('keys that are not in the table are left to the browser', () => {
    const key = { key: 'Tab', ctrlKey: false, metaKey: false, shiftKey: false };
    expect(keyName(key)).toBe('tab');
    expect(pressKey(editor, key)).toBe(false);
  });
});

const handlesNow = (id: string) => {
  const { setup, layout } = editor.committed();
  return handlesOf(setup, layout, [id], editor.store.getState().view.zoom);
};

/** A handle by its name, as the drawing's nodes have it. */
function handleOf(id: string, name: string) {
  const handle = handlesNow(id).find((one) => handleKey(one) === name);
  if (!handle) throw new Error(`There is no handle "${name}" on ${id}.`);
  return handle;
}

function rackId(): string {
  const id = editor.committed().setup.order.find((one) => piece(one).kind === 'rack');
  if (id === undefined) throw new Error('The sample has no rack.');
  return id;
}

function heldBy(rack: string): string[] {
  return editor.committed().setup.order.filter((id) => {
    const one = piece(id);
    const carrier = one.kind === 'item' ? one.mount?.carrier : undefined;
    return carrier !== undefined && 'rack' in carrier && carrier.rack === rack;
  });
}

/** A point on the rack's first bar, away from its handles. */
function rackBarPoint(): [number, number] {
  const [bar] = editor.committed().layout.racks[rackId()].bars;
  const { x, y } = bar.pointAt(bar.length * 0.4);
  return [x, y];
}

describe('a module of the riser, while its panel lends the drawing its handles', () => {
  const riser = {
    ...{ id: 'r', name: 'Riser', heightMm: 300, ratedKPa: null, edgeMarginMm: 50 },
    modules: [
      { id: 'a', xMm: 0, yMm: 0, widthMm: 2000, depthMm: 1000, headingDeg: 0 },
      { id: 'b', xMm: 3000, yMm: 0, widthMm: 1000, depthMm: 1000, headingDeg: 0 },
    ],
  };
  const at = (id: string) => {
    const { xMm, yMm } = editor.plan().risers.r.modules.find((module) => module.id === id)!;
    return [xMm, yMm];
  };
  /** Where its handle is taken, a little beside its middle, and where the hand goes by so much. */
  function dragModule(id: string, by: readonly [number, number], change: Partial<Press> = {}): void {
    const { lent } = editor.store.getState();
    const handle = lent?.handles(editor.live()).find(({ piece: module }) => module === id);
    const [x, y] = at(id);
    drag([x + 12, y - 9], [x + 12 + by[0], y - 9 + by[1]], { ...change, handle });
  }

  beforeEach(() => {
    const { setupId } = editor.store.getState();
    editor.run({ type: 'setUnits', units: 'mm' });
    editor.run({ type: 'addRiser', riser });
    editor.run({ type: 'setRiser', setup: setupId, riser: 'r' });
    editor.set({ lent: moduleGrips, view: { xMm: 0, yMm: 0, zoom: 0.2 } });
  });

  test('snaps flush within 10 px of the screen, is one step of undo, and is told while it lasts', () => {
    const steps = editor.store.getState().history.past.length;
    const handle = moduleGrips.handles(editor.live()).find(({ piece: module }) => module === 'b')!;
    gesture.begin({ ...press(3000, 0), handle });
    gesture.move(press(1545, 48));
    expect(editor.store.getState().preview?.riser?.seams).toHaveLength(1);
    gesture.move(press(1545, 60));
    gesture.end(press(1545, 60));
    // 45 mm off its right end: flush. 60 mm out of line with it at 5 mm a pixel: as the hand has it.
    expect(at('b')).toEqual([1500, 60]);
    expect(editor.store.getState().history.past).toHaveLength(steps + 1);
    dragModule('b', [0, -40]);
    expect(at('b')).toEqual([1500, 0]);
    editor.undo();
    editor.undo();
    expect(at('b')).toEqual([3000, 0]);
  });

  test('Alt places it freely, the grid in its steps, and Escape leaves no trace', () => {
    dragModule('b', [-1460, 3.3], { alt: true });
    expect(at('b')).toEqual([1540, 3]);
    const before = editor.plan();
    const handle = moduleGrips.handles(editor.live()).find(({ piece: module }) => module === 'b')!;
    gesture.begin({ ...press(1540, 3), handle });
    gesture.move(press(2540, 500));
    gesture.cancel();
    expect(editor.plan()).toBe(before);
    editor.set({ snaps: true });
    dragModule('b', [703.3, 0], { alt: true });
    expect(at('b')).toEqual([2240, 0]);
  });

  test('pieces stay where they are', () => {
    const before = editor.committed().setup.pieces;
    dragModule('a', [-300, 0]);
    expect(at('a')).toEqual([-300, 0]);
    expect(editor.committed().setup.pieces).toEqual(before);
  });
});
