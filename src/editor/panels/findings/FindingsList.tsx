/** What the checks say: worst first, each with its state as shape and word, its number and its limit. */
import { Search, X } from 'lucide-react';
import { useMemo, useState } from 'react';
import {
  Button,
  Header,
  Input,
  Label,
  ListBoxItem,
  ListBoxSection,
  SearchField,
  ToggleButton,
  ToggleButtonGroup,
} from 'react-aria-components';
import { countByState, type Finding, type State } from '../../../checks/finding.ts';
import { checkWord } from '../../../words/sentences.ts';
import { STATE_MEANS, STATE_WORDS, STATES } from '../../../words/states.ts';
import { type FindingRow, findingGroups } from '../../state/findingRows.ts';
import { PickList } from '../shared/PickList.tsx';
import { StateMark } from '../shared/StateMark.tsx';
import './findings.css';

export interface FindingsListProps {
  readonly findings: readonly Finding[];
  readonly sentenceOf: (finding: Finding) => string;
  readonly selected: Finding | null;
  readonly onSelect: (finding: Finding | null) => void;
  /** The number on a finding's flag on the drawing; null where it has none. */
  readonly numberOf?: (finding: Finding) => number | null;
}

/** What is well is closed until asked for beside troubles; alone, only what is beyond this. */
const CLEAR_SHOWN = 6;

export function FindingsList({ findings, sentenceOf, selected, onSelect, numberOf }: FindingsListProps) {
  const [query, setQuery] = useState('');
  const [only, setOnly] = useState<ReadonlySet<State>>(new Set());
  const [allClear, setAllClear] = useState(false);
  const groups = useMemo(() => findingGroups(findings, sentenceOf, query, only), [findings, sentenceOf, query, only]);
  const counts = countByState(findings);
  const troubles = counts.blocked + counts.tight + counts.unmeasured;
  const isFiltered = query.trim() !== '' || only.size > 0;
  const isFolded = !allClear && !isFiltered;
  const shown = groups.map(({ state, rows }) => ({
    state,
    count: rows.length,
    rows: state === 'clear' && isFolded ? rows.slice(0, troubles > 0 ? 0 : CLEAR_SHOWN) : rows,
  }));
  const folded = shown.find(({ rows, count }) => rows.length < count)?.count ?? 0;
  const chosen = rowsOf(groups).find((row) => row.finding === selected);
  return (
    <div className="findings">
      <p role="status" className="findings-summary">
        {troubles === 0 ? (
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
        <SearchField className="search" value={query} onChange={setQuery} aria-label="Find in the findings">
          <Search aria-hidden="true" className="search-icon" />
          <Label className="unseen">Find in the findings</Label>
          <Input className="field-input" placeholder="Find" />
          <Button className="icon-button search-clear" aria-label="Clear the search">
            <X />
          </Button>
        </SearchField>
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
      {groups.length === 0 && isFiltered && <p className="panel-empty">No finding is like that.</p>}
      <PickList
        aria-label="Findings"
        count={shown.reduce((sum, { rows }) => sum + rows.length, 0)}
        selectionMode="single"
        selectedKeys={chosen === undefined ? [] : [chosen.key]}
        onSelectionChange={(keys) => {
          const [key] = keys as Set<string>;
          onSelect(rowsOf(groups).find((row) => row.key === key)?.finding ?? null);
        }}
      >
        {shown.map(({ state, rows, count }) => (
          <ListBoxSection key={state} id={state}>
            <Header className="findings-state" title={STATE_MEANS[state]}>
              {STATE_WORDS[state]} <span className="count">{count}</span>
            </Header>
            {rows.map((row) => (
              <Row key={row.key} row={row} number={numberOf?.(row.finding) ?? null} />
            ))}
          </ListBoxSection>
        ))}
      </PickList>
      {folded > 0 && (
        <div className="findings-more">
          <button type="button" className="button button-quiet" onClick={() => setAllClear(true)}>
            Show all {folded}
            <span className="unseen"> that are clear</span>
          </button>
        </div>
      )}
    </div>
  );
}

const rowsOf = (groups: readonly { readonly rows: readonly FindingRow[] }[]) => groups.flatMap(({ rows }) => rows);

interface RowProps {
  readonly row: FindingRow;
  readonly number: number | null;
}

function Row({ row, number }: RowProps) {
  const { finding, sentence } = row;
  return (
    <ListBoxItem id={row.key} className="finding-row" textValue={`${checkWord(finding.check)} ${sentence}`}>
      <StateMark state={finding.state} spoken />
      {number !== null && <span className="finding-number">{number}</span>}
      <span className="finding-check">{checkWord(finding.check)} </span>
      <span className="finding-sentence">{sentence} </span>
      <span className="finding-source">{finding.source}</span>
    </ListBoxItem>
  );
}
