/** The selected piece, the findings, all pieces, the riser, the stage, the plan: one beside the other as tabs. */
import { lazy, Suspense, useMemo, useState } from 'react';
import { Tab, TabList, TabPanel, Tabs } from 'react-aria-components';
import { countByState, type Finding } from '../../checks/finding.ts';
import { flaggedFindings } from '../../drawing/names.ts';
import { BODY_KIND_LIST } from '../../gear/bodyKinds.ts';
import { gearOf } from '../../gear/catalogue.ts';
import { isBesideKit } from '../../gear/kinds.ts';
import type { Piece } from '../../plan/schema.ts';
import { kindWord } from '../../words/names.ts';
import { worstOf } from '../../words/readingRows.ts';
import { findingSentence } from '../../words/sentences.ts';
import { FindingsList } from '../panels/findings/FindingsList.tsx';
import { heldText } from '../panels/findings/pieceRows.ts';
import { StateMark } from '../panels/shared/StateMark.tsx';
import { findingKey } from '../state/findingRows.ts';
import { liveOf } from '../state/live.ts';
import { usePanel } from '../state/panelContext.ts';
import { useEditor } from '../state/store.ts';
import { loadInspector, loadPieces } from './later.ts';
import { useWorkplace } from './workplace.ts';
import './side.css';

/** Come when they are asked for. */
const Inspector = lazy(async () => ({ default: (await loadInspector()).Inspector }));
const LimitsPanel = lazy(async () => ({ default: (await import('../panels/riser/LimitsPanel.tsx')).LimitsPanel }));
const PiecesList = lazy(async () => ({ default: (await loadPieces()).PiecesList }));
const PlanSettings = lazy(async () => ({ default: (await import('../panels/riser/PlanSettings.tsx')).PlanSettings }));
const RiserPanel = lazy(async () => ({ default: (await import('../panels/riser/RiserPanel.tsx')).RiserPanel }));
const StagePanel = lazy(async () => ({ default: (await import('../panels/stage/StagePanel.tsx')).StagePanel }));
/** The lists for the venue. The dialog outlives its tab: undoing in it may change what is chosen, and so the tab. */
const StageDialog = lazy(async () => ({ default: (await import('../panels/stage/StageDialog.tsx')).StageDialog }));

export type SideTab = 'piece' | 'findings' | 'pieces' | 'riser' | 'stage' | 'plan';

export interface SidePanelProps {
  /** Left out, the panel remembers its tab by itself. */
  readonly tab?: SideTab;
  readonly onTab?: (tab: SideTab) => void;
}

export function SidePanel({ tab, onTab }: SidePanelProps) {
  const { editor } = useWorkplace();
  const { plan, setup, setupId, units } = usePanel();
  const [own, setOwn] = useState<SideTab>('findings');
  const [lists, setLists] = useState(false);
  const selection = useEditor(editor, (state) => state.selection);
  const finding = useEditor(editor, (state) => state.finding);
  const carryAlong = useEditor(editor, (state) => state.carries);
  const { checked } = liveOf(plan, setupId);
  const { findings, readings } = checked;
  const sentenceOf = useMemo(() => (one: Finding) => findingSentence(one, plan, setupId), [plan, setupId]);
  const numbers = useMemo(
    () => new Map<Finding, number>(flaggedFindings(findings).map((one, i) => [one, i + 1])),
    [findings],
  );
  const pieces = setup.order.map((id) => setup.pieces[id]).filter((piece) => piece !== undefined);
  // Worked out when asked for, so not while another tab is in front.
  const isRiserShown = (tab ?? own) === 'riser';
  const gearName = (piece: Piece) =>
    piece.kind === 'rack' ? 'Rack' : (gearOf(plan.gear, piece.gear)?.name ?? piece.gear);
  const isKit = (piece: Piece) => piece.kind === 'rack' || !isBesideKit(gearOf(plan.gear, piece.gear));
  const counts = countByState(findings);
  const troubles = counts.blocked + counts.tight + counts.unmeasured;
  // A drag works everything out anew: the same finding is told by what it says, not by which object says it.
  const marked = finding === null ? null : (findings.find((one) => findingKey(one) === finding) ?? null);
  const choose = (one: Finding | null) => {
    editor.select(one === null ? [] : one.pieces);
    editor.setFinding(one === null ? null : findingKey(one));
  };

  return (
    <>
      <Tabs
        className="side-panel"
        selectedKey={tab ?? own}
        onSelectionChange={(key) => {
          setOwn(key as SideTab);
          onTab?.(key as SideTab);
        }}
      >
        <TabList className="tab-list" aria-label="Panels">
          <Tab id="piece" className="tab">
            Selected
          </Tab>
          <Tab id="findings" className="tab">
            Findings
            <span className="tab-mark">
              <StateMark state={worstOf(findings).state} />
              {troubles > 0 && <span className="tab-count">{troubles}</span>}
            </span>
          </Tab>
          <Tab id="pieces" className="tab">
            Pieces
          </Tab>
          <Tab id="riser" className="tab">
            Riser
          </Tab>
          <Tab id="stage" className="tab">
            Stage
          </Tab>
          <Tab id="plan" className="tab">
            Plan
          </Tab>
        </TabList>
        <TabPanel id="piece" className="tab-panel">
          <Suspense>
            <Inspector
              selection={selection}
              onSelect={editor.select}
              carryAlong={{ value: carryAlong, onChange: (value) => editor.setCarries(value) }}
            />
          </Suspense>
        </TabPanel>
        <TabPanel id="findings" className="tab-panel">
          <FindingsList
            findings={findings}
            sentenceOf={sentenceOf}
            selected={marked}
            onSelect={choose}
            numberOf={(one) => numbers.get(one) ?? null}
          />
        </TabPanel>
        <TabPanel id="pieces" className="tab-panel">
          <Suspense>
            <PiecesList
              pieces={pieces}
              units={units}
              selection={selection}
              onSelect={editor.select}
              gearName={gearName}
              heldText={(piece) => heldText(piece, setup)}
            />
          </Suspense>
        </TabPanel>
        <TabPanel id="riser" className="tab-panel">
          <Suspense>
            <RiserPanel
              marginMm={readings.riserMargin}
              bestPose={isRiserShown ? readings.bestRiserPose : null}
              bestShift={isRiserShown ? readings.bestRiserShift : null}
              isKit={isKit}
              middle={() => {
                const { xMm, yMm } = editor.store.getState().view;
                return { x: xMm, y: yMm };
              }}
            />
          </Suspense>
        </TabPanel>
        <TabPanel id="stage" className="tab-panel">
          <Suspense>
            <StagePanel onLists={() => setLists(true)} />
          </Suspense>
        </TabPanel>
        <TabPanel id="plan" className="tab-panel">
          <Suspense>
            <PlanSettings />
            <LimitsPanel kinds={BODY_KIND_LIST} kindWord={kindWord} />
          </Suspense>
        </TabPanel>
      </Tabs>
      {lists && (
        <Suspense>
          <StageDialog onClose={() => setLists(false)} />
        </Suspense>
      )}
    </>
  );
}
