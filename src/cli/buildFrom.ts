/**
 * npm run build-from -- PLAN --stock STOCK [--setup NAME] [--json]
 *
 * Can this setup be built from what is owned? What is cut, what stands in for what, what is missing and what would have to
 * move. Exit status: 0 it can, 1 something is missing, 2 a file could not be read, 3 the program failed.
 */
import { buildFromCommand } from './buildFromCommand.ts';
import { startCommand } from './say.ts';

await startCommand(buildFromCommand);
