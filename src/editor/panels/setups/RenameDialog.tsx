/** Asks for a name. */

import type { FormEvent } from 'react';
import { FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import { useDraft } from '../fields/useDraft.ts';
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
        <TextField
          className="field field-wide"
          value={draft.text}
          onChange={draft.type}
          isInvalid={draft.sentence !== null}
          autoFocus
        >
          <Label className="field-label">Name</Label>
          <Input
            className="field-input"
            maxLength={120}
            autoComplete="off"
            onFocus={(event) => event.currentTarget.select()}
          />
          <FieldError className="field-error">{draft.sentence}</FieldError>
        </TextField>
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
