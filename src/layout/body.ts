/**
 * What layout makes of a plan: bodies placed in mm, radians inside. Checks, drawing and the report read these alone.
 */
import { BODY_KINDS, type BodyKind } from '../gear/bodyKinds.ts';
import type { Swept } from '../geometry/shapes.ts';

export interface Body {
  /** `piece/part`, unique in the setup. */
  readonly id: string;
  readonly piece: string;
  readonly part: string;
  readonly label: string;
  readonly kind: BodyKind;
  /** The piece that this body's rigid assembly is rooted in: a rack, a stand, or the piece itself. */
  readonly assembly: string;
  /** Rests on the deck, and the whole of its outline counts as contact. */
  readonly touchesFloor: boolean;
  readonly z0: number;
  readonly z1: number;
  readonly shape: Swept;
  readonly massKg: number | null;
  readonly massCentre: readonly [number, number, number] | null;
}

/** Whether it is part of the kit: whatever stands beside it on the stage counts in none of the kit's measures. */
export const isKit = ({ kind }: Pick<Body, 'kind'>): boolean => BODY_KINDS[kind].role !== 'stage';
