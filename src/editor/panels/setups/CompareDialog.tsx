/** All setups side by side: pictures at one scale, readings with their differences, pieces that differ. */
import { useMemo, useState } from 'react';
import { type PartRow, partsOf } from '../../../checks/parts.ts';
import { differenceOf, READING_ROWS, rowText, worstOf } from '../../../drawing/readingRows.ts';
import { gearOf } from '../../../gear/catalogue.ts';
import { layoutSetup } from '../../../layout/layout.ts';
import { formatAngle, formatLength } from '../../../units.ts';
import { ChoiceField } from '../fields/WordField.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { usePanel } from '../shared/panelContext.ts';
import { STATE_WORDS, StateMark } from '../shared/StateMark.tsx';
import { MiniPlan } from './MiniPlan.tsx';
import { partDifferences } from './partDifferences.ts';
import { commonWindow, PICTURE_RATIO } from './picture.ts';
import { type PieceDifference, pieceDifferences } from './pieceDifferences.ts';
import { fullReadings, type SetupSummary } from './summary.ts';

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
  const parts = useMemo(() => new Map(summaries.map(({ id }) => [id, partsOf(plan, id).all])), [plan, summaries]);
  const of = ({ id }: SetupSummary) => readings.get(id) ?? base.readings;
  // A row that nobody has is left out.
  const rows = READING_ROWS.filter((row) => all.some((one) => rowText(row, of(one), units) !== '–'));
  const partWords = (row: PartRow) => {
    const gear = gearOf(plan.gear, row.gear);
    const usual = gear !== undefined && 'cutLengthMm' in gear ? gear.cutLengthMm : undefined;
    // A tube as it is sold has its length in its name.
    return row.cutLength === null || row.cutLength === usual
      ? row.label
      : `${row.label}, ${formatLength(row.cutLength, units)}`;
  };
  const words = (difference: PieceDifference): string => {
    const parts = [];
    if (difference.movedMm > 0) parts.push(`moved ${formatLength(difference.movedMm, units)}`);
    if (difference.turnedDeg !== 0) parts.push(`turned ${formatAngle(Math.abs(difference.turnedDeg))}`);
    parts.push(...difference.changes);
    return `${difference.name}: ${parts.length === 0 ? difference.what : parts.join(', ')}`;
  };
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
            <tr>
              <th scope="row">Pieces that differ</th>
              {all.map((summary) => {
                if (summary === base) return <td key={summary.id}>–</td>;
                const differences = pieceDifferences(plan.setups[base.id], plan.setups[summary.id]);
                return (
                  <td key={summary.id}>
                    {differences.length === 0 ? (
                      'none'
                    ) : (
                      <ul className="piece-differences">
                        {differences.map((difference) => (
                          <li key={`${difference.what} ${difference.id}`}>{words(difference)}</li>
                        ))}
                      </ul>
                    )}
                  </td>
                );
              })}
            </tr>
            <tr>
              <th scope="row">Parts that differ</th>
              {all.map((summary) => {
                if (summary === base) return <td key={summary.id}>–</td>;
                const differences = partDifferences(parts.get(base.id) ?? [], parts.get(summary.id) ?? []);
                return (
                  <td key={summary.id}>
                    {differences.length === 0 ? (
                      'none'
                    ) : (
                      <ul className="piece-differences">
                        {differences.map(({ key, row, more }) => (
                          <li key={key}>
                            {more > 0 ? `+${more}` : `−${-more}`} {partWords(row)}
                          </li>
                        ))}
                      </ul>
                    )}
                  </td>
                );
              })}
            </tr>
          </tbody>
        </table>
      </section>
    </PanelDialog>
  );
}
