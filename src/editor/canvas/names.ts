/** Names on the screen: in the piece where they fit, else beside it where nothing else is written, else not at all. */
import type { DrawnBox, TextMark } from '../../drawing/displayList.ts';
import { besideBox, boxAt, firstFree, type Spot } from '../../drawing/placing.ts';
import { boxOf } from '../../geometry/support.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Setup } from '../../plan/schema.ts';
import { type Size, screenPoint, type View } from '../state/view.ts';
import { COARSE_ZOOM, FONT } from './ground.ts';
import type { Context } from './paint.ts';
import type { Palette } from './palette.ts';

const SIZE_PX = { wide: 11.5, small: 10 };
/** Narrower drawings than this are written smaller. */
const SMALL_PX = 600;
const LINE_EM = 1.15;
/** Half a box that a glyph's number takes, and the zoom from which on a wedge's square holds it. */
const LETTER_PX = 8;
const LEAST_LETTER_ZOOM = 0.045;
const BESIDE_PX = 7;
/** Left and right of a name. */
const AIR_PX = 2;

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
  const boxes = new Map<string, DrawnBox>();
  const kinds = new Map<string, string>();
  const tops = new Map<string, number>();
  for (const { piece, shape, kind, part, z1 } of layout.bodies) {
    // A rack is named at its first bar; a piece at its main body, its first.
    if (boxes.has(piece) && !(kind === 'bar' && kinds.get(piece) !== 'bar')) continue;
    if (part.startsWith('tip') || part.startsWith('leg-')) continue;
    const { minX, maxX, minY, maxY } = boxOf(shape);
    const a = screenPoint(view, size, minX, maxY);
    const b = screenPoint(view, size, maxX, minY);
    boxes.set(piece, { minX: a.x, minY: a.y, maxX: b.x, maxY: b.y });
    kinds.set(piece, kind);
    tops.set(piece, z1);
  }
  const taken = letters.map(({ x, y }) => {
    const at = screenPoint(view, size, x, y);
    return boxAt(at.x, at.y, 2 * LETTER_PX, 2 * LETTER_PX);
  });
  const placed: Spot[] = [];
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
    const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
    const isBar = kinds.get(id) === 'bar';
    if (!must && wide < 16 && !isBar) continue;
    const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
    const widthOf = (lines: readonly string[]) => Math.max(...lines.map((line) => context.measureText(line).width));
    const spotAt = (lines: readonly string[], w: number, cx: number, cy: number) => ({
      lines,
      x: cx,
      y: cy,
      box: boxAt(cx, cy, w + 2 * AIR_PX, lines.length * linePx),
    });
    function* spots(text: string) {
      const whole = widthOf([text]);
      for (const lines of isBar ? [] : [[text], broken(text)]) {
        const w = lines.length === 1 ? whole : widthOf(lines);
        const h = lines.length * linePx;
        if (w >= wide * 0.96 || h >= high * 0.9) continue;
        const [spareX, spareY] = [Math.max(0, wide - w) / 2, Math.max(0, high - h) / 2];
        for (const [dx, dy] of INSIDE) yield spotAt(lines, w, x + dx * spareX, y + dy * spareY);
      }
      for (const [cx, cy] of besideBox(box, whole, linePx, BESIDE_PX, 3)) yield spotAt([text], whole, cx, cy);
    }
    const spot = firstFree({ spots: spots(name) }, { others: placed, taken });
    if (!spot) continue;
    placed.push(spot);
    write(spot.lines, spot.x, spot.y, must);
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
