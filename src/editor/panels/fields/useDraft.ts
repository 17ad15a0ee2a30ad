/**
 * What is typed into a field and not yet taken. Enter or leaving the field takes it, Escape gives it up; what is refused stays
 * with the reason below it. Once the plan's value has moved on (undo, a drag, another piece), what was typed against the old one
 * is stale and goes.
 */
import { type KeyboardEvent, useState } from 'react';

/** `text` null: the plan's value is shown. `against`: the value that the plan had meanwhile. */
export interface Draft<T> {
  readonly against: T;
  readonly text: string | null;
  readonly refusal: string | null;
}

export const noDraft = <T>(against: T): Draft<T> => ({ against, text: null, refusal: null });
export const typed = <T>(draft: Draft<T>, text: string): Draft<T> => ({ ...draft, text });
/** After the plan was asked: refused, the text stays with the sentence; else it is taken. */
export const settled = <T>(draft: Draft<T>, refusal: string | null): Draft<T> => ({
  ...draft,
  refusal,
  text: refusal === null ? null : draft.text,
});
export const isStale = <T>(draft: Draft<T>, value: T): boolean => !Object.is(draft.against, value);

export interface DraftOptions<T> {
  /** The plan's value, and as it is shown. */
  readonly value: T;
  readonly shown: string;
  /** Takes the text; null, or the sentence why not. */
  readonly take: (text: string) => string | null;
  /** Whether a text says nothing else than the plan does already; left out: it is what is shown. A rounded value that is typed as it is shown says something. */
  readonly isSame?: (text: string) => boolean;
  /** Whether Enter is a letter of the text. */
  readonly hasLines?: boolean;
}

export function useDraft<T>({
  value,
  shown,
  take,
  isSame = (text) => text === shown,
  hasLines = false,
}: DraftOptions<T>) {
  const [held, setHeld] = useState(() => noDraft(value));
  const draft = isStale(held, value) ? noDraft(value) : held;
  if (draft !== held) setHeld(draft);
  const restore = () => setHeld(noDraft(value));
  const settle = (refusal: string | null) => {
    setHeld((now) => settled(now, refusal));
    return refusal;
  };
  const commit = () => {
    if (draft.text !== null && !isSame(draft.text)) return settle(take(draft.text));
    restore();
    return null;
  };
  return {
    /** What is typed; null where nothing is. */
    typed: draft.text,
    text: draft.text ?? shown,
    sentence: draft.refusal,
    type: (text: string) => setHeld((now) => typed(now, text)),
    settle,
    /** Null where it was taken, or nothing was typed; else why not. */
    commit,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === 'Enter' && !hasLines) commit();
      else if (event.key === 'Escape' && draft.text !== null) {
        restore();
        // Only the typing is given up, not the dialog around it.
        event.stopPropagation();
      }
    },
  };
}
