/** The plan's own name, contact and notes, and those of the setup at hand. */

import { usePanel } from '../../state/panelContext.ts';
import { ChoiceField, Section, WordField } from '../fields/WordField.tsx';
import { ContactField } from './ContactField.tsx';

export function PlanSettings() {
  const { plan, setup, setupId, run, isReadOnly } = usePanel();
  const orNull = (text: string) => (text === '' ? null : text);
  return (
    <>
      <Section title="Plan">
        <WordField
          label="Name of the plan"
          value={plan.name}
          most={120}
          isReadOnly={isReadOnly}
          onCommit={(name) => run({ type: 'renamePlan', name })}
        />
        <ChoiceField
          label="Lengths in"
          value={plan.units}
          isReadOnly={isReadOnly}
          choices={[
            { id: 'mm', label: 'Millimetres and kilograms' },
            { id: 'in', label: 'Feet, inches and pounds' },
          ]}
          onCommit={(units) => run({ type: 'setUnits', units: units as 'mm' | 'in' })}
        />
        <ContactField />
        <WordField
          label="Notes on the plan"
          value={plan.note ?? ''}
          most={4000}
          lines={3}
          mayBeEmpty
          isReadOnly={isReadOnly}
          onCommit={(note) => run({ type: 'setNotes', note: orNull(note) })}
        />
      </Section>
      <Section title={`Setup “${setup.name}”`}>
        <WordField
          label="Name of the setup"
          value={setup.name}
          most={120}
          isReadOnly={isReadOnly}
          onCommit={(name) => run({ type: 'renameSetup', setup: setupId, name })}
        />
        <WordField
          label="Notes on the setup"
          value={setup.note ?? ''}
          most={4000}
          lines={3}
          mayBeEmpty
          isReadOnly={isReadOnly}
          onCommit={(note) => run({ type: 'setNotes', setup: setupId, note: orNull(note) })}
        />
      </Section>
    </>
  );
}
