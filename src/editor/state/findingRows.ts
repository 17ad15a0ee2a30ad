/** The findings list's rows: worst first, nearest to trouble first within a state, found by words. */
import { byTrouble, type Finding, type State } from '../../checks/finding.ts';
import { STATES } from '../../words/states.ts';

export interface FindingRow {
  /** Stable while the plan changes: the same check of the same pieces keeps its row, and its focus. */
  readonly key: string;
  readonly finding: Finding;
  readonly sentence: string;
}

export interface FindingGroup {
  readonly state: State;
  readonly rows: readonly FindingRow[];
}

/** So many findings have a flag on the drawing, the worst first, and the chosen one; more would hide it. */
export const MOST_FLAGS = 150;
/** So many rows of one state are listed until all are asked for. */
export const MOST_ROWS = 100;

export const findingKey = (finding: Finding): string =>
  [finding.check, finding.code, ...finding.bodies, '|', ...finding.pieces].join(' ');

/**
 * All findings in groups, empty groups left out. `words` must all stand in the sentence or the pieces' names.
 * Two findings with one key (a check that speaks twice of one pair) get numbered keys.
 */
export function findingGroups(
  findings: readonly Finding[],
  sentenceOf: (finding: Finding) => string,
  query: string,
  only: ReadonlySet<State>,
): FindingGroup[] {
  const words = query.toLowerCase().split(/\s+/).filter(Boolean);
  const seen = new Map<string, number>();
  const rows = findings.map((finding): FindingRow => {
    const base = findingKey(finding);
    const count = seen.get(base) ?? 0;
    seen.set(base, count + 1);
    return { key: count === 0 ? base : `${base} #${count + 1}`, finding, sentence: sentenceOf(finding) };
  });
  const kept = rows.filter(
    ({ finding, sentence }) =>
      (only.size === 0 || only.has(finding.state)) && words.every((word) => sentence.toLowerCase().includes(word)),
  );
  return STATES.map((state) => ({
    state,
    rows: kept
      .filter(({ finding }) => finding.state === state)
      .sort((a, b) => byTrouble(a.finding, b.finding) || (a.key < b.key ? -1 : 1)),
  })).filter(({ rows: members }) => members.length > 0);
}
