/**
 * The bases of two setups drawn over each other: racks, stands and links of the first solid, of the second dashed where they
 * stand elsewhere, and the playing layout thin, which is what both carry. Pieces that play elsewhere in the second are thin and dashed as well.
 *
 * Units: mm of the plan. Outlines are those of the bodies, so what is drawn is what was measured.
 */
import type { ComparedSetup } from '../checks/compare.ts';
import { deckMarks } from '../drawing/deck.ts';
import {
  boxOfMarks,
  type DrawnBox,
  HIDDEN,
  type Line,
  type Mark,
  polygonMark,
  style,
  THIN,
  WIDE,
} from '../drawing/displayList.ts';
import { grown } from '../drawing/extents.ts';
import { bareField, numberRequest, placedMarks } from '../drawing/labels.ts';
import { outlineMarks } from '../drawing/outline.ts';
import type { MeasureText } from '../drawing/textWidth.ts';
import { BODY_KINDS } from '../gear/bodyKinds.ts';
import type { Body } from '../layout/body.ts';

export const SECOND: Line = { kind: 'dashed', width: 'wide' };

/** What of a stand is higher is held up by it, and no part of what stands on the deck. */
const STAND_BELOW_MM = 250;

const isBase = ({ kind, z0 }: Body): boolean =>
  BODY_KINDS[kind].role === 'base' && (kind !== 'stand' || z0 < STAND_BELOW_MM);

const isPlaying = ({ kind }: Body): boolean => BODY_KINDS[kind].role === 'playing';

/** A body's outline in words: the same for what stands at the same place. */
const outlineKey = ({ id, shape }: Body): string => `${id} ${JSON.stringify(shape)}`;

const upwards = (bodies: readonly Body[]): Body[] => [...bodies].sort((a, b) => a.z1 - b.z1);

/** Where a setup's number may point: a place on each rack, at a share of its first bar; without racks, at each stand. */
function placesOf({ layout }: ComparedSetup, share: number): (readonly [string, number, number])[] {
  const racks = Object.entries(layout.racks).flatMap(([id, { bars }]) => {
    const bar = bars[0];
    if (!bar) return [];
    const { x, y } = bar.pointAt(bar.length * share);
    return [[id, x, y] as const];
  });
  if (racks.length > 0) return racks;
  const stands = new Map<string, readonly [string, number, number]>();
  for (const { piece, kind, shape } of layout.bodies)
    if (kind === 'stand' && shape.core.kind === 'point' && !stands.has(piece))
      stands.set(piece, [piece, shape.core.x, shape.core.y]);
  return [...stands.values()];
}

/** `playing`: pieces that do not play the same in both. Numbers stand within `within`, mm of the plan; left out: none. */
export function overBases(
  first: ComparedSetup,
  second: ComparedSetup,
  playing: readonly string[],
  {
    scale,
    measure,
    within,
    riser = true,
  }: {
    readonly scale: number;
    readonly measure: MeasureText;
    readonly within?: DrawnBox;
    readonly riser?: boolean;
  },
): { readonly marks: readonly Mark[]; readonly box: DrawnBox } {
  const moved = new Set(playing);
  const bodiesOf = ({ layout }: ComparedSetup, which: (body: Body) => boolean) => upwards(layout.bodies.filter(which));
  const deck = (riser && first.layout.deck?.modules) || [];
  const other = (riser && second.layout.deck?.modules) || [];
  const marks: Mark[] = [...deckMarks(deck, scale, 'Riser')];
  // Another riser under the second: its modules' edges.
  if (JSON.stringify(other) !== JSON.stringify(deck))
    for (const module of other) marks.push(polygonMark(style('deck', { line: HIDDEN }), module));
  for (const body of bodiesOf(first, isPlaying))
    marks.push(...outlineMarks(body.shape, style('drums', { line: THIN, ink: 'faint', title: body.label })));
  for (const body of bodiesOf(second, isPlaying))
    if (moved.has(body.piece))
      marks.push(...outlineMarks(body.shape, style('drums', { line: HIDDEN, ink: 'faint', title: body.label })));
  const base = bodiesOf(first, isBase);
  const both = new Set(base.map(outlineKey));
  for (const body of base)
    marks.push(...outlineMarks(body.shape, style('racks', { line: WIDE, tint: 'low', title: body.label })));
  for (const body of bodiesOf(second, isBase))
    if (!both.has(outlineKey(body)))
      marks.push(...outlineMarks(body.shape, style('racks', { line: SECOND, title: body.label })));
  const box = grown(boxOfMarks(marks), scale);
  if (!within) return { marks, box };

  const requests = [first, second].flatMap((setup, k) =>
    placesOf(setup, (k + 1) / 3).map(([id, x, y]) =>
      numberRequest({ id: `${k + 1} ${id}`, text: String(k + 1), form: 'flag', x, y, pieceId: id }),
    ),
  );
  const field = bareField(marks, { bounds: within, scale, measure }, ({ layer }) => (layer === 'deck' ? 4 : 1));
  return { marks: [...marks, ...placedMarks(requests, field)], box };
}
