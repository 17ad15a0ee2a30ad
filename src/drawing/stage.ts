/**
 * The stage itself as marks: its edge, the wings beside it, cable runs.
 *
 * The stage's edge is one wide line; the riser's is two with hatches (deck.ts). A wing is tinted, within a thin line. A cable
 * run is a thin line with slashes across it, as no edge has them. Numbers of runs count from 1 in the setup's order.
 */
import type { Cable, Stage } from '../plan/schema.ts';
import { boxOfMark, circleMark, lineMark, type Mark, polygonMark, style, TEXT_MM, THIN, WIDE } from './displayList.ts';
import type { LabelRequest } from './labels.ts';

type Corner = Stage['outline'][number];

/** On paper, mm: from slash to slash along a cable run, and half a slash along and across it. */
const SLASH_STEP_MM = 7;
const SLASH_MM = [0.45, 0.9] as const;
const CABLE_END_MM = 0.55;

const flat = (corners: readonly Corner[]): number[] => corners.flatMap(({ xMm, yMm }) => [xMm, yMm]);

/** Wings, then the stage's edge. */
export function stageMarks({ name, outline, wings }: Stage): Mark[] {
  const base = style('stage', { line: THIN, zMm: -3 });
  const edge: Mark = polygonMark({ ...base, line: WIDE, title: name || 'Stage' }, flat(outline));
  return [
    ...wings.map((wing) =>
      polygonMark({ ...base, tint: 'stage', part: `wing ${wing.id}`, title: wing.name || 'Wing' }, flat(wing.outline)),
    ),
    edge,
  ];
}

/** The slashes and the ends of a run, and the run itself. */
function cableMarks({ note, points }: Cable, number: number, scale: number): Mark[] {
  const s = style('stage', { line: THIN, zMm: -2, part: `cable ${number}`, title: `Cable run ${number}: ${note}` });
  const marks: Mark[] = [lineMark(s, ...flat(points))];
  for (let k = 1; k < points.length; k++) {
    const [a, b] = [points[k - 1], points[k]];
    const length = Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm);
    if (length === 0) continue;
    const [ux, uy] = [(b.xMm - a.xMm) / length, (b.yMm - a.yMm) / length];
    const count = Math.max(1, Math.floor(length / (SLASH_STEP_MM * scale)));
    const [along, across] = SLASH_MM.map((mm) => mm * scale);
    for (let i = 0; i < count; i++) {
      const at = ((i + 0.5) * length) / count;
      const [x, y] = [a.xMm + ux * at, a.yMm + uy * at];
      const [dx, dy] = [ux * along - uy * across, uy * along + ux * across];
      marks.push(lineMark(s, x - dx, y - dy, x + dx, y + dy));
    }
  }
  for (const end of [points[0], points[points.length - 1]])
    marks.push(circleMark({ ...s, line: null, tint: 'solid' }, end.xMm, end.yMm, CABLE_END_MM * scale));
  return marks;
}

export function cableRunMarks(cables: readonly Cable[], scale: number): Mark[] {
  return cables.flatMap((cable, k) => cableMarks(cable, k + 1, scale));
}

/** The middle of a run's longest stretch: where its note points to. */
function cableMiddle({ points }: Cable): Corner {
  let best = points[0];
  let longest = -1;
  for (let k = 1; k < points.length; k++) {
    const [a, b] = [points[k - 1], points[k]];
    const length = Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm);
    // A little off the middle, where a slash may stand.
    if (length > longest) {
      longest = length;
      best = { xMm: a.xMm + (b.xMm - a.xMm) * 0.47, yMm: a.yMm + (b.yMm - a.yMm) * 0.47 };
    }
  }
  return best;
}

/** Names of wings and notes of cable runs. */
export function stageRequests(stage: Stage | undefined, cables: readonly Cable[]): LabelRequest[] {
  const common = { sizeMm: TEXT_MM.small, bold: false, form: 'name', ink: 'ink', pieceId: null } as const;
  const wings = (stage?.wings ?? []).flatMap((wing): LabelRequest[] => {
    if (wing.name === '') return [];
    const { minX, minY, maxX, maxY } = boxOfMark(polygonMark(style('stage'), flat(wing.outline)));
    return [
      {
        ...common,
        id: `wing ${wing.id}`,
        text: wing.name,
        x: (minX + maxX) / 2,
        y: (minY + maxY) / 2,
        reachMm: Math.min(maxX - minX, maxY - minY) / 2,
        inside: { halfW: ((maxX - minX) / 2) * 0.94, halfH: ((maxY - minY) / 2) * 0.94, round: false },
        backing: 'stage',
      },
    ];
  });
  const runs = cables.map((cable, k): LabelRequest => {
    const { xMm: x, yMm: y } = cableMiddle(cable);
    const text = cable.note === '' ? `Cable ${k + 1}` : `Cable ${k + 1}: ${cable.note}`;
    return { ...common, id: `cable ${k + 1}`, text, x, y, reachMm: 0, inside: null, backing: null };
  });
  return [...wings, ...runs];
}
