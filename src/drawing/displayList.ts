/**
 * The display list: what a drawing is, before any device draws it. Screen, PDF and SVG are folds over it.
 *
 * Units: mm in the frame of geometry/frame.ts (y up), radians. Line widths and text heights are in mm on paper: a line
 *        is as wide at 1:20 as at 1:10. Text therefore also scales with the paper, not with the model.
 * Order: a list is drawn from first to last; an opaque tint covers what came before it.
 */
import { TAU } from '../geometry/frame.ts';
import type { Piece } from '../geometry/outline.ts';

/** Line kinds of ISO 128: visible edges; hidden edges; centre lines; neighbouring and extreme positions. */
export type LineKind = 'continuous' | 'dashed' | 'longDashDot' | 'longDashDoubleDot';

export interface Line {
  readonly kind: LineKind;
  readonly width: 'wide' | 'thin';
}

export type Layer =
  | 'deck'
  | 'stage'
  | 'feet'
  | 'stands'
  | 'racks'
  | 'pedals'
  | 'throne'
  | 'drums'
  | 'cymbals'
  | 'mounts'
  | 'centre'
  | 'dimensions'
  | 'names'
  | 'findings'
  | 'frame';

/** What a surface is filled with, by meaning; each device has its own colours, and one for black and white. */
export type Tint =
  | 'ground'
  | 'low'
  | 'middle'
  | 'high'
  /** A cymbal: it lets what lies beneath show through. */
  | 'overhead'
  | 'deck'
  | 'stage'
  /** The bare paper, to keep something readable over lines. */
  | 'paper'
  /** Solid, in the mark's ink: arrowheads, dots. */
  | 'solid'
  | 'band';

/** What a line or a text is drawn in, by meaning. */
export type Ink = 'ink' | 'faint' | 'clear' | 'tight' | 'blocked' | 'unmeasured';

export interface Style {
  readonly layer: Layer;
  /** null: no edge, only a tint. */
  readonly line: Line | null;
  /** null: no fill. */
  readonly tint: Tint | null;
  readonly ink: Ink;
  /** Height of its top above the deck: marks are drawn from low to high. */
  readonly zMm: number;
  readonly pieceId: string | null;
  /** Marks with the same part belong to one thing: they cover each other without leaving hidden lines. */
  readonly part: string;
  /** For a tooltip, and an SVG's title element. */
  readonly title: string | null;
  /** Whether a covered stretch of its edge is shown dashed, or is simply not seen. */
  readonly covered: 'dashed' | 'unseen';
}

/** A chain of straight and round stretches, each beginning where the one before ends. */
export interface Chain {
  readonly pieces: readonly Piece[];
  readonly closed: boolean;
}

/** Several chains fill by the even-odd rule: a ring is two. */
export interface PathMark extends Style {
  readonly kind: 'path';
  readonly chains: readonly Chain[];
}

export interface CircleMark extends Style {
  readonly kind: 'circle';
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
}

/** The whole ellipse, or the part from parameter `start` through `sweep` (the angle before it is squeezed). */
export interface EllipseMark extends Style {
  readonly kind: 'ellipse';
  readonly cx: number;
  readonly cy: number;
  readonly rx: number;
  readonly ry: number;
  /** Angle of the rx axis. */
  readonly rotation: number;
  readonly start: number;
  readonly sweep: number;
}

export interface TextMark extends Style {
  readonly kind: 'text';
  readonly text: string;
  /** The anchor on the baseline. */
  readonly x: number;
  readonly y: number;
  /** Size of the type (em) in mm on paper; capitals are 0.714 of it. */
  readonly sizeMm: number;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly rotation: number;
  readonly bold: boolean;
}

export type Mark = PathMark | CircleMark | EllipseMark | TextMark;

/** An upright box. */
export interface DrawnBox {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

export interface DisplayList {
  readonly marks: readonly Mark[];
  readonly box: DrawnBox;
}

export const WIDE: Line = { kind: 'continuous', width: 'wide' };
export const THIN: Line = { kind: 'continuous', width: 'thin' };
export const HIDDEN: Line = { kind: 'dashed', width: 'thin' };
export const CENTRE: Line = { kind: 'longDashDot', width: 'thin' };
export const NEIGHBOUR: Line = { kind: 'longDashDoubleDot', width: 'thin' };

/** Widths on paper, mm: wide is twice thin. Source: Manual of Engineering Drawing, ch. 7; the pair from its series of pens, for A4. */
export const LINE_WIDTH_MM: Readonly<Record<Line['width'], number>> = { wide: 0.35, thin: 0.175 };

/**
 * Dashes and gaps in line widths. Source: ISO 128 for the kinds, as that manual has them; the lengths (dash 12, long dash 24, gap 3, dot
 * 0.5) are those of ISO 128 as drawing programs use them, common practice here.
 */
export const DASHES: Readonly<Record<LineKind, readonly number[]>> = {
  continuous: [],
  dashed: [12, 3],
  longDashDot: [24, 3, 0.5, 3],
  longDashDoubleDot: [24, 3, 0.5, 3, 0.5, 3],
};

/** Heights of capitals on paper are those of ISO 3098 (1.8, 2.5, 3.5, 5 mm); Open Sans' capitals are 0.714 em. */
export const CAPITAL_OF_EM = 0.714;

/** Type sizes (em), mm on paper. */
export const TEXT_MM = { small: 1.8 / CAPITAL_OF_EM, normal: 2.5 / CAPITAL_OF_EM, title: 5 / CAPITAL_OF_EM } as const;

/** A style to begin from. */
export function style(layer: Layer, changes: Partial<Style> = {}): Style {
  return {
    layer,
    line: THIN,
    tint: null,
    ink: 'ink',
    zMm: 0,
    pieceId: null,
    part: layer,
    title: null,
    covered: 'unseen',
    ...changes,
  };
}

/** A chain through corners x0, y0, x1, y1 ... */
export function straightChain(points: readonly number[], closed: boolean): Chain {
  const pieces: Piece[] = [];
  for (let i = 0; i + 3 < points.length; i += 2)
    pieces.push({ kind: 'segment', x0: points[i], y0: points[i + 1], x1: points[i + 2], y1: points[i + 3] });
  const n = points.length;
  if (closed && n >= 6)
    pieces.push({ kind: 'segment', x0: points[n - 2], y0: points[n - 1], x1: points[0], y1: points[1] });
  return { pieces, closed };
}

export function lineMark(s: Style, ...points: number[]): PathMark {
  return { ...s, kind: 'path', chains: [straightChain(points, false)] };
}

export function polygonMark(s: Style, points: readonly number[]): PathMark {
  return { ...s, kind: 'path', chains: [straightChain(points, true)] };
}

export function boxMark(s: Style, minX: number, minY: number, maxX: number, maxY: number): PathMark {
  return polygonMark(s, [minX, minY, maxX, minY, maxX, maxY, minX, maxY]);
}

export function circleMark(s: Style, cx: number, cy: number, r: number): CircleMark {
  return { ...s, kind: 'circle', cx, cy, r };
}

const LEVEL = { anchor: 'start', rotation: 0, bold: false } as const;

export function textMark(
  s: Style,
  text: string,
  x: number,
  y: number,
  sizeMm: number,
  options: Partial<Pick<TextMark, 'anchor' | 'rotation' | 'bold'>> = {},
): TextMark {
  return { ...s, kind: 'text', text, x, y, sizeMm, ...LEVEL, ...options, line: null, tint: null };
}

/** A point of an ellipse at a parameter. */
export function ellipsePoint(e: EllipseMark, at: number): [number, number] {
  const c = Math.cos(e.rotation);
  const s = Math.sin(e.rotation);
  const u = e.rx * Math.cos(at);
  const v = e.ry * Math.sin(at);
  return [e.cx + c * u - s * v, e.cy + s * u + c * v];
}

const NOWHERE: DrawnBox = {
  minX: Number.POSITIVE_INFINITY,
  minY: Number.POSITIVE_INFINITY,
  maxX: Number.NEGATIVE_INFINITY,
  maxY: Number.NEGATIVE_INFINITY,
};

export function joinBoxes(a: DrawnBox, b: DrawnBox): DrawnBox {
  return {
    minX: Math.min(a.minX, b.minX),
    minY: Math.min(a.minY, b.minY),
    maxX: Math.max(a.maxX, b.maxX),
    maxY: Math.max(a.maxY, b.maxY),
  };
}

/** The box round some points, or round nothing. */
export function boxRound(points: readonly (readonly [number, number])[]): DrawnBox {
  return points.reduce((box, [x, y]) => joinBoxes(box, { minX: x, minY: y, maxX: x, maxY: y }), NOWHERE);
}

function pieceBox(p: Piece): DrawnBox {
  if (p.kind === 'segment')
    return boxRound([
      [p.x0, p.y0],
      [p.x1, p.y1],
    ]);
  // The ends, and the circle's extremes that the sweep passes.
  const low = Math.min(p.start, p.start + p.sweep);
  const high = Math.max(p.start, p.start + p.sweep);
  const angles = [low, high];
  for (let k = Math.ceil(low / (Math.PI / 2)); k * (Math.PI / 2) <= high; k++) angles.push(k * (Math.PI / 2));
  return boxRound(angles.map((a) => [p.cx + p.r * Math.cos(a), p.cy + p.r * Math.sin(a)]));
}

/** Box of a mark's geometry, without its line's width; a text's box is its anchor (its width is the device's matter). */
export function boxOfMark(mark: Mark): DrawnBox {
  switch (mark.kind) {
    case 'path': {
      let box = NOWHERE;
      for (const chain of mark.chains) for (const piece of chain.pieces) box = joinBoxes(box, pieceBox(piece));
      return box;
    }
    case 'circle':
      return { minX: mark.cx - mark.r, minY: mark.cy - mark.r, maxX: mark.cx + mark.r, maxY: mark.cy + mark.r };
    case 'ellipse': {
      // Of the whole ellipse, also for a part of it.
      const c = Math.cos(mark.rotation);
      const s = Math.sin(mark.rotation);
      const w = Math.hypot(mark.rx * c, mark.ry * s);
      const h = Math.hypot(mark.rx * s, mark.ry * c);
      return { minX: mark.cx - w, minY: mark.cy - h, maxX: mark.cx + w, maxY: mark.cy + h };
    }
    case 'text':
      return { minX: mark.x, minY: mark.y, maxX: mark.x, maxY: mark.y };
  }
}

/** The box of many marks; of nothing, a point at the origin. */
export function boxOfMarks(marks: readonly Mark[]): DrawnBox {
  const box = marks.reduce((all, mark) => joinBoxes(all, boxOfMark(mark)), NOWHERE);
  return box.minX <= box.maxX ? box : { minX: 0, minY: 0, maxX: 0, maxY: 0 };
}

/** Scale by `factor`, then shift. Text sizes and line widths are paper's and stay. */
export interface Placing {
  readonly factor: number;
  readonly dx: number;
  readonly dy: number;
}

function placedPiece(p: Piece, { factor, dx, dy }: Placing): Piece {
  if (p.kind === 'segment')
    return {
      kind: 'segment',
      x0: p.x0 * factor + dx,
      y0: p.y0 * factor + dy,
      x1: p.x1 * factor + dx,
      y1: p.y1 * factor + dy,
    };
  return { ...p, cx: p.cx * factor + dx, cy: p.cy * factor + dy, r: p.r * factor };
}

/** A mark of the model on a page, or anywhere else. */
export function placed<M extends Mark>(mark: M, placing: Placing): M;
export function placed(mark: Mark, placing: Placing): Mark {
  const { factor, dx, dy } = placing;
  switch (mark.kind) {
    case 'path':
      return {
        ...mark,
        chains: mark.chains.map((chain) => ({ ...chain, pieces: chain.pieces.map((p) => placedPiece(p, placing)) })),
      };
    case 'circle':
      return { ...mark, cx: mark.cx * factor + dx, cy: mark.cy * factor + dy, r: mark.r * factor };
    case 'ellipse':
      return {
        ...mark,
        cx: mark.cx * factor + dx,
        cy: mark.cy * factor + dy,
        rx: mark.rx * factor,
        ry: mark.ry * factor,
      };
    case 'text':
      return { ...mark, x: mark.x * factor + dx, y: mark.y * factor + dy };
  }
}

/** A whole ellipse. */
export function ellipseMark(
  s: Style,
  cx: number,
  cy: number,
  rx: number,
  ry: number,
  rotation: number,
): CircleMark | EllipseMark {
  if (rx === ry) return circleMark(s, cx, cy, rx);
  return { ...s, kind: 'ellipse', cx, cy, rx, ry, rotation, start: 0, sweep: TAU };
}
