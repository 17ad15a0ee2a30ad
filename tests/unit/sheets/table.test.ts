import { describe, expect, test } from 'vitest';
import { type Block, type BlockGroup, paginate } from '../../../src/sheets/blocks.ts';

interface Named extends Block {
  readonly name: string;
}
const block = (name: string, heightMm = 5): Named => ({ name, heightMm, draw: () => {} });
const group = (name: string, rows: number, rowMm = 5): BlockGroup => ({
  head: block(`${name}`),
  continued: block(`${name} continued`),
  rows: Array.from({ length: rows }, (_, k) => block(`${name}${k + 1}`, rowMm)),
});
const names = (pages: readonly (readonly Block[])[]) =>
  pages.map((blocks) => blocks.map((one) => (one as Partial<Named>).name ?? 'gap').join(' '));

describe('paginate', () => {
  test('groups that fit stand beneath one another with a gap between', () =>
    expect(names(paginate([group('a', 2), group('b', 1)], { firstMm: 100, restMm: 100, gapMm: 2 }))).toEqual([
      'a a1 a2 gap b b1',
    ]));

  test('a long group goes on beneath its head, and no row stands alone', () =>
    expect(names(paginate([group('a', 9)], { firstMm: 50, restMm: 50, gapMm: 2 }))).toEqual([
      'a a1 a2 a3 a4 a5 a6 a7 a8 a9',
    ]));

  test('the last two rows stay together', () =>
    expect(names(paginate([group('a', 10)], { firstMm: 50, restMm: 50, gapMm: 2 }))).toEqual([
      'a a1 a2 a3 a4 a5 a6 a7 a8',
      'a continued a9 a10',
    ]));

  test('a group that fits a page waits for one rather than begin at the foot of this', () =>
    expect(names(paginate([group('a', 6), group('b', 4)], { firstMm: 60, restMm: 60, gapMm: 2 }))).toEqual([
      'a a1 a2 a3 a4 a5 a6',
      'b b1 b2 b3 b4',
    ]));

  test('a first page without room is left to its head', () =>
    expect(names(paginate([group('a', 4)], { firstMm: 3, restMm: 60, gapMm: 2 }))).toEqual(['', 'a a1 a2 a3 a4']));

  test('a row deeper than a page ends all the same', () =>
    expect(names(paginate([group('a', 2, 90)], { firstMm: 50, restMm: 50, gapMm: 2 }))).toEqual([
      'a a1',
      'a continued a2',
    ]));

  test('every row is on exactly one page, and pages hold what they have room for', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const groups = Array.from({ length: 1 + (seed % 5) }, (_, k) => group(`g${k}-`, (seed * (k + 3)) % 23));
      const pages = paginate(groups, { firstMm: seed, restMm: 70, gapMm: 2 });
      const rows = pages.flat().filter((one) => /-\d+$/.test((one as Partial<Named>).name ?? ''));
      expect(rows).toEqual(groups.flatMap((one) => one.rows));
      pages.forEach((blocks, k) => {
        const height = blocks.reduce((sum, { heightMm }) => sum + heightMm, 0);
        expect(height).toBeLessThanOrEqual((k === 0 ? seed : 70) + 1e-9);
      });
    }
  });
});
