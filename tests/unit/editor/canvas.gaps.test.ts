/** The gaps that a drag shows are the checks' own, though only what is near is compared. */
import { expect, test } from 'vitest';
import { pairReadings } from '../../../src/checks/clearance.ts';
import { liveOf, nearGaps } from '../../../src/editor/state/live.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

test.each(sampleSetups())('$name: what is left out is farther than any limit', ({ plan, id }) => {
  const live = liveOf(plan, id);
  const all = pairReadings(plan, live.setup, live.layout.bodies);
  let shown = 0;
  for (const piece of live.setup.order) {
    const worst = new Map<string, number>();
    // What runs into each other stays before what is merely too close.
    for (const { a, b, gap, required } of all.filter(({ gap }) => gap > 0).concat(all.filter(({ gap }) => gap <= 0)))
      if ((a.piece === piece) !== (b.piece === piece)) {
        const other = a.piece === piece ? b.piece : a.piece;
        worst.set(other, Math.min(worst.get(other) ?? Number.POSITIVE_INFINITY, gap - required));
      }
    const found = nearGaps(live, [piece], Number.POSITIVE_INFINITY);
    const wants = found.map(({ a, b, gapMm, requiredMm }) => [
      a.piece === piece ? b.piece : a.piece,
      gapMm - requiredMm,
    ]);
    expect(Object.fromEntries(wants)).toEqual(Object.fromEntries(worst));
    shown += found.length;
  }
  expect(shown).toBeGreaterThan(0);
});
