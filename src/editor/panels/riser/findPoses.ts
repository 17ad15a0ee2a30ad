/** The page's side of the search for the best place on a riser: in a worker, with progress, and ended at once when nobody waits for it. */
import { proxy, wrap } from 'comlink';
import type { PoseAsk, PoseWatch, RiserPoses } from '../../../checks/riserPoses.ts';
import type { PoseWorker } from './poseWorker.ts';

/** A worker that has answered waits for the next wish: starting one takes longer than most searches. */
let idle: Worker | null = null;

const startWorker = () => new Worker(new URL('./poseWorker.ts', import.meta.url), { type: 'module' });

/** Aborted, the search is ended and the promise never answers. Rejects: Error with a sentence. */
export function findPoses(ask: PoseAsk, watch: PoseWatch, signal: AbortSignal): Promise<RiserPoses> {
  const worker = idle ?? startWorker();
  idle = null;
  return new Promise((resolve, reject) => {
    const end = () => worker.terminate();
    const fail = () => {
      end();
      reject(new Error('The part of the page that looks for the best place could not be loaded: reload the page.'));
    };
    signal.addEventListener('abort', end);
    worker.addEventListener('error', fail);
    wrap<PoseWorker>(worker)
      .find(ask, proxy(watch))
      .then((poses) => {
        if (signal.aborted) return;
        signal.removeEventListener('abort', end);
        worker.removeEventListener('error', fail);
        // Two may have been at work: one is enough to keep.
        if (idle === null) idle = worker;
        else end();
        resolve(poses);
      }, fail);
  });
}
