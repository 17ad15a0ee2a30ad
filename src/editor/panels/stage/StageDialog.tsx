/** Everything that the venue reads beside the drawing: inputs, mixes, power, cable runs, what it must bring. */
import { Redo2, Undo2 } from 'lucide-react';
import type { KeyboardEvent } from 'react';
import { usePanel } from '../../state/panelContext.ts';
import { useEditor } from '../../state/store.ts';
import { IconButton } from '../shared/IconButton.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { TabSet } from '../shared/TabSet.tsx';
import { CablesPanel } from './CablesPanel.tsx';
import { InputsTable } from './InputsTable.tsx';
import { MixesTable } from './MixesTable.tsx';
import { PowerTable } from './PowerTable.tsx';
import { VenuePanel } from './VenuePanel.tsx';
import './stage.css';

const TABS = [
  { id: 'inputs', name: 'Inputs', panel: <InputsTable /> },
  { id: 'mixes', name: 'Mixes', panel: <MixesTable /> },
  { id: 'power', name: 'Power', panel: <PowerTable /> },
  { id: 'cables', name: 'Cables', panel: <CablesPanel /> },
  { id: 'venue', name: 'Venue', panel: <VenuePanel /> },
];

const isTyping = (target: EventTarget): boolean =>
  target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type === 'text');

export function StageDialog({ onClose }: { readonly onClose: () => void }) {
  const { editor, setup, isReadOnly } = usePanel();
  const canUndo = useEditor(editor, ({ history }) => history.past.length > 0);
  const canRedo = useEditor(editor, ({ history }) => history.future.length > 0);
  const onKeyDown = (event: KeyboardEvent) => {
    // In a field the browser undoes the typing itself.
    if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    event.preventDefault();
    if (key === 'z' && !event.shiftKey) editor.undo();
    else editor.redo();
  };
  return (
    <PanelDialog title={`Stage and inputs of ${setup.name || 'the setup'}`} onClose={onClose} wide>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the keys are those of the fields inside */}
      <div className="stage-lists" onKeyDown={onKeyDown}>
        <TabSet
          label="Stage and inputs"
          panelClass="parts-panel"
          tabs={TABS}
          head={(list) => (
            <div className="stage-head">
              {list}
              <IconButton icon={Undo2} label="Undo" isDisabled={isReadOnly || !canUndo} onPress={editor.undo} />
              <IconButton icon={Redo2} label="Redo" isDisabled={isReadOnly || !canRedo} onPress={editor.redo} />
            </div>
          )}
        />
      </div>
    </PanelDialog>
  );
}
