/** What is under the pointer, asked of the exact bodies. */
import { gapValue } from '../../geometry/gap.ts';
import { disc } from '../../geometry/shapes.ts';
import { type Box, boxOf } from '../../geometry/support.ts';
import type { Layout } from '../../layout/layout.ts';

/**
 * Pieces under a point, topmost first, then those within the tolerance, nearest first.
 *
 * Units: mm. A thin tube is found from a little beside it; what really lies under the point comes first.
 */
export function piecesAt(layout: Layout, x: number, y: number, toleranceMm: number): string[] {
  const point = disc(x, y, 0);
  const hits: { piece: string; gap: number; z: number; order: number }[] = [];
  layout.bodies.forEach((body, order) => {
    const { minX, minY, maxX, maxY } = boxOf(body.shape);
    // Most bodies are far away: only what is near is measured.
    if (Math.max(minX - x, x - maxX, minY - y, y - maxY) > toleranceMm) return;
    const gap = gapValue(point, body.shape);
    if (gap <= toleranceMm) hits.push({ piece: body.piece, gap: Math.max(0, gap), z: body.z1, order });
  });
  hits.sort((a, b) => a.gap - b.gap || b.z - a.z || b.order - a.order);
  return [...new Set(hits.map((hit) => hit.piece))];
}

/** Pieces that lie wholly in the box. */
export function piecesIn(layout: Layout, box: Box): string[] {
  const inside = new Map<string, boolean>();
  for (const { piece, shape } of layout.bodies) {
    const own = boxOf(shape);
    const isIn = own.minX >= box.minX && own.maxX <= box.maxX && own.minY >= box.minY && own.maxY <= box.maxY;
    inside.set(piece, (inside.get(piece) ?? true) && isIn);
  }
  return [...inside].filter(([, isIn]) => isIn).map(([piece]) => piece);
}
