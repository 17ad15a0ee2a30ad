/**
 * Does the drummer reach what is played: from the shoulder to every striking spot, the stick included, and how far the trunk leans for
 * it.
 *
 * Units: degrees of lean in findings; mm in readings, sorted by strain: the distance as a part of the reach.
 * Speed: kept by the piece.
 */
import { type Spot, type SpotReach, spotsOf } from '../drummer/arms.ts';
import type { Side } from '../drummer/sizes.ts';
import { keeper } from '../keep.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { toDegrees } from '../units.ts';
import { checkOf, code, type Measured, type OnePiece, saysOf } from './codes.ts';
import { isAbove } from './tolerance.ts';

type AtSpot = OnePiece & { readonly spot: Spot; readonly hand: Side };

export const ARM_REACH = checkOf('armReach', {
  word: 'Reach',
  caution: null,
  codes: {
    spot_beyond: code<AtSpot & { readonly value: null; readonly limit: number }>(
      'deg',
      'atMost',
      ({ names: [first] }, { spot, hand }) =>
        `The ${spot} of ${first} is beyond the drummer’s ${hand} stick, however far they lean: bring it nearer, or lower it.`,
    ),
    spot_leans: code<Measured & AtSpot>(
      'deg',
      'atMost',
      ({ names: [first], value, limit }, { spot, hand }) =>
        `For the ${spot} of ${first} the drummer leans ${value} to get there with the ${hand} stick, and ${limit} is easy: bring it nearer, or lower it.`,
    ),
    spots_reached: code<Measured & AtSpot>(
      'deg',
      'atMost',
      ({ names: [first], value, limit }, { spot }) =>
        `Everything is in reach: the ${spot} of ${first} asks for the most, a lean of ${value} with ${limit} easy.`,
    ),
  },
});
const says = saysOf(ARM_REACH);

/** A lean from the hips that nobody minds; a song long. Common practice, no source. */
const EASY_LEAN_DEG = 20;

const OWN = "Legroom's own default";

const keepSpots = keeper<readonly SpotReach[]>();

const strain = ({ distance, reach }: SpotReach): number => distance / reach;

/** Every striking spot of a setup, the most strained first. */
export function spotReaches(plan: Plan, setup: Setup, { figure }: Layout): SpotReach[] {
  if (!figure) return [];
  const all: SpotReach[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece?.kind === 'item')
      for (const spot of keepSpots(piece, [plan.gear, figure], () => spotsOf(plan, figure, piece))) all.push(spot);
  }
  return all.sort((a, b) => strain(b) - strain(a));
}

export function armReach(spots: readonly SpotReach[]): ReturnType<typeof says>[] {
  const found: ReturnType<typeof says>[] = [];
  const told = new Set<string>();
  const base = ({ piece, spot, hand, at }: SpotReach) => ({
    ...{ pieces: [piece] as const, bodies: [], limit: EASY_LEAN_DEG, source: OWN, at: [at[0], at[1]] as const },
    spot,
    hand,
  });
  for (const one of spots) {
    // A piece is told of once, by its worst spot.
    if (told.has(one.piece)) continue;
    const value = one.leanRad === null ? null : toDegrees(one.leanRad);
    if (value === null) found.push(says('spot_beyond', { state: 'blocked', ...base(one), value }));
    else if (isAbove(value, EASY_LEAN_DEG)) found.push(says('spot_leans', { state: 'tight', ...base(one), value }));
    else continue;
    told.add(one.piece);
  }
  const [first] = spots;
  if (found.length > 0 || !first) return found;
  return [says('spots_reached', { state: 'clear', ...base(first), value: toDegrees(first.leanRad ?? 0) })];
}

/** For the report: mm and degrees. */
export const reachReading = (spots: readonly SpotReach[]) =>
  spots.map(({ leanRad, ...one }) => ({
    ...one,
    strain: strain(one as SpotReach),
    lean: leanRad === null ? null : toDegrees(leanRad),
  }));
