/** Laws that hold for any kit, on every sample: they would catch a check that leans on where things are on the page. */
import { describe, expect, test } from 'vitest';
import { comparedSetup } from '../../../src/checks/compare.ts';
import type { Finding } from '../../../src/checks/finding.ts';
import { LISTED_BELOW_MM } from '../../../src/checks/limits.ts';
import { type Checked, runChecks } from '../../../src/checks/run.ts';
import { wayIn } from '../../../src/checks/wayIn.ts';
import { once } from '../../../src/keep.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runCommand } from '../../../src/plan/run.ts';
import type { Plan, Setup } from '../../../src/plan/schema.ts';
import { sampleSetups } from '../../fixtures/samplePlans.ts';

const MM = 1e-5;
function check(plan: Plan, id: string) {
  const layout = layoutSetup(plan, id);
  const checked = runChecks(plan, id, layout);
  const whole = once(() => comparedSetup(plan, id, layout, checked).readings);
  return {
    ...checked,
    get readings() {
      return whole();
    },
  };
}

function withSetup(plan: Plan, setup: Setup): Plan {
  return { ...plan, setups: { ...plan.setups, [setup.id]: setup } };
}

/** A plan with one setup moved, and its riser with it. */
function movedPlan(plan: Plan, setup: Setup, turnDeg: number, dx: number, dy: number): Plan {
  const c = Math.cos((turnDeg * Math.PI) / 180);
  const s = Math.sin((turnDeg * Math.PI) / 180);
  const riser = setup.riser === null ? null : plan.risers[setup.riser];
  const moved = withSetup(plan, movedSetup(setup, turnDeg, dx, dy));
  if (!riser) return moved;
  const modules = riser.modules.map((m) => ({
    ...m,
    xMm: c * m.xMm - s * m.yMm + dx,
    yMm: s * m.xMm + c * m.yMm + dy,
    headingDeg: m.headingDeg + turnDeg,
  }));
  return { ...moved, risers: { ...plan.risers, [riser.id]: { ...riser, modules } } };
}

/** Everything turned about the plan's origin and shifted; the riser stays. */
function movedSetup(setup: Setup, turnDeg: number, dx: number, dy: number): Setup {
  const c = Math.cos((turnDeg * Math.PI) / 180);
  const s = Math.sin((turnDeg * Math.PI) / 180);
  const pieces = Object.fromEntries(
    Object.entries(setup.pieces).map(([id, piece]) => {
      const { xMm: x, yMm: y, headingDeg } = piece.place;
      const place = {
        ...piece.place,
        xMm: c * x - s * y + dx,
        yMm: s * x + c * y + dy,
        headingDeg: headingDeg + turnDeg,
      };
      return [id, { ...piece, place }];
    }),
  );
  return { ...setup, pieces: pieces as Setup['pieces'] };
}

/** Gaps by the pieces and kinds they are between: a mirrored piece's left part is its right one. */
function gapsOf({ pairs }: Checked): Map<string, number[]> {
  const gaps = new Map<string, number[]>();
  for (const { a, b, gap } of pairs) {
    // A pair at the very edge of what is listed may fall on either side of it.
    if (Math.abs(gap - LISTED_BELOW_MM) < MM) continue;
    const key = [`${a.piece} ${a.kind}`, `${b.piece} ${b.kind}`].sort().join(' | ');
    gaps.set(key, [...(gaps.get(key) ?? []), gap]);
  }
  for (const list of gaps.values()) list.sort((p, q) => p - q);
  return gaps;
}

function expectSamePairs(ours: Checked, theirs: Checked): void {
  const before = gapsOf(ours);
  const after = gapsOf(theirs);
  expect([...after.keys()].sort()).toEqual([...before.keys()].sort());
  for (const [key, gaps] of before) {
    const others = after.get(key)!;
    expect(others.length, key).toBe(gaps.length);
    gaps.forEach((gap, k) => {
      expect(Math.abs(gap - others[k]), key).toBeLessThan(MM);
    });
  }
}

/** What a finding says, without where: places change when a kit is moved. */
const said = (findings: readonly Finding[]) =>
  findings
    .map(({ check: name, code, state, pieces, value }) => [
      name,
      code,
      state,
      [...pieces].sort().join(),
      value === null ? null : Number(value.toFixed(4)),
    ])
    .map((row) => JSON.stringify(row))
    .sort();

/** What is a place or a direction on the page, and turns with the kit. */
const ON_THE_PAGE = new Set(
  [
    'at',
    'centre',
    'clampAt',
    'post',
    'elbow',
    'target',
    'sockets',
    'foot',
    'top',
    'tipDirection',
    'own',
    'bare',
  ].concat(
    // Of a drawing's frame; and the best pose turns no farther from facing the audience than the plan lets it.
    ['line', 'extent', 'floorExtent', 'bestRiserPose', 'bestRiserShift', 'angle'],
  ),
);

/** Every other number and word of an answer, with the way to it. */
function* leaves(value: unknown, way = ''): Generator<readonly [string, unknown]> {
  if (way.endsWith('Rectangle') && value !== null) {
    // Which of its sides is called the width is a matter of the page.
    const { width, depth } = value as { readonly width: number; readonly depth: number };
    yield [`${way}.short`, Math.min(width, depth)];
    yield [`${way}.long`, Math.max(width, depth)];
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, inner] of Object.entries(value)) if (!ON_THE_PAGE.has(key)) yield* leaves(inner, `${way}.${key}`);
  } else if (typeof value !== 'function') yield [way, value];
}

/** The same but for rounding: a hundred-thousandth, of lengths in mm, and of what is larger a part of it. */
function expectSameAnswers(before: unknown, after: unknown): void {
  const theirs = new Map(leaves(after));
  const ours = [...leaves(before)];
  expect([...theirs.keys()].sort()).toEqual(ours.map(([way]) => way).sort());
  for (const [way, value] of ours) {
    const other = theirs.get(way);
    if (typeof value !== 'number' || !Number.isFinite(value)) expect(other, way).toEqual(value);
    else expect(Math.abs((other as number) - value), way).toBeLessThan(MM * Math.max(1, Math.abs(value)));
  }
}

describe.each(sampleSetups())('$name', ({ plan, id }) => {
  const setup = plan.setups[id];
  const before = check(plan, id);

  test('turned and moved with its riser, the kit has the same gaps, areas and findings', () => {
    const moved = movedPlan(plan, setup, 37, 410, -230);
    const after = check(moved, id);
    expectSamePairs(before, after);
    expect(said(after.findings)).toEqual(said(before.findings));
    for (const key of ['floorHullArea', 'shadowArea'] as const)
      expect(after.readings[key]).toBeCloseTo(before.readings[key]!, 9);
    const width = (p: Plan) => wayIn(layoutSetup(p, id).bodies)?.width ?? null;
    expect(width(moved) === null).toBe(width(plan) === null);
    if (width(plan) !== null) expect(width(moved)).toBeCloseTo(width(plan)!, 4);
  });

  test.each([137.31, -88.8, 180])(
    'arms, loads, tipping, lifting and rooms turned by %s degrees with the riser are the same',
    (turn) => {
      const after = check(movedPlan(plan, setup, turn, -310, 190), id);
      expect(said(after.findings)).toEqual(said(before.findings));
      expectSameAnswers(before.rig, after.rig);
      expectSameAnswers(before.readings, after.readings);
    },
  );

  test('shifted along with its riser, nothing changes', () => {
    if (setup.riser === null) return;
    const after = check(movedPlan(plan, setup, 0, 125, -64), id);
    expect(said(after.findings)).toEqual(said(before.findings));
    expect(after.readings.riserMargin).toBeCloseTo(before.readings.riserMargin!, 6);
    expect(after.readings.bestRiserPose?.margin ?? null).toBeCloseTo(before.readings.bestRiserPose?.margin ?? 0, 6);
  });

  test('the best pose is as good as it says when the kit is put there, and faces the audience', () => {
    const { bestRiserPose, bestRiserShift, riserMargin } = before.readings;
    for (const pose of [bestRiserPose, bestRiserShift]) {
      if (!pose) continue;
      const there = check(withSetup(plan, movedSetup(setup, pose.angle, ...pose.move)), id);
      expect(there.readings.riserMargin).toBeCloseTo(pose.margin, 5);
      expect(pose.margin).toBeGreaterThanOrEqual(riserMargin! - 0.011);
      expect(Math.abs(pose.angle)).toBeLessThanOrEqual(15 + 1e-9);
      // From there nothing better is found.
      expect(there.readings.bestRiserPose!.margin).toBeLessThanOrEqual(bestRiserPose!.margin + 0.011);
    }
  });

  test('mirrored, the kit has the mirrored findings', () => {
    // The riser stays as it is when a kit is mirrored, so none is here.
    const bare = withSetup(plan, { ...setup, riser: null });
    const before = check(bare, id);
    const mirrored = runCommand(bare, { type: 'mirrorSetup', setup: id, axisXMm: 0 });
    if (!mirrored.ok) throw new Error('The setup should mirror.');
    const after = check(mirrored.plan, id);
    expectSamePairs(before, after);
    expect(said(after.findings)).toEqual(said(before.findings));
    // A place said of the kit changes sides with it.
    for (const finding of after.findings.filter(({ check: name }) => name === 'mountReach')) {
      const twin = before.findings.find(({ code, pieces }) => code === finding.code && pieces[0] === finding.pieces[0]);
      if (finding.at && twin?.at) expect(finding.at[0]).toBeCloseTo(-twin.at[0], 3);
    }
    expect(after.readings.floorHullArea).toBeCloseTo(before.readings.floorHullArea!, 9);
    expect(after.readings.extent!.width).toBeCloseTo(before.readings.extent!.width, 4);
  });

  test('growing a deck never lowers a margin', () => {
    const riser = setup.riser === null ? null : plan.risers[setup.riser];
    if (!riser) return;
    const { readings } = before;
    const [first, ...others] = riser.modules;
    const wider = { ...first, widthMm: first.widthMm + 300, depthMm: first.depthMm + 200 };
    const added = { ...first, id: 'one-more', xMm: first.xMm + first.widthMm, headingDeg: first.headingDeg };
    for (const modules of [
      [wider, ...others],
      [first, ...others, added],
    ]) {
      const grown = check({ ...plan, risers: { ...plan.risers, [riser.id]: { ...riser, modules } } }, id).readings;
      expect(grown.riserMargin!).toBeGreaterThanOrEqual(readings.riserMargin! - MM);
      expect(grown.overhang!).toBeLessThanOrEqual(readings.overhang! + MM);
      if (grown.bestRiserPose && readings.bestRiserPose)
        expect(grown.bestRiserPose.margin).toBeGreaterThanOrEqual(readings.bestRiserPose.margin - MM);
    }
  });

  test('a hull holds the shadow of what stands on the floor, and an extent holds its rectangle', () => {
    const { floorExtent, extent, smallestRectangle, floorRectangle } = before.readings;
    expect(floorExtent!.width).toBeLessThanOrEqual(extent!.width + MM);
    expect(floorExtent!.depth).toBeLessThanOrEqual(extent!.depth + MM);
    const area = ({ width, depth }: { width: number; depth: number }) => width * depth;
    expect(area(smallestRectangle!)).toBeLessThanOrEqual(area(extent!) + 1);
    expect(area(floorRectangle!)).toBeLessThanOrEqual(area(floorExtent!) + 1);
  });

  test('the same plan gives the same findings in the same order', () => {
    const again = check(structuredClone(plan), id);
    expect(JSON.stringify(again.findings)).toBe(JSON.stringify(before.findings));
  });
});
