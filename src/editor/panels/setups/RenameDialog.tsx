/** Asks for a name. */

import type { FormEvent } from 'react';
import { Form, Input } from 'react-aria-components';
import { useDraft } from '../fields/useDraft.ts';
import { DraftField } from '../fields/WordField.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { TextButton } from '../shared/TextButton.tsx';

export interface RenameDialogProps {
  readonly title: string;
  readonly name: string;
  readonly onRename: (name: string) => string | null;
  readonly onClose: () => void;
}

export function RenameDialog({ title, name, onRename, onClose }: RenameDialogProps) {
  const draft = useDraft({
    value: name,
    shown: name,
    take: (text) => (text.trim() === '' ? 'A name cannot be empty.' : onRename(text.trim())),
  });
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (draft.commit() === null) onClose();
  };
  return (
    <PanelDialog title={title} onClose={onClose}>
      <Form onSubmit={submit}>
        <DraftField label="Name" draft={draft} onBlur={undefined} autoFocus>
          <Input
            className="field-input"
            maxLength={120}
            autoComplete="off"
            onFocus={(event) => event.currentTarget.select()}
          />
        </DraftField>
        <div className="dialog-buttons">
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton look="main" type="submit">
            Rename
          </TextButton>
        </div>
      </Form>
    </PanelDialog>
  );
}
