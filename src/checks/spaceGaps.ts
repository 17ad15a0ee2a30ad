/**
 * How near two bodies come in truth. The plan's gap is that of two outlines whose heights meet; where one of them leans, or
 * where one is above the other, it bounds the distance from below and no more. Such pairs are measured in space.
 *
 * The room wanted is `beside` for a level line between the two and `above` for an upright one, and for a line between these what an
 * ellipse with these half axes has in its direction: so nothing comes too close by being moved away.
 */
import { type SpaceGap, spaceGap } from '../geometry/space.ts';
import { kept } from '../keep.ts';
import { type Body, leans, solidOf } from '../layout/body.ts';

/** What is wanted between two bodies, mm. */
export interface Room {
  readonly beside: number;
  readonly above: number;
}

export interface InSpace {
  readonly gap: number;
  readonly required: number;
  /** From the one's nearest point to the other's, seen from above: x0 y0 x1 y1; null where they run into each other. */
  readonly line: readonly [number, number, number, number] | null;
  /** The one that is above the other, by a line steeper than half a right angle. */
  readonly upper: 'a' | 'b' | null;
}

/** How far apart two height intervals are, mm; below 0: by how much they share heights. */
export const heightGap = (a: Body, b: Body): number => Math.max(a.z0 - b.z1, b.z0 - a.z1);

/** Whether the plan's gap is not the whole answer. */
export const needsSpace = (a: Body, b: Body): boolean => leans(a) || leans(b) || heightGap(a, b) > 0;

/** What is wanted along a line that goes `flat` mm sideways and `rise` mm up or down. */
export function roomAlong({ beside, above }: Room, flat: number, rise: number): number {
  if (rise === 0) return beside;
  if (flat === 0) return above;
  return Math.hypot(flat, rise) / Math.hypot(flat / beside, rise / above);
}

interface Answer {
  readonly of: Body;
  readonly reach: number;
  readonly found: SpaceGap;
}

/** By the one body, and by the other's id: what a drag does not move keeps its distances, and what it moves is forgotten. */
const answersOf = kept((_: Body) => new Map<string, Answer>());

function spaceGapOf(a: Body, b: Body, reach: number): SpaceGap {
  const answers = answersOf(a);
  const before = answers.get(b.id);
  if (before?.of === b && (!before.found.beyond || before.reach >= reach)) return before.found;
  const found = spaceGap(solidOf(a), solidOf(b), reach);
  answers.set(b.id, { of: b, reach, found });
  return found;
}

/**
 * The distance in space, and the room wanted there; null: `reach` or more apart. Where they run into each other the plan's gap, which
 * is then 0 or less, stays the flag that it is for all other pairs.
 */
export function measuredInSpace(a: Body, b: Body, planGap: number, room: Room, reach: number): InSpace | null {
  const found = spaceGapOf(a, b, reach);
  if (found.beyond || found.gap >= reach) return null;
  const { gap, meeting, ax, ay, bx, by } = found;
  if (gap <= 0) return { gap: meeting ? Math.min(0, planGap) : gap, required: room.beside, line: null, upper: null };
  const flat = Math.hypot(bx - ax, by - ay);
  const rise = found.az - found.bz;
  const required = roomAlong(room, flat, Math.abs(rise));
  const upper = Math.abs(rise) > flat ? (rise > 0 ? 'a' : 'b') : null;
  return { gap, required, line: [ax, ay, bx, by], upper };
}
