/**
 * Rules over one rack that a schema cannot say. Ids are those of SPEC.md. Each rule answers with the first thing wrong.
 */
import { KINDS } from '../gear/kinds.ts';
import type { Gear, GearKind } from '../gear/schema.ts';
import { barsOf, type PlacedBar } from './carriers.ts';
import { alternatives, firstOf, type Path, type Problem, problemAt, quoted } from './places.ts';
import { barLine, LEAST_LEG_DISTANCE_MM, legDistance } from './rackFrame.ts';
import type { Bar, Plan, Rack } from './schema.ts';

/** What a rule needs: the plan for names, the way to the rack, and gear by id. */
export interface RackContext {
  readonly plan: Plan;
  readonly path: Path;
  readonly gear: (id: string) => Gear | undefined;
}

/** mm without a tail of digits, for sentences. */
export const mmWords = (mm: number): string => `${Math.round(mm * 10) / 10} mm`;

/** PL-7 gear that is named must be there and of a kind that fits. Null when it is. */
export function gearMisfit(
  context: Pick<RackContext, 'plan' | 'gear'>,
  path: Path,
  id: string,
  kinds: readonly GearKind[],
): Problem | null {
  const field = path[path.length - 1];
  const gear = context.gear(id);
  const wrong = (code: string, what: string) => problemAt(context.plan, path, code, `its ${field} is ${what}`);
  if (gear === undefined)
    return wrong('unknown_gear', `${quoted(id)}, which is not in the catalogue and not in this plan's own gear.`);
  if (kinds.includes(gear.kind)) return null;
  const wanted = alternatives(kinds.map((kind) => KINDS[kind].word));
  return wrong('wrong_gear', `${quoted(gear.name)}, which is ${KINDS[gear.kind].word}, where ${wanted} is needed.`);
}

/** PL-4 a chain has one leg more than it has spans, so that every bar is joined to two legs. */
function chainMismatch({ plan, path }: RackContext, rack: Rack): Problem | null {
  const legs = rack.legs.length;
  const spans = rack.spans.length;
  if (legs === spans + 1) return null;
  if (legs <= spans) {
    const reason = `it is joined to no leg at its end: the rack has ${spans} spans and needs ${spans + 1} legs, but has ${legs}.`;
    return problemAt(plan, [...path, 'spans', legs - 1, 'bars', 0], 'bar_without_leg', reason);
  }
  const reason = `no bar joins it: the rack has ${legs} legs and needs ${legs - 1} spans, but has ${spans}.`;
  return problemAt(plan, [...path, 'legs', spans + 1], 'leg_without_bar', reason);
}

/** PL-5, PL-18 entries of a list have ids of their own; `of` says what they are. Null: all have. */
export function doubledId(
  plan: Plan,
  entries: readonly { readonly id: string }[] | undefined,
  pathOf: (index: number) => Path,
  of: string,
): Problem | null {
  const ids = new Set<string>();
  for (const [i, { id }] of (entries ?? []).entries()) {
    if (ids.has(id)) return problemAt(plan, pathOf(i), 'doubled_id', `another ${of} has its id ${quoted(id)} already.`);
    ids.add(id);
  }
  return null;
}

const barPath = ({ path }: RackContext, { span, index }: Omit<PlacedBar, 'bar'>) => [
  ...path,
  'spans',
  span,
  'bars',
  index,
];

/** PL-5 ids within a rack tell its legs, and its bars, apart. */
function doubledPart(context: RackContext, rack: Rack): Problem | null {
  const { plan, path } = context;
  const bars = barsOf(rack);
  return (
    doubledId(plan, rack.legs, (i) => [...path, 'legs', i], 'leg of this rack') ??
    doubledId(
      plan,
      bars.map(({ bar }) => bar),
      (i) => barPath(context, bars[i]),
      'bar of this rack',
    )
  );
}

/** PL-6 the first span lies along the rack's heading, so it has no joint angle of its own. */
function firstTurn({ plan, path }: RackContext, rack: Rack): Problem | null {
  if (rack.spans[0].turnDeg === 0) return null;
  const reason = `the first span has a joint angle of ${rack.spans[0].turnDeg} degrees; it must be 0, since the rack's heading says where the span points.`;
  return problemAt(plan, [...path, 'spans', 0], 'first_span_turned', reason);
}

/** PL-7 for uprights, feet and tubes. */
function partGear(context: RackContext, rack: Rack): Problem | null {
  return (
    firstOf(rack.legs.entries(), ([i, leg]) => {
      const path = [...context.path, 'legs', i];
      return (
        gearMisfit(context, [...path, 'tube'], leg.tube, ['tube']) ??
        (leg.foot && gearMisfit(context, [...path, 'foot', 'gear'], leg.foot.gear, ['foot']))
      );
    }) ??
    firstOf(barsOf(rack), ({ bar, ...at }) =>
      gearMisfit(context, [...barPath(context, at), 'tube'], bar.tube, ['tube']),
    )
  );
}

/** Why there is no such tube, or null. */
function impossibleTube(bar: Bar): { code: string; reason: string } | null {
  const made = barLine(bar);
  if (made.ok || bar.bend === null) return null;
  const { code } = made;
  const [length, radius, ends] = [bar.cutLengthMm, bar.bend.radiusMm, bar.bend.straightEndsMm].map(mmWords);
  if (code === 'bend_past_turn')
    return { code, reason: `a tube of ${length} bent to a radius of ${radius} would go round more than once.` };
  return { code, reason: `its two straight ends of ${ends} are longer than the tube of ${length}.` };
}

/** PL-8 each tube can be bent so, and the first bar of a span leaves a distance between its two legs. */
function barShapes(context: RackContext, rack: Rack): Problem | null {
  for (const { bar, ...at } of barsOf(rack)) {
    const wrong = impossibleTube(bar);
    if (wrong) return problemAt(context.plan, barPath(context, at), wrong.code, wrong.reason);
    const { farOverhangMm } = rack.spans[at.span];
    if (at.index > 0 || legDistance(bar, farOverhangMm) >= LEAST_LEG_DISTANCE_MM) continue;
    const reason = `its overhangs of ${mmWords(bar.overhangMm)} and ${mmWords(farOverhangMm)} leave no distance between its two legs on a tube of ${mmWords(bar.cutLengthMm)}.`;
    return problemAt(context.plan, barPath(context, at), 'no_leg_distance', reason);
  }
  return null;
}

/** PL-9 a bar lies no higher than the two uprights that carry it. */
function barHeights(context: RackContext, rack: Rack): Problem | null {
  for (const { bar, ...at } of barsOf(rack))
    for (const i of [at.span, at.span + 1]) {
      const { lengthMm } = rack.legs[i];
      if (bar.heightMm <= lengthMm) continue;
      const reason = `at a height of ${mmWords(bar.heightMm)} it passes over leg ${i + 1}, which ends at ${mmWords(lengthMm)}.`;
      return problemAt(context.plan, barPath(context, at), 'bar_above_leg', reason);
    }
  return null;
}

/** The first thing wrong with a rack by itself. */
export function rackProblem(context: RackContext, rack: Rack): Problem | null {
  return (
    chainMismatch(context, rack) ??
    doubledPart(context, rack) ??
    firstTurn(context, rack) ??
    partGear(context, rack) ??
    barShapes(context, rack) ??
    barHeights(context, rack)
  );
}
