/**
 * The mark sheet's drawing: the deck, the kit as a ghost, every contact in wide lines, a cross and a number at every mark, and a
 * letter at every point that a tape is hooked to. The two tapes of the first mark are drawn to show how.
 *
 * Units: mm on paper, but for what is said to be of the model.
 */
import { inFrame, outOfFrame } from '../checks/marks/datums.ts';
import type { MarkPlan } from '../checks/marks/markPlan.ts';
import {
  boxMark,
  boxOfMark,
  boxRound,
  CAPITAL_OF_EM,
  CENTRE,
  circleMark,
  type DrawnBox,
  joinBoxes,
  lineMark,
  type Mark,
  NEIGHBOUR,
  placed,
  style,
  TEXT_MM,
  THIN,
  textMark,
  WIDE,
} from '../drawing/displayList.ts';
import { drawSetup } from '../drawing/drawSetup.ts';
import { bareField, labelMarks, numberRequest, placeLabels } from '../drawing/labels.ts';
import { outlineMarks } from '../drawing/outline.ts';
import { boxAt, firstFree, Placed, within } from '../drawing/placing.ts';
import { textBox } from '../drawing/textWidth.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { tapeLength } from '../words/markWords.ts';
import type { Box } from './framed.ts';
import type { Page } from './page.ts';
import { scaleBar } from './scaleBar.ts';
import { sideWords } from './sideWords.ts';

export interface MarkDrawing {
  readonly marks: readonly Mark[];
  readonly scale: number;
  /** How far down the page it reaches. */
  readonly bottomMm: number;
}

interface Request {
  readonly plan: Plan;
  readonly setupId: string;
  readonly layout: Layout;
  readonly made: MarkPlan;
  /** Where it may be. */
  readonly area: Box;
  readonly scale: number;
  readonly page: Page;
}

/** On paper, mm. */
const CROSS_MM = 1.3;
const HOOK_RADIUS_MM = 2.3;
const HOOK_OFF_MM = 4;
/** Round the drawing, for numbers beside it. */
const ROUND_MM = 4;
/** Below it: the audience and the scale bar. */
const STRIP_MM = 9;
/** Above it: the sides of the stage. */
const TOP_MM = 5;

/** Places that are tried for a number where all else is taken: 16 ways round, in steps of 1.5 mm. */
const LAST_RESORTS = 16 * 24;

/** About how wide a number is. */
const LABEL_MM = 5;

/** What floats above the floor would hide the numbers. */
const GHOST_LAYERS: readonly string[] = ['deck', 'drums', 'racks', 'pedals', 'throne', 'stands', 'feet'];

function ghost(mark: Mark): Mark {
  if (mark.layer === 'deck') return mark;
  const line = mark.line === null ? null : THIN;
  return { ...mark, tint: null, line, ink: 'faint', layer: mark.layer } as Mark;
}

/** Null where it does not fit at this scale. Hooks off the kit are drawn in their places only where that costs no scale. */
export function markDrawing(request: Request): MarkDrawing | null {
  const { from } = request.made.frame;
  return (from === 'stage' ? null : drawnWith(request, true)) ?? (from === 'riser' ? null : drawnWith(request, false));
}

/** `near`: hooks in their places, with the two tapes of the first mark; else at the drawing's edge, with how far they are. */
function drawnWith({ plan, setupId, layout, made, area, scale, page }: Request, near: boolean): MarkDrawing | null {
  const { measure } = page;
  const { frame, datums, marks } = made;
  const points = [...marks.map(({ mark }) => mark.at), ...(near ? datums.map(({ at }) => at) : [])];
  const around = ROUND_MM + HOOK_OFF_MM;
  const fits = ({ minX, minY, maxX, maxY }: DrawnBox) =>
    (maxX - minX) / scale + 2 * around <= area.maxX - area.minX &&
    (maxY - minY) / scale + 2 * around + STRIP_MM + TOP_MM <= area.maxY - area.minY;
  // Too large with its marks alone: nothing need be drawn to know it.
  if (points.length > 0 && !fits(boxRound(points))) return null;
  const bare = { scale, view: 'kit', names: 'none', dimensions: 'none', hidden: false, measure } as const;
  const drawn = drawSetup(plan, setupId, layout, { findings: [] }, bare);
  const model: Mark[] = drawn.marks.filter(({ layer }) => GHOST_LAYERS.includes(layer)).map(ghost);
  const contact = style('feet', { line: WIDE, zMm: 1e3 });
  const contacts = new Set(made.marks.map(({ mark }) => mark.body));
  for (const { id, label, shape, touchesFloor } of layout.bodies)
    if (touchesFloor && contacts.has(id)) model.push(...outlineMarks(shape, { ...contact, title: label }));

  const box = model.map(boxOfMark).reduce(joinBoxes, boxRound(points));
  const { minX, minY, maxX, maxY } = box.minX <= box.maxX ? box : boxAt(0, 0, 1000, 1000);
  if (!fits({ minX, minY, maxX, maxY })) return null;
  const h = (maxY - minY) / scale + 2 * around;

  const dx = (area.minX + area.maxX) / 2 - (minX + maxX) / 2 / scale;
  const dy = area.maxY - TOP_MM - around - maxY / scale;
  const onPage = ([x, y]: readonly [number, number]): [number, number] => [x / scale + dx, y / scale + dy];
  const out: Mark[] = model.map((mark) => placed(mark, { factor: 1 / scale, dx, dy }));
  const bottom = area.maxY - TOP_MM - h;
  const bounds: DrawnBox = { minX: area.minX, maxX: area.maxX, minY: bottom, maxY: area.maxY - TOP_MM };

  // The centre line, through the drawing.
  const vs = [minX, maxX].flatMap((x) => [minY, maxY].map((y) => inFrame(frame, [x, y])[1]));
  const [low, high] = [Math.min(...vs) - 3 * scale, Math.max(...vs) + around * scale];
  const line = style('centre', { line: CENTRE, zMm: 1e4 });
  const clip = (p: readonly [number, number]): [number, number] => [
    Math.min(Math.max(p[0], bounds.minX), bounds.maxX),
    Math.min(Math.max(p[1], bounds.minY), bounds.maxY),
  ];
  const centre = [outOfFrame(frame, [0, low]), outOfFrame(frame, [0, high])].map(onPage).map(clip);
  out.push(lineMark({ ...line, title: 'Centre line' }, ...centre[0], ...centre[1]));

  // How the tapes run, for the first mark.
  const [first] = made.groups;
  if (first && near)
    for (const { at } of [first.first, first.second])
      out.push(
        lineMark(style('dimensions', { line: NEIGHBOUR, zMm: 1e4 }), ...onPage(at), ...onPage(first.marks[0].mark.at)),
      );

  const cross = style('dimensions', { line: THIN, zMm: 1e5 });
  for (const { mark } of marks) {
    const [x, y] = onPage(mark.at);
    out.push(lineMark(cross, x - CROSS_MM, y, x + CROSS_MM, y), lineMark(cross, x, y - CROSS_MM, x, y + CROSS_MM));
  }

  // Hooks stand outward of their corner.
  const taken: DrawnBox[] = [];
  const middle = onPage([(minX + maxX) / 2, (minY + maxY) / 2]);
  const hooks = marks.some(({ control }) => control?.to === 'O')
    ? [...datums, { letter: 'O', at: frame.origin }]
    : datums;
  if (near)
    for (const { letter, at } of hooks) {
      const [x, y] = onPage(at);
      const far = Math.hypot(x - middle[0], y - middle[1]) || 1;
      const [hx, hy] = [x + ((x - middle[0]) / far) * HOOK_OFF_MM, y + ((y - middle[1]) / far) * HOOK_OFF_MM];
      const s = style('names', { line: THIN, tint: 'paper', zMm: 1e6 });
      out.push(
        circleMark({ ...s, line: null, tint: 'solid' }, x, y, 0.7),
        circleMark({ ...s, line: WIDE }, hx, hy, HOOK_RADIUS_MM),
      );
      const size = TEXT_MM.normal;
      out.push(textMark(s, letter, hx, hy - (size * CAPITAL_OF_EM) / 2, size, { anchor: 'middle', bold: true }));
      taken.push(boxAt(hx, hy, 2 * HOOK_RADIUS_MM, 2 * HOOK_RADIUS_MM));
    }

  if (!near)
    for (const { letter, at } of datums) {
      const s = style('names', { line: WIDE, tint: 'paper', zMm: 1e6 });
      const [px, py] = onPage(at);
      const side = px < middle[0] ? -1 : 1;
      const x = side < 0 ? bounds.minX + HOOK_RADIUS_MM : bounds.maxX - HOOK_RADIUS_MM;
      const y = Math.min(Math.max(py, bounds.minY + 2 * HOOK_RADIUS_MM), bounds.maxY - HOOK_RADIUS_MM);
      out.push(circleMark(s, x, y, HOOK_RADIUS_MM));
      const size = TEXT_MM.normal;
      out.push(textMark(s, letter, x, y - (size * CAPITAL_OF_EM) / 2, size, { anchor: 'middle', bold: true }));
      const far = tapeLength(Math.hypot(at[0] - frame.origin[0], at[1] - frame.origin[1]), plan.units);
      const [atX, anchor] = side < 0 ? ([bounds.minX, 'start'] as const) : ([bounds.maxX, 'end'] as const);
      const words = textMark(s, `${far} from O`, atX, y - HOOK_RADIUS_MM - 2.6, TEXT_MM.small, { anchor });
      out.push(words);
      taken.push(textBox(words, 1, measure), boxAt(x, y, 2 * HOOK_RADIUS_MM, 2 * HOOK_RADIUS_MM));
    }

  const requests = marks.map(({ number, mark }) => {
    const [x, y] = onPage(mark.at);
    return numberRequest({ id: `mark-${number}`, text: String(number), form: 'name', x, y, pieceId: null });
  });
  const field = bareField(out, { bounds, taken, scale: 1, measure }, ({ ink }) => (ink === 'faint' ? 0.3 : 1));
  const places = placeLabels(requests, field);
  for (const place of places) out.push(...labelMarks(place, field));
  // A number that found no place with a leader of its own takes the nearest that no other text has, whatever its leader crosses.
  const others = new Placed(
    LABEL_MM,
    0,
    places.map(({ box }) => ({ box })),
  );
  const placedIds = new Set(places.map(({ request }) => request.id));
  for (const { id, text, sizeMm, x, y } of requests) {
    if (placedIds.has(id)) continue;
    const s = style('names', { line: THIN, zMm: 1e6 });
    const spots = Array.from({ length: LAST_RESORTS }, (_, k) => {
      const [angle, far] = [(k % 16) * (Math.PI / 8), 2.5 + Math.floor(k / 16) * 1.5];
      const [px, py] = [x + far * Math.cos(angle), y + far * Math.sin(angle)];
      const mark = textMark(s, text, px, py - (sizeMm * CAPITAL_OF_EM) / 2, sizeMm, { anchor: 'middle', bold: true });
      return { mark, px, py, box: textBox(mark, 1, measure) };
    });
    const free = firstFree({ spots: spots.filter((spot) => within(spot.box, bounds)) }, { others, taken });
    const { mark, px, py, box } = free ?? spots[LAST_RESORTS - 1];
    out.push(
      lineMark(s, x, y, px, py),
      { ...boxMark(s, box.minX, box.minY, box.maxX, box.maxY), line: null, tint: 'paper' },
      mark,
    );
    others.add({ box });
  }

  stageWords(page, area, bottom, onPage(frame.origin)[0]);
  scaleBar(page, area.minX, bottom - STRIP_MM + 3, scale, plan.units);
  return { marks: out, scale, bottomMm: bottom - STRIP_MM };
}

function stageWords(page: Page, area: Box, bottom: number, centreX: number): void {
  sideWords(page, area.minX, area.maxX, area.maxY - TEXT_MM.small * CAPITAL_OF_EM - 0.5, centreX);
  page.text('AUDIENCE', centreX, bottom - STRIP_MM + 3, { bold: true, anchor: 'middle', sizeMm: TEXT_MM.normal });
}
