/**
 * How far a body hangs out of a deck amid itself: at places from which every way leads nearer to the deck, in a hole or a notch, as far from
 * three sides or corners at once. Where a body covers one, it hangs out no less far than there.
 *
 * The body's box is cut into quarters, and those again, until so few sides and corners may be the nearest to any point of a cell that all threes
 * of them can be tried. What may be the nearest is handed down, so a cell looks at its own surroundings alone, and cells from which one way
 * leads away from all of that are left out: most bodies need a handful. Round a place where many are as near (the middle of a ring of modules)
 * cells shrink until their size says nothing any more.
 *
 * Exact:  within 1e-9 mm.
 */
import type { ModuleCircles, Work } from './moduleCircles.ts';
import { Bounds, highest } from './poseProgramme.ts';
import type { Swept } from './shapes.ts';
import { boxOf } from './support.ts';
import { signedDistance } from './unionInside.ts';

/** All threes of so many are tried. */
const FEW = 8;
/** In smaller cells the highest point of many sides' distances is found to 1e-9 mm at once. */
const FLAT_MM = 50;
/** A cell no wider than this is a point. */
const POINT_MM = 2e-10;
/** Rounding of a distance. */
const SLACK_MM = 1e-9;

/** A line a x + b y = c. */
type Line = readonly [number, number, number];
/** Outward unit normal and offset. */
type Flat = readonly [number, number, number];
type Corner = readonly [number, number];

interface Side {
  readonly flat: Flat;
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
  readonly lengthSq: number;
}

/** Sides, and corners that point outward: what the nearest point of a deck lies on. */
export interface Features {
  readonly sides: readonly Side[];
  readonly corners: readonly Corner[];
}

interface Cell extends Features {
  readonly x: number;
  readonly y: number;
  /** Half its width. */
  readonly half: number;
}

/** Made once for a deck. `sides`: four numbers each, the deck on the left. */
export function featuresOf(sides: Float64Array): Features {
  const all: Side[] = [];
  const corners: Corner[] = [];
  const startsAt = new Map<string, number[]>();
  const key = (x: number, y: number) => `${x} ${y}`;
  for (let k = 0; k < sides.length; k += 4) {
    const at = key(sides[k], sides[k + 1]);
    const before = startsAt.get(at);
    if (before) before.push(k);
    else startsAt.set(at, [k]);
  }
  for (let k = 0; k < sides.length; k += 4) {
    const [x, y, x1, y1] = [sides[k], sides[k + 1], sides[k + 2], sides[k + 3]];
    const [dx, dy] = [x1 - x, y1 - y];
    const length = Math.hypot(dx, dy);
    const flat: Flat = [dy / length, -dx / length, (x * dy - y * dx) / length];
    all.push({ flat, x, y, dx, dy, lengthSq: length * length });
    for (const m of startsAt.get(key(x1, y1)) ?? [])
      if (dx * (sides[m + 3] - y1) - dy * (sides[m + 2] - x1) > 0) corners.push([x1, y1]);
  }
  return { sides: all, corners };
}

/** From the nearest point of a side to a point, written over when asked again. */
const way = new Float64Array(2);

function wayFrom({ x, y, dx, dy, lengthSq }: Side, px: number, py: number): number {
  const [vx, vy] = [px - x, py - y];
  const t = Math.max(0, Math.min(1, (vx * dx + vy * dy) / lengthSq));
  way[0] = vx - t * dx;
  way[1] = vy - t * dy;
  return Math.sqrt(way[0] * way[0] + way[1] * way[1]);
}

/**
 * Whether some way leads from every point of a cell, `reach` round its middle, away from all these sides at once: then no place in it is
 * farther from the deck than all around. How a point lies from its nearest on a side changes no faster than the point moves.
 */
function leadsAway(sides: readonly Side[], x: number, y: number, reach: number): boolean {
  let [sx, sy] = [0, 0];
  for (const side of sides) {
    const far = wayFrom(side, x, y);
    if (far <= reach) return false;
    sx += way[0] / far;
    sy += way[1] / far;
  }
  // The outermost on both sides of their mean; half way between them is as far from both as can be.
  let [left, right] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const side of sides) {
    wayFrom(side, x, y);
    const turned = Math.atan2(sx * way[1] - sy * way[0], sx * way[0] + sy * way[1]);
    left = Math.max(left, turned);
    right = Math.min(right, turned);
  }
  const ahead = Math.atan2(sy, sx) + (left + right) / 2;
  const [ux, uy] = [Math.cos(ahead), Math.sin(ahead)];
  for (const side of sides) {
    wayFrom(side, x, y);
    if (ux * way[0] + uy * way[1] <= reach) return false;
  }
  return true;
}

/** Whether every point of a cell lies straight across from each of these sides, not past its end. */
function areFlat(sides: readonly Side[], x: number, y: number, reach: number): boolean {
  return sides.every(({ x: x0, y: y0, dx, dy, lengthSq }) => {
    const along = (x - x0) * dx + (y - y0) * dy;
    const slack = reach * Math.sqrt(lengthSq);
    return along >= slack && along <= lengthSq - slack;
  });
}

/** The place of a cell that is farthest from the nearest of some sides, all straight across: a linear programme. */
function crestOf(sides: readonly Side[], { x, y, half }: Cell, least: number): [number, number] {
  const bounds = new Bounds();
  for (const { flat } of sides)
    bounds.push(flat[0] * x + flat[1] * y - flat[2] - least, 0, flat[0] * half, flat[1] * half, 0, 0);
  const { at } = highest(bounds);
  return [x + at[1] * half, y + at[2] * half];
}

/** What of a cell's surroundings may be the nearest to one of its points. */
function nearest({ x, y, half, sides, corners }: Cell): Features & { readonly least: number } {
  const fromSides = sides.map((side) => wayFrom(side, x, y));
  const least = Math.min(...fromSides);
  const most = least + 2 * Math.SQRT2 * half + SLACK_MM;
  return {
    least,
    sides: sides.filter((_, k) => fromSides[k] <= most),
    corners: corners.filter((corner) => (corner[0] - x) ** 2 + (corner[1] - y) ** 2 <= most * most),
  };
}

/**
 * The greatest distance from the deck of a place amid the body that is as far from three of the deck's sides and corners; `best` where there is
 * none farther.
 */
export function farthestAmid(body: Swept, deck: ModuleCircles, features: Features, best: number, work?: Work): number {
  const { minX, minY, maxX, maxY } = boxOf(body);
  const half = Math.max(maxX - minX, maxY - minY) / 2;
  const open: Cell[] = [{ x: (minX + maxX) / 2, y: (minY + maxY) / 2, half, ...features }];
  const offer = (x: number, y: number, far: number) => {
    if (far > best && signedDistance(body, x, y) <= 0) best = far;
  };
  for (let cell = open.pop(); cell; cell = open.pop()) {
    const { x, y, half } = cell;
    const reach = Math.SQRT2 * half;
    if (work) work.looks += cell.sides.length;
    const near = nearest(cell);
    const count = near.sides.length + near.corners.length;
    if (count < 3 || near.least + reach <= best || leadsAway(near.sides, x, y, reach)) continue;
    if (signedDistance(body, x, y) > reach) continue;
    // Clear of every edge by its own size, a cell lies wholly on the deck or wholly off it.
    if (near.least > reach && deck.distance(x, y) === 0) continue;
    if (count <= FEW)
      eachAsFar(near, (px, py, far) => {
        // Not a number where two run together; below 0 on the other side of a flat.
        if (!(far > best && Math.abs(px - x) <= half + SLACK_MM && Math.abs(py - y) <= half + SLACK_MM)) return;
        const truly = deck.distance(px, py);
        if (Math.abs(truly - far) <= 1e-6 * Math.max(1, far)) offer(px, py, truly);
      });
    else if (half < FLAT_MM && near.corners.length === 0 && areFlat(near.sides, x, y, reach)) {
      const [px, py] = crestOf(near.sides, cell, near.least);
      offer(px, py, deck.distance(px, py));
    } else if (half <= POINT_MM) offer(x, y, deck.distance(x, y));
    else
      for (const [wx, wy] of QUARTERS)
        open.push({ x: x + (wx * half) / 2, y: y + (wy * half) / 2, half: half / 2, ...near });
  }
  return best;
}

const QUARTERS = [
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
] as const;

const meet = ([a, b, c]: Line, [d, e, f]: Line): [number, number] => {
  const det = a * e - b * d;
  return [(c * e - b * f) / det, (a * f - c * d) / det];
};
const evenFlats = (p: Flat, q: Flat): Line => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
const evenCorners = ([px, py]: Corner, [qx, qy]: Corner): Line => [
  2 * (qx - px),
  2 * (qy - py),
  qx * qx + qy * qy - px * px - py * py,
];

type Give = (x: number, y: number, far: number) => void;

/** Points on a line as far from a corner as from a flat. */
function onLine([a, b, c]: Line, [nx, ny, o]: Flat, [vx, vy]: Corner, give: Give): void {
  const size = Math.hypot(a, b);
  if (size < 1e-12) return;
  // The line as start + t direction.
  const px = (a * c) / (size * size);
  const py = (b * c) / (size * size);
  const ux = -b / size;
  const uy = a / size;
  const wx = px - vx;
  const wy = py - vy;
  const s0 = nx * px + ny * py - o;
  const s1 = nx * ux + ny * uy;
  const qa = 1 - s1 * s1;
  const qb = wx * ux + wy * uy - s0 * s1;
  const qc = wx * wx + wy * wy - s0 * s0;
  const at = (t: number) => give(px + t * ux, py + t * uy, s0 + t * s1);
  if (Math.abs(qa) < 1e-12) at(-qc / (2 * qb));
  else {
    const root = Math.sqrt(Math.max(0, qb * qb - qa * qc));
    at((-qb + root) / qa);
    at((-qb - root) / qa);
  }
}

/** Every point as far from some three. */
function eachAsFar({ sides, corners }: Features, give: Give): void {
  const flats = sides.map(({ flat }) => flat);
  for (let i = 0; i < flats.length; i++) {
    for (let j = i + 1; j < flats.length; j++) {
      const even = evenFlats(flats[i], flats[j]);
      for (let k = j + 1; k < flats.length; k++) {
        const [x, y] = meet(even, evenFlats(flats[j], flats[k]));
        give(x, y, flats[i][0] * x + flats[i][1] * y - flats[i][2]);
      }
      for (const corner of corners) onLine(even, flats[i], corner, give);
    }
  }
  for (let i = 0; i < corners.length; i++) {
    for (let j = i + 1; j < corners.length; j++) {
      const even = evenCorners(corners[i], corners[j]);
      for (const flat of flats) onLine(even, flat, corners[i], give);
      for (let k = j + 1; k < corners.length; k++) {
        const [x, y] = meet(even, evenCorners(corners[j], corners[k]));
        give(x, y, Math.hypot(x - corners[i][0], y - corners[i][1]));
      }
    }
  }
}
