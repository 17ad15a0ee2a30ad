/**
 * What a setup is made of: every part to buy, pack or cut, per unit that travels (a rack with all that it carries, a stand
 * with its drum, a throne). The kit only: neither the riser's modules nor stage items.
 *
 * Rules, for what a plan does not name itself:
 * - each place where a bar meets an upright is a cross joint, each T-foot has a leg joint (layout/rackJoints.ts);
 * - end caps: two a bar, one on top of each upright, and one under an upright that stands on its own end. T-feet have their
 *   own rubber. A cap has no gear entry; its id says the tube's outside, and its few grams stay out of sums;
 * - a tie is one link and one clamp, that on the rack's side: the link's other end is part of the link;
 * - a double pedal is one part.
 *
 * Units:  mm, kg. A tube's mass follows from its section and its cut length in the plan; others are the gear's own.
 * Order:  units as their first piece stands in the setup; rows by kind, then label, length, bend, gear id. The same plan gives
 *         the same rows.
 */

import { byText, grouped, sumOf } from '../gather.ts';
import { gearOf, massKgOf, tubeMassKg } from '../gear/catalogue.ts';
import { endCapId, kindOf, PART_KINDS, type PartKind } from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { assemblyRoots } from '../layout/assemblies.ts';
import { rackJoints, tubeDiameter } from '../layout/rackJoints.ts';
import { barOf, barsOf } from '../plan/carriers.ts';
import { own } from '../plan/places.ts';
import { rackFrame } from '../plan/rackFrame.ts';
import type { Bend, Carrier, Item, Plan, Rack, Setup } from '../plan/schema.ts';
import { type Load, type Loads, loadsOf } from './loads.ts';

/** Bend radius and straight ends; which side the bow lies on is a matter of turning the tube over. */
export type PartBend = Pick<Bend, 'radiusMm' | 'straightEndsMm'>;

export type MassSource = 'computed' | 'typical' | 'measured' | 'unmeasured';

/** One part, and what it is for. */
export interface PartUse {
  /** The root of its rigid assembly. */
  readonly unit: string;
  /** What it travels in (loads.ts): a load's id. */
  readonly load: string;
  readonly piece: string;
  /** Unique in the setup: `piece/what`. */
  readonly id: string;
  readonly use: 'piece' | 'bar' | 'upright' | 'foot' | 'joint' | 'clamp' | 'arm' | 'tie' | 'endCap';
  readonly kind: PartKind;
  /** Null never: an end cap's made-up id says its size. */
  readonly gear: string;
  readonly label: string;
  /** Bars, uprights and feet. */
  readonly cutLength: number | null;
  readonly bend: PartBend | null;
  /** kg of one; null: unmeasured. */
  readonly mass: number | null;
  readonly massFrom: MassSource;
  /** Which of the piece's ties; null for all else. */
  readonly tie: number | null;
  /** An arm in the socket of the platform that holds its own piece. */
  readonly onPlatform: boolean;
  /** Outside diameters of the tubes that a clamp is on; empty for all else. */
  readonly grips: readonly number[];
}

/** Parts that are alike, counted. */
export interface PartRow extends Pick<PartUse, 'kind' | 'gear' | 'label' | 'cutLength' | 'bend' | 'mass' | 'massFrom'> {
  readonly count: number;
  /** kg of all of them. */
  readonly totalMass: number | null;
}

interface KnownMass {
  /** kg of all parts whose mass is known; how many are unmeasured (end caps not counted). */
  readonly knownMass: number;
  readonly unmeasured: number;
}

export interface PartsUnit extends KnownMass {
  readonly id: string;
  readonly pieces: readonly string[];
  readonly parts: readonly PartRow[];
}

export interface Parts extends KnownMass {
  readonly units: readonly PartsUnit[];
  /** The whole setup. */
  readonly all: readonly PartRow[];
}

/** A part of which nothing is known beside what it is. */
const BARE = {
  cutLength: null,
  bend: null,
  mass: null,
  massFrom: 'unmeasured',
  tie: null,
  onPlatform: false,
  grips: [],
} as const;

function massOf(gear: Gear | undefined): Pick<PartUse, 'mass' | 'massFrom'> {
  const mass = gear ? massKgOf(gear) : null;
  const massFrom = mass === null ? 'unmeasured' : gear?.measured?.includes('massKg') ? 'measured' : 'typical';
  return { mass, massFrom };
}

/** Fills a list of uses for one setup. */
class Collector {
  readonly uses: PartUse[] = [];
  private readonly roots: ReadonlyMap<string, string>;
  private readonly loads: Loads;
  constructor(
    private readonly plan: Plan,
    private readonly setup: Setup,
  ) {
    this.roots = assemblyRoots(setup);
    this.loads = loadsOf(plan, setup);
  }

  private push(
    piece: string,
    what: string,
    use: Pick<PartUse, 'use' | 'kind' | 'gear' | 'label'> & Partial<PartUse>,
  ): void {
    const isHardware = use.use === 'clamp' || use.use === 'arm' || use.use === 'tie';
    const load = (isHardware ? this.loads.hardwareOf(piece) : this.loads.of(piece)) ?? piece;
    this.uses.push({ ...BARE, unit: this.roots.get(piece) ?? piece, load, piece, id: `${piece}/${what}`, ...use });
  }

  /** Gear as it is. Kinds that are no parts of a kit are left out. */
  private plain(piece: string, what: string, use: PartUse['use'], id: string, more: Partial<PartUse> = {}): void {
    const gear = gearOf(this.plan.gear, id);
    const kind = gear && kindOf(gear).counts[0];
    if (gear && kind) this.push(piece, what, { use, kind, gear: id, label: gear.name, ...massOf(gear), ...more });
  }

  private tube(piece: string, what: string, id: string, use: 'bar' | 'upright', cutLength: number, bend: Bend | null) {
    const gear = gearOf(this.plan.gear, id);
    const known = gear?.kind === 'tube' ? gear : null;
    const shape = bend && { radiusMm: bend.radiusMm, straightEndsMm: bend.straightEndsMm };
    // A name that says straight must not stand on a bent tube, nor 48 in on one that is cut shorter.
    const asBought = known && (known.bendRadiusMm !== undefined) === (bend !== null) && known.cutLengthMm === cutLength;
    const words = use === 'upright' ? 'Upright' : bend ? 'Curved tube' : 'Straight tube';
    this.push(piece, what, {
      use,
      kind: use,
      gear: id,
      label: asBought ? known.name : words,
      cutLength,
      bend: shape,
      mass: known ? tubeMassKg(known.outsideMm, known.wallMm, cutLength, known.material) : null,
      massFrom: known ? 'computed' : 'unmeasured',
    });
    return known;
  }

  private caps(piece: string, what: string, outsideMm: number | undefined, count: number): void {
    if (outsideMm === undefined) return;
    const cap = { use: 'endCap', kind: 'endCap', gear: endCapId(outsideMm), label: 'End cap' } as const;
    for (let k = 1; k <= count; k++) this.push(piece, `${what}-cap-${k}`, cap);
  }

  rack(rack: Rack): void {
    for (const { bar } of barsOf(rack)) {
      const tube = this.tube(rack.id, bar.id, bar.tube, 'bar', bar.cutLengthMm, bar.bend);
      this.caps(rack.id, bar.id, tube?.outsideMm, 2);
    }
    for (const leg of rack.legs) {
      const tube = this.tube(rack.id, leg.id, leg.tube, 'upright', leg.lengthMm, null);
      this.caps(rack.id, leg.id, tube?.outsideMm, leg.foot ? 1 : 2);
      if (!leg.foot) continue;
      const foot = gearOf(this.plan.gear, leg.foot.gear);
      this.push(rack.id, `${leg.id}-foot`, {
        use: 'foot',
        kind: 'foot',
        gear: leg.foot.gear,
        label: foot?.kind === 'foot' && foot.lengthMm === leg.foot.lengthMm ? foot.name : 'T-foot',
        cutLength: leg.foot.lengthMm,
        ...massOf(foot),
      });
    }
    for (const { use, leg, bar, clamp, tubesMm: grips } of rackJoints(this.plan.gear, rack, rackFrame(rack))) {
      const what = use === 'leg' ? `${leg}-joint` : `${bar}-${leg}-joint`;
      if (clamp) this.plain(rack.id, what, 'joint', clamp.id, { grips });
      else
        this.push(rack.id, what, {
          use: 'joint',
          kind: 'clamp',
          gear: `joint-${use}`,
          label: use === 'leg' ? 'Joint of upright and T-foot' : 'Joint of bar and upright',
          grips,
        });
    }
  }

  /** Outside diameter of the tube that carries a clamp; none in sockets and on stands. */
  private gripped(carrier: Carrier): number[] {
    if (carrier.on !== 'bar' && carrier.on !== 'leg') return [];
    const rack = own(this.setup.pieces, carrier.rack);
    if (rack?.kind !== 'rack') return [];
    const tube =
      carrier.on === 'bar' ? barOf(rack, carrier.bar)?.tube : rack.legs.find(({ id }) => id === carrier.leg)?.tube;
    const outside = tube === undefined ? null : tubeDiameter(this.plan.gear, tube);
    return outside === null ? [] : [outside];
  }

  item(item: Item): void {
    this.plain(item.id, 'piece', 'piece', item.gear);
    if (item.mount?.clamp)
      this.plain(item.id, 'clamp', 'clamp', item.mount.clamp, { grips: this.gripped(item.mount.carrier) });
    if (item.mount?.arm) this.plain(item.id, 'arm', 'arm', item.mount.arm);
    if (item.mount?.platformArm)
      this.plain(item.id, 'platform-arm', 'arm', item.mount.platformArm, { onPlatform: true });
    for (const [k, tie] of (item.ties ?? []).entries()) {
      this.plain(item.id, `link-${k + 1}`, 'tie', tie.link, { tie: k });
      if (tie.clamp)
        this.plain(item.id, `link-${k + 1}-clamp`, 'clamp', tie.clamp, { tie: k, grips: this.gripped(tie.carrier) });
    }
  }
}

/** Every part of a setup by itself, in the order of its pieces. */
export function partUses(plan: Plan, setupId: string): PartUse[] {
  const setup = plan.setups[setupId];
  const collector = new Collector(plan, setup);
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece?.kind === 'rack') collector.rack(piece);
    else if (piece) collector.item(piece);
  }
  return collector.uses;
}

/** Parts with the same key are alike. The mass follows from the rest. */
type Likeness = Pick<PartUse, 'kind' | 'gear' | 'cutLength' | 'bend'>;
export function partKey({ kind, gear, cutLength, bend }: Likeness): string {
  const shape = bend ? `${bend.radiusMm} ${bend.straightEndsMm}` : '';
  return [PART_KINDS.indexOf(kind), gear, cutLength ?? '', shape].join('|');
}

function inOrder(a: PartRow, b: PartRow): number {
  return (
    PART_KINDS.indexOf(a.kind) - PART_KINDS.indexOf(b.kind) ||
    byText(a.label, b.label) ||
    (a.cutLength ?? 0) - (b.cutLength ?? 0) ||
    (a.bend?.radiusMm ?? 0) - (b.bend?.radiusMm ?? 0) ||
    byText(partKey(a), partKey(b))
  );
}

/** Like parts counted, in order. */
export function partRows(uses: readonly PartUse[]): PartRow[] {
  return [...grouped(uses, partKey).values()]
    .map((alike): PartRow => {
      const [{ kind, gear, label, cutLength, bend, mass, massFrom }] = alike;
      const count = alike.length;
      const totalMass = mass === null ? null : mass * count;
      return { kind, gear, label, count, cutLength, bend, mass, totalMass, massFrom };
    })
    .sort(inOrder);
}

const totals = (rows: readonly PartRow[]) => ({
  knownMass: sumOf(rows, ({ totalMass }) => totalMass ?? 0),
  unmeasured: sumOf(rows, ({ kind, totalMass, count }) => (totalMass === null && kind !== 'endCap' ? count : 0)),
});

/** The parts of each load that travels. */
export interface PartsLoad extends Load, KnownMass {
  readonly parts: readonly PartRow[];
}

/** Loads in the order of the setup, those without parts left out. Inputs: a setup that the plan holds. */
export function partLoads(plan: Plan, setupId: string): PartsLoad[] {
  const byLoad = grouped(partUses(plan, setupId), ({ load }) => load);
  return loadsOf(plan, plan.setups[setupId]).list.flatMap((load) => {
    const own = byLoad.get(load.id);
    if (!own) return [];
    const parts = partRows(own);
    return [{ ...load, parts, ...totals(parts) }];
  });
}

/** Inputs: a setup that the plan holds. */
export function partsOf(plan: Plan, setupId: string): Parts {
  const uses = partUses(plan, setupId);
  const all = partRows(uses);
  return {
    units: [...grouped(uses, ({ unit }) => unit)].map(([id, own]): PartsUnit => {
      const parts = partRows(own);
      return { id, pieces: [...new Set(own.map(({ piece }) => piece))], parts, ...totals(parts) };
    }),
    all,
    ...totals(all),
  };
}
