/**
 * A drawing larger than the paper, cut into tiles: which tiles there are, and exactly what of each mark lies in one.
 *
 * Tiles are upright boxes of one size in rows and columns, each lying `overlapMm` over its neighbours. Straight stretches are cut
 * where they cross the edge, arcs stay arcs: cut at the angles at which they cross it.
 *
 * Units:  mm, radians.
 * Exact:  a cut lies on the edge within rounding; what touches an edge from outside in one point is left out.
 */
import { TAU } from '../geometry/frame.ts';
import type { ArcPiece, Piece, SegmentPiece } from '../geometry/outline.ts';
import type { Box } from './framed.ts';

/** Stretches shorter than this are dropped: a hundredth of a line's width. */
const SHORTEST_MM = 0.002;

/** The part of a straight stretch in a box; null for none. Liang and Barsky's clipping. */
export function clipSegment({ x0, y0, x1, y1 }: SegmentPiece, box: Box): SegmentPiece | null {
  const [dx, dy] = [x1 - x0, y1 - y0];
  let enter = 0;
  let leave = 1;
  for (const [p, q] of [
    [-dx, x0 - box.minX],
    [dx, box.maxX - x0],
    [-dy, y0 - box.minY],
    [dy, box.maxY - y0],
  ]) {
    if (p === 0) {
      if (q < 0) return null;
      continue;
    }
    if (p < 0) enter = Math.max(enter, q / p);
    else leave = Math.min(leave, q / p);
  }
  if ((leave - enter) * Math.hypot(dx, dy) < SHORTEST_MM) return null;
  return {
    kind: 'segment',
    x0: enter === 0 ? x0 : x0 + enter * dx,
    y0: enter === 0 ? y0 : y0 + enter * dy,
    x1: leave === 1 ? x1 : x0 + leave * dx,
    y1: leave === 1 ? y1 : y0 + leave * dy,
  };
}

/** The parts of an arc in a box, in the arc's own direction. */
export function clipArc(arc: ArcPiece, box: Box): ArcPiece[] {
  const { cx, cy, r, start, sweep } = arc;
  if (cx + r < box.minX || cx - r > box.maxX || cy + r < box.minY || cy - r > box.maxY) return [];
  const way = Math.sign(sweep);
  const length = Math.abs(sweep);
  // Places along the arc, as angles from its start, at which the circle meets one of the four edges' lines.
  const stops = [0, length];
  const meet = (angle: number) => {
    const from = ((((angle - start) * way) % TAU) + TAU) % TAU;
    if (from > 0 && from < length) stops.push(from);
  };
  for (const x of [box.minX, box.maxX]) {
    const c = (x - cx) / r;
    if (Math.abs(c) >= 1) continue;
    meet(Math.acos(c));
    meet(-Math.acos(c));
  }
  for (const y of [box.minY, box.maxY]) {
    const s = (y - cy) / r;
    if (Math.abs(s) >= 1) continue;
    meet(Math.asin(s));
    meet(Math.PI - Math.asin(s));
  }
  stops.sort((a, b) => a - b);
  const parts: ArcPiece[] = [];
  let open: { from: number; to: number } | null = null;
  const close = () => {
    if (open && (open.to - open.from) * r >= SHORTEST_MM)
      parts.push({ kind: 'arc', cx, cy, r, start: start + way * open.from, sweep: way * (open.to - open.from) });
    open = null;
  };
  for (let k = 1; k < stops.length; k++) {
    const middle = start + (way * (stops[k - 1] + stops[k])) / 2;
    const [x, y] = [cx + r * Math.cos(middle), cy + r * Math.sin(middle)];
    const inside = x >= box.minX && x <= box.maxX && y >= box.minY && y <= box.maxY;
    if (!inside) close();
    else open = { from: open ? (open as { from: number }).from : stops[k - 1], to: stops[k] };
  }
  close();
  return parts;
}

/** Whatever of a chain of stretches lies in a box. */
export function clipPieces(pieces: readonly Piece[], box: Box): Piece[] {
  return pieces.flatMap((piece): Piece[] => {
    if (piece.kind === 'arc') return clipArc(piece, box);
    const part = clipSegment(piece, box);
    return part ? [part] : [];
  });
}

export interface Tile {
  /** From stage right, A first, and from the audience, 1 first: "B3". */
  readonly name: string;
  readonly column: number;
  readonly row: number;
  /** What of the drawing it shows. */
  readonly box: Box;
}

export interface Tiling {
  readonly columns: number;
  readonly rows: number;
  /** Those that show something, row by row from the audience. */
  readonly tiles: readonly Tile[];
  readonly tileW: number;
  readonly tileH: number;
  readonly overlapMm: number;
  /** The whole, from the first tile's lower left corner to the last one's upper right. */
  readonly box: Box;
}

/** A, B ... Z, AA, AB ... */
export function columnName(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : columnName(Math.floor(column / 26) - 1) + last;
}

/** How many tiles of a size cover a length, each lying over the one before. */
const countFor = (length: number, size: number, overlap: number): number =>
  Math.max(1, Math.ceil((length - overlap) / (size - overlap) - 1e-9));

/** Places of the first tile that are tried along each axis, to find where the fewest tiles have something to show. */
const TRIES = 6;

/**
 * The tiles of a drawing: of a few ways to lay the grid the one with the fewest tiles that show any of `shapes`; of equals the
 * most central. `within`: the drawing's box, all of which the grid covers.
 */
export function tilesFor(
  shapes: readonly (readonly Piece[])[],
  within: Box,
  tileW: number,
  tileH: number,
  overlapMm: number,
): Tiling {
  const [stepX, stepY] = [tileW - overlapMm, tileH - overlapMm];
  const columns = countFor(within.maxX - within.minX, tileW, overlapMm);
  const rows = countFor(within.maxY - within.minY, tileH, overlapMm);
  const spareX = columns * stepX + overlapMm - (within.maxX - within.minX);
  const spareY = rows * stepY + overlapMm - (within.maxY - within.minY);
  const boxes = shapes.map((pieces) => ({ pieces, box: boxOfPieces(pieces) }));
  const at = (minX: number, minY: number): Tiling => {
    const tileAt = (column: number, row: number): Tile => {
      const [x, y] = [minX + column * stepX, minY + row * stepY];
      const box = { minX: x, minY: y, maxX: x + tileW, maxY: y + tileH };
      return { name: `${columnName(column)}${row + 1}`, column, row, box };
    };
    const found = new Map<number, Tile>();
    for (const { pieces, box } of boxes)
      for (let row = firstOf(box.minY - minY, tileH, stepY); row <= Math.floor((box.maxY - minY) / stepY); row++)
        for (
          let column = firstOf(box.minX - minX, tileW, stepX);
          column <= Math.floor((box.maxX - minX) / stepX);
          column++
        ) {
          const key = row * columns + column;
          if (row >= rows || column >= columns || found.has(key)) continue;
          const tile = tileAt(column, row);
          if (clipPieces(pieces, tile.box).length > 0) found.set(key, tile);
        }
    const tiles = [...found.entries()].sort(([a], [b]) => a - b).map(([, tile]) => tile);
    const box = { minX, minY, maxX: minX + columns * stepX + overlapMm, maxY: minY + rows * stepY + overlapMm };
    return { columns, rows, tiles, tileW, tileH, overlapMm, box };
  };
  // From the middle outwards, so that of equals the most central is kept.
  const parts = Array.from({ length: TRIES + 1 }, (_, k) => k / TRIES).sort(
    (a, b) => Math.abs(a - 0.5) - Math.abs(b - 0.5) || a - b,
  );
  let best: Tiling | null = null;
  for (const partY of parts)
    for (const partX of parts) {
      const tiling = at(within.minX - partX * spareX, within.minY - partY * spareY);
      if (!best || tiling.tiles.length < best.tiles.length) best = tiling;
    }
  return best!;
}

/** The first tile along an axis that reaches as far as `from`. */
const firstOf = (from: number, size: number, step: number): number => Math.max(0, Math.ceil((from - size) / step));

/** A box round stretches; an arc counts with its whole circle. */
function boxOfPieces(pieces: readonly Piece[]): Box {
  const xs = pieces.flatMap((p) => (p.kind === 'segment' ? [p.x0, p.x1] : [p.cx - p.r, p.cx + p.r]));
  const ys = pieces.flatMap((p) => (p.kind === 'segment' ? [p.y0, p.y1] : [p.cy - p.r, p.cy + p.r]));
  return { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
}
