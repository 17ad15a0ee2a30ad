/**
 * How far a body sticks out of a deck that is a union of convex modules: the greatest distance of any of its points
 * from the deck.
 *
 * The distance from the deck is f(p) = the least over the modules of the distance to each, and each of those is convex. The
 * greatest f over a body is on the body's edge, or at a place inside it where f has a peak of its own: in a hole or a
 * notch, a point as far from three sides or corners at once. Such resting points depend on the deck alone
 * and are listed once; f is simply evaluated at those inside the body. Along the edge a search with a bound finishes it: on a
 * stretch from a to b each convex distance (below 0 inside a module) stays below the straight line between its ends' values, up
 * to the rise of the arc over its chord, so the highest point of the least of these lines, plus the rise, bounds f. The bound's
 * error falls with the square of the stretch, so few stretches are opened. An arc about a corner of the deck has the same
 * distance all along; there the distance from that corner is the bound.
 *
 * Exact: within SEARCH_MM of the true value, never above it.
 */
import { wrapAngle } from './frame.ts';
import { drawRaw, hasArea } from './outline.ts';
import type { Swept } from './shapes.ts';
import { signedDistance } from './unionInside.ts';

/** How close to the true overhang the search must come. */
const SEARCH_MM = 5e-10;

/** Distance of a point from the deck. */
function distanceFromDeck(modules: readonly Swept[], x: number, y: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const module of modules) {
    const d = signedDistance(module, x, y);
    if (d <= 0) return 0;
    if (d < least) least = d;
  }
  return least;
}

/** A line a x + b y = c. */
type Line = readonly [number, number, number];

/** Places where a wave front from the deck meets itself from three sides, as x, y pairs. */
export function restingPoints(sides: Float64Array, modules: readonly Swept[]): Float64Array {
  // Features: sides as outward unit normal and offset, and corners of the deck that point outward.
  const flats: [number, number, number][] = [];
  const corners: [number, number][] = [];
  for (let k = 0; k < sides.length; k += 4) {
    const dx = sides[k + 2] - sides[k];
    const dy = sides[k + 3] - sides[k + 1];
    const length = Math.hypot(dx, dy);
    flats.push([dy / length, -dx / length, (sides[k] * dy - sides[k + 1] * dx) / length]);
    for (let m = 0; m < sides.length; m += 4) {
      if (sides[m] !== sides[k + 2] || sides[m + 1] !== sides[k + 3]) continue;
      if (dx * (sides[m + 3] - sides[m + 1]) - dy * (sides[m + 2] - sides[m]) > 0)
        corners.push([sides[m], sides[m + 1]]);
    }
  }
  const found: number[] = [];
  /** Keeps a point if it truly is `far` from the deck: that its three features are the nearest. */
  const keep = (x: number, y: number, far: number) => {
    if (!Number.isFinite(x + y) || !(far > 0)) return;
    if (Math.abs(distanceFromDeck(modules, x, y) - far) <= 1e-6 * Math.max(1, far)) found.push(x, y);
  };
  /** Points on a line as far from (vx, vy) as from a flat. */
  const onLine = ([a, b, c]: Line, [nx, ny, o]: [number, number, number], third: [number, number]) => {
    const size = Math.hypot(a, b);
    if (size < 1e-12) return;
    // The line as start + t direction.
    const px = (a * c) / (size * size);
    const py = (b * c) / (size * size);
    const ux = -b / size;
    const uy = a / size;
    const wx = px - third[0];
    const wy = py - third[1];
    const s0 = nx * px + ny * py - o;
    const s1 = nx * ux + ny * uy;
    const qa = 1 - s1 * s1;
    const qb = wx * ux + wy * uy - s0 * s1;
    const qc = wx * wx + wy * wy - s0 * s0;
    const roots: number[] = [];
    if (Math.abs(qa) < 1e-12) roots.push(-qc / (2 * qb));
    else {
      const root = Math.sqrt(Math.max(0, qb * qb - qa * qc));
      roots.push((-qb + root) / qa, (-qb - root) / qa);
    }
    for (const t of roots) keep(px + t * ux, py + t * uy, s0 + t * s1);
  };
  const meet = ([a, b, c]: Line, [d, e, f]: Line): [number, number] => {
    const det = a * e - b * d;
    return [(c * e - b * f) / det, (a * f - c * d) / det];
  };
  const evenFlats = (p: Line, q: Line): Line => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
  const evenCorners = ([px, py]: [number, number], [qx, qy]: [number, number]): Line => [
    2 * (qx - px),
    2 * (qy - py),
    qx * qx + qy * qy - px * px - py * py,
  ];
  for (let i = 0; i < flats.length; i++) {
    for (let j = i + 1; j < flats.length; j++) {
      const even = evenFlats(flats[i], flats[j]);
      for (let k = j + 1; k < flats.length; k++) {
        const [x, y] = meet(even, evenFlats(flats[j], flats[k]));
        keep(x, y, flats[i][0] * x + flats[i][1] * y - flats[i][2]);
      }
      for (const corner of corners) onLine(even, flats[i], corner);
    }
  }
  for (let i = 0; i < corners.length; i++) {
    for (let j = i + 1; j < corners.length; j++) {
      const even = evenCorners(corners[i], corners[j]);
      for (const flat of flats) onLine(even, flat, corners[i]);
      for (let k = j + 1; k < corners.length; k++) {
        const [x, y] = meet(even, evenCorners(corners[j], corners[k]));
        keep(x, y, Math.hypot(x - corners[i][0], y - corners[i][1]));
      }
    }
  }
  return new Float64Array(found);
}

/** The highest point of the least of the straight lines from a[k] to b[k]. */
function crestOfLeast(a: Float64Array, b: Float64Array, n: number): number {
  const least = (t: number): number => {
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
  };
  let left = least(0);
  if (b[left] <= a[left]) return a[left];
  let right = least(1);
  if (b[right] >= a[right]) return b[right];
  // The least is concave: close in on its crest from a rising line and a falling one.
  for (let step = 0; step < n + 2; step++) {
    const rise = b[left] - a[left];
    const fall = b[right] - a[right];
    const t = (a[right] - a[left]) / (rise - fall);
    const crest = a[left] + t * rise;
    const under = least(t);
    const low = a[under] + t * (b[under] - a[under]);
    if (low >= crest - 1e-12) return crest;
    if (b[under] > a[under]) left = under;
    else right = under;
  }
  return a[left] + ((a[right] - a[left]) / (b[left] - a[left] - b[right] + a[right])) * (b[left] - a[left]);
}

/** The greatest distance of any point of the body from the deck; 0 where the body lies on it. */
export function overhang(body: Swept, modules: readonly Swept[], resting: Float64Array): number {
  let best = 0;
  for (let k = 0; k < resting.length; k += 2)
    if (signedDistance(body, resting[k], resting[k + 1]) <= 0)
      best = Math.max(best, distanceFromDeck(modules, resting[k], resting[k + 1]));

  const n = modules.length;
  const distances = (x: number, y: number): Float64Array => {
    const d = new Float64Array(n);
    let least = Number.POSITIVE_INFINITY;
    for (let k = 0; k < n; k++) {
      d[k] = signedDistance(modules[k], x, y);
      if (d[k] < least) least = d[k];
    }
    if (least > best) best = least;
    return d;
  };
  /** The module corner nearest a point. */
  const cornerNear = (px: number, py: number): [number, number] => {
    let nearest = Number.POSITIVE_INFINITY;
    let corner: [number, number] = [0, 0];
    for (const { core } of modules) {
      if (core.kind !== 'polygon') continue;
      for (let i = 0; i < core.points.length; i += 2) {
        const away = Math.hypot(core.points[i] - px, core.points[i + 1] - py);
        if (away >= nearest) continue;
        nearest = away;
        corner = [core.points[i], core.points[i + 1]];
      }
    }
    return corner;
  };
  interface Open {
    readonly from: number;
    readonly to: number;
    readonly a: Float64Array;
    readonly b: Float64Array;
  }
  /** An edge of the body by its parameter, from 0 to `size`; for an arc its radius and how far a stretch gets from a point. */
  interface Track {
    x(t: number): number;
    y(t: number): number;
    readonly size: number;
    readonly pieces: number;
    readonly r: number;
    farthest?(from: number, to: number, px: number, py: number): number;
  }
  const search = ({ x, y, size, pieces, r, farthest }: Track) => {
    const open: Open[] = [];
    let a = distances(x(0), y(0));
    for (let k = 1; k <= pieces; k++) {
      const b = distances(x((k * size) / pieces), y((k * size) / pieces));
      open.push({ from: ((k - 1) * size) / pieces, to: (k * size) / pieces, a, b });
      a = b;
    }
    for (let next = open.pop(); next; next = open.pop()) {
      const { from, to } = next;
      const rise = r * (1 - Math.cos((to - from) / 2));
      if (crestOfLeast(next.a, next.b, n) + rise <= best + SEARCH_MM) continue;
      const middle = (from + to) / 2;
      if (farthest && farthest(from, to, ...cornerNear(x(middle), y(middle))) <= best + SEARCH_MM) continue;
      const m = distances(x(middle), y(middle));
      open.push({ from, to: middle, a: next.a, b: m }, { from: middle, to, a: m, b: next.b });
    }
  };
  const pen = {
    segment(x0: number, y0: number, x1: number, y1: number) {
      search({ x: (t) => x0 + t * (x1 - x0), y: (t) => y0 + t * (y1 - y0), size: 1, pieces: 1, r: 0 });
    },
    arc(cx: number, cy: number, r: number, start: number, sweep: number) {
      const way = Math.sign(sweep);
      const x = (t: number) => cx + r * Math.cos(start + way * t);
      const y = (t: number) => cy + r * Math.sin(start + way * t);
      search({
        x,
        y,
        size: Math.abs(sweep),
        // Eighths of a turn, so that the rise over the chord is small from the start.
        pieces: Math.ceil(Math.abs(sweep) / (Math.PI / 4)),
        r,
        farthest(from, to, px, py) {
          const opposite = wrapAngle(way * (Math.atan2(cy - py, cx - px) - start) - from);
          if (opposite <= to - from) return r + Math.hypot(cx - px, cy - py);
          return Math.max(Math.hypot(x(from) - px, y(from) - py), Math.hypot(x(to) - px, y(to) - py));
        },
      });
    },
  };
  const { core } = body;
  if (hasArea(body)) drawRaw(body, pen);
  else if (core.kind === 'point') distances(core.x, core.y);
  else if (core.kind === 'segment') pen.segment(core.x0, core.y0, core.x1, core.y1);
  else if (core.kind === 'arc') pen.arc(core.cx, core.cy, core.r, core.start, core.sweep);
  return best;
}
