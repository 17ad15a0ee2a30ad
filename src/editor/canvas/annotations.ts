/** What lies above the kit, painted: a gap with its number, flags, handles. All in CSS px; each painter paints one node. */
import type { Finding } from '../../checks/finding.ts';
import { flaggedFindings } from '../../drawing/names.ts';
import { contentBox } from '../state/content.ts';
import { findingKey, MOST_FLAGS } from '../state/findingRows.ts';
import type { Handle, RiserLines } from '../state/handles.ts';
import type { Live } from '../state/live.ts';
import { type Point, type Size, screenPoint, type View } from '../state/view.ts';
import { FONT } from './ground.ts';
import type { Context } from './paint.ts';
import type { Palette } from './palette.ts';

const TAU = 2 * Math.PI;
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
export function paintGap(context: Context, a: Point, b: Point, text: string, colour: string, palette: Palette): void {
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

/** A ring round what stands over an edge, its number beneath. */
export function paintRing(context: Context, at: Point, r: number, text: string, ink: string, palette: Palette): void {
  context.strokeStyle = ink;
  context.lineWidth = 1.6;
  context.setLineDash([4, 3]);
  context.beginPath();
  context.arc(at.x, at.y, r, 0, TAU);
  context.stroke();
  context.setLineDash([]);
  pill(context, text, { x: at.x, y: at.y + r + 14 }, ink, palette);
}

export interface Flag {
  readonly finding: Finding;
  readonly number: number;
  /** Where the flag stands, and what it points at. px. */
  readonly at: Point;
  readonly tip: Point;
}

/** The flags' places, outward from the drawing's middle, moved on round while they would lie on each other. `chosen`: a finding's key. */
export function flagsOf(live: Live, view: View, size: Size, chosen: string | null): Flag[] {
  const box = contentBox(live.layout);
  const middle = screenPoint(view, size, (box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const taken: Point[] = [];
  const numbered = flaggedFindings(live.checked.findings).map((finding, k) => ({ finding, number: k + 1 }));
  const shown = numbered.filter(
    ({ finding, number }) => number <= MOST_FLAGS || (chosen !== null && findingKey(finding) === chosen),
  );
  return shown.map(({ finding, number }) => {
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
    return { finding, number, at, tip };
  });
}

/** A flag about its own place. Its outline tells its state without its colour: square, triangle, ring. */
export function paintFlag(
  context: Context,
  { finding, number, at, tip }: Flag,
  chosen: boolean,
  palette: Palette,
): void {
  const colour = palette.ink[finding.state];
  const [dx, dy] = [tip.x - at.x, tip.y - at.y];
  context.strokeStyle = colour;
  context.lineWidth = 1.1;
  context.beginPath();
  context.moveTo(dx, dy);
  context.lineTo(0, 0);
  context.stroke();
  context.fillStyle = colour;
  context.beginPath();
  context.arc(dx, dy, 2.4, 0, TAU);
  context.fill();
  context.beginPath();
  const r = FLAG_PX + (chosen ? 2 : 0);
  if (finding.state === 'blocked') context.rect(-r, -r, 2 * r, 2 * r);
  else if (finding.state === 'tight') {
    context.moveTo(0, -r - 3.5);
    context.lineTo(r + 3, r - 1);
    context.lineTo(-r - 3, r - 1);
    context.closePath();
  } else context.arc(0, 0, r, 0, TAU);
  context.fillStyle = chosen ? colour : palette.paper;
  context.fill();
  context.lineWidth = 1.6;
  context.stroke();
  context.font = `700 10.5px ${FONT}`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.fillStyle = chosen ? palette.paper : colour;
  context.fillText(String(number), 0, finding.state === 'tight' ? 2.5 : 0.5);
}

function turnHandle(context: Context, toPivot: Point): void {
  context.setLineDash([3, 3]);
  context.beginPath();
  context.moveTo(toPivot.x, toPivot.y);
  context.lineTo(0, 0);
  context.stroke();
  context.setLineDash([]);
  context.beginPath();
  context.arc(0, 0, 8, 0, TAU);
  context.fill();
  context.stroke();
  // A round arrow inside: it turns.
  context.beginPath();
  context.arc(0, 0, 4, -2.4, 1.6);
}

/** A handle about its own place. `toPivot`: from there to what a turn handle turns about, px. */
export function paintHandle(context: Context, handle: Handle, toPivot: Point, palette: Palette): void {
  context.lineWidth = 1.6;
  context.strokeStyle = palette.accent;
  context.fillStyle = palette.paper;
  if (handle.kind === 'turn') turnHandle(context, toPivot);
  else {
    context.beginPath();
    if (handle.kind === 'leg') context.rect(-6, -6, 12, 12);
    else if (handle.kind === 'module') {
      context.roundRect(-9, -9, 18, 18, 4);
      context.moveTo(-5, 0);
      context.lineTo(5, 0);
      context.moveTo(0, -5);
      context.lineTo(0, 5);
    } else if (handle.kind === 'foot') {
      context.moveTo(0, -7);
      context.lineTo(7, 0);
      context.lineTo(0, 7);
      context.lineTo(-7, 0);
      context.closePath();
    } else if (handle.kind === 'clamp') {
      // A bar across the tube: it slides along it.
      context.rotate(-handle.along);
      context.roundRect(-4.5, -10, 9, 20, 2);
    } else context.arc(0, 0, 6, 0, TAU);
    context.fill();
  }
  context.stroke();
}

/** A module that a gesture moves, and wide on it the edges that it shares. */
export function paintModule(
  context: Context,
  { outline, seams }: RiserLines,
  at: (x: number, y: number) => Point,
  palette: Palette,
): void {
  const line = (points: readonly number[], width: number) => {
    context.lineWidth = width;
    context.beginPath();
    for (let k = 0; k < points.length; k += 2) {
      const { x, y } = at(points[k], points[k + 1]);
      context.lineTo(x, y);
    }
    context.closePath();
    context.stroke();
  };
  context.strokeStyle = palette.accent;
  line(outline, 1.5);
  for (const seam of seams) line(seam, 5);
}

export function paintMarquee(context: Context, a: Point, b: Point, palette: Palette): void {
  context.strokeStyle = palette.accent;
  context.lineWidth = 1;
  context.setLineDash([4, 3]);
  context.strokeRect(a.x, a.y, b.x - a.x, b.y - a.y);
}
