/** Where a command's words go. The process gives its two streams; a test, two lists. */
export interface Say {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** Control characters but tab and line feed, and those that turn the direction of what follows. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const COMMANDS = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g;

/** A plan's texts are a stranger's: what would command a terminal is written as JSON writes it, which leaves JSON what it is. */
export const harmless = (text: string): string =>
  text.replace(COMMANDS, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

const TO_CONSOLE: Say = { out: (text) => console.log(harmless(text)), err: (text) => console.error(harmless(text)) };

/** The program itself failed: 1 and 2 are answers. */
const CRASHED = 3;

/** A command as a process. What reads its words may go away meanwhile (`| head`): then it ends without a word. */
export async function startCommand(
  command: (argv: readonly string[], say: Say) => number | Promise<number>,
): Promise<void> {
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', ({ code }: NodeJS.ErrnoException) =>
      process.exit(code === 'EPIPE' ? process.exitCode : CRASHED),
    );
  try {
    process.exitCode = await command(process.argv.slice(2), TO_CONSOLE);
  } catch (problem) {
    TO_CONSOLE.err(`Legroom failed at this: ${problem instanceof Error ? problem.message : String(problem)}`);
    process.exitCode = CRASHED;
  }
}

/** What was asked for, or a sentence why there is none. */
export type Answer<T> = ({ readonly ok: true } & Readonly<T>) | { readonly ok: false; readonly sentence: string };

/** Says why nothing was done. Returns the exit status for that: 2. */
export function fail(say: Say, sentence: string): number {
  say.err(sentence);
  return 2;
}
