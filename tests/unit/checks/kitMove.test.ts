/** A kit that moved as one is compared in its own frame: the move is said once, and nothing of it piece by piece. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { comparedSetup } from '../../../src/checks/compare.ts';
import { differences, differencesOf } from '../../../src/checks/differences.ts';
import { gearOf } from '../../../src/gear/catalogue.ts';
import { isBesideKit } from '../../../src/gear/kinds.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { placesByMotion } from '../../../src/plan/motion.ts';
import type { Item, Piece, Plan, Setup } from '../../../src/plan/schema.ts';
import { differenceLines, readingLines } from '../../../src/words/differenceWords.ts';
import { bestOf, comparedReadings, differenceOf, READING_ROWS } from '../../../src/words/readingRows.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';
import { runs } from '../../fixtures/seeds.ts';

interface Motion {
  readonly turnDeg: number;
  readonly dxMm: number;
  readonly dyMm: number;
}

/** The plan with a second setup: the first's kit moved as one, then changed. What belongs to the stage stays. */
function withMoved(plan: Plan, id: string, motion: Motion, edit: (setup: Setup) => void = () => {}): Plan {
  const setup = plan.setups[id];
  const kit = setup.order.filter((key) => {
    const piece = setup.pieces[key];
    return piece.kind === 'rack' || !isBesideKit(gearOf(plan.gear, piece.gear));
  });
  const places = placesByMotion(setup, kit, { ...motion, aboutXMm: 0, aboutYMm: 0 });
  const pieces = Object.fromEntries(
    setup.order.map((key) => {
      const piece = structuredClone(setup.pieces[key]);
      return [key, { ...piece, place: { ...piece.place, ...places[key] } } as Piece];
    }),
  );
  const second = { ...setup, id: 'moved', name: 'Moved', pieces };
  edit(second);
  return { ...plan, setups: { ...plan.setups, moved: second }, order: [...plan.order, 'moved'] };
}

const isCymbal = (plan: Plan, piece: Piece) =>
  piece.kind === 'item' && /crash|ride|hihats|splash/.test(piece.gear) && plan;

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  const motions = fc.record({
    turnDeg: fc.oneof(
      fc.constant(0),
      fc.integer({ min: -1790, max: 1790 }).map((tenths) => tenths / 10),
    ),
    // Not so little that the kit counts as standing where it stood.
    dxMm: fc.double({ min: 5, max: 3000, noNaN: true }),
    dyMm: fc.double({ min: -3000, max: 3000, noNaN: true }),
  });

  test('law: moved by anything, the kit moved and nothing in it', () => {
    fc.assert(
      fc.property(motions, (motion) => {
        const found = differences(withMoved(plan, id, motion), id, 'moved');
        expect(found.pieces.map(({ name, what, movedMm }) => [name, what, movedMm])).toEqual([]);
        expect(found.samePlayingLayout).toBe(true);
        expect(found.kit!.turnedDeg).toBeCloseTo(motion.turnDeg, 6);
      }),
      runs(20, 4),
    );
  });

  test('law: one cymbal moved within a kit that moved is the only one that is named', () => {
    const setup = plan.setups[id];
    const cymbal = setup.order.find((key) => isCymbal(plan, setup.pieces[key]));
    if (cymbal === undefined) return;
    fc.assert(
      fc.property(motions, (motion) => {
        const moved = withMoved(plan, id, motion, (second) => {
          const { place } = second.pieces[cymbal] as Item;
          second.pieces[cymbal] = {
            ...second.pieces[cymbal],
            place: { ...place, xMm: place.xMm + 30, yMm: place.yMm - 40 },
          } as Item;
        });
        const found = differences(moved, id, 'moved');
        expect(found.playing).toEqual([cymbal]);
        expect(found.pieces.map((piece) => piece.id)).toEqual([cymbal]);
        expect(found.pieces[0].movedMm).toBeCloseTo(50, 1);
      }),
      runs(20, 4),
    );
  });
});

describe('in words', () => {
  const { plan, id } = sampleSetups().find(({ plan: one }) => one.order.length > 1)!;
  const motion = { turnDeg: 40, dxMm: 200, dyMm: -100 };

  test('said once, first', () => {
    const moved = withMoved({ ...plan, units: 'mm' }, id, motion);
    const lines = differenceLines(differences(moved, id, 'moved'), moved);
    expect(lines[0]).toMatch(
      /^The whole kit moved .*, and turned 40° counter-clockwise; what follows is within the kit\.$/,
    );
    expect(lines.slice(1)).toEqual(['The same playing layout.']);
  });

  test('two setups on other bases at the same place did not move', () => {
    for (const other of plan.order) expect(differences(plan, id, other).kit).toBeNull();
  });

  test('margins to edges of different risers are not ranked, nor taken from one another', () => {
    const moved = withMoved(plan, id, { turnDeg: 0, dxMm: 100, dyMm: 0 });
    const riser = moved.setups[id].riser!;
    const other: Plan = {
      ...moved,
      risers: { ...moved.risers, other: { ...moved.risers[riser], id: 'other' } },
      setups: { ...moved.setups, moved: { ...moved.setups.moved, riser: 'other' } },
    };
    for (const [of, ranked] of [
      [moved, true],
      [other, false],
    ] as const) {
      const [a, b] = [id, 'moved'].map((one) => comparedReadings(comparedSetup(of, one, layoutSetup(of, one))));
      const row = READING_ROWS.find(({ key }) => key === 'margin')!;
      expect(bestOf(row, [a, b], 'mm').includes(true)).toBe(ranked);
      expect(differenceOf(row, b, a, 'mm')?.text === 'another riser').toBe(!ranked);
      expect(readingLines(a, b, of).some((line) => line.includes('another riser'))).toBe(!ranked);
    }
    const [a, b] = [id, 'moved'].map((one) => comparedSetup(other, one));
    expect(differencesOf(other, a, b).kit!.move).toEqual([100, 0]);
  });
});
