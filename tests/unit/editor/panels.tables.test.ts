/** The field tables: every row stands in the schema, says what it measures, keeps to its bounds, and writes what it shows. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { DRUMMER } from '../../../src/editor/panels/drummer/drummerFields.ts';
import { fieldAt, schemaAt } from '../../../src/editor/panels/fields/bounds.ts';
import { kindOfField, readField } from '../../../src/editor/panels/fields/measures.ts';
import {
  type FieldTable,
  type Here,
  type NumberRow,
  numberField,
  patched,
  type Row,
  schemaField,
  switchField,
  textField,
  told,
} from '../../../src/editor/panels/fields/rows.ts';
import { isStale, noDraft, settled, typed } from '../../../src/editor/panels/fields/useDraft.ts';
import { gearOfPlan } from '../../../src/editor/panels/gear/shelf.ts';
import { MOUNT, TIE } from '../../../src/editor/panels/inspector/mountFields.ts';
import { ITEM } from '../../../src/editor/panels/inspector/pieceFields.ts';
import { BAR, LEG, RACK, SPAN } from '../../../src/editor/panels/inspector/rackFields.ts';
import { sizesOf } from '../../../src/editor/panels/inspector/sizeFields.ts';
import { OWNED, PART, STOCK } from '../../../src/editor/panels/parts/partFields.ts';
import { LIMIT, PAIR, PLAN, SETUP } from '../../../src/editor/panels/riser/planFields.ts';
import { MODULE, RISER } from '../../../src/editor/panels/riser/riserFields.ts';
import { STAGE_ITEM } from '../../../src/editor/panels/stage/itemFields.ts';
import { CABLE, INPUT, MIX, VENUE_LINE } from '../../../src/editor/panels/stage/listFields.ts';
import { boxCorners } from '../../../src/editor/panels/stage/stageEdits.ts';
import { CORNER, STAGE } from '../../../src/editor/panels/stage/stageFields.ts';
import { CATALOGUE, gearOf } from '../../../src/gear/catalogue.ts';
import { isPlaceable, type Placeable } from '../../../src/gear/kinds.ts';
import type { GearOf } from '../../../src/gear/schema.ts';
import { newInventory } from '../../../src/plan/inventory.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import { type Item, type Plan, planSchema, type Rack } from '../../../src/plan/schema.ts';

// biome-ignore lint/suspicious/noExplicitAny: tables of all kinds side by side
type AnyTable = FieldTable<any>;
type Case = readonly [name: string, table: AnyTable, thing: (plan: Plan) => unknown];

const read = readPlan(readFileSync('samples/four-bases.legroom.json', 'utf8'));
if (!read.ok) throw new Error(read.problem.sentence);
const setupId = read.plan.order[0];
const rows = (table: AnyTable): readonly Row<unknown>[] => Object.values(table.sections).flat();

/** The sample, and on it what it lacks: a stage, limits, a cable run, a mix, a line for the venue, a price. */
const plan: Plan = {
  ...read.plan,
  limits: { clearanceMm: { 'pedal+stand': 40 }, heightMm: 20 },
  stages: {
    hall: {
      id: 'hall',
      name: 'Hall',
      outline: boxCorners({ middleXMm: 0, frontYMm: -3000, widthMm: 9000, depthMm: 6000 }),
      centreXMm: 0,
      wings: [],
    },
  },
  drummers: { d: { id: 'd', name: 'Drummer', sex: 'woman', percentile: 30, handed: 'left' } },
  partNotes: { 'foot-20': { price: 3 } },
  setups: {
    ...read.plan.setups,
    [setupId]: {
      ...read.plan.setups[setupId],
      mixes: [{ id: 'mix-1', name: 'Drums', by: 'wedge' }],
      cables: [
        {
          id: 'cable-1',
          note: 'Power',
          points: [
            { xMm: 0, yMm: 0 },
            { xMm: 100, yMm: 0 },
          ],
        },
      ],
      inputs: [{ id: 'in-1', source: 'Kick', by: 'microphone' }],
      venueProvides: ['A riser'],
    },
  },
};

const here = (now: Plan, id = setupId): Here => ({
  plan: now,
  setup: now.setups[id],
  setupId: id,
  units: 'mm',
  carries: false,
});
/** Every piece of every setup. */
const pieces = plan.order.flatMap((setup) =>
  Object.values(plan.setups[setup].pieces).map((piece) => ({ setup, piece })),
);
const items = pieces.flatMap(({ setup, piece }) => (piece.kind === 'item' ? [{ setup, item: piece }] : []));
const racks = pieces.flatMap(({ setup, piece }) => (piece.kind === 'rack' ? [{ setup, rack: piece }] : []));
const itemHere = (now: Plan, setup: string, id: string) => {
  const item = now.setups[setup].pieces[id] as Item;
  return { ...here(now, setup), item, gear: gearOf(now.gear, item.gear), all: gearOfPlan(now) };
};
const rackHere = (now: Plan, setup: string, id: string) => ({
  ...here(now, setup),
  rack: now.setups[setup].pieces[id] as Rack,
});
const decks = CATALOGUE.filter((gear): gear is GearOf<'deck'> => gear.kind === 'deck');
const riserId = Object.keys(plan.risers)[0];

/** One piece of gear of each kind and use. */
const KINDS_ONCE = [
  ...new Map(
    CATALOGUE.filter(isPlaceable).map((gear) => [`${gear.kind} ${'use' in gear ? gear.use : ''}`, gear]),
  ).values(),
];

const CASES: readonly Case[] = [
  ...items.flatMap(({ setup, item: { id, ties = [] } }): Case[] => [
    [`item ${id}`, ITEM, (now) => itemHere(now, setup, id)],
    [`mount of ${id}`, MOUNT, (now) => itemHere(now, setup, id)],
    ...ties.map(
      (_, at): Case => [
        `tie ${at} of ${id}`,
        TIE,
        (now) => ({ ...itemHere(now, setup, id), at, tie: itemHere(now, setup, id).item.ties?.[at], tubes: [] }),
      ],
    ),
  ]),
  ...racks.flatMap(({ setup, rack }): Case[] => [
    [`rack ${rack.id}`, RACK, (now) => rackHere(now, setup, rack.id)],
    ...rack.legs.map(
      ({ id }, at): Case => [
        `leg ${id}`,
        LEG,
        (now) => ({ ...rackHere(now, setup, rack.id), leg: rackHere(now, setup, rack.id).rack.legs[at] }),
      ],
    ),
    ...rack.spans.flatMap((span, at): Case[] => [
      [`span ${at}`, SPAN, (now) => ({ ...rackHere(now, setup, rack.id), at })],
      ...span.bars.map(
        (_, b): Case => [
          `bar ${at} ${b}`,
          BAR,
          (now) => ({ ...rackHere(now, setup, rack.id), bar: rackHere(now, setup, rack.id).rack.spans[at].bars[b] }),
        ],
      ),
    ]),
  ]),
  ['riser', RISER, (now) => ({ riser: now.risers[riserId], decks })],
  ['module', MODULE, (now) => ({ riser: now.risers[riserId], decks, module: now.risers[riserId].modules[0] })],
  ['stage', STAGE, (now) => ({ stage: now.stages?.hall })],
  [
    'corner',
    CORNER,
    (now) => ({
      corners: now.stages?.hall.outline,
      at: 0,
      put: (outline: unknown) => ({ type: 'editStage', stage: 'hall', set: { outline } }),
    }),
  ],
  ['drummer', DRUMMER, (now) => ({ drummer: now.drummers?.d })],
  ['plan', PLAN, here],
  ['setup', SETUP, here],
  ['pair', PAIR, (now) => ({ plan: now, pair: 'pedal+stand', title: 'pedal and stand' })],
  ['limits', LIMIT, here],
  ['part', PART, (now) => ({ what: 'Foot', gear: 'foot-20', own: now.partNotes?.['foot-20'] ?? {} })],
  [
    'input',
    INPUT,
    (now) => {
      const { setup } = here(now);
      const list = () => setup.inputs ?? [];
      return {
        ...here(now),
        list,
        at: 0,
        channel: list()[0],
        pieces: [{ id: '', label: 'none' }],
        words: { device: 'd', stand: 's' },
      };
    },
  ],
  ['mix', MIX, (now) => ({ ...here(now), list: () => here(now).setup.mixes, at: 0, mix: here(now).setup.mixes?.[0] })],
  [
    'cable',
    CABLE,
    (now) => ({ ...here(now), list: () => here(now).setup.cables, at: 0, cable: here(now).setup.cables?.[0] }),
  ],
  [
    'venue',
    VENUE_LINE,
    (now) => {
      const list = () => here(now).setup.venueProvides ?? [];
      return { ...here(now), list, at: 0, line: list()[0] };
    },
  ],
  ['power', STAGE_ITEM, (now) => ({ ...itemHere(now, setupId, items[0].item.id), use: 'power' })],
  ...KINDS_ONCE.map(
    (gear): Case => [`sizes of ${gear.id}`, sizesOf(gear), (now) => gearOf(now.gear, gear.id) as Placeable],
  ),
];

/** Every row, with the first few things that have it. */
const FEW = 3;
const counts = new Map<Row<unknown>, number>();
const ALL = CASES.flatMap(([name, table, thing]) =>
  rows(table)
    .filter((row) => row.when?.(thing(plan)) !== false)
    .filter((row) => counts.set(row, (counts.get(row) ?? 0) + 1).get(row)! <= FEW)
    .map((row) => ({ name: `${name}: ${row.path}`, table, row, thing })),
);
const numbersOf = <T extends { readonly row: Row<unknown> }>(all: readonly T[]) =>
  all.filter((one): one is T & { readonly row: NumberRow<unknown> } => one.row.as === undefined);

const TABLES: readonly (readonly [string, AnyTable])[] = [
  ...new Map(CASES.map(([name, table]) => [table, name])).entries(),
].map(([table, name]) => [name, table] as const);

test('the sample reaches every table, and every row but three', () => {
  expect(ALL.length).toBeGreaterThan(250);
  const seen = new Set(ALL.map(({ row }) => row));
  const unseen = [ITEM, MOUNT, TIE, RACK, SPAN, BAR, LEG, RISER, MODULE, STAGE, PLAN, SETUP, LIMIT, INPUT, MIX].flatMap(
    (table) => rows(table as AnyTable).filter((row) => !seen.has(row)),
  );
  expect(unseen.map(({ path }) => path)).toEqual([
    // Nothing of the sample hangs on a leg, no link ends in a socket, no rack has a third leg.
    'mount.carrier.leg.heightMm',
    'carrier.socket.socket',
    'turnDeg',
  ]);
});

describe('a row and the schema', () => {
  const TYPES: Readonly<Record<string, readonly string[]>> = {
    number: ['number'],
    words: ['string'],
    choice: ['string', 'enum', 'number', 'object', 'union'],
    switch: ['boolean'],
    tick: ['boolean'],
  };
  test.each([...TABLES, ['owned', OWNED as AnyTable] as const, ['stock', STOCK as AnyTable] as const])(
    '%s',
    (_, table) => {
      for (const row of rows(table)) {
        if (row.as === undefined) expect(row.measure ?? kindOfField(row.path)).toMatch(/^[a-z]+$/);
        if (row.as === undefined && row.derived) continue;
        const { type } = schemaField(table, row, undefined);
        expect(TYPES[row.as ?? 'number'], row.path).toContain(type);
      }
      const paths = Object.values(table.sections).map((section) => section.map(({ path }) => path));
      for (const section of paths) expect(new Set(section).size).toBe(section.length);
    },
  );

  test('a path that is not there, and a name without its unit, are told', () => {
    expect(() => schemaAt(planSchema, 'setups.pieces.tree')).toThrow('“tree”');
    expect(() => fieldAt(planSchema, 'setups.pieces.item.place.zMm')).toThrow('“zMm”');
    expect(() => kindOfField('place.wide')).toThrow('“wide”');
  });

  test.each([
    ['setups.pieces.item.place.xMm', -50_000, 50_000, false, ['place', 'xMm']],
    ['setups.pieces.item.place.heightMm', 0, 5000, true, ['place', 'heightMm']],
    ['setups.pieces.item.mount.carrier.leg.heightMm', 0, 5000, false, ['mount', 'carrier', 'heightMm']],
    ['limits.clearanceMm', 0, 2000, true, ['limits', 'clearanceMm']],
    ['gear.drum.hoopMm', 0, 40, false, ['gear', 'hoopMm']],
  ] as const)('%s', (path, least, most, mayBeNone, keys) => {
    const field = fieldAt(planSchema, path);
    expect(field).toMatchObject({ least, most, mayBeNone });
    expect(field.keys.slice(-keys.length)).toEqual(keys);
  });
});

describe('what a field takes', () => {
  // What was typed by hand before the schema was read, and the tighter bounds that stay.
  test.each([
    ['cutLengthMm', BAR, 50, 6500],
    ['bend.radiusMm', BAR, 50, 20_000],
    ['bend.straightEndsMm', BAR, 0, 5000],
    ['lengthMm', LEG, 50, 5000],
    ['foot.lengthMm', LEG, 100, 2000],
    ['turnDeg', SPAN, -3600, 3600],
    ['place.tiltDeg', ITEM, -90, 90],
    ['place.heightMm', ITEM, 0, 5000],
    ['edgeMarginMm', RISER, 0, 2000],
    ['turnAtMostDeg', RISER, 0, 180],
    ['ratedKPa', RISER, 0.1, 50],
    ['widthMm', MODULE, 100, 20_000],
    ['power.volts', STAGE_ITEM, 1, 1000],
    ['power.loadW', STAGE_ITEM, 0, 200_000],
    ['heightMm', LIMIT, 0, 500],
    ['cymbalRoomMm.drum', LIMIT, 0, 500],
    ['clampMomentNm', LIMIT, 0, 1000],
    ['playerKg', LIMIT, 0, 400],
    ['clearanceMm', PAIR, 0, 2000],
    ['price', PART, 0, 1_000_000],
    ['count', OWNED, 0, 10_000],
    ['cutLengthMm', OWNED, 50, 6500],
    ['widthMm', STAGE, 500, 50_000],
  ] as const)('%s', (path, table, least, most) => {
    const all = rows(table as AnyTable);
    const row = all.find((one) => one.path === path) as NumberRow<unknown>;
    const bare = { ...row, value: () => null, otherwise: () => null };
    const { measure } = numberField({ ...(table as AnyTable), record: () => ({}) }, bare, {}, 'mm');
    expect([measure.least, measure.most]).toEqual([least, most]);
  });

  test('law: what is shown reads back, and is within the bounds', () => {
    for (const { name, table, row, thing } of numbersOf(ALL)) {
      const { value, measure } = numberField(table, row, thing(plan), 'mm');
      if (value === null) continue;
      const back = readField(measure, measure.format(value));
      expect(back.ok && Math.abs(back.value - value), name).toBeLessThan(0.06);
    }
  });

  test('law: what is set is shown afterwards, and makes a plan that the schema takes', () => {
    let taken = 0;
    for (const { name, table, row, thing } of numbersOf(ALL)) {
      const { value, measure, set } = numberField(table, row, thing(plan), 'mm');
      const wanted = Math.min(measure.most, Math.max(measure.least, (value ?? 0) + 3));
      const change = set(wanted);
      expect(change, name).not.toBeNull();
      if (change === null || 'refusal' in change) continue;
      const done = runCommand(plan, change);
      if (!done.ok) continue;
      taken++;
      expect(planSchema.safeParse(done.plan).success, name).toBe(true);
      const after = numberField(table, row, thing(done.plan), 'mm').value;
      expect(Math.abs((after ?? Number.NaN) - wanted), name).toBeLessThan(1e-3);
    }
    expect(taken).toBeGreaterThan(150);
  });

  test('law: what is emptied says nothing afterwards', () => {
    let emptied = 0;
    for (const { name, table, row, thing } of numbersOf(ALL)) {
      const { clear } = numberField(table, row, thing(plan), 'mm');
      const change = clear?.();
      if (change == null || 'refusal' in change) continue;
      const done = runCommand(plan, change);
      expect(done.ok, name).toBe(true);
      if (!done.ok) continue;
      emptied++;
      expect(numberField(table, row, thing(done.plan), 'mm').value, name).toBeNull();
    }
    expect(emptied).toBeGreaterThan(12);
  });

  test('law: words, choices and switches write what they show', () => {
    let taken = 0;
    for (const { name, table, row, thing } of ALL) {
      const now = thing(plan);
      const [change, show] =
        row.as === 'words'
          ? [textField(table, row, now).set('Fresh'), (next: Plan) => textField(table, row, thing(next)).value]
          : row.as === 'switch' || row.as === 'tick'
            ? [switchField(table, row, now).set(true), (next: Plan) => switchField(table, row, thing(next)).value]
            : row.as === 'choice'
              ? [
                  textField(table, row, now).set(textField(table, row, now).value),
                  (next: Plan) => textField(table, row, thing(next)).value,
                ]
              : [null, () => null];
      if (change === null || 'refusal' in change) continue;
      const done = runCommand(plan, change);
      expect(done.ok, name).toBe(true);
      if (!done.ok) continue;
      taken++;
      const wanted = row.as === 'words' ? 'Fresh' : row.as === 'choice' ? textField(table, row, now).value : true;
      expect(show(done.plan), name).toBe(wanted);
    }
    expect(taken).toBeGreaterThan(60);
  });

  test('every choice in use is among its choices, and every label says something', () => {
    for (const { name, table, row, thing } of ALL) {
      expect(told(row.label, thing(plan)), name).toMatch(/\S/);
      if (row.as !== 'choice' || row.path === 'carrier') continue;
      const ids = row.choices(thing(plan)).map(({ id }) => id);
      expect(ids, name).toContain(textField(table, row, thing(plan)).value);
    }
  });
});

test('a locked piece keeps its name, what it travels in, its lock and its note open, and nothing else', () => {
  for (const table of [ITEM, RACK] as AnyTable[])
    expect(
      rows(table)
        .flatMap((row) => (row.evenLocked ? [row.path] : []))
        .sort(),
    ).toEqual(['load', 'locked', 'name', 'note']);
  for (const table of [SPAN, BAR, LEG] as AnyTable[]) {
    expect(rows(table).some((row) => row.evenLocked)).toBe(false);
    expect(table.isLocked?.({ rack: { locked: true } })).toBe(true);
    expect(table.isLocked?.({ rack: {} })).toBe(false);
  }
});

test('a value within a record is set without its neighbours', () => {
  const leg = { id: 'a', foot: { gear: 'f', lengthMm: 500 } };
  expect(patched(leg, ['foot', 'lengthMm'], 400)).toEqual({ foot: { gear: 'f', lengthMm: 400 } });
  expect(patched({}, ['power', 'volts'], 230)).toEqual({ power: { volts: 230 } });
  expect(patched(leg, ['id'], null)).toEqual({ id: null });
});

test('a stock list is not the plan’s: it takes its values itself', () => {
  let stock = { ...newInventory('Mine'), currency: 'EUR' };
  const take = (next: typeof stock) => {
    stock = next;
  };
  const [name, currency] = rows(STOCK as AnyTable) as never[];
  expect(textField(STOCK as AnyTable, name, { stock, take }).set('Ours')).toBeNull();
  expect(stock.name).toBe('Ours');
  expect(textField(STOCK as AnyTable, currency, { stock, take }).set('')).toBeNull();
  expect('currency' in stock).toBe(false);
});

describe('a draft', () => {
  const draft = typed(noDraft(40), '4x');
  test('what is refused stays, with the reason', () => {
    expect(settled(draft, 'No.')).toEqual({ against: 40, text: '4x', refusal: 'No.' });
  });
  test('what is taken goes', () => {
    expect(settled(typed(settled(draft, 'No.'), '45'), null)).toEqual({ against: 40, text: null, refusal: null });
  });
  test('it is stale once the plan’s value has moved on', () => {
    expect(isStale(draft, 40)).toBe(false);
    expect(isStale(draft, 45)).toBe(true);
    expect(isStale(noDraft(Number.NaN), Number.NaN)).toBe(false);
  });
});
