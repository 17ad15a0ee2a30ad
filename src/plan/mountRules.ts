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
import { own, type Path, type Problem, problemAt, quoted } from './places.ts';
import { gearMisfit, mmWords } from './rackRules.ts';
import type { Bar, Carrier, Item, Plan, Rack, Setup } from './schema.ts';

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

/** A rack's bar by id, in whichever span it is. */
export function barOf(rack: Rack, id: string): Bar | undefined {
  for (const span of rack.spans) for (const bar of span.bars) if (bar.id === id) return bar;
  return undefined;
}

/** PL-11 and PL-12: the carrier is there, and the clamp lies on it. */
function carrierProblem(context: SetupContext, path: Path, carrier: Carrier, holds: 'mount' | 'tie'): Problem | null {
  const { plan, setup } = context;
  const wrong = (code: string, reason: string) => problemAt(plan, path, code, reason);
  if (carrier.on === 'bar' || carrier.on === 'leg') {
    const rack = own(setup.pieces, carrier.rack);
    if (rack === undefined)
      return wrong('unknown_carrier', `the ${holds} is on rack ${quoted(carrier.rack)}, which is not in this setup.`);
    if (rack.kind !== 'rack')
      return wrong(
        'unknown_carrier',
        `the ${holds} is on ${quoted(rack.name)}, which is not a rack and has no ${carrier.on}s.`,
      );
    if (carrier.on === 'bar') {
      const bar = barOf(rack, carrier.bar);
      if (bar === undefined)
        return wrong(
          'unknown_carrier',
          `the ${holds} is on bar ${quoted(carrier.bar)} of ${quoted(rack.name)}, which has no such bar.`,
        );
      if (carrier.atMm <= bar.cutLengthMm) return null;
      return wrong(
        'clamp_off_tube',
        `its clamp is ${mmWords(carrier.atMm)} along bar ${quoted(bar.id)} of ${quoted(rack.name)}, off the end of that tube, which is ${mmWords(bar.cutLengthMm)} long.`,
      );
    }
    const leg = rack.legs.find((each) => each.id === carrier.leg);
    if (leg === undefined)
      return wrong(
        'unknown_carrier',
        `the ${holds} is on leg ${quoted(carrier.leg)} of ${quoted(rack.name)}, which has no such leg.`,
      );
    if (carrier.heightMm <= leg.lengthMm) return null;
    return wrong(
      'clamp_off_tube',
      `its clamp is at a height of ${mmWords(carrier.heightMm)} on leg ${quoted(leg.id)} of ${quoted(rack.name)}, above the top of that upright at ${mmWords(leg.lengthMm)}.`,
    );
  }
  const holder = own(setup.pieces, carrier.piece);
  if (holder === undefined)
    return wrong('unknown_carrier', `the ${holds} is on piece ${quoted(carrier.piece)}, which is not in this setup.`);
  if (holder.kind === 'rack')
    return wrong('unknown_carrier', `the ${holds} is on rack ${quoted(holder.name)} without saying which bar or leg.`);
  if (carrier.on === 'piece') {
    const gear = context.gear(holder.gear);
    if (gear === undefined || carrying(gear) !== null) return null;
    return wrong('unknown_carrier', `the ${holds} is on ${quoted(holder.name)}, which is neither ${CARRYING_WORDS}.`);
  }
  const arm = holder.mount?.arm ? context.gear(holder.mount.arm) : undefined;
  if (!isArm(arm))
    return wrong(
      'unknown_socket',
      `the ${holds} is in a socket of what holds ${quoted(holder.name)}, but no arm or platform holds that piece.`,
    );
  const sockets = socketsOf(arm).length;
  if (carrier.socket < sockets) return null;
  return wrong(
    'unknown_socket',
    `the ${holds} is in socket ${carrier.socket + 1} of ${quoted(arm.name)}, which holds ${quoted(holder.name)} and has ${sockets === 0 ? 'no sockets' : `${sockets}`}.`,
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
  const reason = `${name} stands in a platform's socket, but ${what} holds this piece: take a platform as its arm, or leave the platform's arm out.`;
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
  for (const [i, tie] of (item.ties ?? []).entries()) {
    const at = [...path, 'ties', i];
    const wrong =
      carrierProblem(context, at, tie.carrier, 'tie') ??
      gearMisfit(context, [...at, 'link'], tie.link, ['link']) ??
      (tie.clamp === null ? null : gearMisfit(context, [...at, 'clamp'], tie.clamp, ['clamp']));
    if (wrong) return wrong;
  }
  return null;
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

const holderId = (carrier: Carrier) => (carrier.on === 'bar' || carrier.on === 'leg' ? carrier.rack : carrier.piece);

const carriersOf = ({ mount, ties = [] }: Item): Carrier[] => [
  ...(mount ? [mount.carrier] : []),
  ...ties.map((tie) => tie.carrier),
];

/**
 * The first thing wrong with the items of a setup and what holds them. `before`, the setup as it was when it kept every rule under
 * the same gear, spares the items that are as they were on what they were on, and the search for rings when nobody hangs otherwise.
 */
export function mountProblem(context: SetupContext, before?: Setup): Problem | null {
  const { pieces } = context.setup;
  const was = (id: string) => before && own(before.pieces, id);
  const isSame = (id: string) => was(id) === pieces[id];
  let hangsOtherwise = before === undefined;
  for (const id of context.setup.order) {
    const piece = pieces[id];
    if (piece.kind === 'rack') continue;
    const old = was(id);
    hangsOtherwise ||= old?.kind !== 'item' || old.mount !== piece.mount || old.ties !== piece.ties;
    if (old === piece && carriersOf(piece).every((carrier) => isSame(holderId(carrier)))) continue;
    const wrong = itemProblem(context, [...context.path, 'pieces', id], piece);
    if (wrong) return wrong;
  }
  return hangsOtherwise ? mountCycle(context) : null;
}
