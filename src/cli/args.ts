/** Reads a command line: one FILE, flags with a value, flags without. */
import { parseArgs } from 'node:util';

export type Args =
  | {
      readonly ok: true;
      readonly file: string;
      readonly values: Readonly<Record<string, string | boolean | readonly string[] | undefined>>;
    }
  | { readonly ok: false; readonly sentence: string };

/** `multiple`: may be given several times, and its value is a list. */
export type Flags = Readonly<
  Record<string, { readonly type: 'string' | 'boolean'; readonly short?: string; readonly multiple?: boolean }>
>;

/** usage: shown after the sentence when the words do not fit. */
export function readArgs(argv: readonly string[], flags: Flags, usage: string): Args {
  try {
    const { values, positionals } = parseArgs({ args: [...argv], options: { ...flags }, allowPositionals: true });
    if (positionals.length !== 1)
      return { ok: false, sentence: `One plan file is wanted, and ${positionals.length} were named. ${usage}` };
    return { ok: true, file: positionals[0], values: values as Extract<Args, { ok: true }>['values'] };
  } catch (problem) {
    return { ok: false, sentence: `${(problem as Error).message.split('. ')[0]}. ${usage}` };
  }
}
