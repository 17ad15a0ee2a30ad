/** Marks that are kept are the marks that would be drawn anew, and what a gesture moves is all that looks different by it. */
import { describe, expect, test } from 'vitest';
import { drawPiece } from '../../../src/drawing/pieces.ts';
import { type Live, liveOf } from '../../../src/editor/state/live.ts';
import { changedLooks, pieceMarks, runsOf } from '../../../src/editor/state/marks.ts';
import { createEditor } from '../../../src/editor/state/store.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import type { Command } from '../../../src/plan/commands/index.ts';
import { carriedBy } from '../../../src/plan/motion.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { anyCommand, numbersFrom } from '../../fixtures/anyCommand.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { seeds } from '../../fixtures/seeds.ts';

/** Every way of holding a piece is in the first; the others are the program's own. */
const SETUPS = [{ name: 'every way of holding', plan: samplePlan(), id: 'straight' }, ...sampleSetups()];

/** So many changes of a setup are tried, from all over it. */
const MOST = 12;

/** As text, from a copy of the plan: nothing that was kept is known for it. */
function fresh({ plan, setupId }: Live): Record<string, string> {
  const copy: Plan = structuredClone(plan);
  const setup = copy.setups[setupId];
  const layout = layoutSetup(copy, setupId);
  return Object.fromEntries(setup.order.map((id) => [id, JSON.stringify(drawPiece(copy, setup, id, layout))]));
}

const kept = (live: Live): Record<string, string> =>
  Object.fromEntries(live.setup.order.map((id) => [id, JSON.stringify(pieceMarks(live, id))]));

/** One change after another to every piece of a setup: it is moved, and a rack's first bar is raised. */
function changes({ setup, setupId }: Live): Command[] {
  return setup.order.flatMap((id): Command[] => {
    const piece = setup.pieces[id];
    const { xMm, yMm, headingDeg } = piece.place;
    const place = { xMm: xMm + 37, yMm: yMm - 21, headingDeg: (headingDeg + 13) % 360 };
    const moved: Command = { type: 'placePieces', setup: setupId, places: { [id]: place } };
    if (piece.kind !== 'rack') return [moved];
    const [{ bars }] = piece.spans;
    const set = { heightMm: bars[0].heightMm + 5 };
    return [moved, { type: 'setBar', setup: setupId, rack: id, bar: bars[0].id, set }];
  });
}

describe.each(SETUPS)('$name', ({ plan, id }) => {
  test('kept marks equal fresh ones, and whatever looks different is said to', () => {
    const before = liveOf(plan, id);
    const was = fresh(before);
    expect(kept(before)).toEqual(was);
    let carriedOut = 0;
    const all = changes(before);
    const some = all.filter((_, k) => k % Math.ceil(all.length / MOST) === 0);
    for (const command of some) {
      const ran = runCommand(plan, command);
      if (!ran.ok) continue;
      carriedOut++;
      const after = liveOf(ran.plan, id);
      const now = fresh(after);
      expect(kept(after)).toEqual(now);
      const different = after.setup.order.filter((one) => was[one] !== now[one]);
      expect(different.length).toBeGreaterThan(0);
      const said = changedLooks(before, after);
      expect(different.filter((one) => !said.includes(one))).toEqual([]);
      // The plan before it has not changed under it.
      expect(kept(before)).toEqual(was);
    }
    expect(carriedOut).toBeGreaterThan(some.length / 2);
  });

  test('runs hold every mark once, from low to high, and neighbours are of different pieces', () => {
    const live = liveOf(plan, id);
    const runs = runsOf(live);
    const marks = runs.flatMap((run) => run.marks);
    const all = live.setup.order.flatMap((one) => pieceMarks(live, one));
    expect(marks).toEqual(all.toSorted((a, b) => a.zMm - b.zMm));
    expect(new Set(runs.map(({ key }) => key)).size).toBe(runs.length);
    for (let k = 1; k < runs.length; k++) expect(runs[k].piece).not.toBe(runs[k - 1].piece);
  });
});

describe('law: kept marks equal fresh ones after every command, on every sample', () => {
  const cases = SETUPS.flatMap(({ name, plan, id }) => seeds(20).map((seed) => [name, seed, plan, id] as const));

  test.each(cases)('%s, %i', (_, seed, start, id) => {
    const random = numbersFrom(seed);
    let before = liveOf(start, id);
    let was = fresh(before);
    let done = 0;
    for (let step = 0; step < 150 && done < 8; step++) {
      const command = anyCommand(before.plan, random);
      const ran = runCommand(before.plan, command);
      // What does not touch this setup leaves its marks alone.
      if (!ran.ok || ran.plan.setups[id] === undefined || ran.plan.setups[id] === before.setup) continue;
      done++;
      const after = liveOf(ran.plan, id);
      const now = fresh(after);
      const told = `step ${step}: ${JSON.stringify(command)}`;
      expect(kept(after), told).toEqual(now);
      const said = changedLooks(before, after);
      expect(
        after.setup.order.filter((one) => was[one] !== now[one] && !said.includes(one)),
        told,
      ).toEqual([]);
      [before, was] = [after, now];
    }
    expect(done).toBeGreaterThan(4);
  });

  test('the rack of the hi-hat’s brace, typed 4 ft 6 in from the centre: the brace goes with it', () => {
    for (const { plan, id } of SETUPS) {
      const live = liveOf(plan, id);
      for (const piece of Object.values(live.setup.pieces)) {
        if (piece.kind !== 'item' || !piece.ties?.length) continue;
        const [{ carrier }] = piece.ties;
        if (carrier.on !== 'bar' && carrier.on !== 'leg') continue;
        kept(live);
        const places = { [carrier.rack]: { xMm: 1371.6 } };
        const ran = runCommand(plan, { type: 'placePieces', setup: id, places });
        if (!ran.ok) continue;
        const after = liveOf(ran.plan, id);
        expect(kept(after)[piece.id]).toBe(fresh(after)[piece.id]);
        expect(kept(after)[piece.id]).not.toBe(kept(live)[piece.id]);
        expect(changedLooks(live, after)).toContain(piece.id);
      }
    }
  });
});

test('a stand whose height is open looks different when what it holds goes up', () => {
  const { plan, id } = sampleSetups().find(({ name }) => name === 'four-bases, straight')!;
  const before = liveOf(plan, id);
  kept(before);
  const ran = runCommand(plan, { type: 'placePieces', setup: id, places: { snare: { heightMm: 700 } } });
  if (!ran.ok) throw new Error('refused');
  const after = liveOf(ran.plan, id);
  expect(kept(after)).toEqual(fresh(after));
  expect(changedLooks(before, after)).toEqual(expect.arrayContaining(['snare', 'snare-stand']));
});

test('a moved rack moves what hangs on it, in a socket of that and by a tie; nothing else', () => {
  const before = liveOf(samplePlan(), 'straight');
  const moved = (rack: string) => {
    const { xMm, yMm, headingDeg } = before.setup.pieces[rack].place;
    const place = { xMm: xMm + 20, yMm, headingDeg };
    const ran = runCommand(before.plan, { type: 'placePieces', setup: 'straight', places: { [rack]: place } });
    if (!ran.ok) throw new Error('The rack cannot be moved.');
    return changedLooks(before, liveOf(ran.plan, 'straight'));
  };
  expect(moved('left')).toEqual(['left', 'crash', 'hat-stand']);
  expect(moved('front')).toEqual(['front', 'tom1', 'tom2', 'splash']);
  expect(moved('pedal')).toEqual(['pedal']);
});

test('while the same pieces move, their list is the same object, so that the bodies are not painted again', () => {
  const editor = createEditor(samplePlan());
  const moving = (xMm: number) => {
    editor.previewCommand({ type: 'placePieces', setup: 'straight', places: { left: { xMm, yMm: 0, headingDeg: 0 } } });
    return editor.store.getState().preview?.moving;
  };
  const first = moving(-700);
  expect(first).toContain('crash');
  expect(moving(-650)).toBe(first);
});

test('a tied stand and what it holds are lifted with the rack, and said to stay', () => {
  const editor = createEditor(samplePlan());
  const { setup } = editor.committed();
  const held = carriedBy(setup, 'hat-stand');
  expect(held.length).toBeGreaterThan(0);
  editor.previewCommand({
    type: 'placePieces',
    setup: 'straight',
    places: { left: { xMm: -700, yMm: 0, headingDeg: 0 } },
  });
  const { moving, moved } = editor.store.getState().preview!;
  expect(moving).toEqual(expect.arrayContaining(['hat-stand', ...held]));
  expect(moved).toEqual(['left', 'crash']);
});
