/**
 * SVG read by a strict XML parser (saxes), and PNG by a reader (fast-png). Expected lengths are
 * sizes typed into a plan or the published size of paper; nothing expected comes from our drawing code.
 *
 * Sources: ISO 216; W3C XML 1.0 (5th ed.) 2.2 for what a document may hold; W3C PNG 11.3.4.3 for pixels in a metre.
 */
import { decode } from 'fast-png';
import { SaxesParser } from 'saxes';
import { beforeAll, describe, expect, test } from 'vitest';
import { rasteriser, sheetFonts } from '../../src/cli/fonts.ts';
import { boxMark, circleMark, lineMark, type Mark, style, textMark } from '../../src/drawing/displayList.ts';
import { KINDS, makeSheets } from '../../src/sheets/kinds.ts';
import { loadRasteriser, pixelSize, toPng } from '../../src/sheets/png.ts';
import type { Sheet } from '../../src/sheets/sheet.ts';
import { toSvg } from '../../src/sheets/svg.ts';
import { checkedOf, layoutOf, sampleSetups } from '../fixtures/samplePlans.ts';

const fonts = sheetFonts();

interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly parent: string;
  title: string | null;
  text: string;
}

/** Every element of a document, or an error with the parser's reason: it accepts well-formed namespaced XML alone. */
function elementsOf(svg: string): Element[] {
  const parser = new SaxesParser({ xmlns: true });
  const stack: Element[] = [];
  const all: Element[] = [];
  parser.on('error', (problem) => {
    throw problem;
  });
  parser.on('opentag', ({ name, attributes, uri }) => {
    expect(uri).toBe('http://www.w3.org/2000/svg');
    const values = Object.fromEntries(Object.entries(attributes).map(([key, { value }]) => [key, value]));
    const parent = stack[stack.length - 1]?.name ?? '';
    const element: Element = { name, attributes: values, parent, title: null, text: '' };
    stack.push(element);
    all.push(element);
  });
  parser.on('text', (text) => {
    const [inner, outer] = [stack[stack.length - 1], stack[stack.length - 2]];
    if (!inner) return;
    inner.text += text;
    if (inner.name === 'title' && outer) outer.title = (outer.title ?? '') + text;
  });
  parser.on('closetag', () => {
    stack.pop();
  });
  parser.write(svg).close();
  return all;
}

const sheetOf = (marks: readonly Mark[], words = 'Plain'): Sheet => ({
  widthMm: 210,
  heightMm: 297,
  title: words,
  subject: words,
  date: '2026-03-14',
  marks,
});

describe.each(
  sampleSetups()
    .slice(0, 3)
    .map(({ name, plan, id }) => [name, plan, id] as const),
)('%s', (_, plan, id) => {
  const source = { plan, setupId: id, layout: layoutOf(plan, id), checked: checkedOf(plan, id) };
  const against = plan.order.filter((other) => other !== id).slice(0, 1);
  const kinds = KINDS.filter((kind) => kind !== 'comparison' || against.length > 0);

  test.each(kinds)('%s: well-formed, in mm, a title for every element', (kind) => {
    const sheets = makeSheets(kind, source, { paper: 'a4', date: '2026-03-14', fonts, against });
    for (const sheet of sheets) {
      const [root, ...elements] = elementsOf(toSvg(sheet));
      expect(root.attributes.width).toMatch(/^[\d.]+mm$/);
      const viewBox = root.attributes.viewBox.split(' ').map(Number);
      expect(viewBox).toEqual([
        0,
        0,
        Number.parseFloat(root.attributes.width),
        Number.parseFloat(root.attributes.height),
      ]);
      const things = elements.filter(({ name }) => name !== 'title');
      expect(things.length).toBe(sheet.marks.length + 1);
      expect(things.filter(({ title }) => !title?.trim())).toEqual([]);
      const values = things.flatMap(({ attributes }) => Object.values(attributes));
      expect(values.filter((value) => /NaN|Infinity|undefined/.test(value))).toEqual([]);
    }
  });
});

test('pieces’ names are titles of what is drawn for them', () => {
  const [{ plan, id }] = sampleSetups();
  const options = { paper: 'a4', date: '2026-03-14', fonts } as const;
  const source = { plan, setupId: id, layout: layoutOf(plan, id), checked: checkedOf(plan, id) };
  const [sheet] = makeSheets('venue', source, options);
  const titles = new Set(elementsOf(toSvg(sheet)).flatMap(({ title }) => (title === null ? [] : [title])));
  const names = Object.values(plan.setups[id].pieces).flatMap(({ kind, name }) =>
    kind === 'item' && name ? [name] : [],
  );
  expect(names.length).toBeGreaterThan(5);
  for (const name of names) expect(titles).toContain(name);
});

test.each([
  ['signs of XML', 'A & B <i> "c" \'d\' ]]>'],
  ['Greek, Cyrillic and another script', 'Ωμέγα Молот 太鼓 𝄞'],
])('texts come back as they were: %s', (_, words) => {
  const elements = elementsOf(toSvg(sheetOf([textMark(style('names', { title: words }), words, 10, 10, 4)], words)));
  const text = elements.find(({ name }) => name === 'text');
  expect(text?.text).toBe(words);
  expect(text?.title).toBe(words);
});

test('what XML cannot hold is left out, and the rest stays', () => {
  const words = 'a\u0000b\u0008c\ufffed\ud800e';
  const elements = elementsOf(toSvg(sheetOf([textMark(style('names'), words, 10, 10, 4)], words)));
  expect(elements.find(({ name }) => name === 'text')?.text).toBe('abcde');
});

describe('as PNG', () => {
  beforeAll(() => loadRasteriser(rasteriser));

  const thick = style('frame', { line: null, tint: 'solid' });
  /** A black bar of 100 x 10 mm, its lower left corner at (50, 100), and a disc of 20 mm round (50, 200). */
  const sheet = sheetOf([boxMark(thick, 50, 100, 150, 110), circleMark(thick, 50, 200, 20)]);
  const isDark = ({ data, width, channels }: ReturnType<typeof decode>, x: number, y: number) =>
    data[(y * width + x) * channels] < 128;

  test.each([1000, 4000])(
    '%i pixels in a metre: the picture’s size, its own word for it, and a bar measured in it',
    (each) => {
      const image = decode(toPng(sheet, fonts, each));
      expect([image.width, image.height]).toEqual([Math.round(0.21 * each), Math.round(0.297 * each)]);
      expect(image.resolution).toEqual({ x: each, y: each, unit: 1 });
      const row = image.height - Math.round(0.105 * each);
      const dark = Array.from({ length: image.width }, (_, x) => x).filter((x) => isDark(image, x, row));
      // A pixel at either end may be half covered.
      expect(Math.abs(dark.length - 0.1 * each)).toBeLessThanOrEqual(1);
      expect(Math.abs(dark[0] - 0.05 * each)).toBeLessThanOrEqual(1);
      let area = 0;
      for (let y = 0; y < image.height / 2; y++)
        for (let x = 0; x < image.width; x++) if (isDark(image, x, y)) area += 1;
      expect(area / (Math.PI * (0.02 * each) ** 2)).toBeCloseTo(1, each > 2000 ? 2 : 1);
    },
  );

  test('text is drawn with the sheet’s own faces: where it should be, and as wide as it was measured', () => {
    const words = 'Hammer Молот';
    const image = decode(toPng(sheetOf([textMark(style('names'), words, 20, 150, 10)]), fonts, 4000));
    const columns = Array.from({ length: image.width }, (_, x) => x).filter((x) => {
      for (let y = 0; y < image.height; y++) if (isDark(image, x, y)) return true;
      return false;
    });
    const [first, last] = [columns[0] / 4, columns[columns.length - 1] / 4];
    expect(first).toBeGreaterThan(20);
    expect(first).toBeLessThan(21.5);
    // Side bearings are a few hundredths of the type's size.
    expect(last - first).toBeGreaterThan(fonts.regular.width(words) * 10 - 2);
    expect(last - first).toBeLessThan(fonts.regular.width(words) * 10);
  });

  test('what the face lacks is drawn as its code, not as an empty box', () => {
    const draw = (text: string) => toPng(sheetOf([textMark(style('names'), text, 20, 150, 10)]), fonts, 1000);
    expect(Buffer.from(draw('太')).equals(Buffer.from(draw('[U+592A]')))).toBe(true);
    expect(Buffer.from(draw('太')).equals(Buffer.from(draw('鼓')))).toBe(false);
  });

  test('the same sheet gives the same bytes', () =>
    expect(Buffer.from(toPng(sheet, fonts, 2000)).equals(Buffer.from(toPng(sheet, fonts, 2000)))).toBe(true));

  test.each([
    [40_000, /8400 x 11880 pixels, more than memory holds\. Take (\d+) or fewer/],
    [0, /at least 10 pixels/],
    [Number.NaN, /at least 10 pixels/],
  ])('%f pixels in a metre are refused in a sentence, before any memory is taken', (each, sentence) => {
    expect(() => toPng(sheet, fonts, each)).toThrow(sentence);
  });

  test('the number that the sentence names does', () => {
    let most = 0;
    try {
      pixelSize(sheet, 90_000);
    } catch (problem) {
      most = Number(/Take (\d+)/.exec((problem as Error).message)?.[1]);
    }
    expect(most).toBeGreaterThan(10_000);
    expect(pixelSize(sheet, most).width).toBeGreaterThan(1000);
    expect(() => pixelSize(sheet, most * 1.01)).toThrow(/memory/);
  });

  test('a line from corner to corner keeps the picture within its size', () =>
    expect(decode(toPng(sheetOf([lineMark(style('frame'), 0, 0, 210, 297)]), fonts, 1000)).width).toBe(210));
});
