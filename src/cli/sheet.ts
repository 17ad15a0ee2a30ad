/**
 * npm run sheet -- FILE --setup NAME --kind KIND -o OUT.(pdf|svg|png|dxf|csv)     (all of it: USAGE in sheetOrder.ts)
 *
 * Exit status: 0 written, 2 not written, 3 the program failed.
 */
import { startCommand } from './say.ts';
import { sheetCommand } from './sheetCommand.ts';

await startCommand(sheetCommand);
