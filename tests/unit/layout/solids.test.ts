/** What a body truly is in space lies within its outline and heights, which everything else goes by. */
import { describe, expect, test } from 'vitest';
import { CATALOGUE } from '../../../src/gear/catalogue.ts';
import { isPlaceable } from '../../../src/gear/kinds.ts';
import { type Body, leans } from '../../../src/layout/body.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { placesIn, pointTo } from '../../fixtures/solidSamples.ts';

const STEPS = [-1, -0.7, -0.3, 0, 0.3, 0.7, 1];

/** How far the solid stands out of what bounds it, mm. */
function standsOut(body: Body): number {
  const { solid, shape, z0, z1 } = body;
  if (!solid) return 0;
  const tube = solid.kind === 'rod' || solid.kind === 'bend' ? solid.radius : 0;
  const place = placesIn(solid);
  let most = 0;
  for (const u of STEPS)
    for (const v of STEPS)
      for (const w of [-1, 0, 1]) {
        const [x, y, z] = place(u, v, w);
        // A tube's centre line stays within what its outline is swept about, and its radius below and above.
        const bound = {
          kind: 'upright',
          shape: { ...shape, radius: shape.radius - tube },
          z0: z0 + tube,
          z1: z1 - tube,
        };
        most = Math.max(most, pointTo(bound as Parameters<typeof pointTo>[0], [x, y, z]));
      }
  return most;
}

const within = (bodies: readonly Body[]) =>
  expect(bodies.filter((body) => standsOut(body) > 1e-6).map(({ id }) => [id])).toEqual([]);

test.each(sampleSetups())('$name', ({ plan, id }) => {
  const { bodies } = layoutSetup(plan, id);
  within(bodies);
  expect(bodies.some(leans)).toBe(true);
});

describe('every placeable of the catalogue, level and tilted', () => {
  const placeable = CATALOGUE.filter(isPlaceable);
  test.each([0, 3, 12, 25, 45, 75])('%i degrees', (tiltDeg) => {
    for (const gear of placeable) {
      const place = { xMm: 120, yMm: -340, headingDeg: 33, heightMm: 900, tiltDeg };
      const piece = { kind: 'item' as const, id: gear.id, name: '', gear: gear.id, mount: null, place };
      const setup = { id: 's', name: 'S', riser: null, pieces: { [gear.id]: piece }, order: [gear.id] };
      const { bodies } = layoutSetup({ ...samplePlan(), setups: { s: setup }, order: ['s'] }, 's');
      within(bodies);
      if (gear.kind === 'cymbal' || (gear.kind === 'drum' && tiltDeg > 0)) expect(bodies.some(leans)).toBe(true);
    }
  });
});
