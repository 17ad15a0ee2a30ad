/** Bars bow away from whoever sits there. */
import { expect, test } from 'vitest';
import { newRack } from '../../../src/editor/panels/gear/newPiece.ts';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import { pointAlong } from '../../../src/geometry/arcsLine.ts';
import { bowAngle, bowAway } from '../../../src/plan/bow.ts';
import { bendCommand } from '../../../src/plan/commands/rackShape.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { rackFrame } from '../../../src/plan/rackFrame.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan, Rack } from '../../../src/plan/schema.ts';
import { SAMPLE_PLANS } from '../../fixtures/samplePlans.ts';

const throne: Item = {
  kind: 'item',
  id: 'throne',
  name: 'Throne',
  gear: 'throne-round',
  place: { xMm: 0, yMm: 600, headingDeg: 0 },
  mount: null,
};

/** How far the middle of each bar lies beyond the line of its legs, seen from a point: above 0 away from it. */
function outward(rack: Rack, [x, y]: readonly [number, number]): number[] {
  const { bars, legs } = rackFrame(rack);
  return bars.map((bar) => {
    const [a, b] = [legs[bar.span], legs[bar.span + 1]];
    const length = Math.hypot(b.x - a.x, b.y - a.y);
    const beside = (px: number, py: number) => ((b.x - a.x) * (py - a.y) - (b.y - a.y) * (px - a.x)) / length;
    const middle = pointAlong(bar.line, bar.lengthMm / 2);
    return -Math.sign(beside(x, y)) * beside(middle.x, middle.y);
  });
}

test.each([
  [-900, 300, 90],
  [-900, 300, -90],
  [900, 300, 90],
  [900, 300, 47],
  [-300, -400, 0],
  [-300, -400, 180],
])('a rack at %i, %i turned %i bows away from the throne, as it says', (xMm, yMm, headingDeg) => {
  const made = newRack('sideStraight', CATALOGUE, 0, 0, {})!;
  const rack: Rack = { ...made, place: { xMm, yMm, headingDeg } };
  const base = newPlan('mm');
  const [id] = base.order;
  const setup = { ...base.setups[id], pieces: { [rack.id]: rack, throne }, order: [rack.id, 'throne'] };
  const plan: Plan = { ...base, setups: { [id]: setup } };
  const { side, angleRad } = bowAway(plan, setup, rack);
  const ran = runCommand(plan, bendCommand(plan, id, rack, side));
  if (!ran.ok) throw new Error('refused');
  const bent = ran.plan.setups[id].pieces[rack.id] as Rack;
  for (const out of outward(bent, [0, 600])) expect(out).toBeGreaterThan(10);
  expect(bowAngle(rack, 'bar-1', side)).toBeCloseTo(angleRad, 12);
});

test('racks of the samples that are bent bow away from the throne', () => {
  let asked = 0;
  for (const { plan } of SAMPLE_PLANS)
    for (const id of plan.order) {
      const setup = plan.setups[id];
      for (const piece of Object.values(setup.pieces)) {
        if (piece.kind !== 'rack' || piece.spans.some(({ bars }) => bars.some(({ bend }) => bend === null))) continue;
        const { side } = bowAway(plan, setup, piece);
        for (const { bars } of piece.spans) for (const { bend } of bars) expect(bend?.side, piece.name).toBe(side);
        asked++;
      }
    }
  expect(asked).toBeGreaterThan(3);
});
