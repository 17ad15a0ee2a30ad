/** Which parts one setup needs more or fewer of than another: what is bought, packed or left at home. */
import { type PartRow, partKey } from '../../../checks/parts.ts';

export interface PartDifference {
  readonly key: string;
  readonly row: PartRow;
  /** How many more (+) or fewer (-) the second setup has. */
  readonly more: number;
}

export function partDifferences(from: readonly PartRow[], to: readonly PartRow[]): PartDifference[] {
  const before = new Map(from.map((row) => [partKey(row), row]));
  const differences: PartDifference[] = [];
  for (const row of to) {
    const key = partKey(row);
    const more = row.count - (before.get(key)?.count ?? 0);
    before.delete(key);
    if (more !== 0) differences.push({ key, row, more });
  }
  for (const [key, row] of before) differences.push({ key, row, more: -row.count });
  return differences;
}
