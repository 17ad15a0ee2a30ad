/** The seated drummer from above, quietly: legs and shoes as outlines, on every pedal that each foot works; and how far sticks get. */
import { zonesAt } from '../drummer/arms.ts';
import type { Figure } from '../drummer/figure.ts';
import { hull } from '../geometry/hull.ts';
import { capsule, disc } from '../geometry/shapes.ts';
import { kept } from '../keep.ts';
import { circleMark, HIDDEN, type Line, type Mark, style, THIN } from './displayList.ts';
import { outlineMarks } from './outline.ts';

/** Heel down, from low to high. */
export const figureMarks = kept(({ legs, radiiMm: r, throne }: Figure): readonly Mark[] => {
  const limb = ([ax, ay]: readonly number[], ra: number, [bx, by]: readonly number[], rb: number): Mark => ({
    ...style('throne', { line: THIN, ink: 'faint', pieceId: throne, part: `${throne}/drummer` }),
    kind: 'path',
    chains: [{ pieces: hull([disc(ax, ay, ra), disc(bx, by, rb)]), closed: true }],
  });
  return legs.flatMap(({ hip, down: { knee, ankle }, shoe: { heel, toe, radius } }) => [
    ...outlineMarks(capsule(...heel, ...toe, radius), style('throne', { line: THIN, ink: 'faint' })),
    limb(ankle, r.ankle, knee, r.knee),
    limb(knee, r.knee, hip, r.hip),
  ]);
});

/** How far each hand's stick gets at a height: what the forearm sweeps, and dashed what the whole arm reaches. */
export function reachRings(figure: Figure, zMm: number): Mark[] {
  const ring = (x: number, y: number, radius: number | null, line: Line): Mark[] =>
    radius === null ? [] : [circleMark(style('throne', { line, ink: 'faint' }), x, y, radius)];
  return zonesAt(figure, zMm).flatMap(({ x, y, normal, most }) => [
    ...ring(x, y, normal, THIN),
    ...ring(x, y, most, HIDDEN),
  ]);
}
