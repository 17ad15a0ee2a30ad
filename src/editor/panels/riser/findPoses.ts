/** The page's side of the search for the best place on a riser: in a worker, with progress, and ended at once when nobody waits for it. */
import { proxy, type Remote, wrap } from 'comlink';
import type { PoseAsk, PoseWatch, RiserPoses } from '../../../checks/riserPoses.ts';
import type { PoseWorker } from './poseWorker.ts';

/** The remote is kept as long as its worker: once it is collected, comlink tells the worker to listen no more. */
interface Searcher {
  readonly worker: Worker;
  readonly remote: Remote<PoseWorker>;
}

/** One that has answered waits for the next wish: starting one takes longer than most searches. */
let idle: Searcher | null = null;

function startSearcher(): Searcher {
  const worker = new Worker(new URL('./poseWorker.ts', import.meta.url), { type: 'module' });
  return { worker, remote: wrap<PoseWorker>(worker) };
}

/** Aborted, the search is ended and the promise never answers. Rejects: Error with a sentence. */
export function findPoses(ask: PoseAsk, watch: PoseWatch, signal: AbortSignal): Promise<RiserPoses> {
  const searcher = idle ?? startSearcher();
  const { worker, remote } = searcher;
  idle = null;
  return new Promise((resolve, reject) => {
    const end = () => worker.terminate();
    const fail = () => {
      end();
      reject(new Error('The part of the page that looks for the best place could not be loaded: reload the page.'));
    };
    signal.addEventListener('abort', end);
    worker.addEventListener('error', fail);
    remote.find(ask, proxy(watch)).then((poses) => {
      if (signal.aborted) return;
      signal.removeEventListener('abort', end);
      worker.removeEventListener('error', fail);
      // Two may have been at work: one is enough to keep.
      if (idle === null) idle = searcher;
      else end();
      resolve(poses);
    }, fail);
  });
}
