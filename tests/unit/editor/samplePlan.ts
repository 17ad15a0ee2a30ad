/** The text of the sample that a first visit shows. */
import { readFileSync } from 'node:fs';

export const samplePlanText = (): string =>
  readFileSync(new URL('../../../samples/one-up-two-down.legroom.json', import.meta.url), 'utf8');
