/**
 * A stage as people measure it: most often a rectangle with a wing at either side, else a list of corners.
 *
 * Stage left is the page's right. Lengths in mm.
 */
import { tidyMm } from '../../../plan/numbers.ts';
import type { Plan, Setup, Stage } from '../../../plan/schema.ts';
import { MM_PER_IN } from '../../../units.ts';
import { identity } from '../gear/newPiece.ts';

export type Corner = Stage['outline'][number];
export type Wing = Stage['wings'][number];
export type Side = 'left' | 'right';

/** x: the middle; front: the edge at the audience. */
export interface StageBox {
  readonly middleXMm: number;
  readonly frontYMm: number;
  readonly widthMm: number;
  readonly depthMm: number;
}

/** From the audience's left at the front, counter-clockwise on the page. */
export function boxCorners({ middleXMm, frontYMm, widthMm, depthMm }: StageBox): Corner[] {
  const [x0, x1] = [tidyMm(middleXMm - widthMm / 2), tidyMm(middleXMm + widthMm / 2)];
  const y1 = tidyMm(frontYMm + depthMm);
  return [
    { xMm: x0, yMm: frontYMm },
    { xMm: x1, yMm: frontYMm },
    { xMm: x1, yMm: y1 },
    { xMm: x0, yMm: y1 },
  ];
}

/** The rectangle that an outline is; null for any other outline, and for a rectangle that stands askew. */
export function boxOf(outline: readonly Corner[]): StageBox | null {
  if (outline.length !== 4) return null;
  const xs = outline.map(({ xMm }) => xMm);
  const ys = outline.map(({ yMm }) => yMm);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  if (x1 <= x0 || y1 <= y0) return null;
  const atCorners = outline.every(({ xMm, yMm }, i) => {
    const next = outline[(i + 1) % 4];
    const onEdges = (xMm === x0 || xMm === x1) && (yMm === y0 || yMm === y1);
    // One step of the way round changes either x or y.
    return onEdges && (xMm === next.xMm) !== (yMm === next.yMm);
  });
  if (!atCorners) return null;
  return { middleXMm: tidyMm((x0 + x1) / 2), frontYMm: y0, widthMm: tidyMm(x1 - x0), depthMm: tidyMm(y1 - y0) };
}

const WING_NAMES: Readonly<Record<Side, string>> = { left: 'Wing, stage left', right: 'Wing, stage right' };
const wingId = (side: Side): string => `wing-${side}`;

function wingCorners(box: StageBox, side: Side, widthMm: number): Corner[] {
  const edge = box.middleXMm + (side === 'left' ? 1 : -1) * (box.widthMm / 2);
  const middleXMm = edge + (side === 'left' ? 1 : -1) * (widthMm / 2);
  return boxCorners({ ...box, middleXMm, widthMm });
}

const sameCorners = (a: readonly Corner[], b: readonly Corner[]): boolean =>
  a.length === b.length &&
  a.every(({ xMm, yMm }, i) => Math.abs(xMm - b[i].xMm) < 1e-3 && Math.abs(yMm - b[i].yMm) < 1e-3);

/** The width of the wing that lies along the stage's whole side; 0 without one, null where a wing of another shape is. */
export function wingWidth(stage: Stage, side: Side): number | null {
  const box = boxOf(stage.outline);
  const wing = stage.wings.find(({ id }) => id === wingId(side));
  if (wing === undefined) return 0;
  const width = boxOf(wing.outline)?.widthMm;
  return box !== null && width !== undefined && sameCorners(wing.outline, wingCorners(box, side, width)) ? width : null;
}

/** Wings with the one at a side made this wide; 0 takes it away. Wings of other shapes stay. */
export function withWing(stage: Stage, side: Side, widthMm: number): Wing[] {
  const box = boxOf(stage.outline);
  const others = stage.wings.filter(({ id }) => id !== wingId(side));
  if (box === null || widthMm <= 0) return others;
  const old = stage.wings.find(({ id }) => id === wingId(side));
  return [
    ...others,
    { ...old, id: wingId(side), name: old?.name ?? WING_NAMES[side], outline: wingCorners(box, side, widthMm) },
  ];
}

/** What changes when a rectangular stage is given another rectangle: its wings go along, and a centre line in its middle. */
export function withBox(stage: Stage, box: StageBox): Pick<Stage, 'outline' | 'wings' | 'centreXMm'> {
  const before = boxOf(stage.outline);
  const widths = (['left', 'right'] as const).map((side) => [side, wingWidth(stage, side)] as const);
  let next: Stage = { ...stage, outline: boxCorners(box) };
  for (const [side, width] of widths) if (width) next = { ...next, wings: withWing(next, side, width) };
  const inMiddle = before !== null && Math.abs(before.middleXMm - stage.centreXMm) < 1e-3;
  return { outline: next.outline, wings: next.wings, centreXMm: inMiddle ? box.middleXMm : stage.centreXMm };
}

/** One more corner: halfway along the edge after corner `at`. */
export function withCorner(outline: readonly Corner[], at: number): Corner[] {
  const a = outline[at];
  const b = outline[(at + 1) % outline.length];
  return outline.toSpliced(at + 1, 0, { xMm: tidyMm((a.xMm + b.xMm) / 2), yMm: tidyMm((a.yMm + b.yMm) / 2) });
}

/** A first guess of a stage: mm, and in feet where the plan shows feet. */
const GUESS = { mm: { width: 8000, depth: 6000, step: 100 }, in: { width: 24 * 12, depth: 20 * 12, step: 1 } };
/** Room left upstage of the kit, mm. */
const BEHIND_MM = 600;

/** A rectangle about what stands in a setup, the kit at its back. A first guess, to be put right with a tape. */
export function newStage(plan: Plan, setup: Setup): Stage {
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const points = [
    ...Object.values(setup.pieces).map(({ place }) => ({ x: place.xMm, y: place.yMm, r: BEHIND_MM })),
    ...(riser?.modules ?? []).map(({ xMm, yMm, widthMm, depthMm }) => ({
      x: xMm,
      y: yMm,
      r: Math.hypot(widthMm, depthMm) / 2 + BEHIND_MM / 2,
    })),
  ];
  const guess = GUESS[plan.units];
  const unit = plan.units === 'in' ? MM_PER_IN : 1;
  const step = guess.step * unit;
  const up = (mm: number) => Math.ceil(mm / step - 1e-9) * step;
  const back = up(Math.max(BEHIND_MM, ...points.map(({ y, r }) => y + r)));
  const front = Math.min(0, ...points.map(({ y, r }) => y - r));
  const side = Math.max(0, ...points.map(({ x, r }) => Math.abs(x) + r));
  const widthMm = tidyMm(Math.max(guess.width * unit, up(2 * side)));
  const depthMm = tidyMm(Math.max(guess.depth * unit, up(back - front)));
  return {
    ...identity('stage', 'Stage', Object.values(plan.stages ?? {})),
    outline: boxCorners({ middleXMm: 0, frontYMm: tidyMm(back - depthMm), widthMm, depthMm }),
    centreXMm: 0,
    wings: [],
  };
}
