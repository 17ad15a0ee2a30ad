/** What "fit" brings into sight: the kit on its riser first, then all of the stage. */
import { expect, test } from 'vitest';
import { contentBox, wholeBox } from '../../../src/editor/state/content.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { stagePlan } from '../../fixtures/stagePlan.ts';

const plan = stagePlan();
const setup = plan.setups.curved;
const layout = layoutSetup(plan, 'curved');

test('the kit’s box holds the riser and no stage', () => {
  const box = contentBox(layout);
  expect(box.minX).toBeCloseTo(-914.4, 6);
  expect(box.maxX).toBeCloseTo(914.4, 6);
  expect(box.maxY).toBeCloseTo(1828.8, 6);
});

test('all is the stage with its wings', () =>
  expect(wholeBox(plan, setup, layout)).toEqual({ minX: -6600, minY: -4000, maxX: 7000, maxY: 2800 }));

test('without a stage all is what stands there', () => {
  const bare = { ...setup, stage: null, cables: [] };
  const { minX, maxX } = wholeBox(plan, bare, layout);
  expect(minX).toBeGreaterThan(-5000);
  expect(maxX).toBeGreaterThan(914.4);
});
