/**
 * npm run measure -- FILE [--setup NAME] [--against NAME] [--turn DEGREES] [--json]
 *
 * Prints what the page shows. With --turn: how far from facing the audience the best place on a riser may turn the kit. With --against: also what differs from that setup to the one measured. Exit status: 0 no blocked finding, 1 some, 2 the file could not be read, 3 the program failed.
 */
import { measureCommand } from './measureCommand.ts';
import { startCommand } from './say.ts';

await startCommand(measureCommand);
