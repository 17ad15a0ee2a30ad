/** Differences of setups: the playing layout first, then pieces, racks, parts and readings, by hand. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { differences, turnDeg } from '../../../src/checks/differences.ts';
import { readingsOf } from '../../../src/checks/readings.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Mount, Piece, Plan, Rack, Setup, Tie } from '../../../src/plan/schema.ts';
import { pieceWords } from '../../../src/words/differenceWords.ts';
import { bar, item, leg, samplePlan } from '../../fixtures/plans.ts';

/** The test plan with a second setup: the first one changed. */
function planWith(edit: (setup: Setup) => void): Plan {
  const plan = structuredClone(samplePlan());
  const second = structuredClone(plan.setups.straight);
  second.id = 'second';
  edit(second);
  plan.setups.second = second;
  plan.order.push('second');
  return plan;
}

const compare = (edit: (setup: Setup) => void) => differences(planWith(edit), 'straight', 'second');
const itemOf = (setup: Setup, id: string) => setup.pieces[id] as Item;
const rackOf = (setup: Setup, id: string) => setup.pieces[id] as Rack;

test('a copy differs in nothing', () => {
  expect(compare(() => {})).toMatchObject({
    samePlayingLayout: true,
    playing: [],
    pieces: [],
    partsAdded: [],
    partsRemoved: [],
  });
});

describe('the playing layout', () => {
  test.each<[string, (setup: Setup) => void, string[]]>([
    [
      'a cymbal 30 mm over',
      (s) => {
        itemOf(s, 'crash').place.xMm += 30;
      },
      ['crash'],
    ],
    [
      'a drum 20 mm higher',
      (s) => {
        itemOf(s, 'tom1').place.heightMm = 820;
      },
      ['tom1'],
    ],
    [
      'a cymbal tilted more',
      (s) => {
        itemOf(s, 'crash').place.tiltDeg = 14;
      },
      ['crash'],
    ],
    [
      'a tilted cymbal turned',
      (s) => {
        itemOf(s, 'crash').place.headingDeg += 5;
      },
      ['crash'],
    ],
    [
      'a pedal turned',
      (s) => {
        itemOf(s, 'pedal').place.headingDeg += 5;
      },
      ['pedal'],
    ],
    [
      'its second pedal moved',
      (s) => {
        itemOf(s, 'pedal').second!.xMm += 5;
      },
      ['pedal'],
    ],
    [
      'another size of drum',
      (s) => {
        itemOf(s, 'tom1').gear = 'tom-10x8';
      },
      ['tom1'],
    ],
    [
      'a drum less',
      (s) => {
        delete s.pieces.splash;
        s.order = s.order.filter((id) => id !== 'splash');
      },
      ['splash'],
    ],
    [
      'a drum more',
      (s) => {
        s.pieces.new = item('new', 'New', 'tom', 0, 0);
        s.order.push('new');
      },
      ['new'],
    ],
  ])('differs: %s', (_, edit, ids) => {
    const found = compare(edit);
    expect([found.samePlayingLayout, found.playing]).toEqual([false, ids]);
  });

  test.each<[string, (setup: Setup) => void]>([
    [
      'a rack moved',
      (s) => {
        s.pieces.left.place.xMm -= 200;
      },
    ],
    [
      'a bar bent',
      (s) => {
        rackOf(s, 'left').spans[0].bars[0].bend = { radiusMm: 900, straightEndsMm: 50, side: 'left' };
      },
    ],
    [
      'a mount on another leg',
      (s) => {
        itemOf(s, 'splash').mount!.carrier = { on: 'leg', rack: 'front', leg: 'l2', heightMm: 800 };
      },
    ],
    [
      'a round level drum turned',
      (s) => {
        itemOf(s, 'tom2').place.headingDeg = 77;
      },
    ],
    [
      "a height written out that is the gear's own",
      (s) => {
        itemOf(s, 'tom1').place.heightMm = 800;
      },
    ],
    [
      'less than a tape reads',
      (s) => {
        itemOf(s, 'crash').place.xMm += 0.4;
        itemOf(s, 'crash').place.headingDeg += 360.04;
      },
    ],
    [
      'a stand without footboard moved',
      (s) => {
        s.pieces['hat-stand'].place.xMm += 90;
      },
    ],
  ])('stays the same: %s', (_, edit) => expect(compare(edit).samePlayingLayout).toBe(true));

  test('a hi-hat stand: its footboard counts, its legs do not', () => {
    const legs = (gear: string, xMm: number) =>
      compare((s) => {
        s.pieces.hats = { ...item('hats', 'Hi-hat stand', gear, xMm, 0) };
        s.order.push('hats');
      });
    const plan = planWith(() => {});
    const put = (setup: string, gear: string, xMm: number) => {
      plan.setups[setup].pieces.hats = item('hats', 'Hi-hat stand', gear, xMm, 0);
      if (!plan.setups[setup].order.includes('hats')) plan.setups[setup].order.push('hats');
    };
    put('straight', 'stand-hi-hat-tripod', 300);
    put('second', 'stand-hi-hat-legless', 300);
    const same = differences(plan, 'straight', 'second');
    expect(same.samePlayingLayout).toBe(true);
    expect(same.pieces.map(({ id, gear }) => [id, gear])).toEqual([
      ['hats', { from: 'stand-hi-hat-tripod', to: 'stand-hi-hat-legless' }],
    ]);
    put('second', 'stand-hi-hat-legless', 320);
    expect(differences(plan, 'straight', 'second').playing).toEqual(['hats']);
    expect(legs('stand-hi-hat-tripod', 300).playing).toEqual(['hats']);
  });
});

describe('pieces', () => {
  test('how far, how much turned, how much higher, how much tilted', () => {
    const { pieces } = compare((s) => {
      Object.assign(itemOf(s, 'crash').place, { xMm: -620, yMm: -410, headingDeg: -175, heightMm: 1100, tiltDeg: 5 });
    });
    expect(pieces).toHaveLength(1);
    expect(pieces[0]).toMatchObject({
      id: 'crash',
      what: 'moved',
      movedMm: 50,
      move: [30, 40],
      turnedDeg: 165,
      raisedMm: 50,
      tiltedDeg: -7,
      mount: null,
    });
  });

  test('a mount: slid along its tube, or on another one, with another clamp and arm', () => {
    const slid = compare((s) => {
      Object.assign(itemOf(s, 'crash').mount!.carrier, { atMm: 520 });
    }).pieces[0];
    expect(slid).toMatchObject({ what: 'changed', mount: { carrier: false, slidMm: 120, clamp: false, arm: false } });
    const other = compare((s) => {
      itemOf(s, 'crash').mount = {
        carrier: { on: 'bar', rack: 'front', bar: 'b1', atMm: 400 },
        clamp: 'clamp-arm',
        arm: 'boom-1',
      };
    }).pieces[0];
    expect(other.mount).toMatchObject({ carrier: true, slidMm: null, clamp: true, arm: false });
    const none = compare((s) => {
      itemOf(s, 'crash').mount = null;
    }).pieces[0];
    expect(none.mount).toMatchObject({ to: null, carrier: true, clamp: true, arm: true });
  });

  test('a tie', () => {
    const { pieces } = compare((s) => {
      itemOf(s, 'hat-stand').ties![0].heightMm = 330;
    });
    expect(pieces[0].ties).toMatchObject({ from: [{ heightMm: 310 }], to: [{ heightMm: 330 }] });
  });

  test('removed ones first', () => {
    const { pieces } = compare((s) => {
      delete s.pieces.pedal;
      s.pieces.extra = item('extra', 'Extra', 'crash', 0, 0);
      s.order = [...s.order.filter((id) => id !== 'pedal'), 'extra'];
    });
    expect(pieces.map(({ id, what }) => [id, what])).toEqual([
      ['pedal', 'removed'],
      ['extra', 'added'],
    ]);
  });
});

describe('racks', () => {
  test('straight to curved: the bend, the legs nearer together, another tube in the parts', () => {
    const plan = planWith(() => {});
    const bend = { radiusMm: 600, straightEndsMm: 50, side: 'left' } as const;
    const bent = runCommand(plan, { type: 'bendRack', setup: 'second', rack: 'left', bend });
    if (!bent.ok) throw new Error(bent.refusal.code);
    const found = differences(bent.plan, 'straight', 'second');
    const [rack] = found.pieces;
    expect([found.samePlayingLayout, rack.id, rack.what]).toEqual([true, 'left', 'changed']);
    expect(rack.bars).toEqual([
      {
        bar: 'b1',
        what: 'changed',
        bend: { from: null, to: bend },
        tube: null,
        cutLengthMm: null,
        heightMm: null,
        overhangMm: null,
      },
    ]);
    // The overhangs of 50 mm are the straight ends: the legs stand at the ends of an arc of 900 mm, chord 2 R sin(900/2R).
    const chord = 2 * 600 * Math.sin(900 / 1200);
    expect(rack.legs).toHaveLength(1);
    expect(rack.legs[0]).toMatchObject({ leg: 'l2', what: 'changed', footTurnedDeg: 0 });
    expect(rack.legs[0].movedMm).toBeCloseTo(900 - chord, 6);
    expect(found.partsAdded.map(({ part, before, after }) => [part.label, part.cutLength, before, after])).toEqual([
      ['Curved tube', 1000, 0, 1],
    ]);
    expect(found.partsRemoved.map(({ part, before, after }) => [part.label, part.cutLength, before, after])).toEqual([
      ['Bar tube', 1000, 2, 1],
    ]);
  });

  test('a bar and a leg more, a bar lower, a foot turned and an upright cut', () => {
    const { pieces } = compare((s) => {
      const left = rackOf(s, 'left');
      left.spans[0].bars[0].heightMm = 650;
      left.spans.push({ turnDeg: 20, farOverhangMm: 50, bars: [bar('b9')] });
      left.legs.push(leg('l3'));
      left.legs[0].foot!.headingDeg = 60;
      left.legs[1].lengthMm = 800;
    });
    expect(pieces).toHaveLength(1);
    expect(pieces[0].bars.map(({ bar: id, what, heightMm }) => [id, what, heightMm])).toEqual([
      ['b1', 'changed', { from: 700, to: 650 }],
      ['b9', 'added', null],
    ]);
    const [l1, l2, l3] = pieces[0].legs;
    expect(l1.footTurnedDeg).toBeCloseTo(-30, 9);
    expect(l2).toMatchObject({ leg: 'l2', lengthMm: { from: 900, to: 800 }, movedMm: 0 });
    expect(l3).toMatchObject({ leg: 'l3', what: 'added' });
  });
});

test('swapping the setups swaps added and removed, and turns the signs', () => {
  const plan = planWith((s) => {
    itemOf(s, 'crash').place.heightMm = 1000;
    itemOf(s, 'crash').place.headingDeg = 50;
    delete s.pieces.splash;
    s.order = s.order.filter((id) => id !== 'splash');
  });
  const [there, back] = [differences(plan, 'straight', 'second'), differences(plan, 'second', 'straight')];
  const of = (found: typeof there, id: string) => found.pieces.find((piece) => piece.id === id)!;
  expect(of(back, 'crash').raisedMm).toBe(-of(there, 'crash').raisedMm);
  expect(of(back, 'crash').turnedDeg).toBe(-of(there, 'crash').turnedDeg);
  expect(of(back, 'splash').what).toBe('added');
  const told = (list: typeof there.partsAdded) => list.map(({ part, before, after }) => [part.gear, before, after]);
  expect(told(back.partsAdded)).toEqual(told(there.partsRemoved).map(([gear, a, b]) => [gear, b, a]));
  expect(there.partsRemoved.length).toBeGreaterThan(0);
});

test('readings before and after: numbers only, null where one has none', () => {
  const { readings } = differences(samplePlan(), 'straight', 'empty', {
    from: { area: 2, margin: 30, box: { width: 3 } },
    to: { area: 3, margin: null, sag: null, push: 4 },
  });
  expect(readings).toEqual([
    { name: 'area', before: 2, after: 3 },
    { name: 'margin', before: 30, after: null },
    { name: 'push', before: null, after: 4 },
  ]);
});

test.each([
  [10, 350, -20],
  [350, 10, 20],
  [0, 180, 180],
  [180, 0, 180],
  [90, 90 + 720, 0],
])('the turn from %f to %f degrees is %f', (from, to, turn) => expect(turnDeg(from, to)).toBe(turn));

test('the sample: straight and curved side racks are one playing layout on other tubes', () => {
  const file = resolve(import.meta.dirname, '../../../samples/one-up-two-down.legroom.json');
  const read = readPlan(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  const of = (id: string) => ({ ...readingsOf(layoutSetup(read.plan, id)) });
  const found = differences(read.plan, 'straight', 'curved', { from: of('straight'), to: of('curved') });
  expect(found.samePlayingLayout).toBe(true);
  expect(found.pieces.filter(({ bars }) => bars.some(({ bend }) => bend?.from === null)).map(({ id }) => id)).toEqual([
    'rack-right',
    'rack-left',
  ]);
  const lengths = (list: typeof found.partsAdded) =>
    list.filter(({ part }) => part.kind === 'bar').map(({ part }) => part.cutLength);
  expect(lengths(found.partsAdded)).toEqual(lengths(found.partsRemoved));
  const floor = found.readings.find(({ name }) => name === 'floorHullArea')!;
  expect(floor.after!).toBeLessThan(floor.before!);
});

describe('law: whatever is changed of a piece is told', () => {
  /** A published schema's node, as far as it is asked here. */
  interface Node {
    readonly properties?: Readonly<Record<string, Node>>;
    readonly items?: Node;
    readonly anyOf?: readonly Node[];
    readonly oneOf?: readonly Node[];
    readonly const?: unknown;
    readonly enum?: readonly unknown[];
    readonly type?: string;
    readonly additionalProperties?: Node;
  }
  type Made = Record<string, unknown>;
  const published = JSON.parse(
    readFileSync(resolve(import.meta.dirname, '../../../public/legroom.schema.json'), 'utf8'),
  ) as Node;
  const pieces = published.properties!.setups.additionalProperties!.properties!.pieces.additionalProperties!;

  const optionsOf = (node: Node): readonly Node[] => node.anyOf ?? node.oneOf ?? [node];
  /** Of several, the one that a value is of: by its literal fields. */
  function nodeOf(node: Node, value: unknown): Node {
    const fits = optionsOf(node).filter(
      ({ type, properties = {} }) =>
        (value === null) === (type === 'null') &&
        Object.entries(properties).every(
          ([key, field]) => field.const === undefined || field.const === (value as Made)[key],
        ),
    );
    return fits[0];
  }

  /** Every field within a value by the schema, with another value for it. */
  function* edits(
    node: Node,
    value: unknown,
    path: readonly (string | number)[],
  ): Generator<[string, (root: Made) => void]> {
    const at = nodeOf(node, value);
    const set = (to: unknown): [string, (root: Made) => void] => [
      path.join('.'),
      (root) => {
        const last = path.slice(0, -1).reduce<Made>((inner, key) => inner[key] as Made, root);
        last[path[path.length - 1]] = to;
      },
    ];
    if (optionsOf(node).some(({ type }) => type === 'null')) yield set(null);
    if (at.properties) {
      for (const [key, field] of Object.entries(at.properties)) {
        const has = (value as Made)[key];
        if (has === undefined || has === null)
          throw new Error(`give ${[...path, key].join('.')} to the piece of this test`);
        yield* edits(field, has, [...path, key]);
      }
    } else if (at.items) {
      for (const [k, each] of (value as unknown[]).entries()) yield* edits(at.items, each, [...path, k]);
    } else if (at.const !== undefined) return;
    else if (at.enum) yield set(at.enum.find((other) => other !== value));
    else if (typeof value === 'number') yield set(value + 3);
    else if (typeof value === 'boolean') yield set(!value);
    else yield set(`${String(value)}x`);
  }

  const place = { xMm: 1, yMm: 2, headingDeg: 10, heightMm: 900, tiltDeg: 12 };
  const tie = {
    carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 200 },
    link: 'link-1',
    clamp: 'clamp-own',
    heightMm: 300,
  };
  const held = (carrier: Mount['carrier']): Item => ({
    ...{
      kind: 'item',
      id: 'it',
      name: 'It',
      gear: 'crash',
      place,
      locked: false,
      note: '',
      takes: 'tom1',
      mix: 'm1',
      load: 'bag',
    },
    mount: { carrier, clamp: 'clamp-own', arm: 'platform-2', platformArm: 'boom-1', side: 'left' },
    ties: [tie as Tie],
    ...{
      second: { xMm: 100, yMm: 0, headingDeg: 5 },
      tip: 'floor',
      legsTurnDeg: 10,
      power: { volts: 230, loadW: 100 },
    },
  });
  const bent = { radiusMm: 900, straightEndsMm: 50, side: 'left' } as const;
  const whole: readonly Piece[] = [
    held({ on: 'bar', rack: 'left', bar: 'b1', atMm: 400 }),
    held({ on: 'leg', rack: 'left', leg: 'l1', heightMm: 400 }),
    held({ on: 'socket', piece: 'tom1', socket: 1 }),
    held({ on: 'piece', piece: 'bass' }),
    {
      ...{ kind: 'rack', id: 'it', name: 'It', place, locked: false, note: '', load: 'frame' },
      legs: [leg('l1'), leg('l2'), leg('l3')],
      spans: [0, 20].map((turnDeg, k) => ({
        ...{ turnDeg, farOverhangMm: 50 },
        bars: [
          { ...bar(`a${k}`), bend: bent },
          { ...bar(`b${k}`), bend: bent, heightMm: 300 },
        ],
      })),
    },
  ];
  /** What it is known by; the page's alone; what the file has a place for, and a rack has not; a first span, which no other comes before. */
  const UNTOLD = { item: /^(id|locked)$/, rack: /^(id|locked|place\.(heightMm|tiltDeg)|spans\.0\.turnDeg)$/ };

  test.each(
    whole.map((piece) => [piece.kind === 'item' ? `on a ${piece.mount!.carrier.on}` : 'a rack', piece] as const),
  )('%s', (_, piece) => {
    const untold: string[] = [];
    let count = 0;
    for (const [path, edit] of edits(pieces, piece, [])) {
      count++;
      const plan = planWith((setup) => {
        setup.pieces.it = structuredClone(piece);
        setup.order.push('it');
        edit(setup.pieces.it as unknown as Made);
      });
      plan.setups.straight.pieces.it = piece;
      plan.setups.straight.order.push('it');
      const found = differences(plan, 'straight', 'second').pieces;
      if (found.length === 0) untold.push(path);
      else if (
        !pieceWords(found[0], plan)
          .replace(/^.*?: /, '')
          .match(/^(?!changed$)./)
      )
        untold.push(`in words: ${path}`);
    }
    expect(count).toBeGreaterThan(25);
    expect(untold.filter((path) => !UNTOLD[piece.kind].test(path))).toEqual([]);
    expect(untold.length).toBeGreaterThan(1);
  });
});
