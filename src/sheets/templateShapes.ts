/**
 * What a template shows: the outlines of everything that touches the deck, and of the pedals, with their marks and the riser's edge.
 *
 * Units:  mm in the frame of the marks (checks/marks/datums.ts): u to stage left of the centre line, v upstage of the front edge.
 * Exact:  outlines are those that are measured; arcs stay arcs.
 */
import { inFrame, type MarkFrame } from '../checks/marks/datums.ts';
import type { FloorMark, MarkPart } from '../checks/marks/floorMarks.ts';
import type { MarkPlan } from '../checks/marks/markPlan.ts';
import { grouped, pointsOf } from '../gather.ts';
import { prepareDeck } from '../geometry/deck.ts';
import { outline } from '../geometry/loops.ts';
import { hasArea, type Loop, type Piece } from '../geometry/outline.ts';
import { moved } from '../geometry/shapes.ts';
import type { Layout } from '../layout/layout.ts';
import { markName } from '../words/markWords.ts';

/** What is drawn: one body's outline, in the marks' frame. */
interface TemplateShape {
  readonly loops: readonly Loop[];
  /** Null for a part that says nothing by itself: a pedal's tower. */
  readonly name: string | null;
  /** Whether it touches the deck; else it is drawn thin. */
  readonly contact: boolean;
}

export interface Template {
  readonly shapes: readonly TemplateShape[];
  readonly marks: readonly { readonly number: number; readonly at: readonly [number, number] }[];
  /** The riser's edge; empty without one. */
  readonly deck: readonly Loop[];
  readonly frame: MarkFrame;
}

/** Contacts that are their piece, seen from above. */
const WHOLE_PIECE: readonly MarkPart[] = ['toeCorner', 'heelCorner', 'frontCorner', 'middle', 'contact'];

/** The name of a contact as a whole: a foot, not its end. */
function contactName(marks: readonly FloorMark[]): string {
  const [mark] = marks;
  if (WHOLE_PIECE.includes(mark.part)) return mark.label;
  if (marks.length === 1) return markName(mark);
  return markName({ ...mark, end: null });
}

/** Everything that the template shows. */
export function templateOf(layout: Layout, made: MarkPlan): Template {
  const { frame } = made;
  const [dx, dy] = inFrame(frame, [0, 0]);
  const motion = { angle: -frame.angle, dx, dy };
  const byBody = grouped(made.marks, ({ mark }) => mark.body);
  const pieces = new Set(made.marks.map(({ mark }) => mark.piece));
  const shapes = layout.bodies.flatMap((body): TemplateShape[] => {
    const marks = byBody.get(body.id);
    const pedal = body.kind === 'pedal' && pieces.has(body.piece);
    if ((!marks && !pedal) || !hasArea(body.shape)) return [];
    const name = marks ? contactName(marks.map(({ mark }) => mark)) : null;
    return [{ loops: outline(moved(body.shape, motion)), name, contact: body.touchesFloor }];
  });
  const marks = made.marks.map(({ number, fromCentreMm, fromFrontMm }) => ({
    number,
    at: [fromCentreMm, fromFrontMm] as const,
  }));
  const deck = layout.deck ? prepareDeck(layout.deck.modules).outline.map((loop) => loopIn(frame, loop)) : [];
  return { shapes, marks, deck, frame };
}

function loopIn(frame: MarkFrame, corners: readonly number[]): Loop {
  const points = pointsOf(corners).map((corner) => inFrame(frame, corner));
  return points.map(([x0, y0], k): Piece => {
    const [x1, y1] = points[(k + 1) % points.length];
    return { kind: 'segment', x0, y0, x1, y1 };
  });
}
