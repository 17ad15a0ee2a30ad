import { expect, test } from 'vitest';
import { markPlan } from '../../../src/checks/marks/markPlan.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { tapeLength } from '../../../src/words/markWords.ts';
import { settingsOf } from '../../../src/words/settings.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

test.each(sampleSetups())(
  '$name: every upright, every bar and everything held has a row with its setting',
  ({ plan, id }) => {
    const layout = layoutSetup(plan, id);
    const setup = plan.setups[id];
    const rows = settingsOf(plan, setup, layout, markPlan(plan, id, layout).frame).flatMap((group) => group.rows);
    const length = (mm: number) => tapeLength(mm, plan.units);
    for (const piece of Object.values(setup.pieces)) {
      if (piece.kind === 'rack') {
        const own = rows.filter((row) => row.piece === piece.name);
        const bars = piece.spans.flatMap((span) => span.bars);
        expect(own.length).toBe(
          Object.values(setup.pieces)
            .filter((other) => other.kind === 'rack' && other.name === piece.name)
            .reduce(
              (sum, other) =>
                sum + (other.kind === 'rack' ? other.legs.length + other.spans.flatMap((s) => s.bars).length : 0),
              0,
            ),
        );
        for (const bar of bars)
          expect(
            own.some(
              (row) => row.height === length(bar.heightMm) && row.held[1].startsWith(`${length(bar.cutLengthMm)} long`),
            ),
          ).toBe(true);
        continue;
      }
      if (!piece.mount) continue;
      const row = rows.find(({ piece: name }) => name === piece.name);
      expect(row, piece.name).toBeDefined();
      const pose = layout.mounts.find((each) => each.piece === piece.id && each.holds === 'mount');
      if (!pose) continue;
      // The arm as set takes hold where the piece is: post and arm, squared up, span the way from clamp to piece.
      const { postMm, armMm, tiltDeg } = pose.reach.settings;
      const level = armMm * Math.cos((tiltDeg * Math.PI) / 180);
      if (pose.reach.reached) expect(level, piece.name).toBeCloseTo(pose.horizontalMm, 2);
      expect([row?.post, row?.arm]).toContain(pose.reach.reached ? length(postMm) : 'out of');
    }
  },
);

test('a tilt says its low edge: upstage at heading 0, stage right where the piece is turned a quarter to the left', () => {
  const { plan, id } = sampleSetups().find(({ name }) => name === 'one-up-two-down, straight')!;
  const setup = plan.setups[id];
  const tom = Object.values(setup.pieces).find((piece) => piece.kind === 'item' && (piece.place.tiltDeg ?? 0) > 0)!;
  const rowFor = (headingDeg: number, tiltDeg: number) => {
    const pieces = {
      ...setup.pieces,
      [tom.id]: { ...tom, place: { ...tom.place, headingDeg, tiltDeg } } as typeof tom,
    };
    const turned = { ...plan, setups: { ...plan.setups, [id]: { ...setup, pieces } } };
    const layout = layoutSetup(turned, id);
    const rows = settingsOf(turned, turned.setups[id], layout, markPlan(turned, id, layout).frame).flatMap(
      (group) => group.rows,
    );
    return rows.find(({ piece }) => piece === tom.name)?.tilt;
  };
  expect(rowFor(0, 12)).toEqual(['12°', 'low upstage']);
  expect(rowFor(90, 12)).toEqual(['12°', 'low stage right']);
  expect(rowFor(0, -8)).toEqual(['8°', 'low downstage']);
  expect(rowFor(0, 0)).toEqual([]);
});
