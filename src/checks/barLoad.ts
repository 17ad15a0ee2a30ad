/**
 * Each bar as a beam between its two legs, with its ends standing out, under what hangs on it and its own mass; and the
 * turning moment that each off-centre arm puts on its clamp.
 *
 * Model: the legs' joints hold the bar up but let it turn (a joint that grips makes it stiffer, so the sag is an upper bound).
 * What a mount carries pulls at its clamp; with it goes everything that hangs in its sockets. A curved bar is taken along its
 * length as if straight; that its bow lies beside the legs twists it in their joints, which is counted in `twist`.
 * A stand without feet hangs on its first link; one with a foot rests on the deck.
 *
 * Units:  mm, N, MPa; moments in N m.
 * Source: beam.ts. Limits are our own (ownLimits.ts), and a tube's grade is seldom known.
 */
import { gearOf, tubeMassKg } from '../gear/catalogue.ts';
import { keeper } from '../keep.ts';
import { bodiesOf } from '../layout/bodiesOf.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { BarLayout } from '../layout/racks.ts';
import { barOf } from '../plan/carriers.ts';
import type { Carrier, Plan, Setup } from '../plan/schema.ts';
import { solveBeam, tubeSection, YIELD_MPA, YOUNG_MPA } from './beam.ts';
import { code, saysOf } from './codes.ts';
import { loadLimit } from './ownLimits.ts';
import { GRAVITY, massCentre, type PointMass } from './statics.ts';

const says = saysOf('barLoad', {
  bar_overstressed: code('MPa', 'atMost'),
  bar_sags: code('mm', 'atMost'),
  clamp_turns: code('Nm', 'atMost'),
  clamp_holds: code('Nm', 'atMost'),
});

export interface ClampReading {
  readonly piece: string;
  readonly carrier: Carrier;
  /** kg that hang on the clamp; null: some of it is unmeasured, and `moment` with it. */
  readonly mass: number | null;
  /** N m: weight times its distance in plan from the clamp. */
  readonly moment: number | null;
}

export interface BarReading {
  readonly piece: string;
  readonly bar: string;
  /** kg on the bar without its own mass; null: unmeasured, and all that follows. */
  readonly load: number | null;
  /** mm that its lowest place sags, and how far along that is. */
  readonly sag: number | null;
  readonly sagAt: number | null;
  /** MPa, largest bending stress; and of the stress at which the tube bends for good. */
  readonly stress: number | null;
  readonly yieldStress: number;
  /** N m about the line through both legs: what turns the bar in its joints. */
  readonly twist: number | null;
}

interface Hanging {
  readonly piece: string;
  readonly carrier: Carrier;
  readonly at: readonly [number, number];
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
    const carrier = item.mount?.carrier ?? (standsBy(layout, id) ? undefined : item.ties?.[0]?.carrier);
    const at = carrier && clampPlace(carrier, layout);
    if (!carrier || !at) continue;
    const bodies = gather(id, [], []);
    found.push({ piece: id, carrier, at, all: keepMass(item, [bodies], () => massOf(bodies)) });
  }
  return found;
}

const standsBy = (layout: Layout, id: string): boolean => bodiesOf(layout.bodies, id).some((body) => body.touchesFloor);

function clampPlace(carrier: Carrier, layout: Layout): readonly [number, number] | null {
  if (carrier.on === 'bar') {
    const bar = layout.racks[carrier.rack]?.bars.find((each) => each.id === carrier.bar);
    if (!bar) return null;
    const { x, y } = bar.pointAt(carrier.atMm);
    return [x, y];
  }
  if (carrier.on !== 'leg') return null;
  const leg = layout.racks[carrier.rack]?.legs.find((each) => each.id === carrier.leg);
  return leg ? [leg.x, leg.y] : null;
}

function barReading(
  plan: Plan,
  setup: Setup,
  rack: string,
  bar: BarLayout,
  hung: readonly Hanging[],
): BarReading | null {
  const piece = setup.pieces[rack];
  const source = piece?.kind === 'rack' ? barOf(piece, bar.id) : undefined;
  const tube = source && gearOf(plan.gear, source.tube);
  if (tube?.kind !== 'tube' || bar.s1 === null || bar.s1 === bar.s0) return null;
  const yieldStress = YIELD_MPA[tube.material];
  const base = { piece: rack, bar: bar.id, yieldStress };
  if (hung.some(({ all }) => all === null))
    return { ...base, load: null, sag: null, sagAt: null, stress: null, twist: null };
  const section = tubeSection(tube.outsideMm, tube.wallMm);
  const ownKg = tubeMassKg(tube.outsideMm, tube.wallMm, bar.length, tube.material);
  const solved = solveBeam({
    length: bar.length,
    stiffness: YOUNG_MPA[tube.material] * section.inertiaMm4,
    supports: [bar.s0, bar.s1],
    points: hung.map(({ carrier, all }) => ({
      x: carrier.on === 'bar' ? carrier.atMm : 0,
      force: (all?.massKg ?? 0) * GRAVITY,
    })),
    uniform: (ownKg * GRAVITY) / bar.length,
  });
  const a = bar.pointAt(bar.s0);
  const b = bar.pointAt(bar.s1);
  const chord = Math.hypot(b.x - a.x, b.y - a.y);
  const beside = (x: number, y: number) => ((b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)) / chord;
  const twist = hung.reduce(
    (sum, { all }) => sum + (all ? all.massKg * GRAVITY * beside(all.at[0], all.at[1]) : 0),
    ownKg * GRAVITY * bowOf(bar, beside),
  );
  return {
    ...base,
    load: hung.reduce((sum, { all }) => sum + (all?.massKg ?? 0), 0),
    sag: Math.max(0, -solved.lowest.value),
    sagAt: solved.lowest.x,
    stress: Math.abs(solved.mostMoment.value) / section.modulusMm3,
    twist: Math.abs(twist) / NMM_PER_NM,
  };
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
      const from = [plan.gear, setup.pieces[rack], own.map(({ all }) => all), own.map(({ carrier }) => carrier)];
      const reading = keepBar(bar, from, () => barReading(plan, setup, rack, bar, own));
      if (reading) bars.push(reading);
    }
  }
  const clamps = hung.map(
    ({ piece, carrier, at, all }): ClampReading => ({
      piece,
      carrier,
      mass: all?.massKg ?? null,
      moment: all ? (all.massKg * GRAVITY * Math.hypot(all.at[0] - at[0], all.at[1] - at[1])) / NMM_PER_NM : null,
    }),
  );
  return { bars, clamps };
}

/** A finding for each bar that sags or is stressed too much and each clamp turned too hard; when there is none, one for the hardest turned clamp. */
export function barLoad(plan: Plan, layout: Layout, { bars, clamps }: LoadReadings): ReturnType<typeof says>[] {
  const sag = loadLimit(plan, 'sagMm');
  const part = loadLimit(plan, 'stressPart');
  const moment = loadLimit(plan, 'clampMomentNm');
  const findings: ReturnType<typeof says>[] = [];
  for (const bar of bars) {
    if (bar.sag === null || bar.stress === null || bar.sagAt === null) continue;
    const place = layout.racks[bar.piece].bars.find((each) => each.id === bar.bar)?.pointAt(bar.sagAt);
    const base = {
      pieces: [bar.piece],
      bodies: [`${bar.piece}/${bar.bar}`],
      at: place ? ([place.x, place.y] as const) : null,
    } as const;
    const allowed = bar.yieldStress * part.value;
    if (bar.stress > allowed)
      findings.push(
        says('bar_overstressed', {
          ...base,
          state: bar.stress > bar.yieldStress ? 'blocked' : 'tight',
          value: bar.stress,
          limit: allowed,
          source: part.source,
        }),
      );
    if (bar.sag > sag.value)
      findings.push(
        says('bar_sags', { ...base, state: 'tight', value: bar.sag, limit: sag.value, source: sag.source }),
      );
  }
  let most: Turned | null = null;
  for (const clamp of clamps) {
    if (clamp.moment === null) continue;
    const turned = { ...clamp, moment: clamp.moment };
    if (most === null || turned.moment > most.moment) most = turned;
    if (turned.moment > moment.value) findings.push(clampFinding(turned, layout, moment));
  }
  if (findings.length === 0 && most) findings.push(clampFinding(most, layout, moment));
  return findings;
}

interface Turned extends ClampReading {
  readonly moment: number;
}

function clampFinding(clamp: Turned, layout: Layout, limit: { value: number; source: string }) {
  const over = clamp.moment > limit.value;
  return says(over ? 'clamp_turns' : 'clamp_holds', {
    state: over ? 'tight' : 'clear',
    pieces: [clamp.piece],
    bodies: [],
    value: clamp.moment,
    limit: limit.value,
    source: limit.source,
    at: clampPlace(clamp.carrier, layout),
  });
}
