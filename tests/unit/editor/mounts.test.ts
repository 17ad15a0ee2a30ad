/** Mounts on the page, without a browser: sliding a clamp, what is offered when a piece is put down, what stability draws. */
import { beforeEach, describe, expect, test } from 'vitest';
import { standingOf } from '../../../src/editor/canvas/stability.ts';
import { Gesture, type Press } from '../../../src/editor/state/gestures/gesture.ts';
import { handlesOf } from '../../../src/editor/state/handles.ts';
import { offerFor, putDown } from '../../../src/editor/state/mountOffer.ts';
import { createEditor, type Editor } from '../../../src/editor/state/store.ts';
import { screenPoint } from '../../../src/editor/state/view.ts';
import type { Item } from '../../../src/plan/schema.ts';
import { searchMounts } from '../../../src/solve/proposeMount.ts';
import { offerWords, whyNot } from '../../../src/words/mountWords.ts';
import { item, rack, samplePlan } from '../../fixtures/plans.ts';

let editor: Editor;
let gesture: Gesture;

/** One straight bar at y = 0 from x = -50 to 950, legs at 0 and 900 mm, two crashes on it by clamps 60 mm wide. */
beforeEach(() => {
  const plan = samplePlan();
  const hung = (id: string, atMm: number): Item => ({
    ...item(id, id, 'crash', atMm - 50, 300),
    mount: { carrier: { on: 'bar', rack: 'rack', bar: 'b1', atMm }, clamp: 'clamp-own', arm: 'boom-short' },
  });
  const pieces = [rack('rack', 'Rack', 0, 0, 0), hung('one', 300), hung('two', 700)];
  const setup = {
    id: 'one',
    name: 'One',
    riser: null,
    pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
    order: pieces.map(({ id }) => id),
  };
  editor = createEditor({ ...plan, setups: { one: setup }, order: ['one'] });
  editor.setSize({ width: 1000, height: 800 });
  gesture = new Gesture(editor);
});

const clampOf = (id: string): number => {
  const piece = editor.committed().setup.pieces[id];
  const carrier = piece.kind === 'item' ? piece.mount?.carrier : undefined;
  return carrier?.on === 'bar' ? carrier.atMm : Number.NaN;
};

function press(x: number, y: number): Press {
  const { view, size } = editor.store.getState();
  const at = screenPoint(view, size, x, y);
  return { px: at.x, py: at.y, shift: false, alt: false, pans: false, coarse: false };
}

/** Takes the clamp of the chosen piece where it is. */
function drag(from: readonly [number, number], to: readonly [number, number]): void {
  const { setup, layout } = editor.committed();
  const { selection, view } = editor.store.getState();
  const handle = handlesOf(setup, layout, selection, view.zoom).find(({ kind }) => kind === 'clamp');
  expect([handle?.x, handle?.y]).toEqual(from);
  gesture.begin({ ...press(...from), handle });
  for (const share of [0.5, 1])
    gesture.move(press(from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])));
  gesture.end(press(...to));
}

describe('the clamp of a chosen piece', () => {
  test('slides along its tube, and the piece stays where it is', () => {
    editor.select(['one']);
    const { place } = editor.committed().setup.pieces.one;
    drag([250, 0], [400, 30]);
    expect(clampOf('one')).toBe(450);
    expect(editor.committed().setup.pieces.one.place).toEqual(place);
    editor.undo();
    expect(clampOf('one')).toBe(300);
  });

  test('stops at its neighbour and at the joint with the leg', () => {
    editor.select(['one']);
    drag([250, 0], [800, 0]);
    // Two clamps of 60 mm touch.
    expect(clampOf('one')).toBe(640);
    drag([590, 0], [-200, 0]);
    // The joint at 50 mm is 60 mm wide as well.
    expect(clampOf('one')).toBe(110);
  });

  test('is no handle of a locked piece, nor of one on the deck', () => {
    const kinds = () => {
      const { setup, layout } = editor.committed();
      return handlesOf(setup, layout, ['one'], 1).map(({ kind }) => kind);
    };
    expect(kinds()).toContain('clamp');
    editor.run({ type: 'setPiece', setup: 'one', piece: 'one', set: { mount: null } });
    expect(kinds()).not.toContain('clamp');
  });
});

describe('putting a drum or cymbal down', () => {
  const add = (x: number, y: number, gear = 'crash') => {
    const before = editor.plan();
    editor.run({ type: 'addPiece', setup: 'one', piece: item('new', 'New', gear, x, y) });
    return [before, editor.plan()] as const;
  };

  test('near a bar is answered by a mount in words', () => {
    const [before, after] = add(450, 200);
    const offer = offerFor(before, after, 'one');
    if (!offer) throw new Error('A boom reaches 200 mm aside.');
    expect(offer.piece).toBe('new');
    const { setup } = editor.committed();
    expect(offerWords(setup, setup.pieces.new as Item, offer.proposal)).toMatch(/^Mount New on Rack, bar 1, with /);
  });

  test('far away, or more than one, or held already, is not', () => {
    const [before, after] = add(450, 4000);
    expect(offerFor(before, after, 'one')).toBeNull();
    const moved = editor.plan();
    const place = (xMm: number) => ({ xMm });
    editor.run({ type: 'placePieces', setup: 'one', places: { new: place(460), two: place(500) } });
    expect(putDown(moved, editor.plan(), 'one')).toBeNull();
    const alone = editor.plan();
    editor.run({ type: 'placePieces', setup: 'one', places: { one: place(260) } });
    expect(putDown(alone, editor.plan(), 'one')).toBeNull();
  });

  test('says why nothing holds it, and by how much it is missed', () => {
    add(450, 4000);
    const { plan, setup, layout } = editor.committed();
    const far = setup.pieces.new as Item;
    const search = searchMounts(plan, setup, layout, far);
    if (search.ok) throw new Error('Nothing reaches that far.');
    expect(whyNot(search, plan, setup, far)).toMatch(/^No arm reaches it\. The nearest misses by .* mm, from Rack, /);
  });
});

test('stability is drawn for the assembly of what is chosen, and for nothing else', () => {
  editor.select(['two']);
  const [standing, ...others] = standingOf(editor.committed(), ['two']);
  expect(others).toEqual([]);
  expect(standing.assembly.pieces).toEqual(expect.arrayContaining(['rack', 'one', 'two']));
  // The same figures as the report's.
  const { assemblies } = editor.committed().checked.rig;
  expect(standing.reading).toEqual(assemblies.find(({ id }) => id === standing.assembly.id));
  expect(standingOf(editor.committed(), [])).toEqual([]);
});
