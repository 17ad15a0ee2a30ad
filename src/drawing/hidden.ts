/**
 * Hidden lines: the stretches of edges that lie beneath something opaque, drawn dashed on top, as ISO 128 shows them.
 *
 * Method: each edge is walked in steps; where it goes under or comes out is found by halving. A cover shorter than one
 * step along the edge can be missed; on paper that is below a dash's length.
 * Inputs: marks in the order of drawing. Marks of one part cover each other without a trace.
 */
import { boxOfMark, type DrawnBox, HIDDEN, type Mark } from './displayList.ts';
import { encloses, isOpaque, stretchesOf } from './edges.ts';

/** Step along an edge, and the shortest hidden stretch worth drawing, mm of the model. */
const STEP_MM = 6;
const SHORTEST_MM = 12;
/** Halvings of a step: to a hundredth of a millimetre. */
const HALVINGS = 10;

const apart = (a: DrawnBox, b: DrawnBox) => a.maxX < b.minX || b.maxX < a.minX || a.maxY < b.minY || b.maxY < a.minY;

/** The dashed stretches alone, in the order of their marks. */
export function hiddenLines(marks: readonly Mark[]): Mark[] {
  const boxes = marks.map(boxOfMark);
  const opaque = marks.map(isOpaque);
  const hidden: Mark[] = [];
  marks.forEach((mark, i) => {
    if (mark.covered !== 'dashed' || mark.line === null) return;
    const above: Mark[] = [];
    const own: Mark[] = [];
    for (let j = i + 1; j < marks.length; j++) {
      if (!opaque[j] || apart(boxes[i], boxes[j])) continue;
      (marks[j].part === mark.part ? own : above).push(marks[j]);
    }
    if (above.length === 0) return;
    const isHidden = ([x, y]: [number, number]) =>
      above.some((cover) => encloses(cover, x, y)) && !own.some((cover) => encloses(cover, x, y));
    for (const stretch of stretchesOf(mark)) {
      const steps = Math.max(1, Math.ceil(stretch.lengthMm / STEP_MM));
      let state = isHidden(stretch.at(0));
      let from = 0;
      const emit = (to: number) => {
        if ((to - from) * stretch.lengthMm < SHORTEST_MM) return;
        hidden.push({ ...stretch.cut(from, to), line: HIDDEN, tint: null, ink: 'faint' });
      };
      for (let k = 1; k <= steps; k++) {
        const next = isHidden(stretch.at(k / steps));
        if (next === state) continue;
        let low = (k - 1) / steps;
        let high = k / steps;
        for (let h = 0; h < HALVINGS; h++) {
          const middle = (low + high) / 2;
          if (isHidden(stretch.at(middle)) === state) low = middle;
          else high = middle;
        }
        if (state) emit(low);
        else from = high;
        state = next;
      }
      if (state) emit(1);
    }
  });
  return hidden;
}
