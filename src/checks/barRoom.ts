/**
 * Do the clamps fit on the tube, and how much is left for more?
 *
 * A clamp takes its width along the tube, half on either side of its place. On a bar that is each mount's and tie's clamp, and
 * the joint with each leg (layout/rackJoints.ts says which, and what width is taken when nobody knows). What is left
 * between them, out to the tube's ends, is free; end caps take nothing. On an upright the mounts' and ties' clamps are
 * held against one another and against the joints; joints among themselves are the rack maker's business.
 *
 * Overlapping clamps and clamps that stand out past the tube's end are blocked. A mount without a clamp takes no room: what
 * clamps it is not in the plan.
 *
 * Units:  mm along the tube's centre line.
 */
import { gearOf } from '../gear/catalogue.ts';
import type { Layout } from '../layout/layout.ts';
import type { RackJoint } from '../layout/rackJoints.ts';
import type { Carrier, Plan, Setup } from '../plan/schema.ts';
import { checkOf, code, type Measured, type SomePieces, saysOf } from './codes.ts';
import { isBelow } from './tolerance.ts';

export const BAR_ROOM = checkOf('barRoom', {
  word: 'Room on the bar',
  caution: null,
  codes: {
    clamps_overlap: code<Measured & SomePieces>('mm', 'atLeast', ({ names: [first, second], missing }, { pieces }) =>
      pieces.length === 1
        ? `Two clamps of ${first} take the same ${missing} of the tube: move one along.`
        : `The clamps of ${first} and ${second} take the same ${missing} of the tube: move one along.`,
    ),
    clamp_past_end: code<Measured & SomePieces>(
      'mm',
      'atLeast',
      ({ names: [first], missing }) =>
        `The clamp of ${first} stands ${missing} out past the tube's end: move it inwards.`,
    ),
    bar_has_room: code(
      'mm',
      'atLeast',
      ({ names: [first], value }) => `All clamps fit: the fullest bar, of ${first}, has a free stretch of ${value}.`,
    ),
  },
});
const says = saysOf(BAR_ROOM);

/** A clamp on a tube. `piece`: what it holds; the rack itself for a joint. */
export interface ClampPlace {
  readonly piece: string;
  readonly gear: string | null;
  readonly joint: boolean;
  readonly atMm: number;
  readonly widthMm: number;
}

export interface BarRoom {
  /** The rack. */
  readonly piece: string;
  readonly bar: string;
  /** Cut length. */
  readonly length: number;
  /** By place. */
  readonly clamps: readonly ClampPlace[];
  /** Free stretches [from, to], and their sum and the longest of them. */
  readonly stretches: readonly (readonly [number, number])[];
  readonly free: number;
  readonly longestFree: number;
}

/** Overlaps below this are rounding of places that were typed to touch. */
const ROUNDING_MM = 1e-6;

/** How many more clamps of one width go into the free stretches. Inputs: widthMm > 0. */
export function roomForMore(stretches: BarRoom['stretches'], widthMm: number): number {
  return stretches.reduce((sum, [from, to]) => sum + Math.floor((to - from + ROUNDING_MM) / widthMm), 0);
}

/** What no clamp covers of [0, length]. Inputs: clamps in any order, overlapping or past the ends. */
export function freeStretches(length: number, clamps: readonly ClampPlace[]): [number, number][] {
  const taken = clamps
    .map(({ atMm, widthMm }) => [atMm - widthMm / 2, atMm + widthMm / 2] as const)
    .sort((a, b) => a[0] - b[0]);
  const stretches: [number, number][] = [];
  let from = 0;
  for (const [start, end] of taken) {
    const to = Math.min(start, length);
    if (to - from > ROUNDING_MM) stretches.push([from, to]);
    from = Math.max(from, end);
  }
  if (length - from > ROUNDING_MM) stretches.push([from, length]);
  return stretches;
}

interface Held {
  readonly piece: string;
  readonly carrier: Carrier;
  readonly gear: string;
  readonly widthMm: number;
}

/** Clamps of mounts and ties, in the order of the setup. */
function heldClamps(plan: Plan, setup: Setup): Held[] {
  const held: Held[] = [];
  const add = (piece: string, carrier: Carrier, id: string | null) => {
    const gear = id === null ? undefined : gearOf(plan.gear, id);
    if (gear?.kind === 'clamp') held.push({ piece, carrier, gear: gear.id, widthMm: gear.widthMm });
  };
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece?.kind !== 'item') continue;
    if (piece.mount) add(id, piece.mount.carrier, piece.mount.clamp);
    for (const tie of piece.ties ?? []) add(id, tie.carrier, tie.clamp);
  }
  return held;
}

const byPlace = (a: ClampPlace, b: ClampPlace): number => a.atMm - b.atMm;

const jointPlace = (rack: string, { clamp, widthMm }: RackJoint, atMm: number): ClampPlace => ({
  piece: rack,
  gear: clamp?.id ?? null,
  joint: true,
  atMm,
  widthMm,
});

/** An upright with clamps of mounts or ties on it; joints included, in order of height. */
interface LegClamps {
  readonly piece: string;
  readonly leg: string;
  readonly length: number;
  readonly clamps: readonly ClampPlace[];
}

export interface RackRoom {
  readonly bars: readonly BarRoom[];
  readonly legs: readonly LegClamps[];
}

/** Every bar of a setup, and every upright that carries something. */
export function rackRoom(plan: Plan, setup: Setup, layout: Layout): RackRoom {
  const held = heldClamps(plan, setup);
  const bars: BarRoom[] = [];
  const legs: LegClamps[] = [];
  for (const id of setup.order) {
    const rack = setup.pieces[id];
    if (rack?.kind !== 'rack') continue;
    const laid = layout.racks[id];
    if (!laid) continue;
    const { joints } = laid;
    for (const bar of laid.bars) {
      const clamps: ClampPlace[] = [];
      for (const joint of joints)
        if (joint.bar === bar.id && joint.atMm !== null) clamps.push(jointPlace(id, joint, joint.atMm));
      for (const { piece, carrier, gear, widthMm } of held)
        if (carrier.on === 'bar' && carrier.rack === id && carrier.bar === bar.id)
          clamps.push({ piece, gear, joint: false, atMm: carrier.atMm, widthMm });
      clamps.sort(byPlace);
      const stretches = freeStretches(bar.length, clamps);
      const lengths = stretches.map(([from, to]) => to - from);
      bars.push({
        piece: id,
        bar: bar.id,
        length: bar.length,
        clamps,
        stretches,
        free: lengths.reduce((sum, each) => sum + each, 0),
        longestFree: Math.max(0, ...lengths),
      });
    }
    for (const leg of rack.legs) {
      const clamps: ClampPlace[] = [];
      for (const { piece, carrier, gear, widthMm } of held)
        if (carrier.on === 'leg' && carrier.rack === id && carrier.leg === leg.id)
          clamps.push({ piece, gear, joint: false, atMm: carrier.heightMm, widthMm });
      if (clamps.length === 0) continue;
      for (const joint of joints) if (joint.leg === leg.id) clamps.push(jointPlace(id, joint, joint.heightMm));
      legs.push({ piece: id, leg: leg.id, length: leg.lengthMm, clamps: clamps.sort(byPlace) });
    }
  }
  return { bars, legs };
}

interface Flaw {
  readonly code: 'clamps_overlap' | 'clamp_past_end';
  readonly pieces: readonly [string, ...string[]];
  /** mm, below 0: how much too little. */
  readonly value: number;
  readonly atMm: number;
}

/** Neighbours that overlap, and clamps past an end. Widths differ, so a wide clamp may reach over its neighbour: all pairs are asked. */
function flawsOf(length: number, clamps: readonly ClampPlace[]): Flaw[] {
  const flaws: Flaw[] = [];
  clamps.forEach((a, i) => {
    for (const b of clamps.slice(i + 1)) {
      const gap = b.atMm - a.atMm - (a.widthMm + b.widthMm) / 2;
      if (!isBelow(gap, 0) || (a.joint && b.joint)) continue;
      const pieces = a.piece === b.piece ? ([a.piece] as const) : ([a.piece, b.piece] as const);
      flaws.push({ code: 'clamps_overlap', pieces, value: gap, atMm: (a.atMm + b.atMm) / 2 });
    }
    const left = Math.min(a.atMm, length - a.atMm) - a.widthMm / 2;
    if (!a.joint && isBelow(left, 0))
      flaws.push({ code: 'clamp_past_end', pieces: [a.piece], value: left, atMm: a.atMm });
  });
  return flaws;
}

/** One finding for each overlap and each clamp past an end; when there is none, one for the bar with the shortest longest stretch. */
export function barRoom(layout: Layout, { bars, legs }: RackRoom): ReturnType<typeof says>[] {
  const findings: ReturnType<typeof says>[] = [];
  const base = { limit: 0, source: "the clamps' own widths" };
  for (const { piece, bar, length, clamps } of bars) {
    const laid = layout.racks[piece].bars.find((each) => each.id === bar);
    for (const { code, atMm, ...flaw } of flawsOf(length, clamps)) {
      const at = laid?.pointAt(atMm);
      const bodies = [`${piece}/${bar}`];
      findings.push(says(code, { state: 'blocked', ...base, ...flaw, bodies, at: at ? [at.x, at.y] : null }));
    }
  }
  for (const { piece, leg, length, clamps } of legs) {
    const laid = layout.racks[piece].legs.find((each) => each.id === leg);
    for (const { code, atMm: _, ...flaw } of flawsOf(length, clamps)) {
      const at = laid ? ([laid.x, laid.y] as const) : null;
      findings.push(says(code, { state: 'blocked', ...base, ...flaw, bodies: [`${piece}/${leg}`], at }));
    }
  }
  if (findings.length > 0 || bars.length === 0) return findings;
  const fullest = bars.reduce((least, each) => (each.longestFree < least.longestFree ? each : least));
  const bodies = [`${fullest.piece}/${fullest.bar}`];
  const value = fullest.longestFree;
  return [says('bar_has_room', { state: 'clear', ...base, pieces: [fullest.piece], bodies, value, at: null })];
}
