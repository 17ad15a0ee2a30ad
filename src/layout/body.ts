/**
 * What layout makes of a plan: bodies placed in mm, radians inside. Checks, drawing and the report read these alone.
 */
import type { Swept } from '../geometry/shapes.ts';

/** What a body is, for clearance limits, line kinds and layers. */
export type BodyKind =
  | 'bassDrum'
  | 'snare'
  | 'tom'
  | 'floorTom'
  | 'cymbal'
  | 'pedal'
  | 'shaft'
  | 'throne'
  | 'stand'
  | 'leg'
  | 'foot'
  | 'bar'
  | 'arm'
  | 'link'
  | 'spur'
  | 'stageItem';

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
