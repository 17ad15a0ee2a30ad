/**
 * The outline of a swept shape as chains of straight and round stretches: arcs stay arcs.
 *
 * Exact: the same stretches that geometry measures, so an outline encloses exactly the area that is reported.
 */
import { outline } from '../geometry/loops.ts';
import { hasArea } from '../geometry/outline.ts';
import type { Swept } from '../geometry/shapes.ts';
import { type Chain, circleMark, type Mark, type Style } from './displayList.ts';

/** Closed chains: the outer edge counter-clockwise, then a closed ring's hole clockwise. None for a shape without area. */
export function outlineChains(shape: Swept): Chain[] {
  return outline(shape).map((pieces) => ({ pieces, closed: true }));
}

/** A shape's outline as marks: a disc is a circle, all else a path, a shape without area nothing. */
export function outlineMarks(shape: Swept, style: Style): Mark[] {
  if (!hasArea(shape)) return [];
  if (shape.core.kind === 'point') return [circleMark(style, shape.core.x, shape.core.y, shape.radius)];
  return [{ ...style, kind: 'path', chains: outlineChains(shape) }];
}
