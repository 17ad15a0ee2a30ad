/** Refusals as one clear sentence each, for the page and the command line. */
import type { Named, Refusal } from './commands/rule.ts';
import { quoted } from './places.ts';

const THINGS: Readonly<Record<Named, string>> = {
  setup: 'setup',
  piece: 'piece',
  riser: 'riser',
  stage: 'stage',
  drummer: 'drummer',
  leg: 'leg',
  bar: 'bar',
  span: 'span',
  gear: 'gear entry of its own',
};

export function refusalSentence(refusal: Refusal): string {
  switch (refusal.code) {
    case 'unknown':
      return `${refusal.where === '' ? 'The plan' : quoted(refusal.where)} has no ${THINGS[refusal.what]} ${quoted(refusal.id)}.`;
    case 'id_taken':
      return `There is a ${THINGS[refusal.what]} with the id ${quoted(refusal.id)} already.`;
    case 'id_unusable':
      return refusal.id === '' ? 'An id cannot be empty.' : `${quoted(refusal.id)} cannot be used as an id.`;
    case 'not_a_rack':
      return `${quoted(refusal.piece)} is not a rack.`;
    case 'not_an_item':
      return `${quoted(refusal.piece)} is a rack: its parts are changed one by one.`;
    case 'piece_locked':
      return `${quoted(refusal.piece)} is locked: unlock it first.`;
    case 'last_setup':
      return `${quoted(refusal.setup)} is the only setup of this plan, and a plan needs one.`;
    case 'last_bar':
      return `It is the only bar between those two legs of ${quoted(refusal.rack)}: remove a leg instead, or the rack.`;
    case 'two_legs_left':
      return `${quoted(refusal.rack)} has only two legs, and a rack needs two: remove the rack instead.`;
    case 'inner_leg':
      return `That leg of ${quoted(refusal.rack)} stands between two others: only an end leg can be taken away.`;
    case 'no_direction':
      return `That is the leg which ${quoted(refusal.rack)} turns about: drag farther away from it.`;
    case 'order_differs':
      return `The new order must name every ${refusal.what} once.`;
    case 'gear_in_use':
      return `${quoted(refusal.gear)} is used by piece ${quoted(refusal.piece)} in setup ${quoted(refusal.setup)}: change that first.`;
    case 'socket_lost':
      return `${quoted(refusal.piece)} is in a socket of what holds ${quoted(refusal.of)}, and ${quoted(refusal.arm)} has none left that takes it: mount it elsewhere first.`;
    case 'nothing_asked':
      return 'Nothing was asked for.';
    case 'breaks_plan':
      return refusal.problem.sentence;
  }
}
