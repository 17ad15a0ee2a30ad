/**
 * The riser's edge, unmistakable also in black and white: two lines, the outer wide, and short hatch strokes outward, as
 * a drop is drawn. Seams between modules are thin.
 */
import { deckOutline } from '../geometry/deck.ts';
import { type Mark, polygonMark, straightChain, style, THIN, WIDE } from './displayList.ts';

/** On paper, mm: between the two lines; from stroke to stroke; a stroke's reach outward and along. */
const DOUBLE_MM = 1.1;
const HATCH_STEP_MM = 2.4;
const HATCH_MM = 1.3;
/** A corner moves by at most twice the distance of the lines: that is a corner of 60 degrees. */
const LEAST_MITRE = 0.5;

/** The loop moved inward (left of its direction, as outlines run with the deck on their left). */
function inset(loop: readonly number[], by: number): number[] {
  const n = loop.length;
  const out: number[] = [];
  for (let i = 0; i < n; i += 2) {
    const [px, py] = [loop[(i + n - 2) % n], loop[(i + n - 1) % n]];
    const [x, y] = [loop[i], loop[i + 1]];
    const [nx, ny] = [loop[(i + 2) % n], loop[(i + 3) % n]];
    const a = Math.hypot(x - px, y - py);
    const b = Math.hypot(nx - x, ny - y);
    // Unit normals to the left of each side; the corner moves so that it lies `by` from both.
    const [ax, ay] = [-(y - py) / a, (x - px) / a];
    const [bx, by2] = [-(ny - y) / b, (nx - x) / b];
    const cosine = ax * bx + ay * by2;
    // A corner sharper than the limit, as where modules lie nearly side by side, is cut off rather than run out to a point.
    if (1 + cosine < LEAST_MITRE) {
      out.push(x + ax * by, y + ay * by, x + bx * by, y + by2 * by);
      continue;
    }
    const share = by / (1 + cosine);
    out.push(x + (ax + bx) * share, y + (ay + by2) * share);
  }
  return out;
}

/** Marks of a deck, in the order of drawing: surface, seams, hatch, edge. Nothing for no modules. */
export function deckMarks(modules: readonly (readonly number[])[], scale: number, title: string | null): Mark[] {
  if (modules.length === 0) return [];
  const base = style('deck', { line: null, zMm: -1, title });
  const loops = deckOutline(modules);
  const marks: Mark[] = [
    { ...base, kind: 'path', tint: 'deck', chains: loops.map((loop) => straightChain(loop, true)) },
  ];
  if (modules.length > 1)
    for (const module of modules) marks.push(polygonMark({ ...base, line: THIN, ink: 'faint' }, module));
  for (const loop of loops) {
    for (let i = 0; i < loop.length; i += 2) {
      const [x0, y0, x1, y1] = [loop[i], loop[i + 1], loop[(i + 2) % loop.length], loop[(i + 3) % loop.length]];
      const length = Math.hypot(x1 - x0, y1 - y0);
      const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
      const strokes = Math.max(1, Math.round(length / (HATCH_STEP_MM * scale)));
      const reach = HATCH_MM * scale;
      // Strokes start at the edge and lean back; the outside is to the right of the loop's direction.
      const pieces = Array.from({ length: strokes }, (_, k) => {
        const at = ((k + 0.5) * length) / strokes;
        const [x, y] = [x0 + ux * at, y0 + uy * at];
        return straightChain([x, y, x + (uy - ux) * reach, y + (-ux - uy) * reach], false);
      });
      marks.push({ ...base, kind: 'path', line: THIN, chains: pieces });
    }
    marks.push(polygonMark({ ...base, line: THIN }, inset(loop, DOUBLE_MM * scale)));
    marks.push(polygonMark({ ...base, line: WIDE }, loop));
  }
  return marks;
}
