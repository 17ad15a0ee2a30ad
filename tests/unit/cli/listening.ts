/** Somebody a command talks to, who remembers. */
import type { Say } from '../../../src/cli/say.ts';

/** `heard`: all that was said so far, as the two streams of a process would hold it. */
export function listening(): { readonly say: Say; readonly heard: () => { stdout: string; stderr: string } } {
  const out: string[] = [];
  const err: string[] = [];
  const stream = (lines: readonly string[]) => lines.map((line) => `${line}\n`).join('');
  return {
    say: { out: (text) => out.push(text), err: (text) => err.push(text) },
    heard: () => ({ stdout: stream(out), stderr: stream(err) }),
  };
}
