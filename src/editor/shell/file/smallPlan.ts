/** A kept plan as a small drawing with its size, made from its text while the page has nothing else to do. */
import { useEffect, useState } from 'react';
import { isKit } from '../../../layout/body.ts';
import { layoutSetup } from '../../../layout/layout.ts';
import { readPlan } from '../../../plan/read.ts';
import type { Plan } from '../../../plan/schema.ts';
import { formatLength } from '../../../units.ts';
import { counted } from '../../../words/names.ts';
import { type Picture, pictureOf } from '../../panels/setups/picture.ts';

export interface SmallPlan {
  readonly plan: Plan;
  readonly picture: Picture;
  readonly deck: readonly (readonly number[])[];
  /** Of its first setup, in the plan's own unit, and how many setups there are. */
  readonly size: string;
}

/** Null where the text is no plan that this program reads. */
function smallPlan(text: string): SmallPlan | null {
  const read = readPlan(text);
  if (!read.ok) return null;
  const { plan } = read;
  const { bodies, deck } = layoutSetup(plan, plan.order[0]);
  const kit = bodies.filter(isKit);
  const { box } = pictureOf(kit);
  const length = (mm: number) => formatLength(mm, plan.units);
  const size = box === null ? 'empty' : `${length(box.maxX - box.minX)} × ${length(box.maxY - box.minY)}`;
  const setups = plan.order.length === 1 ? '' : `, ${counted(plan.order.length, 'setup')}`;
  return { plan, picture: pictureOf(kit, deck?.modules), deck: deck?.modules ?? [], size: `${size}${setups}` };
}

/** The next moment in which the page has nothing else to do. */
const idle = (): Promise<void> =>
  new Promise((resolve) => {
    if (typeof requestIdleCallback === 'undefined') setTimeout(resolve, 20);
    else requestIdleCallback(() => resolve(), { timeout: 500 });
  });

/** One after the other, the first row first: what is made so far. */
export function useSmallPlans<K>(
  rows: readonly K[],
  textOf: (row: K) => string | Promise<string>,
): ReadonlyMap<K, SmallPlan | null> {
  const [made, setMade] = useState<ReadonlyMap<K, SmallPlan | null>>(new Map());
  useEffect(() => {
    let isGone = false;
    const all = async () => {
      for (const row of rows) {
        await idle();
        const text = await Promise.resolve(textOf(row)).catch(() => '');
        if (isGone) return;
        const small = smallPlan(text);
        setMade((before) => new Map(before).set(row, small));
      }
    };
    void all();
    return () => {
      isGone = true;
    };
  }, [rows, textOf]);
  return made;
}
