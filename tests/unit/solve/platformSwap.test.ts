/** Two single mounts swapped for a platform: what it needs, and that both drums then hang where they are. */
import { expect, test } from 'vitest';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { partUses } from '../../../src/checks/parts.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { swapForPlatform } from '../../../src/solve/platformSwap.ts';
import { KEPT_MM } from '../../../src/solve/proposeMount.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

const sample = sampleSetups().find(({ id }) => id === 'front-rack');
if (!sample) throw new Error('The sample with five toms has the setup "front-rack".');
const { plan, id } = sample;
const swap = (of: Plan, ids: string[]) => swapForPlatform(of, of.setups[id], layoutSetup(of, id), ids);

test('two toms side by side: one clamp less, both where they were, and no clamp on another', () => {
  const found = swap(plan, ['tom-1', 'tom-2']);
  if (!found.ok) throw new Error(found.code);
  const ran = runCommand(plan, found.command);
  if (!ran.ok) throw new Error(JSON.stringify(ran.refusal));
  const [before, after] = [plan, ran.plan].map((one) => one.setups[id].pieces);
  const clamps = (pieces: typeof before) =>
    Object.values(pieces).filter((piece) => piece.kind === 'item' && piece.mount?.clamp).length;
  expect(clamps(after)).toBe(clamps(before) - 1);
  for (const tom of ['tom-1', 'tom-2']) expect(after[tom].place).toEqual(before[tom].place);
  const layout = layoutSetup(ran.plan, id);
  const readings = mountReadings(ran.plan, layout.mounts).filter(({ piece }) => ['tom-1', 'tom-2'].includes(piece));
  expect(readings).toHaveLength(2);
  for (const reading of readings) {
    expect(reading.reached).toBe(true);
    expect(reading.left).toBeGreaterThanOrEqual(KEPT_MM);
  }
  // Both arms are in the plan, so nothing is left unmeasured, and both are bought.
  const codes = runChecks(ran.plan, id, layout).findings.map(({ code }) => code);
  expect(codes).not.toContain('platform_needs_arm');
  const parts = partUses(ran.plan, id).filter(({ use, piece }) => use === 'arm' && ['tom-1', 'tom-2'].includes(piece));
  expect(parts.map(({ gear }) => gear).sort()).toEqual([found.arm.id, found.firstArm.id, found.platform.id].sort());
  const flaws = runChecks(ran.plan, id, layout).findings.filter(({ code }) => code === 'clamps_overlap');
  expect(flaws).toEqual([]);
});

test('its clamp takes a post as thick as a long L-arm', () => {
  const found = swap(plan, ['tom-1', 'tom-2']);
  const clamps = found.ok
    ? found.command.commands.flatMap((one) => (one.type === 'setPiece' ? [one.set.mount?.clamp] : []))
    : [];
  expect(clamps).toContain('clamp-arm');
  expect(clamps).not.toContain('clamp-small');
});

test('says what stands against it', () => {
  expect(swap(plan, ['tom-1'])).toEqual({ ok: false, code: 'not_two_drums' });
  expect(swap(plan, ['tom-1', 'snare'])).toEqual({ ok: false, code: 'not_on_one_rack' });
  expect(swap(plan, ['tom-1', 'floor-tom-2'])).toEqual({ ok: false, code: 'out_of_reach' });
  const found = swap(plan, ['tom-1', 'tom-2']);
  const ran = found.ok ? runCommand(plan, found.command) : null;
  if (!ran?.ok) throw new Error('The two toms can be swapped.');
  expect(swap(ran.plan, ['tom-1', 'tom-2'])).toMatchObject({ ok: false });
});
