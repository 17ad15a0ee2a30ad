/** The sheet command without its process: writes a sheet of one setup, or the comparison of several. */
import { writeFileSync } from 'node:fs';
import { runChecks } from '../checks/run.ts';
import { type Layout, layoutSetup } from '../layout/layout.ts';
import type { Stock } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import type { SheetFonts } from '../sheets/fontFile.ts';
import {
  type KindOptions,
  labelOf,
  makeCsv,
  makeDxf,
  makeSheets,
  SHEET_KINDS,
  type SheetSource,
  takes,
} from '../sheets/kinds.ts';
import { toPdf } from '../sheets/pdf.ts';
import { loadRasteriser, toPng } from '../sheets/png.ts';
import type { Sheet } from '../sheets/sheet.ts';
import { toSvg } from '../sheets/svg.ts';
import { unprintable, unprintableSentence } from '../sheets/unprintable.ts';
import { buildFrom } from '../solve/buildFrom.ts';
import { rasteriser, sheetFonts } from './fonts.ts';
import { findSetups, openPlan, openStock } from './open.ts';
import { fail, type Say } from './say.ts';
import { readOrder, type SheetOrder } from './sheetOrder.ts';

interface OutFile {
  readonly name: string;
  readonly bytes: string | Uint8Array;
  /** What it is, for the one line that is said of it. */
  readonly says: string;
}

/** More than this are tiles of one thing, and the first says what. */
const MOST_SUBJECTS = 4;

/** OUT-1.svg, OUT-2.svg ... where there are several pages. */
function pageName(out: string, page: number, count: number): string {
  return count === 1 ? out : out.replace(/(\.[^.]+)$/, `-${page + 1}$1`);
}

/** The files of a format that has pages. */
async function pageFiles(order: SheetOrder, sheets: readonly Sheet[], fonts: SheetFonts): Promise<OutFile[]> {
  const { out, format, pixelsPerMetre } = order;
  if (format === 'pdf') {
    const pages = sheets.length === 1 ? 'one page' : `${sheets.length} pages`;
    const subjects = [...new Set(sheets.map(({ subject }) => subject))];
    const says = `${pages}. ${(subjects.length > MOST_SUBJECTS ? subjects.slice(0, 1) : subjects).join('; ')}`;
    return [{ name: out, bytes: toPdf(sheets, fonts).bytes, says }];
  }
  if (format === 'png') await loadRasteriser(rasteriser);
  return sheets.map((sheet, k) => ({
    name: pageName(out, k, sheets.length),
    bytes: format === 'png' ? toPng(sheet, fonts, pixelsPerMetre) : toSvg(sheet),
    says: `page ${k + 1} of ${sheets.length}. ${sheet.subject}`,
  }));
}

/** What is owned, from a stock list: null when none was named. */
function stockOf(file: string | undefined, plan: Plan, setupId: string, layout: Layout): Stock | null | string {
  if (file === undefined) return null;
  const owned = openStock(file, plan);
  if (!owned.ok) return owned.sentence;
  return { inventory: owned.inventory, answer: buildFrom(plan, setupId, layout, owned.inventory) };
}

async function makeFiles(order: SheetOrder, source: SheetSource, options: KindOptions, say: Say): Promise<OutFile[]> {
  const { kind, format, out } = order;
  const { label } = SHEET_KINDS[kind];
  if (format === 'dxf')
    return [{ name: out, bytes: makeDxf(kind, source, options), says: `${label}, the drawing at 1:1 in mm` }];
  if (format === 'csv') return [{ name: out, bytes: makeCsv(kind, source, options), says: `${label} as a table` }];
  const sheets = makeSheets(kind, source, options);
  // An SVG is set in its reader's own faces.
  const lacking = format === 'svg' ? null : unprintable(sheets, options.fonts);
  if (lacking) say.err(unprintableSentence(lacking));
  return pageFiles(order, sheets, options.fonts);
}

/** Returns the exit status: 0 written, 2 not written, with the reason said. */
export async function sheetCommand(argv: readonly string[], say: Say): Promise<number> {
  const ordered = readOrder(argv);
  if (!ordered.ok) return fail(say, ordered.sentence);
  const { order } = ordered;
  const opened = openPlan(order.file);
  if (!opened.ok) return fail(say, opened.sentence);
  const plan: Plan = order.units ? { ...opened.plan, units: order.units } : opened.plan;
  const { kind, setups } = order;
  const found = findSetups(plan, setups);
  if (!found.ok) return fail(say, found.sentence);
  const named = found.ids.length > 0 ? found.ids : plan.order;
  const [setupId, ...others] = named;
  if (!takes(kind, 'against') && found.ids.length > 1)
    return fail(say, `A ${labelOf(kind)} is of one setup, and ${found.ids.length} were named.`);
  // One setup alone is compared with all others of the plan.
  const against = others.length > 0 ? others : plan.order.filter((id) => id !== setupId);

  const layout = layoutSetup(plan, setupId);
  const source = { plan, setupId, layout, checked: runChecks(plan, setupId, layout) };
  const stock = stockOf(order.stock, plan, setupId, layout);
  if (typeof stock === 'string') return fail(say, stock);
  const paper = order.paper ?? (plan.units === 'in' ? 'letter' : 'a4');
  const options: KindOptions = { ...order, paper, fonts: sheetFonts(), stock, against };
  try {
    for (const { name, bytes, says } of await makeFiles(order, source, options, say)) {
      const problem = written(name, bytes);
      if (problem !== null) return fail(say, problem);
      say.out(`${name}: ${says}.`);
    }
    return 0;
  } catch (problem) {
    // What cannot be made says why in a sentence; anything else is a fault of ours and shows where it is.
    if (problem instanceof RangeError) return fail(say, problem.message);
    throw problem;
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be written',
  ENOSPC: 'the disk is full',
};

/** Writes a file; a sentence where that fails. */
function written(name: string, bytes: string | Uint8Array): string | null {
  try {
    writeFileSync(name, bytes);
    return null;
  } catch (problem) {
    const { code = '', message } = problem as NodeJS.ErrnoException;
    return `${name} could not be written: ${REASONS[code] ?? (code || message)}.`;
  }
}
