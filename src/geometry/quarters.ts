/**
 * A hull seen through a turning set square: for each stretch of turns the four rounds that its four sides touch.
 * With `east` touched in direction t, `north` in t + 90 degrees and so on, width and depth across are
 * p cos t + q sin t + r each.
 */

import type { Round, Stretch } from './envelope.ts';
import { TAU } from './frame.ts';

export interface Quarter {
  /** Turns from `from` to `to`, within [0, pi / 2]. */
  readonly from: number;
  readonly to: number;
  readonly east: Round;
  readonly north: Round;
  readonly west: Round;
  readonly south: Round;
}

/** p cos t + q sin t + r. */
export interface Wave {
  readonly p: number;
  readonly q: number;
  readonly r: number;
}

export function waveAt({ p, q, r }: Wave, t: number): number {
  return p * Math.cos(t) + q * Math.sin(t) + r;
}

export function quarters(stretches: readonly Stretch[]): Quarter[] {
  const quarter = TAU / 4;
  const stops = [0, quarter];
  for (const { from } of stretches) {
    for (let k = 0; k < 4; k++) {
      const stop = from - k * quarter;
      if (stop > 0 && stop < quarter) stops.push(stop);
    }
  }
  stops.sort((a, b) => a - b);
  const at = [0, 0, 0, 0];
  const touched = (k: number, t: number): Round => {
    const angle = t + k * quarter;
    while (at[k] < stretches.length - 1 && stretches[at[k]].to < angle) at[k]++;
    return stretches[at[k]].round;
  };
  const result: Quarter[] = [];
  for (let k = 1; k < stops.length; k++) {
    const from = stops[k - 1];
    const to = stops[k];
    if (to === from) continue;
    const middle = (from + to) / 2;
    result.push({
      from,
      to,
      east: touched(0, middle),
      north: touched(1, middle),
      west: touched(2, middle),
      south: touched(3, middle),
    });
  }
  return result;
}

/** Extent along direction t within a quarter. */
export function widthWave({ east, west }: Quarter): Wave {
  return { p: east.x - west.x, q: east.y - west.y, r: east.r + west.r };
}

/** Extent across direction t within a quarter. */
export function depthWave({ north, south }: Quarter): Wave {
  return { p: north.y - south.y, q: south.x - north.x, r: north.r + south.r };
}

/** The middle of the four sides at turn t, in the plan frame. */
export function middleAt({ east, north, west, south }: Quarter, t: number): [number, number] {
  const c = Math.cos(t);
  const s = Math.sin(t);
  const along = ((east.x + west.x) * c + (east.y + west.y) * s + east.r - west.r) / 2;
  const across = ((north.y + south.y) * c - (north.x + south.x) * s + north.r - south.r) / 2;
  return [along * c - across * s, along * s + across * c];
}
