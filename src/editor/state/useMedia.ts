/** What the browser says of its window or its user's wishes, and goes on saying. */
import { useSyncExternalStore } from 'react';

/** `query`: a media query, such as `(max-width: 720px)`. */
export const useMedia = (query: string): boolean =>
  useSyncExternalStore(
    (listener) => {
      const media = window.matchMedia(query);
      media.addEventListener('change', listener);
      return () => media.removeEventListener('change', listener);
    },
    () => window.matchMedia(query).matches,
  );
