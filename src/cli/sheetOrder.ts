/** What the sheet command was asked for: its words read and held against what there is. Every failure is one sentence. */
import { extname } from 'node:path';
import type { Plan } from '../plan/schema.ts';
import {
  formatSentence,
  formatsOf,
  KINDS,
  kindsWith,
  labelOf,
  type SheetFormat,
  type SheetKind,
  type SheetWish,
  takes,
} from '../sheets/kinds.ts';
import { USUAL_PER_METRE } from '../sheets/pixels.ts';
import { SCALES } from '../sheets/scaleBar.ts';
import { PAPERS, type PaperName } from '../sheets/sheet.ts';
import { readArgs } from './args.ts';
import type { Answer } from './say.ts';

const of = (wish: SheetWish): string =>
  KINDS.filter((kind) => takes(kind, wish))
    .map(labelOf)
    .join(', ');

const USAGE = `Usage: npm run sheet -- FILE --setup NAME --kind ${KINDS.join('|')} -o OUT.(pdf|svg|png|dxf|csv)
  --setup NAME       which setup; the first where it is left out; for a ${of('against')} twice or more
  --against NAME     ${of('against')}: another setup beside it; once for each
  --paper a4|letter  a4 where it is left out, letter for a plan in inches
  --turned upright|lying
  --scale 1:N        ${of('scale')}; the largest of ${SCALES.map((n) => `1:${n}`).join(' ')} that fits where it is left out
  --units mm|in      lengths as the plan has them where it is left out
  --date YYYY-MM-DD  today where it is left out
  --title TEXT  --revision TEXT  --owner TEXT
  --flags            ${of('flags')}: numbered flags at what is tight or blocked
  --long             ${of('long')}: one long page for a plotter
  --stock FILE       ${of('stock')}: a stock list, for what is owned and what is missing
  --ppm N            PNG: pixels in a metre of paper, ${USUAL_PER_METRE} where it is left out
SVG and PNG hold a page each: OUT-1, OUT-2 ... where there are several. DXF is the drawing at 1:1 in mm, CSV ${kindsWith((kind) => formatsOf(kind).includes('csv'))}.`;

const HOW = 'Run it without a file to see how it is called.';

const FLAGS = {
  kind: { type: 'string' },
  setup: { type: 'string', multiple: true },
  against: { type: 'string', multiple: true },
  out: { type: 'string', short: 'o' },
  paper: { type: 'string' },
  turned: { type: 'string' },
  scale: { type: 'string' },
  units: { type: 'string' },
  date: { type: 'string' },
  title: { type: 'string' },
  revision: { type: 'string' },
  owner: { type: 'string' },
  flags: { type: 'boolean' },
  long: { type: 'boolean' },
  stock: { type: 'string' },
  ppm: { type: 'string' },
} as const;

/** As it was asked, checked word by word; names of setups wait for the plan. */
export interface SheetOrder {
  readonly file: string;
  readonly out: string;
  readonly kind: SheetKind;
  readonly format: SheetFormat;
  readonly setups: readonly string[];
  /** Left out: by the plan's units. */
  readonly paper?: PaperName;
  readonly turned?: 'upright' | 'lying';
  readonly scale?: number;
  readonly units?: Plan['units'];
  readonly date: string;
  readonly title?: string;
  readonly revision?: string;
  readonly owner?: string;
  readonly flags: boolean;
  readonly long: boolean;
  readonly stock?: string;
  readonly pixelsPerMetre: number;
}

export type Ordered = Answer<{ order: SheetOrder }>;

/** Whether a text is a day of the calendar, written YYYY-MM-DD. */
function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const day = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

/** Today where the person is, not in Greenwich. */
function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

const isOneOf = <T extends string>(list: readonly T[], text: string): text is T =>
  (list as readonly string[]).includes(text);

const FORMATS: readonly SheetFormat[] = ['pdf', 'svg', 'png', 'dxf', 'csv'];
const TURNS = ['upright', 'lying'] as const;
const UNITS = ['mm', 'in'] as const;
const PAPER_NAMES = Object.keys(PAPERS) as PaperName[];

const WISHES: readonly SheetWish[] = ['flags', 'long', 'stock', 'against', 'scale', 'turned'];

/** A flag that belongs to some kinds, given for another. */
function strayFlag(kind: SheetKind, given: Readonly<Record<string, unknown>>): string | null {
  const found = WISHES.find((wish) => !takes(kind, wish) && given[wish] !== undefined);
  if (found === undefined) return null;
  const belongs = kindsWith((one) => takes(one, found));
  return `--${found} belongs to ${belongs}, and this is the ${labelOf(kind)}. Leave it out.`;
}

export function readOrder(argv: readonly string[]): Ordered {
  const refuse = (sentence: string): Ordered => ({ ok: false, sentence });
  if (argv.length === 0) return refuse(USAGE);
  const args = readArgs(argv, FLAGS, HOW);
  if (!args.ok) return args;
  const words = args.values as { readonly [K in Exclude<keyof typeof FLAGS, 'setup' | 'against'>]?: string };
  const lists = args.values as { readonly setup?: readonly string[]; readonly against?: readonly string[] };

  const { kind = KINDS[0], out, paper, turned, scale, units, date = today(), ppm } = words;
  if (!isOneOf(KINDS, kind)) return refuse(`There is no sheet "${kind}"; the kinds are ${KINDS.join(', ')}.`);
  if (!out) return refuse(`Say where the sheet goes, with -o. ${HOW}`);
  const format = extname(out).slice(1).toLowerCase();
  if (!isOneOf(FORMATS, format))
    return refuse(
      `A sheet is written as ${FORMATS.map((each) => `.${each}`).join(', ')}, and "${out}" is none of them.`,
    );
  if (!formatsOf(kind).includes(format)) return refuse(formatSentence(kind, format));
  const stray = strayFlag(kind, args.values);
  if (stray !== null) return refuse(stray);
  if (paper !== undefined && !isOneOf(PAPER_NAMES, paper))
    return refuse(`There is no paper "${paper}" here; take ${PAPER_NAMES.join(' or ')}.`);
  if (turned !== undefined && !isOneOf(TURNS, turned))
    return refuse(`Paper is turned upright or lying, not "${turned}".`);
  if (units !== undefined && !isOneOf(UNITS, units))
    return refuse(`Lengths are written in mm or in, not in "${units}".`);
  const reduction = scale === undefined ? undefined : Number(/^(?:1:)?(\d+)$/.exec(scale)?.[1]);
  if (reduction !== undefined && !SCALES.includes(reduction))
    return refuse(`"${scale}" is no scale here; take one of ${SCALES.map((n) => `1:${n}`).join(', ')}.`);
  if (!isDay(date)) return refuse(`"${date}" is no day; write it YYYY-MM-DD.`);
  const pixelsPerMetre = ppm === undefined ? USUAL_PER_METRE : Number(ppm);
  if (!Number.isFinite(pixelsPerMetre) || pixelsPerMetre <= 0)
    return refuse(`--ppm is a number of pixels in a metre of paper, and "${ppm}" is none.`);
  if (ppm !== undefined && format !== 'png') return refuse(`--ppm belongs to PNG, and "${out}" is none. Leave it out.`);

  const { title, revision, owner, stock } = words;
  const order: SheetOrder = {
    ...{ file: args.file, out, kind, format, setups: [...(lists.setup ?? []), ...(lists.against ?? [])] },
    ...{ paper, turned, scale: reduction, units, date, title, revision, owner, stock, pixelsPerMetre },
    flags: args.values.flags === true,
    long: args.values.long === true,
  };
  return { ok: true, order };
}
