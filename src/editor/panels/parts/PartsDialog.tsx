/** What the current setup is made of, by unit that travels; and whether it can be built from what is owned. */

import { Copy } from 'lucide-react';
import { Suspense, useMemo, useState } from 'react';
import { type PartRow, partKey, partsOf } from '../../../checks/parts.ts';
import { own } from '../../../plan/places.ts';
import { pieceName } from '../../../words/names.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow } from '../fields/FieldRows.tsx';
import { PLAN } from '../riser/planFields.ts';
import { lazyPart } from '../shared/lazyPart.tsx';
import { PanelDialog } from '../shared/PanelDialog.tsx';
import { TabSet } from '../shared/TabSet.tsx';
import { TextButton } from '../shared/TextButton.tsx';
import { PriceCells } from './PriceCells.tsx';
import { PART } from './partFields.ts';
import { costText, cutText, massText, partsText, sumText } from './partsText.ts';
import './parts.css';

const StockPanel = lazyPart(async () => (await import('./StockPanel.tsx')).StockPanel);

export function PartsDialog({ onClose }: { readonly onClose: () => void }) {
  const { setup } = usePanel();
  return (
    <PanelDialog title={`Parts of ${setup.name || 'the setup'}`} onClose={onClose} wide>
      <TabSet
        label="Parts"
        panelClass="parts-panel"
        tabs={[
          { id: 'parts', name: 'Parts', panel: <PartsTable /> },
          {
            id: 'stock',
            name: 'Built from what you own',
            panel: (
              <Suspense fallback={<p className="hint">One moment …</p>}>
                <StockPanel />
              </Suspense>
            ),
          },
        ]}
      />
    </PanelDialog>
  );
}

function PartsTable() {
  const panel = usePanel();
  const { plan, setupId } = panel;
  const parts = useMemo(() => partsOf(plan, setupId), [plan, setupId]);
  const cost = costText(parts.all, plan);
  const [copied, setCopied] = useState<string | null>(null);
  const copy = () =>
    navigator.clipboard.writeText(partsText(plan, setupId, parts)).then(
      () => setCopied('Copied.'),
      () => setCopied('The browser did not let this page copy: select the table and copy it by hand.'),
    );
  if (parts.all.length === 0) return <p className="hint">Nothing stands in this setup yet.</p>;
  return (
    <>
      <div className="parts-head">
        <p>
          Together {sumText(parts, plan)}
          {cost === '' ? '' : `, ${cost}`}. Tubes are computed from their section and cut length, the rest is typical or
          as you measured it.
        </p>
        <TextButton icon={Copy} onPress={() => void copy()}>
          Copy as text
        </TextButton>
        <span role="status">{copied}</span>
        <FieldRow table={PLAN} row={PLAN.sections.currency[0]} of={panel} />
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keys */}
      <section className="table-scroll" aria-label="Parts by unit" tabIndex={0}>
        <table className="parts-table">
          <thead>
            <tr>
              <th scope="col">Count</th>
              <th scope="col">Part</th>
              <th scope="col">Cut length</th>
              <th scope="col">Mass</th>
              <th scope="col">Price for one</th>
              <th scope="col">Note</th>
            </tr>
          </thead>
          {parts.units.map((unit) => (
            <tbody key={unit.id}>
              <tr className="parts-unit">
                <th scope="rowgroup" colSpan={3}>
                  {pieceName(plan, setupId, unit.id)}
                </th>
                <td>{sumText(unit, plan)}</td>
                <td colSpan={2}>{costText(unit.parts, plan)}</td>
              </tr>
              {unit.parts.map((row) => (
                <Row key={partKey(row)} row={row} />
              ))}
            </tbody>
          ))}
        </table>
      </section>
    </>
  );
}

function Row({ row }: { readonly row: PartRow }) {
  const { plan } = usePanel();
  return (
    <tr>
      <td>{row.count}</td>
      <td>{row.label}</td>
      <td>{cutText(row, plan)}</td>
      <td>{massText(row, plan)}</td>
      <PriceCells
        table={PART}
        of={{ what: row.label, gear: row.gear, own: own(plan.partNotes ?? {}, row.gear) ?? {} }}
      />
    </tr>
  );
}
