/** What fits what: a clamp on a tube, an arm in a clamp, an arm in a socket of another. Diameters in mm. */
import { type AnySocket, type ArmGear, kindOf } from './kinds.ts';
import type { Gear, GearOf } from './schema.ts';

type Clamp = GearOf<'clamp'>;

/** Diameters are typed in inches and in mm: apart by less they are the same. A tenth of a mm is what a caliper shows. */
const ALIKE_MM = 0.1;

/** Platforms do not say how thick their post is: that of long L-arms. Common practice, no source. */
const PLATFORM_POST_MM = 22.2;

/** Whether something of this diameter goes into what takes such a range; what says nothing takes all. */
export const takes = (range: readonly [number, number] | undefined, mm: number): boolean =>
  range === undefined || (range[0] - ALIKE_MM <= mm && mm <= range[1] + ALIKE_MM);

/** What of an arm stands in a clamp or a socket. */
export const footMm = (arm: ArmGear): number => (arm.kind === 'platform' ? PLATFORM_POST_MM : arm.tubeMm);

/** Joints and memory locks hold tubes, not arms. */
export const holdsArms = (gear: Gear): gear is Clamp =>
  gear.kind === 'clamp' && (gear.use === 'arm' || gear.use === 'swivel');

/** Clamps that hold an arm on a tube, the narrowest first; those that need no setting before tilting ones. */
export function clampsFor(known: readonly Gear[], tubeMm: number | null, arm: ArmGear): Clamp[] {
  return known
    .filter(holdsArms)
    .filter((clamp) => tubeMm !== null && takes(clamp.tubeMm, tubeMm) && takes(clamp.socketMm, footMm(arm)))
    .sort(
      (a, b) =>
        Number(a.use === 'swivel') - Number(b.use === 'swivel') || a.widthMm - b.widthMm || (a.id < b.id ? -1 : 1),
    );
}

/** Why an arm does not stand in a socket: it never does, the socket is for arms of another kind, or it is too thick or too thin. */
export type SocketMisfit = 'arm' | 'kind' | 'diameter';

/** A tom socket takes L-arms, any other whatever fits a socket at all. Null: it fits. */
export function socketMisfit({ use, takesMm }: AnySocket, arm: ArmGear): SocketMisfit | null {
  if (!kindOf(arm).arm?.fitsSocket) return 'arm';
  if (!takes(takesMm, footMm(arm))) return 'diameter';
  return use === 'tom' && arm.kind !== 'lArm' ? 'kind' : null;
}
