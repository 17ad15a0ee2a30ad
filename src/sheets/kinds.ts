/**
 * The kinds of sheets there are, what each can be written as, and the one way to make any of them, for page and command line.
 */
import type { Checked } from '../checks/run.ts';
import type { Mark } from '../drawing/displayList.ts';
import { drawSetup } from '../drawing/drawSetup.ts';
import type { Layout } from '../layout/layout.ts';
import type { Stock } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { comparisonSheets } from './comparisonSheet.ts';
import { toDxf } from './dxf.ts';
import { floorDrawing } from './floorDrawing.ts';
import { markSheets } from './markSheet.ts';
import { measureWith } from './page.ts';
import { pullCsv } from './pullCsv.ts';
import { pullSheets } from './pullSheet.ts';
import type { Sheet, SheetOptions } from './sheet.ts';
import { templateSheets } from './template.ts';
import { venueSheets } from './venueSheet.ts';

export type SheetKind = 'venue' | 'marks' | 'template' | 'pull' | 'comparison';

export type SheetFormat = 'pdf' | 'svg' | 'png' | 'dxf' | 'csv';

export interface KindRow {
  readonly label: string;
  /** Whom it is for, in a few words. */
  readonly hint: string;
  readonly formats: readonly SheetFormat[];
  /** Whether a scale may be asked for. */
  readonly takesScale: boolean;
  /** Whether upright or lying may be asked for. */
  readonly takesTurn: boolean;
}

const PAGES = ['pdf', 'svg', 'png'] as const;

export const SHEET_KINDS: Readonly<Record<SheetKind, KindRow>> = {
  venue: {
    label: 'Venue sheet',
    hint: 'For the venue: where everything stands, inputs, monitors, power.',
    formats: [...PAGES, 'dxf'],
    takesScale: true,
    takesTurn: true,
  },
  marks: {
    label: 'Mark sheet',
    hint: 'For the crew: every mark on the deck, measured with two tapes.',
    formats: [...PAGES, 'dxf'],
    takesScale: false,
    takesTurn: true,
  },
  template: {
    label: 'Template',
    hint: 'The marks at full size, to lay on the deck.',
    formats: [...PAGES, 'dxf'],
    takesScale: false,
    takesTurn: false,
  },
  pull: {
    label: 'Pull list',
    hint: 'For loading: units in order, their parts, masses and what is missing.',
    formats: [...PAGES, 'csv'],
    takesScale: false,
    takesTurn: true,
  },
  comparison: {
    label: 'Comparison',
    hint: 'Setups side by side: floor, riser, parts, what moves.',
    formats: PAGES,
    takesScale: false,
    takesTurn: true,
  },
};

export const KINDS = Object.keys(SHEET_KINDS) as SheetKind[];

export interface SheetSource {
  readonly plan: Plan;
  readonly setupId: string;
  readonly layout: Layout;
  readonly checked: Checked;
}

export interface KindOptions extends SheetOptions {
  /** Venue sheet: numbered flags at what is tight, blocked or unmeasured. */
  readonly flags?: boolean;
  /** Template: one long page for a plotter. */
  readonly long?: boolean;
  /** Pull list: what is owned, and what solve/buildFrom.ts made of it. */
  readonly stock?: Stock | null;
  /** Comparison: the setups beside this one. */
  readonly against?: readonly string[];
}

type Maker = (source: SheetSource, options: KindOptions) => Sheet[];

const MAKERS: Readonly<Record<SheetKind, Maker>> = {
  venue: ({ plan, setupId, layout, checked }, options) => venueSheets(plan, setupId, layout, checked, options),
  marks: ({ plan, setupId, layout }, options) => markSheets(plan, setupId, layout, options),
  template: ({ plan, setupId, layout }, options) => templateSheets(plan, setupId, layout, options),
  pull: ({ plan, setupId, layout, checked }, options) => pullSheets(plan, setupId, layout, checked, options),
  comparison: ({ plan, setupId }, options) => comparisonSheets(plan, [setupId, ...(options.against ?? [])], options),
};

/** The pages of a kind of sheet. Throws: RangeError with a sentence where it cannot be made. */
export const makeSheets = (kind: SheetKind, source: SheetSource, options: KindOptions): Sheet[] =>
  MAKERS[kind](source, options);

/** Type sizes and dashes of a drawing in DXF suit a print at this scale; the template's, at full size, are read from above. */
const DXF_SCALE: Readonly<Partial<Record<SheetKind, number>>> = { venue: 20, marks: 20, template: 6 };

type Drawer = (source: SheetSource, options: KindOptions, scale: number) => readonly Mark[];

const DRAWERS: Readonly<Partial<Record<SheetKind, Drawer>>> = {
  venue: ({ plan, setupId, layout, checked }, { fonts, flags = false }, scale) =>
    drawSetup(plan, setupId, layout, checked, { scale, flags, hidden: false, measure: measureWith(fonts) }).marks,
  marks: ({ plan, setupId, layout }, _, scale) => floorDrawing(plan, setupId, layout, scale, true),
  template: ({ plan, setupId, layout }, _, scale) => floorDrawing(plan, setupId, layout, scale, false),
};

/**
 * The drawing of a kind at 1:1, as DXF: every edge whole, as nothing covers anything there.
 * Throws: RangeError with a sentence for a kind that is no drawing.
 */
export function makeDxf(kind: SheetKind, source: SheetSource, options: KindOptions): string {
  const draw = DRAWERS[kind];
  if (!draw) throw new RangeError(formatSentence(kind, 'dxf'));
  const { plan, setupId } = source;
  const { scale = DXF_SCALE[kind] ?? 1, date, title = plan.name } = options;
  const frame =
    kind === 'venue'
      ? 'x to stage left, y upstage, from where the plan has its zero'
      : 'x to stage left of the centre line, y upstage of the front edge';
  const comment = `${title} - ${plan.setups[setupId].name}, ${date}. ${SHEET_KINDS[kind].label}, mm at 1:1; ${frame}.`;
  return toDxf(draw(source, options, scale), { scale, comment });
}

/** Throws: RangeError with a sentence for a kind that is no table. */
export function makeCsv(kind: SheetKind, source: SheetSource, { stock = null }: Pick<KindOptions, 'stock'>): string {
  if (kind !== 'pull') throw new RangeError(formatSentence(kind, 'csv'));
  const { plan, setupId, layout, checked } = source;
  return pullCsv(plan, setupId, layout, checked, { stock });
}

/** Why a kind is not written in a format, and in which it is. */
export function formatSentence(kind: SheetKind, format: SheetFormat): string {
  const { label, formats } = SHEET_KINDS[kind];
  const names = formats.map((each) => each.toUpperCase());
  const list = `${names.slice(0, -1).join(', ')} or ${names[names.length - 1]}`;
  const why =
    format === 'csv'
      ? ': CSV is a table of parts, which the pull list alone is'
      : format === 'dxf'
        ? ': DXF is a drawing, which this is not'
        : '';
  return `A ${label.toLowerCase()} is not written as ${format.toUpperCase()}${why}. It is written as ${list}.`;
}
