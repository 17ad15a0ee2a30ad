/**
 * How a venue sheet's page is shared: one drawing or two, upright or lying, the key beside or beneath; and the largest scale
 * of ISO 5455 that fits. Where two drawings share a page, the stage's and the kit's each have a scale of their own.
 *
 * Units: mm on paper, but a drawing's box, which is in mm of the model.
 */
import type { DrawnBox } from '../drawing/displayList.ts';
import { type Box, type Format, formatOf } from './framed.ts';
import type { KeyParts } from './keyBlock.ts';
import { SCALES } from './scaleBar.ts';
import type { SheetOptions } from './sheet.ts';

export type View = 'stage' | 'kit';

type Dimensions = 'all' | 'riser';

/** A drawing on a page. */
export interface Cell {
  readonly view: View;
  readonly scale: number;
  readonly drawing: Box;
  /** 'riser' leaves the kit's own to the figures. */
  readonly dimensions: Dimensions;
  /** Named by a line of its own, where a page has two. */
  readonly captioned: boolean;
}

export interface PageFit {
  readonly format: Format;
  readonly cells: readonly Cell[];
  readonly key: Box;
  /** Beside the drawing rather than beneath it. */
  readonly keyBeside: boolean;
  readonly parts: KeyParts;
}

/** Beside a drawing: a column that holds figures, and one for a caution alone. */
const COLUMNS_MM = [56, 38] as const;
const FIGURES_COLUMN_MM = COLUMNS_MM[0];
export const PAD_MM = 3;
/** To the left and right of drawings that share a page. */
const NARROW_PAD_MM = 2;
/** Above and below a drawing: the words for the sides of the stage; the audience and the scale bar; which of two it is. */
export const TOP_STRIP_MM = 4.5;
export const BOTTOM_STRIP_MM = 9;
export const CAPTION_MM = 5;

/** The extent of a view's drawing at a scale, mm of the model: what belongs to the paper grows with the scale. */
export type BoxAt = (view: View, scale: number, dimensions?: Dimensions) => DrawnBox;
/** How deep the key is at a width. */
export type KeyMm = (parts: KeyParts, widthMm: number) => number;

function formats({ paper, turned }: SheetOptions): Format[] {
  const lyings = turned ? [turned === 'lying'] : [false, true];
  return lyings.map((lying) => formatOf(paper, lying));
}

/** What a drawing takes of a page with its strips. */
function sizeOf({ minX, minY, maxX, maxY }: DrawnBox, scale: number, captioned: boolean): { w: number; h: number } {
  const strips = TOP_STRIP_MM + BOTTOM_STRIP_MM + (captioned ? CAPTION_MM : 0);
  return {
    w: (maxX - minX) / scale + 2 * (captioned ? NARROW_PAD_MM : PAD_MM),
    h: (maxY - minY) / scale + 2 * PAD_MM + strips,
  };
}

interface Way {
  readonly format: Format;
  readonly drawing: Box;
  readonly key: Box;
  readonly keyBeside: boolean;
}

/** The ways to share a page between one drawing and its key. */
function singleWays(options: SheetOptions, parts: KeyParts, keyMm: KeyMm): Way[] {
  const hasMore = parts.figures || parts.kit || parts.stage;
  return formats(options).flatMap((format) => {
    const { room } = format;
    const ways: Way[] = [];
    for (const column of hasMore ? [FIGURES_COLUMN_MM] : COLUMNS_MM) {
      if (keyMm(parts, column) > room.maxY - room.minY) continue;
      const split = room.maxX - column;
      ways.push({ format, drawing: { ...room, maxX: split }, key: { ...room, minX: split }, keyBeside: true });
    }
    const top = room.minY + keyMm(parts, room.maxX - room.minX);
    ways.push({ format, drawing: { ...room, minY: top }, key: { ...room, maxY: top }, keyBeside: false });
    return ways;
  });
}

/** One drawing on a page at the largest of some scales that fits, in the way that it fills best; null when none fits. */
export function fitOne(
  view: View,
  parts: KeyParts,
  options: SheetOptions,
  boxAt: BoxAt,
  keyMm: KeyMm,
  scales: readonly number[] = SCALES,
): PageFit | null {
  const ways = singleWays(options, parts, keyMm);
  for (const scale of scales) {
    const { w, h } = sizeOf(boxAt(view, scale), scale, false);
    let best: { readonly fit: PageFit; readonly score: number } | null = null;
    for (const { drawing, ...way } of ways) {
      const x = w / (drawing.maxX - drawing.minX);
      const y = h / (drawing.maxY - drawing.minY);
      const score = Math.min(x, y) + x * y;
      if (x > 1 || y > 1 || score <= (best?.score ?? 0)) continue;
      best = { fit: { ...way, cells: [{ view, scale, drawing, dimensions: 'all', captioned: false }], parts }, score };
    }
    if (best) return best.fit;
  }
  return null;
}

/**
 * One drawing with the key beneath it and a band of `bandMm(room)` between them, at a scale: null where it does not fit. For
 * lists short enough to stand on the drawing's own page.
 */
export function fitWithBand(
  view: View,
  parts: KeyParts,
  options: SheetOptions,
  boxAt: BoxAt,
  keyMm: KeyMm,
  scale: number,
  bandMm: (room: Box) => number,
): (PageFit & { readonly band: Box }) | null {
  const { w, h } = sizeOf(boxAt(view, scale), scale, false);
  for (const format of formats(options)) {
    const { room } = format;
    const keyTop = room.minY + keyMm(parts, room.maxX - room.minX);
    const bandTop = keyTop + bandMm(room);
    if (w > room.maxX - room.minX || h > room.maxY - bandTop) continue;
    const drawing = { ...room, minY: bandTop };
    return {
      ...{ format, parts, key: { ...room, maxY: keyTop }, keyBeside: false },
      cells: [{ view, scale, drawing, dimensions: 'all', captioned: false }],
      band: { ...room, minY: keyTop, maxY: bandTop },
    };
  }
  return null;
}

/** How much of the paper one drawing could have at most, without a key but the caution's: for a sentence. */
export function mostRoom(options: SheetOptions, keyMm: KeyMm): { w: number; h: number }[] {
  const bare = { figures: false, kit: false, stage: false, caution: true };
  return singleWays(options, bare, keyMm).map(({ drawing }) => ({
    w: drawing.maxX - drawing.minX - 2 * PAD_MM,
    h: drawing.maxY - drawing.minY - 2 * PAD_MM - TOP_STRIP_MM - BOTTOM_STRIP_MM,
  }));
}

/** What a pair's page holds of the key, the fullest first. */
const PAIR_PARTS: readonly KeyParts[] = [
  { figures: true, kit: true, stage: true, caution: true },
  { figures: true, kit: false, stage: true, caution: true },
  { figures: false, kit: false, stage: true, caution: true },
];

/** A kit at this scale or larger shows what it must; a stage at this scale or larger can be read on a page it shares. */
const KIT_SCALE = 20;
const STAGE_SCALE = 100;

interface Wanted {
  readonly scale: number;
  readonly dimensions: Dimensions;
  readonly w: number;
  readonly h: number;
}

/** The ways to share a page between two drawings and the key; null where they do not fit. */
function pairOn(format: Format, stage: Wanted, kit: Wanted, parts: KeyParts, keyMm: KeyMm): PageFit[] {
  const { room } = format;
  const [width, height] = [room.maxX - room.minX, room.maxY - room.minY];
  const fits: PageFit[] = [];
  const add = (stageBox: Box, kitBox: Box, key: Box, keyBeside: boolean) => {
    const cells: Cell[] = [
      { view: 'stage', scale: stage.scale, dimensions: stage.dimensions, drawing: stageBox, captioned: true },
      { view: 'kit', scale: kit.scale, dimensions: kit.dimensions, drawing: kitBox, captioned: true },
    ];
    fits.push({ format, cells, key, keyBeside, parts });
  };
  const column = FIGURES_COLUMN_MM;
  const columnKey = keyMm(parts, column);
  // The stage above, over the whole width; beneath it the kit with the key beside.
  const stacked = height - stage.h - kit.h;
  if (stage.w <= width && kit.w <= width - column && stacked >= 0 && columnKey <= height - stage.h) {
    const extra = Math.max(0, Math.min(stacked / 2, height - stage.h - columnKey));
    const split = room.maxY - stage.h - extra;
    const right = room.maxX - column;
    add({ ...room, minY: split }, { ...room, maxY: split, maxX: right }, { ...room, maxY: split, minX: right }, true);
  }
  // Both in one column, the key in another over the whole height.
  if (Math.max(stage.w, kit.w) <= width - column && stacked >= 0 && columnKey <= height) {
    const split = room.maxY - stage.h - stacked / 2;
    const right = room.maxX - column;
    add({ ...room, minY: split, maxX: right }, { ...room, maxY: split, maxX: right }, { ...room, minX: right }, true);
  }
  // Side by side, the key beneath the stage.
  const spare = width - stage.w - kit.w;
  if (spare >= 0 && kit.h <= height) {
    const split = room.minX + kit.w + spare * 0.4;
    const keyDeep = keyMm(parts, room.maxX - split);
    if (stage.h + keyDeep <= height) {
      const top = room.minY + keyDeep;
      add({ ...room, minX: split, minY: top }, { ...room, maxX: split }, { ...room, minX: split, maxY: top }, false);
    }
  }
  // Side by side or one above the other, the key beneath both.
  const keyDeep = keyMm(parts, width);
  const low = room.minY + keyDeep;
  if (spare >= 0 && Math.max(stage.h, kit.h) <= height - keyDeep) {
    const split = room.minX + kit.w + spare * 0.4;
    add({ ...room, minX: split, minY: low }, { ...room, maxX: split, minY: low }, { ...room, maxY: low }, false);
  }
  if (Math.max(stage.w, kit.w) <= width && stacked >= keyDeep) {
    const split = room.maxY - stage.h - (stacked - keyDeep) / 2;
    add({ ...room, minY: split }, { ...room, minY: low, maxY: split }, { ...room, maxY: low }, false);
  }
  return fits;
}

/**
 * Stage and kit on one page, the best way first: the stage as large as a kit that can be read leaves it, then the kit as large
 * as that leaves it, then with as much of the key as there is room for. Empty when no way is readable.
 */
export function fitPair(
  options: SheetOptions,
  boxAt: BoxAt,
  keyMm: KeyMm,
  stageScales: readonly number[] = SCALES,
): PageFit[] {
  const fits: PageFit[] = [];
  const wanted = (view: View, scale: number, dimensions: Dimensions): Wanted => ({
    scale,
    dimensions,
    ...sizeOf(boxAt(view, scale, dimensions), scale, true),
  });
  for (const stageScale of stageScales.filter((scale) => scale <= STAGE_SCALE))
    for (const kitScale of SCALES.filter((scale) => scale <= Math.min(KIT_SCALE, stageScale)))
      for (const dimensions of ['all', 'riser'] as const)
        for (const parts of PAIR_PARTS)
          for (const format of formats(options)) {
            const stage = wanted('stage', stageScale, 'riser');
            fits.push(...pairOn(format, stage, wanted('kit', kitScale, dimensions), parts, keyMm));
          }
  return fits;
}
