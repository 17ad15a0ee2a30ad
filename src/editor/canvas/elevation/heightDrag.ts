/** A height that is dragged in the elevation, as the command that sets it: one for a drum, a cymbal, a seat or a stand, one for a rack's bar. */
import type { HeightGrip } from '../../../drawing/elevation.ts';
import { seatedOn } from '../../../layout/seats.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { carriedBy, movedWith } from '../../../plan/motion.ts';
import type { Plan, Setup } from '../../../plan/schema.ts';

/** What hangs on the grip's piece, or on the one bar of it, and goes up with it. */
function risingWith(plan: Plan, setup: Setup, { piece, bar }: HeightGrip, carries: boolean): string[] {
  if (bar === null) return movedWith(plan, setup, piece, carries);
  if (!carries) return [];
  const direct = setup.order.filter((id) => {
    const one = setup.pieces[id];
    const carrier = one.kind === 'item' ? one.mount?.carrier : undefined;
    return carrier?.on === 'bar' && carrier.rack === piece && carrier.bar === bar;
  });
  return [...new Set(direct.flatMap((id) => [id, ...carriedBy(setup, id)]))];
}

export interface HeightDrag {
  /** How far the pointer went up, mm. */
  readonly upMm: number;
  /** Heights are held to whole steps, and to the deck. */
  readonly stepMm: number;
  /** "Carry along": what hangs on the dragged thing goes up as far. What is on a stand goes up with it in any case. */
  readonly carries: boolean;
  /** Of all that is seen. */
  readonly grips: readonly HeightGrip[];
}

export function heightCommand(
  { plan, setup }: { readonly plan: Plan; readonly setup: Setup },
  grip: HeightGrip,
  { upMm, stepMm, carries, grips }: HeightDrag,
): Command {
  const heightMm = Math.max(0, Math.round((grip.heightMm + upMm) / stepMm) * stepMm);
  const upBy = heightMm - grip.heightMm;
  const held = new Set(risingWith(plan, setup, grip, carries));
  const places = Object.fromEntries(
    grips
      .filter(({ piece, bar }) => bar === null && held.has(piece) && setup.pieces[piece].locked !== true)
      .map((one) => [one.piece, { heightMm: Math.max(0, one.heightMm + upBy) }]),
  );
  if (grip.bar === null) {
    // A stand whose height the plan leaves open follows what it holds.
    const seated = seatedOn(setup).get(grip.piece) ?? [];
    const follows = setup.pieces[grip.piece].place.heightMm === undefined && seated.some(({ id }) => id in places);
    const own = follows ? {} : { [grip.piece]: { heightMm } };
    return { type: 'placePieces', setup: setup.id, places: { ...places, ...own } };
  }
  const raised = { type: 'setBar', setup: setup.id, rack: grip.piece, bar: grip.bar, set: { heightMm } } as const;
  if (Object.keys(places).length === 0) return raised;
  return { type: 'many', commands: [raised, { type: 'placePieces', setup: setup.id, places }] };
}
