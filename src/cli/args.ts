/** Reads a command line: one FILE, flags with a value, flags without. */
import { parseArgs } from 'node:util';

export type Args =
  | {
      readonly ok: true;
      readonly file: string;
      readonly values: Readonly<Record<string, string | boolean | undefined>>;
    }
  | { readonly ok: false; readonly sentence: string };

export type Flags = Readonly<Record<string, { readonly type: 'string' | 'boolean'; readonly short?: string }>>;

/** usage: shown after the sentence when the words do not fit. */
export function readArgs(argv: readonly string[], flags: Flags, usage: string): Args {
  try {
    const { values, positionals } = parseArgs({ args: [...argv], options: { ...flags }, allowPositionals: true });
    if (positionals.length !== 1)
      return { ok: false, sentence: `One plan file is wanted, and ${positionals.length} were named. ${usage}` };
    return { ok: true, file: positionals[0], values: values as Record<string, string | boolean | undefined> };
  } catch (problem) {
    return { ok: false, sentence: `${(problem as Error).message.split('. ')[0]}. ${usage}` };
  }
}
