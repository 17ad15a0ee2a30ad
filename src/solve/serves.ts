/**
 * Which owned part may stand in for a planned one, and what is wasted by it. It may where:
 *
 * - tube: same outside diameter and material, a wall no thinner; a straight one at least as long (what is cut off is the waste), a
 *   bent one of the same length and bend, since cutting it would move its bow;
 * - T-foot: as long and as high, no wider;
 * - clamp: the same gear; or one of the same use that fits the same tubes, no wider, its socket at the same reach and for every
 *   arm that the planned one takes (the waste is by how much width and reach differ);
 * - arm, platform, link: one of the same kind that reaches the piece from the same clamp (layout/reachMounts.ts is asked with that
 *   arm in its place; the waste is the length that stays unused, of a platform that of its post) and fits the planned clamp. An arm in
 *   a platform's own socket is asked for by itself, the platform as planned. One whose sockets carry other
 *   pieces must be the same gear: another would carry them elsewhere. A bent link passes at least as high; a straight one is for
 *   a straight one. The planned gear itself always serves: whether it reaches is told by the check of mounts, not here;
 * - all else (drums, cymbals, pedals, thrones, stands, end caps): the same gear.
 *
 * Units: mm.
 */
import { SAME_MM } from '../checks/kitMove.ts';
import { SLACK_MM } from '../checks/mountReach.ts';
import type { PartBend, PartUse } from '../checks/parts.ts';
import { gearOf } from '../gear/catalogue.ts';
import { type ArmGear, END_CAP_ID, isArm, kindOf, type PartKind } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import type { Layout } from '../layout/layout.ts';
import { longestMm } from '../layout/reach.ts';
import { type MountPose, MountResolver } from '../layout/reachMounts.ts';
import { carriersOf } from '../plan/carriers.ts';
import type { OwnedPart } from '../plan/inventory.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';

const NO = Number.POSITIVE_INFINITY;

/** Saws and tapes: a tube this much shorter is the same tube, and one this much longer is not cut. */
const CUT_MM = 1;
/** 1 1/2 in and 38 mm tubes take the same clamps. */
const SECTION_MM = 0.2;
/** Bends of 750 and 755 mm radius bow less than 1 mm apart over 900 mm of tube. */
const BEND_MM = 5;

/** What an owned part lacks. `out` and `up`: how the piece would have to move for an arm, away from its clamp and up. */
export interface Shortfall {
  readonly mm: number;
  readonly out: number;
  readonly up: number;
  /** Degrees that a ball joint lacks. */
  readonly tiltDeg: number;
}

const inside = ([low, high]: readonly [number, number], [from, to]: readonly [number, number]): boolean =>
  low <= from && to <= high;

/** Answers for one setup; keeps what it worked out. */
export class Serving {
  private readonly setup: Setup;
  /** What is owned, as its owner measured it, goes before the plan's and the catalogue's idea of it. */
  private readonly owned: Readonly<Record<string, Gear>>;
  /** Pieces in whose arm's sockets others hang. */
  private readonly carriers: ReadonlySet<string>;
  /** Copies of our own, in which one arm at a time is another: copying a large setup for every trial would be most of the work. */
  private readonly trial: { readonly plan: Plan; readonly setup: Setup };
  private readonly poses = new Map<string, MountPose | null>();

  constructor(
    private readonly plan: Plan,
    setupId: string,
    private readonly layout: Layout,
    ownGear: Readonly<Record<string, Gear>>,
  ) {
    this.setup = plan.setups[setupId];
    this.trial = {
      plan: { ...plan, gear: { ...plan.gear } },
      setup: { ...this.setup, pieces: { ...this.setup.pieces } },
    };
    this.owned = { ...plan.gear, ...ownGear };
    const hung = Object.values(this.setup.pieces).flatMap((piece) => (piece.kind === 'item' ? carriersOf(piece) : []));
    this.carriers = new Set(hung.flatMap((carrier) => (carrier.on === 'socket' ? [carrier.piece] : [])));
  }

  /** Whether an owned part is of a kind of parts at all. */
  isOfKind({ gear }: OwnedPart, kind: PartKind): boolean {
    if (kind === 'endCap') return END_CAP_ID.test(gear);
    const known = gearOf(this.owned, gear);
    return known !== undefined && kindOf(known).counts.includes(kind);
  }

  /** What is wasted if the part serves the need; Infinity where it cannot. */
  wasteMm(need: PartUse, part: OwnedPart): number {
    const owned = gearOf(this.owned, part.gear);
    switch (need.kind) {
      case 'bar':
      case 'upright':
        return owned?.kind === 'tube' ? this.tubeWaste(need, part, owned) : NO;
      case 'foot':
        return owned?.kind === 'foot' && this.footServes(need, owned) ? 0 : NO;
      case 'clamp':
        return owned?.kind === 'clamp' ? this.clampWaste(need, owned) : NO;
      case 'arm':
      case 'link':
        return isArm(owned) ? this.armWaste(need, owned) : NO;
      case 'endCap':
      case 'stand':
      case 'drum':
      case 'cymbal':
      case 'pedal':
      case 'throne':
        return need.gear === part.gear ? 0 : NO;
    }
  }

  /** The length that a tube must be cut to for the need; null: it is used as it is. */
  cutTo(need: PartUse, part: OwnedPart): number | null {
    const owned = gearOf(this.owned, part.gear);
    if (owned?.kind !== 'tube' || need.cutLength === null) return null;
    return (part.cutLengthMm ?? owned.cutLengthMm) - need.cutLength > CUT_MM ? need.cutLength : null;
  }

  /** For a part of the right kind that cannot serve: what it lacks; null where that is no length. */
  shortfall(need: PartUse, part: OwnedPart): Shortfall | null {
    const owned = gearOf(this.owned, part.gear);
    if (owned?.kind === 'tube' && need.cutLength !== null) {
      if (need.bend || bendOf(part, owned) || !this.sameSection(need, owned)) return null;
      const mm = need.cutLength - (part.cutLengthMm ?? owned.cutLengthMm);
      return mm > 0 ? { mm, out: 0, up: 0, tiltDeg: 0 } : null;
    }
    if (!isArm(owned) || !this.armFits(need, owned)) return null;
    const pose = this.poseWith(need, owned);
    if (!pose || pose.reach.reached) return null;
    const { shortMm, changeMm, tiltShortDeg } = pose.reach;
    return { mm: shortMm, out: changeMm.out, up: changeMm.up, tiltDeg: tiltShortDeg };
  }

  private sameSection(need: PartUse, owned: GearOf<'tube'>): boolean {
    const planned = gearOf(this.plan.gear, need.gear);
    return (
      planned?.kind === 'tube' &&
      Math.abs(planned.outsideMm - owned.outsideMm) <= SECTION_MM &&
      planned.material === owned.material &&
      owned.wallMm >= planned.wallMm - SECTION_MM / 2
    );
  }

  private tubeWaste(need: PartUse, part: OwnedPart, owned: GearOf<'tube'>): number {
    if (need.cutLength === null || !this.sameSection(need, owned)) return NO;
    const over = (part.cutLengthMm ?? owned.cutLengthMm) - need.cutLength;
    const bend = bendOf(part, owned);
    if (need.bend === null) return bend === null && over >= -CUT_MM ? Math.max(0, over) : NO;
    return bend !== null && sameBend(bend, need.bend) && Math.abs(over) <= CUT_MM ? 0 : NO;
  }

  private footServes(need: PartUse, owned: GearOf<'foot'>): boolean {
    const planned = gearOf(this.plan.gear, need.gear);
    return (
      planned?.kind === 'foot' &&
      Math.abs(owned.lengthMm - (need.cutLength ?? planned.lengthMm)) <= CUT_MM &&
      Math.abs(owned.heightMm - planned.heightMm) <= SAME_MM &&
      owned.widthMm <= planned.widthMm + SAME_MM
    );
  }

  private clampWaste(need: PartUse, owned: GearOf<'clamp'>): number {
    if (owned.id === need.gear) return 0;
    const planned = gearOf(this.plan.gear, need.gear);
    if (!need.grips.every((outside) => inside(owned.tubeMm, [outside, outside]))) return NO;
    // A joint of which no make is known: any joint of that use that fits.
    if (planned === undefined) return need.gear === `joint-${owned.use}` ? 0 : NO;
    if (planned.kind !== 'clamp' || planned.use !== owned.use || owned.widthMm > planned.widthMm + SAME_MM) return NO;
    if (planned.socketMm && !(owned.socketMm && inside(owned.socketMm, planned.socketMm))) return NO;
    const reach = Math.abs(owned.reachMm - planned.reachMm);
    return need.use === 'joint' || reach <= SLACK_MM ? planned.widthMm - owned.widthMm + reach : NO;
  }

  /** The right kind, for the planned clamp's socket, and with no other pieces in its sockets. */
  private armFits(need: PartUse, owned: ArmGear): boolean {
    const planned = gearOf(this.plan.gear, need.gear);
    const holdsOthers = need.use === 'arm' && !need.onPlatform && this.carriers.has(need.piece);
    if (!planned || planned.kind !== owned.kind || holdsOthers) return false;
    if (planned.kind === 'link' && owned.kind === 'link')
      return planned.passHeightMm > 0 ? owned.passHeightMm >= planned.passHeightMm : owned.passHeightMm === 0;
    const item = this.setup.pieces[need.piece];
    const clampId = item?.kind === 'item' ? item.mount?.clamp : null;
    const clamp = clampId ? gearOf(this.plan.gear, clampId) : undefined;
    if (clamp?.kind !== 'clamp' || !clamp.socketMm || owned.kind === 'platform' || need.onPlatform) return true;
    return inside(clamp.socketMm, [owned.tubeMm, owned.tubeMm]);
  }

  private armWaste(need: PartUse, owned: ArmGear): number {
    const same = owned.id === need.gear;
    if (!same && !this.armFits(need, owned)) return NO;
    const pose = this.poseWith(need, owned);
    if (pose?.reach.reached && pose.head && !need.onPlatform && owned.kind === 'platform')
      return Math.max(0, owned.postMm[1] - (pose.head.top[2] - pose.head.foot[2]));
    if (pose?.reach.reached) return Math.max(0, longestMm(owned) - Math.hypot(pose.horizontalMm, pose.riseMm));
    return same ? 0 : NO;
  }

  /** The need's own mount or tie, resolved as layout does it, with the owned arm in place of the planned one. */
  private poseWith(need: PartUse, owned: ArmGear): MountPose | null {
    const key = `${need.id}\n${owned.id}`;
    const known = this.poses.get(key);
    const pose = known === undefined ? this.resolve(need, owned) : known;
    this.poses.set(key, pose);
    return pose;
  }

  private resolve(need: PartUse, owned: ArmGear): MountPose | null {
    const item = this.setup.pieces[need.piece];
    if (item?.kind !== 'item') return null;
    const tie = need.tie === null ? undefined : item.ties?.[need.tie];
    const changed: Item | null =
      need.use === 'arm'
        ? item.mount && {
            ...item,
            mount: { ...item.mount, ...(need.onPlatform ? { platformArm: owned.id } : { arm: owned.id }) },
          }
        : tie
          ? { ...item, ties: [{ ...tie, link: owned.id }] }
          : null;
    if (!changed) return null;
    const { plan, setup } = this.trial;
    const gear = gearOf(plan.gear, owned.id);
    setup.pieces[item.id] = changed;
    plan.gear[owned.id] = owned;
    const resolver = new MountResolver(plan, setup, this.layout.racks);
    const pose = need.use === 'arm' ? resolver.pose(item.id) : (resolver.ties(item.id)[0] ?? null);
    setup.pieces[item.id] = item;
    // Back to the plan's own idea of it: other arms hang where the plan has them.
    if (gear) plan.gear[owned.id] = gear;
    else delete plan.gear[owned.id];
    return pose;
  }
}

/** As the entry says, else as the gear is. */
function bendOf({ bend }: OwnedPart, gear: GearOf<'tube'>): PartBend | null {
  if (bend !== undefined) return bend;
  return gear.bendRadiusMm === undefined
    ? null
    : { radiusMm: gear.bendRadiusMm, straightEndsMm: gear.straightEndsMm ?? 0 };
}

const sameBend = (a: PartBend, b: PartBend): boolean =>
  Math.abs(a.radiusMm - b.radiusMm) <= BEND_MM && Math.abs(a.straightEndsMm - b.straightEndsMm) <= BEND_MM;
