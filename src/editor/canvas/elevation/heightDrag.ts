/** A height that is dragged in the elevation, as the command that sets it: one for a drum, a cymbal, a seat or a stand, one for a rack's bar. */
import type { HeightGrip } from '../../../drawing/elevation.ts';
import type { Command } from '../../../plan/commands/index.ts';
import { carriedBy } from '../../../plan/motion.ts';
import type { Setup } from '../../../plan/schema.ts';

/** What hangs on the grip's piece, or on the one bar of it. */
function hangingOn(setup: Setup, { piece, bar }: HeightGrip): string[] {
  if (bar === null) return carriedBy(setup, piece);
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
  /** With "carry along": the grips of all that is seen, of which those that hang on the dragged thing go up as far. */
  readonly along: readonly HeightGrip[] | null;
}

export function heightCommand(setup: Setup, grip: HeightGrip, { upMm, stepMm, along }: HeightDrag): Command {
  const heightMm = Math.max(0, Math.round((grip.heightMm + upMm) / stepMm) * stepMm);
  const upBy = heightMm - grip.heightMm;
  const held = new Set(along === null ? [] : hangingOn(setup, grip));
  const places = Object.fromEntries(
    (along ?? [])
      .filter(({ piece, bar }) => bar === null && held.has(piece) && setup.pieces[piece].locked !== true)
      .map((one) => [one.piece, { heightMm: Math.max(0, one.heightMm + upBy) }]),
  );
  if (grip.bar === null)
    return { type: 'placePieces', setup: setup.id, places: { ...places, [grip.piece]: { heightMm } } };
  const raised = { type: 'setBar', setup: setup.id, rack: grip.piece, bar: grip.bar, set: { heightMm } } as const;
  if (Object.keys(places).length === 0) return raised;
  return { type: 'many', commands: [raised, { type: 'placePieces', setup: setup.id, places }] };
}
