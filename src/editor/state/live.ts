/** A setup laid out and checked, kept while the plan and the setup are the same objects. */
import { pairings, pairLine, pairReach, pairState, worse } from '../../checks/clearance.ts';
import { type Between, gapBetween } from '../../checks/gapBetween.ts';
import { jointPairs } from '../../checks/joints.ts';
import type { PairReading } from '../../checks/pair.ts';
import { bodyMargin, preparedDeck } from '../../checks/riserFit.ts';
import { type Checked, runChecks } from '../../checks/run.ts';
import { deckOutline } from '../../geometry/deck.ts';
import { type GapResult, gap } from '../../geometry/gap.ts';
import { capsule } from '../../geometry/shapes.ts';
import { boxOf, extent } from '../../geometry/support.ts';
import { kept, once } from '../../keep.ts';
import { bodiesOf } from '../../layout/bodiesOf.ts';
import type { Body } from '../../layout/body.ts';
import { isKit } from '../../layout/body.ts';
import { type DeckLayout, type Layout, layoutSetup } from '../../layout/layout.ts';
import { carrierPiece } from '../../plan/carriers.ts';
import type { Plan, Setup } from '../../plan/schema.ts';

export interface Live {
  readonly plan: Plan;
  readonly setupId: string;
  readonly setup: Setup;
  readonly layout: Layout;
  /** Computed when first asked for: a gesture's frame needs only what is near. */
  readonly checked: Checked;
}

/** By plan: its setups by id. */
const livesOf = kept((_: Plan) => new Map<string, Live>());

/** Throws: Error when the plan has no such setup. */
export function liveOf(plan: Plan, setupId: string): Live {
  const bySetup = livesOf(plan);
  const before = bySetup.get(setupId);
  if (before) return before;
  const layout = layoutSetup(plan, setupId);
  const checked = once((): Checked => runChecks(plan, setupId, layout));
  const made: Live = {
    plan,
    setupId,
    setup: plan.setups[setupId],
    layout,
    get checked() {
      return checked();
    },
  };
  bySetup.set(setupId, made);
  return made;
}

export interface NearGap {
  readonly a: Body;
  readonly b: Body;
  /** mm; 0 or less: they run into each other. */
  readonly gapMm: number;
  readonly requiredMm: number;
  readonly state: 'clear' | 'tight' | 'blocked';
  /** The two nearest points, x0 y0 x1 y1. */
  readonly line: readonly [number, number, number, number];
}

/** Of a body that stays: worked out once in a drag. */
const placeOf = kept(({ shape }: Body) => boxOf(shape));

/**
 * The gaps between some pieces and all others, one for each two pieces, the most wanting first; at most `most`.
 * Only what the checks compare counts, so the drawing cannot show another number than the findings.
 */
export function nearGaps(live: Live, ids: readonly string[], most: number): NearGap[] {
  const own = new Set(ids);
  const worst = new Map<string, PairReading>();
  const reach = pairReach(live.plan.limits);
  const boxes = ids
    .map((id) => extent(bodiesOf(live.layout.bodies, id).map(({ shape }) => shape)))
    .filter((box) => box !== null);
  // Whatever the checks would compare with what moves is as near as this; all the rest of a large stage is left out.
  const near = live.layout.bodies.filter((body) => {
    const { minX, minY, maxX, maxY } = placeOf(body);
    return boxes.some(
      (box) =>
        minX - reach <= box.maxX && maxX + reach >= box.minX && minY - reach <= box.maxY && maxY + reach >= box.minY,
    );
  });
  const setup = { ...live.setup, order: [...new Set(near.map(({ piece }) => piece))] };
  // Of arms only those that reach from what moves to what stays, or the other way.
  const joined = new Set<string>();
  for (const { piece, carrier } of live.layout.mounts)
    if (own.has(piece) !== own.has(carrierPiece(carrier))) joined.add(piece);
  const mounts = live.layout.mounts.filter(({ piece }) => joined.has(piece));
  const found = [...pairings(live.plan, setup, near, own).pairs, ...jointPairs({ ...live.layout, mounts })];
  for (const pair of found) {
    if (own.has(pair.a.piece) === own.has(pair.b.piece)) continue;
    const key = `${pair.a.piece}\n${pair.b.piece}`;
    const before = worst.get(key);
    if (!before || worse(pair, before)) worst.set(key, pair);
  }
  return [...worst.values()]
    .sort((p, q) => p.gap - p.required - (q.gap - q.required))
    .slice(0, most)
    .map((pair) => {
      const { a, b, gap: gapMm, required: requiredMm } = pair;
      return { a, b, gapMm, requiredMm, state: pairState(pair), line: pairLine(pair) };
    });
}

/** The nearest bodies of two pieces in plan, heights aside: what the tape would show. Null when either has none. */
export function gapOfPieces({ layout }: Live, first: string, second: string): Between | null {
  return gapBetween(bodiesOf(layout.bodies, first), bodiesOf(layout.bodies, second));
}

export interface LeastContact {
  readonly body: Body;
  readonly marginMm: number;
  /** From the contact to the nearest point of the edge, x0 y0 x1 y1; null for one that stands over the edge. */
  readonly line: readonly [number, number, number, number] | null;
}

/** The floor contact of the kit with the least margin to the deck's edge, mm; null without a riser or contacts. */
export function leastContact({ layout }: Live): LeastContact | null {
  const { deck } = layout;
  if (!deck) return null;
  let least: { body: Body; marginMm: number } | null = null;
  for (const body of layout.bodies) {
    if (!body.touchesFloor || !isKit(body)) continue;
    const marginMm = bodyMargin(deck, body);
    if (least === null || marginMm < least.marginMm) least = { body, marginMm };
  }
  return least && { ...least, line: least.marginMm > 0 ? edgeLine(deck, least.body) : null };
}

function edgeLine(deck: DeckLayout, body: Body): LeastContact['line'] {
  let nearest: GapResult | null = null;
  for (const loop of deckOutline(preparedDeck(deck)))
    for (let i = 0; i < loop.length; i += 2) {
      const [j, k] = [(i + 2) % loop.length, (i + 3) % loop.length];
      const found = gap(body.shape, capsule(loop[i], loop[i + 1], loop[j], loop[k], 0));
      if (nearest === null || found.gap < nearest.gap) nearest = found;
    }
  return nearest && [nearest.ax, nearest.ay, nearest.bx, nearest.by];
}
