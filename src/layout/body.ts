/**
 * What layout makes of a plan: bodies placed in mm, radians inside. Checks, drawing and the report read these alone.
 */
import { BODY_KINDS, type BodyKind } from '../gear/bodyKinds.ts';
import type { Swept } from '../geometry/shapes.ts';
import type { Solid, Upright } from '../geometry/solids.ts';

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
  /** What it truly is in space, within its outline and heights; left out where it fills them. */
  readonly solid?: Exclude<Solid, Upright>;
  readonly massKg: number | null;
  readonly massCentre: readonly [number, number, number] | null;
}

/** Whether it is what holds a piece, an arm or a link, rather than the piece itself. */
export const isArmBody = ({ kind }: Pick<Body, 'kind'>): boolean => kind === 'arm' || kind === 'link';

/** Whether it is part of the kit: the drummer, and whatever stands beside it on the stage, count in none of the kit's measures. */
export const isKit = ({ kind }: Pick<Body, 'kind'>): boolean => !['stage', 'drummer'].includes(BODY_KINDS[kind].role);

/** Whether its outline and heights are a bound from outside, and a distance has to be measured in space. A level tube's are near enough. */
export function leans({ solid }: Pick<Body, 'solid'>): boolean {
  if (solid === undefined || solid.kind === 'bend') return false;
  return solid.kind !== 'rod' || solid.a[2] !== solid.b[2];
}

export const solidOf = ({ solid, shape, z0, z1 }: Pick<Body, 'solid' | 'shape' | 'z0' | 'z1'>): Solid =>
  solid ?? { kind: 'upright', shape, z0, z1 };
