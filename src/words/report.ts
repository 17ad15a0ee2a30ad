/**
 * The measure report: one object that lets anyone check us with another geometry library. Its shape is stable; fields may
 * be added, none renamed. mm, m2, kg, degrees; angles counter-clockwise.
 */

import { reachReading } from '../checks/armReach.ts';
import type { ComparedSetup } from '../checks/compare.ts';
import { differencesOf } from '../checks/differences.ts';
import { drummerReading } from '../checks/legRoom.ts';
import type { LiftReading } from '../checks/lift.ts';
import type { PairReading } from '../checks/pair.ts';
import { partsOf } from '../checks/parts.ts';
import { standingArea } from '../checks/readings.ts';
import { posesOf } from '../checks/riserPoses.ts';
import type { Checked } from '../checks/run.ts';
import { wayInReading } from '../checks/wayIn.ts';
import { pointsOf } from '../gather.ts';
import type { Core } from '../geometry/shapes.ts';
import type { Solid } from '../geometry/solids.ts';
import type { Body } from '../layout/body.ts';
import { isKit } from '../layout/body.ts';
import { legBodies } from '../layout/drummerBodies.ts';
import type { Layout } from '../layout/layout.ts';
import { kitTurns } from '../plan/facing.ts';
import type { Plan } from '../plan/schema.ts';
import { toDegrees } from '../units.ts';
import { cautionsOf } from './cautions.ts';
import { differenceLines, readingLines } from './differenceWords.ts';
import { findingSentence } from './sentences.ts';

const REPORT_FORMAT = 'legroom-measure/1';

export type ReportCore =
  | { type: 'point'; at: [number, number] }
  | { type: 'segment'; from: [number, number]; to: [number, number] }
  | { type: 'arc'; centre: [number, number]; radius: number; start: number; sweep: number }
  | { type: 'polygon'; points: [number, number][] };

function reportCore(core: Core): ReportCore {
  switch (core.kind) {
    case 'point':
      return { type: 'point', at: [core.x, core.y] };
    case 'segment':
      return { type: 'segment', from: [core.x0, core.y0], to: [core.x1, core.y1] };
    case 'arc':
      return {
        type: 'arc',
        centre: [core.cx, core.cy],
        radius: core.r,
        start: toDegrees(core.start),
        sweep: toDegrees(core.sweep),
      };
    case 'polygon':
      return { type: 'polygon', points: pointsOf(core.points) };
  }
}

/** What a body truly is in space, within its outline and heights; `discs` are all that lies between two discs. */
function reportSolid(solid: Exclude<Solid, { kind: 'upright' }>) {
  switch (solid.kind) {
    case 'discs': {
      const { normal, a, b, radiusA, radiusB } = solid;
      return { type: solid.kind, normal, from: a, fromRadius: radiusA, to: b, toRadius: radiusB };
    }
    case 'rod':
      return { type: solid.kind, from: solid.a, to: solid.b, radius: solid.radius };
    case 'taper': {
      const { a, b, radiusA, radiusB } = solid;
      return { type: solid.kind, from: a, fromRadius: radiusA, to: b, toRadius: radiusB };
    }
    case 'bend':
      return { type: solid.kind, core: reportCore(solid.core), height: solid.z, radius: solid.radius };
    case 'lying': {
      const { middle, angle, halfLength, radius, z0, z1 } = solid;
      return { type: solid.kind, middle, axis: toDegrees(angle), length: 2 * halfLength, radius, z: [z0, z1] };
    }
  }
}

function reportBody(body: Body) {
  const { id, piece, label, kind, assembly, touchesFloor, z0, z1, shape, solid, massKg: mass, massCentre } = body;
  const { radius } = shape;
  return {
    id,
    piece,
    label,
    kind,
    assembly,
    touchesFloor,
    z: [z0, z1],
    core: reportCore(shape.core),
    radius,
    ...(solid && { solid: reportSolid(solid) }),
    mass,
    massCentre,
  };
}

/** `space`: the gap is the distance in space; else that of the two outlines in plan. */
const reportPair = ({ a, b, gap, required, space, joined }: PairReading) => ({
  a: a.id,
  b: b.id,
  gap,
  required,
  ...(space && { space: true }),
  ...(joined && { joined }),
});

/** `index` null has two reasons, and `indexNote` says which. */
const reportLift = (lift: LiftReading) => ({
  ...lift,
  index: lift.index !== null && Number.isFinite(lift.index) ? lift.index : null,
  indexNote:
    lift.index === null
      ? 'A part of it has no weight yet.'
      : Number.isFinite(lift.index)
        ? null
        : 'The lifting equation recommends no weight for one person here, so the index is beyond any number: lift it with two, or in parts.',
});

/**
 * What differs from one setup to another. `pieces` says of each what moved (mm), turned, rose or tilted (degrees, mm) and how its
 * mount, ties, bars and legs changed; `readings` has every number before and after; `lines` are the same in words.
 */
export function reportDifferences(plan: Plan, before: ComparedSetup, after: ComparedSetup) {
  const found = differencesOf(plan, before, after);
  return {
    ...found,
    from: before.name,
    to: after.name,
    lines: [...differenceLines(found, plan), ...readingLines(before.readings, after.readings, plan)],
  };
}

export function measureReport(plan: Plan, setupId: string, layout: Layout, checked: Checked) {
  const { deck } = layout;
  const parts = partsOf(plan, setupId);
  const turns = kitTurns(plan, plan.setups[setupId]);
  const { pose, shift } = posesOf(layout, turns);
  const seated = layout.figure ? legBodies(layout.figure).map(({ body }) => body) : [];
  return {
    format: REPORT_FORMAT,
    unit: 'mm' as const,
    plan: plan.name,
    setup: plan.setups[setupId].name,
    /** The kit's, and the drummer's legs, which count in no reading of the kit. */
    bodies: [...layout.bodies.filter(isKit), ...seated].map(reportBody),
    stage: layout.bodies.filter((body) => !isKit(body)).map(reportBody),
    deck: deck && {
      polygons: deck.modules.map(pointsOf),
      height: deck.heightMm,
      ratedLoad: deck.ratedKPa,
      edgeMargin: deck.edgeMarginMm,
      turnAtMost: turns.atMost,
    },
    readings: {
      ...checked.readings,
      bestRiserPose: pose,
      bestRiserShift: shift,
      /** Why there is no best pose where there is a riser; null otherwise. */
      bestRiserPoseNote: deck && pose === null ? 'Nothing stands on the floor.' : null,
      standingArea: standingArea(layout),
      wayIn: wayInReading(layout),
      pairs: checked.pairs.map(reportPair),
      assemblies: checked.rig.assemblies,
      mounts: checked.rig.mounts,
      bars: checked.rig.room.bars,
      parts: parts.all,
      units: parts.units,
      partsMass: { known: parts.knownMass, unmeasured: parts.unmeasured },
      barLoads: checked.rig.loads.bars,
      clamps: checked.rig.loads.clamps,
      deckLoad: checked.rig.deckLoad,
      lifts: checked.rig.lifts.map(reportLift),
      drummer: drummerReading(layout, checked.legs),
      strikes: reachReading(checked.spots),
    },
    findings: checked.findings.map((finding) => ({
      check: finding.check,
      state: finding.state,
      code: finding.code,
      pieces: finding.pieces,
      bodies: finding.bodies,
      value: finding.value,
      limit: finding.limit,
      unit: finding.unit,
      source: finding.source,
      ...('space' in finding && finding.space && { space: true }),
      /** What a legless stand frees and costs; of other findings there is none. */
      ...('trade' in finding && { trade: finding.trade }),
      text: findingSentence(finding, plan, setupId),
    })),
    cautions: cautionsOf(checked.findings),
  };
}
