/**
 * The PDF read back by another program, Mozilla's PDF reader (pdfjs-dist). Lengths are compared with sizes typed into the
 * plan here, paper with its published size; nothing expected comes from our drawing code.
 *
 * Sources: PDF 32000-1 8.3.2.3 (1/72 in), ISO 216, US Letter, ISO 5455 (the list of scales).
 */
import { readFileSync } from 'node:fs';
import { getDocument, OPS, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { sheetFonts } from '../../src/cli/fonts.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { newPlan } from '../../src/plan/newPlan.ts';
import { readPlan } from '../../src/plan/read.ts';
import type { Item, Plan } from '../../src/plan/schema.ts';
import { toPdf } from '../../src/sheets/pdf.ts';
import type { PaperName } from '../../src/sheets/sheet.ts';
import { venueSheets } from '../../src/sheets/venueSheet.ts';

const MM_PER_PT = 25.4 / 72;
/** Reductions of ISO 5455. */
const ISO_SCALES = [2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000];
const fonts = sheetFonts();

const item = (id: string, name: string, gear: string, xMm: number, yMm: number): Item => ({
  kind: 'item',
  id,
  name,
  gear,
  place: { xMm, yMm, headingDeg: 0 },
  mount: null,
});

const RISER = { widthMm: 2440, depthMm: 2010 };

/** A plan on one riser of known size. */
function riserPlan(names: readonly string[]): Plan {
  const base = newPlan('Τύμπανα', 'mm');
  const [setupId] = base.order;
  const pieces = [
    item('bass', names[0] ?? 'Bass drum', 'bass-22x16', 0, -300),
    item('throne', names[1] ?? 'Throne', 'throne-round', 0, 500),
    item('crash', names[2] ?? 'Crash', 'crash-16', -700, 0),
    item('ride', names[3] ?? 'Ride', 'ride-20', 700, 0),
  ];
  const module = { id: 'm', xMm: 0, yMm: 0, headingDeg: 0, ...RISER };
  return {
    ...base,
    risers: { r: { id: 'r', name: 'Riser', heightMm: 300, ratedKPa: 5, edgeMarginMm: 50, modules: [module] } },
    setups: {
      [setupId]: {
        ...base.setups[setupId],
        name: 'Вечір',
        riser: 'r',
        pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])),
        order: pieces.map(({ id }) => id),
      },
    },
  };
}

function pdfOf(plan: Plan, paper: PaperName) {
  const [id] = plan.order;
  const layout = layoutSetup(plan, id);
  const sheets = venueSheets(plan, id, layout, runChecks(plan, id, layout), { paper, date: '2026-03-14', fonts });
  return toPdf(sheets, fonts);
}

const open = (bytes: Uint8Array) => getDocument({ data: bytes.slice(), verbosity: 0 }).promise;

interface ReadPath {
  /** Corners x, y in mm from the page's lower left. */
  readonly points: [number, number][];
  readonly dashed: boolean;
  readonly widthMm: number;
  readonly filled: boolean;
}

/** All straight-sided paths of a page as the reader understood them. */
async function pathsOf(page: PDFPageProxy): Promise<ReadPath[]> {
  const { fnArray, argsArray } = await page.getOperatorList();
  const paths: ReadPath[] = [];
  let dashed = false;
  let widthMm = 0;
  fnArray.forEach((fn, i) => {
    const args = argsArray[i];
    if (fn === OPS.setDash) dashed = args[0].length > 0;
    if (fn === OPS.setLineWidth) widthMm = args[0] * MM_PER_PT;
    if (fn !== OPS.constructPath) return;
    const data = Array.from(args[1][0] as Float32Array);
    const points: [number, number][] = [];
    // The reader's own codes: 0 move, 1 line, 2 curve, 3 quadratic curve, 4 close.
    const sizes = [2, 2, 6, 4, 0];
    let straight = true;
    for (let k = 0; k < data.length; ) {
      const code = data[k++];
      if (code > 1 && code !== 4) straight = false;
      if (code !== 4) points.push([data[k + sizes[code] - 2] * MM_PER_PT, data[k + sizes[code] - 1] * MM_PER_PT]);
      k += sizes[code];
    }
    if (straight) paths.push({ points, dashed, widthMm, filled: args[0] !== OPS.stroke });
  });
  return paths;
}

function boxOf(points: readonly [number, number][]) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { width: Math.max(...xs) - Math.min(...xs), height: Math.max(...ys) - Math.min(...ys) };
}

const textOf = async (page: PDFPageProxy): Promise<string[]> =>
  (await page.getTextContent()).items.flatMap((part) => ('str' in part && part.str.trim() !== '' ? [part.str] : []));

describe.each([
  ['a4', 210, 297],
  ['letter', 215.9, 279.4],
] as const)('a riser of 2440 x 2010 on %s', (paper, shortMm, longMm) => {
  let page: PDFPageProxy;
  let scale = 0;
  beforeAll(async () => {
    const { bytes } = pdfOf(riserPlan([]), paper);
    const doc = await open(bytes);
    // The drawing comes first; a list may follow.
    page = await doc.getPage(1);
    const found = (await textOf(page)).map((text) => /^1:(\d+)$/.exec(text)).find((match) => match !== null);
    scale = Number(found?.[1]);
  });

  test('the page has the paper’s size', () => {
    const [x0, y0, x1, y1] = page.view;
    const sides = [(x1 - x0) * MM_PER_PT, (y1 - y0) * MM_PER_PT].sort((a, b) => a - b);
    expect(sides[0]).toBeCloseTo(shortMm, 3);
    expect(sides[1]).toBeCloseTo(longMm, 3);
  });

  test('the scale that is printed is one of ISO 5455, and no larger one would fit the page', () => {
    expect(ISO_SCALES).toContain(scale);
    const larger = ISO_SCALES[ISO_SCALES.indexOf(scale) - 1];
    expect(RISER.widthMm / larger > longMm - 20 || RISER.depthMm / larger > shortMm - 20).toBe(true);
  });

  test('the riser’s edge is drawn at that scale to 0.01 mm, wide and continuous', async () => {
    const paths = await pathsOf(page);
    const edges = paths.filter(({ points, dashed, filled, widthMm }) => {
      const { width, height } = boxOf(points);
      const fits = Math.abs(width - RISER.widthMm / scale) < 0.01 && Math.abs(height - RISER.depthMm / scale) < 0.01;
      return fits && !dashed && !filled && Math.abs(widthMm - 0.35) < 1e-3;
    });
    expect(edges.length).toBeGreaterThanOrEqual(1);
  });

  test('the riser’s dimensions are printed in millimetres without a unit', async () => {
    const texts = await textOf(page);
    expect(texts).toContain('2440');
    expect(texts).toContain('2010');
  });

  test('names are as wide as the widths that labels are placed by, to 0.5 %', async () => {
    const { items } = await page.getTextContent();
    const wanted = ['Bass drum', 'Crash', 'Ride', 'Throne'];
    const names = items.filter((part) => 'str' in part && wanted.includes(part.str));
    // The input list beneath the drawing says some of them once more.
    expect([...new Set(names.map((part) => ('str' in part ? part.str : '')))].sort()).toEqual(wanted);
    for (const part of names) {
      if (!('str' in part)) continue;
      const size = Math.hypot(part.transform[0], part.transform[1]);
      expect(part.width / size / fonts.regular.width(part.str)).toBeCloseTo(1, 2);
    }
  });

  test('the scale bar is as long as its last number says, to 0.01 mm', async () => {
    const texts = await textOf(page);
    const last = texts.map((text) => /^([\d.]+) m$/.exec(text)).find((match) => match !== null);
    const lengthMm = (Number(last?.[1]) * 1000) / scale;
    const bars = (await pathsOf(page)).filter(({ points, filled }) => {
      const { width, height } = boxOf(points);
      return !filled && Math.abs(width - lengthMm) < 0.01 && height > 1 && height < 3;
    });
    expect(bars).toHaveLength(1);
  });
});

describe('names', () => {
  const NAMES = ['Ænima', 'Žižek', 'Ωμέγα', 'Молот'];

  test('come out as text in Latin, Greek and Cyrillic, also when typed with loose accents', async () => {
    const loose = [NAMES[0], 'Žižek'.normalize('NFD'), 'Ωμέγα'.normalize('NFD'), NAMES[3]];
    expect(loose[1]).not.toBe(NAMES[1]);
    const { bytes, missing } = pdfOf(riserPlan(loose), 'a4');
    expect(missing).toEqual([]);
    const texts = await textOf(await (await open(bytes)).getPage(1));
    for (const name of [...NAMES, 'Τύμπανα', 'Вечір']) expect(texts).toContain(name);
  });

  test('with characters that the typeface lacks are printed as their codes, and said', async () => {
    const { bytes, missing } = pdfOf(riserPlan(['太鼓', 'Throne']), 'a4');
    expect(missing).toEqual(['太', '鼓']);
    const texts = await textOf(await (await open(bytes)).getPage(1));
    expect(texts.join(' ')).toContain('[U+592A U+9F13]');
    expect(texts.join('')).not.toMatch(/[□?]/);
  });
});

test('both faces are embedded as subsets of TrueType, far smaller than their files', () => {
  const { bytes } = pdfOf(riserPlan([]), 'a4');
  const raw = Buffer.from(bytes).toString('latin1');
  expect(raw.match(/\/FontFile2/g)).toHaveLength(2);
  // A subset's name begins with six capitals and a plus sign, which may be written as a code.
  const names = raw.match(/\/BaseFont \/[^\s/]+/g) ?? [];
  expect(names.length).toBeGreaterThanOrEqual(2);
  for (const name of names) expect(name).toMatch(/\/[A-Z]{6}(\+|#2[Bb])OpenSans-(Regular|SemiBold)$/);
  expect(bytes.length).toBeLessThan(fonts.regular.bytes.length);
});

test('the same plan gives the same bytes, another date other bytes', () => {
  const plan = riserPlan([]);
  expect(Buffer.from(pdfOf(plan, 'a4').bytes).equals(Buffer.from(pdfOf(plan, 'a4').bytes))).toBe(true);
  const [id] = plan.order;
  const layout = layoutSetup(plan, id);
  const options = { paper: 'a4', date: '2026-03-15', fonts } as const;
  const later = toPdf(venueSheets(plan, id, layout, runChecks(plan, id, layout), options), fonts);
  expect(Buffer.from(later.bytes).equals(Buffer.from(pdfOf(plan, 'a4').bytes))).toBe(false);
});

test('a setup with other things far out on the stage gives a page for the stage, one for the kit and, as the list is long, one for the inputs', async () => {
  const read = readPlan(readFileSync('samples/sixty-pieces.legroom.json', 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  const doc = await open(pdfOf(read.plan, 'a4').bytes);
  expect(doc.numPages).toBe(3);
  const [stage, kit, inputs] = await Promise.all([1, 2, 3].map(async (n) => textOf(await doc.getPage(n))));
  expect(stage).toContain('Wedge 1');
  expect(stage).not.toContain('Ride 22');
  expect(kit).toContain('Ride 22');
  expect(kit).not.toContain('Wedge 1');
  expect(inputs).toContain('Snare, top');
});
