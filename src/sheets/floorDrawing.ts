/**
 * The marks and the template as one drawing at 1:1, for DXF: no pages, no tiles, nothing that belongs to paper alone.
 *
 * Units: mm in the frame of the marks: x to stage left of the centre line, y upstage of the front edge.
 * Exact: the outlines that are measured, whole.
 */
import { inFrame } from '../checks/marks/datums.ts';
import { markPlan } from '../checks/marks/markPlan.ts';
import {
  boxOfMarks,
  CENTRE,
  circleMark,
  lineMark,
  type Mark,
  style,
  TEXT_MM,
  THIN,
  textMark,
  WIDE,
} from '../drawing/displayList.ts';
import type { Loop } from '../geometry/outline.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { templateOf } from './templateShapes.ts';

/** On paper, mm: a mark's cross, the ring at a hook for tapes, a number or name beside what it says. */
const CROSS_MM = 1.3;
const HOOK_MM = 2.3;
const BESIDE_MM = 0.8;
/** How far the two lines that all is measured from run on beyond the drawing. */
const BEYOND_MM = 10;

const outlineMark = (
  loops: readonly Loop[],
  layer: 'deck' | 'feet',
  line: typeof WIDE,
  title: string | null,
): Mark => ({
  ...style(layer, { line, title }),
  kind: 'path',
  chains: loops.map((pieces) => ({ pieces, closed: true })),
});

/**
 * `withTapes`: crosses, numbers and hooks as the mark sheet has them; else the names that the template has.
 * `scale`: mm of the drawing in one mm of paper, for texts and crosses. Throws: RangeError when the plan has no such setup.
 */
export function floorDrawing(plan: Plan, setupId: string, layout: Layout, scale: number, withTapes: boolean): Mark[] {
  const made = markPlan(plan, setupId, layout);
  const { shapes, marks: numbered, deck } = templateOf(layout, made);
  const drawn: Mark[] = [];
  if (deck.length > 0) drawn.push(outlineMark(deck, 'deck', WIDE, 'Riser'));
  for (const { loops, name, contact } of shapes) drawn.push(outlineMark(loops, 'feet', contact ? WIDE : THIN, name));
  const { minX, minY, maxX, maxY } = boxOfMarks(drawn);
  const beyond = BEYOND_MM * scale;
  const centre = style('centre', { line: CENTRE, title: 'Centre line' });
  drawn.push(lineMark(centre, 0, Math.min(minY, 0) - beyond, 0, Math.max(maxY, 0) + beyond));
  if (deck.length === 0)
    drawn.push(
      lineMark({ ...centre, title: 'Front edge' }, Math.min(minX, 0) - beyond, 0, Math.max(maxX, 0) + beyond, 0),
    );

  const names = style('names');
  const say = (text: string, x: number, y: number) => drawn.push(textMark(names, text, x, y, TEXT_MM.small));
  const [cross, hook, beside] = [CROSS_MM * scale, HOOK_MM * scale, BESIDE_MM * scale];
  if (!withTapes) {
    for (const { loops, name } of shapes) {
      if (name === null) continue;
      const box = boxOfMarks([outlineMark(loops, 'feet', THIN, name)]);
      say(name, box.maxX + beside, (box.minY + box.maxY) / 2);
    }
    return drawn;
  }
  const finding = style('dimensions', { line: THIN });
  for (const { number, at } of numbered) {
    const [x, y] = at;
    const s = { ...finding, title: `Mark ${number}` };
    drawn.push(lineMark(s, x - cross, y, x + cross, y), lineMark(s, x, y - cross, x, y + cross));
    say(String(number), x + beside, y + beside);
  }
  for (const { letter, at } of made.datums) {
    const [x, y] = inFrame(made.frame, at);
    drawn.push(circleMark({ ...finding, title: `Hook ${letter}` }, x, y, hook));
    say(letter, x + hook + beside, y);
  }
  return drawn;
}
