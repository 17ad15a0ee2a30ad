/** Proposed mounts in words. */

import { gearOf } from '../gear/catalogue.ts';
import { barsOf, carrierPiece } from '../plan/carriers.ts';
import type { Carrier, Item, Plan, Setup } from '../plan/schema.ts';
import type { MountProposal, MountSearch } from '../solve/proposeMount.ts';
import { formatLength } from '../units.ts';

/** The names of a rack's bars and legs, counted from its start: `bar 2 of span 1`, `leg 3`. */
export function barName(spanCount: number, span: number, bar: number, barsInSpan: number): string {
  const place = spanCount === 1 ? '' : `span ${span + 1}, `;
  return barsInSpan === 1 && spanCount > 1 ? `bar of span ${span + 1}` : `${place}bar ${bar + 1}`;
}

/** `Left rack, bar 1`, `Left rack, leg 2`, `a socket at Tom 1`. */
function carrierWords(setup: Setup, carrier: Carrier): string {
  const holder = setup.pieces[carrierPiece(carrier)];
  if (holder === undefined) return 'what is not there any more';
  if (carrier.on === 'socket') return `a socket at ${holder.name}`;
  if (carrier.on === 'piece' || holder.kind !== 'rack') return holder.name;
  if (carrier.on === 'leg') return `${holder.name}, leg ${holder.legs.findIndex(({ id }) => id === carrier.leg) + 1}`;
  const found = barsOf(holder).find(({ bar }) => bar.id === carrier.bar);
  if (!found) return holder.name;
  return `${holder.name}, ${barName(holder.spans.length, found.span, found.index, holder.spans[found.span].bars.length)}`;
}

/** `Mount Rack tom on Left rack, bar 1, with L-arm, short?`; a stand needs no arm. */
export function offerWords(setup: Setup, item: Item, { mount, arm }: MountProposal): string {
  if (mount.arm === null) return `Put ${item.name} on ${carrierWords(setup, mount.carrier)}?`;
  return `Mount ${item.name} on ${carrierWords(setup, mount.carrier)}, with ${arm.name}?`;
}

/** What was found, once it is done. */
export function doneWords({ mount, arm, clamp, reach }: MountProposal, plan: Plan, setup: Setup): string {
  if (mount.arm === null) return `It is on ${carrierWords(setup, mount.carrier)}.`;
  const held = clamp === null ? arm.name : `${arm.name} in ${clamp.name}`;
  return `${held}: reaches, with ${formatLength(reach.leftMm, plan.units)} to spare.`;
}

/** Why there is no mount for a piece. */
export function whyNot(search: MountSearch & { readonly ok: false }, plan: Plan, setup: Setup, item: Item): string {
  switch (search.code) {
    case 'not_held_by_arms':
      return `${gearOf(plan.gear, item.gear)?.name ?? item.name} is not held by an arm: drums and cymbals are.`;
    case 'holds_others':
      return `Other pieces hang in sockets of what holds ${item.name}: mount those elsewhere first.`;
    case 'nothing_carries':
      return 'There is no rack and no free socket in this setup to mount it on.';
    case 'no_room':
      return 'No tube has room for a clamp that fits it.';
    case 'runs_into': {
      const into =
        search.struck === item.id ? `${item.name} itself` : (setup.pieces[search.struck]?.name ?? search.struck);
      return `Every arm that reaches it runs into something: from ${carrierWords(setup, search.carrier)}, into ${into}. Move one of them.`;
    }
    case 'too_far': {
      const short = formatLength(search.shortMm, plan.units);
      return `No arm reaches it. The nearest misses by ${short}, from ${carrierWords(setup, search.carrier)}.`;
    }
  }
}
