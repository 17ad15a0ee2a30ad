/** The findings list's rows: worst first, nearest to trouble first within a state, found by words. */
import type { Finding, State } from '../../checks/finding.ts';
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

export const findingKey = (finding: Finding): string =>
  [finding.check, finding.code, ...finding.bodies, '|', ...finding.pieces].join(' ');

/** How far below its limit, as a share of the limit; findings without numbers come last. */
function shortfall({ value, limit }: Finding): number {
  if (value === null) return Number.POSITIVE_INFINITY;
  return limit === null ? value : value - limit;
}

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
      .sort((a, b) => shortfall(a.finding) - shortfall(b.finding) || (a.key < b.key ? -1 : 1)),
  })).filter(({ rows: members }) => members.length > 0);
}

export function countByState(findings: readonly Finding[]): Record<State, number> {
  const counts: Record<State, number> = { blocked: 0, tight: 0, unmeasured: 0, clear: 0 };
  for (const { state } of findings) counts[state]++;
  return counts;
}

/** The worst state among the findings; `clear` when there are none. */
export function worstState(findings: readonly Finding[]): State {
  const counts = countByState(findings);
  return STATES.find((state) => counts[state] > 0) ?? 'clear';
}
