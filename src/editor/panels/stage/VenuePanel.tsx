/** What the venue must bring, line by line; whom to ask; which revision of the sheets this is. */

import { ListPlus, Plus } from 'lucide-react';
import { useState } from 'react';
import { Button } from 'react-aria-components';
import { LIMITS } from '../../../plan/schema.ts';
import { proposedVenueLines } from '../../../words/stageWords.ts';
import { usePanel } from '../../state/panelContext.ts';
import { WordField } from '../fields/WordField.tsx';
import { ContactField } from '../riser/ContactField.tsx';
import { moved } from './listEdits.ts';
import { RowButtons } from './RowButtons.tsx';
import { useLists } from './useLists.ts';
import { useRows } from './useRows.ts';

export function VenuePanel() {
  const { plan, setup, units, run, isReadOnly } = usePanel();
  const { now, write } = useLists();
  const [said, setSaid] = useState('');
  const lines = setup.venueProvides ?? [];
  const list = (): readonly string[] => now().setup.venueProvides ?? [];
  const put = (next: readonly string[]) => write({ venueProvides: next.length > 0 ? [...next] : null });
  // Lines have no ids: a row is known by its place.
  const rows = useRows((row, by) => {
    const at = Number(row);
    const next = moved(list(), at, by);
    if (next === list()) return null;
    put(next);
    setSaid(`Line ${at + 1} is line ${at + by + 1} now.`);
    return String(at + by);
  });
  const fresh = proposedVenueLines(plan, setup, units).filter((line) => !lines.includes(line));
  return (
    <>
      {lines.length === 0 ? (
        <p className="hint">Nothing asked of the venue yet.</p>
      ) : (
        <div ref={rows.box} onKeyDownCapture={rows.onKeyDownCapture}>
          <ol className="venue-lines" aria-label="The venue provides">
            {lines.map((line, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a line is its place in the list
              <li key={at} data-row={at}>
                <span className="row-number" aria-hidden="true">
                  {at + 1}
                </span>
                <span data-col="line" className="venue-line">
                  <WordField
                    label={`The venue provides, line ${at + 1}`}
                    hideLabel
                    value={line}
                    most={120}
                    isReadOnly={isReadOnly}
                    onCommit={(text) => put(list().toSpliced(at, 1, text))}
                  />
                </span>
                <span data-col="act">
                  <RowButtons
                    what={`line ${at + 1}`}
                    isFirst={at === 0}
                    isLast={at === lines.length - 1}
                    isReadOnly={isReadOnly}
                    onMove={(by) => rows.move(String(at), by, by < 0 ? 'up' : 'down')}
                    onRemove={() => {
                      put(list().toSpliced(at, 1));
                      if (lines.length > 1) rows.keep({ row: String(Math.min(at, lines.length - 2)), col: 'remove' });
                      setSaid(`Line ${at + 1} is gone.`);
                    }}
                  />
                </span>
              </li>
            ))}
          </ol>
        </div>
      )}
      <div className="parts-head">
        <Button
          className="button"
          isDisabled={isReadOnly || lines.length >= LIMITS.venueLines}
          onPress={() => {
            rows.keep({ row: String(lines.length), col: 'line' });
            put([...list(), 'To be provided']);
          }}
        >
          <Plus aria-hidden="true" /> Add a line
        </Button>
        <Button
          className="button"
          isDisabled={isReadOnly || fresh.length === 0}
          onPress={() => void put([...list(), ...fresh].slice(0, LIMITS.venueLines))}
        >
          <ListPlus aria-hidden="true" /> Add what the plan says
        </Button>
        <span role="status">{said}</span>
      </div>
      <div className="venue-fields">
        <ContactField />
        <WordField
          label="Revision of the sheets"
          value={plan.revision ?? ''}
          most={20}
          mayBeEmpty
          isReadOnly={isReadOnly}
          placeholder="A"
          onCommit={(revision) => run({ type: 'setNotes', revision: revision === '' ? null : revision })}
        />
      </div>
    </>
  );
}
