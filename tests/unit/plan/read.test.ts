import { describe, expect, test } from 'vitest';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { LIMITS, type Plan, planSchema } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { type Broken, broken, expectProblem, left, SETUP, straight } from './broken.ts';

test('RD-0 the sample is read, and so is a new plan', () => {
  expect(readPlan(JSON.stringify(samplePlan()))).toEqual({ ok: true, plan: samplePlan() });
  expect(readPlan(writePlan(newPlan('Evening'))).ok).toBe(true);
  expect(planSchema.safeParse(newPlan('Evening')).success).toBe(true);
});

describe('RD-1 not a plan at all', () => {
  test.each([
    [
      'not JSON',
      '{\n  "format": "legroom"\n  "version": 1\n}',
      'not_json',
      'Line 3, column 3',
      'Line 3, column 3: a comma or "}" should stand here, not a double quote.',
    ],
    ['empty', '', 'not_json', 'Line 1, column 1', 'Line 1, column 1: the file is empty.'],
    ['a list', '[]', 'wrong_format', 'The file', 'The file is JSON, but not a plan: a plan is an object in braces.'],
    [
      'another format',
      '{"format": "drawing", "version": 1}',
      'wrong_format',
      'The file',
      'The file is not a plan of this program: its "format" is "drawing", where "legroom" is needed.',
    ],
    [
      'no format',
      '{"version": 1}',
      'wrong_format',
      'The file',
      'The file is not a plan of this program: its "format" is missing, where "legroom" is needed.',
    ],
    [
      'no version',
      '{"format": "legroom"}',
      'wrong_version',
      'The plan',
      'The plan: "version" must be a whole number from 1 on, and is missing.',
    ],
    [
      'half a version',
      '{"format": "legroom", "version": 1.5}',
      'wrong_version',
      'The plan',
      'The plan: "version" must be a whole number from 1 on.',
    ],
    [
      'newer',
      '{"format": "legroom", "version": 2, "more": {}}',
      'newer_version',
      'The plan',
      'The plan: it was written by a newer program (version 2 of the format, and this program reads up to 1), so it is left unopened: update the program.',
    ],
  ])('%s', (_, text, code, place, sentence) => expectProblem(text, code, place, sentence));
});

test('RD-1 a file cut short in the middle of a name', () => {
  const text = writePlan(samplePlan());
  const cut = text.slice(0, text.indexOf('Left rack') + 4);
  const lines = cut.split('\n');
  const place = `Line ${lines.length}, column ${lines[lines.length - 1].indexOf('"Left') + 1}`;
  expectProblem(cut, 'not_json', place, `${place}: the text that begins here has no closing quote.`);
});

describe('RD-2 numbers', () => {
  const with_ = (number: string) => JSON.stringify(samplePlan()).replace('"xMm":-800', `"xMm":${number}`);
  test.each([
    ['NaN', 'NaN', 'not_finite', `${SETUP}, piece "Left rack": "xMm": "NaN" is not a number that a plan can hold.`],
    [
      'Infinity',
      '-Infinity',
      'not_finite',
      `${SETUP}, piece "Left rack": "xMm": "-Infinity" is not a number that a plan can hold.`,
    ],
    [
      '1e999',
      '1e999',
      'not_finite',
      `${SETUP}, piece "Left rack": "xMm": "1e999" is not a number that a plan can hold.`,
    ],
    [
      'absurdly far',
      '1e7',
      'out_of_range',
      `${SETUP}, piece "Left rack": "xMm" is 10000000, and must be at most 50000.`,
    ],
    [
      'absurdly far the other way',
      '-1e7',
      'out_of_range',
      `${SETUP}, piece "Left rack": "xMm" is -10000000, and must be at least -50000.`,
    ],
    [
      'text for a number',
      '"-800"',
      'wrong_type',
      `${SETUP}, piece "Left rack": "xMm" must be a number, not the text "-800".`,
    ],
    ['null for a number', 'null', 'wrong_type', `${SETUP}, piece "Left rack": "xMm" must be a number, not null.`],
    ['a list for a number', '[1]', 'wrong_type', `${SETUP}, piece "Left rack": "xMm" must be a number, not a list.`],
  ])('%s', (_, number, code, sentence) => expectProblem(with_(number), code, `${SETUP}, piece "Left rack"`, sentence));

  test('a tube of no length', () =>
    expectProblem(
      broken((p) => {
        left(p).spans[0].bars[0].cutLengthMm = 0;
      }),
      'out_of_range',
      `${SETUP}, piece "Left rack", bar 1`,
      `${SETUP}, piece "Left rack", bar 1: "cutLengthMm" is 0, and must be at least 50.`,
    ));
});

describe('RD-3 fields', () => {
  test.each<[string, (plan: Broken) => void, string, string, string]>([
    [
      'units',
      (p) => {
        p.units = 'ft';
      },
      'wrong_value',
      'The plan',
      '"units" must be "mm" or "in", not the text "ft".',
    ],
    [
      'no setups',
      (p) => {
        delete p.setups;
      },
      'missing_field',
      'The plan',
      '"setups" is missing.',
    ],
    [
      'setups a list',
      (p) => {
        p.setups = [];
      },
      'wrong_type',
      'The plan',
      '"setups" must be an object in braces, not a list.',
    ],
    [
      'a missing kind',
      (p) => {
        delete left(p).kind;
      },
      'missing_field',
      `${SETUP}, piece "Left rack"`,
      '"kind" is missing.',
    ],
    [
      'an unknown kind',
      (p) => {
        left(p).kind = 'sofa';
      },
      'wrong_value',
      `${SETUP}, piece "Left rack"`,
      '"kind" cannot be the text "sofa".',
    ],
    [
      'an unknown way of mounting',
      (p) => {
        straight(p).pieces.crash.mount.carrier.on = 'hook';
      },
      'wrong_value',
      `${SETUP}, piece "Left crash", mount`,
      '"on" cannot be the text "hook".',
    ],
    [
      'a missing id',
      (p) => {
        delete left(p).id;
      },
      'missing_field',
      `${SETUP}, piece "Left rack"`,
      '"id" is missing.',
    ],
    [
      'an empty id',
      (p) => {
        left(p).legs[1].id = '';
      },
      'out_of_range',
      `${SETUP}, piece "Left rack", leg 2`,
      '"id" is empty.',
    ],
    [
      'a kept word as an id',
      (p) => {
        left(p).legs[1].id = '__proto__';
      },
      'bad_id',
      `${SETUP}, piece "Left rack", leg 2`,
      '"id" is no usable id: 1 to 80 characters, and not a word that JavaScript keeps for itself.',
    ],
    [
      'a name too long',
      (p) => {
        left(p).name = 'x'.repeat(121);
      },
      'out_of_range',
      `${SETUP}, piece "${'x'.repeat(57)}..."`,
      '"name" has 121 characters, and the most is 120.',
    ],
    [
      'a bend without a side',
      (p) => {
        left(p).spans[0].bars[0].bend = { radiusMm: 500, straightEndsMm: 0, side: 'up' };
      },
      'wrong_value',
      `${SETUP}, piece "Left rack", bar 1, bend`,
      '"side" must be "left" or "right", not the text "up".',
    ],
    [
      'a socket and a half',
      (p) => {
        straight(p).pieces.tom2.mount.carrier.socket = 1.5;
      },
      'wrong_type',
      `${SETUP}, piece "Tom 2", mount`,
      '"socket" must be a whole number, not 1.5.',
    ],
    [
      'a span without bars',
      (p) => {
        left(p).spans[0].bars = [];
      },
      'out_of_range',
      `${SETUP}, piece "Left rack"`,
      '"bars" has 0 entries, and the least is 1.',
    ],
    [
      'an own gear entry with a wrong range',
      (p) => {
        p.gear['boom-1'].armMm = [400, 100];
      },
      'wrong_value',
      'Gear "Boom arm"',
      '"armMm": the first number of a range must not be above the second.',
    ],
    [
      'a range of three',
      (p) => {
        p.gear['boom-1'].armMm = [1, 2, 3];
      },
      'out_of_range',
      'Gear "Boom arm"',
      '"armMm" has 3 entries, and the most is 2.',
    ],
  ])('%s', (_, change, code, place, reason) => expectProblem(broken(change), code, place, `${place}: ${reason}`));
});

describe('RD-4 doubled keys, which JSON.parse swallows', () => {
  test('a doubled piece', () => {
    const text = JSON.stringify(samplePlan()).replace('"pieces":{', '"pieces":{"left":{"name":"Other"},');
    expectProblem(
      text,
      'doubled_id',
      `${SETUP}, piece "Other"`,
      `${SETUP}, piece "Other": the id "left" is written twice, and only one can be meant.`,
    );
  });
  test('a doubled field', () => {
    const text = JSON.stringify(samplePlan()).replace('"cutLengthMm":1000', '"cutLengthMm":1000,"cutLengthMm":1200');
    expect(text).toContain('1200');
    const read = readPlan(text);
    expect(!read.ok && read.problem).toEqual({
      code: 'doubled_key',
      place: `${SETUP}, piece "Left rack", bar 1`,
      sentence: `${SETUP}, piece "Left rack", bar 1: "cutLengthMm" is written twice in the same object.`,
    });
  });
});

describe('RD-5 keys that would reach behind an object', () => {
  test.each(['__proto__', 'constructor', 'prototype'])('%s as a piece', (key) => {
    const text = JSON.stringify(samplePlan()).replace('"pieces":{', `"pieces":{"${key}":{"polluted":true},`);
    expectProblem(text, 'refused_key', SETUP, `${SETUP}: "${key}" cannot be the name of a field.`);
    expect(({} as Broken).polluted).toBeUndefined();
  });
  test('deep in an unknown field, and written in escapes', () => {
    const text = JSON.stringify(samplePlan()).replace(
      '"units"',
      '"extra":[{"\\u005f_proto__":{"polluted":true}}],"units"',
    );
    expectProblem(text, 'refused_key', 'The plan', 'The plan: "__proto__" cannot be the name of a field.');
    expect(({} as Broken).polluted).toBeUndefined();
  });
});

describe('RD-6 too much', () => {
  test('10 MB of text, before it is asked whether it is JSON', () => {
    const text = broken((p) => {
      p.extra = 'x'.repeat(10_000_000);
    });
    for (const each of [text, text.slice(1)])
      expectProblem(each, 'too_big', 'The file', 'The file is 10.1 MB, and the most is 4 MB.');
  });
  test('bytes count, not characters', () => {
    expectProblem(
      broken((p) => {
        p.extra = 'ß'.repeat(2_000_001);
      }),
      'too_big',
      'The file',
      'The file is 4.1 MB, and the most is 4 MB.',
    );
    expect(
      readPlan(
        broken((p) => {
          p.extra = 'x'.repeat(3_900_000);
        }),
      ).ok,
    ).toBe(true);
  });
  function manyPieces(count: number): string {
    return broken((p) => {
      const setup = straight(p);
      for (let i = setup.order.length; i < count; i++) {
        const id = `n${i}`;
        setup.pieces[id] = {
          kind: 'item',
          id,
          name: id,
          gear: 'crash',
          place: { xMm: i, yMm: 0, headingDeg: 0 },
          mount: { carrier: { on: 'bar', rack: 'left', bar: 'b1', atMm: 5 }, clamp: 'clamp-own', arm: 'boom-1' },
        };
        setup.order.push(id);
      }
    });
  }
  test('PL-16 5,000 pieces, before any of them is looked at', () => {
    const text = manyPieces(5000);
    for (const each of [text, text.replaceAll('"kind":"item"', '"kind":7')])
      expectProblem(each, 'too_many', SETUP, `${SETUP}: it has 5000 pieces, and the most is 1000.`);
  });
  test('PL-16 1,000 pieces are read', () => expect(readPlan(manyPieces(1000)).ok).toBe(true));
  test('PL-16 one more than 1,000 is not', () => expectProblem(manyPieces(1001), 'too_many', SETUP, /1001 pieces/));
  test('PL-16 41 setups', () => {
    const text = broken((p) => {
      for (let i = 2; i < LIMITS.setups + 1; i++) {
        p.setups[`s${i}`] = { ...p.setups.empty, id: `s${i}` };
        p.order.push(`s${i}`);
      }
    });
    expectProblem(text, 'too_many', 'The plan', 'The plan: it has 41 setups, and the most is 40.');
  });
  test('nesting', () => {
    const text = JSON.stringify(samplePlan()).replace('"units"', `"extra":${'['.repeat(2_000_000)},"units"`);
    const read = readPlan(text);
    expect(!read.ok && read.problem.code).toBe('too_deep');
    expect(!read.ok && read.problem.sentence).toMatch(
      /^Line 1, column \d+: objects and lists are nested more than 40 deep here\.$/,
    );
  });
});

test('RD-8 of two pieces with one name, the id says which', () => {
  const text = broken((p) => {
    straight(p).pieces.splash.name = 'Left crash';
    straight(p).pieces.splash.place.xMm = '1';
  });
  const place = `${SETUP}, piece "Left crash" (id "splash")`;
  expectProblem(text, 'wrong_type', place, `${place}: "xMm" must be a number, not the text "1".`);
});

test('RD-9 a new plan is one to begin with: the same each time, and an empty setup on a riser of 6 square metres', () => {
  const plan = newPlan('Evening', 'in');
  expect(writePlan(newPlan('Evening', 'in'))).toBe(writePlan(plan));
  expect([plan.name, plan.units, plan.order]).toEqual(['Evening', 'in', ['setup-1']]);
  const { riser, pieces } = plan.setups['setup-1'];
  expect(pieces).toEqual({});
  const { modules } = plan.risers[riser!];
  expect(modules.reduce((sum, each) => sum + each.widthMm * each.depthMm, 0)).toBe(6e6);
  // Side by side without a gap, about the centre line.
  expect(modules.map((each) => each.xMm - each.widthMm / 2)).toEqual([-1500, -500, 500]);
});

test('RD-7 reading costs nothing that was there: the same text reads the same twice, and a failed read between changes nothing', () => {
  const text = JSON.stringify(samplePlan());
  const first = readPlan(text);
  readPlan('{"format": "legroom", "version": 1, "setups"');
  expect(readPlan(text)).toEqual(first);
  const plan = (first as { plan: Plan }).plan;
  expect(plan).toEqual(samplePlan());
});
