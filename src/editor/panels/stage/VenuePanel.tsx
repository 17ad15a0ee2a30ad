/** What the venue must bring, line by line; whom to ask; which revision of the sheets this is. */

import { ListPlus, Plus } from 'lucide-react';
import { LIMITS } from '../../../plan/schema.ts';
import { proposedVenueLines } from '../../../words/stageWords.ts';
import { usePanel } from '../../state/panelContext.ts';
import { FieldRow, FieldRows } from '../fields/FieldRows.tsx';
import { PLAN } from '../riser/planFields.ts';
import { TextButton } from '../shared/TextButton.tsx';
import { VENUE_LINE } from './listFields.ts';
import { RowButtons } from './RowButtons.tsx';
import { useLines } from './useLines.ts';
import { useLists } from './useLists.ts';

export function VenuePanel() {
  const panel = usePanel();
  const { plan, setup, setupId, units, isReadOnly } = panel;
  const { now, write } = useLists();
  const lines = setup.venueProvides ?? [];
  const list = (): readonly string[] => now().setup.venueProvides ?? [];
  const put = (next: readonly string[]) => write({ venueProvides: next.length > 0 ? [...next] : null });
  // Lines have no ids: a row is known by its place.
  const { rows, said, remove, add } = useLines<string>({
    list,
    put,
    idOf: (_, at) => String(at),
    whenMoved: (_, from, to) => `Line ${from + 1} is line ${to + 1} now.`,
    whenGone: (_, at) => `Line ${at + 1} is gone.`,
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
                  <FieldRow
                    table={VENUE_LINE}
                    row={VENUE_LINE.sections.line[0]}
                    of={{ setupId, list, at, line }}
                    whose={`line ${at + 1}`}
                  />
                </span>
                <span data-col="act">
                  <RowButtons
                    what={`line ${at + 1}`}
                    isFirst={at === 0}
                    isLast={at === lines.length - 1}
                    isReadOnly={isReadOnly}
                    onMove={(by) => rows.move(String(at), by, by < 0 ? 'up' : 'down')}
                    onRemove={() => remove(at)}
                  />
                </span>
              </li>
            ))}
          </ol>
        </div>
      )}
      <div className="parts-head">
        <TextButton
          icon={Plus}
          isDisabled={isReadOnly || lines.length >= LIMITS.venueLines}
          onPress={() => add('To be provided', 'line')}
        >
          Add a line
        </TextButton>
        <TextButton
          icon={ListPlus}
          isDisabled={isReadOnly || fresh.length === 0}
          onPress={() => void put([...list(), ...fresh].slice(0, LIMITS.venueLines))}
        >
          Add what the plan says
        </TextButton>
        <span role="status">{said}</span>
      </div>
      <div className="venue-fields">
        <FieldRows table={PLAN} section="contact" of={panel} />
        <FieldRows table={PLAN} section="revision" of={panel} />
      </div>
    </>
  );
}
