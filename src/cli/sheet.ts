/**
 * npm run sheet -- FILE [--setup NAME] -o OUT.pdf [--paper a4|letter] [--date YYYY-MM-DD] [--title TEXT] [--flags]
 *
 * Writes the venue sheet of one setup as PDF, or as SVG when OUT ends in .svg. Exit status: 0 written, 2 not written.
 */
import { writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import { runChecks } from '../checks/run.ts';
import { layoutSetup } from '../layout/layout.ts';
import { toPdf } from '../sheets/pdf.ts';
import { PAPERS, type PaperName } from '../sheets/sheet.ts';
import { toSvg } from '../sheets/svg.ts';
import { venueSheets } from '../sheets/venueSheet.ts';
import { readArgs } from './args.ts';
import { sheetFonts } from './fonts.ts';
import { findSetup, openPlan } from './open.ts';

const USAGE =
  'Usage: npm run sheet -- FILE --setup NAME -o OUT.pdf [--paper a4|letter] [--date YYYY-MM-DD] [--title TEXT] [--flags]';

const FLAGS = {
  setup: { type: 'string' },
  out: { type: 'string', short: 'o' },
  paper: { type: 'string' },
  date: { type: 'string' },
  title: { type: 'string' },
  flags: { type: 'boolean' },
} as const;

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

function main(argv: readonly string[]): number {
  const args = readArgs(argv, FLAGS, USAGE);
  if (!args.ok) return fail(args.sentence);
  const words = args.values as { [K in keyof typeof FLAGS]?: string };
  const { out, date = today(), paper = 'a4', title } = words;
  if (!out) return fail(`Say where the sheet goes, with -o. ${USAGE}`);
  const format = extname(out).toLowerCase();
  if (format !== '.pdf' && format !== '.svg')
    return fail(`A sheet is written as .pdf or .svg, and "${out}" is neither.`);
  if (!Object.hasOwn(PAPERS, paper)) return fail(`There is no paper "${paper}" here; take a4 or letter.`);
  if (!isDay(date)) return fail(`"${date}" is no day; write it YYYY-MM-DD.`);

  const opened = openPlan(args.file);
  if (!opened.ok) return fail(opened.sentence);
  const { plan } = opened;
  const found = findSetup(plan, words.setup);
  if (!found.ok) return fail(found.sentence);

  const layout = layoutSetup(plan, found.id);
  const fonts = sheetFonts();
  const flags = args.values.flags === true;
  const checked = runChecks(plan, found.id, layout);
  const options = { paper: paper as PaperName, date, title, fonts, flags };
  try {
    const sheets = venueSheets(plan, found.id, layout, checked, options);
    const pages = sheets.length === 1 ? 'one page' : `${sheets.length} pages`;
    if (format === '.svg') {
      writeFileSync(out, toSvg(sheets[0]));
      console.log(`${out}: the first of ${pages}. ${sheets[0].subject}.`);
      return 0;
    }
    const { bytes, missing } = toPdf(sheets, fonts);
    writeFileSync(out, bytes);
    console.log(`${out}: ${pages}. ${sheets.map((sheet) => sheet.subject).join('; ')}.`);
    if (missing.length > 0)
      console.error(`The typeface has no ${missing.join(' ')}: a box stands in for each, so change those names.`);
    return 0;
  } catch (problem) {
    const { code, message } = problem as NodeJS.ErrnoException;
    return fail(code ? `${out} could not be written: ${REASONS[code] ?? code}.` : message);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be written',
  ENOSPC: 'the disk is full',
};

function fail(sentence: string): number {
  console.error(sentence);
  return 2;
}

process.exitCode = main(process.argv.slice(2));
