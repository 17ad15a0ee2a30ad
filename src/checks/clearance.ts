/**
 * Is anything closer to something else than it may be, heights considered?
 *
 * Every pair of bodies of different pieces counts, but for a piece and the stand that it sits on, and pairs of kinds whose
 * limit is null. A gap of 0 or less is blocked, one below its limit tight.
 */
import { gap } from '../geometry/gap.ts';
import { CoreTable } from '../geometry/gapKernel.ts';
import { closePairs, type Pairs } from '../geometry/pairs.ts';
import type { Body } from '../layout/body.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import type { Finding } from './finding.ts';
import {
  clearanceSource,
  DEFAULT_CLEARANCE_MM,
  DEFAULT_HEIGHT_MM,
  LISTED_BELOW_MM,
  PAIR_DEFAULTS,
  requiredClearance,
} from './limits.ts';

export interface PairReading {
  readonly a: Body;
  readonly b: Body;
  readonly gap: number;
  readonly required: number;
}

const table = new CoreTable();
let found: Pairs | undefined;

/** The stand that each piece sits on: they touch by design. */
export function seats(setup: Setup): ReadonlyMap<string, string> {
  const map = new Map<string, string>();
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece?.kind === 'item' && piece.mount?.carrier.on === 'piece') map.set(id, piece.mount.carrier.piece);
  }
  return map;
}

/** Checked pairs closer than their limit or than LISTED_BELOW_MM, in the order of the bodies. */
export function pairReadings(plan: Plan, setup: Setup, bodies: readonly Body[]): PairReading[] {
  const { limits } = plan;
  const sits = seats(setup);
  let reach = Math.max(LISTED_BELOW_MM, DEFAULT_CLEARANCE_MM);
  for (const limit of Object.values(PAIR_DEFAULTS)) reach = Math.max(reach, limit ?? 0);
  for (const limit of Object.values(limits?.clearanceMm ?? {})) reach = Math.max(reach, limit ?? 0);
  table.clear();
  for (const { shape, z0, z1 } of bodies) table.add(shape, z0, z1);
  found = closePairs(table, reach, { heightSlackMm: limits?.heightMm ?? DEFAULT_HEIGHT_MM, out: found });
  const pairs: (PairReading & { order: number })[] = [];
  for (let k = 0; k < found.count; k++) {
    const a = bodies[found.ia[k]];
    const b = bodies[found.ib[k]];
    if (a.piece === b.piece || sits.get(a.piece) === b.piece || sits.get(b.piece) === a.piece) continue;
    const required = requiredClearance(limits, a.kind, b.kind);
    if (required === null || found.gap[k] >= Math.max(required, LISTED_BELOW_MM)) continue;
    pairs.push({ a, b, gap: found.gap[k], required, order: found.ia[k] * bodies.length + found.ib[k] });
  }
  return pairs.sort((p, q) => p.order - q.order).map(({ a, b, gap, required }) => ({ a, b, gap, required }));
}

const shortfall = (pair: PairReading): number => pair.gap - pair.required;

function finding(plan: Plan, pair: PairReading): Finding {
  const { a, b, required } = pair;
  const near = gap(a.shape, b.shape);
  return {
    check: 'clearance',
    code: pair.gap <= 0 ? 'overlap' : pair.gap < required ? 'too_close' : 'apart',
    state: pair.gap <= 0 ? 'blocked' : pair.gap < required ? 'tight' : 'clear',
    pieces: [a.piece, b.piece],
    bodies: [a.id, b.id],
    value: pair.gap,
    limit: required,
    unit: 'mm',
    source: clearanceSource(plan.limits, a.kind, b.kind),
    at: [(near.ax + near.bx) / 2, (near.ay + near.by) / 2],
    line: [near.ax, near.ay, near.bx, near.by],
  };
}

/**
 * One finding for each two pieces that are too close, the worst of their bodies; when there is none, one that says which
 * pair comes nearest to its limit. No finding when nothing is near anything.
 */
export function clearance(plan: Plan, pairs: readonly PairReading[]): Finding[] {
  const worst = new Map<string, PairReading>();
  let nearest: PairReading | null = null;
  for (const pair of pairs) {
    if (nearest === null || shortfall(pair) < shortfall(nearest)) nearest = pair;
    if (pair.gap >= pair.required) continue;
    const key = JSON.stringify([pair.a.piece, pair.b.piece].sort());
    const before = worst.get(key);
    if (!before || shortfall(pair) < shortfall(before)) worst.set(key, pair);
  }
  if (worst.size > 0) return [...worst.values()].map((pair) => finding(plan, pair));
  return nearest ? [finding(plan, nearest)] : [];
}
