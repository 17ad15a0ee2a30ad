/**
 * A starter kit, laid out and asked by all checks: a usual one on every base, and the fullest.
 *
 *   npx tsx tests/bench/starter.bench.ts
 */
import { starterPlan } from '../../src/solve/starter/starterPlan.ts';
import { STARTER_BASES, USUAL_WISH } from '../../src/solve/starter/wish.ts';
import { row, time } from './timing.ts';

for (const base of STARTER_BASES)
  for (const wish of [
    { ...USUAL_WISH, base },
    { ...USUAL_WISH, base, up: 3, down: 3, cymbals: 8, pedal: 'double' as const },
  ])
    console.log(
      row(
        `${base}: ${wish.up} up, ${wish.down} down`,
        wish.cymbals,
        time(() => starterPlan(wish).findings.length, 3),
      ),
    );
