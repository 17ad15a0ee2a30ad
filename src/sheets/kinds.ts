/**
 * The kinds of sheets there are: what each is, what may be asked of it and what it can be written as, and beneath it what makes it. The
 * page and the command line read nothing else, so a new sheet is its own file and a row in each of the two tables here.
 */
import type { Checked } from '../checks/run.ts';
import type { Mark } from '../drawing/displayList.ts';
import { drawSetup } from '../drawing/drawSetup.ts';
import type { Layout } from '../layout/layout.ts';
import type { Stock } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { offRiserLines } from '../words/riserWords.ts';
import { withBanner } from './banner.ts';
import { comparisonSheets } from './comparisonSheet.ts';
import { toDxf } from './dxf.ts';
import { floorDrawing } from './floorDrawing.ts';
import { markSheets } from './markSheet.ts';
import { measureWith, Page } from './page.ts';
import { pullCsv } from './pullCsv.ts';
import { pullSheets } from './pullSheet.ts';
import type { Sheet, SheetOptions } from './sheet.ts';
import { templateSheets } from './template.ts';
import { venueSheets } from './venueSheet.ts';

export type SheetFormat = 'pdf' | 'svg' | 'png' | 'dxf' | 'csv';

export interface SheetSource {
  readonly plan: Plan;
  readonly setupId: string;
  readonly layout: Layout;
  readonly checked: Checked;
}

export interface KindOptions extends SheetOptions {
  /** Numbered flags at what is tight, blocked or unmeasured. */
  readonly flags?: boolean;
  /** One long page for a plotter. */
  readonly long?: boolean;
  /** What is owned, and what solve/buildFrom.ts made of it. */
  readonly stock?: Stock | null;
  /** The setups beside this one. */
  readonly against?: readonly string[];
}

/** What may be asked of some kinds and not of others. */
export type SheetWish = 'scale' | 'turned' | 'flags' | 'long' | 'stock' | 'against';

/** A drawing at 1:1, every edge whole. */
interface DrawingRow {
  /** Type sizes and dashes suit a print at this scale; what is at full size is read from above. */
  readonly scale: number;
  /** Where its zero is. */
  readonly frame: string;
  draw(source: SheetSource, options: KindOptions, scale: number): readonly Mark[];
}

interface KindRow {
  readonly label: string;
  /** Whom it is for, in a few words. */
  readonly hint: string;
  readonly takes: readonly SheetWish[];
  readonly formats: readonly SheetFormat[];
}

const PAGES = ['pdf', 'svg', 'png'] as const;

export const SHEET_KINDS = {
  venue: {
    label: 'Venue sheet',
    hint: 'For the venue: where everything stands, inputs, monitors, power.',
    takes: ['scale', 'turned', 'flags'],
    formats: [...PAGES, 'dxf'],
  },
  marks: {
    label: 'Mark sheet',
    hint: 'For the crew: every mark on the deck, measured with two tapes.',
    takes: ['turned'],
    formats: [...PAGES, 'dxf'],
  },
  template: {
    label: 'Template',
    hint: 'The marks at full size, to lay on the deck.',
    takes: ['long'],
    formats: [...PAGES, 'dxf'],
  },
  pull: {
    label: 'Pull list',
    hint: 'For loading: units in order, their parts, masses and what is missing.',
    takes: ['turned', 'stock'],
    formats: [...PAGES, 'csv'],
  },
  comparison: {
    label: 'Comparison',
    hint: 'Setups side by side: floor, riser, parts, what moves.',
    takes: ['turned', 'against'],
    formats: PAGES,
  },
} as const satisfies Readonly<Record<string, KindRow>>;

export type SheetKind = keyof typeof SHEET_KINDS;

export const KINDS = Object.keys(SHEET_KINDS) as SheetKind[];

interface Maker {
  /** Throws: RangeError with a sentence where it cannot be made. */
  pages(source: SheetSource, options: KindOptions): Sheet[];
  /** As DXF; null: it is no drawing. */
  readonly drawing: DrawingRow | null;
  /** As CSV; null: it is no table. */
  readonly csv: ((source: SheetSource, options: Pick<KindOptions, 'stock'>) => string) | null;
}

const ON_THE_FLOOR = 'x to stage left of the centre line, y upstage of the front edge';

/** What makes each; a table of its own, so that the dialog that lists the kinds loads none of it (40 kB gzipped). */
const MAKERS: Readonly<Record<SheetKind, Maker>> = {
  venue: {
    pages: ({ plan, setupId, layout, checked }, options) => venueSheets(plan, setupId, layout, checked, options),
    drawing: {
      scale: 20,
      frame: 'x to stage left, y upstage, from where the plan has its zero',
      draw: ({ plan, setupId, layout, checked }, { fonts, flags = false }, scale) =>
        drawSetup(plan, setupId, layout, checked, { scale, flags, hidden: false, measure: measureWith(fonts) }).marks,
    },
    csv: null,
  },
  marks: {
    pages: ({ plan, setupId, layout }, options) => markSheets(plan, setupId, layout, options),
    drawing: {
      scale: 20,
      frame: ON_THE_FLOOR,
      draw: ({ plan, setupId, layout }, _, scale) => floorDrawing(plan, setupId, layout, scale, true),
    },
    csv: null,
  },
  template: {
    pages: ({ plan, setupId, layout }, options) => templateSheets(plan, setupId, layout, options),
    drawing: {
      scale: 6,
      frame: ON_THE_FLOOR,
      draw: ({ plan, setupId, layout }, _, scale) => floorDrawing(plan, setupId, layout, scale, false),
    },
    csv: null,
  },
  pull: {
    pages: ({ plan, setupId, layout, checked }, options) => pullSheets(plan, setupId, layout, checked, options),
    drawing: null,
    csv: ({ plan, setupId, layout, checked }, { stock = null }) => pullCsv(plan, setupId, layout, checked, { stock }),
  },
  comparison: {
    pages: ({ plan, setupId }, options) => comparisonSheets(plan, [setupId, ...(options.against ?? [])], options),
    drawing: null,
    csv: null,
  },
};

const rowOf = (kind: SheetKind): KindRow => SHEET_KINDS[kind];

export const takes = (kind: SheetKind, wish: SheetWish): boolean => rowOf(kind).takes.includes(wish);

/** "venue sheet", within a sentence. */
export const labelOf = (kind: SheetKind): string => rowOf(kind).label.toLowerCase();

export const formatsOf = (kind: SheetKind): readonly SheetFormat[] => rowOf(kind).formats;

/**
 * The pages of a kind of sheet; the first says where the kit stands off its riser. Throws: RangeError with a sentence where it cannot be
 * made.
 */
export function makeSheets(kind: SheetKind, source: SheetSource, options: KindOptions): Sheet[] {
  const shown = [source.setupId, ...(takes(kind, 'against') ? (options.against ?? []) : [])];
  const pages = MAKERS[kind].pages(source, options);
  return withBanner(pages, offRiserLines(source.plan, shown).join(' '), new Page(measureWith(options.fonts)));
}

/** The drawing of a kind at 1:1, as DXF. Throws: RangeError with a sentence for a kind that is no drawing. */
export function makeDxf(kind: SheetKind, source: SheetSource, options: KindOptions): string {
  const { drawing } = MAKERS[kind];
  if (!drawing) throw new RangeError(formatSentence(kind, 'dxf'));
  const { plan, setupId } = source;
  const { scale = drawing.scale, date, title = plan.name } = options;
  const said = `${title} - ${plan.setups[setupId].name}, ${date}. ${rowOf(kind).label}, mm at 1:1; ${drawing.frame}.`;
  const comment = [said, ...offRiserLines(plan, [setupId])].join(' ');
  return toDxf(drawing.draw(source, options, scale), { scale, comment });
}

/** Throws: RangeError with a sentence for a kind that is no table. */
export function makeCsv(kind: SheetKind, source: SheetSource, options: Pick<KindOptions, 'stock'>): string {
  const { csv } = MAKERS[kind];
  if (!csv) throw new RangeError(formatSentence(kind, 'csv'));
  return csv(source, options);
}

/** The kinds that are so, in a sentence: "the venue sheet and the pull list". */
export function kindsWith(isSo: (kind: SheetKind) => boolean): string {
  const names = KINDS.filter(isSo).map((kind) => `the ${labelOf(kind)}`);
  return [names.slice(0, -1).join(', '), ...names.slice(-1)].filter((part) => part !== '').join(' and ');
}

/** Why a kind is not written in a format, and in which it is. */
export function formatSentence(kind: SheetKind, format: SheetFormat): string {
  const names = formatsOf(kind).map((each) => each.toUpperCase());
  const list = `${names.slice(0, -1).join(', ')} or ${names[names.length - 1]}`;
  const tables = kindsWith((one) => formatsOf(one).includes('csv'));
  const why =
    format === 'csv'
      ? `: CSV is a table of parts, which ${tables} alone is`
      : format === 'dxf'
        ? ': DXF is a drawing, which this is not'
        : '';
  return `A ${labelOf(kind)} is not written as ${format.toUpperCase()}${why}. It is written as ${list}.`;
}
