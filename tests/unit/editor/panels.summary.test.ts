/** What the setups' cards say: what each has, and what tells these setups apart. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  CARD_READINGS,
  cardText,
  firstSentence,
  summaryOf,
  tellingReadings,
} from '../../../src/editor/panels/setups/summary.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { rowText } from '../../../src/words/readingRows.ts';

function planOf(sample: string): Plan {
  const read = readPlan(readFileSync(`samples/${sample}.legroom.json`, 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  return read.plan;
}

describe('cards of one kit on four bases', () => {
  const plan = planOf('four-bases');
  const summaries = plan.order.map((id) => summaryOf(plan, id));

  test('no two cards say the same', () => {
    const shown = [...CARD_READINGS, ...tellingReadings(summaries, 'mm')];
    const cards = summaries.map(({ readings }) => shown.map((one) => cardText(one, readings, 'mm')).join(' | '));
    expect(new Set(cards).size).toBe(4);
  });

  test('feet, mass and free bar stand on them, as they differ', () => {
    expect(tellingReadings(summaries, 'mm').map(({ word }) => word)).toEqual(['Feet', 'Mass', 'Free bar']);
    // The sample's own note: snare and hi-hat stand on one foot each, three feet fewer on the deck.
    const feet = Object.fromEntries(summaries.map(({ id, readings }) => [id, readings.feetOnFloor]));
    expect(feet.curved! - feet.legless!).toBe(3);
  });

  test('copies of one setup are not told apart by what they share', () => {
    expect(tellingReadings([summaries[0], { ...summaries[0], id: 'copy' }], 'mm')).toEqual([]);
    expect(tellingReadings([summaries[0]], 'mm')).toEqual([]);
  });

  test('both sides of a box have one unit; a mass that is not all known says so', () => {
    const [box] = CARD_READINGS.filter(({ word }) => word === 'Box');
    const { readings } = summaries[0];
    expect(rowText(box.row, readings, 'mm').match(/mm/g)).toHaveLength(2);
    expect(cardText(box, readings, 'mm')).toMatch(/^[\d.]+ × [\d.]+ mm$/);
    const mass = tellingReadings(summaries, 'mm')[1];
    expect(cardText(mass, { ...readings, massKg: 41.26, massUnknown: 2 }, 'mm')).toBe('41.3 kg + ?');
    expect(cardText(mass, { ...readings, massKg: 41.26, massUnknown: 0 }, 'mm')).toBe('41.3 kg');
  });
});

test.each([
  ['Two racks. The left one is long.', 'Two racks.'],
  ['A 4.5 in gap is left. More.', 'A 4.5 in gap is left.'],
  ['  no end of a sentence ', 'no end of a sentence'],
  ['One\nline ends! Next', 'One\nline ends!'],
  ['', ''],
])('the first sentence of %j', (note, first) => expect(firstSentence(note)).toBe(first));
