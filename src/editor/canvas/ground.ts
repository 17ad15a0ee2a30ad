/** Beneath the kit: grid, riser, centre line, audience; and the rulers along two edges, in the plan's unit. */

import { deckMarks } from '../../drawing/deck.ts';
import { boxOfMarks, type Mark, type TextMark } from '../../drawing/displayList.ts';
import { centreLineX } from '../../drawing/extents.ts';
import type { LabelRequest } from '../../drawing/labels.ts';
import { allDimensions } from '../../drawing/setupDimensions.ts';
import { cableRunMarks, stageMarks, stageRequests } from '../../drawing/stage.ts';
import type { MeasureText } from '../../drawing/textWidth.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Plan } from '../../plan/schema.ts';
import { stageBox, stageOf } from '../../plan/stages.ts';
import { type DisplayUnit, MM_PER_IN } from '../../units.ts';
import { contentBox } from '../state/content.ts';
import { planPoint, type Size, screenPoint, type View } from '../state/view.ts';
import { type Context, paintMarks, planSpace } from './paint.ts';
import type { Palette } from './palette.ts';

const RULER_PX = 22;
/** What one millimetre of paper is on the screen, for what belongs to the paper: hatches, arrowheads, dimension rows. */
const PAPER_PX_PER_MM = 3.6;
export const FONT = '"Open Sans Variable", "Open Sans", system-ui, sans-serif';

/** Below this zoom the kit is too small to be named and measured piece by piece; what else is on the stage still is. */
export const COARSE_ZOOM = 0.09;

const METRIC_STEPS_MM = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000];
const IMPERIAL_STEPS_MM = [0.125, 0.25, 0.5, 1, 3, 6, 12, 24, 48, 96, 192, 384].map((inches) => inches * MM_PER_IN);

/** The least round step that is at least `leastPx` wide. */
function gridStep(pxPerMm: number, leastPx: number, unit: DisplayUnit): number {
  const steps = unit === 'mm' ? METRIC_STEPS_MM : IMPERIAL_STEPS_MM;
  return steps.find((step) => step * pxPerMm >= leastPx) ?? steps[steps.length - 1];
}

/** `1.2 m` on a ruler is 1200; in feet and inches `4'`, `4' 6`, `6`. */
function rulerText(mm: number, unit: DisplayUnit): string {
  const rounded = Math.round(mm * 1000) / 1000;
  if (unit === 'mm') return String(rounded).replace('-', '−');
  const sign = rounded < 0 ? '−' : '';
  const inches = Math.abs(rounded) / MM_PER_IN;
  const feet = Math.floor(inches / 12 + 1e-9);
  const rest = Math.round((inches - feet * 12) * 1000) / 1000;
  if (feet === 0) return `${sign}${rest}`;
  return rest === 0 ? `${sign}${feet}'` : `${sign}${feet}' ${rest}`;
}

function gridLines(context: Context, view: View, size: Size, step: number, colour: string): void {
  const low = planPoint(view, size, 0, size.height);
  const high = planPoint(view, size, size.width, 0);
  context.strokeStyle = colour;
  context.lineWidth = 1;
  context.beginPath();
  for (let k = Math.ceil(low.x / step); k * step <= high.x; k++) {
    const px = Math.round(screenPoint(view, size, k * step, 0).x) + 0.5;
    context.moveTo(px, 0);
    context.lineTo(px, size.height);
  }
  for (let k = Math.ceil(low.y / step); k * step <= high.y; k++) {
    const py = Math.round(screenPoint(view, size, 0, k * step).y) + 0.5;
    context.moveTo(0, py);
    context.lineTo(size.width, py);
  }
  context.stroke();
}

/** Marks' texts in px space, with a halo so that they stay readable over lines. */
function paintTexts(context: Context, texts: readonly TextMark[], view: View, size: Size, palette: Palette): void {
  for (const text of texts) {
    const { x, y } = screenPoint(view, size, text.x, text.y);
    context.save();
    context.translate(x, y);
    context.rotate(-text.rotation);
    context.font = `${text.bold ? 600 : 400} ${(text.sizeMm * PAPER_PX_PER_MM).toFixed(1)}px ${FONT}`;
    context.textAlign = text.anchor === 'start' ? 'left' : text.anchor === 'end' ? 'right' : 'center';
    context.textBaseline = 'alphabetic';
    context.lineWidth = 3;
    context.strokeStyle = palette.halo;
    context.strokeText(text.text, 0, 0);
    context.fillStyle = palette.ink[text.ink];
    context.fillText(text.text, 0, 0);
    context.restore();
  }
}

export const isText = (mark: Mark): mark is TextMark => mark.kind === 'text';

/** Below this zoom a cable run's note is longer than its run. */
const LEAST_NOTE_ZOOM = 0.035;

/** Names of wings where they fit, notes of cable runs beside them. */
function paintStageNames(
  context: Context,
  requests: readonly LabelRequest[],
  { view, size, palette }: Pick<GroundInput, 'view' | 'size' | 'palette'>,
): void {
  context.font = `600 11px ${FONT}`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.lineWidth = 3;
  context.lineJoin = 'round';
  for (const { text, x, y, inside } of requests) {
    const width = context.measureText(text).width;
    const roomPx = inside ? 2 * inside.halfW * view.zoom : Number.POSITIVE_INFINITY;
    if (!inside && view.zoom < LEAST_NOTE_ZOOM) continue;
    const at = screenPoint(view, size, x, y);
    // A narrow wing's name runs along it.
    const isTurned = inside !== null && width > roomPx;
    if (isTurned && width > 2 * inside.halfH * view.zoom) continue;
    context.save();
    context.translate(at.x, at.y - (inside ? 0 : 11));
    if (isTurned) context.rotate(-Math.PI / 2);
    context.strokeStyle = palette.halo;
    context.strokeText(text, 0, 0);
    context.fillStyle = palette.ink.faint;
    context.fillText(text, 0, 0);
    context.restore();
  }
  context.textBaseline = 'alphabetic';
}

export interface GroundInput {
  readonly plan: Plan;
  readonly setupId: string;
  readonly layout: Layout;
  readonly view: View;
  readonly size: Size;
  readonly ratio: number;
  readonly palette: Palette;
}

export function paintGround(context: Context, input: GroundInput): void {
  const { plan, setupId, layout, view, size, ratio, palette } = input;
  const px = () => context.setTransform(ratio, 0, 0, ratio, 0, 0);
  px();
  context.fillStyle = palette.paper;
  context.fillRect(0, 0, size.width, size.height);
  gridLines(context, view, size, gridStep(view.zoom, 9, plan.units), palette.grid);
  gridLines(context, view, size, gridStep(view.zoom, 64, plan.units), palette.gridStrong);

  const riser = plan.setups[setupId].riser;
  const scale = PAPER_PX_PER_MM / view.zoom;
  const measure: MeasureText = (text, sizeMm, bold) => {
    context.font = `${bold ? 600 : 400} ${sizeMm * PAPER_PX_PER_MM}px ${FONT}`;
    return context.measureText(text).width / PAPER_PX_PER_MM;
  };
  const box = contentBox(layout);
  const air = 2 * scale;
  const grown = { minX: box.minX - air, minY: box.minY - air, maxX: box.maxX + air, maxY: box.maxY + air };
  const setup = plan.setups[setupId];
  const stage = stageOf(plan, setup);
  const cables = setup.cables ?? [];
  const centre = centreLineX(layout, stage);
  const along = stage ? stageBox(stage) : box;
  const marks: Mark[] = [...(stage ? stageMarks(stage) : []), ...cableRunMarks(cables, scale)];
  if (layout.deck) marks.push(...deckMarks(layout.deck.modules, scale, plan.risers[riser ?? '']?.name ?? 'Riser'));
  planSpace(context, view, size, ratio);
  paintMarks(context, marks, { palette, pxPerMm: view.zoom });

  // The centre line, long-dash dot, a little beyond everything.
  const beyond = 26 / view.zoom;
  context.strokeStyle = palette.ink.faint;
  context.lineWidth = 0.9 / view.zoom;
  context.setLineDash([18, 4, 3, 4].map((part) => part / view.zoom));
  context.beginPath();
  context.moveTo(centre, Math.min(box.minY, along.minY) - beyond);
  context.lineTo(centre, Math.max(box.maxY, along.maxY) + beyond);
  context.stroke();
  context.setLineDash([]);

  const which = view.zoom < COARSE_ZOOM ? 'riser' : 'all';
  const dimensions = layout.bodies.length > 0 ? allDimensions(plan, layout, which, grown, scale, measure, stage) : [];
  paintMarks(
    context,
    dimensions.filter((mark) => mark.tint !== 'paper'),
    { palette, pxPerMm: view.zoom },
  );
  px();
  paintTexts(context, dimensions.filter(isText), view, size, palette);
  paintStageNames(context, stageRequests(stage, cables), input);

  // Which way the audience is, at the drawing's foot.
  context.font = `600 11px ${FONT}`;
  context.fillStyle = palette.ink.faint;
  context.textAlign = 'center';
  const lowest = Math.min(along.minY, dimensions.length > 0 ? boxOfMarks(dimensions).minY : box.minY);
  const foot = screenPoint(view, size, centre, lowest);
  const at = foot.y + 18;
  context.fillText('▼  AUDIENCE  ▼', Math.min(size.width - 70, Math.max(RULER_PX + 70, foot.x)), at);
}

/** Rulers along the top and the left edge, with the pointer's place on them. */
export function paintRulers(context: Context, { plan, view, size, palette, ratio }: GroundInput): void {
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  const unit = plan.units;
  const major = gridStep(view.zoom, 64, unit);
  const minor = gridStep(view.zoom, 7, unit);
  context.fillStyle = palette.ruler;
  context.fillRect(0, 0, size.width, RULER_PX);
  context.fillRect(0, 0, RULER_PX, size.height);
  context.strokeStyle = palette.gridStrong;
  context.lineWidth = 1;
  context.beginPath();
  context.moveTo(0, RULER_PX + 0.5);
  context.lineTo(size.width, RULER_PX + 0.5);
  context.moveTo(RULER_PX + 0.5, 0);
  context.lineTo(RULER_PX + 0.5, size.height);
  context.stroke();
  context.fillStyle = palette.rulerInk;
  context.strokeStyle = palette.rulerInk;
  context.font = `10px ${FONT}`;
  const isMajor = (mm: number) => Math.abs(mm / major - Math.round(mm / major)) < 1e-6;
  const low = planPoint(view, size, RULER_PX, size.height);
  const high = planPoint(view, size, size.width, RULER_PX);
  context.beginPath();
  context.textAlign = 'left';
  context.textBaseline = 'alphabetic';
  for (let k = Math.ceil(low.x / minor); k * minor <= high.x; k++) {
    const px = Math.round(screenPoint(view, size, k * minor, 0).x) + 0.5;
    const strong = isMajor(k * minor);
    context.moveTo(px, RULER_PX);
    context.lineTo(px, RULER_PX - (strong ? 9 : 4));
    if (strong) context.fillText(rulerText(k * minor, unit), px + 3, 11);
  }
  for (let k = Math.ceil(low.y / minor); k * minor <= high.y; k++) {
    const py = Math.round(screenPoint(view, size, 0, k * minor).y) + 0.5;
    const strong = isMajor(k * minor);
    context.moveTo(RULER_PX, py);
    context.lineTo(RULER_PX - (strong ? 9 : 4), py);
    if (strong) {
      context.save();
      context.translate(11, py - 3);
      context.rotate(-Math.PI / 2);
      context.fillText(rulerText(k * minor, unit), 0, 0);
      context.restore();
    }
  }
  context.stroke();
  context.fillStyle = palette.ruler;
  context.fillRect(0, 0, RULER_PX, RULER_PX);
  context.fillStyle = palette.rulerInk;
  context.textAlign = 'center';
  context.fillText(unit === 'mm' ? 'mm' : 'ft in', RULER_PX / 2, 14);
}
