/** Asks for a name. */
import { type FormEvent, useState } from 'react';
import { Button, FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import { PanelDialog } from '../shared/PanelDialog.tsx';

export interface RenameDialogProps {
  readonly title: string;
  readonly name: string;
  readonly onRename: (name: string) => string | null;
  readonly onClose: () => void;
}

export function RenameDialog({ title, name, onRename, onClose }: RenameDialogProps) {
  const [draft, setDraft] = useState(name);
  const [sentence, setSentence] = useState<string | null>(null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const wanted = draft.trim();
    const refusal = wanted === '' ? 'A name cannot be empty.' : onRename(wanted);
    setSentence(refusal);
    if (refusal === null) onClose();
  };
  return (
    <PanelDialog title={title} onClose={onClose}>
      <Form onSubmit={submit}>
        <TextField
          className="field field-wide"
          value={draft}
          onChange={setDraft}
          isInvalid={sentence !== null}
          autoFocus
        >
          <Label className="field-label">Name</Label>
          <Input
            className="field-input"
            maxLength={120}
            autoComplete="off"
            onFocus={(event) => event.currentTarget.select()}
          />
          <FieldError className="field-error">{sentence}</FieldError>
        </TextField>
        <div className="dialog-buttons">
          <Button className="button" onPress={onClose}>
            Cancel
          </Button>
          <Button className="button button-main" type="submit">
            Rename
          </Button>
        </div>
      </Form>
    </PanelDialog>
  );
}
