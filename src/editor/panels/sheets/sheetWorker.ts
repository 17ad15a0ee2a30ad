/** The worker that lays a setup out, checks it, draws its sheets and writes their files, off the page's own thread. */
import regularUrl from '@expo-google-fonts/open-sans/400Regular/OpenSans_400Regular.ttf?url';
import boldUrl from '@expo-google-fonts/open-sans/600SemiBold/OpenSans_600SemiBold.ttf?url';
import rasteriserUrl from '@resvg/resvg-wasm/index_bg.wasm?url';
import { expose } from 'comlink';
import { runChecks } from '../../../checks/run.ts';
import { layoutSetup } from '../../../layout/layout.ts';
import type { Stock } from '../../../lists/packing.ts';
import { readInventory } from '../../../plan/inventory.ts';
import { readFont, type SheetFonts } from '../../../sheets/fontFile.ts';
import {
  type KindOptions,
  makeCsv,
  makeDxf,
  makeSheets,
  type SheetFormat,
  type SheetSource,
  takes,
} from '../../../sheets/kinds.ts';
import { toSvg } from '../../../sheets/svg.ts';
import { unprintable, unprintableSentence } from '../../../sheets/unprintable.ts';
import { buildFrom } from '../../../solve/buildFrom.ts';
import { arrive } from '../../state/parts.ts';
import type { DrawnSheets, MadeFile, SheetOrder } from './order.ts';
import type { Progress } from './progress.ts';

const TYPES: Readonly<Record<SheetFormat, string>> = {
  pdf: 'application/pdf',
  svg: 'image/svg+xml',
  png: 'image/png',
  dxf: 'image/vnd.dxf',
  csv: 'text/csv',
};

async function bytesOf(url: string, what: string): Promise<Uint8Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${what} could not be loaded: try again when the page has a connection.`);
  return new Uint8Array(await answer.arrayBuffer());
}

let fonts: Promise<SheetFonts> | null = null;

function sheetFonts(): Promise<SheetFonts> {
  fonts ??= Promise.all([regularUrl, boldUrl].map((url) => bytesOf(url, 'The typeface of the sheets')))
    .then(([regular, bold]) => ({ regular: readFont(regular), bold: readFont(bold) }))
    .catch((problem) => {
      // The next try asks again: the page may have been offline for a moment.
      fonts = null;
      throw problem;
    });
  return fonts;
}

interface Prepared {
  readonly source: SheetSource;
  readonly options: KindOptions;
  readonly remarks: readonly string[];
}

/** What is owned, as the pull list wants it; a list that cannot be read is a remark, and nothing is said of what is owned. */
function stockOf({ plan, setupId, layout }: SheetSource, { stockText, wishes }: SheetOrder): [Stock | null, string[]] {
  if (!takes(wishes.kind, 'stock') || !wishes.owned) return [null, []];
  if (stockText === null)
    return [
      null,
      ['No list of what you own is kept here yet: make or open one under Parts, “Built from what you own”.'],
    ];
  const read = readInventory(stockText, plan.gear);
  if (!read.ok) return [null, [`The list of what you own cannot be read with this plan. ${read.problem.sentence}`]];
  return [{ inventory: read.inventory, answer: buildFrom(plan, setupId, layout, read.inventory) }, []];
}

async function prepare(order: SheetOrder): Promise<Prepared> {
  const { setupId, wishes } = order;
  const plan = { ...order.plan, units: wishes.units };
  const layout = layoutSetup(plan, setupId);
  const source = { plan, setupId, layout, checked: runChecks(plan, setupId, layout) };
  const [stock, remarks] = stockOf(source, order);
  const options: KindOptions = {
    ...wishes,
    turned: wishes.turned === 'fit' ? undefined : wishes.turned,
    scale: wishes.scale ?? undefined,
    fonts: await sheetFonts(),
    stock,
  };
  return { source, options, remarks };
}

/** Steps before a sheet's own pages: laying out, drawing. */
const STEPS = 2;

const worker = {
  async draw(order: SheetOrder, progress: Progress): Promise<DrawnSheets> {
    const { source, options, remarks } = await prepare(order);
    progress(1, STEPS + 1);
    const sheets = makeSheets(order.wishes.kind, source, options);
    const all = STEPS + sheets.length;
    const pages = sheets.map((sheet, k) => {
      progress(STEPS + k, all);
      return { svg: toSvg(sheet), widthMm: sheet.widthMm, heightMm: sheet.heightMm, subject: sheet.subject };
    });
    const lacking = unprintable(sheets, options.fonts);
    return { pages, remarks: lacking ? [...remarks, unprintableSentence(lacking)] : remarks };
  },

  async write(order: SheetOrder, format: SheetFormat, page: number, progress: Progress): Promise<MadeFile> {
    const { source, options } = await prepare(order);
    const { kind, pixelsPerMetre } = order.wishes;
    progress(1, STEPS + 1);
    const made = (content: string | Uint8Array): MadeFile => {
      const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
      return { bytes: bytes as Uint8Array<ArrayBuffer>, type: TYPES[format] };
    };
    if (format === 'dxf') return made(makeDxf(kind, source, options));
    if (format === 'csv') return made(makeCsv(kind, source, options));
    const sheets = makeSheets(kind, source, options);
    progress(2, STEPS + 1);
    if (format === 'pdf') {
      const { toPdf } = await arrive(import('../../../sheets/pdf.ts'));
      return made(toPdf(sheets, options.fonts).bytes);
    }
    const sheet = sheets[Math.min(page, sheets.length - 1)];
    if (format === 'svg') return made(toSvg(sheet));
    const { loadRasteriser, toPng } = await arrive(import('../../../sheets/png.ts'));
    await loadRasteriser(
      () => bytesOf(rasteriserUrl, 'The part of the page that makes pictures') as Promise<Uint8Array<ArrayBuffer>>,
    );
    return made(toPng(sheet, options.fonts, pixelsPerMetre));
  },
};

export type SheetWorker = typeof worker;

expose(worker);
