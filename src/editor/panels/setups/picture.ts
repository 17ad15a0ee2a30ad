/**
 * A setup as a small drawing: each body's outline as an SVG path with true arcs, y turned down as SVG wants it.
 */
import { outline, pieceStart } from '../../../geometry/loops.ts';
import { roundedPolygon, type Swept } from '../../../geometry/shapes.ts';
import { type Box, extent } from '../../../geometry/support.ts';
import type { Body } from '../../../layout/body.ts';

/** Tenths of a millimetre are far below a pixel of a card, and keep the text short. */
const write = (mm: number): string => {
  const rounded = Math.round(mm * 10) / 10;
  return String(rounded === 0 ? 0 : rounded);
};
const point = (x: number, y: number) => `${write(x)} ${write(-y)}`;

/** The outline as path data, mm, y down. An arc beyond half a turn goes in two parts: SVG cannot say a full circle. */
export function outlinePath(shape: Swept): string {
  let path = '';
  for (const loop of outline(shape)) {
    path += `M${point(...pieceStart(loop[0]))}`;
    for (const piece of loop) {
      if (piece.kind === 'segment') {
        path += `L${point(piece.x1, piece.y1)}`;
        continue;
      }
      const { cx, cy, r, start, sweep } = piece;
      const parts = Math.abs(sweep) > Math.PI ? 2 : 1;
      for (let i = 1; i <= parts; i++) {
        const angle = start + (sweep * i) / parts;
        const end = point(cx + r * Math.cos(angle), cy + r * Math.sin(angle));
        path += `A${write(r)} ${write(r)} 0 0 ${sweep > 0 ? 0 : 1} ${end}`;
      }
    }
    path += 'Z';
  }
  return path;
}

export interface PictureMark {
  readonly id: string;
  readonly path: string;
  readonly kind: Body['kind'];
  readonly onFloor: boolean;
}

export interface Picture {
  /** Low things first, so that what hangs above covers what stands below. */
  readonly marks: readonly PictureMark[];
  readonly box: Box | null;
}

/** `deck`: the modules' corners; the box holds them too, so that the deck's edge is in the picture. */
export function pictureOf(bodies: readonly Body[], deck: readonly (readonly number[])[] = []): Picture {
  const byHeight = [...bodies].sort((a, b) => a.z1 - b.z1);
  return {
    marks: byHeight.map((body) => ({
      id: body.id,
      path: outlinePath(body.shape),
      kind: body.kind,
      onFloor: body.touchesFloor,
    })),
    box: extent([...bodies.map(({ shape }) => shape), ...deck.map((corners) => roundedPolygon(corners, 0))]),
  };
}

/** Width of a picture to its height; the style sheet keeps it. Kits and risers are nearly square. */
export const PICTURE_RATIO = 1.25;

/**
 * One window size that every picture fits, so that all are drawn to one scale and a smaller kit looks smaller.
 * Each is centred on its own middle. `ratio` is the card's width to its height.
 */
export function commonWindow(pictures: readonly Picture[], ratio: number): { widthMm: number; heightMm: number } {
  let width = 1000;
  let height = 1000 / ratio;
  for (const { box } of pictures) {
    if (box === null) continue;
    width = Math.max(width, box.maxX - box.minX);
    height = Math.max(height, box.maxY - box.minY);
  }
  // Some air around the largest.
  const air = 1.05;
  const widthMm = Math.max(width, height * ratio) * air;
  return { widthMm, heightMm: widthMm / ratio };
}

/** The viewBox that shows a picture in the common window. */
export function viewBoxOf({ box }: Picture, window: { widthMm: number; heightMm: number }): string {
  const x = box === null ? 0 : (box.minX + box.maxX) / 2;
  const y = box === null ? 0 : (box.minY + box.maxY) / 2;
  return [x - window.widthMm / 2, -y - window.heightMm / 2, window.widthMm, window.heightMm].map(write).join(' ');
}
