/**
 * The page: setups along the top, gear at the left, the drawing in the middle, the chosen piece and the findings at the
 * right. On a telephone the drawing comes first, and the rest waits below it as tabs of a sheet.
 */
import { PanelLeftClose, PanelLeftOpen, X } from 'lucide-react';
import { lazy, Suspense, useEffect, useState } from 'react';
import { Button, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { useStore } from 'zustand';
import { Canvas } from '../canvas/Canvas.tsx';
import { TitleBlock } from '../panels/drawing/TitleBlock.tsx';
import { Tools } from '../panels/drawing/Tools.tsx';
import { GearDrawer } from '../panels/gear/GearDrawer.tsx';
import { MountNotice } from '../panels/mounts/MountNotice.tsx';
import { SetupsStrip } from '../panels/setups/SetupsStrip.tsx';
import { IconButton } from '../panels/shared/IconButton.tsx';
import { useLook } from '../state/look.ts';
import { useEditor } from '../state/store.ts';
import { PanelProvider } from './PanelProvider.tsx';
import { SidePanel, type SideTab } from './SidePanel.tsx';
import { TopBar } from './TopBar.tsx';
import { UpdateNotice } from './UpdateNotice.tsx';
import { useScreen } from './useScreen.ts';
import type { Workplace } from './workplace.ts';

/** Comes when it is asked for. */
const ElevationStrip = lazy(async () => ({
  default: (await import('../canvas/elevation/ElevationStrip.tsx')).ElevationStrip,
}));

/** What the telephone's sheet shows; the drawing alone when it is put away. */
type Sheet = 'drawing' | 'gear' | 'piece' | 'findings';

const SHEETS: readonly { readonly id: Sheet; readonly name: string }[] = [
  { id: 'drawing', name: 'Drawing' },
  { id: 'gear', name: 'Gear' },
  { id: 'piece', name: 'Selected' },
  { id: 'findings', name: 'Findings' },
];

export function App({ workplace }: { readonly workplace: Workplace }) {
  return (
    <PanelProvider workplace={workplace}>
      <Page workplace={workplace} />
    </PanelProvider>
  );
}

function Page({ workplace }: { readonly workplace: Workplace }) {
  const { editor } = workplace;
  const look = useLook(editor);
  const screen = useScreen();
  const hasElevation = useEditor(editor, (state) => state.elevation !== null);
  const [gearOpen, setGearOpen] = useState(() => screen === 'desk');
  const [tab, setTab] = useState<SideTab>('findings');
  const [sheet, setSheet] = useState<Sheet>('drawing');
  const isPhone = screen === 'phone';

  // All that is above has been drawn by now, so the plan did not break it.
  const documentId = useStore(workplace.session.state, ({ id }) => id);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each document is drawn once
  useEffect(() => workplace.session.drawn(), [workplace, documentId]);
  // What was just chosen is what the side shows; a chosen finding keeps the findings open.
  useEffect(
    () =>
      editor.store.subscribe((now, before) => {
        if (now.selection === before.selection || now.finding !== null) return;
        const isEmpty = now.selection.length === 0;
        setTab((shown) => {
          if (isEmpty) return shown === 'piece' ? 'findings' : shown;
          return shown === 'pieces' ? shown : 'piece';
        });
      }),
    [editor],
  );
  const chooseSheet = (next: Sheet) => {
    setSheet(next);
    if (next === 'piece' || next === 'findings') setTab(next);
  };

  return (
    <div className="page" data-screen={screen} data-gear={gearOpen || undefined} data-sheet={sheet}>
      <button type="button" className="skip-link" onClick={() => document.getElementById('drawing')?.focus()}>
        To the drawing
      </button>
      <header className="page-head">
        <TopBar />
        <SetupsStrip />
      </header>
      {!isPhone && (
        <aside className="page-gear" aria-label="Gear">
          <Button
            className="icon-button gear-toggle"
            aria-label={gearOpen ? 'Close the gear drawer' : 'Open the gear drawer'}
            aria-expanded={gearOpen}
            onPress={() => setGearOpen(!gearOpen)}
          >
            {gearOpen ? <PanelLeftClose /> : <PanelLeftOpen />}
            {!gearOpen && <span className="gear-label">Gear</span>}
          </Button>
          {gearOpen && <GearDrawer onAdded={() => screen === 'tablet' && setGearOpen(false)} />}
        </aside>
      )}
      <main className="page-drawing">
        <Canvas editor={editor} look={look} />
        <Tools editor={editor} />
        <TitleBlock editor={editor} />
        {hasElevation && (
          <Suspense>
            <ElevationStrip editor={editor} look={look} />
          </Suspense>
        )}
        <MountNotice editor={editor} />
        <Message workplace={workplace} />
      </main>
      {(!isPhone || sheet === 'piece' || sheet === 'findings') && (
        <aside className="page-side" aria-label="Piece, findings, riser and plan">
          <SidePanel tab={tab} onTab={setTab} />
        </aside>
      )}
      {isPhone && sheet === 'gear' && (
        <aside className="page-side" aria-label="Gear">
          <GearDrawer onAdded={() => setSheet('drawing')} />
        </aside>
      )}
      {isPhone && (
        <ToggleButtonGroup
          className="sheet-tabs"
          aria-label="Show"
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[sheet]}
          onSelectionChange={([next]) => chooseSheet(next as Sheet)}
        >
          {SHEETS.map(({ id, name }) => (
            <ToggleButton key={id} id={id} className="sheet-tab">
              {name}
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
      )}
      <UpdateNotice />
    </div>
  );
}

/** Why something was refused, until the next gesture. */
function Message({ workplace: { editor } }: { readonly workplace: Workplace }) {
  const message = useEditor(editor, (state) => state.message);
  return (
    <div className="message-place" role="status">
      {message !== null && (
        <div className="message">
          <span>{message}</span>
          <IconButton icon={X} label="Close the message" onPress={() => editor.set({ message: null })} />
        </div>
      )}
    </div>
  );
}
