/** What can hold a piece in a setup: bars, uprights, sockets, stands and bass drums, as choices with a place each. */

import { gearOf } from '../../../gear/catalogue.ts';
import { carrying, isArm, socketsOf, socketWord } from '../../../gear/kinds.ts';
import { pointAlong } from '../../../geometry/arcsLine.ts';
import { rackFrame } from '../../../plan/rackFrame.ts';
import type { Carrier, Item, Plan, Setup } from '../../../plan/schema.ts';
import { barName } from '../../../words/mountWords.ts';
import type { Choice } from '../fields/rows.ts';

export const ON_DECK = 'deck';

/** A carrier without its place along it: what a choice stands for. */
export function carrierKey(carrier: Carrier): string {
  switch (carrier.on) {
    case 'bar':
      return JSON.stringify(['bar', carrier.rack, carrier.bar]);
    case 'leg':
      return JSON.stringify(['leg', carrier.rack, carrier.leg]);
    case 'socket':
      return JSON.stringify(['socket', carrier.piece]);
    case 'piece':
      return JSON.stringify(['piece', carrier.piece]);
  }
}

/** Words for the sockets that the arm which holds a piece offers to others. */
export function socketsAt(plan: Plan, holder: Item): string[] {
  const arm = holder.mount?.arm ? gearOf(plan.gear, holder.mount.arm) : undefined;
  return isArm(arm) ? socketsOf(arm).map((_, socket) => socketWord(arm, socket)) : [];
}

/** Everything in the setup that could hold `item`, grouped by what it is part of. */
export function carrierChoices(plan: Plan, setup: Setup, item: Item): Choice[] {
  const choices: Choice[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece.kind === 'rack') {
      piece.spans.forEach((span, s) => {
        span.bars.forEach((bar, b) => {
          choices.push({
            id: JSON.stringify(['bar', id, bar.id]),
            label: `${piece.name}, ${barName(piece.spans.length, s, b, span.bars.length)}`,
            group: piece.name,
          });
        });
      });
      piece.legs.forEach((leg, i) => {
        choices.push({
          id: JSON.stringify(['leg', id, leg.id]),
          label: `${piece.name}, leg ${i + 1}`,
          group: piece.name,
        });
      });
      continue;
    }
    if (id === item.id) continue;
    const gear = gearOf(plan.gear, piece.gear);
    if (carrying(gear) !== null)
      choices.push({ id: JSON.stringify(['piece', id]), label: piece.name, group: 'Stands and bass drums' });
    if (socketsAt(plan, piece).length > 0)
      choices.push({
        id: JSON.stringify(['socket', id]),
        label: `socket at ${piece.name}`,
        group: 'Sockets of other arms',
      });
  }
  return choices;
}

/** How finely a bar is walked for the place nearest to a piece, mm; the user sets the rest. */
const WALK_MM = 5;

/** The carrier a choice stands for, at the place on it nearest to the piece. Null for a choice that is gone. */
export function carrierFrom(key: string, setup: Setup, item: Item): Carrier | null {
  const [on, first, second] = JSON.parse(key) as [string, string, string | undefined];
  const holder = setup.pieces[first];
  if (holder === undefined) return null;
  if (on === 'piece') return { on: 'piece', piece: first };
  if (on === 'socket') return { on: 'socket', piece: first, socket: 0 };
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
