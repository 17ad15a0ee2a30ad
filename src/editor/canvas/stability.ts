/**
 * Whether what is chosen stands, drawn on the plan: the support polygon of the assembly that it belongs to, its mass centre,
 * and the direction in which it falls first, with the angle that the floor may tilt before it does.
 *
 * The figures are the checks' own (checks/stability.ts). Without a known mass there is a polygon and nothing else.
 */
import { loadLimit } from '../../checks/ownLimits.ts';
import {
  type Assembly,
  type AssemblyReading,
  assembliesOf,
  assemblyReadings,
  restsOf,
} from '../../checks/stability.ts';
import { DASHES } from '../../drawing/displayList.ts';
import { hull } from '../../geometry/hull.ts';
import type { Swept } from '../../geometry/shapes.ts';
import { formatAngle, toRadians } from '../../units.ts';
import type { Live } from '../state/live.ts';
import { type Point, type Size, screenPoint, type View } from '../state/view.ts';
import { FONT } from './ground.ts';
import type { Context } from './paint.ts';
import type { Palette } from './palette.ts';

export interface Standing {
  readonly assembly: Assembly;
  readonly reading: AssemblyReading;
  /** What of its contacts rests on the deck. */
  readonly rests: readonly Swept[];
}

/** More polygons at once than these tell nothing. */
const MOST = 3;

/** The rigid assemblies that the chosen pieces belong to and that stand on the floor. */
export function standingOf({ plan, layout }: Live, selection: readonly string[]): Standing[] {
  const chosen = new Set(selection);
  const theirs = new Set(layout.bodies.filter(({ piece }) => chosen.has(piece)).map(({ assembly }) => assembly));
  const own = assembliesOf(layout.bodies.filter(({ assembly }) => theirs.has(assembly))).filter(
    ({ pieces, contacts }) => contacts.length > 0 && pieces.some((piece) => chosen.has(piece)),
  );
  if (own.length > MOST) return [];
  const readings = assemblyReadings(plan, layout.deck, own);
  return own.map((assembly, k) => ({ assembly, reading: readings[k], rests: restsOf(assembly, layout.deck) }));
}

function polygon(context: Context, rests: readonly Swept[], view: View, size: Size): void {
  if (rests.length === 0) return;
  context.beginPath();
  for (const piece of hull(rests)) {
    if (piece.kind === 'segment') {
      const from = screenPoint(view, size, piece.x0, piece.y0);
      const to = screenPoint(view, size, piece.x1, piece.y1);
      context.lineTo(from.x, from.y);
      context.lineTo(to.x, to.y);
    } else {
      const centre = screenPoint(view, size, piece.cx, piece.cy);
      // The page's y runs up, the screen's down: angles turn round.
      const end = piece.start + piece.sweep;
      context.arc(centre.x, centre.y, piece.r * view.zoom, -piece.start, -end, piece.sweep > 0);
    }
  }
  context.closePath();
  context.stroke();
}

/** A quartered disc, as mass centres are marked on drawings. */
function massMark(context: Context, at: Point, ink: string, paper: string): void {
  const r = 7;
  context.fillStyle = paper;
  context.beginPath();
  context.arc(at.x, at.y, r, 0, 2 * Math.PI);
  context.fill();
  context.fillStyle = ink;
  for (const from of [0, Math.PI]) {
    context.beginPath();
    context.moveTo(at.x, at.y);
    context.arc(at.x, at.y, r, from, from + Math.PI / 2);
    context.closePath();
    context.fill();
  }
  context.beginPath();
  context.arc(at.x, at.y, r, 0, 2 * Math.PI);
  context.stroke();
}

function arrow(context: Context, from: Point, directionRad: number, lengthPx: number): Point {
  const to = { x: from.x + lengthPx * Math.cos(directionRad), y: from.y - lengthPx * Math.sin(directionRad) };
  context.beginPath();
  context.moveTo(from.x, from.y);
  context.lineTo(to.x, to.y);
  for (const side of [-1, 1]) {
    const back = directionRad + Math.PI + side * 0.42;
    context.moveTo(to.x, to.y);
    context.lineTo(to.x + 9 * Math.cos(back), to.y - 9 * Math.sin(back));
  }
  context.stroke();
  return to;
}

/** Arrows shorter than this cannot be seen beside the mass centre's mark. CSS px. */
const LEAST_ARROW_PX = 26;

export function paintStanding(
  context: Context,
  standing: readonly Standing[],
  { plan }: Live,
  { view, size }: { readonly view: View; readonly size: Size },
  palette: Palette,
): void {
  const limit = loadLimit(plan, 'tipAngleDeg').value;
  for (const { reading, rests } of standing) {
    const { centre, tipMargin, tipAngle, tipDirection } = reading;
    const isKnown = centre !== null && tipMargin !== null && tipAngle !== null && tipDirection !== null;
    const state = !isKnown ? 'unmeasured' : tipMargin <= 0 ? 'blocked' : tipAngle < limit ? 'tight' : 'clear';
    const ink = palette.ink[state];
    context.strokeStyle = ink;
    context.lineWidth = 1;
    context.setLineDash(DASHES.longDashDoubleDot.map((part) => Math.max(1.2, part * 0.7)));
    polygon(context, rests, view, size);
    context.setLineDash([]);
    if (!isKnown) continue;
    context.lineWidth = 1.4;
    const at = screenPoint(view, size, centre[0], centre[1]);
    // From the mass centre to the edge over which it tips.
    const to = arrow(context, at, toRadians(tipDirection), Math.max(LEAST_ARROW_PX, Math.abs(tipMargin) * view.zoom));
    massMark(context, at, ink, palette.paper);
    const text = tipMargin <= 0 ? 'falls' : `tips at ${formatAngle(tipAngle)}`;
    context.font = `600 11px ${FONT}`;
    context.textBaseline = 'middle';
    const out = { x: Math.cos(toRadians(tipDirection)), y: -Math.sin(toRadians(tipDirection)) };
    context.textAlign = out.x < -0.3 ? 'right' : out.x > 0.3 ? 'left' : 'center';
    const place = { x: to.x + 6 * out.x, y: to.y + 12 * out.y };
    context.lineWidth = 4;
    context.strokeStyle = palette.halo;
    context.strokeText(text, place.x, place.y);
    context.fillStyle = ink;
    context.fillText(text, place.x, place.y);
  }
}
