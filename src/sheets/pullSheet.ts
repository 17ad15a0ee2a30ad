/**
 * The pull list on paper: a small plan with the units numbered in the order of loading in, then every unit with its parts,
 * boxes to tick when they are packed and when they are back, and last the tubes to cut.
 *
 * Columns that would stay empty (prices, what is owned, bends) are left out; where there are too many for upright paper, it lies.
 */
import type { Checked } from '../checks/run.ts';
import { circleMark, style, TEXT_MM, THIN } from '../drawing/displayList.ts';
import type { Layout } from '../layout/layout.ts';
import { type PullList, type PullRow, type PullUnit, pullList, type Stock, type TubeCuts } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { formatLength, formatMass } from '../units.ts';
import { pieceName } from '../words/names.ts';
import {
  cutWords,
  insteadWords,
  liftWords,
  massWords,
  partLabel,
  priceText,
  sectionWords,
  sizeWords,
} from '../words/packingWords.ts';
import { formatOf, framedSheet } from './framed.ts';
import { LEADING, measureWith, Page } from './page.ts';
import { pullHead } from './pullHead.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';
import {
  type Block,
  type BlockGroup,
  type Column,
  cell,
  columnEdges,
  columnTitles,
  drawBlocks,
  middleBase,
  paginate,
  TITLES_MM,
} from './table.ts';

export interface PullSheetOptions extends SheetOptions {
  /** What is owned: a stock list and what solve/buildFrom.ts made of it. Left out: nothing is said of it. */
  readonly stock?: Stock | null;
}

/** On paper, mm. */
const PAD_MM = 3.2;
const ROW_MM = 4.9;
const LINE_MM = TEXT_MM.small * LEADING;
const TICK_MM = 2.9;
const TICK_COLUMN_MM = 11;
const GAP_MM = 2.6;
const HEAD_MM = 6.6;
const BADGE_MM = 2.3;
const SMALL = TEXT_MM.small;
/** A part's name has at least so much. */
const LEAST_NAME_MM = 46;

interface PullColumn extends Column {
  readonly text: (row: PullRow) => string;
  readonly bold?: (row: PullRow) => boolean;
}

const TICKS: readonly Column[] = [
  { title: 'Packed', widthMm: TICK_COLUMN_MM, anchor: 'middle' },
  { title: 'Back', widthMm: TICK_COLUMN_MM, anchor: 'middle' },
];

/** Columns after the tick boxes; the part's name takes what is left of `widthMm`. */
function columnsOf(plan: Plan, list: PullList, widthMm: number): PullColumn[] {
  const { units } = plan;
  const rows = list.units.flatMap((unit) => unit.rows);
  const length = (mm: number | null | undefined) => (mm == null ? '' : formatLength(mm, units));
  const mass = ({ part: { kind } }: PullRow, kg: number | null) =>
    kg === null ? (kind === 'endCap' ? '' : 'not weighed') : formatMass(kg, units);
  const price = (value: number | null) => (value === null ? '' : priceText(value));
  const before: PullColumn[] = [
    { title: 'Count', widthMm: 11, anchor: 'end', text: ({ part }) => String(part.count), bold: () => true },
  ];
  const after: PullColumn[] = [
    { title: 'Cut length', widthMm: 22, anchor: 'end', text: ({ part }) => length(part.cutLength) },
  ];
  const end = 'end' as const;
  if (rows.some(({ part }) => part.bend))
    after.push({ title: 'Bent to', widthMm: 19, anchor: end, text: ({ part }) => length(part.bend?.radiusMm) });
  after.push(
    { title: 'Each', widthMm: 18, anchor: end, text: (row) => mass(row, row.part.mass) },
    { title: 'Together', widthMm: 18, anchor: end, text: (row) => mass(row, row.part.totalMass) },
    {
      title: 'Mass is',
      widthMm: 17,
      text: ({ part }) => (part.massFrom === 'unmeasured' ? '' : part.massFrom),
    },
  );
  if (rows.some((row) => row.price !== null)) {
    const title = list.currency === '' ? 'Price' : `Price, ${list.currency}`;
    after.push(
      { title, widthMm: 19, anchor: end, text: (row) => price(row.price) },
      { title: 'Together', widthMm: 19, anchor: end, text: (row) => price(row.totalPrice) },
    );
  }
  if (list.missing !== null)
    after.push(
      { title: 'Owned', widthMm: 13, anchor: end, text: ({ owned }) => String(owned ?? '') },
      {
        title: 'Missing',
        widthMm: 14,
        anchor: end,
        text: ({ missing }) => (missing ? String(missing) : '–'),
        bold: ({ missing }) => (missing ?? 0) > 0,
      },
    );
  const fixed = [...TICKS, ...before, ...after].reduce((sum, column) => sum + column.widthMm, 0);
  const part: PullColumn = { title: 'Part', widthMm: widthMm - fixed, text: ({ part }) => partLabel(part, plan) };
  return [...before, part, ...after];
}

function tick(page: Page, leftMm: number, widthMm: number, topMm: number, heightMm: number): void {
  const [x, y] = [leftMm + widthMm / 2, topMm - heightMm / 2];
  const half = TICK_MM / 2;
  page.box(x - half, y - half, x + half, y + half, { tint: 'paper' });
}

function badge(page: Page, number: number, x: number, y: number): void {
  page.marks.push(circleMark(style('frame', { line: THIN, tint: 'paper' }), x, y, BADGE_MM));
  page.text(String(number), x, middleBase(y, 0, SMALL), { anchor: 'middle', bold: true });
}

/** Draws one pull list: what all its blocks share. */
class PullTable {
  private readonly all: readonly Column[];
  private readonly columns: readonly PullColumn[];
  readonly titles: Block;
  constructor(
    private readonly plan: Plan,
    private readonly setupId: string,
    private readonly list: PullList,
    private readonly measurer: Page,
    private readonly left: number,
    private readonly right: number,
  ) {
    this.columns = columnsOf(plan, list, right - left);
    this.all = [...TICKS, ...this.columns];
    this.titles = columnTitles(this.all, left);
  }

  private ticks(page: Page, topMm: number, heightMm: number): void {
    for (const k of [0, 1]) tick(page, this.left + k * TICK_COLUMN_MM, TICK_COLUMN_MM, topMm, heightMm);
  }

  /** Where names of parts begin. */
  private get nameX(): number {
    return columnEdges(this.all, this.left)[3] + 1;
  }

  private readonly noteHeights = new Map<string, number>();

  /** The same note stands under the same part in many units: it is broken into lines once. */
  private noteMm(words: string, widthMm: number): number {
    const known = this.noteHeights.get(words) ?? this.measurer.paragraphHeight(words, widthMm, SMALL);
    this.noteHeights.set(words, known);
    return known;
  }

  private row(row: PullRow): Block {
    const { plan } = this;
    const more = [insteadWords(row.instead, plan), row.note].map((words) => words.trim().replace(/\s+/g, ' '));
    const notes = more
      .filter((words) => words !== '')
      .map((words) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`);
    const wide = this.right - this.nameX - 1;
    const notesMm = notes.reduce((sum, words) => sum + this.noteMm(words, wide), 0);
    const heightMm = ROW_MM + notesMm;
    return {
      heightMm,
      draw: (page, topMm) => {
        const base = middleBase(topMm, ROW_MM, SMALL);
        this.ticks(page, topMm, ROW_MM);
        this.columns.forEach(({ text, bold }, k) => {
          cell(page, this.all, this.left, k + TICKS.length, text(row), base, { bold: bold?.(row) ?? false });
        });
        let at = topMm - ROW_MM - SMALL * 0.75;
        for (const words of notes) at = page.paragraph(words, this.nameX, at, wide, { faint: true });
        page.line(this.left, topMm - heightMm, this.right, topMm - heightMm, { ink: 'faint' });
      },
    };
  }

  private head(unit: PullUnit, goesOn: boolean): Block {
    const { plan } = this;
    const name = pieceName(plan, this.setupId, unit.id);
    const details = goesOn ? '' : this.details(unit);
    const detailsX = this.left + 2 * TICK_COLUMN_MM + 2 * BADGE_MM + 3;
    const detailsWide = this.right - detailsX - 1.5;
    const detailsMm = details === '' ? 0 : this.measurer.paragraphHeight(details, detailsWide, SMALL) + 1;
    const heightMm = HEAD_MM + detailsMm;
    return {
      heightMm,
      draw: (page, topMm) => {
        page.box(this.left, topMm - heightMm, this.right, topMm, { line: null, tint: 'band' });
        page.line(this.left, topMm, this.right, topMm);
        if (!goesOn) this.ticks(page, topMm, HEAD_MM);
        badge(page, unit.number, this.left + 2 * TICK_COLUMN_MM + BADGE_MM + 0.5, topMm - HEAD_MM / 2);
        const base = middleBase(topMm, HEAD_MM, TEXT_MM.normal);
        const mass = goesOn ? 'continued' : `${this.handsWords(unit)}${massWords(unit, plan)}`;
        const massMm = page.measure(mass, SMALL * 1.15, !goesOn);
        page.text(mass, this.right - 1.5, base, { anchor: 'end', bold: !goesOn, sizeMm: SMALL * 1.15 });
        page.fitted(name, detailsX, base, this.right - 4 - massMm - detailsX, { bold: true, sizeMm: TEXT_MM.normal });
        if (details !== '') page.paragraph(details, detailsX, topMm - HEAD_MM - SMALL * 0.62, detailsWide);
      },
    };
  }

  private handsWords({ lift }: PullUnit): string {
    if (lift?.hands === 'two') return 'TWO PEOPLE: ';
    return lift?.hands === 'takeApart' ? 'TAKE APART FIRST: ' : '';
  }

  private details(unit: PullUnit): string {
    const { plan } = this;
    const words = [sizeWords(unit, plan), liftWords(unit, plan)];
    if (unit.cymbals > 0 && unit.kind !== 'cymbal')
      words.push(unit.cymbals === 1 ? 'Its cymbal goes up last.' : `Its ${unit.cymbals} cymbals go up last.`);
    return words.filter((one) => one !== '').join(' ');
  }

  unit(unit: PullUnit): BlockGroup {
    return {
      head: this.head(unit, false),
      continued: this.head(unit, true),
      rows: unit.rows.map((row) => this.row(row)),
    };
  }

  private lines(text: string, widthMm: number): number {
    return this.measurer.paragraphHeight(text, widthMm, SMALL);
  }

  /** Tubes of each section: what to cut. */
  cuts(): BlockGroup[] {
    const { list, plan, left, right } = this;
    if (list.cuts.length === 0) return [];
    const title: Block = {
      heightMm: HEAD_MM,
      draw: (page, topMm) => {
        page.box(left, topMm - HEAD_MM, right, topMm, { line: null, tint: 'band' });
        page.line(left, topMm, right, topMm);
        const base = middleBase(topMm, HEAD_MM, TEXT_MM.normal);
        page.text('Tubes to cut', left + 1.5, base, { bold: true, sizeMm: TEXT_MM.normal });
      },
    };
    const nameMm = (right - left) * 0.3;
    const totalMm = 44;
    const row = (cuts: TubeCuts): Block => {
      const [name, words] = [sectionWords(cuts, plan), cutWords(cuts, plan)];
      const wordsMm = right - left - nameMm - totalMm;
      const heightMm = Math.max(this.lines(name, nameMm - 3), this.lines(words, wordsMm - 3)) + 2;
      return {
        heightMm,
        draw: (page, topMm) => {
          const base = topMm - SMALL - 0.4;
          page.paragraph(name, left + 1.5, base, nameMm - 3);
          page.paragraph(words, left + nameMm, base, wordsMm - 3);
          const total = `${cuts.count} tubes, ${formatLength(cuts.totalMm, plan.units)}`;
          page.fitted(total, right - 1.5, base, totalMm - 3, { anchor: 'end' });
          page.line(left, topMm - heightMm, right, topMm - heightMm, { ink: 'faint' });
        },
      };
    };
    const hint = 'Lengths along the centre line. Every cut takes the width of the saw’s blade besides.';
    const last: Block = {
      heightMm: LINE_MM + 1.5,
      draw: (page, topMm) => page.text(hint, left + 1.5, topMm - SMALL - 0.8, { faint: true }),
    };
    return [{ head: title, rows: [...list.cuts.map(row), last] }];
  }
}

/**
 * The pull list of a setup, on as many pages as it takes.
 * Throws: RangeError when the plan has no such setup.
 */
export function pullSheets(
  plan: Plan,
  setupId: string,
  layout: Layout,
  checked: Checked,
  options: PullSheetOptions,
): Sheet[] {
  const list = pullList(plan, setupId, layout, checked, options.stock ?? null);
  const measure = measureWith(options.fonts);
  const upright = formatOf(options.paper, false);
  const nameMm = columnsOf(plan, list, upright.frame.maxX - upright.frame.minX - 2 * PAD_MM)[1].widthMm;
  const lying = options.turned ? options.turned === 'lying' : nameMm < LEAST_NAME_MM;
  const format = formatOf(options.paper, lying);
  const { frame, room } = format;
  const [left, right] = [frame.minX + PAD_MM, frame.maxX - PAD_MM];

  const firstPage = new Page(measure);
  const head = pullHead(plan, setupId, layout, checked, list, firstPage, format);
  const table = new PullTable(plan, setupId, list, firstPage, left, right);
  const floor = room.minY + PAD_MM;
  const groups = [...list.units.map((unit) => table.unit(unit)), ...table.cuts()];
  const contents = paginate(groups, {
    firstMm: frame.maxY - head.heightMm - TITLES_MM - floor,
    restMm: frame.maxY - PAD_MM - TITLES_MM - floor,
    gapMm: GAP_MM,
  });
  return contents.map((blocks, k) => {
    const page = k === 0 ? firstPage : new Page(measure);
    if (k === 0) head.draw();
    const top = k === 0 ? frame.maxY - head.heightMm : frame.maxY - PAD_MM;
    if (blocks.length > 0) drawBlocks(page, [table.titles, ...blocks], top);
    return framedSheet(
      page,
      [],
      format,
      {
        plan,
        setupName: plan.setups[setupId].name,
        documentType: 'Pull list',
        subject: `Pull list on ${PAPERS[options.paper].label}`,
        scale: '-',
        number: k + 1,
        count: contents.length,
      },
      options,
    );
  });
}
