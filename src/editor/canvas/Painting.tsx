/** What the drawing's layers share: how mm become pixels, in which colours, and nodes that our own painters paint. */
import type Konva from 'konva/lib/Core';
import { memo } from 'react';
import { Shape } from 'react-konva/es/ReactKonvaCore';
import { PaintingProblem } from '../state/failure.ts';
import type { Run } from '../state/marks.ts';
import type { Size, View } from '../state/view.ts';
import { type Context, paintMarks } from './paint.ts';
import type { Palette } from './palette.ts';

export interface Paper {
  readonly size: Size;
  /** Device pixels in one CSS px. */
  readonly ratio: number;
  readonly palette: Palette;
}

/** Attributes of a layer or a group whose children speak mm of the plan, y up. */
export const planAttrs = ({ xMm, yMm, zoom }: View, { width, height }: Size) => ({
  x: width / 2 - xMm * zoom,
  y: height / 2 + yMm * zoom,
  scaleX: zoom,
  scaleY: -zoom,
});

/** CSS px in one mm where a shape is painted: its parent carries the scale, so that zooming changes no shape. */
const pxPerMm = (shape: Konva.Shape): number => shape.getParent()!.scaleX();

export interface PaintingProps {
  readonly name: string;
  readonly x?: number;
  readonly y?: number;
  /** What a press on it takes hold of (pointers.ts). */
  readonly grip?: unknown;
  /** px or mm, as its parent speaks; `scale`: its parent's, CSS px in one unit. */
  paint(context: Context, scale: number): void;
}

/** One node that a painter of ours paints. */
export function Painting({ paint, ...attrs }: PaintingProps) {
  return (
    <Shape
      {...attrs}
      listening={false}
      perfectDrawEnabled={false}
      sceneFunc={(context, shape) => {
        try {
          paint(context._context as Context, pxPerMm(shape));
        } catch (problem) {
          throw new PaintingProblem(problem);
        }
      }}
    />
  );
}

export interface PieceRunProps {
  readonly run: Run;
  readonly palette: Palette;
}

/** Marks of a piece that lie between those of others, in mm. It stays as it is while its marks are the same objects. */
export const PieceRun = memo(
  function PieceRun({ run, palette }: PieceRunProps) {
    return (
      <Painting
        name={run.piece}
        paint={(context, scale) => paintMarks(context, run.marks, { palette, pxPerMm: scale })}
      />
    );
  },
  (a, b) =>
    a.palette === b.palette &&
    a.run.piece === b.run.piece &&
    a.run.marks.length === b.run.marks.length &&
    a.run.marks.every((mark, k) => mark === b.run.marks[k]),
);
