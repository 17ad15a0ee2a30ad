/**
 * The modules of a setup's riser, taken hold of in their middles while the riser's panel is open, which lends them to the drawing. A
 * module that comes near to another lies flush with it (plan/moduleSnap.ts); Alt lets it go where the hand is.
 */
import { moduleCorners } from '../../layout/layout.ts';
import { flushModule } from '../../plan/moduleSnap.ts';
import { tidyMm } from '../../plan/numbers.ts';
import type { Riser } from '../../plan/schema.ts';
import type { LentGrips } from './handles.ts';
import type { Live } from './live.ts';
import { stepsOf } from './steps.ts';

/** An edge this near to another is drawn to it. CSS px, and never farther than a hand's breadth. */
const FLUSH_PX = 10;
const FLUSH_MOST_MM = 100;

const riserOf = ({ plan, setup }: Live): Riser | undefined =>
  setup.riser === null ? undefined : plan.risers[setup.riser];

export const moduleGrips: LentGrips = {
  handles: (live) =>
    (riserOf(live)?.modules ?? []).map(({ id, xMm, yMm }) => ({ kind: 'module', piece: id, x: xMm, y: yMm })),

  pull(live, { piece }, { x: dx, y: dy }, { free, steps, zoom }) {
    const riser = riserOf(live);
    const module = riser?.modules.find(({ id }) => id === piece);
    if (!riser || !module) return null;
    const { coarseMm, fineMm } = stepsOf(live.plan.units);
    const step = steps ? coarseMm : fineMm;
    const whole = (mm: number) => tidyMm(Math.round(mm / step) * step);
    const put = { ...module, xMm: whole(module.xMm + dx), yMm: whole(module.yMm + dy) };
    const others = riser.modules.filter((other) => other !== module);
    const withinMm = free ? 0 : Math.min(FLUSH_PX / zoom, FLUSH_MOST_MM);
    const { xMm, yMm, seams } = flushModule(put, others, withinMm);
    const modules = riser.modules.map((one) => (one === module ? { ...module, xMm, yMm } : one));
    const outline = moduleCorners({ ...module, xMm, yMm });
    return { command: { type: 'editRiser', riser: riser.id, set: { modules } }, lines: { outline, seams } };
  },
};
