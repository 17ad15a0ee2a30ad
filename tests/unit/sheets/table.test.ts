import { describe, expect, test } from 'vitest';
import { boxOfMark } from '../../../src/drawing/displayList.ts';
import { type Block, type BlockGroup, drawBlocks, paginate } from '../../../src/sheets/blocks.ts';
import { Page } from '../../../src/sheets/page.ts';
import { MOST_LINES, Table } from '../../../src/sheets/table.ts';

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

  test('titles stand at the top of every page and wherever they change, not between groups that share them', () => {
    const [one, other] = [block('one', 4), block('other', 4)];
    const groups = [
      { ...group('a', 4), titles: one },
      { ...group('b', 4), titles: one },
      { ...group('c', 4), titles: other, gapMm: 3 },
    ];
    const pages = paginate(groups, { firstMm: 60, restMm: 60, gapMm: 0, isDense: true });
    expect(names(pages)).toEqual(['one a a1 a2 a3 a4 b b1 b2 b3 b4', 'other c c1 c2 c3 c4']);
  });

  test('dense pages are filled to the last row, and the second may have less room than the others', () =>
    expect(names(paginate([group('a', 8)], { firstMm: 0, secondMm: 15, restMm: 25, gapMm: 2, isDense: true }))).toEqual(
      ['', 'a a1 a2', 'a continued a3 a4 a5 a6', 'a continued a7 a8'],
    ));
});

describe('a table', () => {
  const wide = (text: string) => [...text].length;
  const measurer = new Page(wide);
  const columns = [
    { title: 'A', widthMm: 12 },
    { title: 'B', widthMm: 22, anchor: 'end' as const },
  ];
  const textsOf = (blocks: readonly Block[]) => {
    const page = new Page(wide);
    drawBlocks(page, blocks, 100, 50);
    return page.marks.flatMap((mark) => (mark.kind === 'text' ? [[mark.text, mark.x] as const] : []));
  };

  test('a text too long for its column runs over lines, every word of it, and the row is as much deeper', () => {
    const table = new Table(measurer, columns, { rowMm: 5, lineMm: 3, wraps: true });
    const [row, ...more] = table.row({ cells: ['one two three four', 'x'] });
    expect(more).toEqual([]);
    expect(row.heightMm).toBe(8);
    expect(textsOf([row])).toEqual([
      ['one two', 101],
      ['three four', 101],
      ['x', 133],
    ]);
  });

  test('very many lines go on in a block of their own, and nothing is lost', () => {
    const words = Array.from({ length: MOST_LINES + 5 }, (_, k) => `word${String(k).padStart(5, '0')}`);
    const table = new Table(measurer, columns, { rowMm: 5, lineMm: 3, wraps: true });
    const blocks = table.row({ cells: [words.join(' ')] });
    expect(blocks.map(({ heightMm }) => heightMm)).toEqual([5 + (MOST_LINES - 1) * 3, 5 + 4 * 3]);
    expect(textsOf(blocks).map(([text]) => text)).toEqual(words);
  });

  test('what runs over columns has their width, and no line of the grid goes through it', () => {
    const table = new Table(measurer, columns, { rowMm: 5, wraps: true, grid: true });
    const upright = (cells: Parameters<typeof table.row>[0]['cells']) => {
      const page = new Page(wide);
      drawBlocks(page, table.row({ cells }), 100, 50);
      const boxes = page.marks.filter(({ kind }) => kind !== 'text').map(boxOfMark);
      return boxes.filter(({ minX, maxX }) => minX === maxX).map(({ minX }) => minX);
    };
    expect(upright(['one', 'two'])).toEqual([100, 112, 134]);
    expect(upright([{ text: 'over both of the columns', span: 2 }])).toEqual([100, 134]);
    const [row] = table.row({ cells: [{ text: 'over both of the columns', span: 2 }] });
    expect(row.heightMm).toBe(5);
  });

  test('where it does not wrap, a text is set smaller to fit', () => {
    const page = new Page((text, sizeMm) => [...text].length * sizeMm);
    const table = new Table(page, columns, { rowMm: 5, sizeMm: 1 });
    drawBlocks(page, table.row({ cells: ['one two three'] }), 0, 0);
    const [mark] = page.marks;
    expect(mark).toMatchObject({ kind: 'text', text: 'one two three' });
    expect(mark.kind === 'text' && mark.sizeMm).toBeCloseTo(10 / 13, 9);
  });
});
