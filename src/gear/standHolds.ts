/**
 * What a stand holds by itself, without an arm of the plan: a cymbal on its rod or its boom, a drum in its basket or on its own arms.
 *
 * A boom and a tom stand's arms are arms like any other: armOfStand() gives them the ranges by which layout/reach.ts asks.
 */
import type { SocketArm } from './kinds.ts';
import type { Gear, GearOf } from './schema.ts';
import { STAND_USES } from './uses.ts';

type Stand = GearOf<'stand'>;

/** `rod`: straight over the tube. `basket`: in it. `boom`, `tomArm`: at the end of an arm that is part of the stand. */
export type StandHold = 'rod' | 'basket' | 'boom' | 'tomArm';

/** For a stand whose gear does not say. Common practice, no source. */
const BOOM_TILT_DEG: [number, number] = [-30, 90];
const BOOM_TUBE_MM = 16;
const TOM_ARM_MM: [number, number] = [80, 260];
/** A tom arm's own upright end slides in the stand's head. */
const TOM_ARM_POST_MM: [number, number] = [0, 150];
const TOM_ARM_TUBE_MM = 19;
const TOM_ARM_TILT_DEG: [number, number] = [0, 60];
const TOM_ARMS = 2;

/** Whether a stand has an arm of its own for cymbals, or for toms. */
export const hasArmFor = (stand: Stand, hold: 'boom' | 'tomArm'): boolean =>
  hold === 'tomArm'
    ? stand.use === 'tom' && !stand.basketMm
    : STAND_USES[stand.use].cymbals !== null && stand.armMm !== undefined;

/** How a stand holds such a piece; null: it does not. A hi-hat stand takes hi-hats alone; on a cymbal stand hi-hats are as welcome as any. */
export function holdOf(stand: Gear | undefined, piece: Gear | undefined): StandHold | null {
  if (stand?.kind !== 'stand' || piece === undefined) return null;
  if (piece.kind === 'drum') return stand.basketMm ? 'basket' : hasArmFor(stand, 'tomArm') ? 'tomArm' : null;
  if (piece.kind !== 'cymbal') return null;
  const { cymbals } = STAND_USES[stand.use];
  if (cymbals === null || (cymbals === 'hiHats' && piece.use !== 'hiHat')) return null;
  return hasArmFor(stand, 'boom') ? 'boom' : 'rod';
}

/** How many pieces a stand holds in one way; null: as many as fit one over the other. */
export const mostHeld = (stand: Stand, hold: StandHold): number | null =>
  hold === 'rod' ? null : hold === 'tomArm' ? (stand.arms ?? TOM_ARMS) : 1;

/** What of a stand's mass is in an arm of its own that holds something. */
export const heldMassKg = (stand: Stand, hold: StandHold): number => (hold === 'boom' ? (stand.boomMassKg ?? 0) : 0);

/** A stand's own arm, from the top of its tube. Its mass is the boom's. */
export function armOfStand(stand: Stand, hold: 'boom' | 'tomArm'): SocketArm {
  const common = { id: stand.id, name: stand.name, massKg: heldMassKg(stand, hold) };
  if (hold === 'tomArm') {
    const { armMm = TOM_ARM_MM, ballTiltDeg = TOM_ARM_TILT_DEG } = stand;
    return { ...common, kind: 'lArm', tubeMm: TOM_ARM_TUBE_MM, postMm: TOM_ARM_POST_MM, armMm, ballTiltDeg };
  }
  const { armMm = [0, 0], tiltDeg = BOOM_TILT_DEG, rodTubeMm = BOOM_TUBE_MM, rodMm } = stand;
  return {
    ...common,
    kind: 'boom',
    postMm: [0, 0],
    tubeMm: rodTubeMm,
    armMm,
    tiltDeg,
    ...(rodMm !== undefined && { rodMm }),
  };
}
