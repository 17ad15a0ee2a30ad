/** What layout could not do, and drive shafts that are too short or too long, as findings. */
import { gearOf } from '../gear/catalogue.ts';
import { shaftEnds } from '../layout/floorGear.ts';
import type { Layout, LayoutProblem } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { checkOf, code, type OnePiece, saysOf, type Unmeasured } from './codes.ts';
import { isAbove, isBelow } from './tolerance.ts';

export const GEAR = checkOf('gear', {
  word: 'Gear',
  caution: null,
  codes: {
    unknown_gear: code<OnePiece & Unmeasured>(
      'mm',
      null,
      ({ names: [first] }) =>
        `${first} is of gear that neither this plan nor the catalogue has, so it cannot be measured: choose its gear.`,
    ),
    not_placeable: code<OnePiece & Unmeasured>(
      'mm',
      null,
      ({ names: [first] }) =>
        `${first} is of gear that does not stand by itself, such as a tube or a clamp: choose a drum, a cymbal, a pedal or a stand.`,
    ),
  },
});
const gearSays = saysOf(GEAR);

/** The number is what is missing, where that can be said. */
type Missing = OnePiece & { readonly value: number | null; readonly limit: number | null };

export const RACK = checkOf('rack', {
  word: 'Rack',
  caution: null,
  codes: {
    bend_past_turn: code<Missing>(
      'mm',
      'atMost',
      ({ names: [first] }) =>
        `A bar of ${first} would bend past a full turn: give it a larger bend radius or a shorter cut length.`,
    ),
    straight_ends_too_long: code<Missing>(
      'mm',
      'atMost',
      ({ names: [first] }) =>
        `A bar of ${first} has straight ends longer than the tube: shorten them, or cut a longer tube.`,
    ),
    no_leg_distance: code<Missing>(
      'mm',
      'atMost',
      ({ names: [first] }) => `A bar of ${first} leaves no distance between its two legs: make its overhangs shorter.`,
    ),
    bar_too_short: code<Missing>(
      'mm',
      'atMost',
      ({ names: [first], value }) =>
        `A second bar of ${first} ends ${value} before the leg: cut a longer tube, or give it less overhang.`,
    ),
    /** Height of the centre line against half the tube. */
    bar_in_deck: code(
      'mm',
      'atLeast',
      ({ names: [first], limit }) => `A bar of ${first} lies in the deck: raise it, its middle to ${limit} at least.`,
    ),
  },
});
const rackSays = saysOf(RACK);

export const DRIVE_SHAFT = checkOf('driveShaft', {
  word: 'Drive shaft',
  caution: null,
  codes: {
    shaft_too_short: code(
      'mm',
      'atMost',
      ({ names: [first], value, limit }) =>
        `The two pedals of ${first} are ${value} apart, and its drive shaft reaches ${limit}: move them together.`,
    ),
    shaft_too_long: code(
      'mm',
      'atLeast',
      ({ names: [first], value, limit }) =>
        `The two pedals of ${first} are ${value} apart, and its drive shaft is no shorter than ${limit}: move them apart.`,
    ),
  },
});
const shaftSays = saysOf(DRIVE_SHAFT);

function problemFinding(problem: LayoutProblem) {
  const base = { pieces: [problem.piece], source: 'the plan' } as const;
  if (problem.code === 'unknown_gear' || problem.code === 'not_placeable')
    return gearSays(problem.code, { ...base, state: 'unmeasured', bodies: [], value: null, limit: null, at: null });
  return rackSays(problem.code, {
    ...base,
    state: 'blocked',
    bodies: [`${problem.piece}/${problem.bar}`],
    value: problem.missingMm,
    limit: problem.missingMm === null ? null : 0,
    at: problem.at,
  });
}

/** Bars set so low that the tube would lie in the deck; resting on it is none of that. */
function sunkBars({ racks }: Layout): ReturnType<typeof rackSays>[] {
  return Object.values(racks).flatMap(({ id: rack, bars }) =>
    bars
      .filter(({ z, radiusMm }) => isBelow(z, radiusMm))
      .map(({ id, z, radiusMm, s0, pointAt }) => {
        const { x, y } = pointAt(s0);
        return rackSays('bar_in_deck', {
          state: 'blocked',
          pieces: [rack],
          bodies: [`${rack}/${id}`],
          value: z,
          limit: radiusMm,
          source: 'half the tube',
          at: [x, y],
        });
      }),
  );
}

/** The distance a double pedal's shaft has to span against the lengths it telescopes to. */
function shaftFindings(plan: Plan, setup: Setup, layout: Layout) {
  const findings: ReturnType<typeof shaftSays>[] = [];
  for (const body of layout.bodies) {
    if (body.kind !== 'shaft') continue;
    const item = setup.pieces[body.piece];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    if (item?.kind !== 'item' || gear?.kind !== 'pedal' || !gear.shaft) continue;
    const [x0, y0, x1, y1] = shaftEnds(gear, item);
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [low, high] = gear.shaft.lengthMm;
    const short = isAbove(length, high);
    if (!isBelow(length, low) && !short) continue;
    const { core } = body.shape;
    findings.push(
      shaftSays(short ? 'shaft_too_short' : 'shaft_too_long', {
        state: 'blocked',
        pieces: [item.id],
        bodies: [body.id],
        value: length,
        limit: short ? high : low,
        source: 'the pedal in the catalogue',
        at: core.kind === 'segment' ? [(core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2] : null,
      }),
    );
  }
  return findings;
}

export function pieceProblems(plan: Plan, setup: Setup, layout: Layout) {
  return [...layout.problems.map(problemFinding), ...sunkBars(layout), ...shaftFindings(plan, setup, layout)];
}
