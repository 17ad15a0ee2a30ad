/**
 * The centre line of a tube: a straight, an arc, a straight, each touching the next without a corner. Any of them may
 * have no length.
 *
 * Units: mm along the line, radians. Exact: closed forms, within 1e-9 mm for lines within 100 m.
 */
import { TAU, wrapAngle } from './frame.ts';
import { bentCapsule, capsule, type Swept } from './shapes.ts';

export interface CentreLine {
  /** The first end. */
  readonly x: number;
  readonly y: number;
  /** Heading of the tube at its first end, pointing into the tube. */
  readonly heading: number;
  /** Length of the first straight. */
  readonly before: number;
  /** Bend radius; any number, Infinity too, when the angle is 0. */
  readonly radius: number;
  /** Angle of the bend: > 0 to the left, < 0 to the right; at most a turn. */
  readonly angle: number;
  /** Length of the second straight. */
  readonly after: number;
}

/** A place on the line and the line's heading there. */
export interface LinePoint {
  readonly x: number;
  readonly y: number;
  readonly heading: number;
}

/** Roots this far beyond a stretch are on its end: the module's error bound, so none is lost between two stretches. */
const END_SLACK_MM = 1e-9;

const bentLength = (line: CentreLine): number => (line.angle === 0 ? 0 : line.radius * Math.abs(line.angle));

/** Cut length. */
export function lineLength(line: CentreLine): number {
  return line.before + bentLength(line) + line.after;
}

function onward({ x, y, heading }: LinePoint, distance: number): LinePoint {
  return { x: x + distance * Math.cos(heading), y: y + distance * Math.sin(heading), heading };
}

function roundBend({ x, y, heading }: LinePoint, radius: number, angle: number): LinePoint {
  // Along the chord of the part bent so far, which keeps its digits for slight bends.
  const chord = 2 * radius * Math.sin(Math.abs(angle) / 2);
  const towards = heading + angle / 2;
  return { x: x + chord * Math.cos(towards), y: y + chord * Math.sin(towards), heading: heading + angle };
}

/** The place at `along` mm of the line from its first end; held to its ends. */
export function pointAlong(line: CentreLine, along: number): LinePoint {
  const bent = bentLength(line);
  if (along <= line.before) return onward(line, Math.max(along, 0));
  const bendStart = onward(line, line.before);
  if (along <= line.before + bent) {
    const part = (along - line.before) / line.radius;
    return roundBend(bendStart, line.radius, Math.sign(line.angle) * part);
  }
  const bendEnd = bent > 0 ? roundBend(bendStart, line.radius, line.angle) : bendStart;
  return onward(bendEnd, Math.min(along - line.before - bent, line.after));
}

/** Distances along a straight from `start`, `length` long, that are `chord` from q; both roots, in order. */
function straightRoots(start: LinePoint, q: LinePoint, chord: number): number[] {
  const ux = Math.cos(start.heading);
  const uy = Math.sin(start.heading);
  const wx = q.x - start.x;
  const wy = q.y - start.y;
  const foot = wx * ux + wy * uy;
  const off = wx * uy - wy * ux;
  const halfSq = (chord - off) * (chord + off);
  if (halfSq < 0) return [];
  const half = Math.sqrt(halfSq);
  return [foot - half, foot + half];
}

/** Distances along a bend from `start` that are `chord` from q, in order, each within the first turn. */
function bendRoots(start: LinePoint, radius: number, angle: number, q: LinePoint, chord: number): number[] {
  const side = Math.sign(angle);
  const cx = start.x - side * radius * Math.sin(start.heading);
  const cy = start.y + side * radius * Math.cos(start.heading);
  const away = Math.hypot(q.x - cx, q.y - cy);
  if (away === 0) return [];
  // The law of cosines with half the angle: sin(half)^2 = (chord^2 - (radius - away)^2) / (4 radius away).
  const sineSq = ((chord - (radius - away)) * (chord + (radius - away))) / (4 * radius * away);
  if (sineSq < 0 || sineSq > 1) return [];
  const turned = 2 * Math.asin(Math.sqrt(sineSq));
  const startAngle = Math.atan2(start.y - cy, start.x - cx);
  const middle = side * (Math.atan2(q.y - cy, q.x - cx) - startAngle);
  const slack = END_SLACK_MM / radius;
  return [middle - turned, middle + turned]
    .map((a) => {
      const wrapped = wrapAngle(a);
      return radius * (TAU - wrapped < slack ? 0 : wrapped);
    })
    .sort((a, b) => a - b);
}

/**
 * The first place after `from` whose straight distance from the place at `from` is `chord`: where the second leg goes
 * on a bar when the first is at `from`.
 *
 * Result: distance along the line from its first end, or null when the line never gets that far away.
 * Exact:  a root of a closed form for each of the three stretches.
 * Inputs: 0 <= from <= length, chord > 0.
 */
export function alongAtChord(line: CentreLine, from: number, chord: number): number | null {
  const q = pointAlong(line, from);
  const bent = bentLength(line);
  const bendEndAlong = line.before + bent;
  const bendStart = pointAlong(line, line.before);
  const bendEnd = pointAlong(line, bendEndAlong);

  // Within the stretch that holds `from` the distance only grows from 0; later stretches may come nearer again first.
  const reach = (start: number, length: number, roots: number[]): number | null => {
    for (const root of roots) {
      if (root < -END_SLACK_MM || root > length + END_SLACK_MM) continue;
      const along = start + Math.min(Math.max(root, 0), length);
      if (along > from) return along;
    }
    return null;
  };
  if (from < line.before) {
    const found = reach(0, line.before, [from + chord]);
    if (found !== null) return found;
  }
  if (bent > 0 && from < bendEndAlong) {
    // Does the bend itself hold `from`? Then the chord alone gives the angle, without the two centres' rounding.
    const sine = chord / (2 * line.radius);
    const own = sine <= 1 ? [from - line.before + 2 * line.radius * Math.asin(sine)] : [];
    const roots = from >= line.before ? own : bendRoots(bendStart, line.radius, line.angle, q, chord);
    const found = reach(line.before, bent, roots);
    if (found !== null) return found;
  }
  return reach(
    bendEndAlong,
    line.after,
    from >= bendEndAlong ? [from - bendEndAlong + chord] : straightRoots(bendEnd, q, chord),
  );
}

/** The tube itself: up to three swept shapes that share ends. Throws: as shapes.ts. */
export function tubeAlong(line: CentreLine, tubeRadius: number): Swept[] {
  const shapes: Swept[] = [];
  const bent = bentLength(line);
  const bendStart = pointAlong(line, line.before);
  const bendEnd = pointAlong(line, line.before + bent);
  const last = pointAlong(line, lineLength(line));
  // A tube of no length at all is still the disc of its end.
  if (line.before > 0 || lineLength(line) === 0)
    shapes.push(capsule(line.x, line.y, bendStart.x, bendStart.y, tubeRadius));
  if (bent > 0) {
    const side = Math.sign(line.angle);
    const cx = bendStart.x - side * line.radius * Math.sin(line.heading);
    const cy = bendStart.y + side * line.radius * Math.cos(line.heading);
    // From the centre the bend's start lies to the right of the heading for a left bend, to the left for a right bend.
    shapes.push(bentCapsule(cx, cy, line.radius, line.heading - (side * Math.PI) / 2, line.angle, tubeRadius));
  }
  if (line.after > 0) shapes.push(capsule(bendEnd.x, bendEnd.y, last.x, last.y, tubeRadius));
  return shapes;
}
