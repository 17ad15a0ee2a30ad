/** The best mount for a piece at a press, or the reason why there is none. */
import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { Item, Mount } from '../../../plan/schema.ts';
import { searchMounts } from '../../../solve/proposeMount.ts';
import { doneWords, whyNot } from '../../../words/mountWords.ts';
import { liveOf } from '../../state/live.ts';
import '../mounts/mounts.css';
import { usePanel } from '../../state/panelContext.ts';

export interface FindMountProps {
  readonly item: Item;
  readonly isFixed: boolean;
  readonly onMount: (mount: Mount) => string | null;
}

export function FindMount({ item, isFixed, onMount }: FindMountProps) {
  const { plan, setupId } = usePanel();
  const [answer, setAnswer] = useState<{ readonly sentence: string; readonly place: Item['place'] } | null>(null);
  const find = () => {
    const { setup, layout } = liveOf(plan, setupId);
    const search = searchMounts(plan, setup, layout, item);
    const [best] = search.ok ? search.proposals : [];
    const sentence = search.ok
      ? (onMount(best.mount) ?? doneWords(best, plan, setup))
      : whyNot(search, plan, setup, item);
    setAnswer({ sentence, place: item.place });
  };
  return (
    <div className="find-mount">
      <Button className="button" isDisabled={isFixed} onPress={find}>
        Find a mount
      </Button>
      {/* What was found holds for the place that it was found for. */}
      <p className="hint" role="status">
        {answer?.place === item.place ? answer.sentence : ''}
      </p>
    </div>
  );
}
