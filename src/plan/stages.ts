/** Where things of a stage lie: which stage a setup stands on, its box, its front edge, and how long a cable runs on its floor. */
import { own } from './places.ts';
import type { Plan, Setup, Stage } from './schema.ts';

type Corner = Stage['outline'][number];

/** The stage that a setup stands on, where it has one. */
export function stageOf(plan: Plan, setup: Setup): Stage | undefined {
  return setup.stage ? own(plan.stages ?? {}, setup.stage) : undefined;
}

/** The box of the stage proper, without its wings. */
export function stageBox({ outline }: Stage) {
  const xs = outline.map(({ xMm }) => xMm);
  const ys = outline.map(({ yMm }) => yMm);
  return { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
}

/** The y of the stage's front edge upstage of which a place at x lies: the outline's lowest point there. Null beside the stage. */
export function stageFrontY({ outline }: Stage, xMm: number): number | null {
  let lowest: number | null = null;
  outline.forEach((a, k) => {
    const b = outline[(k + 1) % outline.length];
    if (Math.min(a.xMm, b.xMm) > xMm || Math.max(a.xMm, b.xMm) < xMm) return;
    const y = a.xMm === b.xMm ? Math.min(a.yMm, b.yMm) : a.yMm + ((xMm - a.xMm) * (b.yMm - a.yMm)) / (b.xMm - a.xMm);
    if (lowest === null || y < lowest) lowest = y;
  });
  return lowest;
}

/** How long a run is as it is drawn, mm: what it climbs and its slack come on top. */
export function runLengthMm({ points }: { readonly points: readonly Corner[] }): number {
  let sum = 0;
  for (let k = 1; k < points.length; k++)
    sum += Math.hypot(points[k].xMm - points[k - 1].xMm, points[k].yMm - points[k - 1].yMm);
  return sum;
}
