/** Names on the screen: in the piece where they fit, else beside it where nothing else is written, else not at all. */
import type { TextMark } from '../../drawing/displayList.ts';
import { boxOf } from '../../geometry/support.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Setup } from '../../plan/schema.ts';
import { type Size, screenPoint, type View } from '../state/view.ts';
import { COARSE_ZOOM, FONT } from './ground.ts';
import type { Context } from './paint.ts';
import type { Palette } from './palette.ts';

interface PxBox {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

const SIZE_PX = { wide: 11.5, small: 10 };
/** Narrower drawings than this are written smaller. */
const SMALL_PX = 600;
const LINE_EM = 1.15;
/** Half a box that a glyph's number takes, and the zoom from which on a wedge's square holds it. */
const LETTER_PX = 8;
const LEAST_LETTER_ZOOM = 0.045;
const BESIDE_PX = 7;

const meets = (a: PxBox, b: PxBox) => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

/** At most two lines, broken at a space where they are most even. */
function broken(text: string): string[] {
  const words = text.split(' ');
  if (words.length < 2) return [text];
  let best = [text];
  let least = Number.POSITIVE_INFINITY;
  for (let k = 1; k < words.length; k++) {
    const lines = [words.slice(0, k).join(' '), words.slice(k).join(' ')];
    const longest = Math.max(lines[0].length, lines[1].length);
    if (longest < least) {
      least = longest;
      best = lines;
    }
  }
  return best;
}

/** Places within a thing, as shares of the room it leaves: its middle first. */
const INSIDE = [
  [0, 0],
  [0, 0.7],
  [0, -0.7],
  [-0.7, 0],
  [0.7, 0],
] as const;

/** Small things keep their names to themselves unless they are chosen or under the pointer. */
const SMALL = new Set(['stand']);

export interface NamesInput {
  readonly setup: Setup;
  readonly layout: Layout;
  readonly view: View;
  readonly size: Size;
  readonly palette: Palette;
  /** Lettering in glyphs, which names keep off. */
  readonly letters: readonly TextMark[];
  /** These are named whatever else stands there. */
  readonly always: ReadonlySet<string>;
}

export function paintNames(
  context: Context,
  { setup, layout, view, size, palette, letters, always }: NamesInput,
): void {
  const sizePx = size.width < SMALL_PX ? SIZE_PX.small : SIZE_PX.wide;
  const linePx = sizePx * LINE_EM;
  context.font = `600 ${sizePx}px ${FONT}`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  const boxes = new Map<string, PxBox>();
  const kinds = new Map<string, string>();
  const tops = new Map<string, number>();
  for (const { piece, shape, kind, part, z1 } of layout.bodies) {
    // A rack is named at its first bar; a piece at its main body, its first.
    if (boxes.has(piece) && !(kind === 'bar' && kinds.get(piece) !== 'bar')) continue;
    if (part.startsWith('tip') || part.startsWith('leg-')) continue;
    const { minX, maxX, minY, maxY } = boxOf(shape);
    const a = screenPoint(view, size, minX, maxY);
    const b = screenPoint(view, size, maxX, minY);
    boxes.set(piece, { x0: a.x, y0: a.y, x1: b.x, y1: b.y });
    kinds.set(piece, kind);
    tops.set(piece, z1);
  }
  const placed: PxBox[] = letters.map(({ x, y }) => {
    const at = screenPoint(view, size, x, y);
    return { x0: at.x - LETTER_PX, x1: at.x + LETTER_PX, y0: at.y - LETTER_PX, y1: at.y + LETTER_PX };
  });
  const write = (lines: readonly string[], x: number, y: number, strong: boolean) => {
    lines.forEach((line, k) => {
      const at = y + (k - (lines.length - 1) / 2) * linePx;
      context.lineWidth = 3;
      context.lineJoin = 'round';
      context.strokeStyle = palette.halo;
      context.strokeText(line, x, at);
      context.fillStyle = strong ? palette.accent : palette.ink.ink;
      context.fillText(line, x, at);
    });
  };
  // What is chosen is named before all; then from high to low, as what lies beneath can be named beside what covers it.
  const order = [...boxes.keys()].sort(
    (p, q) => Number(always.has(q)) - Number(always.has(p)) || (tops.get(q) ?? 0) - (tops.get(p) ?? 0),
  );
  for (const id of order) {
    const box = boxes.get(id)!;
    const name = setup.pieces[id]?.name;
    const must = always.has(id);
    const piece = setup.pieces[id];
    const isOwn = kinds.get(id) === 'stageItem' && !(piece?.kind === 'item' && piece.takes !== undefined);
    if (!must && view.zoom < COARSE_ZOOM && !isOwn) continue;
    if (!name || (SMALL.has(kinds.get(id) ?? '') && !must)) continue;
    const wide = box.x1 - box.x0;
    if (!must && wide < 16 && kinds.get(id) !== 'bar') continue;
    const x = (box.x0 + box.x1) / 2;
    const y = (box.y0 + box.y1) / 2;
    const tries: { lines: string[]; x: number; y: number }[] = [];
    for (const lines of [[name], broken(name)]) {
      const w = Math.max(...lines.map((line) => context.measureText(line).width));
      const h = lines.length * linePx;
      if (kinds.get(id) !== 'bar' && w < wide * 0.96 && h < (box.y1 - box.y0) * 0.9)
        for (const [dx, dy] of INSIDE) {
          const spareX = Math.max(0, wide - w) / 2;
          const spareY = Math.max(0, box.y1 - box.y0 - h) / 2;
          tries.push({ lines, x: x + dx * spareX, y: y + dy * spareY });
        }
    }
    const w = context.measureText(name).width;
    for (const [dx, dy] of [
      [0, 1],
      [0, -1],
      [1, 0],
      [-1, 0],
    ])
      tries.push({
        lines: [name],
        x: x + dx * (wide / 2 + w / 2 + BESIDE_PX),
        y: y + dy * ((box.y1 - box.y0) / 2 + linePx / 2 + 3),
      });
    for (const each of tries) {
      const half = Math.max(...each.lines.map((line) => context.measureText(line).width)) / 2 + 2;
      const tall = (each.lines.length * linePx) / 2;
      const own = { x0: each.x - half, x1: each.x + half, y0: each.y - tall, y1: each.y + tall };
      if (placed.some((other) => meets(own, other))) continue;
      placed.push(own);
      write(each.lines, each.x, each.y, must);
      break;
    }
  }
}

/** Numbers of mixes in their glyphs, where these are large enough to hold them. */
export function paintLetters(
  context: Context,
  letters: readonly TextMark[],
  view: View,
  size: Size,
  palette: Palette,
): void {
  if (view.zoom < LEAST_LETTER_ZOOM) return;
  context.font = `600 ${SIZE_PX.small}px ${FONT}`;
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  context.fillStyle = palette.ink.ink;
  for (const { text, x, y } of letters) {
    const at = screenPoint(view, size, x, y);
    context.fillText(text, at.x, at.y + 0.5);
  }
}
