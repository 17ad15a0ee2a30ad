/** Above the kit: what is chosen or under the pointer, handles, live gaps, numbered flags, the measure, the marquee. */
import type { Finding } from '../../checks/finding.ts';
import { flaggedFindings } from '../../drawing/names.ts';
import { boxOf } from '../../geometry/support.ts';
import { formatLength } from '../../units.ts';
import { valueText } from '../../words/sentences.ts';
import { contentBox } from '../state/content.ts';
import { findingKey } from '../state/findingRows.ts';
import { type Handle, handlesOf } from '../state/handles.ts';
import { gapOfPieces, type Live, leastContact, nearGaps } from '../state/live.ts';
import { type EditorState, shownLive } from '../state/store.ts';
import { type Box, type Point, screenPoint } from '../state/view.ts';
import { FONT } from './ground.ts';
import { paintNames } from './names.ts';
import { type Context, outlineOnly, paintMarks, planSpace } from './paint.ts';
import type { Palette } from './palette.ts';
import { pieceMarks, sceneMarks } from './scene.ts';
import { paintStanding, standingOf } from './stability.ts';

const TAU = 2 * Math.PI;
/** While something is dragged, so many gaps are shown at the most. */
const LIVE_GAPS = 6;
const FLAG_PX = 9.5;

/** A pill with a number, readable over anything. */
function pill(context: Context, text: string, at: Point, colour: string, palette: Palette): void {
  context.font = `600 11px ${FONT}`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  const half = context.measureText(text).width / 2 + 6;
  context.fillStyle = palette.paper;
  context.strokeStyle = colour;
  context.lineWidth = 1.2;
  context.beginPath();
  context.roundRect(at.x - half, at.y - 9, 2 * half, 18, 9);
  context.fill();
  context.stroke();
  context.fillStyle = colour;
  context.fillText(text, at.x, at.y + 0.5);
}

/** A gap as a real dimension: a line between the two nearest points with a stroke across each end, and its number. */
function gapLine(
  context: Context,
  state: EditorState,
  line: readonly [number, number, number, number],
  text: string,
  colour: string,
  palette: Palette,
): void {
  const { view, size } = state;
  const a = screenPoint(view, size, line[0], line[1]);
  const b = screenPoint(view, size, line[2], line[3]);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const nx = length > 0 ? (-(b.y - a.y) / length) * 5 : 0;
  const ny = length > 0 ? ((b.x - a.x) / length) * 5 : 5;
  context.strokeStyle = colour;
  context.lineWidth = 1.6;
  context.beginPath();
  context.moveTo(a.x, a.y);
  context.lineTo(b.x, b.y);
  for (const end of [a, b]) {
    context.moveTo(end.x - nx, end.y - ny);
    context.lineTo(end.x + nx, end.y + ny);
  }
  context.stroke();
  const side = ny < 0 ? 1 : -1;
  pill(context, text, { x: (a.x + b.x) / 2 + nx * 4 * side, y: (a.y + b.y) / 2 + ny * 4 * side }, colour, palette);
}

/** The flags' places in px, outward from the drawing's middle, moved on round while they would lie on each other. */
export function flagPlaces(state: EditorState): { finding: Finding; number: number; at: Point; tip: Point }[] {
  const { view, size } = state;
  const box = contentBox(shownLive(state).layout);
  const middle = screenPoint(view, size, (box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const taken: Point[] = [];
  return flaggedFindings(shownLive(state).checked.findings).map((finding, k) => {
    const [x, y] = finding.at;
    const tip = screenPoint(view, size, x, y);
    const out = Math.atan2(tip.y - middle.y, tip.x - middle.x);
    let at = tip;
    for (let n = 0; n < 24; n++) {
      const angle = out + (n % 2 === 0 ? 1 : -1) * Math.ceil(n / 2) * 0.45;
      const reach = 34 + Math.floor(n / 8) * 16;
      at = { x: tip.x + reach * Math.cos(angle), y: tip.y + reach * Math.sin(angle) };
      if (taken.every((other) => Math.hypot(other.x - at.x, other.y - at.y) > 2.2 * FLAG_PX)) break;
    }
    taken.push(at);
    return { finding, number: k + 1, at, tip };
  });
}

/** The finding whose flag is at a place, or null. */
export function flagAt(state: EditorState, px: number, py: number, coarse: boolean): Finding | null {
  const reach = coarse ? 22 : FLAG_PX + 3;
  return flagPlaces(state).find(({ at }) => Math.hypot(at.x - px, at.y - py) <= reach)?.finding ?? null;
}

/** A flag's outline tells its state without its colour: square, triangle, ring. */
function paintFlags(context: Context, state: EditorState, palette: Palette): void {
  for (const { finding, number, at, tip } of flagPlaces(state)) {
    const colour = palette.ink[finding.state];
    const chosen = state.finding === findingKey(finding);
    context.strokeStyle = colour;
    context.lineWidth = 1.1;
    context.beginPath();
    context.moveTo(tip.x, tip.y);
    context.lineTo(at.x, at.y);
    context.stroke();
    context.fillStyle = colour;
    context.beginPath();
    context.arc(tip.x, tip.y, 2.4, 0, TAU);
    context.fill();
    context.beginPath();
    const r = FLAG_PX + (chosen ? 2 : 0);
    if (finding.state === 'blocked') context.rect(at.x - r, at.y - r, 2 * r, 2 * r);
    else if (finding.state === 'tight') {
      context.moveTo(at.x, at.y - r - 3.5);
      context.lineTo(at.x + r + 3, at.y + r - 1);
      context.lineTo(at.x - r - 3, at.y + r - 1);
      context.closePath();
    } else context.arc(at.x, at.y, r, 0, TAU);
    context.fillStyle = chosen ? colour : palette.paper;
    context.fill();
    context.lineWidth = 1.6;
    context.stroke();
    context.font = `700 10.5px ${FONT}`;
    context.textAlign = 'center';
    context.textBaseline = 'middle';
    context.fillStyle = chosen ? palette.paper : colour;
    context.fillText(String(number), at.x, at.y + (finding.state === 'tight' ? 2.5 : 0.5));
  }
}

function paintHandles(context: Context, state: EditorState, handles: readonly Handle[], palette: Palette): void {
  const { view, size } = state;
  context.lineWidth = 1.6;
  for (const handle of handles) {
    const at = screenPoint(view, size, handle.x, handle.y);
    context.strokeStyle = palette.accent;
    context.fillStyle = palette.paper;
    if (handle.kind === 'turn') {
      const pivot = screenPoint(view, size, handle.aboutX, handle.aboutY);
      context.setLineDash([3, 3]);
      context.beginPath();
      context.moveTo(pivot.x, pivot.y);
      context.lineTo(at.x, at.y);
      context.stroke();
      context.setLineDash([]);
      context.beginPath();
      context.arc(at.x, at.y, 8, 0, TAU);
      context.fill();
      context.stroke();
      // A round arrow inside: it turns.
      context.beginPath();
      context.arc(at.x, at.y, 4, -2.4, 1.6);
      context.stroke();
      continue;
    }
    if (handle.kind === 'clamp') {
      // A bar across the tube: it slides along it.
      context.save();
      context.translate(at.x, at.y);
      context.rotate(-handle.along);
      context.beginPath();
      context.roundRect(-4.5, -10, 9, 20, 2);
      context.fill();
      context.stroke();
      context.restore();
      continue;
    }
    context.beginPath();
    if (handle.kind === 'leg') context.rect(at.x - 6, at.y - 6, 12, 12);
    else if (handle.kind === 'foot') {
      context.moveTo(at.x, at.y - 7);
      context.lineTo(at.x + 7, at.y);
      context.lineTo(at.x, at.y + 7);
      context.lineTo(at.x - 7, at.y);
      context.closePath();
    } else context.arc(at.x, at.y, 6, 0, TAU);
    context.fill();
    context.stroke();
  }
}

function marqueeBox(context: Context, state: EditorState, box: Box, palette: Palette): void {
  const a = screenPoint(state.view, state.size, box.minX, box.maxY);
  const b = screenPoint(state.view, state.size, box.maxX, box.minY);
  context.strokeStyle = palette.accent;
  context.lineWidth = 1;
  context.setLineDash([4, 3]);
  context.strokeRect(a.x, a.y, b.x - a.x, b.y - a.y);
  context.setLineDash([]);
}

/** Pieces drawn in one colour, wider: chosen, or spoken of by the chosen finding. */
function light(context: Context, state: EditorState, ids: readonly string[], palette: Palette, ink: string): void {
  const { plan, setup, layout } = shownLive(state);
  for (const id of ids)
    if (Object.hasOwn(setup.pieces, id))
      outlineOnly(context, pieceMarks(plan, setup, id, layout), { palette, pxPerMm: state.view.zoom, ink, widen: 2 });
}

/** From the riser's edge to the contact that comes nearest to it; one that stands over it is ringed. */
function marginLine(context: Context, state: EditorState, live: Live, palette: Palette): void {
  const least = leastContact(live);
  if (!least || !live.layout.deck) return;
  const { edgeMarginMm } = live.layout.deck;
  const { marginMm, body, line } = least;
  const ink = marginMm < 0 ? palette.ink.blocked : marginMm < edgeMarginMm ? palette.ink.tight : palette.ink.clear;
  const text = `Edge ${formatLength(marginMm, live.plan.units)}`;
  if (line) {
    gapLine(context, state, line, text, ink, palette);
    return;
  }
  const { minX, maxX, minY, maxY } = boxOf(body.shape);
  const at = screenPoint(state.view, state.size, (minX + maxX) / 2, (minY + maxY) / 2);
  const reach = Math.max(7, (Math.max(maxX - minX, maxY - minY) / 2) * state.view.zoom + 4);
  context.strokeStyle = ink;
  context.lineWidth = 1.6;
  context.setLineDash([4, 3]);
  context.beginPath();
  context.arc(at.x, at.y, reach, 0, TAU);
  context.stroke();
  context.setLineDash([]);
  pill(context, text, { x: at.x, y: at.y + reach + 14 }, ink, palette);
}

/** More names than these would hide what is dragged. */
const NAMED_ON_TOP = 12;

/** Pieces whose names the overlay writes: what a gesture moves, and what is chosen. */
export function namedOnTop({ preview, selection }: EditorState): ReadonlySet<string> {
  return new Set([...(preview?.moving ?? []), ...selection].slice(0, NAMED_ON_TOP));
}

/** The chosen finding, as the checks say it now. */
function chosenFinding(state: EditorState): Finding | null {
  if (state.finding === null || state.preview !== null) return null;
  return shownLive(state).checked.findings.find((finding) => findingKey(finding) === state.finding) ?? null;
}

export function paintOverlay(context: Context, state: EditorState, palette: Palette, ratio: number): void {
  const live = shownLive(state);
  const { plan, setup, layout } = live;
  const { view, size, preview, measured } = state;
  const px = () => context.setTransform(ratio, 0, 0, ratio, 0, 0);
  planSpace(context, view, size, ratio);
  if (preview) {
    const moved = new Set(preview.moving);
    paintMarks(
      context,
      sceneMarks(plan, state.setupId, layout, (id) => moved.has(id)),
      { palette, pxPerMm: view.zoom },
    );
  }
  const finding = chosenFinding(state);
  const lit = finding ? palette.ink[finding.state] : palette.accent;
  if (state.hover && !preview && !state.selection.includes(state.hover))
    light(context, state, [state.hover], palette, palette.accent);
  light(context, state, state.selection, palette, lit);
  light(context, state, measured, palette, palette.accent);
  px();
  paintStanding(context, standingOf(live, state.selection), live, state, palette);

  // What moves or is chosen is named over its own lines; the layer of names leaves it out.
  const own = namedOnTop(state);
  const bodies = layout.bodies.filter(({ piece }) => own.has(piece));
  if (own.size > 0)
    paintNames(context, { setup, layout: { ...layout, bodies }, view, size, palette, letters: [], always: own });

  const say = (gapMm: number) => (gapMm > 0 ? formatLength(gapMm, plan.units) : 'meet');
  if (preview) {
    for (const { gapMm, line, state: how } of nearGaps(live, preview.moving, LIVE_GAPS))
      gapLine(context, state, line, say(gapMm), palette.ink[how], palette);
    marginLine(context, state, live, palette);
  } else {
    if (finding && 'line' in finding) {
      const { value, unit, line } = finding;
      gapLine(context, state, line, unit === 'mm' ? say(value) : valueText(value, unit, plan.units), lit, palette);
    }
    paintFlags(context, state, palette);
    if (state.tool === 'select' && !state.isReadOnly)
      paintHandles(context, state, handlesOf(setup, layout, state.selection, view.zoom), palette);
  }
  const [first, picked] = measured;
  const second = picked ?? (state.tool === 'measure' && state.hover !== first ? state.hover : null);
  if (first !== undefined && second !== null) {
    const between = gapOfPieces(live, first, second);
    if (between) gapLine(context, state, between.line, say(between.gap), palette.accent, palette);
  }
  if (state.marquee) marqueeBox(context, state, state.marquee, palette);
}
