/** Two single mounts swapped for a platform: what it needs, and that both drums then hang where they are. */
import { expect, test } from 'vitest';
import { mountReadings } from '../../../src/checks/mountReach.ts';
import { partUses } from '../../../src/checks/parts.ts';
import { runChecks } from '../../../src/checks/run.ts';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { boxOf } from '../../../src/geometry/support.ts';
import type { Body } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan } from '../../../src/plan/schema.ts';
import { swapForPlatform } from '../../../src/solve/platformSwap.ts';
import { KEPT_MM } from '../../../src/solve/proposeMount.ts';
import { item } from '../../fixtures/plans.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { some } from '../../fixtures/seeds.ts';

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

/** What arms of these pieces run into, by the check of clearances. */
function armsHit(of: Plan, setup: string, ids: readonly string[]): string[] {
  const { findings } = runChecks(of, setup, layoutSetup(of, setup));
  return findings.flatMap((found) =>
    'parts' in found &&
    found.state === 'blocked' &&
    found.parts.some(({ kind }, k) => kind === 'arm' && ids.includes(found.pieces[k] ?? found.pieces[0]))
      ? [found.pieces.join(' ')]
      : [],
  );
}

/** The plan with a small cymbal where the middle of a body of the swap's arms would be. */
function inTheWay(of: Plan, setup: string, arm: Body): Plan {
  const { minX, maxX, minY, maxY } = boxOf(arm.shape);
  const splash = {
    ...item('in-the-way', 'Splash in the way', 'splash-8', (minX + maxX) / 2, (minY + maxY) / 2),
    place: { xMm: (minX + maxX) / 2, yMm: (minY + maxY) / 2, headingDeg: 0, heightMm: (arm.z0 + arm.z1) / 2 },
  };
  const { pieces, order } = of.setups[setup];
  const made = { ...of.setups[setup], pieces: { ...pieces, [splash.id]: splash }, order: [...order, splash.id] };
  return { ...of, setups: { ...of.setups, [setup]: made } };
}

test('its arms run into nothing: what stands where they would be is gone round, or said', () => {
  const ids = ['tom-1', 'tom-2'];
  const found = swap(plan, ids);
  const ran = found.ok ? runCommand(plan, found.command) : null;
  if (!ran?.ok) throw new Error('The two toms can be swapped.');
  expect(armsHit(ran.plan, id, ids)).toEqual([]);
  const arms = layoutSetup(ran.plan, id).bodies.filter(({ kind, piece }) => kind === 'arm' && ids.includes(piece));
  expect(arms.length).toBeGreaterThan(3);
  const said: string[] = [];
  for (const arm of arms) {
    const blocked = inTheWay(plan, id, arm);
    const other = swap(blocked, ids);
    said.push(other.ok ? 'round' : other.code);
    if (!other.ok) {
      expect(other).toMatchObject({ code: 'runs_into', struck: expect.any(String) });
      continue;
    }
    const put = runCommand(blocked, other.command);
    if (!put.ok) throw new Error(put.refusal.code);
    expect(armsHit(put.plan, id, ids), arm.id).toEqual([]);
  }
  expect(said).toContain('round');
});

/** Every two drums of a sample's setup that hang on something. */
const pairs = sampleSetups().flatMap((one) => {
  const { pieces, order } = one.plan.setups[one.id];
  const drums = order.filter((drum) => {
    const piece = pieces[drum];
    return piece.kind === 'item' && gearOf(one.plan.gear, piece.gear)?.kind === 'drum' && piece.mount !== null;
  });
  return drums.flatMap((first, k) => drums.slice(k + 1).map((second) => ({ ...one, ids: [first, second] })));
});

test('law: whatever two drums of a sample are swapped, their arms then run into nothing', () => {
  expect(pairs.length).toBeGreaterThan(20);
  for (const { plan: of, id: setup, ids } of some(pairs, 6)) {
    const found = swapForPlatform(of, of.setups[setup], layoutSetup(of, setup), ids);
    if (!found.ok) continue;
    const ran = runCommand(of, found.command);
    if (!ran.ok) throw new Error(ran.refusal.code);
    expect(armsHit(ran.plan, setup, ids), `${setup}: ${ids.join(', ')}`).toEqual([]);
  }
});

test('two toms of which the shortest way ran through the one between them', () => {
  const ids = ['tom-1', 'tom-3'];
  const found = swap(plan, ids);
  const ran = found.ok ? runCommand(plan, found.command) : null;
  if (ran?.ok) expect(armsHit(ran.plan, id, ids)).toEqual([]);
  else expect(found).toMatchObject({ ok: false, code: 'runs_into' });
});
