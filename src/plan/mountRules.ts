/**
 * Rules over what holds what: every mount and tie ends on something that is there, and nothing holds itself.
 */
import {
  ARM_KINDS,
  carrying,
  GEAR_KINDS,
  isArm,
  KINDS,
  PLACEABLE_KINDS,
  SOCKET_ARM_KINDS,
  socketsOf,
} from '../gear/kinds.ts';
import type { Gear } from '../gear/schema.ts';
import { barOf, carrierPiece, carriersOf } from './carriers.ts';
import { firstOf, own, type Path, type Problem, problemAt, quoted } from './places.ts';
import { gearMisfit, mmWords } from './rackRules.ts';
import type { Carrier, Item, Plan, Setup } from './schema.ts';

export interface SetupContext {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly path: Path;
  readonly gear: (id: string) => Gear | undefined;
}

/** Kinds of pieces that others stand in or on, for sentences. */
const CARRYING_WORDS = GEAR_KINDS.filter((kind) => KINDS[kind].placed?.carries)
  .map((kind) => KINDS[kind].word)
  .join(' nor ');

/** PL-11 and PL-12: the carrier is there, and the clamp lies on it. */
function carrierProblem(context: SetupContext, path: Path, carrier: Carrier, holds: 'mount' | 'tie'): Problem | null {
  const { plan, setup } = context;
  const wrong = (code: string, reason: string) =>
    problemAt(plan, path, code, `${code === 'clamp_off_tube' ? 'its clamp is' : `the ${holds} is`} ${reason}`);
  const gone = (reason: string) => wrong('unknown_carrier', reason);
  if (carrier.on === 'bar' || carrier.on === 'leg') {
    const rack = own(setup.pieces, carrier.rack);
    if (rack === undefined) return gone(`on rack ${quoted(carrier.rack)}, which is not in this setup.`);
    if (rack.kind !== 'rack') return gone(`on ${quoted(rack.name)}, which is not a rack and has no ${carrier.on}s.`);
    if (carrier.on === 'bar') {
      const bar = barOf(rack, carrier.bar);
      if (bar === undefined)
        return gone(`on bar ${quoted(carrier.bar)} of ${quoted(rack.name)}, which has no such bar.`);
      if (carrier.atMm <= bar.cutLengthMm) return null;
      return wrong(
        'clamp_off_tube',
        `${mmWords(carrier.atMm)} along bar ${quoted(bar.id)} of ${quoted(rack.name)}, off the end of that tube, which is ${mmWords(bar.cutLengthMm)} long.`,
      );
    }
    const leg = rack.legs.find((each) => each.id === carrier.leg);
    if (leg === undefined) return gone(`on leg ${quoted(carrier.leg)} of ${quoted(rack.name)}, which has no such leg.`);
    if (carrier.heightMm <= leg.lengthMm) return null;
    return wrong(
      'clamp_off_tube',
      `at a height of ${mmWords(carrier.heightMm)} on leg ${quoted(leg.id)} of ${quoted(rack.name)}, above the top of that upright at ${mmWords(leg.lengthMm)}.`,
    );
  }
  const holder = own(setup.pieces, carrier.piece);
  if (holder === undefined) return gone(`on piece ${quoted(carrier.piece)}, which is not in this setup.`);
  if (holder.kind === 'rack') return gone(`on rack ${quoted(holder.name)} without saying which bar or leg.`);
  if (carrier.on === 'piece') {
    const gear = context.gear(holder.gear);
    if (gear === undefined || carrying(gear) !== null) return null;
    return gone(`on ${quoted(holder.name)}, which is neither ${CARRYING_WORDS}.`);
  }
  const arm = holder.mount?.arm ? context.gear(holder.mount.arm) : undefined;
  if (!isArm(arm))
    return wrong(
      'unknown_socket',
      `in a socket of what holds ${quoted(holder.name)}, but no arm or tom holder holds that piece.`,
    );
  const sockets = socketsOf(arm).length;
  if (carrier.socket < sockets) return null;
  return wrong(
    'unknown_socket',
    `in socket ${carrier.socket + 1} of ${quoted(arm.name)}, which holds ${quoted(holder.name)} and has ${sockets === 0 ? 'no sockets' : `${sockets}`}.`,
  );
}

/** PL-13 an arm in a platform's socket is an L-arm or a boom, and there is a platform for it. */
function platformArmProblem(context: SetupContext, at: Path, arm: string | null, platformArm: string): Problem | null {
  const misfit = gearMisfit(context, [...at, 'platformArm'], platformArm, SOCKET_ARM_KINDS);
  if (misfit) return misfit;
  const under = arm === null ? undefined : context.gear(arm);
  if (under?.kind === 'platform') return null;
  const name = quoted(context.gear(platformArm)?.name ?? platformArm);
  const what = under === undefined ? 'nothing' : quoted(under.name);
  const reason = `${name} stands in a tom holder's socket, but ${what} holds this piece: take a tom holder as its arm, or leave the tom holder's arm out.`;
  return problemAt(context.plan, at, 'wrong_gear', reason);
}

/** PL-10 to PL-13 for one item. */
function itemProblem(context: SetupContext, path: Path, item: Item): Problem | null {
  const gear = gearMisfit(context, [...path, 'gear'], item.gear, PLACEABLE_KINDS);
  if (gear) return gear;
  if (item.mount !== null) {
    const at = [...path, 'mount'];
    const { carrier, clamp, arm, platformArm = null } = item.mount;
    const wrong =
      carrierProblem(context, path, carrier, 'mount') ??
      (clamp === null ? null : gearMisfit(context, [...at, 'clamp'], clamp, ['clamp'])) ??
      (arm === null ? null : gearMisfit(context, [...at, 'arm'], arm, ARM_KINDS)) ??
      (platformArm === null ? null : platformArmProblem(context, at, arm, platformArm));
    if (wrong) return wrong;
  }
  return firstOf((item.ties ?? []).entries(), ([i, { carrier, link, clamp }]) => {
    const at = [...path, 'ties', i];
    return (
      carrierProblem(context, at, carrier, 'tie') ??
      gearMisfit(context, [...at, 'link'], link, ['link']) ??
      (clamp === null ? null : gearMisfit(context, [...at, 'clamp'], clamp, ['clamp']))
    );
  });
}

/** The items that a piece hangs on, by its mount and its ties. Racks hang on nothing. */
function holders(setup: Setup, id: string): string[] {
  const piece = own(setup.pieces, id);
  if (piece === undefined || piece.kind === 'rack') return [];
  return carriersOf(piece).flatMap((carrier) =>
    carrier.on === 'socket' || carrier.on === 'piece' ? [carrier.piece] : [],
  );
}

/** PL-14 following mounts and ties never comes back to where it began. Walks without recursion: chains may be long. */
function mountCycle({ plan, setup, path }: SetupContext): Problem | null {
  const done = new Set<string>();
  for (const start of setup.order) {
    if (done.has(start)) continue;
    const trail: { id: string; left: string[] }[] = [{ id: start, left: holders(setup, start) }];
    const onTrail = new Set([start]);
    while (trail.length > 0) {
      const top = trail[trail.length - 1];
      const next = top.left.pop();
      if (next === undefined) {
        trail.pop();
        onTrail.delete(top.id);
        done.add(top.id);
      } else if (onTrail.has(next)) {
        const ring = trail.slice(trail.findIndex((step) => step.id === next)).map((step) => step.id);
        const names = [...ring, next].map((id) => quoted(own(setup.pieces, id)?.name ?? id));
        // A long ring is told by its first few, so that the sentence stays one.
        const told = names.length > 5 ? [...names.slice(0, 3), '...', names[names.length - 1]] : names;
        const reason =
          ring.length === 1
            ? 'it is mounted on itself.'
            : `it is mounted in a ring and rests on nothing: ${told.join(' on ')}.`;
        return problemAt(plan, [...path, 'pieces', next], 'mount_cycle', reason);
      } else if (!done.has(next)) {
        trail.push({ id: next, left: holders(setup, next) });
        onTrail.add(next);
      }
    }
  }
  return null;
}

/**
 * The first thing wrong with the items of a setup and what holds them. `before`, the setup as it was when it kept every rule under
 * the same gear, and the pieces that are not as they were then, spare the items that are as they were on what they were on, and the
 * search for rings when nobody hangs otherwise.
 */
export function mountProblem(
  context: SetupContext,
  before?: { readonly setup: Setup; readonly changed: readonly string[] },
): Problem | null {
  const { pieces, order } = context.setup;
  const changed = before && new Set(before.changed);
  const isNew = (id: string) => changed?.has(id) ?? true;
  let hangsOtherwise = false;
  for (const id of order) {
    const piece = pieces[id];
    if (piece.kind === 'rack') continue;
    if (isNew(id)) {
      const old = before && own(before.setup.pieces, id);
      hangsOtherwise ||= old?.kind !== 'item' || old.mount !== piece.mount || old.ties !== piece.ties;
    } else if (!carriersOf(piece).some((carrier) => isNew(carrierPiece(carrier)))) continue;
    const wrong = itemProblem(context, [...context.path, 'pieces', id], piece);
    if (wrong) return wrong;
  }
  return hangsOtherwise ? mountCycle(context) : null;
}
