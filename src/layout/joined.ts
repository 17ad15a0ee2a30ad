/** Which bodies carry an arm or link, and which of them it is fixed to. */
import type { BodyKind } from '../gear/bodyKinds.ts';
import { carrierPiece } from '../plan/carriers.ts';
import type { Carrier } from '../plan/schema.ts';
import type { Body } from './body.ts';

const RIGID: ReadonlySet<BodyKind> = new Set(['leg', 'foot', 'bar', 'stand', 'arm', 'link']);

/**
 * Whether a body is of what carries an arm: the rack, the stand, the other arm, the bass drum in which its post stands. Its carrier's
 * own drum or cymbal is played and moves, so it is not among these.
 */
export const carries = (carrier: Carrier, { piece, kind }: Body): boolean =>
  piece === carrierPiece(carrier) && (RIGID.has(kind) || (carrier.on === 'piece' && kind === 'bassDrum'));

/** Of these, what the arm itself is fixed to. Inputs: a body that carries it. */
export function isJoint(carrier: Carrier, { part, kind }: Body): boolean {
  if (carrier.on === 'leg') return kind === 'leg' && part === carrier.leg;
  // A bent tube is several bodies in line.
  if (carrier.on === 'bar') return kind === 'bar' && (part === carrier.bar || part.startsWith(`${carrier.bar}-`));
  return true;
}
