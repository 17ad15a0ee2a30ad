/** What changed from one version of a plan to the next, in a line. */
import { expect, test } from 'vitest';
import type { Command } from '../../../src/plan/commands/index.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { planChangeWords } from '../../../src/words/planChangeWords.ts';
import { anyCommand, numbersFrom } from '../../fixtures/anyCommand.ts';
import { SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';
import { seeds, some } from '../../fixtures/seeds.ts';

const { plan } = SAMPLE_PLANS.find(({ name }) => name === 'one-up-two-down')!;
const setup = plan.order[0];
const after = (...commands: Command[]): Plan =>
  commands.reduce((one, command) => {
    const ran = runCommand(one, command);
    if (!ran.ok) throw new Error(JSON.stringify(ran.refusal));
    return ran.plan;
  }, plan);
const items = plan.setups[setup].order.filter((id) => plan.setups[setup].pieces[id].kind === 'item');
const rename = (piece: string, name: string): Command => ({ type: 'renamePiece', setup, piece, name });

test('nothing', () => expect(planChangeWords(plan, plan)).toBe(''));

test('pieces by their names, the first three; what was done to them', () => {
  const named = items.slice(0, 5).map((id, k) => rename(id, `Piece ${k}`));
  const before = after(...named);
  const move: Command = {
    type: 'placePieces',
    setup,
    places: Object.fromEntries(items.slice(0, 5).map((id) => [id, { xMm: 5000 }])),
  };
  const ran = runCommand(before, move);
  expect(ran.ok && planChangeWords(before, ran.plan)).toMatch(/Piece 0, Piece 1, Piece 2 and 2 more moved$/);
  expect(planChangeWords(plan, after(rename(items[0], 'Loud one')))).toMatch(/Loud one changed$/);
});

test('a setup is named where there are several', () => {
  const command: Command = { type: 'duplicateSetup', setup, id: 'copy', name: 'Copy' };
  expect(planChangeWords(plan, after(command))).toBe('Setup “Copy” added');
  const ran = runCommand(after(command), { type: 'renamePiece', setup: 'copy', piece: items[0], name: 'Loud one' });
  expect(ran.ok && planChangeWords(after(command), ran.plan)).toBe('In “Copy”: Loud one changed');
});

test('units', () =>
  expect(planChangeWords(plan, after({ type: 'setUnits', units: plan.units === 'mm' ? 'in' : 'mm' }))).toBe(
    'Other units',
  ));

test.each(some(SAMPLE_PLANS, 2))('every change of $name has words', ({ plan: first }) => {
  for (const seed of seeds(20, 2)) {
    const random = numbersFrom(seed);
    let before = first;
    for (let k = 0; k < 20; k++) {
      const ran = runCommand(before, anyCommand(before, random));
      if (!ran.ok) continue;
      const same = JSON.stringify(ran.plan) === JSON.stringify(before);
      expect(planChangeWords(before, ran.plan) === '').toBe(same);
      before = ran.plan;
    }
  }
});
