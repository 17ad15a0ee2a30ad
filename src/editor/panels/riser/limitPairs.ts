/** A pair of kinds as the plan names it: both words sorted, a plus between, so that each pair has one name. */
export const pairKey = (a: string, b: string): string => [a, b].sort().join('+');

export function splitPair(key: string): readonly [string, string] | null {
  const parts = key.split('+');
  return parts.length === 2 && parts[0] !== '' && parts[1] !== '' ? [parts[0], parts[1]] : null;
}
