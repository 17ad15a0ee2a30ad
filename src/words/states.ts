/** The four states of a finding: their order, worst first, their words and what each means. */
import type { State } from '../checks/finding.ts';

export { STATE_ORDER as STATES } from '../checks/codes.ts';

export const STATE_WORDS: Readonly<Record<State, string>> = {
  blocked: 'Blocked',
  tight: 'Tight',
  unmeasured: 'Unmeasured',
  clear: 'Clear',
};

/** What each state means, for tooltips and the help page. */
export const STATE_MEANS: Readonly<Record<State, string>> = {
  blocked: 'it cannot be so: something touches, ends or does not reach',
  tight: 'it works, with less room than you asked for',
  unmeasured: 'a size or mass is missing',
  clear: 'it has the room you asked for',
};
