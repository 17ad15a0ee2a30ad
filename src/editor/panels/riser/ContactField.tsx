/** Whom the venue may ask: printed on every sheet. */

import { usePanel } from '../../state/panelContext.ts';
import { WordField } from '../fields/WordField.tsx';

export function ContactField() {
  const { plan, run, isReadOnly } = usePanel();
  return (
    <WordField
      label="Contact, for the venue"
      value={plan.contact ?? ''}
      most={4000}
      lines={3}
      mayBeEmpty
      isReadOnly={isReadOnly}
      placeholder="Name, telephone, e-mail"
      onCommit={(contact) => run({ type: 'setNotes', contact: contact === '' ? null : contact })}
    />
  );
}
