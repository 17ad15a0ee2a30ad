/** What pieces travel in, set from the panels: one command, undone as one, and back again. */
import { describe, expect, test } from 'vitest';
import { loadsOf } from '../../../src/checks/loads.ts';
import { textField } from '../../../src/editor/panels/fields/rows.ts';
import { CHOSEN, travelApart, travelOf, travelTogether } from '../../../src/editor/panels/inspector/travel.ts';
import type { Command } from '../../../src/plan/commands/index.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan, Rack } from '../../../src/plan/schema.ts';
import { sampleOf } from '../../fixtures/samplePlans.ts';

const sample = sampleOf('one-up-two-down');
const setupId = 'straight';
const at = (plan: Plan) => ({ setup: plan.setups[setupId], setupId });
const rackOf = (plan: Plan) => plan.setups[setupId].pieces['rack-right'] as Rack;
function done(plan: Plan, command: Command): Plan {
  const ran = runCommand(plan, command);
  if (!ran.ok) throw new Error('It should run.');
  return ran.plan;
}
const loadsIn = (plan: Plan) => loadsOf(plan, plan.setups[setupId]).list;

describe('a rack', () => {
  test('as it stands is one load, called like the rack, with all that is mounted on it; apart it is as before', () => {
    expect(travelOf(at(sample), rackOf(sample))).toBe('apart');
    const together = done(sample, travelTogether(at(sample), rackOf(sample)));
    expect(travelOf(at(together), rackOf(together))).toBe('together');
    const load = loadsIn(together).find(({ name }) => name === rackOf(sample).name);
    expect(load?.pieces.length).toBeGreaterThan(3);
    expect(load?.pieces).toContain('rack-right');
    const apart = done(together, travelApart(at(together), rackOf(together)));
    expect(apart.setups[setupId].pieces).toEqual(sample.setups[setupId].pieces);
  });

  test('a piece of it that is taken out again leaves it mixed', () => {
    const together = done(sample, travelTogether(at(sample), rackOf(sample)));
    const [, piece] = loadsIn(together).find(({ name }) => name === rackOf(sample).name)!.pieces;
    const mixed = done(together, { type: 'setPiece', setup: setupId, piece, set: { load: null } });
    expect(travelOf(at(mixed), rackOf(mixed))).toBe('mixed');
  });
});

test('several chosen pieces: what all say is shown, and one text is written to all', () => {
  const ids = sample.setups[setupId].order.slice(0, 3);
  const chosen = (plan: Plan) => ({ ...at(plan), pieces: ids.map((id) => plan.setups[setupId].pieces[id]) });
  const [row] = CHOSEN.sections.load;
  const field = textField(CHOSEN, row, chosen(sample));
  expect(field.value).toBe('');
  const packed = done(sample, field.set('Case 1') as Command);
  expect(textField(CHOSEN, row, chosen(packed)).value).toBe('Case 1');
  expect(loadsIn(packed).find(({ name }) => name === 'Case 1')?.pieces).toEqual(ids);
  const back = done(packed, textField(CHOSEN, row, chosen(packed)).set('') as Command);
  expect(back.setups[setupId].pieces).toEqual(sample.setups[setupId].pieces);
});
