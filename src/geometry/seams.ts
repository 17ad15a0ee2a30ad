/**
 * Deck modules that are clamped together, made to lie flush: what was measured with a tape or typed as rounded numbers leaves cracks,
 * overlaps and steps of a millimetre or two that the built deck has not.
 *
 * Two sides of different modules belong to one line where they run along each other within SEAM_MM and meet, or nearly meet, lengthwise.
 * Such sides, facing or flush, form groups, the nearest first and never wider than SEAM_MM, and all sides of a group go onto their mean
 * line; corners go where their two sides' lines cross. So a corner moves by less than SEAM_MM times the root of 2.
 *
 * Units:  mm.
 * Exact:  modules that lie flush already are returned as they are.
 * Inputs: convex polygons, x0, y0, x1, y1 ... counter-clockwise.
 */
import { meetingBoxes } from './unionBoxes.ts';

/** What clamps of decks take up and a tape misreads. Common practice, no source. A wider slit is an edge. */
export const SEAM_MM = 3;

/** A thousandth of a micrometre: far above the rounding of corners turned and shifted, far below any real slit. Nearer than this, sides run together. */
export const FLUSH_MM = 1e-6;

type Module = readonly number[];

interface Line {
  readonly nx: number;
  readonly ny: number;
  readonly offset: number;
}

interface Side extends Line {
  readonly module: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly length: number;
}

function sidesOf(points: Module, module: number): Side[] {
  const sides: Side[] = [];
  for (let i = 0; i < points.length; i += 2) {
    const j = (i + 2) % points.length;
    const [x0, y0, x1, y1] = [points[i], points[i + 1], points[j], points[j + 1]];
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [nx, ny] = [(y1 - y0) / length, (x0 - x1) / length];
    sides.push({ module, x0, y0, x1, y1, length, nx, ny, offset: nx * x0 + ny * y0 });
  }
  return sides;
}

/** How far a side's ends lie from a line, the least and the most, signed. */
const awayFrom = ({ nx, ny, offset }: Line, { x0, y0, x1, y1 }: Side): readonly [number, number] => {
  const [a, b] = [nx * x0 + ny * y0 - offset, nx * x1 + ny * y1 - offset];
  return a < b ? [a, b] : [b, a];
};

/** How far two sides are from lying on one line; Infinity where they are no seam. */
function misfit(a: Side, b: Side): number {
  // Lengthwise, along a: from end to end of b.
  const along = (x: number, y: number) => (y - a.y0) * a.nx - (x - a.x0) * a.ny;
  const [s, t] = [along(b.x0, b.y0), along(b.x1, b.y1)];
  if (Math.min(s, t) > a.length + SEAM_MM || Math.max(s, t) < -SEAM_MM) return Number.POSITIVE_INFINITY;
  const [near, far] = awayFrom(a, b);
  if (Math.max(-near, far) > SEAM_MM) return Number.POSITIVE_INFINITY;
  const [back, ahead] = awayFrom(b, a);
  const off = Math.max(-near, far, -back, ahead);
  return off <= SEAM_MM ? off : Number.POSITIVE_INFINITY;
}

/** The mean line of some sides, the longer counting for more; it faces as the first does. */
function meanLine(sides: readonly Side[]): Line {
  const [first] = sides;
  let [nx, ny] = [0, 0];
  for (const side of sides) {
    const way = side.nx * first.nx + side.ny * first.ny < 0 ? -side.length : side.length;
    nx += way * side.nx;
    ny += way * side.ny;
  }
  const size = Math.hypot(nx, ny);
  [nx, ny] = [nx / size, ny / size];
  let [offset, length] = [0, 0];
  for (const side of sides) {
    offset += side.length * ((nx * (side.x0 + side.x1) + ny * (side.y0 + side.y1)) / 2);
    length += side.length;
  }
  return { nx, ny, offset: offset / length };
}

function isNarrow(sides: readonly Side[]): boolean {
  const line = meanLine(sides);
  const ends = sides.map((side) => awayFrom(line, side));
  return Math.max(...ends.map(([, most]) => most)) - Math.min(...ends.map(([least]) => least)) <= SEAM_MM;
}

/** Two sides that may be a seam, by number. */
interface Link {
  readonly i: number;
  readonly j: number;
  readonly off: number;
}

/** Which sides may be seams; only those whose boxes come within SEAM_MM of each other are looked at. */
function linksOf(sides: readonly Side[]): Link[] {
  const boxes = new Float64Array(4 * sides.length);
  sides.forEach(({ x0, y0, x1, y1 }, i) => {
    boxes.set([Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)], 4 * i);
  });
  // Within SEAM_MM along one and within SEAM_MM across: no farther apart than both together.
  const { starts, others } = meetingBoxes(boxes, sides.length, 2 * SEAM_MM);
  const links: Link[] = [];
  for (let i = 0; i < sides.length; i++)
    for (let k = starts[i]; k < starts[i + 1]; k++) {
      const j = others[k];
      if (j < i || sides[i].module === sides[j].module) continue;
      const off = misfit(sides[i], sides[j]);
      if (off <= SEAM_MM) links.push({ i, j, off });
    }
  return links.sort((p, q) => p.off - q.off || p.i - q.i || p.j - q.j);
}

/** Sides that belong on one line, in groups. */
function groupsOf(sides: readonly Side[]): Side[][] {
  const groups = new Map(sides.map((side) => [side, [side]]));
  for (const { i, j } of linksOf(sides)) {
    const [one, other] = [groups.get(sides[i])!, groups.get(sides[j])!];
    if (one === other || !isNarrow([...one, ...other])) continue;
    one.push(...other);
    for (const side of other) groups.set(side, one);
  }
  return [...new Set(groups.values())];
}

const isFlush = (sides: readonly Side[]): boolean => {
  const line = meanLine(sides);
  return sides.every((side) => awayFrom(line, side).every((off) => Math.abs(off) <= FLUSH_MM));
};

/** The modules with cracks, overlaps and steps of up to SEAM_MM between them taken away. */
export function closeSeams(modules: readonly Module[]): readonly Module[] {
  if (modules.length < 2) return modules;
  const sides = modules.map(sidesOf);
  const lines = new Map<Side, Line>();
  for (const group of groupsOf(sides.flat())) {
    if (group.length < 2 || isFlush(group)) continue;
    const line = meanLine(group);
    for (const side of group) lines.set(side, line);
  }
  if (lines.size === 0) return modules;
  return modules.map((points, m) =>
    sides[m].flatMap((side, k) => {
      const before = sides[m][(k + sides[m].length - 1) % sides[m].length];
      if (!lines.has(side) && !lines.has(before)) return [points[2 * k], points[2 * k + 1]];
      const [p, q] = [lines.get(before) ?? before, lines.get(side) ?? side];
      const cross = p.nx * q.ny - p.ny * q.nx;
      return [(p.offset * q.ny - q.offset * p.ny) / cross, (p.nx * q.offset - q.nx * p.offset) / cross];
    }),
  );
}
