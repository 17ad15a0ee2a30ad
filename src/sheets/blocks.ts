/**
 * The one flow of everything that stands beneath one another on pages: blocks of a known height in groups, each under a head
 * that is said again where its group goes on.
 *
 * Units: mm on paper, y up; a block hangs down from its top and begins at an x that it is given.
 */
import type { Page } from './page.ts';

/** Something of a known height on a page. */
export interface Block {
  readonly heightMm: number;
  draw(page: Page, x: number, topMm: number): void;
}

export interface BlockGroup {
  /** Stands above the head at the top of a page, and wherever the group before had others. */
  readonly titles?: Block;
  readonly head: Block;
  /** The head once more, on the pages after the first; left out: none. */
  readonly continued?: Block;
  readonly rows: readonly Block[];
  /** From the group before; left out: as the flow has it. */
  readonly gapMm?: number;
}

export interface Room {
  readonly firstMm: number;
  /** Of the second page, where it has less than the others. */
  readonly secondMm?: number;
  readonly restMm: number;
  readonly gapMm: number;
  /** Pages are filled: no group waits for a page of its own, and one row may stand before or after a break. */
  readonly isDense?: boolean;
}

/** A group goes on to another page only with this many of its rows before and after the break. */
const LEAST_BEFORE = 3;
const LEAST_AFTER = 2;
/** With less of a page than this left, a group that fits a page of its own waits for it. */
const WORTH_BEGINNING = 1 / 3;

const space = (heightMm: number): Block => ({ heightMm, draw: () => {} });

export const heightOf = (blocks: readonly Block[]): number => blocks.reduce((sum, { heightMm }) => sum + heightMm, 0);

/**
 * Groups on pages, from the top down; between groups is `gapMm`.
 * A row that is deeper than a page stands alone on one and runs out of it: the caller keeps rows shorter.
 */
export function paginate(
  groups: readonly BlockGroup[],
  { firstMm, secondMm, restMm, gapMm, isDense = false }: Room,
): Block[][] {
  const [leastBefore, leastAfter] = isDense ? [1, 0] : [LEAST_BEFORE, LEAST_AFTER];
  const pages: Block[][] = [[]];
  const roomOf = (page: number) => (page === 0 ? firstMm : page === 1 ? (secondMm ?? restMm) : restMm);
  let left = firstMm;
  let said: Block | undefined;
  const isEmpty = () => pages[pages.length - 1].length === 0;
  const turn = () => {
    pages.push([]);
    left = roomOf(pages.length - 1);
    said = undefined;
  };
  const put = (block: Block) => {
    pages[pages.length - 1].push(block);
    left -= block.heightMm;
  };
  for (const { titles, head, continued, rows, gapMm: ownGapMm = gapMm } of groups) {
    let begin = 0;
    let top: Block | undefined = head;
    do {
      const gap: number = isEmpty() ? 0 : ownGapMm;
      const titlesMm = titles?.heightMm ?? 0;
      const above: readonly Block[] = [...(titles && titles !== said ? [titles] : []), ...(top ? [top] : [])];
      const headMm: number = gap + heightOf(above);
      let room = left - headMm;
      let fitting = 0;
      for (const row of rows.slice(begin)) {
        if (row.heightMm > room + 1e-9) break;
        room -= row.heightMm;
        fitting++;
      }
      const waiting = rows.length - begin;
      const whole = left - headMm >= -1e-9 && fitting === waiting;
      const nextMm = roomOf(pages.length) - titlesMm;
      const isFresh = isEmpty() && left - titlesMm >= nextMm;
      if (!whole && !isFresh) {
        const wholeMm = (top?.heightMm ?? 0) + heightOf(rows.slice(begin));
        const waits = wholeMm <= nextMm && left - (isEmpty() ? titlesMm : 0) < nextMm * WORTH_BEGINNING;
        if ((waits && !isDense) || fitting < leastBefore || waiting - leastAfter < leastBefore) {
          turn();
          continue;
        }
      }
      if (gap > 0) put(space(gap));
      for (const block of above) put(block);
      said = titles;
      const count = whole ? waiting : Math.max(1, Math.min(fitting, waiting - leastAfter));
      for (const row of rows.slice(begin, begin + count)) put(row);
      begin += count;
      top = continued;
      if (begin < rows.length) turn();
    } while (begin < rows.length || (rows.length === 0 && top === head));
  }
  return pages;
}

/** Draws blocks one beneath another; returns where the last one ends. */
export function drawBlocks(page: Page, blocks: readonly Block[], x: number, topMm: number): number {
  let at = topMm;
  for (const block of blocks) {
    block.draw(page, x, at);
    at -= block.heightMm;
  }
  return at;
}

/** One block of several, one beneath the other. */
export const stacked = (blocks: readonly Block[]): Block => ({
  heightMm: heightOf(blocks),
  draw: (page, x, topMm) => {
    drawBlocks(page, blocks, x, topMm);
  },
});

/** One block of two, the second `rightMm` to the right of the first. */
const paired = (left: Block | undefined, right: Block | undefined, rightMm: number): Block => ({
  heightMm: Math.max(left?.heightMm ?? 0, right?.heightMm ?? 0),
  draw: (page, x, topMm) => {
    left?.draw(page, x, topMm);
    right?.draw(page, x + rightMm, topMm);
  },
});

/** Two groups side by side, row by row. */
export function beside(left: BlockGroup, right: BlockGroup, rightMm: number): BlockGroup {
  const count = Math.max(left.rows.length, right.rows.length);
  return {
    head: paired(left.head, right.head, rightMm),
    ...(left.continued && { continued: paired(left.continued, right.continued, rightMm) }),
    rows: Array.from({ length: count }, (_, k) => paired(left.rows[k], right.rows[k], rightMm)),
  };
}
