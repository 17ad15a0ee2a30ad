/**
 * Each bar as a beam between its two legs, straight or bent, with its ends standing out, under what hangs on it and its own mass; what
 * that asks of the joints at its legs; and the turning moment that each off-centre arm puts on its clamp.
 *
 * Model: beam.ts. The legs' joints carry the bar and hold it against turning about its own axis by their grip; along the bar they let
 * it turn, for the legs may lean that way (a joint that holds there too makes it stiffer, so the sag is an upper bound). Legs are taken
 * as stiff. What a mount carries pulls at its clamp, and its arm turns the bar there: weight times the way in plan from the clamp to the
 * mass centre of all that hangs on it, what hangs in its sockets included. A stand without feet hangs on its first link; one with a foot
 * rests on the deck.
 *
 * Grip: how much a joint or clamp holds before it turns on its tube is its maker's to say (the clamp's `gripNm`) or the user's
 * (`limits.clampMomentNm`). With neither, what a plain clamp is known to hold (ownLimits.ts) is taken as safe, and whether it holds more
 * is unknown. A joint that slips goes on holding its grip, and the other takes the rest; a bar that both leave turns.
 *
 * Units:  mm, N, MPa; moments in N m.
 * Source: beam.ts. Limits are our own (ownLimits.ts), and a tube's grade is seldom known.
 */
import { gearOf, tubeMassKg } from '../gear/catalogue.ts';
import type { GearOf } from '../gear/schema.ts';
import { pointAlong } from '../geometry/arcsLine.ts';
import type { Point3 } from '../geometry/solids.ts';
import { keeper } from '../keep.ts';
import { bodiesOf } from '../layout/bodiesOf.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import { type BarLayout, type RackLayout, tubePoint } from '../layout/racks.ts';
import { barOf } from '../plan/carriers.ts';
import type { Carrier, Plan, Setup } from '../plan/schema.ts';
import { type Beam, type BeamLoad, type SolvedBeam, solveBeam } from './beam.ts';
import { checkOf, code, type Measured, type OnePiece, saysOf } from './codes.ts';
import { loadLimit } from './ownLimits.ts';
import { GRAVITY, massCentre, type PointMass } from './statics.ts';
import { isAbove } from './tolerance.ts';
import { SHEAR_MPA, tubeSection, YIELD_MPA, YOUNG_MPA } from './tubeSection.ts';

/** The joint of a rack's bar at one of its legs, counted from 1. */
type AtJoint = Measured & OnePiece & { readonly leg: number };

export const BAR_LOAD = checkOf('barLoad', {
  word: 'Bars and clamps',
  caution:
    "Bars are taken as new tubes of common grades and legs as stiff. What a clamp or joint holds is its maker's to say. Look at dents, cracks and worn clamps yourself.",
  codes: {
    bar_overstressed: code(
      'MPa',
      'atMost',
      ({ names: [first], value, limit }) =>
        `A bar of ${first} is bent with ${value}, and ${limit} is allowed: hang less on it, nearer its legs, or take a stronger tube.`,
    ),
    bar_sags: code(
      'mm',
      'atMost',
      ({ names: [first], value, limit }) =>
        `A bar of ${first} sags by ${value}, and ${limit} is wanted: hang less on it, nearer its legs, or take a stronger tube.`,
    ),
    clamp_turns: code(
      'Nm',
      'atMost',
      ({ names: [first], value, limit }) =>
        `${first} turns its clamp with ${value}, and ${limit} is wanted, or it droops: bring it nearer to its clamp, or take a stop collar.`,
    ),
    clamp_holds: code(
      'Nm',
      'atMost',
      ({ names: [first], value, limit }) =>
        `No clamp is turned too hard: ${first} turns its own most, with ${value} of ${limit}.`,
    ),
    /** Its joints together do not hold the bar against turning; one slips and the other holds; nobody says whether they do. */
    bar_turns: code<AtJoint>(
      'Nm',
      'atMost',
      ({ names: [first], value, limit }, { leg }) =>
        `A bar of ${first} turns in its joints: ${value} at leg ${leg}, where a joint holds ${limit}. Hang drums on both sides of it, bring them nearer, or add a bar.`,
    ),
    joint_slips: code<AtJoint>(
      'Nm',
      'atMost',
      ({ names: [first], value, limit }, { leg }) =>
        `A bar of ${first} slips in its joint at leg ${leg}, asked for ${value} of ${limit}, until its other joint holds it: hang weight on its other side, or nearer.`,
    ),
    grip_unknown: code<AtJoint>(
      'Nm',
      'atMost',
      ({ names: [first], value, limit }, { leg }) =>
        `A bar of ${first} turns its joint at leg ${leg} with ${value}. A plain joint holds ${limit}, and nobody has stated what this one holds: state it under Plan, or hang weight on its other side.`,
    ),
    joint_holds: code<AtJoint>(
      'Nm',
      'atMost',
      ({ names: [first], value, limit }, { leg }) =>
        `No clamp or joint is turned too hard: a bar of ${first} turns its joint at leg ${leg} most, with ${value} of ${limit}.`,
    ),
  },
});
const says = saysOf(BAR_LOAD);

export interface ClampReading {
  readonly piece: string;
  readonly carrier: Carrier;
  /** kg that hang on the clamp; null: some of it is unmeasured, and `moment` with it. */
  readonly mass: number | null;
  /** N m: weight times its distance in plan from the clamp. */
  readonly moment: number | null;
  /** N m that it is said to hold; null: nobody says. */
  readonly grip: number | null;
}

/** The joint of a bar at one of its legs. */
export interface JointReading {
  readonly leg: string;
  /** N m about the bar's own axis that it has to hold, the other joint holding too; null: unmeasured. */
  readonly moment: number | null;
  /** N m that it is said to hold; null: nobody says. */
  readonly grip: number | null;
}

export interface BarReading {
  readonly piece: string;
  readonly bar: string;
  /** kg on the bar without its own mass; null: unmeasured, and all that follows. */
  readonly load: number | null;
  /** mm that its lowest place sags, and how far along that is. */
  readonly sag: number | null;
  readonly sagAt: number | null;
  /** MPa, the largest of bending and twisting together (von Mises); and the stress at which the tube bends for good. */
  readonly stress: number | null;
  readonly yieldStress: number;
  /** N m about the line through both legs: what turns the bar in its joints. */
  readonly twist: number | null;
  readonly joints: readonly [JointReading, JointReading];
  /** Whether the joints hold it: both, one with the other's help, neither; as far as their grip is known. Null: unmeasured. */
  readonly held: 'both' | 'one' | 'neither' | null;
}

interface Hanging {
  readonly piece: string;
  readonly carrier: Carrier;
  readonly at: Point3;
  readonly clamp: string | null;
  /** Null: unmeasured. */
  readonly all: PointMass | null;
}

const NMM_PER_NM = 1000;

/** By piece: the mass of its bodies and of all that hangs on it; null: some of it is unmeasured. */
const keepMass = keeper<PointMass | null>();

function massOf(bodies: readonly Body[]): PointMass | null {
  const masses: PointMass[] = [];
  for (const { massKg, massCentre: at } of bodies) {
    if (massKg === null) return null;
    if (massKg > 0 && at) masses.push({ massKg, at });
  }
  return massCentre(masses);
}

/** Everything that hangs on racks, with its mass and mass centre. */
function hangings(setup: Setup, layout: Layout): Hanging[] {
  const children = new Map<string, string[]>();
  for (const id of setup.order) {
    const item = setup.pieces[id];
    const carrier = item?.kind === 'item' ? item.mount?.carrier : undefined;
    if (carrier && (carrier.on === 'socket' || carrier.on === 'piece'))
      children.set(carrier.piece, [...(children.get(carrier.piece) ?? []), id]);
  }
  /** The bodies of a piece, then of what hangs on it, and so on. */
  const allOf = (id: string): readonly Body[] => (children.has(id) ? gather(id, [], []) : bodiesOf(layout.bodies, id));
  const gather = (id: string, into: Body[], seen: string[]): readonly Body[] => {
    if (seen.includes(id)) return into;
    seen.push(id);
    for (const body of bodiesOf(layout.bodies, id)) into.push(body);
    for (const child of children.get(id) ?? []) gather(child, into, seen);
    return into;
  };
  const found: Hanging[] = [];
  for (const id of setup.order) {
    const item = setup.pieces[id];
    if (item?.kind !== 'item') continue;
    const tie = standsBy(layout, id) ? undefined : item.ties?.[0];
    const { carrier, clamp } = item.mount ?? tie ?? { carrier: undefined, clamp: null };
    const at = carrier && tubePoint(layout.racks, carrier);
    if (!carrier || !at) continue;
    const bodies = allOf(id);
    found.push({ piece: id, carrier, at, clamp, all: keepMass(item, [bodies], () => massOf(bodies)) });
  }
  return found;
}

/** Whether a piece rests on the deck by itself. A hi-hat's footboard lies there and carries nothing. */
const standsBy = (layout: Layout, id: string): boolean =>
  bodiesOf(layout.bodies, id).some((body) => body.touchesFloor && body.kind !== 'pedal');

function barReading(
  plan: Plan,
  setup: Setup,
  { id: rack, frame, joints }: RackLayout,
  bar: BarLayout,
  hung: readonly Hanging[],
): BarReading | null {
  const piece = setup.pieces[rack];
  const source = piece?.kind === 'rack' ? barOf(piece, bar.id) : undefined;
  const tube = source && gearOf(plan.gear, source.tube);
  const line = frame.bars.find(({ id }) => id === bar.id)?.line;
  if (tube?.kind !== 'tube' || !line || bar.s1 === null || bar.s1 === bar.s0) return null;
  const yieldStress = YIELD_MPA[tube.material];
  const legs = [frame.legs[bar.span].id, frame.legs[bar.span + 1].id] as const;
  const grips = legs.map((leg) =>
    gripOf(plan, joints.find((joint) => joint.bar === bar.id && joint.leg === leg)?.clamp),
  ) as [number | null, number | null];
  const jointsOf = (moments: readonly (number | null)[]): BarReading['joints'] => [
    { leg: legs[0], moment: moments[0], grip: grips[0] },
    { leg: legs[1], moment: moments[1], grip: grips[1] },
  ];
  if (hung.some(({ all }) => all === null))
    return {
      piece: rack,
      bar: bar.id,
      yieldStress,
      load: null,
      sag: null,
      sagAt: null,
      stress: null,
      twist: null,
      joints: jointsOf([null, null]),
      held: null,
    };
  const section = tubeSection(tube.outsideMm, tube.wallMm);
  const ownKg = tubeMassKg(tube.outsideMm, tube.wallMm, bar.length, tube.material);
  const beam: Beam = {
    line,
    bending: YOUNG_MPA[tube.material] * section.inertiaMm4,
    torsion: SHEAR_MPA[tube.material] * 2 * section.inertiaMm4,
    supports: [
      { at: bar.s0, holds: 'grip' },
      { at: bar.s1, holds: 'grip' },
    ],
    loads: hung.map(({ carrier, at, all }) => loadOf(carrier.on === 'bar' ? carrier.atMm : 0, at, all)),
    uniform: (ownKg * GRAVITY) / bar.length,
  };
  const firm = solveBeam(beam);
  const moments = firm.reactions.map(({ twist }) => Math.abs(twist) / NMM_PER_NM);
  const { held, solved } = gripped(beam, firm, grips);
  const a = bar.pointAt(bar.s0);
  const b = bar.pointAt(bar.s1);
  const chord = Math.hypot(b.x - a.x, b.y - a.y);
  const beside = (x: number, y: number) => ((b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)) / chord;
  const twist = hung.reduce(
    (sum, { all }) => sum + (all ? all.massKg * GRAVITY * beside(all.at[0], all.at[1]) : 0),
    ownKg * GRAVITY * bowOf(bar, beside),
  );
  return {
    piece: rack,
    bar: bar.id,
    yieldStress,
    load: hung.reduce((sum, { all }) => sum + (all?.massKg ?? 0), 0),
    sag: Math.max(0, -solved.lowest.value),
    sagAt: solved.lowest.at,
    stress: solved.mostMoment.value / section.modulusMm3,
    twist: Math.abs(twist) / NMM_PER_NM,
    joints: jointsOf(moments),
    held,
  };
}

/** What a clamp is said to hold, N m: by its own entry, else by the plan for all clamps. Null: nobody says. */
const gripOf = (plan: Plan, clamp: GearOf<'clamp'> | null | undefined): number | null =>
  clamp?.gripNm ?? plan.limits?.clampMomentNm ?? null;

/** A weight at its clamp, and the couple of its arm. */
function loadOf(along: number, [x, y]: Point3, all: PointMass | null): BeamLoad {
  const force = (all?.massKg ?? 0) * GRAVITY;
  return { at: along, force, couple: all ? [-force * (all.at[1] - y), force * (all.at[0] - x)] : [0, 0] };
}

/**
 * Which joints hold a bar, and how it then bends. Where one is asked for more than its grip it slips, and goes on holding that
 * much; with both slipping nothing holds the bar, and `solved` is what it would be if they did.
 */
function gripped(
  beam: Beam,
  firm: SolvedBeam,
  grips: readonly [number | null, number | null],
): { held: 'both' | 'one' | 'neither'; solved: SolvedBeam } {
  const grip = grips.map((each) => (each ?? Number.POSITIVE_INFINITY) * NMM_PER_NM);
  const over = firm.reactions.map(({ twist }, k) => Math.abs(twist) - grip[k]);
  if (over[0] <= 0 && over[1] <= 0) return { held: 'both', solved: firm };
  const slips = over[0] > over[1] ? 0 : 1;
  const other = 1 - slips;
  const { at } = beam.supports[slips];
  const { heading } = pointAlong(beam.line, at);
  const holds = Math.sign(firm.reactions[slips].twist) * grip[slips];
  const solved = solveBeam({
    ...beam,
    supports: beam.supports.map((support, k) => (k === slips ? { at, holds: 'up' } : support)),
    loads: [...beam.loads, { at, force: 0, couple: [holds * Math.cos(heading), holds * Math.sin(heading)] }],
  });
  if (Math.abs(solved.reactions[other].twist) > grip[other]) return { held: 'neither', solved: firm };
  return { held: 'one', solved };
}

/** How far a bar's own mass centre lies beside the line through its legs: its stretches, weighted by length. */
function bowOf(bar: BarLayout, beside: (x: number, y: number) => number): number {
  if (!bar.curved) return 0;
  let length = 0;
  let moment = 0;
  for (const { core } of bar.shapes) {
    if (core.kind === 'segment') {
      const own = Math.hypot(core.x1 - core.x0, core.y1 - core.y0);
      length += own;
      moment += own * beside((core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2);
    } else if (core.kind === 'arc') {
      // Centroid of an arc as a line: r sin(a/2)/(a/2) from its centre.
      const half = core.sweep / 2;
      const own = core.r * core.sweep;
      const out = (core.r * Math.sin(half)) / half;
      const middle = core.start + half;
      length += own;
      moment += own * beside(core.cx + out * Math.cos(middle), core.cy + out * Math.sin(middle));
    }
  }
  return length > 0 ? moment / length : 0;
}

export interface LoadReadings {
  readonly bars: readonly BarReading[];
  readonly clamps: readonly ClampReading[];
}

/** By bar, which layout keeps while its rack stays. */
const keepBar = keeper<BarReading | null>();

export function loadReadings(plan: Plan, setup: Setup, layout: Layout): LoadReadings {
  const hung = hangings(setup, layout);
  const bars: BarReading[] = [];
  for (const [rack, { bars: all }] of Object.entries(layout.racks)) {
    const onRack = hung.filter(({ carrier }) => carrier.on === 'bar' && carrier.rack === rack);
    for (const bar of all) {
      const own = onRack.filter(({ carrier }) => carrier.on === 'bar' && carrier.bar === bar.id);
      const from = [
        plan.gear,
        plan.limits?.clampMomentNm,
        setup.pieces[rack],
        own.map(({ all }) => all),
        own.map(({ carrier }) => carrier),
      ];
      const reading = keepBar(bar, from, () => barReading(plan, setup, layout.racks[rack], bar, own));
      if (reading) bars.push(reading);
    }
  }
  const clamps = hung.map(
    ({ piece, carrier, at, clamp, all }): ClampReading => ({
      piece,
      carrier,
      grip: gripOf(plan, clampGear(plan, clamp)),
      mass: all?.massKg ?? null,
      moment: all ? (all.massKg * GRAVITY * Math.hypot(all.at[0] - at[0], all.at[1] - at[1])) / NMM_PER_NM : null,
    }),
  );
  return { bars, clamps };
}

function clampGear(plan: Plan, id: string | null): GearOf<'clamp'> | null {
  const gear = id === null ? undefined : gearOf(plan.gear, id);
  return gear?.kind === 'clamp' ? gear : null;
}

/** What turns something, and what it is said or known to hold. */
interface Turning {
  readonly moment: number;
  readonly limit: number;
  readonly say: () => ReturnType<typeof says>;
}

/**
 * A finding for each bar that sags, is stressed too much or turns in its joints, and each clamp that is turned too hard; when there is
 * none, one for the joint or clamp that is turned hardest for what it holds.
 */
export function barLoad(plan: Plan, layout: Layout, { bars, clamps }: LoadReadings): ReturnType<typeof says>[] {
  const sag = loadLimit(plan, 'sagMm');
  const part = loadLimit(plan, 'stressPart');
  const usual = loadLimit(plan, 'clampMomentNm');
  const findings: ReturnType<typeof says>[] = [];
  const turning: Turning[] = [];
  for (const bar of bars) {
    if (bar.sag === null || bar.stress === null || bar.sagAt === null) continue;
    const place = layout.racks[bar.piece].bars.find((each) => each.id === bar.bar)?.pointAt(bar.sagAt);
    const base = {
      pieces: [bar.piece],
      bodies: [`${bar.piece}/${bar.bar}`],
      at: place ? ([place.x, place.y] as const) : null,
    } as const;
    const allowed = bar.yieldStress * part.value;
    if (isAbove(bar.stress, allowed))
      findings.push(
        says('bar_overstressed', {
          state: isAbove(bar.stress, bar.yieldStress) ? 'blocked' : 'tight',
          ...base,
          value: bar.stress,
          limit: allowed,
          source: part.source,
        }),
      );
    if (isAbove(bar.sag, sag.value))
      findings.push(
        says('bar_sags', { state: 'tight', ...base, value: bar.sag, limit: sag.value, source: sag.source }),
      );
    const worst = hardest(bar, usual.value);
    if (worst) {
      const { moment, limit } = worst;
      turning.push({ moment, limit, say: () => jointFinding(bar, worst, layout, usual) });
    }
  }
  for (const clamp of clamps) {
    if (clamp.moment === null) continue;
    const { moment } = clamp;
    turning.push({
      moment,
      limit: clamp.grip ?? usual.value,
      say: () => clampFinding({ ...clamp, moment }, layout, usual),
    });
  }
  let most: Turning | null = null;
  for (const each of turning) {
    if (isAbove(each.moment, each.limit)) findings.push(each.say());
    if (most === null || each.moment * most.limit > most.moment * each.limit) most = each;
  }
  if (findings.length === 0 && most) findings.push(most.say());
  return findings;
}

interface Limit {
  readonly value: number;
  readonly source: string;
}

/** The joint of a bar that is asked for most of what it holds. */
function hardest({ joints }: BarReading, usual: number): (Turned & { readonly limit: number }) | null {
  let worst: (Turned & { readonly limit: number }) | null = null;
  for (const { leg, moment, grip } of joints) {
    if (moment === null) continue;
    const limit = grip ?? usual;
    if (worst === null || moment * worst.limit > worst.moment * limit) worst = { leg, moment, grip, limit };
  }
  return worst;
}

interface Turned {
  readonly leg: string;
  readonly moment: number;
  readonly grip: number | null;
}

function jointFinding(bar: BarReading, { leg, moment, grip }: Turned, layout: Layout, usual: Limit) {
  const legs = layout.racks[bar.piece].legs;
  const number = legs.findIndex(({ id }) => id === leg);
  const limit = grip ?? usual.value;
  const [code, state] = !isAbove(moment, limit)
    ? (['joint_holds', 'clear'] as const)
    : grip === null
      ? (['grip_unknown', 'unmeasured'] as const)
      : bar.held === 'neither'
        ? (['bar_turns', 'blocked'] as const)
        : (['joint_slips', 'tight'] as const);
  return says(code, {
    state,
    pieces: [bar.piece],
    bodies: [`${bar.piece}/${bar.bar}`],
    value: moment,
    limit,
    leg: number + 1,
    source: grip === null ? usual.source : STATED,
    at: [legs[number].x, legs[number].y],
  });
}

const STATED = 'set in this plan';

function clampFinding(clamp: ClampReading & { readonly moment: number }, layout: Layout, usual: Limit) {
  const limit = clamp.grip ?? usual.value;
  const over = isAbove(clamp.moment, limit);
  const at = tubePoint(layout.racks, clamp.carrier);
  return says(over ? 'clamp_turns' : 'clamp_holds', {
    state: over ? 'tight' : 'clear',
    pieces: [clamp.piece],
    bodies: [],
    value: clamp.moment,
    limit,
    source: clamp.grip === null ? usual.source : STATED,
    at: at && [at[0], at[1]],
  });
}
