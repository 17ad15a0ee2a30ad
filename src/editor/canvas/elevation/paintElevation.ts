/** The elevation on a canvas: the same fold as the plan's, and its texts. */
import type { Elevation, HeightGrip } from '../../../drawing/elevation.ts';
import { PX_PER_PAPER_MM, type Size, screenPoint, type View } from '../../state/view.ts';
import { FONT } from '../ground.ts';
import { type Context, outlineOnly, paintMarks, planSpace } from '../paint.ts';
import type { Palette } from '../palette.ts';

export interface ElevationScene {
  readonly elevation: Elevation;
  /** x: across; y: height above the deck. */
  readonly view: View;
  readonly size: Size;
  readonly ratio: number;
  readonly palette: Palette;
  readonly selected: readonly string[];
  /** What the pointer is on or holds: its height is written beside it. */
  readonly grip: HeightGrip | null;
  readonly gripText: string;
}

export function paintElevation(context: Context, scene: ElevationScene): void {
  const { elevation, view, size, ratio, palette, selected, grip } = scene;
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.fillStyle = palette.paper;
  context.fillRect(0, 0, size.width, size.height);
  const options = { palette, pxPerMm: view.zoom };
  const { marks } = elevation.list;
  planSpace(context, view, size, ratio);
  paintMarks(context, marks, options);
  const chosen = marks.filter(({ pieceId }) => pieceId !== null && selected.includes(pieceId));
  outlineOnly(context, chosen, { ...options, ink: palette.accent });
  if (grip) {
    const { minX, minY, maxX, maxY } = grip.box;
    context.strokeStyle = palette.accent;
    context.lineWidth = 1.5 / view.zoom;
    const out = 3 / view.zoom;
    context.strokeRect(minX - out, minY - out, maxX - minX + 2 * out, maxY - minY + 2 * out);
  }
  context.setTransform(ratio, 0, 0, ratio, 0, 0);
  context.textBaseline = 'alphabetic';
  for (const mark of marks) {
    if (mark.kind !== 'text') continue;
    const at = screenPoint(view, size, mark.x, mark.y);
    context.save();
    context.translate(at.x, at.y);
    context.rotate(-mark.rotation);
    context.font = `${mark.sizeMm * PX_PER_PAPER_MM}px ${FONT}`;
    context.textAlign = mark.anchor === 'middle' ? 'center' : mark.anchor;
    written(context, mark.text, 0, 0, palette);
    context.restore();
  }
  if (grip) {
    const at = screenPoint(view, size, (grip.box.minX + grip.box.maxX) / 2, grip.box.maxY);
    context.font = `600 12px ${FONT}`;
    context.textAlign = 'center';
    written(context, scene.gripText, Math.max(60, Math.min(size.width - 60, at.x)), Math.max(16, at.y - 8), palette);
  }
}

function written(context: Context, text: string, x: number, y: number, palette: Palette): void {
  context.lineJoin = 'round';
  context.lineWidth = 4;
  context.strokeStyle = palette.halo;
  context.strokeText(text, x, y);
  context.fillStyle = palette.ink.ink;
  context.fillText(text, x, y);
}
