/** Where a command's words go. The process gives its two streams; a test, two lists. */
export interface Say {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

export const TO_CONSOLE: Say = { out: (text) => console.log(text), err: (text) => console.error(text) };

/** What was asked for, or a sentence why there is none. */
export type Answer<T> = ({ readonly ok: true } & Readonly<T>) | { readonly ok: false; readonly sentence: string };

/** Says why nothing was done. Returns the exit status for that: 2. */
export function fail(say: Say, sentence: string): number {
  say.err(sentence);
  return 2;
}
