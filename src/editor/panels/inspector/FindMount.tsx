/** The best mount for a piece at a press, or the reason why there is none. */

import { useState } from 'react';
import type { Item } from '../../../plan/schema.ts';
import { searchMounts } from '../../../solve/proposeMount.ts';
import { doneWords, whyNot } from '../../../words/mountWords.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { TextButton } from '../shared/TextButton.tsx';
import { unbroken } from '../shared/unbroken.ts';
import { setMount } from './mountFields.ts';

export function FindMount({ item }: { readonly item: Item }) {
  const { plan, setupId, run } = usePanel();
  const [answer, setAnswer] = useState<{ readonly sentence: string; readonly place: Item['place'] } | null>(null);
  const find = () => {
    const { setup, layout } = liveOf(plan, setupId);
    const search = searchMounts(plan, setup, layout, item);
    const [best] = search.ok ? search.proposals : [];
    const sentence = search.ok
      ? (run(setMount({ setupId, item }, best.mount)) ?? doneWords(best, plan, setup))
      : whyNot(search, plan, setup, item);
    setAnswer({ sentence, place: item.place });
  };
  return (
    <div className="answered">
      <TextButton onPress={find}>Find a mount</TextButton>
      {/* What was found holds for the place that it was found for. */}
      <p className="hint" role="status">
        {answer?.place === item.place ? unbroken(answer.sentence) : ''}
      </p>
    </div>
  );
}
