/**
 * The inverse of pointAlong(): which place of a tube's centre line is nearest to a point.
 *
 * Units: mm along the line from its first end.
 * Exact: closed form for each of the three stretches; within 1e-9 mm.
 */
import { type CentreLine, lineLength, pointAlong } from './arcsLine.ts';
import { TAU, wrapAngle } from './frame.ts';

/** Equal distances: the place that comes first. A bend's centre is as near to all of the bend: its start. */
export function nearestAlong(line: CentreLine, x: number, y: number): number {
  const total = lineLength(line);
  const bent = total - line.before - line.after;
  const start = pointAlong(line, line.before);
  const end = pointAlong(line, line.before + bent);
  const places = [0, line.before, line.before + bent, total];
  const onStraight = (from: typeof start, heading: number, first: number, length: number) => {
    const foot = (x - from.x) * Math.cos(heading) + (y - from.y) * Math.sin(heading);
    places.push(first + Math.min(Math.max(foot, 0), length));
  };
  onStraight(pointAlong(line, 0), line.heading, 0, line.before);
  onStraight(end, end.heading, line.before + bent, line.after);
  if (bent > 0) {
    const side = Math.sign(line.angle);
    const cx = start.x - side * line.radius * Math.sin(start.heading);
    const cy = start.y + side * line.radius * Math.cos(start.heading);
    if (x !== cx || y !== cy) {
      const from = Math.atan2(start.y - cy, start.x - cx);
      const turned = wrapAngle(side * (Math.atan2(y - cy, x - cx) - from));
      if (turned <= Math.min(Math.abs(line.angle), TAU)) places.push(line.before + turned * line.radius);
    }
  }
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const place of places) {
    const at = pointAlong(line, place);
    const distance = Math.hypot(at.x - x, at.y - y);
    if (distance < least || (distance === least && place < best)) {
      least = distance;
      best = place;
    }
  }
  return best;
}
