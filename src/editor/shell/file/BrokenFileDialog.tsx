/** A file that is no plan: where and why, in one sentence. The plan that was open stays open. */

import { PanelDialog } from '../../panels/shared/PanelDialog.tsx';
import { TextButton } from '../../panels/shared/TextButton.tsx';

export interface BrokenFileDialogProps {
  readonly fileName: string;
  /** What is wrong and where, in one sentence. */
  readonly sentence: string;
  readonly onClose: () => void;
}

export function BrokenFileDialog({ fileName, sentence, onClose }: BrokenFileDialogProps) {
  return (
    <PanelDialog title={fileName === '' ? 'That did not work' : `“${fileName}” was not opened`} alert onClose={onClose}>
      <p className="alert-sentence">{sentence}</p>
      <p className="hint">The plan that was open is still open, as it was.</p>
      <div className="dialog-buttons">
        <TextButton look="main" autoFocus onPress={onClose}>
          Back to the plan
        </TextButton>
      </div>
    </PanelDialog>
  );
}
