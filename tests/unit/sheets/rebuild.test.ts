/**
 * A stranger with the mark sheet alone: where each arm ends is worked out from the words and numbers that the sheet prints, and
 * held against where the plan has it. Only the sheet's texts and the clamps' own reach are used on the way.
 */
import { expect, test } from 'vitest';
import { inFrame } from '../../../src/checks/marks/datums.ts';
import { markPlan } from '../../../src/checks/marks/markPlan.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { fromCentre, fromFront, markName } from '../../../src/words/markWords.ts';
import { type Setting, settingsOf } from '../../../src/words/settings.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

type Point = readonly [number, number];

/** In the marks' frame x runs to stage left, y upstage. */
const WAYS: Readonly<Record<string, Point>> = {
  'stage left': [1, 0],
  'upstage left': [Math.SQRT1_2, Math.SQRT1_2],
  upstage: [0, 1],
  'upstage right': [-Math.SQRT1_2, Math.SQRT1_2],
  'stage right': [-1, 0],
  'downstage right': [-Math.SQRT1_2, -Math.SQRT1_2],
  downstage: [0, -1],
  'downstage left': [Math.SQRT1_2, -Math.SQRT1_2],
};

/** "516 stage right" as a coordinate; "on it" is 0. */
function across(text: string): number {
  const found = /^(\d+) (stage left|stage right)$/.exec(text);
  if (!found) return text === 'on it' ? 0 : Number.NaN;
  return Number(found[1]) * (found[2] === 'stage left' ? 1 : -1);
}

/** A place along a tube from its words: two uprights' places, how far it stands out, its length and its bow. */
function tubePoint(uprights: readonly [Point, Point], bar: Setting, insideMm: number): { at: Point; along: Point } {
  const [[x0, y0], [x1, y1]] = uprights;
  const chord = Math.hypot(x1 - x0, y1 - y0);
  const [ux, uy] = [(x1 - x0) / chord, (y1 - y0) / chord];
  const radius = Number(/radius of (\d+)/.exec(bar.held[1])?.[1] ?? Number.NaN);
  const bow = WAYS[/bow (.*)$/.exec(bar.held[0])?.[1] ?? ''];
  if (!bow) return { at: [x0 + ux * insideMm, y0 + uy * insideMm], along: [ux, uy] };
  // The tube laid from its start along the x axis, bow to the left: straight, round, straight.
  const [, cut, out0, out1] = /^(\d+) long.*stands out (\d+) and (\d+)$/.exec(bar.held[1])!.map(Number);
  const straight = Number(/straight for (\d+)/.exec(bar.held[1])?.[1] ?? 0);
  const turn = (cut - 2 * straight) / radius;
  const place = (s: number): { p: Point; angle: number } => {
    if (s <= straight) return { p: [s, 0], angle: 0 };
    const a = Math.min((s - straight) / radius, turn);
    const p: Point = [straight + radius * Math.sin(a), -radius * (1 - Math.cos(a))];
    const rest = Math.max(0, s - straight - radius * turn);
    return { p: [p[0] + rest * Math.cos(a), p[1] - rest * Math.sin(a)], angle: -a };
  };
  const [a, b, here] = [out0, cut - out1, out0 + insideMm].map(place);
  // Its bow lies to the left of the way from a to b; mirrored where the sheet says the other side.
  const left = bow[0] * -uy + bow[1] * ux > 0;
  const flip = (v: Point): Point => (left ? v : [v[0], -v[1]]);
  const [pa, pb, ph] = [a.p, b.p, here.p].map(flip);
  const turnBy = Math.atan2(y1 - y0, x1 - x0) - Math.atan2(pb[1] - pa[1], pb[0] - pa[0]);
  const [c, s] = [Math.cos(turnBy), Math.sin(turnBy)];
  const [dx, dy] = [ph[0] - pa[0], ph[1] - pa[1]];
  const angle = (left ? here.angle : -here.angle) + turnBy;
  return { at: [x0 + dx * c - dy * s, y0 + dx * s + dy * c], along: [Math.cos(angle), Math.sin(angle)] };
}

const AGREE_MM = 6;

test.each(sampleSetups().filter(({ plan }) => plan.name === 'One kit on four bases'))(
  '$name: every arm on a bar ends where the plan has it, from the words of the sheet',
  ({ plan, id }) => {
    const mm = { ...plan, units: 'mm' as const };
    const setup = mm.setups[id];
    const layout = layoutSetup(mm, id);
    const { frame, marks } = markPlan(mm, id, layout);
    const rows = settingsOf(mm, setup, layout, frame).flatMap((group) => group.rows);
    let held = 0;
    for (const row of rows) {
      const carrier = /^(.*): (bar \d+)$/.exec(row.held[0]);
      if (!carrier || row.armTilt === '' || row.fromCentre === '' || row.held[1].includes('socket')) continue;
      const [, rackName, barName] = carrier;
      const bar = rows.find((one) => one.piece === rackName && one.held[0].startsWith(`${barName}:`))!;
      // An upright stands in the middle of its foot: half-way between the marks of the foot's two ends.
      const uprights = /: (.*) upright to (.*) upright/
        .exec(bar.held[0])!
        .slice(1)
        .map((which): Point => {
          const ends = marks.filter(({ mark }) => markName(mark).startsWith(`${rackName}: ${which} foot,`));
          expect(ends).toHaveLength(2);
          const middle = (read: (laid: (typeof ends)[number]) => number) => (read(ends[0]) + read(ends[1])) / 2;
          return [
            middle(({ fromCentreMm }) => across(fromCentre(fromCentreMm, 'mm'))),
            middle(({ fromFrontMm }) => Number(fromFront(fromFrontMm, 'mm'))),
          ];
        });
      const [, insideText, side] = /^(\d+) (inside|outside) the/.exec(row.held[1])!;
      const along = Number(insideText) * (side === 'inside' ? 1 : -1);
      const tube = tubePoint([uprights[0], uprights[1]], bar, along);
      // The post beside the tube, square to it, on the side that the sheet names.
      const pose = layout.mounts.find(
        ({ piece, holds }) => setup.pieces[piece].name === row.piece && holds === 'mount',
      )!;
      const reach = pose.clamp?.reachMm ?? 0;
      const square: Point = [-tube.along[1], tube.along[0]];
      const way = WAYS[row.postSide.replace(' of its tube', '')] ?? [0, 0];
      const sign = Math.sign(square[0] * way[0] + square[1] * way[1]);
      const post: Point = [tube.at[0] + sign * reach * square[0], tube.at[1] + sign * reach * square[1]];
      const truth = inFrame(frame, [pose.post[0], pose.post[1]]);
      expect(Math.hypot(post[0] - truth[0], post[1] - truth[1]), `${row.piece}: post`).toBeLessThan(AGREE_MM);
      // Post up, arm out at its tilt towards the spot under the piece; it ends where the piece is taken hold of.
      const level =
        Number(row.arm) * Math.cos((Number(row.armTilt.replace('°', '').replace('−', '-')) * Math.PI) / 180);
      const target = inFrame(frame, [pose.target[0], pose.target[1]]);
      const reached = Math.hypot(target[0] - post[0], target[1] - post[1]);
      expect(Math.abs(reached - level), `${row.piece}: arm`).toBeLessThan(AGREE_MM);
      const item = setup.pieces[pose.piece];
      const spot = inFrame(frame, [item.place.xMm, item.place.yMm]);
      expect(Math.abs(across(row.fromCentre) - spot[0])).toBeLessThan(1);
      expect(Math.abs(Number(row.fromFront) - spot[1])).toBeLessThan(1);
      held++;
    }
    expect(held).toBeGreaterThan(4);
  },
);
