/** All setups side by side: whether they play the same, what differs, readings with the best marked; pictures at one scale stay in sight. */
import { type CSSProperties, type ReactNode, useMemo, useState } from 'react';
import { compareReadings } from '../../../checks/compare.ts';
import { type Differences, differences } from '../../../checks/differences.ts';
import type { Plan } from '../../../plan/schema.ts';
import { kitMoveWords, partDifferenceWords, pieceWords } from '../../../words/differenceWords.ts';
import { listed } from '../../../words/names.ts';
import {
  bestOf,
  comparedReadings,
  differenceOf,
  READING_ROWS,
  rowText,
  type SetupReadings,
  worstOf,
} from '../../../words/readingRows.ts';
import { STATE_WORDS } from '../../../words/states.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { ChoiceField } from '../fields/WordField.tsx';
import { usePosesOf } from '../riser/useRiserPoses.ts';
import { groupBy } from '../shared/groupBy.ts';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { StateMark } from '../shared/StateMark.tsx';
import { unbroken } from '../shared/unbroken.ts';
import { MiniPlan } from './MiniPlan.tsx';
import { commonWindow, PICTURE_RATIO } from './picture.ts';
import { firstSentence, type SetupSummary } from './summary.ts';

const DIFFERENCE_ROWS: readonly { readonly label: string; lines(found: Differences, plan: Plan): string[] }[] = [
  { label: 'Pieces that differ', lines: ({ pieces }, plan) => pieces.map((one) => pieceWords(one, plan)) },
  { label: 'Parts added', lines: ({ partsAdded }, plan) => partsAdded.map((one) => partDifferenceWords(one, plan)) },
  {
    label: 'Parts removed',
    lines: ({ partsRemoved }, plan) => partsRemoved.map((one) => partDifferenceWords(one, plan)),
  },
];
/** Lines of a cell that stand at once; more are a press away, so that the readings stay near. */
const LINES_SHOWN = 4;

export interface CompareDialogProps {
  readonly summaries: readonly SetupSummary[];
  /** The setup that the others are held against at first. */
  readonly against: string;
  readonly onClose: () => void;
}

export function CompareDialog({ summaries, against, onClose }: CompareDialogProps) {
  const { plan, units } = usePanel();
  const [chosen, setChosen] = useState(against);
  const base = summaries.find(({ id }) => id === chosen) ?? summaries[0];
  const all = [base, ...summaries.filter(({ id }) => id !== base.id)];
  const window = commonWindow(
    all.map(({ picture }) => picture),
    PICTURE_RATIO,
  );
  const poses = usePosesOf(
    plan,
    summaries.map(({ id }) => id),
  );
  const readings = useMemo(() => {
    const of = (id: string) => {
      const { layout, checked } = liveOf(plan, id);
      return comparedReadings({ readings: compareReadings(plan, id, layout, checked), layout });
    };
    return new Map(summaries.map(({ id }) => [id, of(id)]));
  }, [plan, summaries]);
  const found = useMemo(
    () =>
      new Map(summaries.flatMap(({ id }) => (id === base.id ? [] : [[id, differences(plan, base.id, id)] as const]))),
    [plan, summaries, base.id],
  );
  const of = ({ id }: SetupSummary): SetupReadings => {
    const own = readings.get(id) ?? base.readings;
    const found = poses.get(id);
    return found ? { ...own, bestRiserPose: found.pose, bestRiserShift: found.shift } : own;
  };
  // A row that nobody has is left out.
  const rows = READING_ROWS.filter((row) => all.some((one) => rowText(row, of(one), units) !== '–'));
  const line = (label: string, cell: (summary: SetupSummary, at: number) => ReactNode, best?: readonly boolean[]) => (
    <tr key={label}>
      <th scope="row">{label}</th>
      {all.map((summary, at) => (
        <td key={summary.id} className={best?.[at] ? 'compare-best' : undefined}>
          {cell(summary, at)}
        </td>
      ))}
    </tr>
  );
  /** A row of what differs from the base, which itself says nothing. */
  const differing = (label: string, cell: (one: Differences) => ReactNode) =>
    line(label, ({ id }) => {
      const one = found.get(id);
      return one === undefined ? '–' : cell(one);
    });
  return (
    <PanelDialog title="Compare setups" onClose={onClose} wide>
      <div className="compare-head">
        <ChoiceField
          label="Differences against"
          value={base.id}
          choices={summaries.map(({ id, name }) => ({ id, label: name }))}
          onCommit={(id) => void setChosen(id)}
        />
        <p className="hint">
          <BestMark /> and bold: the best of its row.
        </p>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keys */}
      <section className="table-scroll compare-scroll" aria-label="Comparison" tabIndex={0}>
        <table className="compare" style={{ '--setups': all.length } as CSSProperties}>
          <thead>
            <tr>
              <td />
              {all.map((summary) => (
                <th key={summary.id} scope="col">
                  <MiniPlan picture={summary.picture} window={window} deck={summary.deck} />
                  {summary.name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {differing('Playing layout', (one) => (
              <PlayingLayout found={one} />
            ))}
            {[...found.values()].some(({ kit }) => kit !== null) &&
              differing('Whole kit', ({ kit }) => (kit === null ? 'where it was' : unbroken(kitMoveWords(kit, plan))))}
            {all.some(({ note }) => note !== '') && (
              <tr>
                <th scope="row">Note</th>
                {all.map(({ id, note }) => (
                  <td key={id} className="compare-note">
                    {note === '' ? '–' : <Note note={note} />}
                  </td>
                ))}
              </tr>
            )}
            {DIFFERENCE_ROWS.map(({ label, lines }) => differing(label, (one) => <Lines lines={lines(one, plan)} />))}
            {line('Findings', ({ findings }) => {
              const { state, count } = worstOf(findings);
              return (
                <>
                  <StateMark state={state} /> {count} {STATE_WORDS[state].toLowerCase()}
                </>
              );
            })}
            {rows.map((row) => {
              const best = bestOf(row, all.map(of), units);
              const cell = (summary: SetupSummary, at: number) => {
                const difference = summary === base ? null : differenceOf(row, of(summary), of(base), units);
                return (
                  <>
                    {best[at] && <BestMark />}
                    {rowText(row, of(summary), units)}
                    {best[at] && <span className="unseen"> (best)</span>}
                    {difference !== null && (
                      <span className={`difference difference-${difference.sense}`}>
                        {difference.text}
                        {difference.sense !== 'neither' && <span className="unseen"> ({difference.sense})</span>}
                      </span>
                    )}
                  </>
                );
              };
              return line(row.label, cell, best);
            })}
          </tbody>
        </table>
      </section>
    </PanelDialog>
  );
}

const BestMark = () => (
  <span className="best-mark" aria-hidden="true">
    ●{' '}
  </span>
);

function PlayingLayout({ found }: { readonly found: Differences }) {
  if (found.samePlayingLayout) return 'The same';
  const names = found.pieces.filter(({ id }) => found.playing.includes(id)).map(({ name }) => name);
  return (
    <>
      Not the same: <span className="playing-differences">{listed(names)}</span>
    </>
  );
}

/** A note's first sentence, the rest at a press. */
function Note({ note }: { readonly note: string }) {
  const first = firstSentence(note);
  const rest = note.trim().slice(first.length).trim();
  return (
    <>
      {first}
      {rest !== '' && (
        <details>
          <summary>More</summary>
          {rest}
        </details>
      )}
    </>
  );
}

function Lines({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0) return 'none';
  const counted = [...groupBy(lines, (line) => line)].map(([line, { length }]) =>
    length > 1 ? `${line} (${length} times)` : line,
  );
  // One more line takes no more room than the press that would show it.
  const shown = counted.length <= LINES_SHOWN + 1 ? counted.length : LINES_SHOWN;
  return (
    <>
      <List lines={counted.slice(0, shown)} />
      {shown < counted.length && (
        <details>
          <summary>{counted.length - shown} more</summary>
          <List lines={counted.slice(shown)} />
        </details>
      )}
    </>
  );
}

const List = ({ lines }: { readonly lines: readonly string[] }) => (
  <ul className="piece-differences">
    {lines.map((line) => (
      <li key={line}>{unbroken(line)}</li>
    ))}
  </ul>
);
