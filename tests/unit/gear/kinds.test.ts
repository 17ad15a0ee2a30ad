/** Laws over the whole catalogue: whatever can be placed is laid out, drawn, named, counted, weighed, found and asked for, and no list leaves a kind out. */
import { describe, expect, test } from 'vitest';
import { floorMarks } from '../../../src/checks/marks/floorMarks.ts';
import { partsOf } from '../../../src/checks/parts.ts';
import { boxOfMarks, type Mark } from '../../../src/drawing/displayList.ts';
import { elevationOf } from '../../../src/drawing/elevation.ts';
import { nameRequests } from '../../../src/drawing/names.ts';
import { drawPiece } from '../../../src/drawing/pieces.ts';
import { estimateText } from '../../../src/drawing/textWidth.ts';
import { fieldAt } from '../../../src/editor/panels/fields/bounds.ts';
import { newItem } from '../../../src/editor/panels/gear/newPiece.ts';
import { shelves, sizeText } from '../../../src/editor/panels/gear/shelf.ts';
import { BODY_KINDS } from '../../../src/gear/bodyKinds.ts';
import { CATALOGUE, massKgOf } from '../../../src/gear/catalogue.ts';
import {
  GEAR_KINDS,
  heightMmIn,
  isArm,
  isBesideKit,
  isPart,
  isPlaceable,
  KINDS,
  kindOf,
  NAME_ORDER,
  ownHeightMm,
  PART_KINDS,
  type Placeable,
  placedKind,
  SHELVES,
  sizeFields,
  sizeWord,
  socketsOf,
  socketWord,
  UNIT_KINDS,
} from '../../../src/gear/kinds.ts';
import { gearSchema } from '../../../src/gear/schema.ts';
import { SOURCES, STAGE_USES } from '../../../src/gear/uses.ts';
import { boxOf } from '../../../src/geometry/support.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { unitKind } from '../../../src/lists/loadIn.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { Page } from '../../../src/sheets/page.ts';
import { drawStageLegend, stageLegendHeight } from '../../../src/sheets/stageLegend.ts';

const SETUP = 'setup-1';
const entries = CATALOGUE.map((gear) => [gear.id, gear] as const);
const placeable = CATALOGUE.filter(isPlaceable).map((gear) => [gear.id, gear] as const);

/** A plan with one such piece in it, which the plan's own rules took. */
function planWith(gear: Placeable) {
  const item = newItem(gear, 300, 400, {});
  const done = runCommand(newPlan('Kit'), { type: 'addPiece', setup: SETUP, piece: item });
  if (!done.ok) throw new Error(JSON.stringify(done.refusal));
  return { plan: done.plan, setup: done.plan.setups[SETUP], item, layout: layoutSetup(done.plan, SETUP) };
}

const areFinite = (numbers: readonly number[]) => numbers.every(Number.isFinite);
const boxNumbers = (marks: readonly Mark[]) => Object.values(boxOfMarks(marks)) as number[];

describe.each(placeable)('%s', (_, gear) => {
  const { plan, setup, item, layout } = planWith(gear);
  const placed = placedKind(gear);

  test('is laid out: finite bodies, one of them of its own kind, which carry its mass', () => {
    expect(layout.problems).toEqual([]);
    for (const { shape, z0, z1 } of layout.bodies) {
      expect(areFinite([...Object.values(boxOf(shape)), z0, z1])).toBe(true);
      expect(z1).toBeGreaterThan(z0);
      expect(z0).toBeGreaterThanOrEqual(0);
    }
    expect(layout.bodies.map(({ kind }) => kind)).toContain(placed.body(gear));
    const massKg = massKgOf(gear);
    const carrying = layout.bodies.filter((body) => body.massKg !== 0);
    if (massKg === null) expect(carrying.every((body) => body.massKg === null)).toBe(true);
    else expect(carrying.reduce((sum, body) => sum + body.massKg!, 0)).toBeCloseTo(massKg, 9);
    expect(carrying.length).toBeGreaterThan(0);
  });

  test('is drawn from above: over the whole of its main body, in its own colours', () => {
    const marks = drawPiece(plan, setup, item.id, layout);
    expect(areFinite(boxNumbers(marks))).toBe(true);
    const drawn = boxOfMarks(marks);
    const main = boxOf(layout.bodies.find(({ kind }) => kind === placed.body(gear))!.shape);
    // A clip microphone's glyph is shorter than its outline: by less than a third at each end.
    const [wide, deep] = [(main.maxX - main.minX) / 3, (main.maxY - main.minY) / 3];
    expect(drawn.minX).toBeLessThanOrEqual(main.minX + wide);
    expect(drawn.maxX).toBeGreaterThanOrEqual(main.maxX - wide);
    expect(drawn.minY).toBeLessThanOrEqual(main.minY + deep);
    expect(drawn.maxY).toBeGreaterThanOrEqual(main.maxY - deep);
    expect(new Set(marks.map(({ pieceId }) => pieceId))).toEqual(new Set([item.id]));
  });

  test('is drawn from the front, up to its top, and can be taken hold of where its height can be set', () => {
    const view = elevationOf(plan, SETUP, layout, {
      side: 'audience',
      selected: [],
      units: 'mm',
      scale: 20,
      measure: estimateText,
    });
    const marks = view.list.marks.filter(({ pieceId }) => pieceId === item.id);
    expect(marks.length > 0).toBe(!isBesideKit(gear));
    if (isBesideKit(gear)) return;
    expect(areFinite(boxNumbers(marks))).toBe(true);
    const top = Math.max(...layout.bodies.map(({ z1 }) => z1));
    expect(Math.abs(boxOfMarks(marks).maxY - top)).toBeLessThan(1);
    const own = ownHeightMm(gear);
    expect(view.grips.map(({ heightMm }) => heightMm)).toEqual(own === null ? [] : [own]);
  });

  test('is named', () => {
    expect(nameRequests(plan, setup, layout, [item.id], new Map()).map(({ text }) => text)).toEqual([item.name]);
    expect(item.name).toBe(gear.name);
    expect(kindOf(gear).word).toMatch(/^an? \S/);
    expect(BODY_KINDS[placed.body(gear)].word).not.toBe('');
  });

  test('is counted and weighed as a part, or is none', () => {
    const parts = partsOf(plan, SETUP);
    if (!isPart(gear)) {
      expect(parts.all).toEqual([]);
      return;
    }
    const mass = massKgOf(gear);
    expect(parts.all).toEqual([
      expect.objectContaining({ gear: gear.id, kind: kindOf(gear).counts[0], label: gear.name, count: 1, mass }),
    ]);
    expect([parts.knownMass, parts.unmeasured]).toEqual([mass ?? 0, mass === null ? 1 : 0]);
    expect(UNIT_KINDS).toContain(unitKind(plan, SETUP, parts.units[0]));
  });

  test('is in the drawer once, with a size', () => {
    const own = shelves(CATALOGUE, '').filter((shelf) => shelf.gear.includes(gear));
    expect(own.map(({ name }) => name)).toEqual([kindOf(gear).shelf(gear)]);
    expect(sizeText(gear, 'mm')).toMatch(gear.kind === 'stand' && gear.base.form === 'none' ? /no legs/ : /\d mm/);
    expect(placed.reachMm(gear)).toBeGreaterThan(0);
  });

  test('each of its lengths has a field, and the field has the bounds that the schema holds', () => {
    const lengths = Object.entries(gear).filter(([field, value]) => /Mm$/.test(field) && typeof value === 'number');
    const fields = sizeFields(gear);
    expect(fields.map(({ field, value }) => [field, value]).sort()).toEqual(lengths.sort());
    for (const { field, word, value } of fields) {
      const { least, most, isAbove } = fieldAt(gearSchema, `${gear.kind}.${field}`);
      expect(sizeWord(gear, field)).toBe(word.toLowerCase());
      expect(value).toBeGreaterThanOrEqual(least);
      expect(value).toBeLessThanOrEqual(most);
      const with_ = (size: number) => gearSchema.safeParse({ ...gear, [field]: size }).success;
      expect([with_(least), with_(least + 1), with_(most)]).toEqual([!isAbove, true, true]);
      expect([with_(most + 1), with_(least - 1)]).toEqual([false, false]);
    }
  });

  test('its height is as its place sets it, else its own', () => {
    const own = ownHeightMm(gear);
    expect(heightMmIn({}, gear)).toBe(own);
    expect(heightMmIn({ heightMm: 432 }, gear)).toBe(own === null ? null : 432);
    if (own === null) expect(placed.heightWord).toBeNull();
    else expect(own).toBeGreaterThan(0);
  });

  test('is put on the marks where it stands on the deck by itself', () => {
    const stands = layout.bodies.some(({ touchesFloor }) => touchesFloor);
    const marks = floorMarks(plan, setup, layout, () => true);
    expect(marks.length > 0).toBe(stands);
    for (const { at } of marks) expect(areFinite(at)).toBe(true);
  });

  test('sounds as something that the input list knows, or not at all', () => {
    const source = placed.source(gear);
    expect(source === null || Object.hasOwn(SOURCES, source)).toBe(true);
  });
});

test.each(placeable.filter(([, gear]) => isBesideKit(gear)))('%s is in the key of a stage plot', (_, gear) => {
  const { plan, setup } = planWith(gear);
  const page = new Page(estimateText);
  drawStageLegend(page, plan, setup, 0, 100, 60, 1);
  const texts = page.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
  expect(stageLegendHeight(plan, setup, 1)).toBeGreaterThan(0);
  const { use } = gear as Extract<Placeable, { kind: 'stageItem' }>;
  expect(texts[0]).toContain(STAGE_USES[use].word);
});

test.each(CATALOGUE.filter((gear) => gear.kind === 'platform').map((gear) => [gear.id, gear] as const))(
  'the sockets of %s have names of their own',
  (_, gear) => {
    const words = gear.sockets.map((_socket, k) => socketWord(gear, k));
    expect(new Set(words).size).toBe(gear.sockets.length);
    for (const word of words) expect(word).toMatch(/^(left|right|middle|rear) socket$/);
    // Own x is to the right on the page with the audience at its bottom: the player's left.
    for (const { name, xMm } of gear.sockets) expect(Math.sign(xMm)).toBe({ left: 1, right: -1 }[name!] ?? 0);
    expect(socketWord(gear, 9)).toBe('socket 10');
  },
);

describe('every entry', () => {
  test.each(entries)('%s has a word, a heading, a size, and is a part of some kind or none', (_, gear) => {
    const { shelf, counts } = kindOf(gear);
    expect(SHELVES).toContain(shelf(gear));
    expect(sizeText(gear, 'mm')).not.toMatch(/NaN|undefined|^$/);
    for (const part of counts) expect(PART_KINDS).toContain(part);
    expect(isPlaceable(gear)).toBe(kindOf(gear).placed !== null);
    if (!isArm(gear)) return;
    expect(socketsOf(gear).every(({ xMm, yMm }) => areFinite([xMm, yMm]))).toBe(true);
    expect(kindOf(gear).counts.length).toBe(1);
  });

  test('each kind is in the catalogue, each heading has an entry, each part comes from some kind or is a made-up one', () => {
    expect(new Set(CATALOGUE.map(({ kind }) => kind))).toEqual(new Set(GEAR_KINDS));
    expect(new Set(CATALOGUE.map((gear) => kindOf(gear).shelf(gear)))).toEqual(new Set(SHELVES));
    const counted = GEAR_KINDS.flatMap((kind): readonly string[] => KINDS[kind].counts);
    expect(new Set([...counted, 'endCap'])).toEqual(new Set(PART_KINDS));
    const named = GEAR_KINDS.filter((kind) => KINDS[kind].placed !== null);
    expect(new Set([...named, 'rack'])).toEqual(new Set(NAME_ORDER));
    expect(GEAR_KINDS).toEqual([...new Set(GEAR_KINDS)]);
  });

  test('the rows and the schema have the same kinds', () => {
    expect([...GEAR_KINDS].sort()).toEqual(gearSchema.def.options.flatMap(({ shape }) => shape.kind.def.values).sort());
  });
});

test('laying out, drawing and counting leave the plan as it was', () => {
  const { plan } = planWith(placeable[0][1]);
  const before: Plan = structuredClone(plan);
  layoutSetup(plan, SETUP);
  partsOf(plan, SETUP);
  expect(plan).toEqual(before);
});
