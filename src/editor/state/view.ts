/**
 * What part of the plan is in sight, and how large: the one place where mm become pixels and y turns over.
 *
 * Units: the view's middle in mm of the plan; zoom in CSS px per mm; screen points in CSS px from the upper left corner.
 */
import type { Box } from '../../geometry/support.ts';
import { MM_PER_IN } from '../../units.ts';

export interface View {
  readonly xMm: number;
  readonly yMm: number;
  /** CSS px per mm. */
  readonly zoom: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The box round some points. */
export const boxRound = (points: readonly Point[]): Box => ({
  minX: Math.min(...points.map(({ x }) => x)),
  minY: Math.min(...points.map(({ y }) => y)),
  maxX: Math.max(...points.map(({ x }) => x)),
  maxY: Math.max(...points.map(({ y }) => y)),
});

/** From a whole stage on a telephone to a wing nut over the whole screen. */
const LEAST_ZOOM = 0.01;
const MOST_ZOOM = 8;

/** CSS counts 96 px to the inch. Source: CSS Values and Units, 5.2. */
export const PX_PER_PAPER_MM = 96 / MM_PER_IN;

const heldZoom = (zoom: number): number => Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, zoom));

/** n of the scale 1 : n that the screen shows, for a screen whose CSS px are what CSS says. */
export const scaleOf = ({ zoom }: View): number => PX_PER_PAPER_MM / zoom;

export function screenPoint({ xMm, yMm, zoom }: View, { width, height }: Size, x: number, y: number): Point {
  return { x: width / 2 + (x - xMm) * zoom, y: height / 2 - (y - yMm) * zoom };
}

export function planPoint({ xMm, yMm, zoom }: View, { width, height }: Size, px: number, py: number): Point {
  return { x: xMm + (px - width / 2) / zoom, y: yMm - (py - height / 2) / zoom };
}

/** The view after zooming so that the point under (px, py) stays there. */
export function zoomedAt(view: View, size: Size, px: number, py: number, factor: number): View {
  const zoom = heldZoom(view.zoom * factor);
  const { x, y } = planPoint(view, size, px, py);
  return { zoom, xMm: x - (px - size.width / 2) / zoom, yMm: y + (py - size.height / 2) / zoom };
}

export const panned = (view: View, dxPx: number, dyPx: number): View => ({
  ...view,
  xMm: view.xMm - dxPx / view.zoom,
  yMm: view.yMm + dyPx / view.zoom,
});

/** Room kept free round what is fitted into sight, CSS px. */
export interface Air {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The view that shows a box whole in what the air leaves of the screen. */
export function fitted(box: Box, { width, height }: Size, air: Air): View {
  const across = Math.max(1, box.maxX - box.minX);
  const up = Math.max(1, box.maxY - box.minY);
  const wide = Math.max(40, width - air.left - air.right);
  const high = Math.max(40, height - air.top - air.bottom);
  const zoom = heldZoom(Math.min(wide / across, high / up, 2));
  return {
    xMm: (box.minX + box.maxX) / 2 - (air.left - air.right) / 2 / zoom,
    yMm: (box.minY + box.maxY) / 2 + (air.top - air.bottom) / 2 / zoom,
    zoom,
  };
}
