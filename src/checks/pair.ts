/** Two bodies and how near they are: what the check of clearances finds, lists and judges. */
import type { Body } from '../layout/body.ts';
import type { InSpace } from './spaceGaps.ts';

export interface PairReading {
  readonly a: Body;
  readonly b: Body;
  readonly gap: number;
  readonly required: number;
  /** Where it was measured in space; null: the gap of the two outlines in plan. */
  readonly space: InSpace | null;
  /** They are joined, or parts of one rack: `gap` says whether they run into each other away from the joint. */
  readonly joined?: true;
}
