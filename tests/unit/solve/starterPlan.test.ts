/** Starter kits: every wish comes out with nothing blocked, or says why it cannot. */
import { describe, expect, test } from 'vitest';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Drummer, Item, Plan } from '../../../src/plan/schema.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { starterPlan } from '../../../src/solve/starter/starterPlan.ts';
import { STARTER_BASES, type StarterWish, USUAL_WISH } from '../../../src/solve/starter/wish.ts';
import { some } from '../../fixtures/seeds.ts';

const COUNTS = [1, 2, 3] as const;
/** All 2,016: each on a riser in turn. */
const WISHES: StarterWish[] = STARTER_BASES.flatMap((base) =>
  COUNTS.flatMap((up) =>
    COUNTS.flatMap((down) =>
      [2, 3, 4, 5, 6, 7, 8].flatMap((cymbals) =>
        (['centred', 'offset'] as const).flatMap((toms) =>
          (['right', 'left'] as const).flatMap((handed) =>
            (['single', 'double'] as const).map((pedal) => ({
              up,
              down,
              cymbals,
              base,
              toms,
              handed,
              pedal,
              riser: (up + down + cymbals) % 2 === 0,
            })),
          ),
        ),
      ),
    ),
  ),
);

const itemsOf = (plan: Plan, kind: string, use?: string): Item[] =>
  Object.values(plan.setups[plan.order[0]].pieces).filter((piece): piece is Item => {
    const gear = piece.kind === 'item' ? gearOf(plan.gear, piece.gear) : undefined;
    return gear?.kind === kind && (use === undefined || ('use' in gear && gear.use === use));
  });

const wordOf = (wish: StarterWish) => JSON.stringify(wish);

describe('starter kits', () => {
  test('there are 2,016 of them', () => expect(WISHES.length).toBe(2016));

  test('each has what was wished for and nothing blocked, or says why it cannot', { timeout: 3_600_000 }, () => {
    for (const wish of some(WISHES, 12)) {
      const made = starterPlan(wish);
      if (wish.base === 'stands' && wish.toms === 'offset' && wish.up === 3) {
        expect(made, wordOf(wish)).toMatchObject({
          ok: false,
          plan: null,
          sentence: expect.stringContaining('stands'),
        });
        continue;
      }
      // Eight cymbals on stands over three toms: of all 2,016 these alone are tried and end in somebody's way.
      const isTooFull =
        wish.base === 'stands' &&
        wish.up === 3 &&
        wish.cymbals === 8 &&
        wish.pedal === 'single' &&
        wish.toms === 'centred';
      expect(made.ok, wordOf(wish)).toBe(!isTooFull);
      expect(
        made.findings.some(({ state }) => state === 'blocked'),
        wordOf(wish),
      ).toBe(isTooFull);
      if (!made.ok) continue;
      expect(Object.keys(made.plan.risers).length, wordOf(wish)).toBe(wish.riser ? 1 : 0);
      const { plan } = made;
      expect(itemsOf(plan, 'drum', 'rackTom').length, wordOf(wish)).toBe(wish.up);
      expect(itemsOf(plan, 'drum', 'floorTom').length, wordOf(wish)).toBe(wish.down);
      expect(itemsOf(plan, 'cymbal').length, wordOf(wish)).toBe(wish.cymbals);
      const racks = Object.values(plan.setups[plan.order[0]].pieces).filter(({ kind }) => kind === 'rack').length;
      expect(racks, wordOf(wish)).toBe(wish.base === 'stands' ? 0 : wish.base === 'front' ? 1 : 2);
      // Everything that hangs is held by something.
      for (const item of [...itemsOf(plan, 'drum', 'rackTom'), ...itemsOf(plan, 'cymbal')])
        expect(item.mount, `${item.name}: ${wordOf(wish)}`).not.toBeNull();
      const layout = layoutSetup(plan, plan.order[0]);
      expect(
        layout.mounts.every(({ reach }) => reach.reached),
        wordOf(wish),
      ).toBe(true);
      const read = readPlan(writePlan(plan));
      expect(read.ok && read.plan, wordOf(wish)).toEqual(plan);
    }
  });

  test('toms stand in order, the smallest on the hi-hat’s side', { timeout: 600_000 }, () => {
    for (const handed of ['right', 'left'] as const) {
      const made = starterPlan({ ...USUAL_WISH, up: 3, down: 2, handed });
      if (!made.ok) throw new Error(made.sentence);
      const side = handed === 'right' ? 1 : -1;
      const toms = itemsOf(made.plan, 'drum', 'rackTom');
      const sizes = [...toms].sort((a, b) => side * (b.place.xMm - a.place.xMm)).map(({ gear }) => gear);
      expect(sizes).toEqual(['tom-10x7', 'tom-12x8', 'tom-13x9']);
      const [hats] = itemsOf(made.plan, 'cymbal', 'hiHat');
      const [throne] = itemsOf(made.plan, 'throne');
      expect(side * (hats.place.xMm - throne.place.xMm)).toBeGreaterThan(0);
    }
  });

  test('a left-handed kit is the mirror image, and its drummer leads with the left', () => {
    const right = starterPlan(USUAL_WISH);
    const left = starterPlan({ ...USUAL_WISH, handed: 'left' });
    if (!right.ok || !left.ok) throw new Error('Both come out.');
    expect(Object.values(left.plan.drummers ?? {}).map(({ handed }) => handed)).toEqual(['left']);
    expect(left.findings.map(({ code, state }) => `${state} ${code}`).sort()).toEqual(
      right.findings.map(({ code, state }) => `${state} ${code}`).sort(),
    );
  });

  test('who is larger sits higher and farther from the pedal', () => {
    const seatOf = (drummer: Drummer) => {
      const made = starterPlan(USUAL_WISH, drummer);
      const plan = made.plan as Plan;
      const [throne] = itemsOf(plan, 'throne');
      const [pedal] = itemsOf(plan, 'pedal');
      return { height: throne.place.heightMm ?? 0, far: throne.place.yMm - pedal.place.yMm };
    };
    const woman = seatOf({ id: 'a', name: 'A', sex: 'woman', percentile: 5, handed: 'right' });
    const man = seatOf({ id: 'b', name: 'B', sex: 'man', percentile: 95, handed: 'right' });
    expect(woman.height).toBeLessThan(man.height);
    expect(woman.far).toBeLessThan(man.far);
  });
});
