/** The worker that searches for a kit's best place on its riser. One wish at a time: who has another ends this worker. */
import { expose } from 'comlink';
import { type PoseAsk, type PoseWatch, riserPoses } from '../../../checks/riserPoses.ts';

const worker = { find: (ask: PoseAsk, watch: PoseWatch) => riserPoses(ask, watch) };

export type PoseWorker = typeof worker;

expose(worker);
