/**
 * The one table of all sheets: columns, and rows as data. It measures the rows, breaks what runs over lines and makes blocks that
 * flow over pages (blocks.ts). Titles of columns, bands between groups and sums are rows as well.
 *
 * Units: mm on paper, y up.
 */
import { CAPITAL_OF_EM, circleMark, style, TEXT_MM, WIDE } from '../drawing/displayList.ts';
import { wrapText } from '../drawing/textWidth.ts';
import type { Block } from './blocks.ts';
import { LEADING, type Page, type TextOptions } from './page.ts';

export interface Column {
  readonly title: string;
  readonly widthMm: number;
  readonly anchor?: TextOptions['anchor'];
  /** Air before and after the text; left out: 1. */
  readonly beforeMm?: number;
  readonly afterMm?: number;
}

/** One line of a cell. */
export interface Line {
  readonly text: string;
  readonly bold?: boolean;
  readonly faint?: boolean;
  readonly sizeMm?: number;
  /** Over how many columns it runs, its own counted. */
  readonly span?: number;
  /** A dot before it, in the air of its column. */
  readonly dot?: boolean;
  /** In grey after it, where there is room. */
  readonly after?: string;
}

export const TICK = Symbol('a box to tick');

/** What stands in a cell: lines beneath one another, or a box to tick. */
export type Cell = string | Line | readonly (string | Line)[] | typeof TICK;

export interface Row {
  /** From the first column on; where there are fewer than columns, the last ones stay empty. */
  readonly cells: readonly Cell[];
  /** In grey beneath, from the look's `notesIn` to the right end. */
  readonly notes?: readonly string[];
  /** Of a row with one line; left out: the look's. */
  readonly heightMm?: number;
  /** The line beneath; left out: faint. */
  readonly rule?: keyof typeof RULES | 'none';
  /** Tinted, with a line above it and none beneath: what heads a group. */
  readonly band?: boolean;
}

export interface Look {
  /** Of a row with one line. */
  readonly rowMm: number;
  readonly sizeMm?: number;
  /** From line to line of a cell; left out: the leading of its size. */
  readonly lineMm?: number;
  /** A text too long for its column runs over lines; left out: it is set smaller. */
  readonly wraps?: boolean;
  /** Lines between the columns. */
  readonly grid?: boolean;
  /** The column under which notes begin. */
  readonly notesIn?: number;
}

const SMALL = TEXT_MM.small;
const AIR_MM = 1;
const DOT_MM = 0.65;
const DOT_BEFORE_MM = 1.6;
const AFTER_MM = 2;
const TICK_MM = 2.9;
const TITLES_MM = 5.6;
/** A row with more lines than these goes on in a row of its own, which may stand on the next page. */
export const MOST_LINES = 24;

const RULES = { faint: { ink: 'faint' }, thin: {}, wide: { line: WIDE } } as const;

/** A baseline that sets capitals in the middle of a row of a height hanging from a top. */
export const middleBase = (topMm: number, heightMm: number, sizeMm: number): number =>
  topMm - heightMm / 2 - (sizeMm * CAPITAL_OF_EM) / 2;

/** A box to tick in the middle of a place. */
export function tick(page: Page, leftMm: number, widthMm: number, topMm: number, heightMm: number): void {
  const [x, y] = [leftMm + widthMm / 2, topMm - heightMm / 2];
  const half = TICK_MM / 2;
  page.box(x - half, y - half, x + half, y + half, { tint: 'paper' });
}

/** Lines that fit a width: broken at spaces, and within a word only where it is wider than the column. */
export function broken(page: Page, line: Line, widthMm: number): Line[] {
  const { text, bold = false, sizeMm = SMALL } = line;
  return text.split('\n').flatMap((part) =>
    wrapText(part, widthMm, sizeMm, bold, page.measure).flatMap((whole) => {
      const lines = [''];
      for (const char of whole) {
        const longer = lines[lines.length - 1] + char;
        if (page.measure(longer, sizeMm, bold) <= widthMm || longer.length === 1) lines[lines.length - 1] = longer;
        else lines.push(char);
      }
      return lines.map((each) => ({ ...line, text: each }));
    }),
  );
}

export class Table {
  /** Edges of the columns from the table's own left one. */
  readonly edges: readonly number[];
  private readonly noteHeights = new Map<string, number>();

  constructor(
    private readonly measurer: Page,
    readonly columns: readonly Column[],
    private readonly look: Look,
  ) {
    const edges = [0];
    for (const { widthMm } of columns) edges.push(edges[edges.length - 1] + widthMm);
    this.edges = edges;
  }

  get widthMm(): number {
    return this.edges[this.edges.length - 1];
  }

  /** The titles of the columns, in grey over a line. */
  titles(): Block {
    const cells = this.columns.map(({ title }): Line => ({ text: title, faint: true, sizeMm: SMALL }));
    return this.row({ cells, heightMm: TITLES_MM, rule: 'wide' })[0];
  }

  /** Where a text in a column begins, ends or has its middle, and how wide it may be. */
  private place(k: number, span: number): { readonly at: number; readonly wideMm: number; readonly end: number } {
    const { anchor = 'start', beforeMm = AIR_MM, afterMm = AIR_MM } = this.columns[k];
    const [left, right] = [this.edges[k], this.edges[k + span]];
    const at = anchor === 'start' ? left + beforeMm : anchor === 'end' ? right - afterMm : (left + right) / 2;
    return { at, wideMm: right - left - beforeMm - afterMm, end: right - afterMm };
  }

  /** The lines of a cell, as they are set. */
  private linesOf(cell: Cell, k: number, wraps: boolean): readonly Line[] {
    if (cell === TICK) return [];
    const { sizeMm = SMALL } = this.look;
    const lines = (Array.isArray(cell) ? cell : [cell]) as readonly (string | Line)[];
    return lines.flatMap((one) => {
      const line: Line = { sizeMm, ...(typeof one === 'string' ? { text: one } : one) };
      return wraps ? broken(this.measurer, line, this.place(k, line.span ?? 1).wideMm) : [line];
    });
  }

  /** The same note stands under the same part in many groups: it is broken into lines once. */
  private noteMm(words: string, widthMm: number): number {
    const known = this.noteHeights.get(words) ?? this.measurer.paragraphHeight(words, widthMm, SMALL);
    this.noteHeights.set(words, known);
    return known;
  }

  /** A row; of one with very many lines several blocks, which may stand on different pages. */
  row({ cells, notes = [], heightMm: rowMm = this.look.rowMm, rule = 'faint', band = false }: Row): Block[] {
    const { sizeMm = SMALL, lineMm = sizeMm * LEADING, notesIn = 0, wraps = false, grid = false } = this.look;
    // Titles stand in one line.
    const set = cells.map((cell, k) => this.linesOf(cell, k, wraps && rule !== 'wide'));
    const most = Math.max(1, ...set.map((lines) => lines.length));
    const noteX = this.edges[notesIn] + AIR_MM;
    const noteWide = this.widthMm - noteX - AIR_MM;
    const notesMm = notes.reduce((sum, words) => sum + this.noteMm(words, noteWide), 0);
    const blocks: Block[] = [];
    for (let from = 0; from < most; from += MOST_LINES) {
      const count = Math.min(MOST_LINES, most - from);
      const isLast = from + count >= most;
      const linesMm = rowMm + (count - 1) * lineMm;
      const heightMm = linesMm + (isLast ? notesMm : 0);
      const draw = (page: Page, x: number, topMm: number): void => {
        const bottom = topMm - heightMm;
        const right = x + this.widthMm;
        if (band) {
          page.box(x, bottom, right, topMm, { line: null, tint: 'band' });
          page.line(x, topMm, right, topMm);
        }
        cells.forEach((cell, k) => {
          if (cell === TICK) tick(page, x + this.edges[k], this.columns[k].widthMm, topMm, rowMm);
          set[k].slice(from, from + count).forEach((line, i) => {
            this.write(page, line, k, x, middleBase(topMm, rowMm, line.sizeMm ?? sizeMm) - i * lineMm);
          });
        });
        if (isLast) {
          let at = topMm - linesMm - SMALL * 0.75;
          for (const words of notes) at = page.paragraph(words, x + noteX, at, noteWide, { faint: true });
        }
        if (grid && rule === 'faint')
          for (const edge of this.drawnEdges(set)) page.line(x + edge, topMm, x + edge, bottom, RULES.faint);
        if (isLast && !band && rule !== 'none') page.line(x, bottom, right, bottom, RULES[rule]);
      };
      blocks.push({ heightMm, draw });
    }
    return blocks;
  }

  private write(page: Page, line: Line, k: number, x: number, base: number): void {
    const { text, bold = false, faint = false, sizeMm = SMALL, span = 1, dot = false, after = '' } = line;
    if (text === '') return;
    const { at, wideMm, end } = this.place(k, span);
    if (dot) {
      const middle = base + (sizeMm * CAPITAL_OF_EM) / 2;
      const solid = style('frame', { line: null, tint: 'solid' });
      page.marks.push(circleMark(solid, x + at - DOT_BEFORE_MM, middle, DOT_MM));
    }
    page.fitted(text, x + at, base, wideMm, { anchor: this.columns[k].anchor ?? 'start', bold, faint, sizeMm });
    const afterX = at + page.measure(text, sizeMm, bold) + AFTER_MM;
    if (after !== '' && afterX + page.measure(after, sizeMm, false) <= end)
      page.text(after, x + afterX, base, { faint: true, sizeMm });
  }

  /** Edges that no cell runs over. */
  private drawnEdges(set: readonly (readonly Line[])[]): number[] {
    return this.edges.filter((_, n) => set.every((lines, k) => n <= k || lines.every(({ span = 1 }) => n >= k + span)));
  }
}
