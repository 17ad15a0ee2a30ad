/** A new plan that begins with a kit: which drums and cymbals, and what carries them. It is laid out when the user says so. */
import { useState } from 'react';
import { Label, Radio, RadioGroup } from 'react-aria-components';
import type { Plan } from '../../../plan/schema.ts';
import { starterPlan } from '../../../solve/starter/starterPlan.ts';
import { STARTER_BASES, type StarterBase, type StarterWish, USUAL_WISH } from '../../../solve/starter/wish.ts';
import { findingSentence } from '../../../words/sentences.ts';
import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';
import './starter.css';

export interface StarterDialogProps {
  readonly units: Plan['units'];
  readonly onMake: (plan: Plan) => void;
  readonly onClose: () => void;
}

const BASE_WORDS: Readonly<Record<StarterBase, string>> = {
  stands: 'Stands',
  straight: 'Straight side racks',
  curved: 'Curved side racks',
  front: 'Front rack',
};

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
}

function Choice<T extends string>({ label, value, options, onChange }: ChoiceProps<T>) {
  return (
    <RadioGroup
      className="starter-choice"
      orientation="horizontal"
      value={value}
      onChange={(chosen) => onChange(chosen as T)}
    >
      <Label className="field-label">{label}</Label>
      <div className="starter-options">
        {options.map(([id, words]) => (
          <Radio key={id} value={id} className="starter-option">
            {words}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}

const numbers = (from: number, to: number) =>
  Array.from({ length: to - from + 1 }, (_, k) => [String(from + k), String(from + k)] as const);

export function StarterDialog({ units, onMake, onClose }: StarterDialogProps) {
  const [wish, setWish] = useState<StarterWish>(USUAL_WISH);
  const [sentence, setSentence] = useState<string | null>(null);
  const change = (part: Partial<StarterWish>) => {
    setWish({ ...wish, ...part });
    setSentence(null);
  };
  const make = () => {
    const made = starterPlan(wish, undefined, { name: 'New kit', units });
    if (!made.ok) {
      const { plan, findings, sentence: why } = made;
      const inTheWay = findings.find(({ state }) => state === 'blocked');
      return setSentence(
        plan && inTheWay ? `${why} In the way: ${findingSentence(inTheWay, plan, plan.order[0])}` : why,
      );
    }
    onMake(made.plan);
    onClose();
  };
  return (
    <PanelDialog title="Starter kit" wide onClose={onClose}>
      <div className="starter">
        <section aria-labelledby="starter-kit">
          <h3 id="starter-kit">Which kit?</h3>
          <Choice
            label="Mounted toms"
            value={String(wish.up)}
            options={numbers(1, 3)}
            onChange={(up) => change({ up: Number(up) })}
          />
          <Choice
            label="Floor toms"
            value={String(wish.down)}
            options={numbers(1, 3)}
            onChange={(down) => change({ down: Number(down) })}
          />
          <Choice
            label="Cymbals, with the hi-hats"
            value={String(wish.cymbals)}
            options={numbers(2, 8)}
            onChange={(cymbals) => change({ cymbals: Number(cymbals) })}
          />
          <Choice
            label="Toms"
            value={wish.toms}
            options={[
              ['centred', 'Over the bass drum'],
              ['offset', 'Beside it'],
            ]}
            onChange={(toms) => change({ toms })}
          />
          <Choice
            label="Pedal"
            value={wish.pedal}
            options={[
              ['single', 'Single'],
              ['double', 'Double'],
            ]}
            onChange={(pedal) => change({ pedal })}
          />
          <Choice
            label="Drummer"
            value={wish.handed}
            options={[
              ['right', 'Right-handed'],
              ['left', 'Left-handed'],
            ]}
            onChange={(handed) => change({ handed })}
          />
        </section>
        <section aria-labelledby="starter-base">
          <h3 id="starter-base">Which base?</h3>
          <Choice
            label="Carried by"
            value={wish.base}
            options={STARTER_BASES.map((base) => [base, BASE_WORDS[base]] as const)}
            onChange={(base) => change({ base })}
          />
          <Choice
            label="Riser"
            value={wish.riser ? 'riser' : 'none'}
            options={[
              ['none', 'None'],
              ['riser', 'The smallest usual one'],
            ]}
            onChange={(riser) => change({ riser: riser === 'riser' })}
          />
        </section>
      </div>
      <p className="hint" role="status">
        {sentence ?? 'It is laid out for a typical drummer. Change whom it is for under Plan.'}
      </p>
      <div className="dialog-buttons">
        <TextButton onPress={onClose}>Cancel</TextButton>
        <TextButton look="main" onPress={make}>
          Lay out the kit
        </TextButton>
      </div>
    </PanelDialog>
  );
}
