/** What the checks say: worst first, each with its state as shape and word, its number and its limit. */
import { useId, useMemo, useState } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { countByState, type Finding, type State } from '../../../checks/finding.ts';
import { flaggedFindings } from '../../../drawing/names.ts';
import { checkWord, findingSentence } from '../../../words/sentences.ts';
import { STATE_MEANS, STATE_WORDS, STATES } from '../../../words/states.ts';
import { type FindingRow, findingGroups, findingKey, MOST_FLAGS, MOST_ROWS } from '../../state/findingRows.ts';
import { liveOf } from '../../state/live.ts';
import { usePanel } from '../../state/panelContext.ts';
import { useEditor } from '../../state/store.ts';
import { SearchBox } from '../shared/SearchBox.tsx';
import { StateMark } from '../shared/StateMark.tsx';
import './findings.css';
import { unbroken } from '../shared/unbroken.ts';

/** What is well is closed until asked for beside troubles; alone, only what is beyond this. */
const CLEAR_SHOWN = 6;

export function FindingsList() {
  const { editor, plan, setupId } = usePanel();
  const { findings } = liveOf(plan, setupId).checked;
  const finding = useEditor(editor, (state) => state.finding);
  // A drag works everything out anew: the same finding is told by what it says, not by which object says it.
  const selected = finding === null ? undefined : findings.find((one) => findingKey(one) === finding);
  const onSelect = (one: Finding | null) => {
    editor.select(one === null ? [] : one.pieces);
    editor.set({ finding: one === null ? null : findingKey(one) });
  };
  const sentenceOf = useMemo(() => (one: Finding) => findingSentence(one, plan, setupId), [plan, setupId]);
  /** The numbers on the findings' flags on the drawing. */
  const numbers = useMemo(
    () => new Map<Finding, number>(flaggedFindings(findings).map((one, k) => [one, k + 1])),
    [findings],
  );
  const numberOf = (one: Finding) => {
    const number = numbers.get(one) ?? null;
    return number !== null && (number <= MOST_FLAGS || one === selected) ? number : null;
  };
  const [query, setQuery] = useState('');
  const [only, setOnly] = useState<ReadonlySet<State>>(new Set());
  /** States of which every row is shown. */
  const [whole, setWhole] = useState<ReadonlySet<State>>(new Set());
  const groups = useMemo(() => findingGroups(findings, sentenceOf, query, only), [findings, sentenceOf, query, only]);
  const counts = countByState(findings);
  const troubles = counts.blocked + counts.tight + counts.unmeasured;
  const isFiltered = query.trim() !== '' || only.size > 0;
  return (
    <div className="findings">
      <p role="status" className="findings-summary">
        {findings.length === 0 ? (
          'Nothing is checked yet: add a piece.'
        ) : troubles === 0 ? (
          <>
            <StateMark state="clear" /> Everything is clear: {counts.clear} checked.
          </>
        ) : (
          STATES.filter((state) => counts[state] > 0).map((state) => (
            <span key={state} className="findings-count">
              <StateMark state={state} /> {counts[state]} {STATE_WORDS[state].toLowerCase()}
            </span>
          ))
        )}
      </p>
      <div className="findings-filter">
        <SearchBox label="Find in the findings" placeholder="Find" value={query} onChange={setQuery} />
        <ToggleButtonGroup
          className="state-filter"
          aria-label="Show only"
          selectionMode="multiple"
          selectedKeys={only}
          onSelectionChange={(keys) => setOnly(keys as Set<State>)}
        >
          {STATES.map((state) => (
            <ToggleButton
              key={state}
              id={state}
              className="icon-button"
              aria-label={`Only ${STATE_WORDS[state].toLowerCase()}`}
            >
              <StateMark state={state} />
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
      </div>
      {numbers.size > MOST_FLAGS && (
        <p className="panel-empty">The drawing shows the first {MOST_FLAGS} flags, and that of a finding you choose.</p>
      )}
      {groups.length === 0 && isFiltered && <p className="panel-empty">No finding is like that.</p>}
      {groups.map(({ state, rows }) => {
        const most = state === 'clear' && !isFiltered ? (troubles > 0 ? 0 : CLEAR_SHOWN) : MOST_ROWS;
        const shown = whole.has(state) ? rows : rows.filter((row, k) => k < most || row.finding === selected);
        return (
          <Group key={state} state={state} count={rows.length}>
            {shown.map((row) => (
              <Row
                key={row.key}
                row={row}
                number={numberOf(row.finding)}
                isSelected={row.finding === selected}
                onSelect={onSelect}
              />
            ))}
            {shown.length < rows.length && (
              <li>
                <button
                  type="button"
                  className="button button-quiet"
                  onClick={() => setWhole(new Set([...whole, state]))}
                >
                  Show all {rows.length}
                  <span className="unseen"> that are {STATE_WORDS[state].toLowerCase()}</span>
                </button>
              </li>
            )}
          </Group>
        );
      })}
    </div>
  );
}

function Group(props: { readonly state: State; readonly count: number; readonly children: React.ReactNode }) {
  const id = useId();
  return (
    <section aria-labelledby={id}>
      <h3 id={id} title={STATE_MEANS[props.state]}>
        {STATE_WORDS[props.state]} <span className="count">{props.count}</span>
      </h3>
      <ul>{props.children}</ul>
    </section>
  );
}

interface RowProps {
  readonly row: FindingRow;
  readonly number: number | null;
  readonly isSelected: boolean;
  readonly onSelect: (finding: Finding | null) => void;
}

function Row({ row, number, isSelected, onSelect }: RowProps) {
  const { finding, sentence } = row;
  return (
    <li>
      <button
        type="button"
        className="finding-row"
        aria-pressed={isSelected}
        onClick={() => onSelect(isSelected ? null : finding)}
      >
        <StateMark state={finding.state} spoken />
        {number !== null && <span className="finding-number">{number}</span>}
        <span className="finding-check">{checkWord(finding.check)} </span>
        <span className="finding-sentence">{unbroken(sentence)} </span>
        <span className="finding-source">{finding.source}</span>
      </button>
    </li>
  );
}
