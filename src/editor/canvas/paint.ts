/** A display list on a canvas: a fold over its marks. Paths are made once for each mark, in mm, and kept while it lives. */
import { DASHES, type Line, type Mark, type PathMark } from '../../drawing/displayList.ts';
import { kept } from '../../keep.ts';
import type { Size, View } from '../state/view.ts';
import type { Palette } from './palette.ts';

export type Context = CanvasRenderingContext2D;

/** CSS px: wide is twice thin, as ISO 128 has it. */
const LINE_PX: Readonly<Record<Line['width'], number>> = { wide: 1.7, thin: 0.85 };

function chainPath(mark: PathMark): Path2D {
  const path = new Path2D();
  for (const { pieces, closed } of mark.chains) {
    pieces.forEach((piece, k) => {
      if (piece.kind === 'segment') {
        if (k === 0) path.moveTo(piece.x0, piece.y0);
        path.lineTo(piece.x1, piece.y1);
        return;
      }
      const { cx, cy, r, start, sweep } = piece;
      if (k === 0) path.moveTo(cx + r * Math.cos(start), cy + r * Math.sin(start));
      path.arc(cx, cy, r, start, start + sweep, sweep < 0);
    });
    if (closed) path.closePath();
  }
  return path;
}

const pathOf = kept((mark: Exclude<Mark, { kind: 'text' }>): Path2D => {
  if (mark.kind === 'path') return chainPath(mark);
  const path = new Path2D();
  if (mark.kind === 'circle') path.arc(mark.cx, mark.cy, mark.r, 0, 2 * Math.PI);
  else {
    const { cx, cy, rx, ry, rotation, start, sweep } = mark;
    path.ellipse(cx, cy, rx, ry, rotation, start, start + sweep, sweep < 0);
  }
  return path;
});

/** Sets the context to mm of the plan, y up. `ratio`: device pixels in one CSS px. */
export function planSpace(context: Context, view: View, size: Size, ratio: number): void {
  const k = view.zoom * ratio;
  context.setTransform(k, 0, 0, -k, (size.width / 2) * ratio - view.xMm * k, (size.height / 2) * ratio + view.yMm * k);
}

export interface PaintOptions {
  readonly palette: Palette;
  readonly pxPerMm: number;
  /** Every line in this colour: what is lit up. */
  readonly ink?: string;
  /** Wider by this factor. */
  readonly widen?: number;
}

function stroke(
  context: Context,
  path: Path2D,
  line: Line,
  colour: string,
  { pxPerMm, widen = 1 }: PaintOptions,
): void {
  const width = (LINE_PX[line.width] * widen) / pxPerMm;
  context.lineWidth = width;
  context.strokeStyle = colour;
  context.setLineDash(DASHES[line.kind].map((part) => (part * LINE_PX[line.width] * 0.7) / pxPerMm));
  context.stroke(path);
}

/** Inputs: a context in plan space (planSpace), marks from low to high. Texts are left out: names have a layer of their own. */
export function paintMarks(context: Context, marks: readonly Mark[], options: PaintOptions): void {
  const { palette } = options;
  context.lineJoin = 'round';
  for (const mark of marks) {
    if (mark.kind === 'text') continue;
    const path = pathOf(mark);
    if (mark.tint !== null) {
      context.fillStyle = mark.tint === 'solid' ? (options.ink ?? palette.ink[mark.ink]) : palette.tint[mark.tint];
      context.fill(path, 'evenodd');
    }
    if (mark.line !== null) stroke(context, path, mark.line, options.ink ?? palette.ink[mark.ink], options);
  }
  context.setLineDash([]);
}

/**
 * Edges that lie under something, dashed. Drawn over everything: where such an edge is seen its own solid line is there
 * already, so that dashes show only where something covers it.
 */
export function paintCovered(context: Context, marks: readonly Mark[], options: PaintOptions): void {
  context.globalAlpha = 0.55;
  for (const mark of marks)
    if (mark.kind !== 'text' && mark.covered === 'dashed' && mark.line !== null)
      stroke(context, pathOf(mark), { kind: 'dashed', width: 'thin' }, options.palette.ink.ink, options);
  context.globalAlpha = 1;
  context.setLineDash([]);
}

export function outlineOnly(context: Context, marks: readonly Mark[], options: PaintOptions): void {
  for (const mark of marks)
    if (mark.kind !== 'text' && mark.line !== null)
      stroke(context, pathOf(mark), mark.line, options.ink ?? '', options);
  context.setLineDash([]);
}
