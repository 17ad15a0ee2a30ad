/**
 * Tables that run over pages: rows in groups, each under a head that is said again where its group goes on, and columns whose
 * titles stand on every page.
 *
 * Units: mm on paper, y up; a block hangs down from its top.
 */
import { CAPITAL_OF_EM, TEXT_MM, WIDE } from '../drawing/displayList.ts';
import type { Page, TextOptions } from './page.ts';

/** Something of a known height on a page. */
export interface Block {
  readonly heightMm: number;
  draw(page: Page, topMm: number): void;
}

export interface BlockGroup {
  readonly head: Block;
  /** The head once more, on the pages after the first; left out: none. */
  readonly continued?: Block;
  readonly rows: readonly Block[];
}

/** A group goes on to another page only with this many of its rows before and after the break. */
const LEAST_BEFORE = 3;
const LEAST_AFTER = 2;
/** With less of a page than this left, a group that fits a page of its own waits for it. */
const WORTH_BEGINNING = 1 / 3;

/**
 * Groups on pages, from the top down. The first page has `firstMm` of room, all others `restMm`; between groups is `gapMm`.
 * A row that is deeper than a page stands alone on one and runs out of it: the caller keeps rows shorter.
 */
export function paginate(
  groups: readonly BlockGroup[],
  { firstMm, restMm, gapMm }: { readonly firstMm: number; readonly restMm: number; readonly gapMm: number },
): Block[][] {
  const pages: Block[][] = [[]];
  let left = firstMm;
  const fresh = () => pages[pages.length - 1].length === 0 && left === restMm;
  const turn = () => {
    pages.push([]);
    left = restMm;
  };
  const put = (block: Block) => {
    pages[pages.length - 1].push(block);
    left -= block.heightMm;
  };
  for (const { head, continued, rows } of groups) {
    let begin = 0;
    let top: Block | undefined = head;
    do {
      const gap: number = pages[pages.length - 1].length === 0 ? 0 : gapMm;
      const headMm: number = gap + (top?.heightMm ?? 0);
      let room = left - headMm;
      let fitting = 0;
      for (const row of rows.slice(begin)) {
        if (row.heightMm > room + 1e-9) break;
        room -= row.heightMm;
        fitting++;
      }
      const waiting = rows.length - begin;
      const whole = left - headMm >= -1e-9 && fitting === waiting;
      if (!whole && !fresh()) {
        const wholeMm = rows.slice(begin).reduce((sum, { heightMm }) => sum + heightMm, headMm - gap);
        const waits = wholeMm <= restMm && left < restMm * WORTH_BEGINNING;
        if (waits || fitting < LEAST_BEFORE || waiting - LEAST_AFTER < LEAST_BEFORE) {
          turn();
          continue;
        }
      }
      if (gap > 0) put({ heightMm: gap, draw: () => {} });
      if (top) put(top);
      const count = whole ? waiting : Math.max(1, Math.min(fitting, waiting - LEAST_AFTER));
      for (const row of rows.slice(begin, begin + count)) put(row);
      begin += count;
      top = continued;
      if (begin < rows.length) turn();
    } while (begin < rows.length || (rows.length === 0 && top === head));
  }
  return pages;
}

/** Draws blocks one beneath another; returns where the last one ends. */
export function drawBlocks(page: Page, blocks: readonly Block[], topMm: number): number {
  let at = topMm;
  for (const block of blocks) {
    block.draw(page, at);
    at -= block.heightMm;
  }
  return at;
}

export interface Column {
  readonly title: string;
  readonly widthMm: number;
  readonly anchor?: TextOptions['anchor'];
}

/** Air to the left and right of a cell's text. */
const AIR_MM = 1;

/** A baseline that sets capitals in the middle of a row of a height hanging from a top. */
export const middleBase = (topMm: number, heightMm: number, sizeMm: number): number =>
  topMm - heightMm / 2 - (sizeMm * CAPITAL_OF_EM) / 2;

/** Left edges of columns that begin at x, and the last one's right edge. */
export function columnEdges(columns: readonly Column[], x: number): number[] {
  const edges = [x];
  for (const { widthMm } of columns) edges.push(edges[edges.length - 1] + widthMm);
  return edges;
}

/** One line of text in a column of a table whose columns begin at x. */
export function cell(
  page: Page,
  columns: readonly Column[],
  x: number,
  k: number,
  text: string,
  baseMm: number,
  options: TextOptions = {},
): void {
  const edges = columnEdges(columns, x);
  const anchor = columns[k].anchor ?? 'start';
  const at =
    anchor === 'start' ? edges[k] + AIR_MM : anchor === 'end' ? edges[k + 1] - AIR_MM : (edges[k] + edges[k + 1]) / 2;
  page.fitted(text, at, baseMm, edges[k + 1] - edges[k] - 2 * AIR_MM, { anchor, ...options });
}

export const TITLES_MM = 5.6;

/** The titles of columns with a line beneath; its block stands at the top of every page. */
export function columnTitles(columns: readonly Column[], x: number): Block {
  return {
    heightMm: TITLES_MM,
    draw: (page, topMm) => {
      const base = middleBase(topMm, TITLES_MM, TEXT_MM.small);
      columns.forEach(({ title }, k) => {
        cell(page, columns, x, k, title, base, { faint: true });
      });
      const edges = columnEdges(columns, x);
      page.line(edges[0], topMm - TITLES_MM, edges[edges.length - 1], topMm - TITLES_MM, { line: WIDE });
    },
  };
}
