/** What a stage item says to the venue: what a microphone takes, which mix is heard, what a power drop gives. */
import { gearOf } from '../../../gear/catalogue.ts';
import type { GearOf } from '../../../gear/schema.ts';
import { STAGE_USES } from '../../../gear/uses.ts';
import type { SetPiece } from '../../../plan/commands/pieces.ts';
import type { Item, Piece } from '../../../plan/schema.ts';
import { usePanel } from '../../state/panelContext.ts';
import { ChoiceField, Section } from '../fields/WordField.tsx';
import { NONE, orNone } from '../shared/gearChoices.ts';
import { nextId } from './listEdits.ts';
import { LoadField, VoltsField } from './PowerFields.tsx';

export interface StageItemFieldsProps {
  readonly item: Item;
  readonly use: GearOf<'stageItem'>['use'];
  readonly onSet: (set: SetPiece['set']) => string | null;
}

const NEW = '+new';

export function StageItemFields({ item, use, onSet }: StageItemFieldsProps) {
  switch (STAGE_USES[use].asks) {
    case 'source':
      return <TakesField item={item} onSet={onSet} />;
    case 'mix':
      return <MixField item={item} use={use} onSet={onSet} />;
    case 'power':
      return (
        <Section title="Power">
          <div className="field-grid">
            <VoltsField drop={item} />
            <LoadField drop={item} />
          </div>
          <p className="hint">What will hang on it, all together. The venue’s electrician decides.</p>
        </Section>
      );
    case null:
      return null;
  }
}

function TakesField({ item, onSet }: Omit<StageItemFieldsProps, 'use'>) {
  const { plan, setup, isReadOnly } = usePanel();
  const nameOf = (piece: Item) => piece.name || (gearOf(plan.gear, piece.gear)?.name ?? piece.gear);
  const pieces = setup.order
    .map((id): Piece | undefined => setup.pieces[id])
    .filter((piece): piece is Item => piece?.kind === 'item' && piece.id !== item.id);
  return (
    <Section title="On the input list">
      <ChoiceField
        label="Takes"
        value={item.takes !== undefined && Object.hasOwn(setup.pieces, item.takes) ? item.takes : NONE}
        isReadOnly={isReadOnly}
        choices={orNone(
          pieces.map((piece) => ({ id: piece.id, label: nameOf(piece) })),
          'What stands before it',
        )}
        onCommit={(id) => onSet({ takes: id === NONE ? null : id })}
      />
    </Section>
  );
}

function MixField({ item, use, onSet }: StageItemFieldsProps) {
  const { setup, setupId, run, isReadOnly } = usePanel();
  const mixes = setup.mixes ?? [];
  const choose = (id: string) => {
    if (id !== NEW) return onSet({ mix: id === NONE ? null : id });
    const by = use === 'wedge' ? ('wedge' as const) : ('inEar' as const);
    const made = { id: nextId('mix', mixes), name: item.name || `Mix ${mixes.length + 1}`, by };
    return run({
      type: 'many',
      commands: [
        { type: 'setLists', setup: setupId, set: { mixes: [...mixes, made] } },
        { type: 'setPiece', setup: setupId, piece: item.id, set: { mix: made.id } },
      ],
    });
  };
  return (
    <Section title="Monitor mix">
      <ChoiceField
        label={use === 'wedge' ? 'Plays' : 'Hears by ear'}
        value={mixes.some(({ id }) => id === item.mix) ? (item.mix ?? NONE) : NONE}
        isReadOnly={isReadOnly}
        choices={[
          ...orNone(
            mixes.map(({ id, name }, at) => ({ id, label: `${at + 1} ${name}` })),
            'None',
          ),
          { id: NEW, label: 'A new mix …' },
        ]}
        onCommit={choose}
      />
    </Section>
  );
}
