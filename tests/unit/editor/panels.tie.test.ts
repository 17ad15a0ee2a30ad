/** The link that a press adds: to the nearest tube, long enough, level where it can be. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { gearOfPlan } from '../../../src/editor/panels/gear/shelf.ts';
import { carrierChoices } from '../../../src/editor/panels/inspector/carriers.ts';
import { newTie } from '../../../src/editor/panels/inspector/newTie.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item } from '../../../src/plan/schema.ts';

const read = readPlan(readFileSync('samples/four-bases.legroom.json', 'utf8'));
if (!read.ok) throw new Error(read.problem.sentence);
const { plan } = read;
const setup = plan.setups.straight;
const stand = setup.pieces['hi-hat-stand'] as Item;
const tubes = carrierChoices(plan, setup, stand).filter(({ id }) => /^\["(bar|leg)"/.test(id));

test('a hi-hat stand is tied to its own side’s rack, by a link that reaches', () => {
  const tie = newTie(plan, setup, stand, tubes, gearOfPlan(plan))!;
  expect(tie.carrier).toMatchObject({ on: 'bar', rack: 'rack-left' });
  const ran = runCommand(plan, { type: 'setPiece', setup: setup.id, piece: stand.id, set: { ties: [tie] } });
  if (!ran.ok) throw new Error('refused');
  const { mounts } = layoutSetup(ran.plan, setup.id);
  const reading = mountReadings(ran.plan, mounts).find(
    (_, k) => mounts[k].piece === stand.id && mounts[k].holds === 'tie',
  );
  expect(reading?.reached).toBe(true);
});

test('farther away it takes a longer link, and at last the longest there is', () => {
  const links = [0, 300, 3000].map((xMm) => {
    const near = { ...stand, place: { ...stand.place, xMm: stand.place.xMm - xMm } };
    return newTie(
      plan,
      setup,
      near,
      tubes.filter(({ id }) => id.includes('rack-left')),
      gearOfPlan(plan),
    )!.link;
  });
  expect(new Set(links).size).toBeGreaterThan(1);
  expect(links[2]).toBe('link-long');
});

test('without a tube or a link there is none', () => {
  expect(newTie(plan, setup, stand, [], gearOfPlan(plan))).toBeNull();
  expect(newTie(plan, setup, stand, tubes, [])).toBeNull();
});
