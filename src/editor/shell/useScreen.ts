/** Which of three layouts the window has room for. */
import { useSyncExternalStore } from 'react';

export type Screen = 'desk' | 'tablet' | 'phone';

const PHONE = '(max-width: 720px)';
const TABLET = '(max-width: 1180px)';

function screenNow(): Screen {
  if (window.matchMedia(PHONE).matches) return 'phone';
  return window.matchMedia(TABLET).matches ? 'tablet' : 'desk';
}

function subscribe(listener: () => void): () => void {
  const queries = [PHONE, TABLET].map((query) => window.matchMedia(query));
  for (const query of queries) query.addEventListener('change', listener);
  return () => {
    for (const query of queries) query.removeEventListener('change', listener);
  };
}

export const useScreen = (): Screen => useSyncExternalStore(subscribe, screenNow);
