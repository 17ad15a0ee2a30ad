/** The selected piece, the findings, all pieces, the riser, the stage, the plan: one beside the other as tabs. */
import { type ReactNode, Suspense, useState } from 'react';
import { worstOf } from '../../words/readingRows.ts';
import { FindingsList } from '../panels/findings/FindingsList.tsx';
import { lazyPart } from '../panels/shared/lazyPart.tsx';
import { StateMark } from '../panels/shared/StateMark.tsx';
import { TabSet } from '../panels/shared/TabSet.tsx';
import { liveOf } from '../state/live.ts';
import { usePanel } from '../state/panelContext.ts';
import { loadInspector, loadPieces } from './later.ts';
import './side.css';

/** Come when they are asked for. */
const Inspector = lazyPart(async () => (await loadInspector()).Inspector);
const DrummerPanel = lazyPart(async () => (await import('../panels/drummer/DrummerPanel.tsx')).DrummerPanel);
const LimitsPanel = lazyPart(async () => (await import('../panels/riser/LimitsPanel.tsx')).LimitsPanel);
const PiecesList = lazyPart(async () => (await loadPieces()).PiecesList);
const PlanSettings = lazyPart(async () => (await import('../panels/riser/PlanSettings.tsx')).PlanSettings);
const RiserPanel = lazyPart(async () => (await import('../panels/riser/RiserPanel.tsx')).RiserPanel);
const StagePanel = lazyPart(async () => (await import('../panels/stage/StagePanel.tsx')).StagePanel);
/** The lists for the venue. The dialog outlives its tab: undoing in it may change what is chosen, and so the tab. */
const StageDialog = lazyPart(async () => (await import('../panels/stage/StageDialog.tsx')).StageDialog);

export type SideTab = 'piece' | 'findings' | 'pieces' | 'riser' | 'stage' | 'plan';

export interface SidePanelProps {
  readonly tab: SideTab;
  readonly onTab: (tab: SideTab) => void;
}

export function SidePanel({ tab, onTab }: SidePanelProps) {
  const { plan, setupId } = usePanel();
  const [lists, setLists] = useState(false);
  const { findings } = liveOf(plan, setupId).checked;
  // As the title block says it: the worst state, and how many findings are in it.
  const { state, count } = worstOf(findings);
  const findingsName = (
    <>
      Findings
      <span className="tab-mark">
        <StateMark state={state} />
        {state !== 'clear' && <span className="tab-count">{count}</span>}
      </span>
    </>
  );
  const tabs: readonly { readonly id: SideTab; readonly name: ReactNode; readonly panel: ReactNode }[] = [
    { id: 'piece', name: 'Selected', panel: <Inspector /> },
    { id: 'findings', name: findingsName, panel: <FindingsList /> },
    { id: 'pieces', name: 'Pieces', panel: <PiecesList /> },
    { id: 'riser', name: 'Riser', panel: <RiserPanel /> },
    { id: 'stage', name: 'Stage', panel: <StagePanel onLists={() => setLists(true)} /> },
    {
      id: 'plan',
      name: 'Plan',
      panel: (
        <>
          <PlanSettings />
          <DrummerPanel />
          <LimitsPanel />
        </>
      ),
    },
  ];
  return (
    <>
      <TabSet
        label="Panels"
        className="side-panel"
        panelClass="tab-panel"
        tabs={tabs}
        selectedKey={tab}
        onSelectionChange={(key) => onTab(key as SideTab)}
      />
      {lists && (
        <Suspense>
          <StageDialog onClose={() => setLists(false)} />
        </Suspense>
      )}
    </>
  );
}
