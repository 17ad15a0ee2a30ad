/** Which microphones and DI boxes take a piece, and one more put beside it. */

import { Plus } from 'lucide-react';
import { placedKind } from '../../../gear/kinds.ts';
import type { Gear, GearOf } from '../../../gear/schema.ts';
import type { Item, Plan, Setup } from '../../../plan/schema.ts';
import { gearName } from '../../../words/names.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { Section } from '../fields/WordField.tsx';
import { freePlace } from '../gear/freePlace.ts';
import { newItem } from '../gear/newPiece.ts';
import { gearOfPlan } from '../gear/shelf.ts';
import { TextButton } from '../shared/TextButton.tsx';

type StageGear = GearOf<'stageItem'>;

const takersOf = (setup: Setup, id: string): Item[] =>
  setup.order.flatMap((one) => {
    const piece = setup.pieces[one];
    return piece?.kind === 'item' && piece.takes === id ? [piece] : [];
  });

/** A DI for a keyboard, the lowest microphone for all else: a drum's stands low. Null where the gear has neither. */
export function usualTaker(gear: readonly Gear[], source: Gear): StageGear | null {
  const use = source.kind === 'stageItem' && source.use === 'keyboard' ? 'di' : 'microphone';
  const fit = gear.filter((one): one is StageGear => one.kind === 'stageItem' && one.use === use);
  return fit.toSorted((a, b) => a.heightMm - b.heightMm)[0] ?? null;
}

/** The microphone as it would stand: at the nearest free place on the floor, taking the piece. */
export function newTaker(plan: Plan, setupId: string, gear: StageGear, taken: Item): Item {
  const { layout, setup } = liveOf(plan, setupId);
  const [x, y] = freePlace(layout.bodies, taken.place.xMm, taken.place.yMm, placedKind(gear).reachMm(gear));
  return { ...newItem(gear, x, y, setup.pieces), takes: taken.id };
}

export function TakenFields({ item, gear }: { readonly item: Item; readonly gear: Gear }) {
  const { plan, setup, setupId, run, isReadOnly } = usePanel();
  const takers = takersOf(setup, item.id);
  const usual = usualTaker(gearOfPlan(plan), gear);
  const nameOf = (taker: Item) => taker.name || gearName(plan, taker.gear);
  return (
    <Section title="Microphones">
      {takers.length > 0 && <p className="hint">Taken by {takers.map(nameOf).join(', ')}.</p>}
      {usual !== null && (
        <TextButton
          icon={Plus}
          isDisabled={isReadOnly}
          onPress={() => void run({ type: 'addPiece', setup: setupId, piece: newTaker(plan, setupId, usual, item) })}
        >
          {usual.use === 'di' ? 'Put a DI box to it' : 'Put a microphone to it'}
        </TextButton>
      )}
    </Section>
  );
}
