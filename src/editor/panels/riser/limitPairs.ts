/** The two kinds of a pair's name in the plan, `pedal+stand`; null for a name that is none. */
export function splitPair(key: string): readonly [string, string] | null {
  const parts = key.split('+');
  return parts.length === 2 && parts[0] !== '' && parts[1] !== '' ? [parts[0], parts[1]] : null;
}
