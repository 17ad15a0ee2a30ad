/** Racks as bodies: uprights, T-feet, and tubes whose straight and bent stretches are a body each. */
import { gearOf, massKgOf, tubeMassKg } from '../gear/catalogue.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { pointAlong, tubeAlong } from '../geometry/arcsLine.ts';
import { capsule, disc, type Swept } from '../geometry/shapes.ts';
import { levelTube, type Point3 } from '../geometry/solids.ts';
import { type RackFrame, type RackProblem, rackFrame } from '../plan/rackFrame.ts';
import type { Bar, Carrier, Leg, Plan, Rack } from '../plan/schema.ts';
import type { Body } from './body.ts';
import { type RackJoint, rackJoints } from './rackJoints.ts';

export interface LegLayout {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  /** Of its foot; of the rack when it has none. */
  readonly headingRad: number;
  readonly heightMm: number;
  readonly radiusMm: number;
}

export interface BarLayout {
  readonly id: string;
  readonly span: number;
  readonly index: number;
  /** The tube as swept shapes that share ends: one when straight, up to three when bent. */
  readonly shapes: readonly Swept[];
  /** The longest of `shapes`. */
  readonly shape: Swept;
  /** Cut length, mm. */
  readonly length: number;
  readonly radiusMm: number;
  /** Height of the centre line. */
  readonly z: number;
  /** Places of the two legs along the tube; s1 null when it does not reach the second. */
  readonly s0: number;
  readonly s1: number | null;
  readonly curved: boolean;
  /** A place along the centre line, mm from its start; held to the tube's ends. */
  pointAt(s: number): { x: number; y: number; headingRad: number };
}

export interface RackLayout {
  readonly id: string;
  readonly legs: readonly LegLayout[];
  readonly bars: readonly BarLayout[];
  readonly frame: RackFrame;
  readonly joints: readonly RackJoint[];
  readonly problems: readonly RackProblem[];
}

/** Radius of a tube that the plan does not know; the missing gear is said elsewhere. */
const TUBE_RADIUS_MM = 19.05;

const tubeOf = (own: Record<string, Gear>, id: string) => {
  const gear = gearOf(own, id);
  return gear?.kind === 'tube' ? gear : null;
};

/** Length of a core: what a tube's stretch weighs in proportion to. */
function coreLength({ core }: Swept): number {
  if (core.kind === 'segment') return Math.hypot(core.x1 - core.x0, core.y1 - core.y0);
  return core.kind === 'arc' ? core.r * core.sweep : 0;
}

/** Centroid of a core as a line. Source: centroid of an arc, r sin(a/2)/(a/2) from its centre. */
function coreMiddle({ core }: Swept): [number, number] {
  switch (core.kind) {
    case 'segment':
      return [(core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2];
    case 'arc': {
      const half = core.sweep / 2;
      const out = (core.r * Math.sin(half)) / half;
      return [core.cx + out * Math.cos(core.start + half), core.cy + out * Math.sin(core.start + half)];
    }
    case 'point':
      return [core.x, core.y];
    case 'polygon':
      return [core.points[0], core.points[1]];
  }
}

/** An upright with the joints on it, each taken to be on the upright's axis. Null when a joint's mass is not known. */
function uprightMass(
  tube: GearOf<'tube'>,
  leg: Leg,
  joints: readonly RackJoint[],
): { massKg: number; heightMm: number } | null {
  let massKg = tubeMassKg(tube.outsideMm, tube.wallMm, leg.lengthMm, tube.material);
  let moment = (massKg * leg.lengthMm) / 2;
  for (const joint of joints) {
    if (joint.leg !== leg.id) continue;
    const own = joint.clamp?.massKg ?? null;
    if (own === null) return null;
    massKg += own;
    moment += own * joint.heightMm;
  }
  return { massKg, heightMm: moment / massKg };
}

/** Where a carrier on a rack is, on the axis of its bar or upright; null for any other carrier, or where the rack lacks it. */
export function tubePoint(racks: Readonly<Record<string, RackLayout>>, carrier: Carrier): Point3 | null {
  if (carrier.on === 'bar') {
    const bar = racks[carrier.rack]?.bars.find(({ id }) => id === carrier.bar);
    if (!bar) return null;
    const { x, y } = bar.pointAt(carrier.atMm);
    return [x, y, bar.z];
  }
  if (carrier.on !== 'leg') return null;
  const leg = racks[carrier.rack]?.legs.find(({ id }) => id === carrier.leg);
  return leg ? [leg.x, leg.y, carrier.heightMm] : null;
}

export function rackBodies(plan: Plan, rack: Rack): { bodies: Body[]; layout: RackLayout } {
  const frame = rackFrame(rack);
  const joints = rackJoints(plan.gear, rack, frame);
  const bodies: Body[] = [];
  const label = rack.name;
  const piece = rack.id;
  const assembly = piece;

  const legs = frame.legs.map((at, i): LegLayout => {
    const leg = rack.legs[i];
    const tube = tubeOf(plan.gear, leg.tube);
    const radius = tube ? tube.outsideMm / 2 : TUBE_RADIUS_MM;
    const upright = tube && uprightMass(tube, leg, joints);
    bodies.push({
      piece,
      label,
      assembly,
      id: `${rack.id}/${leg.id}`,
      part: leg.id,
      kind: 'leg',
      touchesFloor: leg.foot === null,
      z0: 0,
      z1: leg.lengthMm,
      shape: disc(at.x, at.y, radius),
      massKg: upright?.massKg ?? null,
      massCentre: upright ? [at.x, at.y, upright.heightMm] : null,
    });
    if (leg.foot) {
      const gear = gearOf(plan.gear, leg.foot.gear);
      const known = gear?.kind === 'foot' ? gear : null;
      const half = leg.foot.lengthMm / 2;
      const footRadius = known ? Math.min(known.widthMm / 2, half) : radius;
      const along = half - footRadius;
      const dx = along * Math.cos(at.headingRad);
      const dy = along * Math.sin(at.headingRad);
      const height = known?.heightMm ?? 2 * radius;
      const massKg = known ? massKgOf(known) : null;
      bodies.push({
        piece,
        label,
        assembly,
        id: `${rack.id}/${leg.id}-foot`,
        part: `${leg.id}-foot`,
        kind: 'foot',
        touchesFloor: true,
        z0: 0,
        z1: height,
        shape: capsule(at.x - dx, at.y - dy, at.x + dx, at.y + dy, footRadius),
        massKg,
        massCentre: massKg === null ? null : [at.x, at.y, height / 2],
      });
    }
    return {
      id: at.id,
      x: at.x,
      y: at.y,
      headingRad: at.headingRad,
      heightMm: leg.lengthMm,
      radiusMm: radius,
    };
  });

  const bars = frame.bars.map((at): BarLayout => {
    const bar: Bar = rack.spans[at.span].bars[at.index];
    const tube = tubeOf(plan.gear, bar.tube);
    const radius = tube ? tube.outsideMm / 2 : TUBE_RADIUS_MM;
    const shapes = tubeAlong(at.line, radius);
    const total = shapes.reduce((sum, shape) => sum + coreLength(shape), 0);
    const massKg = tube ? tubeMassKg(tube.outsideMm, tube.wallMm, bar.cutLengthMm, tube.material) : null;
    let longest = shapes[0];
    shapes.forEach((shape, k) => {
      if (coreLength(shape) > coreLength(longest)) longest = shape;
      const part = shapes.length === 1 ? bar.id : `${bar.id}-${k + 1}`;
      bodies.push({
        piece,
        label,
        assembly,
        id: `${rack.id}/${part}`,
        part,
        kind: 'bar',
        touchesFloor: false,
        z0: Math.max(0, bar.heightMm - radius),
        z1: bar.heightMm + radius,
        shape,
        solid: levelTube(shape, bar.heightMm) ?? undefined,
        massKg: massKg === null ? null : total > 0 ? (massKg * coreLength(shape)) / total : massKg / shapes.length,
        massCentre: massKg === null ? null : [...coreMiddle(shape), bar.heightMm],
      });
    });
    return {
      id: bar.id,
      span: at.span,
      index: at.index,
      shapes,
      shape: longest,
      length: bar.cutLengthMm,
      radiusMm: radius,
      z: bar.heightMm,
      s0: at.s0,
      s1: at.s1,
      curved: bar.bend !== null,
      pointAt(s) {
        const { x, y, heading } = pointAlong(at.line, s);
        return { x, y, headingRad: heading };
      },
    };
  });
  return { bodies, layout: { id: rack.id, legs, bars, frame, joints, problems: frame.problems } };
}
