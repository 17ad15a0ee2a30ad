/** The four states of a finding: their order, worst first, their words and what each means. */
import { STATE_ORDER, type State } from '../checks/codes.ts';

export { STATE_ORDER as STATES };

export const STATE_WORDS: Readonly<Record<State, string>> = {
  blocked: 'Blocked',
  tight: 'Tight',
  unmeasured: 'Unmeasured',
  clear: 'Clear',
};

/** `2 blocked, 1 tight`, the worst first; `all clear`. */
export function stateText(counts: Readonly<Record<State, number>>): string {
  const parts = STATE_ORDER.filter((state) => state !== 'clear' && counts[state] > 0);
  return parts.map((state) => `${counts[state]} ${state}`).join(', ') || 'all clear';
}

/** What each state means, for tooltips and the help page. */
export const STATE_MEANS: Readonly<Record<State, string>> = {
  blocked: 'it cannot be so: something touches, ends or does not reach',
  tight: 'it works, with less room than you asked for',
  unmeasured: 'a size or mass is missing',
  clear: 'it has the room you asked for',
};
