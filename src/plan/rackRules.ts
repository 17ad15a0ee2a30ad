/**
 * Rules over one rack that a schema cannot say. Ids are those of SPEC.md. Each rule answers with the first thing wrong.
 */
import { KINDS } from '../gear/kinds.ts';
import type { Gear, GearKind } from '../gear/schema.ts';
import { alternatives, type Path, type Problem, problemAt, quoted } from './places.ts';
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
  if (gear === undefined)
    return problemAt(
      context.plan,
      path,
      'unknown_gear',
      `its ${field} is ${quoted(id)}, which is not in the catalogue and not in this plan's own gear.`,
    );
  if (kinds.includes(gear.kind)) return null;
  const wanted = alternatives(kinds.map((kind) => KINDS[kind].word));
  return problemAt(
    context.plan,
    path,
    'wrong_gear',
    `its ${field} is ${quoted(gear.name)}, which is ${KINDS[gear.kind].word}, where ${wanted} is needed.`,
  );
}

/** PL-4 a chain has one leg more than it has spans, so that every bar is joined to two legs. */
function chainMismatch({ plan, path }: RackContext, rack: Rack): Problem | null {
  const legs = rack.legs.length;
  const spans = rack.spans.length;
  if (legs === spans + 1) return null;
  if (legs <= spans) {
    const bars = [...path, 'spans', legs - 1, 'bars', 0];
    return problemAt(
      plan,
      bars,
      'bar_without_leg',
      `it is joined to no leg at its end: the rack has ${spans} spans and needs ${spans + 1} legs, but has ${legs}.`,
    );
  }
  return problemAt(
    plan,
    [...path, 'legs', spans + 1],
    'leg_without_bar',
    `no bar joins it: the rack has ${legs} legs and needs ${legs - 1} spans, but has ${spans}.`,
  );
}

/** PL-5 ids within a rack tell its legs, and its bars, apart. */
function doubledPart({ plan, path }: RackContext, rack: Rack): Problem | null {
  const legs = new Set<string>();
  for (const [i, leg] of rack.legs.entries()) {
    if (legs.has(leg.id))
      return problemAt(
        plan,
        [...path, 'legs', i],
        'doubled_id',
        `another leg of this rack has its id ${quoted(leg.id)} already.`,
      );
    legs.add(leg.id);
  }
  const bars = new Set<string>();
  for (const [s, span] of rack.spans.entries())
    for (const [b, bar] of span.bars.entries()) {
      if (bars.has(bar.id))
        return problemAt(
          plan,
          [...path, 'spans', s, 'bars', b],
          'doubled_id',
          `another bar of this rack has its id ${quoted(bar.id)} already.`,
        );
      bars.add(bar.id);
    }
  return null;
}

/** PL-6 the first span lies along the rack's heading, so it has no joint angle of its own. */
function firstTurn({ plan, path }: RackContext, rack: Rack): Problem | null {
  if (rack.spans[0].turnDeg === 0) return null;
  return problemAt(
    plan,
    [...path, 'spans', 0],
    'first_span_turned',
    `the first span has a joint angle of ${rack.spans[0].turnDeg} degrees; it must be 0, since the rack's heading says where the span points.`,
  );
}

/** PL-7 for uprights, feet and tubes. */
function partGear(context: RackContext, rack: Rack): Problem | null {
  for (const [i, leg] of rack.legs.entries()) {
    const path = [...context.path, 'legs', i];
    const wrong = gearMisfit(context, [...path, 'tube'], leg.tube, ['tube']);
    if (wrong) return wrong;
    const foot = leg.foot && gearMisfit(context, [...path, 'foot', 'gear'], leg.foot.gear, ['foot']);
    if (foot) return foot;
  }
  for (const [s, span] of rack.spans.entries())
    for (const [b, bar] of span.bars.entries()) {
      const wrong = gearMisfit(context, [...context.path, 'spans', s, 'bars', b, 'tube'], bar.tube, ['tube']);
      if (wrong) return wrong;
    }
  return null;
}

/** Why there is no such tube, or null. */
function impossibleTube(bar: Bar): { code: string; reason: string } | null {
  const made = barLine(bar);
  if (made.ok || bar.bend === null) return null;
  if (made.code === 'bend_past_turn')
    return {
      code: made.code,
      reason: `a tube of ${mmWords(bar.cutLengthMm)} bent to a radius of ${mmWords(bar.bend.radiusMm)} would go round more than once.`,
    };
  return {
    code: made.code,
    reason: `its two straight ends of ${mmWords(bar.bend.straightEndsMm)} are longer than the tube of ${mmWords(bar.cutLengthMm)}.`,
  };
}

/** PL-8 each tube can be bent so, and the first bar of a span leaves a distance between its two legs. */
function barShapes({ plan, path }: RackContext, rack: Rack): Problem | null {
  for (const [s, span] of rack.spans.entries())
    for (const [b, bar] of span.bars.entries()) {
      const at = [...path, 'spans', s, 'bars', b];
      const wrong = impossibleTube(bar);
      if (wrong) return problemAt(plan, at, wrong.code, wrong.reason);
      if (b > 0) continue;
      if (legDistance(bar, span.farOverhangMm) >= LEAST_LEG_DISTANCE_MM) continue;
      return problemAt(
        plan,
        at,
        'no_leg_distance',
        `its overhangs of ${mmWords(bar.overhangMm)} and ${mmWords(span.farOverhangMm)} leave no distance between its two legs on a tube of ${mmWords(bar.cutLengthMm)}.`,
      );
    }
  return null;
}

/** PL-9 a bar lies no higher than the two uprights that carry it. */
function barHeights({ plan, path }: RackContext, rack: Rack): Problem | null {
  for (const [s, span] of rack.spans.entries())
    for (const [b, bar] of span.bars.entries())
      for (const i of [s, s + 1]) {
        const { lengthMm } = rack.legs[i];
        if (bar.heightMm <= lengthMm) continue;
        return problemAt(
          plan,
          [...path, 'spans', s, 'bars', b],
          'bar_above_leg',
          `at a height of ${mmWords(bar.heightMm)} it passes over leg ${i + 1}, which ends at ${mmWords(lengthMm)}.`,
        );
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
