/**
 * The template's PDF read back by another program, Mozilla's PDF reader: lengths on paper against lengths typed in here, places
 * against those of the measure report.
 *
 * Sources: PDF 32000-1 8.3.2.3 (1/72 in), ISO 216, US Letter.
 */
import { getDocument, OPS, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, test } from 'vitest';
import { sheetFonts } from '../../src/cli/fonts.ts';
import { toPdf } from '../../src/sheets/pdf.ts';
import { templateSheets } from '../../src/sheets/template.ts';
import { layoutOf, reportOf, sampleSetups } from '../fixtures/samplePlans.ts';
import { some } from '../fixtures/seeds.ts';

const MM_PER_PT = 25.4 / 72;
const fonts = sheetFonts();
const papers = [
  ['a4', 210, 297],
  ['letter', 215.9, 279.4],
] as const;

interface Stroke {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly widthMm: number;
}

/** Every straight stroke of two points on a page, mm from its lower left. */
async function strokesOf(page: PDFPageProxy): Promise<Stroke[]> {
  const { fnArray, argsArray } = await page.getOperatorList();
  const strokes: Stroke[] = [];
  let widthMm = 0;
  fnArray.forEach((fn, i) => {
    const args = argsArray[i];
    if (fn === OPS.setLineWidth) widthMm = args[0] * MM_PER_PT;
    if (fn !== OPS.constructPath || args[0] !== OPS.stroke) return;
    const d = Array.from(args[1][0] as Float32Array);
    // The reader's own codes: 0 move, 1 line.
    if (d.length !== 6 || d[0] !== 0 || d[3] !== 1) return;
    const mm = d.map((value) => value * MM_PER_PT);
    strokes.push({ from: [mm[1], mm[2]], to: [mm[4], mm[5]], widthMm });
  });
  return strokes;
}

const textsOf = async (page: PDFPageProxy) =>
  (await page.getTextContent()).items.flatMap((part) => ('str' in part && part.str.trim() !== '' ? [part.str] : []));

const samples = sampleSetups().filter(({ name }) => /^(one-up|sixty|l-shaped)/.test(name));

describe.each(papers)('on %s', (paper, shortMm, longMm) => {
  test.each(samples)(
    '$name: every page has its paper and two check bars of 100 mm, to 0.01 mm',
    async ({ plan, id }) => {
      const sheets = templateSheets(plan, id, layoutOf(plan, id), { paper, date: '2026-11-28', fonts });
      const { bytes, missing } = toPdf(sheets, fonts);
      expect(missing).toEqual([]);
      expect(bytes.length).toBeLessThan(400_000);
      const doc = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
      expect(doc.numPages).toBe(sheets.length);
      const pages = Array.from({ length: doc.numPages - 1 }, (_, k) => k + 2);
      for (const n of some(pages, 3)) {
        const page = await doc.getPage(n);
        const sides = [page.view[2], page.view[3]].map((pt) => pt * MM_PER_PT).sort((a, b) => a - b);
        expect(sides[0]).toBeCloseTo(shortMm, 3);
        expect(sides[1]).toBeCloseTo(longMm, 3);
        const bars = (await strokesOf(page)).filter(
          ({ from, to, widthMm }) =>
            Math.abs(widthMm - 0.35) < 1e-3 && Math.abs(Math.hypot(to[0] - from[0], to[1] - from[1]) - 100) < 0.01,
        );
        const across = bars.filter(({ from, to }) => Math.abs(to[1] - from[1]) < 0.01);
        const up = bars.filter(({ from, to }) => Math.abs(to[0] - from[0]) < 0.01);
        expect([across.length, up.length], `page ${n}`).toEqual([1, 1]);
        expect((await textsOf(page)).join(' ')).toContain('print at 100 %');
      }
    },
  );
});

test('on one long page the distance between two marks is that between the reported contacts, to 0.01 mm', async () => {
  const { plan, id } = sampleSetups().find(({ name }) => name === 'one-up-two-down, straight')!;
  const layout = layoutOf(plan, id);
  const { bodies } = reportOf(plan, id);
  const { bytes } = toPdf(
    templateSheets(plan, id, layout, { paper: 'a4', long: true, date: '2026-11-28', fonts }),
    fonts,
  );
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  expect(doc.numPages).toBe(1);
  // A rack's foot is a bar with round ends: its two straight sides are as long as its core, one diameter apart.
  const strokes: Stroke[] = [];
  const page = await doc.getPage(1);
  const { fnArray, argsArray } = await page.getOperatorList();
  fnArray.forEach((fn, i) => {
    if (fn !== OPS.constructPath || argsArray[i][0] !== OPS.stroke) return;
    const d = Array.from(argsArray[i][1][0] as Float32Array);
    const sizes = [2, 2, 6, 4, 0];
    let at: [number, number] = [0, 0];
    for (let k = 0; k < d.length; ) {
      const code = d[k++];
      const to: [number, number] =
        code === 4 ? at : [d[k + sizes[code] - 2] * MM_PER_PT, d[k + sizes[code] - 1] * MM_PER_PT];
      if (code === 1) strokes.push({ from: at, to, widthMm: 0 });
      at = to;
      k += sizes[code];
    }
  });
  const feet = bodies.filter(({ kind }) => kind === 'foot');
  expect(feet.length).toBe(4);
  for (const { core, id: body } of feet) {
    if (core.type !== 'segment') throw new Error('These feet are bars.');
    const [dx, dy] = [core.to[0] - core.from[0], core.to[1] - core.from[1]];
    const sides = strokes.filter(({ from, to }) => {
      const [sx, sy] = [to[0] - from[0], to[1] - from[1]];
      const along = Math.hypot(sx - dx, sy - dy) < 0.01 || Math.hypot(sx + dx, sy + dy) < 0.01;
      return along;
    });
    expect(sides.length, body).toBe(2);
  }
});
