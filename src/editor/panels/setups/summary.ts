/** One setup as the strip and the comparison see it. */
import type { Finding } from '../../../checks/finding.ts';
import type { Picture } from './picture.ts';
import type { SetupReadings } from './readingRows.ts';

export interface SetupSummary {
  readonly id: string;
  readonly name: string;
  readonly picture: Picture;
  /** Outlines of the deck, each x0, y0, x1, y1 ... in mm. */
  readonly deck: readonly (readonly number[])[];
  readonly readings: SetupReadings;
  readonly findings: readonly Finding[];
}
