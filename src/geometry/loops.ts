/** Joins the loose pieces of an outline, end to start, into closed loops. */
import { TAU } from './frame.ts';
import { hasArea, Integral, type Loop, ownOutline, type Piece } from './outline.ts';
import type { Swept } from './shapes.ts';
import { drawUnion } from './union.ts';

export function pieceStart(p: Piece): [number, number] {
  return p.kind === 'segment' ? [p.x0, p.y0] : [p.cx + p.r * Math.cos(p.start), p.cy + p.r * Math.sin(p.start)];
}

export function pieceEnd(p: Piece): [number, number] {
  if (p.kind === 'segment') return [p.x1, p.y1];
  return [p.cx + p.r * Math.cos(p.start + p.sweep), p.cy + p.r * Math.sin(p.start + p.sweep)];
}

/** Which way a piece sets out, and which way it arrives. */
function heading(p: Piece, atEnd: boolean): number {
  if (p.kind === 'segment') return Math.atan2(p.y1 - p.y0, p.x1 - p.x0);
  return (atEnd ? p.start + p.sweep : p.start) + (Math.sign(p.sweep) * Math.PI) / 2;
}

/** Two arcs of one circle that follow each other, as one. */
function joined(p: Piece, q: Piece, tolerance: number): Piece | undefined {
  if (p.kind !== 'arc' || q.kind !== 'arc' || p.cx !== q.cx || p.cy !== q.cy || p.r !== q.r) return undefined;
  if (p.sweep > 0 !== q.sweep > 0 || Math.abs(p.sweep + q.sweep) > TAU + tolerance / p.r) return undefined;
  return { ...p, sweep: p.sweep + q.sweep };
}

/**
 * Loops from pieces that follow each other within `tolerance`. Where loops touch in a point the leftmost way on is taken,
 * which keeps solids that only touch apart. Adjoining arcs of one circle become one arc.
 */
function joinPieces(pieces: readonly Piece[], tolerance: number): Piece[][] {
  const starts = pieces.map(pieceStart);
  const used = new Array<boolean>(pieces.length).fill(false);
  const loops: Piece[][] = [];
  for (let first = 0; first < pieces.length; first++) {
    if (used[first]) continue;
    const loop: Piece[] = [];
    for (let at = first; ; ) {
      used[at] = true;
      loop.push(pieces[at]);
      const [x, y] = pieceEnd(pieces[at]);
      const arriving = heading(pieces[at], true);
      let next = -1;
      let leftmost = Number.NEGATIVE_INFINITY;
      for (let k = 0; k < pieces.length; k++) {
        if (used[k] && k !== first) continue;
        if (Math.abs(starts[k][0] - x) > tolerance || Math.abs(starts[k][1] - y) > tolerance) continue;
        const bend = heading(pieces[k], false) - arriving;
        // Straight back is the rightmost way, not the leftmost.
        const turned = bend - TAU * Math.ceil((bend - Math.PI + 1e-7) / TAU);
        if (turned > leftmost) {
          leftmost = turned;
          next = k;
        }
      }
      if (next < 0 || next === first) break;
      at = next;
    }
    const merged: Piece[] = [];
    for (const piece of loop) {
      const one = merged.length > 0 ? joined(merged[merged.length - 1], piece, tolerance) : undefined;
      if (one) merged[merged.length - 1] = one;
      else merged.push(piece);
    }
    const around = merged.length > 1 ? joined(merged[merged.length - 1], merged[0], tolerance) : undefined;
    if (around) {
      merged.pop();
      merged[0] = around;
    }
    loops.push(merged);
  }
  return loops;
}

/** Counter-clockwise loops first; within each kind the order found. */
function outerFirst(loops: Piece[][]): Loop[] {
  const turns = loops.map((loop) => new Integral(...pieceStart(loop[0])).draw(loop).area);
  return [...loops.filter((_, k) => turns[k] > 0), ...loops.filter((_, k) => turns[k] <= 0)];
}

/** The edge of one shape: its outer loop, then the hole of a closed ring (clockwise). Nothing for a shape without area. */
export function outline(s: Swept): Loop[] {
  // A crossing of two end circles is found to about the square root of a rounding where they barely cross.
  return outerFirst(joinPieces(ownOutline(s), 1e-6 * Math.max(1, s.radius)));
}

/** Pieces of a merged outline that end this close to each other follow each other. */
const MEETS_MM = 1e-5;

/** The merged edge of many shapes, arcs kept: outer loops counter-clockwise, then holes clockwise. For drawing. */
export function unionOutline(shapes: readonly Swept[]): Loop[] {
  const pieces: Piece[] = [];
  drawUnion(shapes.filter(hasArea), {
    // Pieces far shorter than the joints' tolerance would only make loops of their own.
    segment(x0, y0, x1, y1) {
      if (Math.hypot(x1 - x0, y1 - y0) > MEETS_MM / 100) pieces.push({ kind: 'segment', x0, y0, x1, y1 });
    },
    arc(cx, cy, r, start, sweep) {
      if (r * Math.abs(sweep) > MEETS_MM / 100) pieces.push({ kind: 'arc', cx, cy, r, start, sweep });
    },
  });
  return outerFirst(joinPieces(pieces, MEETS_MM));
}
