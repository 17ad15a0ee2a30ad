/**
 * Linear dimensions as working drawings have them: extension lines with a gap at the thing and a little beyond the
 * dimension line, filled arrowheads, the number above the line and readable from the bottom or the right.
 *
 * Units: lengths of the model in mm; what belongs to the paper (arrows, gaps, text) is in mm of paper times the scale.
 * Source: ISO 129-1:2018 for the manner (from memory); sizes of arrows and gaps are common practice.
 */
import { movePoint } from '../geometry/frame.ts';
import { CAPITAL_OF_EM, lineMark, type Mark, polygonMark, style, TEXT_MM, THIN, textMark } from './displayList.ts';
import type { MeasureText } from './textWidth.ts';

const ARROW_MM = 2.6;
/** Half the arrow's width: a filled head of about 18 degrees. */
const ARROW_HALF_MM = 0.42;
const GAP_MM = 1;
const BEYOND_MM = 1.6;
const TEXT_GAP_MM = 0.8;

export interface DimensionRequest {
  /** The two measured points. */
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Which way the measure runs, radians: 0 a width, pi/2 a depth. */
  readonly alongRad: number;
  /** Where the dimension line lies: its distance from the origin along the normal (alongRad + 90 degrees), mm of the model. */
  readonly lineAt: number;
  readonly text: string;
  /** Model mm in one mm of paper: 20 at 1:20. */
  readonly scale: number;
  readonly measure: MeasureText;
  readonly title?: string;
}

const dimensionStyle = style('dimensions', { line: THIN, zMm: 1e5 });

/** An arrowhead with its tip at a place, pointing along an angle. */
export function arrowhead(x: number, y: number, towardsRad: number, scale: number): Mark {
  const c = Math.cos(towardsRad) * scale;
  const s = Math.sin(towardsRad) * scale;
  const backX = x - ARROW_MM * c;
  const backY = y - ARROW_MM * s;
  return polygonMark({ ...dimensionStyle, tint: 'solid', line: null }, [
    x,
    y,
    backX - ARROW_HALF_MM * s,
    backY + ARROW_HALF_MM * c,
    backX + ARROW_HALF_MM * s,
    backY - ARROW_HALF_MM * c,
  ]);
}

/** Numbers last, each on a bit of bare paper, so that another dimension's extension line does not run through it. */
export function numbersOnTop(marks: readonly Mark[], scale: number, measure: MeasureText): Mark[] {
  const lines = marks.filter((mark) => mark.kind !== 'text');
  const numbers = marks.filter((mark) => mark.kind === 'text');
  const backings = numbers.map((mark) => {
    const half = (measure(mark.text, mark.sizeMm, mark.bold) / 2 + 0.4) * scale;
    const high = mark.sizeMm * CAPITAL_OF_EM * scale + 0.3 * scale;
    const corners = [
      [-half, -0.3 * scale],
      [half, -0.3 * scale],
      [half, high],
      [-half, high],
    ].flatMap(([u, v]) => movePoint({ angle: mark.rotation, dx: mark.x, dy: mark.y }, u, v));
    return polygonMark({ ...dimensionStyle, line: null, tint: 'paper' }, corners);
  });
  return [...lines, ...backings, ...numbers];
}

/** One dimension. Marks in the model's frame. */
export function dimensionMarks(request: DimensionRequest): Mark[] {
  const { from, to, alongRad, lineAt, text, scale, measure } = request;
  const title = request.title ?? null;
  const s = { ...dimensionStyle, title };
  const ux = Math.cos(alongRad);
  const uy = Math.sin(alongRad);
  // In the frame of the dimension: u along it, v across it.
  const u = (p: readonly [number, number]) => p[0] * ux + p[1] * uy;
  const v = (p: readonly [number, number]) => -p[0] * uy + p[1] * ux;
  const point = (pu: number, pv: number): [number, number] => [pu * ux - pv * uy, pu * uy + pv * ux];
  const marks: Mark[] = [];
  for (const p of [from, to]) {
    const side = Math.sign(lineAt - v(p)) || 1;
    if (Math.abs(lineAt - v(p)) < GAP_MM * scale) continue;
    marks.push(
      lineMark(s, ...point(u(p), v(p) + side * GAP_MM * scale), ...point(u(p), lineAt + side * BEYOND_MM * scale)),
    );
  }
  const u0 = Math.min(u(from), u(to));
  const u1 = Math.max(u(from), u(to));
  const size = TEXT_MM.normal;
  const width = measure(text, size, false) * scale;
  const arrow = ARROW_MM * scale;
  // Arrows point outward from within, unless there is no room for them and the number.
  const roomy = u1 - u0 >= width + 2 * arrow + 2 * scale;
  const [ax, ay] = point(u0, lineAt);
  const [bx, by] = point(u1, lineAt);
  if (roomy) {
    marks.push(lineMark(s, ax, ay, bx, by));
    marks.push(arrowhead(ax, ay, alongRad + Math.PI, scale), arrowhead(bx, by, alongRad, scale));
  } else {
    marks.push(lineMark(s, ...point(u0 - 2 * arrow, lineAt), ...point(u1 + 2 * arrow, lineAt)));
    marks.push(arrowhead(ax, ay, alongRad, scale), arrowhead(bx, by, alongRad + Math.PI, scale));
  }
  // Above the line as read: for a depth (along +y) above is to its left, which is +v too.
  const [tx, ty] = point((u0 + u1) / 2, lineAt + TEXT_GAP_MM * scale);
  marks.push(textMark(s, text, tx, ty, size, { anchor: 'middle', rotation: alongRad }));
  return marks;
}
