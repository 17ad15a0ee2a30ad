/** Asks before a new version of the page takes over: never in the middle of somebody's work. */

import { useSyncExternalStore } from 'react';
import { TextButton } from '../panels/shared/TextButton.tsx';
import { takeUpdate, updateWaits, watchUpdates } from './worker/register.ts';

export function UpdateNotice() {
  const waits = useSyncExternalStore(watchUpdates, updateWaits);
  if (!waits) return null;
  return (
    <div className="update-notice" role="status">
      <span>A newer version of Legroom is ready. Your plan is kept.</span>
      <TextButton look="main" onPress={takeUpdate}>
        Load it
      </TextButton>
    </div>
  );
}
