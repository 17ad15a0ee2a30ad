/** What can hold a piece in a setup: bars, uprights, sockets, stands and bass drums, as choices with a place each. */

import { gearOf } from '../../../gear/catalogue.ts';
import { socketMisfit } from '../../../gear/fits.ts';
import { carrying, isArm, socketsOf, socketWord } from '../../../gear/kinds.ts';
import { pointAlong } from '../../../geometry/arcsLine.ts';
import { rackFrame } from '../../../plan/rackFrame.ts';
import type { Carrier, Item, Plan, Setup } from '../../../plan/schema.ts';
import { barName } from '../../../words/mountWords.ts';
import type { Choice } from '../fields/rows.ts';

export const ON_DECK = 'deck';

/** A carrier without its place along it: what a choice stands for. */
const keyOf = (on: Carrier['on'], ...ids: readonly string[]): string => JSON.stringify([on, ...ids]);

export function carrierKey(carrier: Carrier): string {
  if (carrier.on === 'bar') return keyOf('bar', carrier.rack, carrier.bar);
  if (carrier.on === 'leg') return keyOf('leg', carrier.rack, carrier.leg);
  return keyOf(carrier.on, carrier.piece);
}

/** Words for the sockets that the arm which holds a piece offers to others. */
export function socketsAt(plan: Plan, holder: Item): string[] {
  const arm = holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  return isArm(arm) ? socketsOf(arm).map((_, socket) => socketWord(arm, socket)) : [];
}

/** Everything in the setup that could hold `item`, grouped by what it is part of. */
export function carrierChoices(plan: Plan, setup: Setup, item: Item): Choice[] {
  const choices: Choice[] = [];
  const add = (id: string, label: string, group: string): void => {
    choices.push({ id, label, group });
  };
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    const { name } = piece;
    if (piece.kind === 'rack') {
      piece.spans.forEach((span, s) => {
        span.bars.forEach((bar, b) => {
          add(keyOf('bar', id, bar.id), `${name}, ${barName(piece.spans.length, s, b, span.bars.length)}`, name);
        });
      });
      piece.legs.forEach((leg, i) => {
        add(keyOf('leg', id, leg.id), `${name}, leg ${i + 1}`, name);
      });
      continue;
    }
    if (id === item.id) continue;
    if (carrying(gearOf(plan.gear, piece.gear)) !== null) add(keyOf('piece', id), name, 'Stands and bass drums');
    if (socketsAt(plan, piece).length > 0) add(keyOf('socket', id), `socket at ${name}`, 'Sockets of other arms');
  }
  return choices;
}

/** How finely a bar is walked for the place nearest to a piece, mm; the user sets the rest. */
const WALK_MM = 5;

/** The first socket at a holder that nobody is in and that takes the piece's arm; with no arm yet, one for such pieces. 0: none is left. */
function firstSocket(plan: Pick<Plan, 'gear'>, setup: Setup, holder: string, item: Item): number {
  const at = setup.pieces[holder];
  const under = at?.kind === 'item' && at.mount?.arm ? gearOf(plan.gear, at.mount.arm) : undefined;
  const sockets = isArm(under) ? socketsOf(under) : [];
  const others = new Set(
    Object.values(setup.pieces).flatMap((one) =>
      one.kind === 'item' &&
      one.id !== item.id &&
      one.mount?.carrier.on === 'socket' &&
      one.mount.carrier.piece === holder
        ? [one.mount.carrier.socket]
        : [],
    ),
  );
  const arm = item.mount?.arm ? gearOf(plan.gear, item.mount.arm) : undefined;
  const isDrum = gearOf(plan.gear, item.gear)?.kind === 'drum';
  const fits = (k: number) =>
    isArm(arm) ? socketMisfit(sockets[k], arm) === null : (sockets[k].use === 'tom') === isDrum;
  const free = [...sockets.keys()].filter((k) => !others.has(k));
  return free.find(fits) ?? free[0] ?? 0;
}

/** The carrier a choice stands for, at the place on it nearest to the piece. Null for a choice that is gone. */
export function carrierFrom(key: string, plan: Pick<Plan, 'gear'>, setup: Setup, item: Item): Carrier | null {
  const [on, first, second] = JSON.parse(key) as [string, string, string | undefined];
  const holder = setup.pieces[first];
  if (holder === undefined) return null;
  if (on === 'piece') return { on: 'piece', piece: first };
  if (on === 'socket') return { on: 'socket', piece: first, socket: firstSocket(plan, setup, first, item) };
  if (holder.kind !== 'rack' || second === undefined) return null;
  if (on === 'leg') {
    const leg = holder.legs.find(({ id }) => id === second);
    return leg === undefined ? null : { on: 'leg', rack: first, leg: second, heightMm: Math.round(leg.lengthMm * 0.8) };
  }
  const bar = rackFrame(holder).bars.find(({ id }) => id === second);
  if (bar === undefined) return null;
  let atMm = bar.lengthMm / 2;
  let nearest = Number.POSITIVE_INFINITY;
  for (let at = 0; at <= bar.lengthMm; at += WALK_MM) {
    const { x, y } = pointAlong(bar.line, at);
    const distance = Math.hypot(x - item.place.xMm, y - item.place.yMm);
    if (distance < nearest) {
      nearest = distance;
      atMm = at;
    }
  }
  return { on: 'bar', rack: first, bar: second, atMm };
}
