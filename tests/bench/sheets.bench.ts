/**
 * What a sheet costs: the venue sheet of each sample from its layout and checks on, as display list and as PDF, and the other
 * formats of the largest. The aim is 500 ms for a venue sheet; file sizes are printed beside.
 *
 *   npm run bench -- sheets
 */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { runChecks } from '../../src/checks/run.ts';
import { rasteriser, sheetFonts } from '../../src/cli/fonts.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { readPlan } from '../../src/plan/read.ts';
import { KINDS, type KindOptions, makeCsv, makeDxf, makeSheets, type SheetSource } from '../../src/sheets/kinds.ts';
import { toPdf } from '../../src/sheets/pdf.ts';
import { loadRasteriser, toPng } from '../../src/sheets/png.ts';
import { toSvg } from '../../src/sheets/svg.ts';
import { checksum, row, time } from './timing.ts';

const fonts = sheetFonts();
/** Processor time of one run, all threads. */
function processorMs(run: () => unknown, runs = 10): string {
  for (let k = 0; k < 4; k++) run();
  const from = process.cpuUsage();
  for (let k = 0; k < runs; k++) run();
  const { user, system } = process.cpuUsage(from);
  return `processor ${((user + system) / 1000 / runs).toFixed(0)} ms`;
}

const kB = (bytes: number) => `${(bytes / 1000).toFixed(0)} kB`;

function sourceOf(sample: string): SheetSource & { readonly options: KindOptions } {
  const file = join(resolve(import.meta.dirname, '../../samples'), `${sample}.legroom.json`);
  const read = readPlan(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  const { plan } = read;
  const [setupId] = plan.order;
  const layout = layoutSetup(plan, setupId);
  const against = plan.order.slice(1, 2);
  const options = { paper: 'a4', date: '2026-03-14', fonts, against } as const;
  return { plan, setupId, layout, checked: runChecks(plan, setupId, layout), options };
}

for (const sample of ['compact-one-up-two-down', 'one-up-two-down', 'four-bases', 'sixty-pieces']) {
  const { options, ...source } = sourceOf(sample);
  const pieces = source.plan.setups[source.setupId].order.length;
  const make = () => toPdf(makeSheets('venue', source, options), fonts).bytes.length;
  const bytes = make();
  console.log(row(`venue sheet as PDF, ${sample}`, pieces, time(make, 7)), kB(bytes), processorMs(make));
}

const { options, ...source } = sourceOf('sixty-pieces');
const n = source.plan.setups[source.setupId].order.length;
for (const kind of KINDS) {
  if (kind === 'comparison' && options.against?.length === 0) continue;
  const sheets = makeSheets(kind, source, options);
  const label = `${kind}, ${sheets.length} pages: drawn`;
  console.log(
    row(
      label,
      n,
      time(() => makeSheets(kind, source, options).length, 7),
    ),
  );
  console.log(
    row(
      '  written as PDF',
      n,
      time(() => toPdf(sheets, fonts).bytes.length, 7),
    ),
    kB(toPdf(sheets, fonts).bytes.length),
  );
}
const sheets = makeSheets('venue', source, options);
await loadRasteriser(rasteriser);
const [page] = sheets;
console.log(
  row(
    'a page as SVG',
    n,
    time(() => toSvg(page).length),
  ),
  kB(toSvg(page).length),
);
console.log(
  row(
    'a page as PNG, 6000 a metre',
    n,
    time(() => toPng(page, fonts, 6000).length, 5),
  ),
  kB(toPng(page, fonts, 6000).length),
);
console.log(
  row(
    'the drawing as DXF',
    n,
    time(() => makeDxf('venue', source, options).length, 7),
  ),
  kB(makeDxf('venue', source, options).length),
);
console.log(
  row(
    'the pull list as CSV',
    n,
    time(() => makeCsv('pull', source, options).length),
  ),
  kB(makeCsv('pull', source, options).length),
);
console.log(`checksum ${checksum().toExponential(6)}`);
