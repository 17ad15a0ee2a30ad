/** A moment as the user's own calendar and clock write it. */
export const when = (keptAt: number): string =>
  new Date(keptAt).toLocaleString(undefined, { dateStyle: 'short', timeStyle: 'short' });
