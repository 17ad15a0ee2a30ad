/** The plan's own name, contact and notes, and those of the setup at hand. */
import { usePanel } from '../../state/panelContext.ts';
import { FieldRows } from '../fields/FieldRows.tsx';
import { Section } from '../fields/WordField.tsx';
import { PLAN, SETUP } from './planFields.ts';

export function PlanSettings() {
  const panel = usePanel();
  return (
    <>
      <Section title="Plan">
        <FieldRows table={PLAN} section="plan" of={panel} />
        <FieldRows table={PLAN} section="contact" of={panel} />
        <FieldRows table={PLAN} section="notes" of={panel} />
      </Section>
      <Section title={`Setup “${panel.setup.name}”`}>
        <FieldRows table={SETUP} section="setup" of={panel} />
      </Section>
    </>
  );
}
