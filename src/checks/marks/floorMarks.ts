/**
 * The marks that a technician tapes on the deck: for each contact the points that give its place and its heading.
 *
 * - a T-foot: the middles of its two ends; a round foot: its middle. An upright without a foot: its middle.
 * - a bass drum: the tips of its spurs, and the middle of the stretch on which its batter hoop rests.
 * - a stand or a throne on legs: the tip of each leg, and the spot plumb under its tube, which stays right where the real legs
 *   are longer than the typical ones. A stand on one foot: its middle.
 * - a footboard: its two toe and two heel corners. A drum on legs: the tip of each.
 * - other things that stand on the same deck: a round one its middle, a box its two front corners.
 *
 * Units: mm in the plan's frame.
 */

import { grouped } from '../../gather.ts';
import { gearOf } from '../../gear/catalogue.ts';
import type { Core } from '../../geometry/shapes.ts';
import type { Body } from '../../layout/body.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Plan, Setup } from '../../plan/schema.ts';
import type { Point } from './crossing.ts';

export type MarkPart =
  | 'footEnd'
  | 'footMiddle'
  | 'upright'
  | 'spurTip'
  | 'hoop'
  | 'legTip'
  | 'underTube'
  | 'base'
  | 'toeCorner'
  | 'heelCorner'
  | 'middle'
  | 'frontCorner'
  | 'contact';

/** A direction on the stage, as the performer has it: stage left is the page's right. */
export type StageWay = 'down' | 'downLeft' | 'left' | 'upLeft' | 'up' | 'upRight' | 'right' | 'downRight';

export interface FloorMark {
  /** `piece/part/number of the point`, unique in the setup. */
  readonly id: string;
  readonly piece: string;
  readonly label: string;
  readonly part: MarkPart;
  /** The body that touches the deck there; for a spot under a tube, the tube or seat. */
  readonly body: string;
  /** Which of the piece's feet or boards; null where there is one. */
  readonly which: StageWay | number | null;
  /** Which end, tip or corner of it; null where there is one. */
  readonly end: StageWay | number | null;
  readonly at: Point;
}

/** Counter-clockwise from the page's right: stage left. */
const WAYS: readonly StageWay[] = ['left', 'upLeft', 'up', 'upRight', 'right', 'downRight', 'down', 'downLeft'];

/** The side of the stage towards which an angle in the marks' frame runs, to an eighth of a turn. */
export const wayOfAngle = (angle: number): StageWay => WAYS[((Math.round(angle / (Math.PI / 4)) % 8) + 8) % 8];

/**
 * Words that tell places apart: of two the side of the stage on which each is, of more the eighth of a turn from their
 * middle; their number, from 1, where two would have the same word. Null for a single place.
 */
export function tellApart(places: readonly Point[]): (StageWay | number | null)[] {
  if (places.length < 2) return places.map(() => null);
  const cx = places.reduce((sum, [x]) => sum + x, 0) / places.length;
  const cy = places.reduce((sum, [, y]) => sum + y, 0) / places.length;
  const step = places.length === 2 ? 2 : 1;
  const ways = places.map(([x, y]) => {
    const eighths = Math.atan2(y - cy, x - cx) / (Math.PI / 4);
    return WAYS[(Math.round(eighths / step) * step + 8) % 8];
  });
  return new Set(ways).size === ways.length ? ways : places.map((_, k) => k + 1);
}

/** The outermost points of a straight core's two ends, the middle of anything round, the corners of a polygon. */
function endsOf(core: Core, radius: number): Point[] {
  switch (core.kind) {
    case 'point':
      return [[core.x, core.y]];
    case 'segment': {
      const { x0, y0, x1, y1 } = core;
      const length = Math.hypot(x1 - x0, y1 - y0);
      const [ux, uy] = [((x1 - x0) / length) * radius, ((y1 - y0) / length) * radius];
      return [
        [x0 - ux, y0 - uy],
        [x1 + ux, y1 + uy],
      ];
    }
    case 'arc':
      return [core.start, core.start + core.sweep].map(
        (a): Point => [core.cx + core.r * Math.cos(a), core.cy + core.r * Math.sin(a)],
      );
    case 'polygon':
      return core.points.flatMap((x, i): Point[] => (i % 2 === 0 ? [[x, core.points[i + 1]]] : []));
  }
}

const middleOf = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
];

interface Spot {
  readonly part: MarkPart;
  readonly at: Point;
}

/** The points of one body; a footboard's corners come toe first, as layout makes a rectangle from its own front. */
function spotsOf(body: Body, gearKind: string): Spot[] {
  const { core, radius } = body.shape;
  const ends = endsOf(core, radius);
  const as = (part: MarkPart, points: readonly Point[] = ends) => points.map((at) => ({ part, at }));
  switch (body.kind) {
    case 'foot':
      return as(ends.length > 1 ? 'footEnd' : 'footMiddle');
    case 'leg':
      return as('upright');
    case 'bassDrum':
      return as('hoop', [middleOf(ends)]);
    case 'spur':
      return as(gearKind === 'bassDrum' ? 'spurTip' : 'legTip');
    case 'stand':
    case 'throne':
      return as(body.part.startsWith('tip') ? 'legTip' : 'base');
    case 'pedal':
      if (ends.length !== 4) return as('contact');
      return [...as('toeCorner', ends.slice(0, 2)), ...as('heelCorner', ends.slice(2))];
    case 'drummer':
    case 'stageItem':
      return ends.length === 1 ? as('middle') : as('frontCorner', ends.slice(0, 2));
    case 'snare':
    case 'tom':
    case 'floorTom':
    case 'cymbal':
    case 'shaft':
    case 'bar':
    case 'arm':
    case 'link':
      return as('contact');
  }
}

/** Whether a piece rests on legs' tips, so that a spot under its tube says more than they do. */
const onLegs = (bodies: readonly Body[]) =>
  bodies.some(({ touchesFloor, part }) => touchesFloor && part.startsWith('tip'));

/** The body over the spot that is marked for a stand or a throne on legs. */
const underTube = (body: Body) => (body.kind === 'stand' || body.kind === 'throne') && body.part === 'tube';

/** All marks, in the order of the setup. `wanted`: which contacts are marked at all. */
export function floorMarks(plan: Plan, setup: Setup, layout: Layout, wanted: (body: Body) => boolean): FloorMark[] {
  const marks: FloorMark[] = [];
  for (const [piece, bodies] of grouped(layout.bodies, ({ piece }) => piece)) {
    const placed = Object.hasOwn(setup.pieces, piece) ? setup.pieces[piece] : undefined;
    const gear = placed?.kind === 'item' ? (gearOf(plan.gear, placed.gear)?.kind ?? '') : 'rack';
    const standing = onLegs(bodies);
    const found = bodies
      .filter((body) => (body.touchesFloor && wanted(body)) || (standing && underTube(body)))
      .map((body) => {
        const spots = body.touchesFloor
          ? spotsOf(body, gear)
          : [{ part: 'underTube', at: endsOf(body.shape.core, 0)[0] } as Spot];
        return { body, spots, middle: middleOf(spots.map(({ at }) => at)) };
      });
    // A piece whose contacts are not wanted has no spot under its tube either.
    if (!found.some(({ body }) => body.touchesFloor)) continue;
    // Bodies with one spot of a kind are told apart as ends of the piece; those with several among themselves.
    const which = new Map<Body, StageWay | number | null>();
    for (const part of new Set(found.map(({ spots }) => spots[0].part))) {
      const alike = found.filter(({ spots }) => spots[0].part === part);
      const words = tellApart(alike.map(({ middle }) => middle));
      alike.forEach(({ body }, k) => {
        which.set(body, words[k]);
      });
    }
    for (const { body, spots } of found) {
      const single = spots.length === 1;
      for (const part of new Set(spots.map((spot) => spot.part))) {
        const alike = spots.filter((spot) => spot.part === part);
        const ends = tellApart(alike.map(({ at }) => at));
        alike.forEach(({ at }, k) => {
          marks.push({
            id: `${body.id}/${spots.findIndex((spot) => spot.at === at) + 1}`,
            piece,
            label: body.label,
            part,
            body: body.id,
            which: single ? null : (which.get(body) ?? null),
            end: single ? (which.get(body) ?? null) : ends[k],
            at,
          });
        });
      }
    }
  }
  return marks;
}
