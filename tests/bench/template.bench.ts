/**
 * The template at full size: pages and PDF of a sample, tiled on A4. The aim is 24 pages in 3 s and a file below 400 kB.
 *
 *   npm run bench -- template
 */
import { sheetFonts } from '../../src/cli/fonts.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { toPdf } from '../../src/sheets/pdf.ts';
import { templateSheets } from '../../src/sheets/template.ts';
import { sampleSetups } from '../fixtures/samplePlans.ts';
import { checksum, row, time } from './timing.ts';

const fonts = sheetFonts();
for (const name of ['one-up-two-down, curved', 'sixty-pieces, festival']) {
  const sample = sampleSetups().find((each) => each.name === name);
  if (!sample) throw new Error(`There is no sample "${name}".`);
  const { plan, id } = sample;
  const layout = layoutSetup(plan, id);
  const options = { paper: 'a4', date: '2026-11-28', fonts } as const;
  const sheets = templateSheets(plan, id, layout, options);
  console.log(`${name}: ${sheets.length} pages, ${toPdf(sheets, fonts).bytes.length} bytes`);
  console.log(
    row(
      'pages',
      sheets.length,
      time(() => templateSheets(plan, id, layout, options).length),
    ),
  );
  console.log(
    row(
      'pages and PDF',
      sheets.length,
      time(() => toPdf(templateSheets(plan, id, layout, options), fonts).bytes.length),
    ),
  );
}
console.log(`checksum ${checksum().toExponential(6)}`);
