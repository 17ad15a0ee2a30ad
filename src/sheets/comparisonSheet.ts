/**
 * Setups side by side: first whether they play the same, then pictures at one scale, readings with the best of each marked, what
 * differs piece by piece and part by part, and for two the bases drawn over each other.
 *
 * The pictures have the same place of the plan at the same place of their frame, so that what differs shows. The first setup is
 * what the others are held against. Scales are those of ISO 5455; the readings stand beneath the pictures unless that costs a scale.
 */
import { type ComparedSetup, comparedSetup } from '../checks/compare.ts';
import { type Differences, differencesOf } from '../checks/differences.ts';
import { movedKit } from '../checks/kitMove.ts';
import { type DrawnBox, joinBoxes, type Line, type Mark, placed, TEXT_MM, THIN, WIDE } from '../drawing/displayList.ts';
import { type DrawOptions, drawSetup } from '../drawing/drawSetup.ts';
import { layoutSetup } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { listed } from '../words/names.ts';
import { type Block, drawBlocks, heightOf, paginate } from './blocks.ts';
import { differenceGroups, nameIn } from './differenceBlocks.ts';
import { type Box, type Format, formatOf, framedSheets } from './framed.ts';
import { overBases, SECOND } from './overBases.ts';
import { measureWith, Page } from './page.ts';
import { readingBlocks } from './readingTable.ts';
import { SCALES, scaleBar } from './scaleBar.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';

export const MOST_COMPARED = 4;

/** On paper, mm. */
const PAD_MM = 3.2;
const HEADLINE_MM = 7;
const NAME_MM = 6;
const GAP_MM = 5;
const FOOT_MM = 8;
/** From this reduction on, hidden lines and names are smaller than anybody reads. */
const COARSE_SCALE = 50;
const LEGEND_ROW_MM = 3.8;
/** So much of a page's height may be taken from the drawing of the bases. */
const MOST_BENEATH = 0.4;
const HEADING = { bold: true, sizeMm: TEXT_MM.normal } as const;

const same = (found: readonly Differences[]): boolean => found.every(({ samePlayingLayout }) => samePlayingLayout);

/** The first setup with its kit where the second has it, so that bases lie over each other in the kit's own frame. */
function inFrameOf(plan: Plan, first: ComparedSetup, { kit }: Differences): ComparedSetup {
  if (kit === null) return first;
  const setup = movedKit(plan, plan.setups[first.id], kit);
  const layout = layoutSetup({ ...plan, setups: { ...plan.setups, [first.id]: setup } }, first.id);
  // Its riser did not go with it.
  return { ...first, layout: { ...layout, deck: null } };
}

interface Picture {
  readonly scale: number;
  readonly options: DrawOptions;
  /** Of all setups together, without names. */
  readonly box: DrawnBox;
}

class Comparison {
  readonly setups: readonly ComparedSetup[];
  readonly found: readonly Differences[];
  readonly measure: ReturnType<typeof measureWith>;
  readonly measurer: Page;
  constructor(
    readonly plan: Plan,
    ids: readonly string[],
    readonly options: SheetOptions,
  ) {
    this.setups = ids.map((id) => comparedSetup(plan, id));
    this.found = this.setups.slice(1).map((setup) => differencesOf(plan, this.setups[0], setup));
    this.measure = measureWith(options.fonts);
    this.measurer = new Page(this.measure);
  }

  draw(setup: ComparedSetup, options: DrawOptions) {
    return drawSetup(this.plan, setup.id, setup.layout, setup.checked, options);
  }

  readings(widthMm: number): Block[] {
    return readingBlocks(this.measurer, this.plan, this.setups, this.found, widthMm);
  }

  /** How the k-th of the others differs from the first, in columns. */
  differences(k: number, widthMm: number, firstMm: number, restMm: number): Block[][] {
    const groups = differenceGroups(this.plan, this.found[k], k + 2, this.measurer, widthMm);
    return paginate(groups, { firstMm, restMm, gapMm: 2 });
  }

  private readonly boxes = new Map<string, DrawnBox>();

  /** What all setups together take, without names; kept, as several frames are tried. */
  private boxAt(scale: number, dimensions: 'all' | 'none'): DrawnBox {
    const key = `${scale} ${dimensions}`;
    const known = this.boxes.get(key);
    if (known) return known;
    const { measure } = this;
    const options: DrawOptions = { scale, view: 'kit', names: 'none', dimensions, hidden: false, measure };
    const box = this.setups.map((setup) => this.draw(setup, options).box).reduce(joinBoxes);
    this.boxes.set(key, box);
    return box;
  }

  /** The largest scale at which every setup fits a frame; null: none. */
  picture(wideMm: number, highMm: number): Picture | null {
    for (const scale of SCALES)
      for (const dimensions of ['all', 'none'] as const) {
        const box = this.boxAt(scale, dimensions);
        if ((box.maxX - box.minX) / scale > wideMm || (box.maxY - box.minY) / scale > highMm) continue;
        const hidden = scale < COARSE_SCALE;
        return { scale, options: { scale, view: 'kit', dimensions, hidden, measure: this.measure }, box };
      }
    return null;
  }

  /** Pictures in a row that fills an area. */
  pictures(page: Page, { scale, options, box }: Picture, area: Box): Mark[] {
    const wide = (area.maxX - area.minX) / this.setups.length;
    return this.setups.flatMap((setup, k) => {
      const [left, right] = [area.minX + k * wide, area.minX + (k + 1) * wide];
      if (k > 0) page.line(left, area.minY, left, area.maxY, { ink: 'faint' });
      const [nameX, nameY] = [left + (k === 0 ? 0 : PAD_MM), area.maxY - NAME_MM + 1.6];
      page.fitted(`${k + 1}  ${setup.name}`, nameX, nameY, wide - 2 * PAD_MM, HEADING);
      const [lowY, highY] = [area.minY, area.maxY - NAME_MM];
      const dx = (left + right) / 2 - (box.minX + box.maxX) / 2 / scale;
      const dy = (lowY + highY) / 2 - (box.minY + box.maxY) / 2 / scale;
      const namesWithin = {
        minX: (left + 1 - dx) * scale,
        maxX: (right - 1 - dx) * scale,
        minY: (lowY + 0.5 - dy) * scale,
        maxY: (highY - 0.5 - dy) * scale,
      };
      const names = scale < COARSE_SCALE ? 'all' : 'none';
      const { marks } = this.draw(setup, { ...options, names, namesWithin });
      return marks.map((mark) => placed(mark, { factor: 1 / scale, dx, dy }));
    });
  }

  /** What a reader wants to know first. */
  headline(): string {
    const { plan, setups, found } = this;
    if (same(found))
      return setups.length === 2 ? 'Same playing layout: yes.' : 'Same playing layout: yes, all of them.';
    const names = [
      ...new Set(found.flatMap(({ playing, to, from }) => playing.map((id) => nameIn(plan, id, to, from)))),
    ];
    return `Same playing layout: no. It differs in ${listed(names)}.`;
  }

  /** The two bases over each other, with their legend, in an area; returns the scale. */
  bases(page: Page, area: Box): number {
    const { plan, setups, found, measure } = this;
    const second = setups[1];
    const first = inFrameOf(plan, setups[0], found[0]);
    page.text('The bases over each other', area.minX, area.maxY - TEXT_MM.normal, HEADING);
    const legend: [Line, string, boolean][] = [
      [WIDE, `1  ${first.name}`, false],
      [SECOND, `2  ${second.name}, where it differs`, false],
      [THIN, same(found) ? 'the playing layout of both' : 'the playing layout; dashed where 2 differs', true],
    ];
    const lowY = area.minY + FOOT_MM + legend.length * LEGEND_ROW_MM;
    const highY = area.maxY - HEADLINE_MM;
    const wide = area.maxX - area.minX;
    const fits = SCALES.flatMap((scale) =>
      // The riser is left out where it would cost a scale.
      [true, false].map((riser) => {
        const drawn = { scale, measure, riser };
        return { drawn, ...overBases(first, second, found[0].playing, drawn) };
      }),
    );
    const fit =
      fits.find(({ drawn: { scale }, box: { minX, maxX, minY, maxY } }) => {
        return (maxX - minX) / scale <= wide && (maxY - minY) / scale <= highY - lowY;
      }) ?? fits[fits.length - 1];
    const { drawn, box } = fit;
    const { scale } = drawn;
    const dx = (area.minX + area.maxX) / 2 - (box.minX + box.maxX) / 2 / scale;
    const dy = (lowY + highY) / 2 - (box.minY + box.maxY) / 2 / scale;
    const within = {
      minX: (area.minX - dx) * scale,
      maxX: (area.maxX - dx) * scale,
      minY: (lowY - dy) * scale,
      maxY: (highY - dy) * scale,
    };
    const { marks } = overBases(first, second, found[0].playing, { ...drawn, within });
    page.marks.push(...marks.map((mark) => placed(mark, { factor: 1 / scale, dx, dy })));
    legend.forEach(([line, text, faint], k) => {
      const y = area.minY + FOOT_MM + (legend.length - 1 - k) * LEGEND_ROW_MM + 1;
      page.line(area.minX, y + 0.9, area.minX + 18, y + 0.9, { line, ink: faint ? 'faint' : 'ink' });
      page.fitted(text, area.minX + 21, y, wide - 21);
    });
    this.foot(page, area, scale);
    return scale;
  }

  /** The scale bar, and which side the audience is on. */
  foot(page: Page, { minX, maxX, minY }: Box, scale: number): void {
    scaleBar(page, minX, minY + 1, scale, this.plan.units);
    page.text(`1:${scale}, from above, the audience below`, maxX, minY + 1, { anchor: 'end', faint: true });
  }
}

const innerOf = ({ frame, room }: Format): Box => ({
  minX: frame.minX + PAD_MM,
  maxX: frame.maxX - PAD_MM,
  minY: room.minY + PAD_MM,
  maxY: frame.maxY - PAD_MM,
});

interface Way {
  readonly format: Format;
  readonly picture: Picture;
  /** Whether the readings stand beneath the pictures. */
  readonly together: boolean;
}

/** Upright or lying, readings beneath or on the next page: the largest scale, then the fewest pages, then lying. */
function bestWay(comparison: Comparison, { paper, turned }: SheetOptions): Way {
  const ways: Way[] = [];
  for (const lying of turned ? [turned === 'lying'] : [true, false]) {
    const format = formatOf(paper, lying);
    const { minX, maxX, minY, maxY } = innerOf(format);
    const wide = (maxX - minX) / comparison.setups.length - 2;
    const high = maxY - minY - HEADLINE_MM - NAME_MM - FOOT_MM;
    const tableMm = heightOf(comparison.readings(maxX - minX)) + GAP_MM;
    for (const together of [true, false]) {
      const picture = comparison.picture(wide, high - (together ? tableMm : 0));
      if (picture) ways.push({ format, picture, together });
    }
  }
  if (ways.length === 0) throw new RangeError('These setups are too large for any scale on this paper.');
  return ways.reduce((best, way) => (way.picture.scale < best.picture.scale ? way : best));
}

/**
 * Two to four setups compared; the first is what the others are held against.
 * Throws: RangeError with a sentence for fewer or more, for one named twice or unknown, and when no scale fits.
 */
export function comparisonSheets(plan: Plan, setupIds: readonly string[], options: SheetOptions): Sheet[] {
  if (setupIds.length < 2 || setupIds.length > MOST_COMPARED)
    throw new RangeError(`A comparison takes two to ${MOST_COMPARED} setups; ${setupIds.length} were given.`);
  for (const [k, id] of setupIds.entries()) {
    if (!Object.hasOwn(plan.setups, id)) throw new RangeError(`The plan has no setup "${id}".`);
    if (setupIds.indexOf(id) !== k) throw new RangeError(`"${plan.setups[id].name}" cannot be compared with itself.`);
  }
  const comparison = new Comparison(plan, setupIds, options);
  const { setups, found, measure } = comparison;
  const { format, picture, together } = bestWay(comparison, options);
  const inner = innerOf(format);
  const wide = inner.maxX - inner.minX;
  const pages: { page: Page; marks: Mark[]; scale: string }[] = [];
  const open = (scale: string) => {
    const page = { page: new Page(measure), marks: [] as Mark[], scale };
    pages.push(page);
    return page;
  };

  const front = open(`1:${picture.scale}`);
  const headline = comparison.headline();
  front.page.fitted(headline, inner.minX, inner.maxY - TEXT_MM.normal, wide, HEADING);
  const table = comparison.readings(wide);
  const tableMm = together ? heightOf(table) + GAP_MM : 0;
  const area = {
    minX: inner.minX,
    maxX: inner.maxX,
    minY: inner.minY + tableMm + FOOT_MM,
    maxY: inner.maxY - HEADLINE_MM,
  };
  front.marks.push(...comparison.pictures(front.page, picture, area));
  comparison.foot(front.page, { ...area, minY: inner.minY + tableMm }, picture.scale);
  if (together) drawBlocks(front.page, table, inner.minX, inner.minY + heightOf(table));

  if (setups.length === 2) {
    // Two columns: the bases to the left, then readings and differences; what is left goes on in both columns of a page.
    const column = (wide - GAP_MM) / 2;
    const xOf = (k: number) => inner.minX + (k % 2) * (column + GAP_MM);
    const second = open('');
    second.page.line(xOf(1) - GAP_MM / 2, inner.minY, xOf(1) - GAP_MM / 2, inner.maxY, { ink: 'faint' });
    const beside = together ? [] : comparison.readings(column);
    const below = drawBlocks(second.page, beside, xOf(1), inner.maxY) - (together ? 0 : GAP_MM);
    const columns = comparison.differences(0, column, below - inner.minY, inner.maxY - inner.minY);
    // A little that is left over stands beneath the bases rather than alone on a page.
    const spillMm = columns.length === 2 ? heightOf(columns[1]) + GAP_MM : Number.POSITIVE_INFINITY;
    const isBeneath = spillMm <= MOST_BENEATH * (inner.maxY - inner.minY);
    const bases = { ...inner, maxX: inner.minX + column, minY: inner.minY + (isBeneath ? spillMm : 0) };
    second.scale = `1:${comparison.bases(second.page, bases)}`;
    columns.forEach((blocks, k) => {
      if (k === 1 && isBeneath) {
        drawBlocks(second.page, blocks, xOf(2), inner.minY + heightOf(blocks));
        return;
      }
      const on = k === 0 ? second : k % 2 === 1 ? open('-') : pages[pages.length - 1];
      // Columns count from the first page's right one: 1, then 2 and 3 on the next page.
      drawBlocks(on.page, blocks, xOf(k + 1), k === 0 ? below : inner.maxY);
    });
  } else {
    // Readings that cost the pictures their scale stand above the differences.
    const begun = pages.length;
    const below = together ? inner.maxY : drawBlocks(open('-').page, table, inner.minX, inner.maxY) - GAP_MM;
    const count = found.length;
    const column = (wide - (count - 1) * GAP_MM) / count;
    const xOf = (k: number) => inner.minX + k * (column + GAP_MM);
    found.forEach((_, k) => {
      const contents = comparison.differences(k, column, below - inner.minY, inner.maxY - inner.minY);
      contents.forEach((blocks, n) => {
        const on = pages[begun + n] ?? open('-');
        const top = n === 0 ? below : inner.maxY;
        drawBlocks(on.page, blocks, xOf(k), top);
        if (k > 0) on.page.line(xOf(k) - GAP_MM / 2, inner.minY, xOf(k) - GAP_MM / 2, top, { ink: 'faint' });
      });
    });
  }

  const setupName =
    setups.length === 2 ? setups.map(({ name }, n) => `${n + 1} ${name}`).join(', ') : `${setups.length} setups`;
  const subject = `Comparison of ${setups.length} setups on ${PAPERS[options.paper].label}`;
  return framedSheets(pages, format, { plan, setupName, documentType: 'Comparison', subject }, options);
}
