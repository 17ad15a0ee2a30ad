/**
 * The gap between two swept shapes: the least distance between their cores, less both radii. Every pair of
 * kinds has a closed form; nothing is flattened.
 *
 * Units:  one length unit throughout (mm here); the result is in the same unit.
 * Sign:   > 0 apart, 0 touching, < 0 overlapping. Where the cores meet (cross, touch, or lie within a polygon core)
 *         it is -(a.radius + b.radius): a flag and a bound, not the shift that would part them.
 * Exact:  whether straight cores meet. Otherwise within 1e-9 mm for coordinates within 100 m.
 * Inputs: shapes made by shapes.ts.
 * Source: Ericson, Real-Time Collision Detection (2005), 5.1, for the straight kinds; the arcs from the
 *         condition that the shortest line between two curves is at right angles to both, or starts at an end.
 */
import { Cores } from './coreTable.ts';
import { measureInto, Nearest, nearestInto } from './nearest.ts';
import type { Core, Swept } from './shapes.ts';

export interface GapResult {
  /** Signed gap, as above. */
  readonly gap: number;
  /**
   * The point of a's outline nearest to b's core, and of b's outline nearest to a's: each the nearest point of
   * the core, moved by the radius towards the other. |gap| apart; they have passed each other where the shapes
   * overlap. Where the cores meet, both are one shared point of the cores instead.
   */
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** The cores meet, so the gap is the flag -(a.radius + b.radius). */
  readonly meeting: boolean;
}

// Used from the beginning to the end of one question, in which nothing foreign is called.
const one = new Cores();
const other = new Cores();
const near = new Nearest();

function measure(a: Core, b: Core, into = near): Nearest {
  one.clear();
  one.add(a);
  other.clear();
  other.add(b);
  nearestInto(into, one, 0, other, 0);
  return into;
}

/** The gap and the two nearest points of the outlines. */
export function gap(a: Swept, b: Swept): GapResult {
  const { ax, ay, bx, by, distance, meeting } = measure(a.core, b.core);
  const signed = distance - (a.radius + b.radius);
  // Cores that do not meet, yet by less than rounding can tell, have one point and no direction.
  const ux = distance > 0 ? (bx - ax) / distance : 0;
  const uy = distance > 0 ? (by - ay) / distance : 0;
  return {
    gap: signed,
    ax: ax + a.radius * ux,
    ay: ay + a.radius * uy,
    bx: bx - b.radius * ux,
    by: by - b.radius * uy,
    meeting,
  };
}

/** The gap alone. For many pairs use closePairs() in pairs.ts. */
export function gapValue(a: Swept, b: Swept): number {
  return measure(a.core, b.core).distance - (a.radius + b.radius);
}

/** The nearest points of the two cores themselves, radii left out. */
export function nearestOnCores(a: Swept, b: Swept): Readonly<Nearest> {
  return measure(a.core, b.core, new Nearest());
}

/** The least distance from a core to any of a table's; 0 where it meets one of them. */
export function leastDistance(core: Core, others: Cores): number {
  one.clear();
  one.add(core);
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < others.count && least > 0; k++) {
    measureInto(near, one, 0, others, k);
    if (near.distance < least) least = near.distance;
  }
  return least;
}
