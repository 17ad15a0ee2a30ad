/** What part of the plan the canvas shows, and the way from mm to px and back. y runs up in the plan, down on the screen. */
export interface View {
  /** The point of the plan in the canvas's middle, mm. */
  readonly x: number;
  readonly y: number;
  readonly pxPerMm: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** 10 m across a phone, and a millimetre as wide as a finger. */
export const LEAST_ZOOM = 0.02;
export const MOST_ZOOM = 20;

export const toScreen = (view: View, size: Size, x: number, y: number): Point => ({
  x: size.width / 2 + (x - view.x) * view.pxPerMm,
  y: size.height / 2 - (y - view.y) * view.pxPerMm,
});

export const toPlan = (view: View, size: Size, px: number, py: number): Point => ({
  x: view.x + (px - size.width / 2) / view.pxPerMm,
  y: view.y - (py - size.height / 2) / view.pxPerMm,
});

/** Zoomed by a factor, the point of the plan under (px, py) staying where it is. */
export function zoomedAt(view: View, size: Size, px: number, py: number, factor: number): View {
  const pxPerMm = Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, view.pxPerMm * factor));
  const { x, y } = toPlan(view, size, px, py);
  return {
    x: x - (px - size.width / 2) / pxPerMm,
    y: y + (py - size.height / 2) / pxPerMm,
    pxPerMm,
  };
}

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The whole box in sight, with room around it in px: on the sides of the rulers a little more. */
export function fitted(box: Box, size: Size, room = 44): View {
  const wide = Math.max(1, size.width - 2 * room);
  const high = Math.max(1, size.height - 2 * room);
  const pxPerMm = Math.min(
    wide / Math.max(1, box.maxX - box.minX),
    high / Math.max(1, box.maxY - box.minY),
    MOST_ZOOM,
  );
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2, pxPerMm: Math.max(LEAST_ZOOM, pxPerMm) };
}
