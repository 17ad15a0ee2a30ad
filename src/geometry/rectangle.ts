/**
 * The smallest rectangle (by area) round many swept shapes, at any turn.
 *
 * Between two stops of the turning calipers width and depth are p cos t + q sin t + r each. With polygons r is 0 and the least
 * area is at a stop; with arcs it can lie between stops, where the slope of width x depth is zero. In tan((t - m) / 2)
 * that slope is a polynomial of degree 4, whose roots are found in each interval that can hold such a place: where width
 * and depth are both concave (their centres lie apart the way they are measured), so is the logarithm of the area, and its
 * least value is at a stop.
 *
 * Units:  one length unit; angle in radians, in (-pi/4, pi/4]: the least turn of the rectangle from upright.
 * Exact:  closed form up to root finding; area within 1e-12 relative.
 * Inputs: at least one shape. Throws: RangeError for none.
 */
import { roundsOf, upperEnvelope } from './envelope.ts';
import { depthWave, middleAt, type Quarter, quarters, type Wave, waveAt, widthWave } from './quarters.ts';
import { rootsIn } from './roots.ts';
import type { Swept } from './shapes.ts';

export interface TurnedRectangle {
  /** Centre. */
  readonly x: number;
  readonly y: number;
  /** Extent along `angle`, and across it. */
  readonly width: number;
  readonly depth: number;
  readonly angle: number;
}

/** Turns strictly inside the quarter at which the area neither grows nor shrinks. */
function levelTurns({ from, to }: Quarter, width: Wave, depth: Wave): number[] {
  const m = (from + to) / 2;
  const c = Math.cos(m);
  const s = Math.sin(m);
  // About the middle m, with h = tan((t - m) / 2): (1 + h^2) x wave and (1 + h^2) x its slope.
  const about = ({ p, q, r }: Wave): [number[], number[]] => {
    const pm = p * c + q * s;
    const qm = q * c - p * s;
    return [
      [pm + r, 2 * qm, r - pm],
      [qm, -2 * pm, -qm],
    ];
  };
  const [w, dw] = about(width);
  const [d, dd] = about(depth);
  const slope = [0, 0, 0, 0, 0];
  for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) slope[i + j] += dw[i] * d[j] + w[i] * dd[j];
  const reach = Math.tan((to - from) / 4);
  return rootsIn(slope, -reach, reach).map((h) => m + 2 * Math.atan(h));
}

/** Whether p cos t + q sin t is nowhere below 0 in the quarter, and so concave there: a quarter is shorter than half a turn. */
function isConcave(wave: Wave, { from, to }: Quarter): boolean {
  return waveAt(wave, from) >= wave.r && waveAt(wave, to) >= wave.r;
}

/** The rectangle of least area that holds all shapes; among equals the one turned least. */
export function smallestRectangle(shapes: readonly Swept[]): TurnedRectangle {
  if (shapes.length === 0) throw new RangeError('A rectangle needs at least one shape to hold.');
  let best: TurnedRectangle | undefined;
  let bestArea = Number.POSITIVE_INFINITY;
  for (const quarter of quarters(upperEnvelope(roundsOf(shapes)))) {
    const across = widthWave(quarter);
    const along = depthWave(quarter);
    const atStops = isConcave(across, quarter) && isConcave(along, quarter);
    for (const turn of [quarter.from, quarter.to, ...(atStops ? [] : levelTurns(quarter, across, along))]) {
      const width = waveAt(across, turn);
      const depth = waveAt(along, turn);
      const area = width * depth;
      const sideways = turn > Math.PI / 4;
      const angle = sideways ? turn - Math.PI / 2 : turn;
      // Equal within rounding: the smaller turn is the better answer, and the same on every machine.
      const equal = 1e-12 * bestArea;
      const smaller = area < bestArea - equal;
      if (best && !smaller && (area > bestArea + equal || Math.abs(angle) >= Math.abs(best.angle) - 1e-12)) continue;
      const [x, y] = middleAt(quarter, turn);
      best = { x, y, angle, width: sideways ? depth : width, depth: sideways ? width : depth };
      bestArea = Math.min(area, bestArea);
    }
  }
  return best!;
}
