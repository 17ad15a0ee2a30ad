/**
 * The pull list as data: every load that travels (checks/loads.ts) in the order of loading in, with its parts, what they weigh and cost, whether
 * they are owned, how large it is and how many people lift it; and the tubes to cut. Sheet and CSV are both made from this.
 *
 * Units:  mm, kg; prices for one in the plan's currency.
 * Exact:  counts and masses are those of checks/parts.ts; sums leave out what nobody weighed and count it instead.
 * Inputs: what is owned is worked out elsewhere (solve/buildFrom.ts) and comes in as data.
 */

import type { LiftReading } from '../checks/lift.ts';
import { bodiesByLoad, type Load, loadsOf } from '../checks/loads.ts';
import { type PartRow, type PartsLoad, type PartUse, partKey, partLoads, partsOf } from '../checks/parts.ts';
import type { Checked } from '../checks/run.ts';
import { grouped, sumOf } from '../gather.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { UnitKind } from '../gear/kinds.ts';
import { smallestRectangle } from '../geometry/rectangle.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Inventory } from '../plan/inventory.ts';
import { own } from '../plan/places.ts';
import type { Plan } from '../plan/schema.ts';
import { loadInOrder, unitKind } from './loadIn.ts';

/** What can be built from what is owned: solve/buildFrom.ts gives it. */
interface Built {
  readonly served: readonly {
    readonly need: PartUse;
    readonly gear: string;
    readonly cutToMm: number | null;
    /** Not the gear that the plan names. */
    readonly other: boolean;
  }[];
  readonly missing: readonly { readonly need: PartUse }[];
}

export interface Stock {
  readonly inventory: Inventory;
  readonly answer: Built;
}

/** So many are taken from the stock otherwise than the plan names them: other gear, or a tube that is cut. */
export interface Instead {
  readonly count: number;
  /** Null: the gear that the plan names. */
  readonly name: string | null;
  readonly cutToMm: number | null;
}

export interface PullRow {
  readonly part: PartRow;
  /** Of one, and of all; null: nobody wrote it down. */
  readonly price: number | null;
  readonly totalPrice: number | null;
  readonly note: string;
  /** Null without a stock list. */
  readonly owned: number | null;
  readonly missing: number | null;
  readonly instead: readonly Instead[];
}

/** 'unknown': what is known is light enough, but not all of it was weighed. */
export type Hands = 'one' | 'two' | 'takeApart' | 'unknown';

interface UnitLift {
  readonly hands: Hands;
  /** kg that one person, and two together, should lift of this size. */
  readonly onePerson: number;
  readonly twoPeople: number;
}

interface Summed {
  readonly partCount: number;
  readonly knownMass: number;
  readonly unmeasured: number;
  /** Of parts with a price. */
  readonly price: number;
  readonly unpriced: number;
}

export interface PullUnit extends Load, Summed {
  readonly kind: UnitKind;
  /** Its number in the order of loading in, from 1. */
  readonly number: number;
  readonly rows: readonly PullRow[];
  /** How many cymbals are in it. */
  readonly cymbals: number;
  /** A rack or stand as it stands: the smallest rectangle round it in plan, and its height above the deck. Null for what is taken off, and where nothing is laid out. */
  readonly size: { readonly lengthMm: number; readonly widthMm: number; readonly heightMm: number } | null;
  /** Null: nothing of it has a known mass. */
  readonly lift: UnitLift | null;
}

/** Tubes of one section: what to cut from it. */
export interface TubeCuts {
  /** Null: the gear of these tubes is not known. */
  readonly section: { readonly outsideMm: number; readonly wallMm: number; readonly material: string } | null;
  /** Longest first. */
  readonly cuts: readonly PartRow[];
  readonly count: number;
  readonly totalMm: number;
}

export interface PullList extends Summed {
  readonly units: readonly PullUnit[];
  readonly cuts: readonly TubeCuts[];
  /** Null without a stock list. */
  readonly missing: number | null;
  readonly currency: string;
  readonly stockName: string | null;
}

function liftOf(reading: LiftReading | undefined, { knownMass, unmeasured }: PartsLoad): UnitLift | null {
  if (!reading || knownMass <= 0) return null;
  const { onePerson, twoPeople } = reading;
  // What is not weighed can only add to it.
  const hands: Hands =
    knownMass > twoPeople ? 'takeApart' : knownMass > onePerson ? 'two' : unmeasured > 0 ? 'unknown' : 'one';
  return { hands, onePerson, twoPeople };
}

/** Things taken off what holds them, or packed together, have no size as they stand. */
function sizeOf(mine: readonly Body[] | undefined): PullUnit['size'] {
  if (!mine || mine.some(({ assembly }) => assembly !== mine[0].assembly) || !mine.some((body) => body.touchesFloor))
    return null;
  const { width, depth } = smallestRectangle(mine.map(({ shape }) => shape));
  return {
    lengthMm: Math.max(width, depth),
    widthMm: Math.min(width, depth),
    heightMm: Math.max(...mine.map(({ z1 }) => z1)),
  };
}

/** What a plan's prices are in; a stock list's prices count where it says the same, or the plan says nothing. */
function pricesOf(plan: Plan, stock: Stock | null): { currency: string; priceOf(gear: string): number | null } {
  const currency = plan.currency ?? stock?.inventory.currency ?? '';
  const common = stock && (stock.inventory.currency ?? '') === currency ? stock.inventory.parts : [];
  return {
    currency,
    priceOf: (gear) =>
      own(plan.partNotes ?? {}, gear)?.price ??
      common.find((part) => part.gear === gear && part.price !== undefined)?.price ??
      null,
  };
}

/** By unit and kind of part: how many the stock gives, how many it lacks, and which are taken otherwise than planned. */
class Owned {
  private readonly found = new Map<string, { missing: number; instead: Map<string, Instead> }>();
  private readonly known: boolean;
  constructor(plan: Plan, stock: Stock | null) {
    this.known = stock !== null;
    const gear = { ...plan.gear, ...(stock?.inventory.gear ?? {}) };
    for (const { need } of stock?.answer.missing ?? []) this.of(need).missing++;
    for (const { need, gear: id, cutToMm, other } of stock?.answer.served ?? []) {
      if (!other && cutToMm === null) continue;
      const name = other ? (gearOf(gear, id)?.name ?? id) : null;
      const { instead } = this.of(need);
      const key = `${name} ${cutToMm}`;
      instead.set(key, { name, cutToMm, count: (instead.get(key)?.count ?? 0) + 1 });
    }
  }

  private of(need: PartUse) {
    const key = `${need.load}|${partKey(need)}`;
    const found = this.found.get(key) ?? { missing: 0, instead: new Map() };
    this.found.set(key, found);
    return found;
  }

  row(load: string, part: PartRow): Pick<PullRow, 'owned' | 'missing' | 'instead'> {
    if (!this.known) return { owned: null, missing: null, instead: [] };
    const found = this.found.get(`${load}|${partKey(part)}`);
    const missing = found?.missing ?? 0;
    return { owned: part.count - missing, missing, instead: [...(found?.instead.values() ?? [])] };
  }
}

function cutsOf(plan: Plan, rows: readonly PartRow[]): TubeCuts[] {
  const tubes = rows.flatMap((row) => {
    if (row.kind !== 'bar' && row.kind !== 'upright') return [];
    const gear = gearOf(plan.gear, row.gear);
    const section =
      gear?.kind === 'tube' ? { outsideMm: gear.outsideMm, wallMm: gear.wallMm, material: gear.material } : null;
    const key = section ? `${section.outsideMm} ${section.wallMm} ${section.material}` : row.gear;
    return [{ row, section, key }];
  });
  return [...grouped(tubes, ({ key }) => key).values()].map((alike) => ({
    section: alike[0].section,
    cuts: alike.map(({ row }) => row).sort((a, b) => (b.cutLength ?? 0) - (a.cutLength ?? 0)),
    count: sumOf(alike, ({ row }) => row.count),
    totalMm: sumOf(alike, ({ row: { count, cutLength } }) => count * (cutLength ?? 0)),
  }));
}

/**
 * The pull list of a setup. `checked` gives the lifting limits.
 * Throws: RangeError when the plan has no such setup.
 */
export function pullList(
  plan: Plan,
  setupId: string,
  layout: Layout,
  checked: Checked,
  stock: Stock | null = null,
): PullList {
  if (!Object.hasOwn(plan.setups, setupId)) throw new RangeError(`The plan has no setup "${setupId}".`);
  const parts = partsOf(plan, setupId);
  const owned = new Owned(plan, stock);
  const { currency, priceOf } = pricesOf(plan, stock);
  const lifts = new Map(checked.rig.lifts.map((reading) => [reading.id, reading]));
  const bodies = bodiesByLoad(loadsOf(plan, plan.setups[setupId]), layout.bodies);
  const units = loadInOrder(plan, setupId, layout, partLoads(plan, setupId)).map((unit, k): PullUnit => {
    const rows = unit.parts.map((part): PullRow => {
      const price = priceOf(part.gear);
      return {
        part,
        price,
        totalPrice: price === null ? null : price * part.count,
        note: own(plan.partNotes ?? {}, part.gear)?.note ?? '',
        ...owned.row(unit.id, part),
      };
    });
    return {
      id: unit.id,
      name: unit.name,
      pieces: unit.pieces,
      kind: unitKind(plan, setupId, unit),
      number: k + 1,
      rows,
      partCount: sumOf(unit.parts, ({ count }) => count),
      knownMass: unit.knownMass,
      unmeasured: unit.unmeasured,
      price: sumOf(rows, ({ totalPrice }) => totalPrice ?? 0),
      unpriced: sumOf(rows, ({ price, part }) => (price === null ? part.count : 0)),
      cymbals: sumOf(unit.parts, ({ kind, count }) => (kind === 'cymbal' ? count : 0)),
      size: sizeOf(bodies.get(unit.id)),
      lift: liftOf(lifts.get(unit.id), unit),
    };
  });
  return {
    units,
    cuts: cutsOf(plan, parts.all),
    partCount: sumOf(units, ({ partCount }) => partCount),
    knownMass: parts.knownMass,
    unmeasured: parts.unmeasured,
    price: sumOf(units, ({ price }) => price),
    unpriced: sumOf(units, ({ unpriced }) => unpriced),
    missing: stock === null ? null : sumOf(units, ({ rows }) => sumOf(rows, ({ missing }) => missing ?? 0)),
    currency,
    stockName: stock === null ? null : stock.inventory.name,
  };
}
