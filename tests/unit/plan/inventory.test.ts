/** Stock lists: what reads, what is refused and with which sentence, and the same bytes again. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Inventory, newInventory, readInventory, writeInventory } from '../../../src/plan/inventory.ts';
import { samplePlan } from '../../fixtures/plans.ts';

const stock = (): Inventory => ({
  format: 'legroom-stock',
  version: 1,
  name: 'Rehearsal room',
  currency: 'EUR',
  parts: [
    { gear: 'clamp-arm', count: 12, price: 18.5 },
    { gear: 'tube-straight-42in', count: 2, cutLengthMm: 860, note: 'one end is scratched' },
    { gear: 'tube-curved-48in', count: 1, bend: { radiusMm: 700, straightEndsMm: 75 } },
    { gear: 'boom-long', count: 0, price: 45 },
    { gear: 'end-cap-38.1mm', count: 8 },
  ],
});

const textOf = (change: (value: Record<string, unknown> & { parts: Record<string, unknown>[] }) => void): string => {
  const value = structuredClone(stock()) as never;
  change(value);
  return JSON.stringify(value);
};

function sentenceOf(text: string, planGear = {}): [string, string] {
  const read = readInventory(text, planGear);
  if (read.ok) throw new Error('It was read.');
  return [read.problem.code, read.problem.sentence];
}

test('reads what it wrote, and writes the same bytes', () => {
  const text = writeInventory(stock());
  const read = readInventory(text);
  if (!read.ok) throw new Error(read.problem.sentence);
  expect(read.inventory).toEqual(stock());
  expect(writeInventory(read.inventory)).toBe(text);
});

test('the order in which fields were written makes no other file', () => {
  const { parts, name, ...rest } = stock();
  const turned = { name, parts: parts.map(({ count, ...part }) => ({ count, ...part })), ...rest };
  expect(writeInventory(turned as Inventory)).toBe(writeInventory(stock()));
});

test('fields of a later version are kept', () => {
  const text = textOf((value) => {
    value.shelf = 'B';
    value.parts[0].colour = 'black';
  });
  const read = readInventory(text);
  if (!read.ok) throw new Error(read.problem.sentence);
  expect(JSON.parse(writeInventory(read.inventory))).toMatchObject({
    shelf: 'B',
    parts: [{ colour: 'black' }, {}, {}, {}, {}],
  });
});

test('a new list is empty and reads', () => {
  const read = readInventory(writeInventory(newInventory('Van')));
  expect(read).toEqual({ ok: true, inventory: { format: 'legroom-stock', version: 1, name: 'Van', parts: [] } });
});

describe('one sentence for each thing wrong', () => {
  const part = (change: object) => textOf((value) => Object.assign(value.parts[1], change));
  const bought = (entry: object) =>
    textOf((value) => {
      value.gear = {
        mine: {
          kind: 'boom',
          id: 'mine',
          name: 'Mine',
          massKg: 1,
          tubeMm: 22,
          postMm: [0, 300],
          armMm: [0, 300],
          tiltDeg: [0, 90],
          ...entry,
        },
      };
    });
  const CASES: [string, string, string, string][] = [
    [
      'an unknown part',
      part({ gear: 'boom-of-gold' }),
      'unknown_gear',
      'Part 2, "boom-of-gold": it is neither in the catalogue nor in the gear of this file or of the open plan.',
    ],
    [
      'a name that every object has',
      part({ gear: 'toString' }),
      'unknown_gear',
      'Part 2, "toString": it is neither in the catalogue nor in the gear of this file or of the open plan.',
    ],
    [
      'a negative count',
      part({ count: -1 }),
      'out_of_range',
      'Part 2, "tube-straight-42in": "count" is -1, and must be at least 0.',
    ],
    [
      'half a part',
      part({ count: 1.5 }),
      'wrong_type',
      'Part 2, "tube-straight-42in": "count" must be a whole number, not 1.5.',
    ],
    ['no count', part({ count: undefined }), 'missing_field', 'Part 2, "tube-straight-42in": "count" is missing.'],
    [
      'a negative price',
      part({ price: -3 }),
      'out_of_range',
      'Part 2, "tube-straight-42in": "price" is -3, and must be at least 0.',
    ],
    [
      'a clamp with a cut length',
      part({ gear: 'clamp-arm' }),
      'wrong_gear',
      'Part 2, "clamp-arm": only a tube has a cut length or a bend.',
    ],
    [
      'a deck',
      part({ gear: 'deck-1x1m', cutLengthMm: undefined }),
      'wrong_gear',
      'Part 2, "deck-1x1m": it is no part of a kit: decks and stage items are not counted here.',
    ],
    ['a negative mass', bought({ massKg: -2 }), 'out_of_range', 'Gear "mine": "massKg" is -2, and must be at least 0.'],
    [
      'an arm with an empty range',
      bought({ armMm: [300, 100] }),
      'wrong_value',
      'Gear "mine": "armMm": the first number of a range must not be above the second.',
    ],
    [
      'an arm without length',
      bought({ postMm: [0, 0], armMm: [0, 0] }),
      'arm_without_length',
      'Gear "mine": its post and its arm can be no longer than 0, so it reaches nothing.',
    ],
    [
      'gear under another id',
      bought({ id: 'yours' }),
      'id_differs',
      'Gear "mine": its id is "yours", but it stands under "mine".',
    ],
    [
      'another format',
      textOf((value) => Object.assign(value, { format: 'legroom' })),
      'wrong_format',
      'The file is not a stock list of this program: its "format" is "legroom", where "legroom-stock" is needed.',
    ],
    [
      'no format',
      '{}',
      'wrong_format',
      'The file is not a stock list of this program: its "format" is missing, where "legroom-stock" is needed.',
    ],
    [
      'a list',
      '[1, 2]',
      'wrong_format',
      'The file is JSON, but not a stock list: a stock list is an object in braces.',
    ],
    [
      'a newer version',
      textOf((value) => Object.assign(value, { version: 2 })),
      'newer_version',
      'The file was written by a newer program (version 2 of the format, and this program reads up to 1), so it is left unopened: update the program.',
    ],
    [
      'no version',
      textOf((value) => Object.assign(value, { version: undefined })),
      'wrong_version',
      `The file's "version" must be a whole number from 1 on, and is missing.`,
    ],
    ['an empty file', '  ', 'not_json', 'Line 1, column 3: the file is empty.'],
    [
      'a key written twice',
      '{"format":"legroom-stock","version":1,"name":"a","name":"b","parts":[]}',
      'doubled_key',
      'The file: "name" is written twice in the same object.',
    ],
    [
      'a number too large to be one',
      '{"format":"legroom-stock","version":1,"name":"a","parts":[{"gear":"clamp-arm","count":1e999}]}',
      'not_finite',
      'The file: "1e999" is not a number that a stock list can hold (in "parts.0.count").',
    ],
    [
      'parts that are no list',
      textOf((value) => Object.assign(value, { parts: 3 })),
      'wrong_type',
      'The file: "parts" must be a list in brackets, not 3.',
    ],
  ];
  test.each(CASES)('%s', (_, text, code, sentence) => expect(sentenceOf(text)).toEqual([code, sentence]));

  test('not JSON: where and what', () => {
    const [code, sentence] = sentenceOf('{"format": legroom-stock}');
    expect(code).toBe('not_json');
    expect(sentence).toMatch(/^Line 1, column 12: [^.]+\.$/);
  });

  test('too many entries are counted before each is looked at', () => {
    const text = textOf((value) => {
      value.parts = Array.from({ length: 2001 }, () => ({}));
    });
    expect(sentenceOf(text)).toEqual(['out_of_range', 'The file: "parts" has 2001 entries, and the most is 2000.']);
  });
});

test("an open plan's own gear may be owned", () => {
  const text = textOf((value) => {
    value.parts = [{ gear: 'boom-1', count: 3 }];
  });
  expect(sentenceOf(text)[0]).toBe('unknown_gear');
  expect(readInventory(text, samplePlan().gear).ok).toBe(true);
});

test('a number that no file can hold is not written', () => {
  const broken = stock();
  broken.parts[0].price = Number.NaN;
  expect(() => writeInventory(broken)).toThrow(RangeError);
});

test('the sample stock list reads, and writes back the same bytes', () => {
  const text = readFileSync(resolve(import.meta.dirname, '../../../samples/rehearsal-room.legroom-stock.json'), 'utf8');
  const read = readInventory(text);
  if (!read.ok) throw new Error(read.problem.sentence);
  expect(writeInventory(read.inventory)).toBe(text);
});
