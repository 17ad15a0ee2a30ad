/**
 * The kinds of sheets there are, what each can be written as, and the one way to make any of them, for page and command line.
 */
import type { Checked } from '../checks/run.ts';
import { drawSetup } from '../drawing/drawSetup.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { toDxf } from './dxf.ts';
import { markSheets } from './markSheet.ts';
import { measureWith } from './page.ts';
import { pullCsv } from './pullCsv.ts';
import type { Stock } from './pullList.ts';
import { pullSheets } from './pullSheet.ts';
import type { Sheet, SheetOptions } from './sheet.ts';
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

const MAKERS: Readonly<Partial<Record<SheetKind, Maker>>> = {
  venue: ({ plan, setupId, layout, checked }, options) => venueSheets(plan, setupId, layout, checked, options),
  marks: ({ plan, setupId, layout }, options) => markSheets(plan, setupId, layout, options),
  pull: ({ plan, setupId, layout, checked }, options) => pullSheets(plan, setupId, layout, checked, options),
};

/** The pages of a kind of sheet. Throws: RangeError with a sentence where it cannot be made. */
export function makeSheets(kind: SheetKind, source: SheetSource, options: KindOptions): Sheet[] {
  const make = MAKERS[kind];
  if (!make) throw new RangeError(`The ${SHEET_KINDS[kind].label.toLowerCase()} cannot be made yet.`);
  return make(source, options);
}

/** Type sizes and dashes of a drawing in DXF suit a print at this scale, unless another is asked for. */
const DXF_SCALE = 20;

/**
 * The drawing of a kind at 1:1, as DXF: every edge whole, as nothing covers anything there.
 * Throws: RangeError with a sentence for a kind that is no drawing.
 */
export function makeDxf(
  kind: SheetKind,
  { plan, setupId, layout, checked }: SheetSource,
  options: KindOptions,
): string {
  if (!SHEET_KINDS[kind].formats.includes('dxf')) throw new RangeError(formatSentence(kind, 'dxf'));
  const { fonts, flags = false, scale = DXF_SCALE, date, title = plan.name } = options;
  const drawn = { scale, flags, hidden: false, measure: measureWith(fonts) };
  const { marks } = drawSetup(plan, setupId, layout, checked, drawn);
  const comment = `${title} - ${plan.setups[setupId].name}, ${date}. ${SHEET_KINDS[kind].label}, millimetres, 1:1.`;
  return toDxf(marks, { scale, comment });
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
