/**
 * Whether someone walks straight out: a strip from a place to beyond everything, of a given width, in which nothing stands. Nothing
 * forms a ring of gaps below that width round the place then: a gap across the strip is as wide as the strip is.
 *
 * One of DIRECTIONS that is free is enough, and most kits have one behind the throne: it is asked first in each frame of a drag, before
 * the search for a ring (wayIn.ts). None free says nothing: the way may have a bend.
 *
 * Units: mm. Exact: a strip that is called free is free, by RESERVE_MM; one that is free by less, or by corners alone, may be missed.
 */
import type { Core } from '../geometry/shapes.ts';
import { kept } from '../keep.ts';
import type { Body } from '../layout/body.ts';

const DIRECTIONS = 32;
/** Far above rounding: so near to its edge the strip is left to the search for a ring. */
const RESERVE_MM = 1e-3;
/** An arc in straight pieces of at most so many radians. */
const ARC_STEP = 0.2;

/** A core as straight edges that follow one another, x0 y0 x1 y1 ...; a point is one edge of no length. */
interface Edges {
  readonly points: readonly number[];
  /** How near the body comes to its edges: its radius, and what an arc bows out. */
  readonly thick: number;
}

function pointsOf(core: Core): readonly number[] {
  switch (core.kind) {
    case 'point':
      return [core.x, core.y, core.x, core.y];
    case 'segment':
      return [core.x0, core.y0, core.x1, core.y1];
    case 'polygon':
      return [...core.points, core.points[0], core.points[1]];
    case 'arc': {
      const count = Math.max(1, Math.ceil(core.sweep / ARC_STEP));
      const points: number[] = [];
      for (let k = 0; k <= count; k++) {
        const angle = core.start + (core.sweep * k) / count;
        points.push(core.cx + core.r * Math.cos(angle), core.cy + core.r * Math.sin(angle));
      }
      return points;
    }
  }
}

const bowOf = (core: Core): number => (core.kind === 'arc' ? core.r * (1 - Math.cos(ARC_STEP / 2)) : 0);

/** Kept with the body: a drag makes new bodies only of what moves. */
const edgesOf = kept(
  ({ shape: { core, radius } }: Body): Edges => ({ points: pointsOf(core), thick: radius + bowOf(core) }),
);

/** Whether an edge after another stays out of the strip from (x, y) along (c, s): all of it left or right of it, or behind its beginning. */
function staysOut({ points, thick }: Edges, x: number, y: number, c: number, s: number, half: number): boolean {
  const room = half + thick + RESERVE_MM;
  let dx = points[0] - x;
  let dy = points[1] - y;
  let along = c * dx + s * dy;
  let aside = c * dy - s * dx;
  for (let i = 2; i < points.length; i += 2) {
    dx = points[i] - x;
    dy = points[i + 1] - y;
    const nextAlong = c * dx + s * dy;
    const nextAside = c * dy - s * dx;
    const isOut =
      (aside >= room && nextAside >= room) ||
      (aside <= -room && nextAside <= -room) ||
      (along <= -room && nextAlong <= -room);
    if (!isOut) return false;
    along = nextAlong;
    aside = nextAside;
  }
  return true;
}

/** The direction that was free when last asked: only a first guess, no answer depends on it. */
let guess = 0;

/** Whether some strip of this width leads straight out from (x, y). */
export function leadsStraightOut(obstacles: readonly Body[], x: number, y: number, width: number): boolean {
  for (let k = 0; k < DIRECTIONS; k++) {
    const direction = (guess + k) % DIRECTIONS;
    const angle = (2 * Math.PI * direction) / DIRECTIONS;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    let isFree = true;
    for (let i = 0; i < obstacles.length && isFree; i++)
      isFree = staysOut(edgesOf(obstacles[i]), x, y, c, s, width / 2);
    if (!isFree) continue;
    guess = direction;
    return true;
  }
  return false;
}
