/**
 * Room for sticks between a drum's head and what hangs over it: a cymbal, a boom, another drum.
 *
 * Measured in space from the head's middle part, where it is played, to whatever begins above the head. What the drum itself hangs on
 * does not count.
 *
 * Units: mm.
 */
import { gapValue } from '../geometry/gap.ts';
import { disc } from '../geometry/shapes.ts';
import { type Discs, drumSolid, type Point3 } from '../geometry/solids.ts';
import { spaceGap } from '../geometry/space.ts';
import { kept } from '../keep.ts';
import { type Body, isKit, solidOf } from '../layout/body.ts';
import { checkOf, code, type Measured, saysOf, type TwoPieces } from './codes.ts';
import { isBelow } from './tolerance.ts';

/** The drum, then what hangs over it. */
type Over = Measured & TwoPieces;

export const STICK_ROOM = checkOf('stickRoom', {
  word: 'Stick room',
  caution: null,
  codes: {
    stick_room_small: code<Over>(
      'mm',
      'atLeast',
      ({ names: [first, second], value, limit }) =>
        `${second} hangs ${value} over the head of ${first}, and sticks want ${limit}: raise it, or move it aside.`,
    ),
    stick_room: code<Over>(
      'mm',
      'atLeast',
      ({ names: [first, second], value, limit }) =>
        `Sticks have room: ${second} comes nearest over the head of ${first}, ${value} above it with ${limit} wanted.`,
    ),
  },
});
const says = saysOf(STICK_ROOM);

/** A hand's breadth. Common practice, no source. */
const STICK_ROOM_MM = 100;
/** Farther than this above a head nothing is worth a word. */
const NEAR_MM = 300;
/** The part of a head's radius within which it is played. Common practice, no source. */
const PLAYED_PART = 0.75;

interface Head {
  readonly middle: Point3;
  readonly solid: Discs;
  readonly radius: number;
}

const headOf = kept(({ kind, part, solid, shape, z1 }: Body): Head | null => {
  if ((kind !== 'snare' && kind !== 'tom' && kind !== 'floorTom') || part !== 'shell') return null;
  const [middle, normal, whole] =
    solid?.kind === 'discs'
      ? [solid.a, solid.normal, solid.radiusA]
      : shape.core.kind === 'point'
        ? [[shape.core.x, shape.core.y, z1] as const, [0, 0, 1] as const, shape.radius]
        : [null, null, 0];
  if (middle === null || normal === null) return null;
  const radius = whole * PLAYED_PART;
  return { middle, solid: drumSolid(middle, normal, radius, 0), radius };
});

interface Hung {
  readonly drum: Body;
  readonly over: Body;
  readonly gap: number;
}

/** What hangs lowest over each head, in the layout's order. */
function lowestOver(bodies: readonly Body[]): Hung[] {
  return bodies.flatMap((drum) => {
    const head = headOf(drum);
    if (!head) return [];
    const { middle, radius, solid } = head;
    let lowest: Hung | null = null;
    for (const over of bodies) {
      if (over.z0 <= middle[2] || over.z0 >= middle[2] + NEAR_MM || over.piece === drum.piece || !isKit(over)) continue;
      if (gapValue(disc(middle[0], middle[1], radius), over.shape) > 0) continue;
      const { gap, beyond } = spaceGap(solid, solidOf(over), Math.min(NEAR_MM, lowest?.gap ?? NEAR_MM));
      if (!beyond && (lowest === null || gap < lowest.gap)) lowest = { drum, over, gap };
    }
    return lowest ? [lowest] : [];
  });
}

export function stickRoom(bodies: readonly Body[]): ReturnType<typeof says>[] {
  const all = lowestOver(bodies);
  const told = (code: 'stick_room_small' | 'stick_room', { drum, over, gap }: Hung) =>
    says(code, {
      state: code === 'stick_room' ? 'clear' : 'tight',
      pieces: [drum.piece, over.piece],
      bodies: [drum.id, over.id],
      value: gap,
      limit: STICK_ROOM_MM,
      source: "Legroom's own default",
      at: [headOf(drum)?.middle[0] ?? 0, headOf(drum)?.middle[1] ?? 0],
    });
  const small = all.filter(({ gap }) => isBelow(gap, STICK_ROOM_MM));
  if (small.length > 0) return small.map((one) => told('stick_room_small', one));
  if (all.length === 0) return [];
  return [
    told(
      'stick_room',
      all.reduce((a, b) => (b.gap < a.gap ? b : a)),
    ),
  ];
}
