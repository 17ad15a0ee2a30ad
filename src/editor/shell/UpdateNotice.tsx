/** Asks before a new version of the page takes over: never in the middle of somebody's work. */

import { useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import { TextButton } from '../panels/shared/TextButton.tsx';
import { takeUpdate, updateWaits, watchUpdates } from './worker/register.ts';
import { useWorkplace } from './workplace.ts';

export function UpdateNotice() {
  const waits = useSyncExternalStore(watchUpdates, updateWaits);
  const isKept = useStore(useWorkplace().session.state, ({ kept }) => kept !== 'failed');
  if (!waits) return null;
  return (
    <div className="update-notice" role="status">
      <span>
        A newer version of Legroom is ready. {isKept ? 'Your plan is safe.' : 'Save your plan to a file first.'}
      </span>
      <TextButton look="main" onPress={takeUpdate}>
        Load it
      </TextButton>
    </div>
  );
}
