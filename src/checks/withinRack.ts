/**
 * Does a rack stand in its own way? Its feet, bars and uprights against each other.
 *
 * Joined by design, and so left out: an upright and its own foot; a bar and the two uprights of its span. Bars that meet at one
 * upright may touch there, within JOINT_MM of it. A T-foot comes as near to another foot or upright as any two of these may; bars
 * cannot move against the rest, so only one that runs into something is listed.
 */
import { gapValue } from '../geometry/gap.ts';
import { capsule, type Swept } from '../geometry/shapes.ts';
import { keeper } from '../keep.ts';
import { bodiesOf } from '../layout/bodiesOf.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { BarLayout, RackLayout } from '../layout/racks.ts';
import type { Limits, Plan } from '../plan/schema.ts';
import { requiredClearance } from './limits.ts';
import type { PairReading } from './pair.ts';
import { isBelow } from './tolerance.ts';

/** Half of what a joint takes on each side of its upright, and a hand's room for the tubes' ends. Common practice, no source. */
const JOINT_MM = 100;

/** Whether their heights meet; bars that lie one on the other only touch. */
const meets = (a: Body, b: Body): boolean => isBelow(a.z0, b.z1) && isBelow(b.z0, a.z1);

/** The legs that a bar is joined to, by their place in the rack. */
const legsOf = ({ span, s1 }: BarLayout): readonly number[] => (s1 === null ? [span] : [span, span + 1]);

/** Whether two bars run into each other, away from a leg that they share where they are of neighbouring spans. */
function barsMeet(rack: RackLayout, a: BarLayout, b: BarLayout, shapeA: Swept, shapeB: Swept): boolean {
  if (!isBelow(gapValue(shapeA, shapeB), 0)) return false;
  if (a.span === b.span) return true;
  const shared = legsOf(a).find((leg) => legsOf(b).includes(leg));
  if (shared === undefined) return true;
  const { x, y } = rack.legs[shared];
  return outside(shapeA, x, y).some((one) => outside(shapeB, x, y).some((other) => isBelow(gapValue(one, other), 0)));
}

/** What of a straight or bent tube lies farther than JOINT_MM from a place: cut where it leaves the circle, arcs in short straight pieces. */
function outside({ core, radius }: Swept, x: number, y: number): Swept[] {
  const points = pointsAlong(core);
  const pieces: Swept[] = [];
  for (let i = 2; i < points.length; i += 2) {
    const [ax, ay, bx, by] = points.slice(i - 2, i + 2);
    for (const [from, to] of beyondCircle(ax - x, ay - y, bx - x, by - y))
      pieces.push(
        capsule(ax + (bx - ax) * from, ay + (by - ay) * from, ax + (bx - ax) * to, ay + (by - ay) * to, radius),
      );
  }
  return pieces;
}

/** An arc in pieces that bow by less than a tenth of a mm for a radius of a metre. */
const ARC_STEP = 0.02;

function pointsAlong(core: Swept['core']): number[] {
  switch (core.kind) {
    case 'segment':
      return [core.x0, core.y0, core.x1, core.y1];
    case 'arc': {
      const count = Math.max(1, Math.ceil(core.sweep / ARC_STEP));
      return Array.from({ length: count + 1 }, (_, k) => core.start + (k * core.sweep) / count).flatMap((angle) => [
        core.cx + core.r * Math.cos(angle),
        core.cy + core.r * Math.sin(angle),
      ]);
    }
    default:
      return [];
  }
}

/** The shares of a straight line that lie outside the circle of JOINT_MM round the origin. */
function beyondCircle(ax: number, ay: number, bx: number, by: number): (readonly [number, number])[] {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  if (squared === 0) return [];
  const middle = -(ax * dx + ay * dy) / squared;
  const off = ax * ax + ay * ay - middle * middle * squared;
  const half = (JOINT_MM * JOINT_MM - off) / squared;
  if (half <= 0) return [[0, 1]];
  const root = Math.sqrt(half);
  const parts: (readonly [number, number])[] = [
    [0, Math.min(1, middle - root)],
    [Math.max(0, middle + root), 1],
  ];
  return parts.filter(([from, to]) => from < to);
}

function pairsIn(rack: RackLayout, bodies: readonly Body[], limits: Limits | undefined): PairReading[] {
  const pairs: PairReading[] = [];
  const add = (a: Body, b: Body, gap: number, required: number) =>
    pairs.push({ a, b, gap, required, space: null, joined: true });
  const legs = bodies.filter(({ kind }) => kind === 'leg');
  const feet = bodies.filter(({ kind }) => kind === 'foot');
  const bars = rack.bars.map((bar) => ({
    bar,
    bodies: bodies.filter(({ kind, part }) => kind === 'bar' && (part === bar.id || part.startsWith(`${bar.id}-`))),
  }));
  const apart = (a: Body, b: Body) => {
    if (!meets(a, b)) return;
    const required = requiredClearance(limits, a.kind, b.kind);
    if (required === null) return;
    const gap = gapValue(a.shape, b.shape);
    if (isBelow(gap, required)) add(a, b, gap, required);
  };
  feet.forEach((foot, k) => {
    for (const other of feet.slice(k + 1)) apart(foot, other);
    for (const leg of legs) if (foot.part !== `${leg.part}-foot`) apart(foot, leg);
  });
  bars.forEach(({ bar, bodies: tubes }, k) => {
    const joined = legsOf(bar).map((leg) => rack.legs[leg]?.id);
    const hits = (tube: Body, other: Body) => meets(tube, other) && isBelow(gapValue(tube.shape, other.shape), 0);
    for (const tube of tubes) {
      for (const foot of feet) if (hits(tube, foot)) add(tube, foot, gapValue(tube.shape, foot.shape), 0);
      for (const leg of legs)
        if (!joined.includes(leg.part) && hits(tube, leg)) add(tube, leg, gapValue(tube.shape, leg.shape), 0);
      for (const { bar: next, bodies: others } of bars.slice(k + 1))
        for (const other of others)
          if (meets(tube, other) && barsMeet(rack, bar, next, tube.shape, other.shape))
            add(tube, other, gapValue(tube.shape, other.shape), 0);
    }
  });
  return pairs;
}

/** By rack as it is laid out: a rack that stays keeps its answer. */
const keepPairs = keeper<readonly PairReading[]>();

/** Parts of one rack that are too near to each other, or in each other. */
export function rackPairs({ limits }: Plan, { bodies, racks }: Layout): PairReading[] {
  return Object.values(racks).flatMap((rack) => {
    const own = bodiesOf(bodies, rack.id);
    return keepPairs(rack, [own, limits], () => pairsIn(rack, own, limits));
  });
}
