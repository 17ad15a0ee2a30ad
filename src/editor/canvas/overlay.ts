/** Above the kit: what is chosen or under the pointer, handles, live gaps, numbered flags, the measure, the marquee. */
import type { Finding } from '../../checks/finding.ts';
import { gapBetween } from '../../checks/gapBetween.ts';
import { flaggedFindings } from '../../drawing/names.ts';
import { formatLength } from '../../units.ts';
import { type Handle, handlesOf } from '../handles.ts';
import { contentBox, type EditorState, live, shownPlan } from '../store.ts';
import { type Box, type Point, toScreen } from '../view.ts';
import { FONT } from './ground.ts';
import { type Context, outlineOnly, paintMarks, planSpace } from './paint.ts';
import type { Palette } from './palette.ts';
import { pieceMarks, redrawn, sceneMarks } from './scene.ts';

const TAU = 2 * Math.PI;
/** While something is dragged, gaps up to this are shown; and so many at the most. */
const LIVE_GAP_MM = 60;
const LIVE_GAPS = 6;
const FLAG_PX = 9.5;

const STATE_INK = { blocked: 'blocked', tight: 'tight', unmeasured: 'unmeasured', clear: 'clear' } as const;

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
  const a = toScreen(view, size, line[0], line[1]);
  const b = toScreen(view, size, line[2], line[3]);
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
  const box = contentBox(shownPlan(state), state.setupId);
  const middle = toScreen(view, size, (box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const taken: Point[] = [];
  return flaggedFindings(live(state).checked.findings).map((finding, k) => {
    const [x, y] = finding.at as readonly [number, number];
    const tip = toScreen(view, size, x, y);
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
    const colour = palette.ink[STATE_INK[finding.state]];
    const chosen = state.finding === finding;
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
    const at = toScreen(view, size, handle.x, handle.y);
    context.strokeStyle = palette.accent;
    context.fillStyle = palette.paper;
    if (handle.kind === 'turn') {
      const pivot = toScreen(view, size, handle.aboutX, handle.aboutY);
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
  const a = toScreen(state.view, state.size, box.minX, box.maxY);
  const b = toScreen(state.view, state.size, box.maxX, box.minY);
  context.strokeStyle = palette.accent;
  context.lineWidth = 1;
  context.setLineDash([4, 3]);
  context.strokeRect(a.x, a.y, b.x - a.x, b.y - a.y);
  context.setLineDash([]);
}

/** Pieces drawn in the accent, wider: chosen, or spoken of by the chosen finding. */
function light(context: Context, state: EditorState, ids: readonly string[], ink: string, widen: number): void {
  const plan = shownPlan(state);
  const setup = plan.setups[state.setupId];
  const { layout } = live(state);
  for (const id of ids)
    if (Object.hasOwn(setup.pieces, id))
      outlineOnly(context, pieceMarks(plan, setup, id, layout), {
        pxPerMm: state.view.pxPerMm,
        ink,
        widen,
      });
}

export function paintOverlay(context: Context, state: EditorState, palette: Palette, ratio: number): void {
  const plan = shownPlan(state);
  const { layout, checked } = live(state);
  const { view, size, preview, measure } = state;
  planSpace(context, view, size, ratio);
  const options = { palette, pxPerMm: view.pxPerMm };
  if (preview) {
    const moved = redrawn(plan.setups[state.setupId], preview.moving);
    paintMarks(
      context,
      sceneMarks(plan, state.setupId, layout, (id) => moved.has(id)),
      options,
    );
  }
  if (state.hover && !preview && !state.selection.includes(state.hover))
    light(context, state, [state.hover], palette.accent, 1.4);
  const lit = state.finding ? palette.ink[STATE_INK[state.finding.state]] : palette.accent;
  light(context, state, state.selection, lit, 2);
  context.setTransform(ratio, 0, 0, ratio, 0, 0);

  const say = (gap: number) => (gap > 0 ? formatLength(gap, plan.units) : 'meet');
  if (preview) {
    const near = checked.pairs
      .filter(({ a, b, gap }) => gap < LIVE_GAP_MM && preview.moving.has(a.piece) !== preview.moving.has(b.piece))
      .sort((p, q) => p.gap - q.gap)
      .slice(0, LIVE_GAPS);
    for (const { a, b, gap, required } of near) {
      const line = gapBetween([a], [b])?.line;
      const ink = gap <= 0 ? palette.ink.blocked : gap < required ? palette.ink.tight : palette.ink.clear;
      if (line) gapLine(context, state, line, say(gap), ink, palette);
    }
  } else {
    if (state.finding?.line) gapLine(context, state, state.finding.line, say(state.finding.value ?? 0), lit, palette);
    paintFlags(context, state, palette);
    paintHandles(
      context,
      state,
      state.tool === 'select' ? handlesOf(plan.setups[state.setupId], layout, state.selection, view.pxPerMm) : [],
      palette,
    );
  }
  const second = measure.b ?? (measure.a !== null && state.hover !== measure.a ? state.hover : null);
  if (measure.a !== null && second !== null) {
    const of = (piece: string) => layout.bodies.filter((body) => body.piece === piece);
    const between = gapBetween(of(measure.a), of(second));
    planSpace(context, view, size, ratio);
    light(context, state, [measure.a, second], palette.accent, 2);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    if (between) gapLine(context, state, between.line, say(between.gap), palette.accent, palette);
  } else if (measure.a !== null) {
    planSpace(context, view, size, ratio);
    light(context, state, [measure.a], palette.accent, 2);
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
  }
  if (state.marquee) marqueeBox(context, state, state.marquee, palette);
}
