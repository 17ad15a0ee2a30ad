/** The plan's setups along the top, as small drawings with their key readings: comparison is always in sight. */

import {
  ArrowLeft,
  ArrowRight,
  Copy,
  Ellipsis,
  FlipHorizontal2,
  Package,
  Pencil,
  Plus,
  Scale,
  Trash2,
} from 'lucide-react';
import { Suspense, useState } from 'react';
import { differenceOf, worstOf } from '../../../words/readingRows.ts';
import { STATE_WORDS } from '../../../words/states.ts';
import { usePanel } from '../../state/panelContext.ts';
import { freeId, freeName } from '../gear/newPiece.ts';
import { lazyPart } from '../shared/lazyPart.tsx';
import { MenuButton } from '../shared/MenuButton.tsx';
import type { MenuEntry } from '../shared/menuParts.ts';
import { StateMark } from '../shared/StateMark.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { MiniPlan } from './MiniPlan.tsx';
import { commonWindow, PICTURE_RATIO } from './picture.ts';
import {
  CARD_READINGS,
  type CardReading,
  cardText,
  firstSentence,
  type SetupSummary,
  summaryOf,
  tellingReadings,
} from './summary.ts';
import './setups.css';

/** Come when they are asked for. */
const RenameDialog = lazyPart(async () => (await import('./RenameDialog.tsx')).RenameDialog);
const CompareDialog = lazyPart(async () => (await import('./CompareDialog.tsx')).CompareDialog);
const PartsDialog = lazyPart(async () => (await import('../parts/PartsDialog.tsx')).PartsDialog);

const FLOOR_ROW = CARD_READINGS[0].row;

export function SetupsStrip() {
  const { editor, plan, setupId, units, run, isReadOnly } = usePanel();
  const [renaming, setRenaming] = useState<string | null>(null);
  const [dialog, setDialog] = useState<'compare' | 'parts' | null>(null);
  const summaries = plan.order.map((id) => summaryOf(plan, id));
  const window = commonWindow(
    summaries.map(({ picture }) => picture),
    PICTURE_RATIO,
  );
  const telling = tellingReadings(summaries, units);
  const current = summaries.find(({ id }) => id === setupId) ?? summaries[0];
  const names = Object.values(plan.setups).map(({ name }) => name);

  const move = (id: string, by: 1 | -1) => {
    const at = plan.order.indexOf(id);
    const order = plan.order.toSpliced(at, 1).toSpliced(at + by, 0, id);
    run({ type: 'orderSetups', order });
  };
  const add = () => {
    const id = freeId('setup', Object.keys(plan.setups));
    const name = freeName('New setup', names);
    const riser = plan.setups[setupId].riser;
    if (run({ type: 'addSetup', setup: { id, name, riser, pieces: {}, order: [] } }) === null) editor.chooseSetup(id);
  };
  const duplicate = (id: string) => {
    const copy = freeId(`${id.replace(/-copy(-\d+)?$/, '').slice(0, 60)}-copy`, Object.keys(plan.setups));
    const name = freeName(`${plan.setups[id].name.slice(0, 100)} (copy)`, names);
    if (run({ type: 'duplicateSetup', setup: id, id: copy, name }) === null) editor.chooseSetup(copy);
  };
  const remove = (id: string) => {
    const at = plan.order.indexOf(id);
    const next = plan.order[at === 0 ? 1 : at - 1];
    if (id === setupId && next !== undefined) editor.chooseSetup(next);
    run({ type: 'removeSetup', setup: id });
  };
  const entriesOf = (id: string, at: number): MenuEntry[] => [
    { id: 'rename', icon: Pencil, name: 'Rename …', onAction: () => setRenaming(id) },
    { id: 'duplicate', icon: Copy, name: 'Duplicate', onAction: () => duplicate(id) },
    {
      id: 'mirror',
      icon: FlipHorizontal2,
      name: 'Mirror left and right',
      onAction: () => run({ type: 'mirrorSetup', setup: id, axisXMm: 0 }),
    },
    { id: 'earlier', icon: ArrowLeft, name: 'Move left', isDisabled: at === 0, onAction: () => move(id, -1) },
    {
      id: 'later',
      icon: ArrowRight,
      name: 'Move right',
      isDisabled: at === summaries.length - 1,
      onAction: () => move(id, 1),
    },
    { id: 'remove', icon: Trash2, name: 'Remove', isDisabled: summaries.length === 1, onAction: () => remove(id) },
  ];

  return (
    <section className="setups" aria-label="Setups">
      <ul className="setup-cards">
        {summaries.map((summary, at) => (
          <li key={summary.id} className="setup-card" data-current={summary.id === setupId || undefined}>
            <SetupButton
              summary={summary}
              telling={telling}
              window={window}
              isCurrent={summary.id === setupId}
              against={summary.id === setupId ? null : current}
            />
            <MenuButton
              className="icon-button setup-menu"
              label={`Actions for ${summary.name}`}
              isDisabled={isReadOnly}
              parts={[{ entries: entriesOf(summary.id, at) }]}
            >
              <Ellipsis />
            </MenuButton>
          </li>
        ))}
      </ul>
      <div className="setup-tools">
        <TextButton icon={Copy} look="quiet" isDisabled={isReadOnly} onPress={() => duplicate(setupId)}>
          Copy this one
        </TextButton>
        <TextButton icon={Plus} look="quiet" isDisabled={isReadOnly} onPress={add}>
          Empty setup
        </TextButton>
        <TextButton icon={Scale} look="quiet" isDisabled={summaries.length < 2} onPress={() => setDialog('compare')}>
          Compare
        </TextButton>
        <TextButton icon={Package} look="quiet" onPress={() => setDialog('parts')}>
          Parts
        </TextButton>
      </div>
      <Suspense>
        {renaming !== null && Object.hasOwn(plan.setups, renaming) && (
          <RenameDialog
            title="Rename the setup"
            name={plan.setups[renaming].name}
            onRename={(name) => run({ type: 'renameSetup', setup: renaming, name })}
            onClose={() => setRenaming(null)}
          />
        )}
        {dialog === 'compare' && (
          <CompareDialog summaries={summaries} against={setupId} onClose={() => setDialog(null)} />
        )}
        {dialog === 'parts' && <PartsDialog onClose={() => setDialog(null)} />}
      </Suspense>
    </section>
  );
}

interface SetupButtonProps {
  readonly summary: SetupSummary;
  /** Beside the readings that every card has, those that tell these setups apart. */
  readonly telling: readonly CardReading[];
  readonly window: { widthMm: number; heightMm: number };
  readonly isCurrent: boolean;
  readonly against: SetupSummary | null;
}

function SetupButton({ summary, telling, window, isCurrent, against }: SetupButtonProps) {
  const { editor, units } = usePanel();
  const { readings, findings } = summary;
  const worst = worstOf(findings);
  const difference = against === null ? null : differenceOf(FLOOR_ROW, readings, against.readings, units);
  const [floor, rectangle, margin] = CARD_READINGS;
  /** A word and its number, with the spaces that whoever hears the card needs between them. */
  const told = (reading: CardReading | undefined) =>
    reading && (
      <span className="setup-reading">
        <span className="setup-key">{reading.word}</span> <span>{cardText(reading, readings, units)} </span>
      </span>
    );
  return (
    <button
      type="button"
      className="setup-button"
      aria-current={isCurrent ? 'true' : undefined}
      title={firstSentence(summary.note) || undefined}
      onClick={() => editor.chooseSetup(summary.id)}
    >
      <MiniPlan picture={summary.picture} window={window} deck={summary.deck} />
      <span className="setup-facts">
        <span className="setup-name">{summary.name || 'Unnamed setup'}</span>
        <span className="setup-line">
          {told(floor)}
          {difference !== null && difference.text !== 'same' && (
            <span className={`difference difference-${difference.sense}`}>
              {/* Its unit stands just before it. */}
              {difference.text.replace(/ \S+$/, '')}
              <span className="unseen"> against {against?.name}</span>{' '}
            </span>
          )}
          {told(telling[0])}
        </span>
        <span className="setup-line">{told(rectangle)}</span>
        <span className="setup-line">
          {told(margin)}
          {told(telling[1])}
        </span>
        <span className="setup-line">
          <span className="setup-worst">
            <StateMark state={worst.state} /> {worst.state !== 'clear' && `${worst.count} `}
            {STATE_WORDS[worst.state].toLowerCase()}{' '}
          </span>
          {told(telling[2])}
        </span>
      </span>
    </button>
  );
}
