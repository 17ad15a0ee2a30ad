/** Which of the two looks is shown: the user's choice, or what the system prefers. Written on the root element, for the style sheets. */
import { useEffect } from 'react';
import { type Editor, type Theme, useEditor } from './store.ts';
import { useMedia } from './useMedia.ts';

export type Look = 'light' | 'dark';

const KEPT = 'legroom-look';

/** A browser that keeps nothing (a private window) forgets the look as well. */
function read(): Theme {
  try {
    const kept = localStorage.getItem(KEPT);
    return kept === 'light' || kept === 'dark' ? kept : 'system';
  } catch {
    return 'system';
  }
}

function keep(theme: Theme): void {
  try {
    localStorage.setItem(KEPT, theme);
  } catch {
    // As above: the look holds until the page is closed.
  }
}

/** Takes the look of the last visit into the editor, before anything is painted. */
export const restoreLook = (editor: Editor): void => editor.set({ theme: read() });

export function useLook(editor: Editor): Look {
  const theme = useEditor(editor, (state) => state.theme);
  const systemIsDark = useMedia('(prefers-color-scheme: dark)');
  const look: Look = theme === 'system' ? (systemIsDark ? 'dark' : 'light') : theme;
  useEffect(() => {
    document.documentElement.dataset.look = look;
    document
      .querySelector('meta[name="theme-color"]')
      ?.setAttribute('content', look === 'dark' ? '#171a1d' : '#f6f5f1');
  }, [look]);
  useEffect(() => keep(theme), [theme]);
  return look;
}
