/** The power drops of the setup: what each gives, what hangs on it, and the sum. */
import { powerOf } from '../../../lists/power.ts';
import { stageItems } from '../../../lists/stageItems.ts';
import type { Item } from '../../../plan/schema.ts';
import { formatNumber } from '../../../units.ts';
import { powerText } from '../../../words/stageWords.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow } from '../fields/FieldRows.tsx';
import { STAGE_ITEM } from './itemFields.ts';

type Power = NonNullable<Item['power']>;

export function PowerTable() {
  const panel = usePanel();
  const { plan, setup } = panel;
  const drops = stageItems(plan, setup, 'power');
  return (
    <>
      {drops.length > 0 && (
        <table className="row-table power-table">
          <caption className="unseen">Power drops of {setup.name}</caption>
          <thead>
            <tr>
              <th scope="col">Power drop</th>
              {STAGE_ITEM.sections.power.map(({ label }) => (
                <th key={label} scope="col">
                  {label}
                </th>
              ))}
              <th scope="col">Current</th>
            </tr>
          </thead>
          <tbody>
            {drops.map((drop) => (
              <tr key={drop.id}>
                <th scope="row">{drop.name || drop.gear}</th>
                {STAGE_ITEM.sections.power.map((row) => (
                  <td key={row.path} data-label={row.label}>
                    <FieldRow
                      table={STAGE_ITEM}
                      row={row}
                      of={{ ...panel, item: drop, use: 'power' }}
                      whose={drop.name || drop.gear}
                    />
                  </td>
                ))}
                <td data-label="Current">{currentText(drop.power)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="stock-answer">{powerText(powerOf(plan, drops))}</p>
      <p className="hint">
        {drops.length === 0 && 'Put a power drop on the drawing from the gear drawer, under “On the stage”. '}
        Currents are load over voltage, without what motors and amplifiers draw when they start. Electricity on a stage
        can kill: the venue’s electrician and local rules decide what may be plugged in where.
      </p>
    </>
  );
}

const currentText = (power: Power | undefined): string =>
  power === undefined || power.loadW === null ? 'not known' : `${formatNumber(power.loadW / power.volts)} A`;
