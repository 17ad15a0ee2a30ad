/**
 * The venue sheet: the stage and the kit on its riser on one page, to the largest scales of ISO 5455 that fit, and on the next
 * what a house asks: inputs, mixes, power, what it provides, contact, cautions. Upright or lying paper and the place of the
 * key follow from the fit.
 *
 * Inputs: everything that is not in the plan (date, revision) comes from outside, so the same call gives the same sheet.
 */

import type { Checked } from '../checks/run.ts';
import type { Mark } from '../drawing/displayList.ts';
import { drawSetup, hasStageBeside } from '../drawing/drawSetup.ts';
import { centreLineX } from '../drawing/extents.ts';
import type { Layout } from '../layout/layout.ts';
import { channelsOf } from '../lists/inputList.ts';
import { own } from '../plan/places.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { stageOf } from '../plan/stages.ts';
import { type Block, drawBlocks, heightOf, paginate } from './blocks.ts';
import { type Box, formatOf, framedSheet, type SheetSubject } from './framed.ts';
import { type KeyContent, type KeyParts, keyBlock, keyHeight } from './keyBlock.ts';
import { measureWith, Page } from './page.ts';
import { SCALES } from './scaleBar.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';
import { holdsContact } from './titleBlock.ts';
import { COARSE_SCALE, type Drawable, drawCell, drawOptions } from './venueDrawing.ts';
import { type BoxAt, fitOne, fitPair, fitWithBand, type KeyMm, mostRoom, type PageFit, type View } from './venueFit.ts';
import { hasLists, inputsBeneath, listGroups } from './venueLists.ts';

export interface VenueSheetOptions extends SheetOptions {
  /** Numbered flags at what is tight, blocked or unmeasured, for the crew's own use. */
  readonly flags?: boolean;
  /** n of 1 : n for the drawing that shows all; one of ISO 5455. Left out: the largest that fits. */
  readonly scale?: number;
}

const LIST_PAD_MM = 3.2;
const LIST_GAP_MM = 2.2;
/** Above a list beneath a drawing: its heading brings air of its own. */
const BAND_PAD_MM = 1;
/** Rows with room to write by hand, and less of it where that saves a page. */
const ROWS_MM = [6.8, 5.8, 5, 4.2] as const;
/** Beneath a drawing: over the whole width, or in two halves. */
const BAND_ROWS = [false, true].flatMap((halves) => ROWS_MM.map((rowMm) => [rowMm, halves] as const));
/** Ways of sharing a page that are tried for room for every name. */
const MOST_TRIES = 6;

type PageOf = Pick<SheetSubject, 'documentType' | 'subject' | 'scale'>;
/** A page that waits for its number. */
type Numbered = (number: number, count: number) => Sheet;

class VenueSheet {
  private readonly measurer: Page;
  private readonly boxes = new Map<string, ReturnType<BoxAt>>();
  private readonly keys = new Map<string, number>();
  private readonly drawable: Drawable;

  constructor(
    private readonly plan: Plan,
    setupId: string,
    private readonly setup: Setup,
    private readonly layout: Layout,
    private readonly checked: Checked,
    private readonly options: VenueSheetOptions,
  ) {
    this.measurer = new Page(measureWith(options.fonts));
    const { flags = false } = options;
    this.drawable = { plan, setupId, setup, layout, checked, flags, channels: channelsOf(plan, setup) };
  }

  private content(parts: KeyParts): KeyContent {
    const { plan, setup, layout, checked, flags: withChecks } = this.drawable;
    return { plan, setup, layout, checked, withChecks, ...parts };
  }

  private readonly boxAt: BoxAt = (view, scale, dimensions = 'all') => {
    const key = `${view} ${scale} ${dimensions}`;
    const before = this.boxes.get(key);
    if (before) return before;
    const { coarse, ...drawn } = drawOptions({ view, scale, dimensions }, this.drawable, this.measurer);
    const bare = { ...drawn, names: 'none', flags: false, hidden: false } as const;
    const { box } = drawSetup(this.plan, this.drawable.setupId, this.layout, this.checked, bare);
    this.boxes.set(key, box);
    return box;
  };

  private readonly keyMm: KeyMm = (parts, widthMm) => {
    const key = `${JSON.stringify(parts)} ${widthMm}`;
    const before = this.keys.get(key);
    if (before !== undefined) return before;
    const heightMm = keyHeight(this.measurer, this.content(parts), widthMm);
    this.keys.set(key, heightMm);
    return heightMm;
  };

  private fitted(view: View, parts: KeyParts, scales: readonly number[] = SCALES): PageFit {
    const fit = fitOne(view, parts, this.options, this.boxAt, this.keyMm, scales);
    if (fit) return fit;
    const { paper } = this.options;
    const { label } = PAPERS[paper];
    const largest = SCALES.find((scale) => fitOne(view, parts, this.options, this.boxAt, this.keyMm, [scale]));
    if (largest === undefined) throw new RangeError(`This setup is too large for any scale on ${label} paper.`);
    const [scale] = scales;
    const { minX, minY, maxX, maxY } = this.boxAt(view, scale);
    const mm = (a: number, b: number) => `${Math.ceil(a)} x ${Math.ceil(b)} mm`;
    const over = ({ w, h }: { w: number; h: number }) => Math.max((maxX - minX) / w, (maxY - minY) / h);
    const rooms = mostRoom(this.options, this.keyMm).sort((a, b) => over(a) - over(b));
    throw new RangeError(
      `At 1:${scale} the drawing takes ${mm((maxX - minX) / scale, (maxY - minY) / scale)}, and ${label} paper has ` +
        `${mm(rooms[0].w, rooms[0].h)} for it at most. Take 1:${largest}, or larger paper.`,
    );
  }

  /** The largest scale, and at it as much of the key as leaves it. The parts are given from the fullest down. */
  private fullest(view: View, parts: readonly KeyParts[], scales: readonly number[] = SCALES): PageFit {
    const fits = parts.flatMap((each) => fitOne(view, each, this.options, this.boxAt, this.keyMm, scales) ?? []);
    const largest = Math.min(...fits.map(({ cells }) => cells[0].scale));
    const best = fits.find(({ cells }) => cells[0].scale === largest);
    return best ?? this.fitted(view, parts[parts.length - 1], scales);
  }

  /** A page of drawings; `unnamed` counts names without a place. */
  private drawings(fit: PageFit): { readonly page: Page; readonly marks: readonly Mark[]; readonly unnamed: number } {
    const page = new Page(this.measurer.measure);
    const marks: Mark[] = [];
    let unnamed = 0;
    for (const cell of fit.cells) {
      unnamed += drawCell(page, marks, cell, this.drawable);
      const { minX, minY, maxX, maxY } = cell.drawing;
      // Cells are ruled off from each other; the key rules off itself.
      const { room } = fit.format;
      if (cell.captioned && minY > room.minY) page.line(minX, minY, maxX, minY);
      if (cell.captioned && maxX < room.maxX) page.line(maxX, minY, maxX, maxY);
    }
    keyBlock(page, this.content(fit.parts), fit.key, fit.keyBeside);
    return { page, marks, unnamed };
  }

  private finished(
    drawn: { readonly page: Page; readonly marks: readonly Mark[] },
    fit: PageFit,
    documentType: string,
  ): Numbered {
    const { plan, options, setup } = this;
    // The title block has the scale of the drawing that shows all; another stands beside its own drawing (ISO 5455).
    const scale = fit.cells.map((cell) => `1:${cell.scale}`)[0];
    const all = fit.cells.map((cell) => `1:${cell.scale}`).join(' and ');
    const subject = `Venue sheet, scale ${all} on ${PAPERS[options.paper].label}`;
    const of: PageOf = { documentType, scale, subject };
    return (number, count) =>
      framedSheet(drawn.page, drawn.marks, fit.format, { plan, setupName: setup.name, ...of, number, count }, options);
  }

  private page(fit: PageFit, documentType: string): Numbered {
    return this.finished(this.drawings(fit), fit, documentType);
  }

  /**
   * Drawing, input list and key on one page, at the scale that the drawing has anyway: null where there is more to list, or no
   * room. The key's caution and the title block's contact then stand for the lists' own.
   */
  private onePage(parts: KeyParts, scale: number): Numbered | null {
    const { plan, setup, options } = this;
    const { owner = '' } = options;
    const groupIn = ({ minX, maxX }: Box, rowMm: number, halves: boolean) => {
      const place = { widthMm: maxX - minX - 2 * LIST_PAD_MM, rowMm };
      return inputsBeneath(this.measurer, plan, setup, place, halves);
    };
    const bandMm = (rowMm: number, halves: boolean) => (room: Box) => {
      const group = groupIn(room, rowMm, halves);
      const contact = { owner, contact: plan.contact ?? '' };
      if (!group || !holdsContact(this.measurer, contact, room.maxX - room.minX)) return Number.POSITIVE_INFINITY;
      return heightOf([group.head, ...group.rows]) + BAND_PAD_MM + LIST_PAD_MM;
    };
    for (const [rowMm, halves] of BAND_ROWS) {
      const fit = fitWithBand('stage', parts, options, this.boxAt, this.keyMm, scale, bandMm(rowMm, halves));
      const group = fit && groupIn(fit.band, rowMm, halves);
      if (!fit || !group) continue;
      const drawn = this.drawings(fit);
      if (drawn.unnamed > 0) return null;
      const { minX, maxX, maxY } = fit.band;
      drawn.page.line(minX, maxY, maxX, maxY);
      drawBlocks(drawn.page, [group.head, ...group.rows], minX + LIST_PAD_MM, maxY - BAND_PAD_MM);
      return this.finished(drawn, fit, 'Venue sheet: plan view');
    }
    return null;
  }

  /** Pages of lists. `parts`: what of the key the drawings had no room for, above the lists. */
  private listPages(parts: KeyParts | null): Numbered[] {
    const { plan, setup, layout, options } = this;
    const format = formatOf(options.paper, options.turned === 'lying');
    const { room } = format;
    const place = { widthMm: room.maxX - room.minX - 2 * LIST_PAD_MM };
    const keyMm = parts ? keyHeight(this.measurer, this.content(parts), room.maxX - room.minX) + LIST_PAD_MM : 0;
    const restMm = room.maxY - room.minY - 2 * LIST_PAD_MM;
    const centreX = centreLineX(layout, stageOf(plan, setup));
    const pagesAt = (rowMm: number) =>
      paginate(listGroups(this.measurer, plan, setup, centreX, { ...place, rowMm }), {
        firstMm: restMm - keyMm,
        restMm,
        gapMm: LIST_GAP_MM,
      });
    const tries = ROWS_MM.map(pagesAt);
    const fewest = Math.min(...tries.map((pages) => pages.length));
    const pages: readonly Block[][] = tries.find((one) => one.length === fewest)!;
    return pages.map((blocks, k): Numbered => {
      const page = new Page(this.measurer.measure);
      let top = room.maxY - LIST_PAD_MM;
      if (parts && k === 0) {
        keyBlock(page, this.content(parts), { ...room, minY: room.maxY - keyMm + LIST_PAD_MM }, false);
        top -= keyMm;
      }
      drawBlocks(page, blocks, room.minX + LIST_PAD_MM, top);
      const subject = `Inputs, mixes and power on ${PAPERS[options.paper].label}`;
      const of: PageOf = { documentType: 'Venue sheet: lists', subject, scale: '-' };
      return (number, count) =>
        framedSheet(page, [], format, { plan, setupName: setup.name, ...of, number, count }, options);
    });
  }

  sheets(): Sheet[] {
    const { plan, setup, layout, options } = this;
    const { scale } = options;
    if (scale !== undefined && !SCALES.includes(scale))
      throw new RangeError(
        `1:${scale} is no scale of ISO 5455 for a stage: take ${SCALES.map((n) => `1:${n}`).join(', ')}.`,
      );
    const scales = scale === undefined ? SCALES : [scale];
    const beside = hasStageBeside(plan, setup, layout);
    const whole = { figures: true, kit: true, stage: beside, caution: true };
    const bare = { figures: false, kit: false, stage: false, caution: true };
    const kit = beside ? fitOne('kit', bare, options, this.boxAt, this.keyMm) : null;
    // Without a stage the drawing may do with less beside it; what is left then leads the lists.
    const single = fitOne('stage', whole, options, this.boxAt, this.keyMm, scales);
    const singleScale = single?.cells[0].scale ?? Number.POSITIVE_INFINITY;
    const isCoarse = kit !== null && singleScale >= COARSE_SCALE && kit.cells[0].scale < singleScale;
    if (!isCoarse) {
      const one = single && this.onePage(whole, singleScale);
      if (one) return numbered([one]);
      const fit = single ?? this.fitted('stage', bare, scales);
      const pages = [this.page(fit, 'Venue sheet: plan view')];
      const left = fit.parts.figures ? null : { ...whole, caution: false };
      return numbered(hasLists(plan, setup) || left ? [...pages, ...this.listPages(left)] : pages);
    }

    for (const fit of fitPair(options, this.boxAt, this.keyMm, scales).slice(0, MOST_TRIES)) {
      const drawn = this.drawings(fit);
      if (drawn.unnamed > 0) continue;
      const { figures, kit: lines } = fit.parts;
      const left = { figures: !figures, kit: !lines, stage: false, caution: false };
      // What the kit's tints mean is not worth a page of its own.
      const tries = [left, { ...left, kit: false }].map((parts) => (parts.figures || parts.kit ? parts : null));
      const lists = tries.map((parts) => this.listPages(parts));
      const fewest = lists.reduce((best, pages) => (pages.length < best.length ? pages : best));
      return numbered([this.finished(drawn, fit, 'Venue sheet: stage and kit'), ...fewest]);
    }

    const legend = { ...bare, stage: true };
    const stage = this.fullest('stage', [{ ...legend, figures: true }, legend, bare], scales);
    const lines = { ...bare, kit: true };
    const { figures, stage: glyphs } = stage.parts;
    const kitPage = this.fullest('kit', [
      { ...lines, figures: !figures, stage: !glyphs },
      { ...lines, figures: !figures },
      lines,
      bare,
    ]);
    const has = (part: 'figures' | 'kit' | 'stage') => stage.parts[part] || kitPage.parts[part];
    const left = { figures: !has('figures'), kit: !has('kit'), stage: !has('stage'), caution: false };
    return numbered([
      this.page(stage, 'Venue sheet: stage'),
      this.page(kitPage, 'Venue sheet: kit'),
      ...this.listPages(left.figures || left.kit || left.stage ? left : null),
    ]);
  }
}

const numbered = (pages: readonly Numbered[]): Sheet[] => pages.map((page, k) => page(k + 1, pages.length));

/**
 * The sheets of a setup: a page of drawings, then its lists. Where other things on the stage would make the kit too small to
 * read, stage and kit share the first page at scales of their own; where even that leaves names without a place, each has a
 * page.
 * Throws: RangeError when the plan has no such setup, or when a scale is none of ISO 5455's or too large for the paper.
 */
export function venueSheets(
  plan: Plan,
  setupId: string,
  layout: Layout,
  checked: Checked,
  options: VenueSheetOptions,
): Sheet[] {
  const setup = own(plan.setups, setupId);
  if (!setup) throw new RangeError(`The plan has no setup "${setupId}".`);
  return new VenueSheet(plan, setupId, setup, layout, checked, options).sheets();
}
