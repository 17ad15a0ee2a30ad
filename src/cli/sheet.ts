/**
 * npm run sheet -- FILE --setup NAME --kind KIND -o OUT.(pdf|svg|png|dxf|csv)     (all of it: USAGE in sheetOrder.ts)
 *
 * Exit status: 0 written, 2 not written.
 */
import { TO_CONSOLE } from './say.ts';
import { sheetCommand } from './sheetCommand.ts';

process.exitCode = await sheetCommand(process.argv.slice(2), TO_CONSOLE);
