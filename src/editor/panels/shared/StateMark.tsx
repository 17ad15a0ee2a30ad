/** A finding's state as a shape, for whoever cannot tell its colour. The word stands beside it, or is spoken. */
import type { State } from '../../../checks/finding.ts';
import { STATE_WORDS } from '../../../words/states.ts';

export function StateMark({ state, spoken = false }: { readonly state: State; readonly spoken?: boolean }) {
  return (
    <svg
      className={`state-mark state-${state}`}
      viewBox="0 0 16 16"
      width="16"
      height="16"
      role={spoken ? 'img' : undefined}
      aria-label={spoken ? STATE_WORDS[state] : undefined}
      aria-hidden={spoken ? undefined : true}
    >
      {SHAPES[state]}
    </svg>
  );
}

const SHAPES: Readonly<Record<State, React.ReactNode>> = {
  // An octagon with a bar: stop.
  blocked: (
    <>
      <path className="state-fill" d="M5 1h6l4 4v6l-4 4H5l-4-4V5z" />
      <path className="state-cut" d="M4.5 8h7" />
    </>
  ),
  // A triangle: take care.
  tight: (
    <>
      <path className="state-fill" d="M8 1.5 15.2 14.5H.8z" />
      <path className="state-cut" d="M8 6v4M8 12v.6" />
    </>
  ),
  // An open, broken ring: nothing is known.
  unmeasured: <circle className="state-line" cx="8" cy="8" r="6" strokeDasharray="3 2.2" />,
  // A disc with a tick.
  clear: (
    <>
      <circle className="state-fill" cx="8" cy="8" r="7" />
      <path className="state-cut" d="m4.8 8.2 2.2 2.3 4.2-4.7" />
    </>
  ),
};
