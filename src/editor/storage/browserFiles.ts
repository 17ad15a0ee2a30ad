/** Files and the stock list as this browser has them: what panels are given (state/files.ts). */
import type { Files } from '../state/files.ts';
import { download, pickPlanFile, savePlanFile } from './planFile.ts';
import { browserStockStore } from './stockStore.ts';

export const browserFiles: Files = {
  pick: pickPlanFile,
  save: savePlanFile,
  download,
  stock: browserStockStore(),
};
