/**
 * Which foot works which pedal, and where a shoe stands on it.
 *
 * A station is a board for one foot: a bass drum pedal, the second board of a double one, a hi-hat stand's own. The hi-hat says which
 * foot is which, for legs do not cross: the foot on its side works it, and the other the bass drum pedal farthest from it. Without
 * a hi-hat the hand that leads says so; where nobody does, the side of the throne that the pedals are on. Every further board is worked by the foot whose own is nearer.
 *
 * Units: mm, in the throne's own frame: x to the drummer's left, y to the drummer's back.
 */
import { SECOND_PEDAL, TOWER_DEPTH_MM } from '../gear/kinds.ts';
import { compose, type Motion, movePoint } from '../geometry/frame.ts';
import { type KnownItem, knownItems } from '../plan/items.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import type { Side } from './sizes.ts';

export interface Station {
  readonly piece: string;
  /** Of the piece: the first or second board of a pedal, or a hi-hat stand's. */
  readonly board: 'first' | 'second' | 'hiHat';
  /** The board's frame: its middle line is x = 0, its toe points to -y. */
  readonly at: Motion;
  /** The foremost and the hindmost y of a shoe on it; a longer one stands out behind. */
  readonly front: number;
  readonly back: number;
}

/** A hi-hat's board ends at the stand's tube; a toe stays this far behind its middle. Common practice, no source. */
const BEHIND_TUBE_MM = 30;

type Placed = Readonly<Record<'xMm' | 'yMm' | 'headingDeg', number>>;

export const motionOf = ({ xMm, yMm, headingDeg }: Placed): Motion => ({
  angle: toRadians(headingDeg),
  dx: xMm,
  dy: yMm,
});

function boardsOf({ item, gear }: KnownItem): Station[] {
  const at = motionOf(item.place);
  const piece = item.id;
  if (gear.kind === 'stand' && gear.board)
    return [{ piece, board: 'hiHat', at, front: BEHIND_TUBE_MM, back: gear.board.lengthMm }];
  // One that a mount holds is played with a hand or beside the kit; where its board is nobody knows.
  if (gear.kind !== 'pedal' || item.mount !== null) return [];
  const back = gear.boardLengthMm / 2;
  const front = TOWER_DEPTH_MM - back;
  const first: Station = { piece, board: 'first', at, front, back };
  if (gear.use !== 'double') return [first];
  const second = motionOf(item.second ?? SECOND_PEDAL);
  return [first, { ...first, board: 'second', at: compose(at, second) }];
}

export type Feet = Readonly<Record<Side, readonly Station[]>>;

const otherSide = (side: Side): Side => (side === 'left' ? 'right' : 'left');

/** The stations of each foot, in the plan, the one it plays first and then the others in the setup's order. */
export function feetOf(plan: Plan, setup: Setup, throne: Motion, handed: Side | null): Feet {
  const all = knownItems(plan, setup).flatMap(boardsOf);
  /** To the drummer's left of the throne's middle. */
  const leftOf = ({ at, front, back }: Station) => {
    const [x, y] = movePoint(at, 0, (front + back) / 2);
    return (x - throne.dx) * Math.cos(throne.angle) + (y - throne.dy) * Math.sin(throne.angle);
  };
  const hat = all.find(({ board }) => board === 'hiHat');
  const basses = all.filter((station) => station.board !== 'hiHat').sort((a, b) => leftOf(a) - leftOf(b));
  const [rightmost, leftmost] = [basses[0], basses[basses.length - 1]];
  if (!rightmost || !leftmost) {
    const side: Side = hat ? (leftOf(hat) >= 0 ? 'left' : 'right') : 'left';
    return side === 'left' ? { left: hat ? [hat] : [], right: [] } : { left: [], right: hat ? [hat] : [] };
  }
  const hatSide: Side = hat
    ? leftOf(hat) >= (leftOf(rightmost) + leftOf(leftmost)) / 2
      ? 'left'
      : 'right'
    : otherSide(handed ?? (leftOf(rightmost) + leftOf(leftmost) <= 0 ? 'right' : 'left'));
  const bass = hatSide === 'left' ? rightmost : leftmost;
  const second = hat ?? (basses.length > 1 ? (hatSide === 'left' ? leftmost : rightmost) : undefined);
  const feet: Record<Side, Station[]> = { left: [], right: [] };
  feet[otherSide(hatSide)].push(bass);
  if (second) feet[hatSide].push(second);
  for (const station of all) {
    if (station === bass || station === second) continue;
    const at = leftOf(station);
    const isNearHat = second !== undefined && Math.abs(at - leftOf(second)) <= Math.abs(at - leftOf(bass));
    feet[isNearHat ? hatSide : otherSide(hatSide)].push(station);
  }
  return feet;
}
