/**
 * A kit in the making: pieces come one after another, and each is asked what it would run into where it is.
 *
 * What counts is what the checks say: gaps of bodies (checks/clearance.ts), the drummer's legs (checks/legRoom.ts), arms that do not
 * reach. So nothing here says by itself what is too close.
 */
import { pairReadings, pairState } from '../../checks/clearance.ts';
import { jointPairs } from '../../checks/joints.ts';
import { legPairs } from '../../checks/legRoom.ts';
import { requiredClearance } from '../../checks/limits.ts';
import { rackPairs } from '../../checks/withinRack.ts';
import { gapValue } from '../../geometry/gap.ts';
import { leans } from '../../layout/body.ts';
import { type Layout, layoutSetup } from '../../layout/layout.ts';
import { carrierPiece, carriersOf } from '../../plan/carriers.ts';
import { newPlan } from '../../plan/newPlan.ts';
import type { Drummer, Item, Piece, Plan, Setup } from '../../plan/schema.ts';

export const SETUP_ID = 'setup-1';

/** Of ways that are not free at one look, so many are asked in full where none is. */
const MOST_ASIDE = 12;
/** What is blocked weighs more than anything that is merely tight. */
export const BLOCKED = 1000;

export class Trial {
  private pieces: Readonly<Record<string, Piece>> = {};
  private order: readonly string[] = [];
  private known: { readonly plan: Plan; readonly layout: Layout } | null = null;

  constructor(
    private readonly head: { readonly name: string; readonly units: Plan['units']; readonly drummer: Drummer },
  ) {}

  get setup(): Setup {
    return this.plan.setups[SETUP_ID];
  }

  get plan(): Plan {
    return this.now().plan;
  }

  get layout(): Layout {
    return this.now().layout;
  }

  private now() {
    if (this.known) return this.known;
    const { pieces, order } = this;
    const { name, units, drummer } = this.head;
    const setup: Setup = {
      id: SETUP_ID,
      name: 'Setup 1',
      riser: null,
      drummer: drummer.id,
      pieces: { ...pieces },
      order: [...order],
    };
    const plan: Plan = {
      ...newPlan(name, units),
      setups: { [SETUP_ID]: setup },
      order: [SETUP_ID],
      risers: {},
      drummers: { [drummer.id]: drummer },
    };
    this.known = { plan, layout: layoutSetup(plan, SETUP_ID) };
    return this.known;
  }

  piece(id: string): Piece | undefined {
    return this.pieces[id];
  }

  item(id: string): Item {
    const piece = this.pieces[id];
    if (piece?.kind !== 'item') throw new Error(`${id} is no item of the kit.`);
    return piece;
  }

  /** Puts pieces in, or in the place of those with the same id. */
  put(...pieces: readonly Piece[]): void {
    this.pieces = { ...this.pieces, ...Object.fromEntries(pieces.map((piece) => [piece.id, piece])) };
    this.order = [...this.order, ...pieces.map(({ id }) => id).filter((id) => !this.order.includes(id))];
    this.known = null;
  }

  /** How much is wrong about some pieces; 0: nothing. */
  wrong(ids: readonly string[]): number {
    const { plan, layout } = this.now();
    const setup = plan.setups[SETUP_ID];
    const isMeant = (...pieces: readonly string[]) => pieces.some((piece) => ids.includes(piece));
    let sum = 0;
    const count = (gap: number, required: number) => {
      const state = pairState({ gap, required });
      if (state === 'blocked') sum += BLOCKED;
      else if (state === 'tight') sum += 1 + (required - gap) / required;
    };
    for (const { a, b, gap, required } of [
      ...pairReadings(plan, setup, layout.bodies),
      ...jointPairs(layout),
      ...rackPairs(plan, layout),
    ])
      if (isMeant(a.piece, b.piece)) count(gap, required);
    for (const { body, gap, required } of legPairs(plan, layout)) if (isMeant(body.piece)) count(gap, required);
    for (const { piece, reach } of layout.mounts) if (!reach.reached && isMeant(piece)) sum += BLOCKED;
    return sum;
  }

  /** At one look: whether nothing of these pieces would run into what is there already. What they are joined to is not asked. */
  private isFree(pieces: readonly Piece[]): boolean {
    const { plan, layout } = this.now();
    const setup = plan.setups[SETUP_ID];
    const ids = pieces.map(({ id }) => id);
    const held = new Set(pieces.flatMap((piece) => (piece.kind === 'item' ? carriersOf(piece).map(carrierPiece) : [])));
    const alone = { ...setup, order: ids, pieces: Object.fromEntries(pieces.map((piece) => [piece.id, piece])) };
    const own = layoutSetup({ ...plan, setups: { [SETUP_ID]: alone } }, SETUP_ID).bodies;
    return !layout.bodies.some(
      (other) =>
        !ids.includes(other.piece) &&
        !held.has(other.piece) &&
        own.some(
          (body) =>
            body.z0 < other.z1 &&
            other.z0 < body.z1 &&
            !leans(body) &&
            !leans(other) &&
            gapValue(body.shape, other.shape) < (requiredClearance(plan.limits, body.kind, other.kind) ?? -Infinity),
        ),
    );
  }

  /** Puts in the first of several ways with which nothing is wrong, or the one with the least; says how much that is. */
  best(ways: Iterable<readonly Piece[]>): number {
    let least: { readonly pieces: readonly Piece[]; readonly wrong: number } | null = null;
    const before = { pieces: this.pieces, order: this.order };
    const base = this.now();
    const aside: (readonly Piece[])[] = [];
    const isClear = (pieces: readonly Piece[]): boolean => {
      this.pieces = before.pieces;
      this.order = before.order;
      this.put(...pieces);
      const wrong = this.wrong(pieces.map(({ id }) => id));
      if (least === null || wrong < least.wrong) least = { pieces, wrong };
      return wrong === 0;
    };
    for (const pieces of ways) {
      this.pieces = before.pieces;
      this.order = before.order;
      this.known = base;
      if (!this.isFree(pieces)) {
        if (aside.length < MOST_ASIDE) aside.push(pieces);
      } else if (isClear(pieces)) return 0;
    }
    if (least === null) for (const pieces of aside) if (isClear(pieces)) return 0;
    this.pieces = before.pieces;
    this.order = before.order;
    this.known = base;
    const found = least as { readonly pieces: readonly Piece[]; readonly wrong: number } | null;
    if (!found) return Number.POSITIVE_INFINITY;
    this.put(...found.pieces);
    return found.wrong;
  }
}
