/** The marks of a setup's pieces for the screen, kept by piece so that a drag draws anew only what it moves. */
import type { Mark } from '../../drawing/displayList.ts';
import { drawPiece } from '../../drawing/pieces.ts';
import type { Layout } from '../../layout/layout.ts';
import { own } from '../../plan/places.ts';
import type { Piece, Plan, Setup } from '../../plan/schema.ts';

interface Kept {
  readonly gear: Plan['gear'];
  /** The carrier as it was: a clamp is drawn where its bar is. */
  readonly holder: Piece | undefined;
  /** What a microphone takes, as it was: it points at it. */
  readonly taken: Piece | undefined;
  /** A wedge shows its mix's number. */
  readonly mixes: Setup['mixes'];
  readonly marks: readonly Mark[];
}

const kept = new WeakMap<Piece, Kept>();

function holderOf(setup: Setup, piece: Piece): Piece | undefined {
  if (piece.kind !== 'item' || !piece.mount) return undefined;
  const { carrier } = piece.mount;
  return setup.pieces[carrier.on === 'bar' || carrier.on === 'leg' ? carrier.rack : carrier.piece];
}

const takenOf = (setup: Setup, piece: Piece): Piece | undefined =>
  piece.kind === 'item' && piece.takes !== undefined ? own(setup.pieces, piece.takes) : undefined;

export function pieceMarks(plan: Plan, setup: Setup, id: string, layout: Layout): readonly Mark[] {
  const piece = setup.pieces[id];
  const holder = holderOf(setup, piece);
  const before = kept.get(piece);
  const taken = takenOf(setup, piece);
  const { mixes } = setup;
  if (
    before &&
    before.gear === plan.gear &&
    before.holder === holder &&
    before.taken === taken &&
    before.mixes === mixes
  )
    return before.marks;
  const marks = drawPiece(plan, setup, id, layout);
  kept.set(piece, { gear: plan.gear, holder, taken, mixes, marks });
  return marks;
}

/** All pieces' marks from low to high; `without` are left out. */
export function sceneMarks(
  plan: Plan,
  setupId: string,
  layout: Layout,
  choose: (id: string) => boolean = () => true,
): readonly Mark[] {
  const setup = plan.setups[setupId];
  const marks = setup.order.filter(choose).flatMap((id) => pieceMarks(plan, setup, id, layout));
  return marks.sort((a, b) => a.zMm - b.zMm);
}
