/**
 * How far a body sticks out of a deck that is a union of convex modules: the greatest distance of any of its points
 * from the deck.
 *
 * The distance from the deck is f(p) = the least over the modules of the distance to each, and each of those is convex. The
 * greatest f over a body is on the body's edge, or at a place inside it where f has a peak of its own: in a hole or a
 * notch, a point as far from three sides or corners at once: amid.ts looks for those. Along the edge a search with a bound finishes it: on a
 * stretch from a to b each convex distance (below 0 inside a module) stays below the straight line between its ends' values, up
 * to the rise of the arc over its chord, so the highest point of the least of these lines, plus the rise, bounds f. On an arc the distance
 * from one module has known peaks, and the greatest of it bounds f too. A stretch is opened at such a peak, or where the lines cross,
 * which is nearly where f has its own peak: few are.
 *
 * Exact: within SEARCH_MM of the true value, never above it.
 */

import { type Features, farthestAmid } from './amid.ts';
import { wrapAngle } from './frame.ts';
import { circleRound, type ModuleCircles, type Work } from './moduleCircles.ts';
import { drawRaw, hasArea } from './outline.ts';
import type { Swept } from './shapes.ts';
import { signedDistance } from './unionInside.ts';

/** How close to the true overhang the search must come. */
const SEARCH_MM = 5e-10;

/** The highest point of the least of some straight lines: how high, and where between their ends at 0 and 1. */
const crest = { high: 0, at: 0 };

/** Which of the straight lines from a[k] to b[k] is least at t. */
function leastAt(a: Float64Array, b: Float64Array, n: number, t: number): number {
  let at = 0;
  let low = Number.POSITIVE_INFINITY;
  for (let k = 0; k < n; k++) {
    const v = a[k] + t * (b[k] - a[k]);
    if (v < low) {
      low = v;
      at = k;
    }
  }
  return at;
}

/** Finds the crest of the straight lines from a[k] to b[k]. */
function findCrest(a: Float64Array, b: Float64Array, n: number): void {
  let left = leastAt(a, b, n, 0);
  crest.at = 0;
  crest.high = a[left];
  if (b[left] <= a[left]) return;
  let right = leastAt(a, b, n, 1);
  crest.at = 1;
  crest.high = b[right];
  if (b[right] >= a[right]) return;
  // The least is concave: close in on its crest from a rising line and a falling one.
  for (let step = 0; step < n + 3; step++) {
    const rise = b[left] - a[left];
    const fall = b[right] - a[right];
    const t = (a[right] - a[left]) / (rise - fall);
    crest.at = t;
    crest.high = a[left] + t * rise;
    const under = leastAt(a, b, n, t);
    if (a[under] + t * (b[under] - a[under]) >= crest.high - 1e-12) return;
    if (b[under] > a[under]) left = under;
    else right = under;
  }
}

/** An edge of a body by its parameter, from 0 to `size`. */
interface Track {
  x(t: number): number;
  y(t: number): number;
  readonly size: number;
  readonly pieces: number;
  /** Of an arc; 0 for a straight edge. */
  readonly r: number;
  /** Where along an arc the distance from a module may have a peak; none along a straight edge. */
  peaks(module: Swept): number[];
}

const NO_PEAKS: number[] = [];

function straightTrack(x0: number, y0: number, x1: number, y1: number): Track {
  return {
    x: (t) => x0 + t * (x1 - x0),
    y: (t) => y0 + t * (y1 - y0),
    size: 1,
    pieces: 1,
    r: 0,
    peaks: () => NO_PEAKS,
  };
}

function roundTrack(cx: number, cy: number, r: number, start: number, sweep: number): Track {
  const way = Math.sign(sweep);
  const size = Math.abs(sweep);
  return {
    x: (t) => cx + r * Math.cos(start + way * t),
    y: (t) => cy + r * Math.sin(start + way * t),
    size,
    // Eighths of a turn, so that the rise over the chord is small from the start.
    pieces: Math.ceil(size / (Math.PI / 4)),
    r,
    /** Straight out from a side, or straight away from a corner. */
    peaks({ core }) {
      if (core.kind !== 'polygon') return NO_PEAKS;
      const p = core.points;
      const found: number[] = [];
      for (let i = 0; i < p.length; i += 2) {
        const j = (i + 2) % p.length;
        for (const angle of [Math.atan2(p[i] - p[j], p[j + 1] - p[i + 1]), Math.atan2(cy - p[i + 1], cx - p[i])]) {
          const t = wrapAngle(way * (angle - start));
          if (t <= size) found.push(t);
        }
      }
      return found;
    },
  };
}

/** A stretch of a track, and the distances from the modules at its ends. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly depth: number;
}

class OverhangSearch {
  /** The farthest found so far. */
  best = 0;
  private readonly n: number;
  /** Peaks of each module's distance along the track: where, and how far. */
  private readonly peaks: (Float64Array | null)[] = [];
  /** The last peak that barred or promised most. */
  private peakAt = 0;

  constructor(
    private readonly modules: readonly Swept[],
    private readonly work?: Work,
  ) {
    this.n = modules.length;
  }

  distances(x: number, y: number): Float64Array {
    const { n, modules } = this;
    const d = new Float64Array(n);
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < n; k++) {
      d[k] = signedDistance(modules[k], x, y);
      if (d[k] < least) least = d[k];
    }
    if (this.work) this.work.looks += n;
    if (least > this.best) this.best = least;
    return d;
  }

  private peaksOf(track: Track, k: number): Float64Array {
    const before = this.peaks[k];
    if (before) return before;
    const found = track.peaks(this.modules[k]);
    const made = new Float64Array(2 * found.length);
    found.forEach((t, i) => {
      made[2 * i] = t;
      made[2 * i + 1] = signedDistance(this.modules[k], track.x(t), track.y(t));
    });
    this.peaks[k] = made;
    return made;
  }

  /** The greatest distance from one module along a stretch of an arc: at an end or at a peak. */
  private mostOf(track: Track, { from, to, a, b }: Stretch, k: number): number {
    let most = Math.max(a[k], b[k]);
    this.peakAt = -1;
    const peaks = this.peaksOf(track, k);
    for (let i = 0; i < peaks.length; i += 2) {
      if (peaks[i + 1] <= most || peaks[i] <= from || peaks[i] >= to) continue;
      most = peaks[i + 1];
      this.peakAt = peaks[i];
    }
    return most;
  }

  /** Where to open a stretch; -1 where nothing on it lies farther out than the best. */
  private splitOf(track: Track, stretch: Stretch): number {
    const { from, to, a, b, depth } = stretch;
    const { n } = this;
    const width = to - from;
    findCrest(a, b, n);
    const enough = this.best + SEARCH_MM;
    if (crest.high + track.r * (1 - Math.cos(width / 2)) <= enough) return -1;
    const { at } = crest;
    if (track.r > 0) {
      // The module that is nearest at an end bounds the whole stretch.
      if (this.mostOf(track, stretch, leastAt(a, b, n, 0)) <= enough) return -1;
      const first = this.peakAt;
      if (this.mostOf(track, stretch, leastAt(a, b, n, 1)) <= enough) return -1;
      const peak = first > 0 ? first : this.peakAt;
      if (peak > 0) return peak;
    }
    // Where two distances cross is nearly where their chords do; halves now and then, so that no end is crept up to.
    return from + width * (depth % 3 === 2 ? 0.5 : Math.max(0.02, Math.min(0.98, at)));
  }

  along(track: Track): void {
    const { x, y, size, pieces } = track;
    this.peaks.length = 0;
    const open: Stretch[] = [];
    let a = this.distances(x(0), y(0));
    for (let k = 1; k <= pieces; k++) {
      const b = this.distances(x((k * size) / pieces), y((k * size) / pieces));
      open.push({ from: ((k - 1) * size) / pieces, to: (k * size) / pieces, a, b, depth: 0 });
      a = b;
    }
    for (let next = open.pop(); next; next = open.pop()) {
      const split = this.splitOf(track, next);
      if (split < 0) continue;
      const m = this.distances(x(split), y(split));
      const depth = next.depth + 1;
      open.push({ ...next, to: split, b: m, depth }, { ...next, from: split, a: m, depth });
    }
  }
}

/** The greatest distance of any point of the body from the deck; 0 where the body lies on it. */
export function overhang(body: Swept, deck: ModuleCircles, features: Features, work?: Work): number {
  const search = new OverhangSearch(deck.about(...circleRound(body)), work);
  const { core } = body;
  if (hasArea(body))
    drawRaw(body, {
      segment: (x0, y0, x1, y1) => search.along(straightTrack(x0, y0, x1, y1)),
      arc: (cx, cy, r, start, sweep) => search.along(roundTrack(cx, cy, r, start, sweep)),
    });
  else if (core.kind === 'point') search.distances(core.x, core.y);
  else if (core.kind === 'segment') search.along(straightTrack(core.x0, core.y0, core.x1, core.y1));
  else if (core.kind === 'arc') search.along(roundTrack(core.cx, core.cy, core.r, core.start, core.sweep));
  return farthestAmid(body, deck, features, search.best, work);
}
