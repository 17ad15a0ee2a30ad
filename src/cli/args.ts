/** Reads a command line: one FILE, flags with a value, flags without. */
import { parseArgs } from 'node:util';
import type { Answer } from './say.ts';

type Values = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

/** `multiple`: may be given several times, and its value is a list. */
export type Flags = Readonly<
  Record<string, { readonly type: 'string' | 'boolean'; readonly short?: string; readonly multiple?: boolean }>
>;

/** usage: shown after the sentence when the words do not fit. */
export function readArgs(
  argv: readonly string[],
  flags: Flags,
  usage: string,
): Answer<{ file: string; values: Values }> {
  try {
    const { values, positionals } = parseArgs({ args: [...argv], options: { ...flags }, allowPositionals: true });
    if (positionals.length !== 1)
      return { ok: false, sentence: `One plan file is wanted, and ${positionals.length} were named. ${usage}` };
    return { ok: true, file: positionals[0], values: values as Values };
  } catch (problem) {
    return { ok: false, sentence: `${(problem as Error).message.split('. ')[0]}. ${usage}` };
  }
}
