/** Where a command's words go. The process gives its two streams; a test, two lists. */
export interface Say {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

export const TO_CONSOLE: Say = { out: (text) => console.log(text), err: (text) => console.error(text) };

/** Says why nothing was done. Returns the exit status for that: 2. */
export function fail(say: Say, sentence: string): number {
  say.err(sentence);
  return 2;
}
