/**
 * How a whole kit moved from one setup to another: the one turn and shift under which the most of its playing pieces stand where they
 * stood. A comparison is made in the kit's own frame, and says this once instead of once for every piece.
 *
 * Asked of the turns by which pieces changed their heading, each with the shift that brings one piece home: what the program moved, it
 * moved exactly. A kit laid again by hand, each piece a little off, has not moved as one.
 *
 * Units: mm; degrees counter-clockwise.
 */
import { gearOf } from '../gear/catalogue.ts';
import { isBesideKit } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { type PieceMotion, placesByMotion } from '../plan/motion.ts';
import { tidyDeg } from '../plan/numbers.ts';
import type { Piece, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';

/** Of the kit's middle: the mean place of the playing pieces that both setups have. */
export interface KitMove {
  readonly movedMm: number;
  readonly move: readonly [number, number];
  readonly turnedDeg: number;
  /** About the plan's origin. */
  readonly motion: PieceMotion;
}

/** Turns closer than this are one. */
const SAME_TURN_DEG = 1e-4;

/** Finer than a tape reads. */
export const SAME_MM = 0.5;

type Point = readonly [number, number];
const placeOf = ({ place }: Piece): Point => [place.xMm, place.yMm];

/** Null where it stands as it stood, or did not move as one. `isPlaying`: what makes the kit's own frame. */
export function kitMove(
  plan: Plan,
  from: Setup,
  to: Setup,
  isPlaying: (gear: Gear | undefined) => boolean,
): KitMove | null {
  const common = from.order.flatMap((id) => {
    const [before, after] = [from.pieces[id], Object.hasOwn(to.pieces, id) ? to.pieces[id] : undefined];
    if (before?.kind !== 'item' || after?.kind !== 'item' || !isPlaying(gearOf(plan.gear, before.gear))) return [];
    const turn = tidyDeg(after.place.headingDeg - before.place.headingDeg);
    return [{ was: placeOf(before), is: placeOf(after), turn }];
  });
  const stayed = common.filter(({ was, is }) => Math.hypot(is[0] - was[0], is[1] - was[1]) < SAME_MM).length;
  let best = { count: stayed, turn: 0, dx: 0, dy: 0 };
  const asked: number[] = [];
  for (const { turn } of common) {
    if (asked.some((other) => Math.abs(other - turn) < SAME_TURN_DEG)) continue;
    asked.push(turn);
    const [c, s] = [Math.cos(toRadians(turn)), Math.sin(toRadians(turn))];
    const shifts = common.map(({ was: [x, y], is: [u, v] }): Point => [u - (c * x - s * y), v - (s * x + c * y)]);
    for (const [dx, dy] of shifts) {
      const count = shifts.filter(([p, q]) => Math.hypot(p - dx, q - dy) < SAME_MM).length;
      if (count > best.count) best = { count, turn, dx, dy };
    }
  }
  const { count, turn, dx, dy } = best;
  // Two pieces of many that happen to move alike are not the kit.
  if (count === stayed || count < 2 || 2 * count < common.length) return null;
  const [c, s] = [Math.cos(toRadians(turn)), Math.sin(toRadians(turn))];
  const mean = (k: 0 | 1) => common.reduce((sum, { was }) => sum + was[k], 0) / common.length;
  const [x, y] = [mean(0), mean(1)];
  const move: Point = [dx + c * x - s * y - x, dy + s * x + c * y - y];
  const motion = { turnDeg: turn, aboutXMm: 0, aboutYMm: 0, dxMm: dx, dyMm: dy };
  return { movedMm: Math.hypot(...move), move, turnedDeg: turn, motion };
}

/** A setup with its kit moved as one; what belongs to the stage stays. */
export function movedKit(plan: Plan, setup: Setup, { motion }: KitMove): Setup {
  const kit = Object.values(setup.pieces).filter(
    (piece) => piece.kind === 'rack' || !isBesideKit(gearOf(plan.gear, piece.gear)),
  );
  const places = placesByMotion(
    setup,
    kit.map(({ id }) => id),
    motion,
  );
  const pieces = Object.fromEntries(
    Object.entries(setup.pieces).map(([id, piece]) => [
      id,
      Object.hasOwn(places, id) ? ({ ...piece, place: { ...piece.place, ...places[id] } } as Piece) : piece,
    ]),
  );
  return { ...setup, pieces };
}
