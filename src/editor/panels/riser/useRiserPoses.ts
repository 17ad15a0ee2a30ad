/** The best places of a setup on its riser, searched for in a worker as the plan changes: what is shown is always of the plan that is shown. */
import { useEffect, useRef, useState } from 'react';
import { convexDeck } from '../../../checks/riserFit.ts';
import { poseAsk, type RiserPoses, riserPoses } from '../../../checks/riserPoses.ts';
import { kept } from '../../../keep.ts';
import type { Layout } from '../../../layout/layout.ts';
import { kitTurns } from '../../../plan/facing.ts';
import type { Plan } from '../../../plan/schema.ts';
import { type Live, liveOf } from '../../state/live.ts';
import { findPoses } from './findPoses.ts';

export interface PoseSearch {
  /** What part of the search is done at most; null: it has ended, or was stopped. */
  readonly part: number | null;
  /** The answer, or the best so far; null: nothing yet. */
  readonly poses: RiserPoses | null;
  readonly stopped: boolean;
  readonly sentence: string | null;
}

const BEGUN: PoseSearch = { part: 0, poses: null, stopped: false, sentence: null };

/** By layout: a tab that is opened again need not search again. */
const answerOf = kept((_: Layout): { poses: RiserPoses | null } => ({ poses: null }));

const askOf = (plan: Plan, { layout, setup }: Live) => poseAsk(layout, kitTurns(plan, setup));

/** What is known without a search. On a convex riser that is all: it takes a millisecond or two for a hundred bodies. */
function knownPoses(plan: Plan, live: Live): RiserPoses | null {
  const answer = answerOf(live.layout);
  const { deck } = live.layout;
  if (deck === null || convexDeck(deck) !== null) answer.poses ??= riserPoses(askOf(plan, live));
  return answer.poses;
}

/** Changes that follow each other, as of a key held down, are searched for once they rest. */
const REST_MS = 120;

/** Answers what is kept, or searches and keeps. */
async function posesFor(
  plan: Plan,
  setupId: string,
  watch: (part: number, sofar: RiserPoses) => void,
  signal: AbortSignal,
): Promise<RiserPoses> {
  const live = liveOf(plan, setupId);
  const known = knownPoses(plan, live);
  if (known !== null) return known;
  const ask = askOf(plan, live);
  const found = ask === null ? { pose: null, shift: null } : await findPoses(ask, watch, signal);
  answerOf(live.layout).poses = found;
  return found;
}

/** `stop` ends the search and leaves the best so far. */
export function useRiserPoses(plan: Plan, setupId: string): PoseSearch & { readonly stop: () => void } {
  const live = liveOf(plan, setupId);
  const { layout } = live;
  const known = knownPoses(plan, live);
  const isKnown = known !== null;
  const [search, setSearch] = useState<PoseSearch & { readonly of: Layout }>({ ...BEGUN, of: layout });
  const running = useRef<AbortController | null>(null);
  useEffect(() => {
    if (isKnown) return;
    const life = new AbortController();
    running.current = life;
    const show = (now: Partial<PoseSearch>) =>
      life.signal.aborted ||
      setSearch((before) => ({ ...(before.of === layout ? before : BEGUN), ...now, of: layout }));
    const rest = setTimeout(() => {
      if (life.signal.aborted) return;
      posesFor(plan, setupId, (part, poses) => show({ part, poses }), life.signal).then(
        (poses) => show({ part: null, poses }),
        (problem: Error) => show({ part: null, sentence: problem.message }),
      );
    }, REST_MS);
    return () => {
      clearTimeout(rest);
      life.abort();
    };
  }, [plan, setupId, layout, isKnown]);
  // Of another layout: stale, and not shown.
  const now = known ? { ...BEGUN, part: null, poses: known } : search.of === layout ? search : BEGUN;
  const stop = () => {
    running.current?.abort();
    setSearch((before) => ({ ...(before.of === layout ? before : BEGUN), of: layout, part: null, stopped: true }));
  };
  return { part: now.part, poses: now.poses, stopped: now.stopped, sentence: now.sentence, stop };
}

/** The best places of several setups, one after another; those that are found. */
export function usePosesOf(plan: Plan, setupIds: readonly string[]): ReadonlyMap<string, RiserPoses> {
  const [found, setFound] = useState<{ readonly of: Plan; readonly poses: ReadonlyMap<string, RiserPoses> }>({
    of: plan,
    poses: new Map(),
  });
  const ids = setupIds.join('\n');
  useEffect(() => {
    const life = new AbortController();
    const search = async () => {
      const poses = new Map<string, RiserPoses>();
      for (const id of ids.split('\n')) {
        poses.set(id, await posesFor(plan, id, () => {}, life.signal));
        if (life.signal.aborted) return;
        setFound({ of: plan, poses: new Map(poses) });
      }
    };
    // Where no worker can be had the rows stay empty; the Riser tab says why.
    search().catch(() => {});
    return () => life.abort();
  }, [plan, ids]);
  return found.of === plan ? found.poses : NONE_FOUND;
}

const NONE_FOUND: ReadonlyMap<string, RiserPoses> = new Map();
