/** One setup as the strip and the comparison see it: laid out, checked and drawn small, kept while nothing of it changes. */
import { briefReadings } from '../../../checks/brief.ts';
import type { Finding } from '../../../checks/finding.ts';
import { heldAgainst } from '../../../checks/legless.ts';
import { sitterOf } from '../../../drummer/sizes.ts';
import { keeper } from '../../../keep.ts';
import { isKit } from '../../../layout/body.ts';
import type { Plan } from '../../../plan/schema.ts';
import type { DisplayUnit } from '../../../units.ts';
import { READING_ROWS, type ReadingRow, rowText, type SetupReadings } from '../../../words/readingRows.ts';
import { liveOf } from '../../state/live.ts';
import { type Picture, pictureOf } from './picture.ts';

export interface SetupSummary {
  readonly id: string;
  readonly name: string;
  /** What the user wrote about it; empty: nothing. */
  readonly note: string;
  readonly picture: Picture;
  /** The deck's modules, each x0, y0, x1, y1 ... in mm. */
  readonly deck: readonly (readonly number[])[];
  readonly readings: SetupReadings;
  readonly findings: readonly Finding[];
}

/** By setup: immer keeps a setup that a command does not touch. */
const keepSummary = keeper<SetupSummary>();

export function summaryOf(plan: Plan, setupId: string): SetupSummary {
  const setup = plan.setups[setupId];
  return keepSummary(
    setup,
    [plan.gear, plan.risers, plan.limits, sitterOf(plan, setup).drummer, heldAgainst(plan, setup)],
    () => {
      const { layout, checked } = liveOf(plan, setupId);
      return {
        id: setupId,
        name: setup.name,
        note: setup.note ?? '',
        picture: pictureOf(layout.bodies.filter(isKit), layout.deck?.modules),
        deck: layout.deck?.modules ?? [],
        readings: briefReadings(plan, setupId, checked),
        findings: checked.findings,
      };
    },
  );
}

/** A reading on a card, by the short word that fits there. */
export interface CardReading {
  readonly word: string;
  readonly row: ReadingRow;
}

const reading = (key: string, word: string): CardReading => ({
  word,
  row: READING_ROWS.find((row) => row.key === key)!,
});

/** What every card has, in this order. */
export const CARD_READINGS: readonly CardReading[] = [
  reading('floor', 'Floor'),
  reading('rectangle', 'Box'),
  reading('margin', 'Margin'),
];
const TOLD_APART = [reading('feet', 'Feet'), reading('mass', 'Mass'), reading('free', 'Free bar')];

/** The readings that stand on the cards only where they tell a plan's setups apart. */
export function tellingReadings(summaries: readonly SetupSummary[], units: DisplayUnit): CardReading[] {
  return TOLD_APART.filter(
    ({ row }) => new Set(summaries.map(({ readings }) => rowText(row, readings, units))).size > 1,
  );
}

/** A reading as short as a card wants it: one unit for both sides of a box; how many were not weighed is said elsewhere. */
export function cardText({ row }: CardReading, readings: SetupReadings, units: DisplayUnit): string {
  if (row.key === 'mass' && readings.massUnknown && readings.massKg != null)
    return `${row.format(readings.massKg, units)} + ?`;
  return rowText(row, readings, units).replace(' mm × ', ' × ');
}

/** A note's first sentence; all of a note that has no end of a sentence. */
export const firstSentence = (note: string): string => /^.*?[.!?](?=\s|$)/s.exec(note.trim())?.[0] ?? note.trim();
