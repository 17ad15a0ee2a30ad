/**
 * The pull list on paper: a small plan with the units numbered in the order of loading in, then every unit with its parts,
 * boxes to tick when they are packed and when they are back, and last the tubes to cut.
 *
 * Columns that would stay empty (prices, what is owned, bends) are left out; where there are too many for upright paper, it lies.
 */
import type { Checked } from '../checks/run.ts';
import { circleMark, style, TEXT_MM, THIN } from '../drawing/displayList.ts';
import type { Layout } from '../layout/layout.ts';
import { type PullList, type PullRow, type PullUnit, pullList, type Stock } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { formatLength, formatMass } from '../units.ts';
import { loadName } from '../words/names.ts';
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
import { type Block, type BlockGroup, drawBlocks, paginate } from './blocks.ts';
import { formatOf, framedSheets } from './framed.ts';
import { measureWith, Page } from './page.ts';
import { pullHead } from './pullHead.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';
import { type Cell, type Column, middleBase, Table, TICK, tick } from './table.ts';

export interface PullSheetOptions extends SheetOptions {
  /** What is owned: a stock list and what solve/buildFrom.ts made of it. Left out: nothing is said of it. */
  readonly stock?: Stock | null;
}

/** On paper, mm. */
const PAD_MM = 3.2;
const ROW_MM = 4.9;
const TICK_COLUMN_MM = 11;
const GAP_MM = 2.6;
const HEAD_MM = 6.6;
const BADGE_MM = 2.3;
const SMALL = TEXT_MM.small;
/** A part's name has at least so much. */
const LEAST_NAME_MM = 46;
/** Where names of parts stand: after the boxes to tick and the count. */
const NAME_COLUMN = 3;
/** The column of what tubes of a section come to. */
const TOTAL_MM = 44;

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

function badge(page: Page, number: number, x: number, y: number): void {
  page.marks.push(circleMark(style('frame', { line: THIN, tint: 'paper' }), x, y, BADGE_MM));
  page.text(String(number), x, middleBase(y, 0, SMALL), { anchor: 'middle', bold: true });
}

/** Draws one pull list: what all its blocks share. */
class PullTable {
  private readonly columns: readonly PullColumn[];
  private readonly table: Table;
  private readonly titles: Block;
  constructor(
    private readonly plan: Plan,
    private readonly setupId: string,
    private readonly list: PullList,
    private readonly measurer: Page,
    private readonly widthMm: number,
  ) {
    this.columns = columnsOf(plan, list, widthMm);
    const all = [...TICKS, ...this.columns];
    this.table = new Table(measurer, all, { rowMm: ROW_MM, notesIn: NAME_COLUMN });
    this.titles = this.table.titles();
  }

  private row(row: PullRow): Block[] {
    const more = [insteadWords(row.instead, this.plan), row.note].map((words) => words.trim().replace(/\s+/g, ' '));
    const notes = more
      .filter((words) => words !== '')
      .map((words) => `${words.charAt(0).toUpperCase()}${words.slice(1)}`);
    const cells = this.columns.map(({ text, bold }): Cell => ({ text: text(row), bold: bold?.(row) ?? false }));
    return this.table.row({ cells: [TICK, TICK, ...cells], notes });
  }

  private head(unit: PullUnit, goesOn: boolean): Block {
    const { plan } = this;
    const name = loadName(plan, this.setupId, unit);
    const details = goesOn ? '' : this.details(unit);
    const detailsX = 2 * TICK_COLUMN_MM + 2 * BADGE_MM + 3;
    const detailsWide = this.widthMm - detailsX - 1.5;
    const detailsMm = details === '' ? 0 : this.measurer.paragraphHeight(details, detailsWide, SMALL) + 1;
    const heightMm = HEAD_MM + detailsMm;
    return {
      heightMm,
      draw: (page, x, topMm) => {
        const right = x + this.widthMm;
        page.box(x, topMm - heightMm, right, topMm, { line: null, tint: 'band' });
        page.line(x, topMm, right, topMm);
        if (!goesOn)
          TICKS.forEach(({ widthMm }, k) => {
            tick(page, x + k * widthMm, widthMm, topMm, HEAD_MM);
          });
        badge(page, unit.number, x + 2 * TICK_COLUMN_MM + BADGE_MM + 0.5, topMm - HEAD_MM / 2);
        const base = middleBase(topMm, HEAD_MM, TEXT_MM.normal);
        const mass = goesOn ? 'continued' : `${this.handsWords(unit)}${massWords(unit, plan)}`;
        const massMm = page.measure(mass, SMALL * 1.15, !goesOn);
        page.text(mass, right - 1.5, base, { anchor: 'end', bold: !goesOn, sizeMm: SMALL * 1.15 });
        const nameMm = this.widthMm - 4 - massMm - detailsX;
        page.fitted(name, x + detailsX, base, nameMm, { bold: true, sizeMm: TEXT_MM.normal });
        if (details !== '') page.paragraph(details, x + detailsX, topMm - HEAD_MM - SMALL * 0.62, detailsWide);
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
      titles: this.titles,
      head: this.head(unit, false),
      continued: this.head(unit, true),
      rows: unit.rows.flatMap((row) => this.row(row)),
    };
  }

  /** Tubes of each section: what to cut. */
  cuts(): BlockGroup[] {
    const { list, plan, widthMm } = this;
    if (list.cuts.length === 0) return [];
    const air = { beforeMm: 1.5, afterMm: 1.5, title: '' };
    const columns: Column[] = [
      { ...air, widthMm: widthMm * 0.3 },
      { ...air, widthMm: widthMm * 0.7 - TOTAL_MM },
      { ...air, widthMm: TOTAL_MM, anchor: 'end' },
    ];
    const table = new Table(this.measurer, columns, { rowMm: ROW_MM, wraps: true });
    const title = { text: 'Tubes to cut', bold: true, sizeMm: TEXT_MM.normal };
    const rows = list.cuts.flatMap((cuts) => {
      const total = `${cuts.count} tubes, ${formatLength(cuts.totalMm, plan.units)}`;
      return table.row({ cells: [sectionWords(cuts, plan), cutWords(cuts, plan), total] });
    });
    const hint = 'Lengths along the centre line. Every cut takes the width of the saw’s blade besides.';
    const last = table.row({ cells: [{ text: hint, faint: true, span: columns.length }], rule: 'none' });
    const [head] = table.row({ cells: [{ ...title, span: columns.length }], heightMm: HEAD_MM, band: true });
    return [{ titles: this.titles, head, rows: [...rows, ...last] }];
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
  const table = new PullTable(plan, setupId, list, firstPage, right - left);
  const floor = room.minY + PAD_MM;
  const groups = [...list.units.map((unit) => table.unit(unit)), ...table.cuts()];
  const contents = paginate(groups, {
    firstMm: frame.maxY - head.heightMm - floor,
    restMm: frame.maxY - PAD_MM - floor,
    gapMm: GAP_MM,
  });
  const pages = contents.map((blocks, k) => {
    const page = k === 0 ? firstPage : new Page(measure);
    if (k === 0) head.draw();
    const top = k === 0 ? frame.maxY - head.heightMm : frame.maxY - PAD_MM;
    drawBlocks(page, blocks, left, top);
    return { page, scale: '-' };
  });
  const subject = `Pull list on ${PAPERS[options.paper].label}`;
  const of = { plan, setupName: plan.setups[setupId].name, documentType: 'Pull list', subject };
  return framedSheets(pages, format, of, options);
}
