/**
 * The joints that hold a rack together: a cross clamp wherever a bar meets an upright, a leg clamp between each upright and
 * its T-foot. A plan does not name them, so they are chosen here, once, for room on the bar, for parts and for mass.
 *
 * Choice: the first clamp of the right use whose range covers both tubes; the plan's own gear by id, then the catalogue in its
 * order. A bar that does not reach its second leg has no joint there.
 * Width:  the clamp's own. Where none is known to fit: JOINT_WIDTH_MM (common practice, no source).
 */
import { CATALOGUE, gearOf } from '../gear/catalogue.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { kept } from '../keep.ts';
import type { RackFrame } from '../plan/rackFrame.ts';
import type { Plan, Rack } from '../plan/schema.ts';

type Clamp = GearOf<'clamp'>;

export interface RackJoint {
  readonly use: 'cross' | 'leg';
  readonly leg: string;
  /** The bar that the upright is joined to, and where along it; null for a joint with a T-foot. */
  readonly bar: string | null;
  readonly atMm: number | null;
  /** Height of its middle on the upright. */
  readonly heightMm: number;
  /** Null: no clamp is known that fits both tubes. */
  readonly clamp: Clamp | null;
  /** Room that it takes along each tube. */
  readonly widthMm: number;
  /** Outside diameters of the tubes it is on, as far as they are known. */
  readonly tubesMm: readonly number[];
}

/** Room of a joint of unknown make; what the catalogue's joint takes. */
const JOINT_WIDTH_MM = 60;

const isClamp = (gear: Gear): gear is Clamp => gear.kind === 'clamp';
const CATALOGUE_CLAMPS = CATALOGUE.filter(isClamp);

const byId = (a: Clamp, b: Clamp): number => (a.id < b.id ? -1 : 1);

/** The plan's own clamps by id, then the catalogue's. */
const clampsIn = kept((own: Plan['gear']): readonly Clamp[] => {
  const others = CATALOGUE_CLAMPS.filter(({ id }) => !Object.hasOwn(own, id));
  return [...Object.values(own).filter(isClamp).sort(byId), ...others];
});

/** By the plan's own gear: the clamp for each use and tubes that were asked for. */
const choicesIn = kept((_: Plan['gear']) => new Map<string, Clamp | null>());

/** The joint clamp for tubes of these outside diameters, or null. */
function jointClamp(own: Plan['gear'], use: RackJoint['use'], tubesMm: readonly number[]): Clamp | null {
  const choices = choicesIn(own);
  const question = `${use} ${tubesMm.join(' ')}`;
  const known = choices.get(question);
  if (known !== undefined) return known;
  const fits = ({ tubeMm: [low, high] }: Clamp) => tubesMm.every((outside) => low <= outside && outside <= high);
  const clamp = clampsIn(own).find((each) => each.use === use && fits(each)) ?? null;
  choices.set(question, clamp);
  return clamp;
}

/** Outside diameter, mm; null: not known to be a tube. */
export function tubeDiameter(own: Plan['gear'], id: string): number | null {
  const gear = gearOf(own, id);
  return gear?.kind === 'tube' ? gear.outsideMm : null;
}

/** Bar by bar, then foot by foot. */
export function rackJoints(own: Plan['gear'], rack: Rack, frame: RackFrame): RackJoint[] {
  const joints: RackJoint[] = [];
  const add = (
    use: RackJoint['use'],
    leg: string,
    bar: string | null,
    atMm: number | null,
    heightMm: number,
    tubes: readonly (number | null)[],
  ) => {
    const tubesMm = tubes.filter((outside) => outside !== null);
    const clamp = tubesMm.length === tubes.length ? jointClamp(own, use, tubesMm) : null;
    joints.push({ use, leg, bar, atMm, heightMm, clamp, widthMm: clamp?.widthMm ?? JOINT_WIDTH_MM, tubesMm });
  };
  for (const at of frame.bars) {
    const bar = rack.spans[at.span].bars[at.index];
    for (const [k, atMm] of [at.s0, at.s1].entries()) {
      const leg = rack.legs[at.span + k];
      if (atMm === null || leg === undefined) continue;
      add('cross', leg.id, bar.id, atMm, bar.heightMm, [tubeDiameter(own, leg.tube), tubeDiameter(own, bar.tube)]);
    }
  }
  for (const leg of rack.legs) {
    if (!leg.foot) continue;
    const foot = gearOf(own, leg.foot.gear);
    const heightMm = foot?.kind === 'foot' ? foot.heightMm / 2 : 0;
    add('leg', leg.id, null, null, heightMm, [tubeDiameter(own, leg.tube)]);
  }
  return joints;
}
