/**
 * Our CSV read by a reader that nobody here made (csv-parse, MIT), set to what RFC 4180 says and to nothing kinder:
 * commas, double quotes, no fewer and no more fields than the header has.
 */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { partsOf } from '../../src/checks/parts.ts';
import type { PartKind } from '../../src/gear/kinds.ts';
import type { Plan } from '../../src/plan/schema.ts';
import { BYTE_ORDER_MARK, toCsv } from '../../src/sheets/csv.ts';
import { pullCsv } from '../../src/sheets/pullCsv.ts';
import { checkedOf, layoutOf, sampleSetups } from '../fixtures/samplePlans.ts';

const strictly = { bom: true, relax_quotes: false, relax_column_count: false, record_delimiter: '\r\n' } as const;
const tableOf = (text: string): string[][] => parse(text, strictly);
const recordsOf = (text: string): Record<string, string>[] => parse(text, { ...strictly, columns: true });

function csvOf(plan: Plan, id: string): string {
  const layout = layoutOf(plan, id);
  return pullCsv(plan, id, layout, checkedOf(plan, id));
}

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  const text = csvOf(plan, id);
  const records = recordsOf(text);
  const parts = partsOf(plan, id);

  test('every part of every unit is read back with its count, cut length and mass', () => {
    const key = (kind: string, gear: string, cut: string, bend: string) => [kind, gear, cut, bend].join('|');
    const found = new Map<string, number>();
    for (const { kind, gear, cut_length_mm: cut, bend_radius_mm: bend, count } of records) {
      const k = key(kind, gear, cut, bend);
      found.set(k, (found.get(k) ?? 0) + Number(count));
    }
    const wanted = new Map(
      parts.all.map(({ kind, gear, cutLength, bend, count }) => [
        key(kind, gear, cutLength === null ? '' : String(cutLength), bend ? String(bend.radiusMm) : ''),
        count,
      ]),
    );
    expect(found).toEqual(wanted);
    expect(records).toHaveLength(parts.units.reduce((sum, unit) => sum + unit.parts.length, 0));
  });

  test('the masses add up to the setup’s, to a gram a record', () => {
    const known = records.reduce((sum, record) => sum + Number(record.mass_total_kg), 0);
    expect(Math.abs(known - parts.knownMass)).toBeLessThan(0.0005 * records.length + 1e-9);
    const noMass = records.filter(({ mass_from: from, kind }) => from === 'unmeasured' && kind !== 'endCap');
    expect(noMass.reduce((sum, { count }) => sum + Number(count), 0)).toBe(parts.unmeasured);
    for (const record of records) {
      expect(record.mass_each_kg === '').toBe(record.mass_from === 'unmeasured');
      expect(Number(record.load_in)).toBeGreaterThanOrEqual(1);
    }
  });

  test('it begins with a byte order mark, and every record ends with CRLF', () => {
    expect(text.startsWith(BYTE_ORDER_MARK)).toBe(true);
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    expect(csvOf(plan, id)).toBe(text);
  });
});

test('names in Greek, Cyrillic and with commas, quotes and formulas stay themselves', () => {
  const [{ plan, id }] = sampleSetups();
  const setup = plan.setups[id];
  const racks = setup.order.filter((piece) => setup.pieces[piece].kind === 'rack');
  const renamed = (name: string): Record<string, string>[] => {
    const pieces = { ...setup.pieces, [racks[0]]: { ...setup.pieces[racks[0]], name: 'Rack', load: name } };
    return recordsOf(csvOf({ ...plan, setups: { ...plan.setups, [id]: { ...setup, pieces } } }, id));
  };
  for (const name of ['Ράγα, αριστερά', 'Стойка "левая"', 'Rack 18", left', ' Rack '])
    expect(renamed(name).filter((record) => record.unit === name).length).toBeGreaterThan(3);
  for (const name of ['=1+1', '+1', '-1', '@x'])
    expect(renamed(name).filter((record) => record.unit === `'${name}`).length).toBeGreaterThan(3);
});

test('any table of texts comes back as it was, but for the apostrophe before a formula', () => {
  const texts = fc.array(fc.array(fc.string({ unit: 'grapheme', maxLength: 12 }), { minLength: 3, maxLength: 3 }), {
    minLength: 1,
    maxLength: 6,
  });
  fc.assert(
    fc.property(texts, (rows) => {
      const read = tableOf(toCsv(['a', 'b', 'c'], rows)).slice(1);
      expect(read).toEqual(rows.map((row) => row.map((text) => (/^[=+\-@\t\r\n]/.test(text) ? `'${text}` : text))));
    }),
    // Commas, quotes and line ends are rare among random texts: these are seen every time.
    { examples: [[[['a,b', 'say "x"', 'two\r\nlines']]], [[['', ' ', '"']]], [[['=SUM(A1:A9)', '\tx', '\n']]]] },
  );
});

test('numbers are written out with a decimal point, none in powers of ten', () => {
  expect(
    tableOf(toCsv(['n'], [[0.1], [1168.4], [-2], [0], [1e-9], [1234567.5]]))
      .slice(1)
      .flat(),
  ).toEqual(['0.1', '1168.4', '-2', '0', '0', '1234567.5']);
});

test('columns that differ in length, and numbers that are none, are refused', () => {
  expect(() => toCsv(['a', 'b'], [['x']])).toThrow(RangeError);
  expect(() => toCsv(['a'], [[Number.NaN]])).toThrow(RangeError);
});

test('kinds of parts in the table are those of the parts list', () => {
  const kinds = new Set(sampleSetups().flatMap(({ plan, id }) => recordsOf(csvOf(plan, id)).map(({ kind }) => kind)));
  const known: readonly PartKind[] = ['bar', 'upright', 'foot', 'clamp', 'arm', 'stand', 'drum', 'cymbal', 'pedal'];
  for (const kind of known) expect(kinds).toContain(kind);
});
