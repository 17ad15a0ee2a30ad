/** Laws over any plan that reads: random numbers, and every field at its least and its greatest. Nothing throws, and every answer is a finite number. */
import { expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { sheetFonts } from '../../src/cli/fonts.ts';
import { deckMarks } from '../../src/drawing/deck.ts';
import { boxOfMark } from '../../src/drawing/displayList.ts';
import { newItem } from '../../src/editor/panels/gear/newPiece.ts';
import { CATALOGUE } from '../../src/gear/catalogue.ts';
import { isPlaceable } from '../../src/gear/kinds.ts';
import { gearSchema } from '../../src/gear/schema.ts';
import { roundedPolygon } from '../../src/geometry/shapes.ts';
import { extent } from '../../src/geometry/support.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { newPlan } from '../../src/plan/newPlan.ts';
import { readPlan } from '../../src/plan/read.ts';
import { runCommand } from '../../src/plan/run.ts';
import { type Plan, planSchema, type Stage } from '../../src/plan/schema.ts';
import { refusalSentence } from '../../src/plan/words.ts';
import { makeSheets, type SheetKind } from '../../src/sheets/kinds.ts';
import { numbersFrom } from '../fixtures/anyCommand.ts';
import { anyPlan, endsOf, gearIn, numbersIn, withValue } from '../fixtures/extremePlans.ts';
import { SAMPLE_PLANS } from '../fixtures/samplePlans.ts';
import { few, seeds, some } from '../fixtures/seeds.ts';
import { stagePlan } from '../fixtures/stagePlan.ts';
import { notFinite, wholeAnswer } from '../fixtures/wholeAnswer.ts';

const fonts = sheetFonts();
const bases: readonly Plan[] = [...SAMPLE_PLANS.map(({ plan }) => plan), stagePlan()];

/** The plan as it reads, or null where it is refused in a sentence. */
function accepted(plan: unknown): Plan | null {
  const read = readPlan(JSON.stringify(plan));
  if (!read.ok) expect(read.problem.sentence).toMatch(/^[^\n]{1,500}\.$/);
  return read.ok ? read.plan : null;
}

/** A sheet is finite, or refused in a sentence. */
function expectSheet(plan: Plan, kind: SheetKind): void {
  const [setupId] = plan.order;
  const layout = layoutSetup(plan, setupId);
  const source = { plan, setupId, layout, checked: runChecks(plan, setupId, layout) };
  try {
    for (const { marks } of makeSheets(kind, source, { paper: 'a4', date: '2026-03-14', fonts }))
      expect(notFinite(marks.map((mark) => (mark.kind === 'text' ? [mark.x, mark.y] : boxOfMark(mark))))).toEqual([]);
  } catch (problem) {
    if (!(problem instanceof RangeError)) throw problem;
    expect(problem.message).toMatch(/^(This setup is too large|These setups are too large|At 1:|The template)/);
  }
}

const ALL = 100_000;
const KINDS = ['venue', 'marks', 'pull', 'template'] as const;

test('any numbers that the schema takes give finite bodies, findings and readings; some of them sheets', () => {
  let read = 0;
  for (const [k, seed] of seeds(ALL, few(ALL, 300)).entries()) {
    const plan = accepted(anyPlan(bases[seed % bases.length], numbersFrom(seed)));
    if (plan === null) continue;
    read++;
    expect(wholeAnswer(plan, plan.order[0], k % 50 === 0), `seed ${seed}`).toEqual([]);
    if (k % 100 === 0) expectSheet(plan, KINDS[(k / 100) % KINDS.length]);
  }
  expect(read).toBeGreaterThan(few(ALL, 300) / 2);
}, 3_600_000);

const SETUP = 'setup-1';

test('every size of gear at its least and its greatest is laid out, checked and drawn', () => {
  const first = new Map(
    CATALOGUE.filter(isPlaceable).map((gear) => [`${gear.kind} ${'use' in gear ? gear.use : ''}`, gear]),
  );
  for (const gear of some([...first.values()], 6)) {
    const added = runCommand(newPlan('Kit'), { type: 'addPiece', setup: SETUP, piece: newItem(gear, 300, 400, {}) });
    if (!added.ok) throw new Error(gear.id);
    for (const field of numbersIn(gearSchema, gear))
      for (const end of endsOf(field)) {
        const sized = withValue(gear, field.path, end);
        const set = runCommand(added.plan, { type: 'setGear', gear: sized });
        const read = accepted({ ...added.plan, gear: { [gear.id]: sized } });
        // The field, the command and the reader know the same numbers.
        expect(set.ok, `${gear.id} ${field.path.join('.')} ${end}`).toBe(read !== null);
        if (read) expect(wholeAnswer(read, SETUP), `${gear.id} ${field.path.join('.')} ${end}`).toEqual([]);
      }
  }
});

test('every number of a plan at its least and its greatest is answered', () => {
  const plan = bases[0];
  const [id] = plan.order;
  const setup = plan.setups[id];
  const gear = Object.fromEntries(gearIn(plan, setup).map((one) => [one.id, one]));
  const whole = { ...plan, setups: { [id]: setup }, order: [id], gear: { ...plan.gear, ...gear } };
  for (const field of some(numbersIn(planSchema, whole), 30))
    for (const end of endsOf(field)) {
      const changed = accepted(withValue(whole, field.path, end));
      if (changed) expect(wholeAnswer(changed, id, false), `${field.path.join('.')} ${end}`).toEqual([]);
    }
});

test('a seat 1 mm wide is no seat: the reader and the command say so, where, and what it must be', () => {
  const saddle = CATALOGUE.find(({ id }) => id === 'throne-saddle')!;
  const narrow = { ...saddle, widthMm: 1 };
  const set = runCommand(newPlan('Kit'), { type: 'setGear', gear: narrow as typeof saddle });
  expect(set.ok ? '' : refusalSentence(set.refusal)).toContain('"widthMm" is 1, and must be at least 200.');
  const read = readPlan(JSON.stringify({ ...newPlan('Kit'), gear: { [saddle.id]: narrow } }));
  expect(read.ok ? '' : read.problem.sentence).toBe(
    'Gear "Throne, saddle seat": "widthMm" is 1, and must be at least 200.',
  );
});

test('a module as thin as nothing is refused', () => {
  const module = { id: 'm', xMm: 0, yMm: 0, widthMm: 1e-9, depthMm: 1000, headingDeg: 0 };
  const riser = { id: 'r', name: 'Riser', heightMm: 200, ratedKPa: null, edgeMarginMm: 0, modules: [module] };
  expect(accepted({ ...newPlan('Kit'), risers: { r: riser } })).toBeNull();
});

/** Two modules side by side, the second turned by so much. */
const turnedModules = (headingDeg: number): Plan => {
  const module = { id: 'a', xMm: 0, yMm: 0, widthMm: 2000, depthMm: 1000, headingDeg: 0 };
  const modules = [module, { ...module, id: 'b', yMm: 990, headingDeg }];
  const riser = { id: 'r', name: 'Riser', heightMm: 200, ratedKPa: null, edgeMarginMm: 0, modules };
  const plan = newPlan('Kit');
  return { ...plan, risers: { r: riser }, setups: { [SETUP]: { ...plan.setups[SETUP], riser: 'r' } } };
};

test.each([0.5, 0.01, 0.001, 1e-6, 179.999, 90.001])(
  'a module turned by %s degrees keeps its edge lines by its edge',
  (turn) => {
    const plan = turnedModules(turn);
    const { deck } = layoutSetup(plan, SETUP);
    const edge = extent(deck!.modules.map((points) => roundedPolygon(points, 0)))!;
    for (const scale of [20, 200])
      for (const mark of deckMarks(deck!.modules, scale, null)) {
        const drawn = boxOfMark(mark);
        expect(drawn.minX).toBeGreaterThan(edge.minX - 4 * scale);
        expect(drawn.minY).toBeGreaterThan(edge.minY - 4 * scale);
        expect(drawn.maxX).toBeLessThan(edge.maxX + 4 * scale);
        expect(drawn.maxY).toBeLessThan(edge.maxY + 4 * scale);
      }
    expectSheet(plan, 'venue');
  },
);

test('a stage of nothing is refused, and one at the ends of what may be is drawn', () => {
  const corners = (...at: readonly (readonly [number, number])[]) => at.map(([xMm, yMm]) => ({ xMm, yMm }));
  const withStage = (outline: Stage['outline']): Plan => {
    const plan = turnedModules(90.001);
    const stage = { id: 's', name: 'Stage', outline, centreXMm: 0, wings: [] };
    return { ...plan, stages: { s: stage }, setups: { [SETUP]: { ...plan.setups[SETUP], stage: 's' } } };
  };
  expect(accepted(withStage(corners([0, 0], [0, 0], [0, 0])))).toBeNull();
  expect(accepted(withStage(corners([0, 0], [9000, 0], [4000, 0])))).toBeNull();
  for (const outline of [
    corners([0, 0], [500, 0], [0, 500]),
    corners([-50000, -50000], [50000, -50000], [50000, 50000]),
  ])
    expectSheet(accepted(withStage(outline))!, 'venue');
});
