/** The elevation: where things stand in it, worked by hand; a tilted drum against points of its rims turned in space. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { boxOfMarks, type Mark, style } from '../../../src/drawing/displayList.ts';
import {
  cylinderMarks,
  type Elevation,
  type ElevationOptions,
  EYES,
  elevationOf,
  gripAt,
  seenDisc,
} from '../../../src/drawing/elevation.ts';
import { estimateText } from '../../../src/drawing/textWidth.ts';
import { heightCommand } from '../../../src/editor/canvas/elevation/heightDrag.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { headNormal } from '../../../src/plan/items.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Item, Plan } from '../../../src/plan/schema.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { SAMPLE_PLANS, sampleSetups } from '../../fixtures/samplePlans.ts';

const OPTIONS: ElevationOptions = { side: 'audience', selected: [], units: 'mm', scale: 20, measure: estimateText };
const seen = (plan: Plan, options: Partial<ElevationOptions> = {}, id = plan.order[0]): Elevation =>
  elevationOf(plan, id, layoutSetup(plan, id), { ...OPTIONS, ...options });
const marksOf = ({ list }: Elevation, piece: string): Mark[] => list.marks.filter(({ pieceId }) => pieceId === piece);
const rad = (degrees: number) => (degrees * Math.PI) / 180;
const tilted = (headingDeg: number, tiltDeg: number) =>
  headNormal({ place: { xMm: 0, yMm: 0, headingDeg, tiltDeg } } as Pick<Item, 'place'>);

describe('a tilted drum', () => {
  // 300 mm across, 200 deep, its top centre at (100, 50, 800), leaning to its back by 30 degrees.
  const drum = (headingDeg: number, tiltDeg: number) => ({
    end: [100, 50, 800] as const,
    axis: tilted(headingDeg, tiltDeg),
    length: 200,
    radius: 150,
  });

  test('from stage right everything is as from stage left, the other way round', () => {
    const at = (side: 'side' | 'otherSide') => seenDisc([100, 250, 900], [0.6, 0, 0.8], 150, EYES[side]);
    const [left, right] = [at('side'), at('otherSide')];
    expect(right.cx).toBe(-left.cx);
    expect([right.cy, right.rx, right.ry]).toEqual([left.cy, left.rx, left.ry]);
  });

  test('from the side its outline is a rectangle turned by its tilt', () => {
    const box = boxOfMarks(cylinderMarks(drum(0, 30), EYES.side, style('drums')));
    // Head from (50 - 150 cos 30, 800 + 150 sin 30) to (50 + 150 cos 30, 800 - 150 sin 30); the bottom 200 (sin 30, cos 30) lower.
    expect(box.minX).toBeCloseTo(50 - 150 * Math.cos(rad(30)) - 200 * Math.sin(rad(30)), 9);
    expect(box.maxX).toBeCloseTo(50 + 150 * Math.cos(rad(30)), 9);
    expect(box.maxY).toBeCloseTo(800 + 150 * Math.sin(rad(30)), 9);
    expect(box.minY).toBeCloseTo(800 - 200 * Math.cos(rad(30)) - 150 * Math.sin(rad(30)), 9);
  });

  test('from the audience it is as wide as it is, its head an ellipse squeezed by the sine of the tilt', () => {
    const head = seenDisc([100, 50, 800], tilted(0, 30), 150, EYES.audience);
    expect([head.cx, head.cy, head.rx]).toEqual([100, 800, 150]);
    expect(head.ry).toBeCloseTo(150 * Math.sin(rad(30)), 9);
    expect(Math.abs(Math.sin(head.rotation))).toBeLessThan(1e-12);
    const box = boxOfMarks(cylinderMarks(drum(0, 30), EYES.audience, style('drums')));
    expect([box.minX, box.maxX]).toEqual([expect.closeTo(-50, 9), expect.closeTo(250, 9)]);
  });

  test('every point of its rim lies in the ellipse that is drawn, and some reach each end of it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.constantFrom('audience' as const, 'side' as const),
        (headingDeg, tiltDeg, side) => {
          const eye = EYES[side];
          const { cx, cy, rx, ry, rotation } = seenDisc([0, 0, 0], tilted(headingDeg, tiltDeg), 1, eye);
          // The rim in space, turned step by step: tilted about its own x, then turned about the upright line.
          const [h, t] = [rad(headingDeg), rad(tiltDeg)];
          let along = 0;
          let across = 0;
          for (let k = 0; k < 720; k++) {
            const a = (k * Math.PI) / 360;
            const [x, y, z] = [Math.cos(a), Math.sin(a) * Math.cos(t), -Math.sin(a) * Math.sin(t)];
            const [px, py] = [x * Math.cos(h) - y * Math.sin(h), x * Math.sin(h) + y * Math.cos(h)];
            const [u, v] = [(side === 'audience' ? px : py) - cx, z - cy];
            along = Math.max(along, Math.abs(u * Math.cos(rotation) + v * Math.sin(rotation)));
            across = Math.max(across, Math.abs(-u * Math.sin(rotation) + v * Math.cos(rotation)));
          }
          expect(along).toBeCloseTo(rx, 4);
          expect(across).toBeCloseTo(ry, 4);
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('what stands where', () => {
  const plan = samplePlan();

  test('a rack across the view: uprights, feet and bar where the plan has them', () => {
    // The left rack runs from (-800, -100) towards the audience: from the side its legs are 900 mm apart.
    const side = seen(plan, { side: 'side', selected: ['left'] });
    const bar = side.grips.find(({ piece, bar: one }) => piece === 'left' && one === 'b1')!;
    expect(bar.heightMm).toBe(700);
    expect(bar.box.minX).toBeCloseTo(-100 - 950, 6);
    expect(bar.box.maxX).toBeCloseTo(-100 + 50, 6);
    expect(bar.box.maxY - bar.box.minY).toBeCloseTo(38.1, 1);
    // From the audience the same bar is seen end on: a circle.
    const front = seen(plan, { selected: ['left'] }).grips.find(({ piece }) => piece === 'left')!;
    expect(front.box.maxX - front.box.minX).toBeCloseTo(front.box.maxY - front.box.minY, 9);
    expect((front.box.minX + front.box.maxX) / 2).toBeCloseTo(-800, 9);
  });

  test('with a rack selected its assembly is shown and nothing else', () => {
    const { pieces } = seen(plan, { selected: ['left'] });
    expect(pieces).toEqual(['left', 'crash', 'hat-stand', 'hat']);
    // A piece that hangs on it brings the same.
    expect(seen(plan, { selected: ['crash'] }).pieces).toEqual(pieces);
    expect(seen(plan).pieces).toEqual(plan.setups.straight.order);
  });

  test('the riser lies under the deck’s line, as wide as it is from there', () => {
    const deck = seen(plan).list.marks.filter(({ layer }) => layer === 'deck');
    expect(boxOfMarks(deck)).toEqual({ minX: -1000, maxX: 1000, minY: -400, maxY: 0 });
  });

  test('dimensions say the heights of what is selected', () => {
    const texts = (options: Partial<ElevationOptions>) =>
      seen(plan, options).list.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));
    expect(texts({})).toEqual([]);
    expect(texts({ selected: ['crash'] })).toEqual(['1050 mm']);
    expect(texts({ selected: ['front'] })).toEqual(['300 mm', '700 mm']);
  });

  test('an arm runs from its clamp to what it holds', () => {
    const pose = layoutSetup(plan, 'straight').mounts.find(({ piece }) => piece === 'crash')!;
    const arm = marksOf(seen(plan, { side: 'side' }), 'crash').filter(({ layer }) => layer === 'mounts');
    const box = boxOfMarks(arm);
    for (const [, y, z] of [pose.clampAt, pose.post, pose.target]) {
      expect(y).toBeGreaterThanOrEqual(box.minX - 1e-9);
      expect(y).toBeLessThanOrEqual(box.maxX + 1e-9);
      expect(z).toBeLessThanOrEqual(box.maxY + 1e-9);
    }
  });

  test.each(sampleSetups().map(({ name, plan: one, id }) => [name, one, id] as const))(
    '%s: numbers all through, and every kit piece drawn',
    (_, one, id) => {
      for (const side of ['audience', 'side'] as const) {
        const elevation = seen(one, { side, selected: one.setups[id].order }, id);
        const numbers = JSON.stringify(elevation.list);
        expect(numbers).not.toMatch(/null,"y|NaN|Infinity/);
        for (const piece of elevation.pieces) expect(marksOf(elevation, piece).length, piece).toBeGreaterThan(0);
        const { minX, maxX, minY, maxY } = elevation.list.box;
        expect([minX, maxX, minY, maxY].every(Number.isFinite)).toBe(true);
      }
    },
  );
});

describe('heights by hand', () => {
  const plan = samplePlan();
  const elevation = seen(plan, { side: 'side', selected: ['left'] });
  const bar = elevation.grips.find(({ piece }) => piece === 'left')!;
  const crash = elevation.grips.find(({ piece }) => piece === 'crash')!;

  test('the thing under the pointer, what is selected first', () => {
    const u = (bar.box.minX + bar.box.maxX) / 2;
    expect(gripAt(elevation, u, 700, 0)?.bar).toBe('b1');
    expect(gripAt(elevation, bar.box.minX - 4, 700, 5, ['left'])?.piece).toBe('left');
    expect(gripAt(elevation, bar.box.minX - 6, 700, 5)).toBeNull();
  });

  test('a drag is one command, held to whole mm, to steps and to the deck', () => {
    const { straight } = plan.setups;
    const set = (upMm: number, stepMm = 1) => {
      const ran = runCommand(
        plan,
        heightCommand({ plan, setup: straight }, crash, { upMm, stepMm, carries: false, grips: elevation.grips }),
      );
      return ran.ok ? ran.plan.setups.straight.pieces.crash.place.heightMm : null;
    };
    expect(set(33.4)).toBe(1083);
    expect(set(33.4, 10)).toBe(1080);
    expect(set(-5000)).toBe(0);
    const ran = runCommand(
      plan,
      heightCommand({ plan, setup: straight }, bar, { upMm: 25, stepMm: 1, carries: false, grips: elevation.grips }),
    );
    expect(ran.ok && ran.plan.setups.straight.pieces.left).toMatchObject({ spans: [{ bars: [{ heightMm: 725 }] }] });
  });

  test('what is on a stand goes up with it, and a stand whose height is open follows it', () => {
    const [four] = SAMPLE_PLANS.filter(({ name }) => name === 'four-bases');
    const setup = four.plan.setups.straight;
    const { grips } = seen(four.plan, { side: 'side' });
    const stand = grips.find(({ piece }) => piece === 'snare-stand')!;
    const places = (plan: Plan) => {
      const command = heightCommand({ plan, setup: plan.setups.straight }, stand, {
        upMm: 20,
        stepMm: 1,
        carries: false,
        grips,
      });
      return command.type === 'placePieces' ? command.places : null;
    };
    const open = places(four.plan)!;
    expect(Object.keys(open)).toEqual(['snare']);
    // The stand's own top is held to whole mm.
    expect(open.snare.heightMm).toBeCloseTo(setup.pieces.snare.place.heightMm! + 20, 0);
    const set = structuredClone(four.plan) as Plan;
    set.setups.straight.pieces['snare-stand'].place.heightMm = 510;
    expect(Object.keys(places(set)!).sort()).toEqual(['snare', 'snare-stand']);
  });

  test('with "carry along", what hangs on a bar goes up as far as the bar', () => {
    const { straight } = plan.setups;
    const command = heightCommand({ plan, setup: straight }, bar, {
      upMm: 25,
      stepMm: 1,
      carries: true,
      grips: elevation.grips,
    });
    const ran = runCommand(plan, command);
    if (!ran.ok) throw new Error('refused');
    const now = ran.plan.setups.straight.pieces;
    expect(now.left).toMatchObject({ spans: [{ bars: [{ heightMm: 725 }] }] });
    const hung = elevation.grips.filter(({ piece, bar: on }) => {
      const one = straight.pieces[piece];
      return on === null && one.kind === 'item' && one.mount?.carrier.on === 'bar' && one.mount.carrier.rack === 'left';
    });
    expect(hung.length).toBeGreaterThan(0);
    for (const { piece, heightMm } of hung) expect(now[piece].place.heightMm).toBe(heightMm + 25);
  });
});
