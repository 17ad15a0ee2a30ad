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
import { lazy, Suspense, useState } from 'react';
import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { differenceOf, worstOf } from '../../../words/readingRows.ts';
import { STATE_WORDS } from '../../../words/states.ts';
import { usePanel } from '../../state/panelContext.ts';
import { freeId, freeName } from '../gear/newPiece.ts';
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
  tellingReadings,
} from './summary.ts';
import './setups.css';

/** Come when they are asked for. */
const RenameDialog = lazy(async () => ({ default: (await import('./RenameDialog.tsx')).RenameDialog }));
const CompareDialog = lazy(async () => ({ default: (await import('./CompareDialog.tsx')).CompareDialog }));
const PartsDialog = lazy(async () => ({ default: (await import('../parts/PartsDialog.tsx')).PartsDialog }));

export interface SetupsStripProps {
  readonly summaries: readonly SetupSummary[];
  readonly onChoose: (setupId: string) => void;
}

const FLOOR_ROW = CARD_READINGS[0].row;

export function SetupsStrip({ summaries, onChoose }: SetupsStripProps) {
  const { plan, setupId, units, run, isReadOnly } = usePanel();
  const [renaming, setRenaming] = useState<string | null>(null);
  const [dialog, setDialog] = useState<'compare' | 'parts' | null>(null);
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
    if (run({ type: 'addSetup', setup: { id, name, riser, pieces: {}, order: [] } }) === null) onChoose(id);
  };
  const duplicate = (id: string) => {
    const copy = freeId(`${id.replace(/-copy(-\d+)?$/, '').slice(0, 60)}-copy`, Object.keys(plan.setups));
    const name = freeName(`${plan.setups[id].name.slice(0, 100)} (copy)`, names);
    if (run({ type: 'duplicateSetup', setup: id, id: copy, name }) === null) onChoose(copy);
  };
  const remove = (id: string) => {
    const at = plan.order.indexOf(id);
    const next = plan.order[at === 0 ? 1 : at - 1];
    if (id === setupId && next !== undefined) onChoose(next);
    run({ type: 'removeSetup', setup: id });
  };
  const actions: Record<string, (id: string) => void> = {
    rename: setRenaming,
    duplicate,
    mirror: (id) => void run({ type: 'mirrorSetup', setup: id, axisXMm: 0 }),
    earlier: (id) => move(id, -1),
    later: (id) => move(id, 1),
    remove,
  };

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
              onChoose={onChoose}
            />
            <MenuTrigger>
              <Button
                className="icon-button setup-menu"
                aria-label={`Actions for ${summary.name}`}
                isDisabled={isReadOnly}
              >
                <Ellipsis />
              </Button>
              <Popover className="popover">
                <Menu
                  className="menu"
                  onAction={(key) => actions[key as string](summary.id)}
                  disabledKeys={[
                    ...(at === 0 ? ['earlier'] : []),
                    ...(at === summaries.length - 1 ? ['later'] : []),
                    ...(summaries.length === 1 ? ['remove'] : []),
                  ]}
                >
                  <MenuItem id="rename" className="menu-item">
                    <Pencil aria-hidden="true" /> Rename …
                  </MenuItem>
                  <MenuItem id="duplicate" className="menu-item">
                    <Copy aria-hidden="true" /> Duplicate
                  </MenuItem>
                  <MenuItem id="mirror" className="menu-item">
                    <FlipHorizontal2 aria-hidden="true" /> Mirror left and right
                  </MenuItem>
                  <MenuItem id="earlier" className="menu-item">
                    <ArrowLeft aria-hidden="true" /> Move left
                  </MenuItem>
                  <MenuItem id="later" className="menu-item">
                    <ArrowRight aria-hidden="true" /> Move right
                  </MenuItem>
                  <MenuItem id="remove" className="menu-item">
                    <Trash2 aria-hidden="true" /> Remove
                  </MenuItem>
                </Menu>
              </Popover>
            </MenuTrigger>
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
  readonly onChoose: (setupId: string) => void;
}

function SetupButton({ summary, telling, window, isCurrent, against, onChoose }: SetupButtonProps) {
  const { units } = usePanel();
  const { readings, findings } = summary;
  const worst = worstOf(findings);
  const difference = against === null ? null : differenceOf(FLOOR_ROW, readings, against.readings, units);
  const left = (key: string) => {
    const found = CARD_READINGS.find(({ row }) => row.key === key)!;
    return <Reading word={found.word} text={cardText(found, readings, units)} />;
  };
  /** At the end of a line: what tells these setups apart. */
  const right = (at: number) => {
    const found = telling[at];
    return found && <Reading word={found.word} text={cardText(found, readings, units)} />;
  };
  return (
    <button
      type="button"
      className="setup-button"
      aria-current={isCurrent ? 'true' : undefined}
      title={firstSentence(summary.note) || undefined}
      onClick={() => onChoose(summary.id)}
    >
      <MiniPlan picture={summary.picture} window={window} deck={summary.deck} />
      <span className="setup-facts">
        <span className="setup-name">{summary.name || 'Unnamed setup'}</span>
        <span className="setup-line">
          {left('floor')}
          {difference !== null && difference.text !== 'same' && (
            <span className={`difference difference-${difference.sense}`}>
              {/* Its unit stands just before it. */}
              {difference.text.replace(/ \S+$/, '')}
              <span className="unseen"> against {against?.name}</span>{' '}
            </span>
          )}
          {right(0)}
        </span>
        <span className="setup-line">{left('rectangle')}</span>
        <span className="setup-line">
          {left('margin')}
          {right(1)}
        </span>
        <span className="setup-line">
          <span className="setup-worst">
            <StateMark state={worst.state} /> {worst.state !== 'clear' && `${worst.count} `}
            {STATE_WORDS[worst.state].toLowerCase()}{' '}
          </span>
          {right(2)}
        </span>
      </span>
    </button>
  );
}

/** A word and its number, with the spaces that whoever hears the card needs between them. */
const Reading = ({ word, text }: { readonly word: string; readonly text: string }) => (
  <span className="setup-reading">
    <span className="setup-key">{word}</span> <span>{text} </span>
  </span>
);
