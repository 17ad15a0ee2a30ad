/** Which of three layouts the window has room for. */
import { useMedia } from '../state/useMedia.ts';

export type Screen = 'desk' | 'tablet' | 'phone';

export function useScreen(): Screen {
  const isPhone = useMedia('(max-width: 720px)');
  const isSmall = useMedia('(max-width: 1180px)');
  return isPhone ? 'phone' : isSmall ? 'tablet' : 'desk';
}
