/** All setups side by side: whether they play the same, pictures at one scale, readings and their differences, pieces and parts. */
import { useMemo, useState } from 'react';
import { type Differences, differences } from '../../../checks/differences.ts';
import { partDifferenceWords, pieceWords } from '../../../drawing/differenceWords.ts';
import { differenceOf, READING_ROWS, rowText, worstOf } from '../../../drawing/readingRows.ts';
import { layoutSetup } from '../../../layout/layout.ts';
import type { Plan } from '../../../plan/schema.ts';
import { ChoiceField } from '../fields/WordField.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { usePanel } from '../shared/panelContext.ts';
import { STATE_WORDS, StateMark } from '../shared/StateMark.tsx';
import { MiniPlan } from './MiniPlan.tsx';
import { commonWindow, PICTURE_RATIO } from './picture.ts';
import { fullReadings, type SetupSummary } from './summary.ts';

const DIFFERENCE_ROWS: readonly { readonly label: string; lines(found: Differences, plan: Plan): string[] }[] = [
  { label: 'Pieces that differ', lines: ({ pieces }, plan) => pieces.map((one) => pieceWords(one, plan)) },
  { label: 'Parts added', lines: ({ partsAdded }, plan) => partsAdded.map((one) => partDifferenceWords(one, plan)) },
  {
    label: 'Parts removed',
    lines: ({ partsRemoved }, plan) => partsRemoved.map((one) => partDifferenceWords(one, plan)),
  },
];

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
  const others = summaries.filter(({ id }) => id !== base.id);
  const all = [base, ...others];
  const window = commonWindow(
    all.map(({ picture }) => picture),
    PICTURE_RATIO,
  );
  const readings = useMemo(
    () => new Map(summaries.map((one) => [one.id, fullReadings(plan, one, layoutSetup(plan, one.id))])),
    [plan, summaries],
  );
  const found = useMemo(
    () =>
      new Map(summaries.flatMap(({ id }) => (id === base.id ? [] : [[id, differences(plan, base.id, id)] as const]))),
    [plan, summaries, base.id],
  );
  const of = ({ id }: SetupSummary) => readings.get(id) ?? base.readings;
  // A row that nobody has is left out.
  const rows = READING_ROWS.filter((row) => all.some((one) => rowText(row, of(one), units) !== '–'));
  return (
    <PanelDialog title="Compare setups" onClose={onClose} wide>
      <div className="compare-against">
        <ChoiceField
          label="Differences against"
          value={base.id}
          choices={summaries.map(({ id, name }) => ({ id, label: name }))}
          onCommit={(id) => {
            setChosen(id);
            return null;
          }}
        />
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keys */}
      <section className="table-scroll" aria-label="Comparison" tabIndex={0}>
        <table className="compare">
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
            <tr>
              <th scope="row">Playing layout</th>
              {all.map(({ id }) => {
                const one = found.get(id);
                return <td key={id}>{one === undefined ? '–' : <PlayingLayout found={one} />}</td>;
              })}
            </tr>
            {rows.map((row) => (
              <tr key={row.key}>
                <th scope="row">{row.label}</th>
                {all.map((summary) => {
                  const difference = summary === base ? null : differenceOf(row, of(summary), of(base), units);
                  return (
                    <td key={summary.id}>
                      {rowText(row, of(summary), units)}
                      {difference !== null && (
                        <span className={`difference difference-${difference.sense}`}>
                          {difference.text}
                          {difference.sense !== 'neither' && <span className="unseen"> ({difference.sense})</span>}
                        </span>
                      )}
                    </td>
                  );
                })}
              </tr>
            ))}
            <tr>
              <th scope="row">Findings</th>
              {all.map(({ id, findings }) => {
                const worst = worstOf(findings);
                return (
                  <td key={id}>
                    <StateMark state={worst.state} /> {worst.count} {STATE_WORDS[worst.state].toLowerCase()}
                  </td>
                );
              })}
            </tr>
            {DIFFERENCE_ROWS.map(({ label, lines }) => (
              <tr key={label}>
                <th scope="row">{label}</th>
                {all.map(({ id }) => {
                  const one = found.get(id);
                  return <td key={id}>{one === undefined ? '–' : <Lines lines={lines(one, plan)} />}</td>;
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </PanelDialog>
  );
}

function PlayingLayout({ found }: { readonly found: Differences }) {
  if (found.samePlayingLayout) return 'The same';
  const names = found.pieces.filter(({ id }) => found.playing.includes(id)).map(({ name }) => name);
  return (
    <>
      Not the same: <span className="playing-differences">{names.join(', ')}</span>
    </>
  );
}

function Lines({ lines }: { readonly lines: readonly string[] }) {
  if (lines.length === 0) return 'none';
  const counts = new Map<string, number>();
  for (const line of lines) counts.set(line, (counts.get(line) ?? 0) + 1);
  return (
    <ul className="piece-differences">
      {[...counts].map(([line, count]) => (
        <li key={line}>{count > 1 ? `${line} (${count} times)` : line}</li>
      ))}
    </ul>
  );
}
