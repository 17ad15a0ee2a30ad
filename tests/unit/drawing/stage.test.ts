/** The stage against closed forms: glyphs within their things, microphones on their drums, distances and dimension lines. */
import { describe, expect, test } from 'vitest';
import { boxOfMarks, type Mark, type PathMark, style, THIN } from '../../../src/drawing/displayList.ts';
import { drawSetup } from '../../../src/drawing/drawSetup.ts';
import { stretchesOf } from '../../../src/drawing/edges.ts';
import { centreLineX } from '../../../src/drawing/extents.ts';
import { Pen } from '../../../src/drawing/pen.ts';
import { drawPiece, isPlacedMicrophone } from '../../../src/drawing/pieces.ts';
import { placeOnStage } from '../../../src/drawing/setupDimensions.ts';
import { cableRunMarks } from '../../../src/drawing/stage.ts';
import { drawStageItem, glyphSize, LEAST_MM, type StageGlyph, type StageUse } from '../../../src/drawing/stageItems.ts';
import { disc, moved, rectangle } from '../../../src/geometry/shapes.ts';
import { signedDistance } from '../../../src/geometry/unionInside.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { runLengthMm, stageFrontY, stageOf } from '../../../src/plan/stages.ts';
import { CATALOGUE_STAGE_ITEMS } from '../../fixtures/stageGear.ts';
import { STAGE, stagePlan } from '../../fixtures/stagePlan.ts';

const AT = { angle: 0.6, dx: 900, dy: -400 };

function glyph(one: StageGlyph): Mark[] {
  const pen = new Pen(AT, style('stage', { tint: 'stage' }));
  drawStageItem(pen, one, THIN);
  return pen.marks;
}

describe.each(CATALOGUE_STAGE_ITEMS)('$id', (gear) => {
  const mix = gear.use === 'wedge' ? { number: 12, by: 'wedge' as const } : { number: 12, by: 'inEar' as const };
  const one = { ...gear, mix: gear.use === 'wedge' || gear.use === 'person' ? mix : undefined };

  test.each([undefined, 1, 20, 50, 100])('nothing of its glyph is drawn outside what it needs, scale %s', (scale) => {
    const { w, d } = glyphSize({ ...gear, scale });
    const isRound = gear.shape === 'round';
    const body = moved(isRound ? disc(0, 0, Math.max(w, d) / 2) : rectangle(0, 0, w, d, 0), AT);
    const marks = glyph({ ...one, scale });
    expect(marks.length).toBeGreaterThanOrEqual(2);
    for (const mark of marks)
      for (const stretch of stretchesOf(mark))
        for (let k = 0; k <= 20; k++) expect(signedDistance(body, ...stretch.at(k / 20))).toBeLessThan(1e-6);
  });

  test('it is as large as the thing, or as it must be on paper to be told apart, and no larger', () => {
    const least = Math.min(gear.widthMm, gear.depthMm);
    expect(glyphSize(gear)).toEqual({ w: gear.widthMm, d: gear.depthMm });
    for (const scale of [20, 50, 100, 200]) {
      const { w, d } = glyphSize({ ...gear, scale });
      expect(Math.min(w, d)).toBeCloseTo(Math.max(least, LEAST_MM[gear.use] * scale), 6);
      expect(w / d).toBeCloseTo(gear.widthMm / gear.depthMm, 9);
    }
  });
});

test('no two uses draw the same at one size, without colour', () => {
  const uses = Object.keys(LEAST_MM) as StageUse[];
  const drawn = uses.map((use) =>
    JSON.stringify(
      glyph({ use, shape: 'box', widthMm: 400, depthMm: 400, scale: 50 }).map((mark) => [
        mark.kind,
        boxOfMarks([mark]),
      ]),
    ),
  );
  expect(new Set(drawn).size).toBe(uses.length);
});

const plan = stagePlan();
const setup = plan.setups.curved;
const layout = layoutSetup(plan, 'curved');
const draw = (scale: number, view: 'stage' | 'kit') =>
  drawSetup(plan, 'curved', layout, { findings: [] }, { scale, view, names: view === 'kit' ? 'all' : 'stage' });

test('a mix’s number stands upright in the wedge that plays it and in the person who hears it', () => {
  const number = (id: string) =>
    drawPiece(plan, setup, id, layout, 50).flatMap((mark) =>
      mark.kind === 'text' ? [[mark.text, mark.rotation]] : [],
    );
  expect(number('drum-wedge')).toEqual([['1', 0]]);
  expect(number('singer')).toEqual([['2', 0]]);
  expect(number('keys-player')).toEqual([['4', 0]]);
  expect(number('guitar-wedge')).toEqual([]);
});

describe('microphones in place', () => {
  const ids = setup.order.filter((id) => {
    const piece = setup.pieces[id];
    return piece.kind === 'item' && isPlacedMicrophone(plan, setup, piece);
  });
  test('are those on drums, cymbals and amplifiers, not the one before a singer', () => {
    expect(ids).toEqual(['guitar-mic', 'mic-bass', 'mic-snare', 'mic-tom', 'mic-floor-1', 'mic-floor-2', 'mic-hats']);
  });

  test.each([
    ['mic-snare', 'snare', 14],
    ['mic-tom', 'tom', 12],
    ['mic-floor-1', 'floor-tom-1', 14],
    ['mic-floor-2', 'floor-tom-2', 16],
  ])('%s has its head over %s, on the way from its place to the middle', (id, drumId, inches) => {
    const head = drawPiece(plan, setup, id, layout).find((mark) => mark.kind === 'circle' && mark.tint === 'solid');
    if (head?.kind !== 'circle') throw new Error('no head');
    const { xMm, yMm } = setup.pieces[drumId].place;
    const from = setup.pieces[id].place;
    const far = Math.hypot(xMm - from.xMm, yMm - from.yMm);
    expect(Math.hypot(head.cx - xMm, head.cy - yMm)).toBeLessThan((inches * 25.4) / 2);
    const off = (head.cx - from.xMm) * (yMm - from.yMm) - (head.cy - from.yMm) * (xMm - from.xMm);
    expect(Math.abs(off) / far).toBeLessThan(1e-6);
  });

  test('one that stands before a bass drum has its stand where it is and its head at the drum', () => {
    const marks = drawPiece(plan, setup, 'mic-bass', layout);
    const { minY, maxY } = boxOfMarks(marks);
    expect(minY).toBeCloseTo(-150 - 200, 6);
    // The drum's front head is at 395.2 less half of 14 in.
    expect(maxY).toBeGreaterThan(395.2 - 7 * 25.4);
  });
});

test('the stage’s front edge at a place: level, sloping, and none beside it', () => {
  expect(stageFrontY(STAGE, 0)).toBe(-4000);
  expect(stageFrontY(STAGE, 6000)).toBeNull();
  const corners = [
    [-1000, 0],
    [1000, -500],
    [1000, 3000],
    [-1000, 3000],
  ].map(([xMm, yMm]) => ({ xMm, yMm }));
  expect(stageFrontY({ ...STAGE, outline: corners }, 0)).toBeCloseTo(-250, 9);
});

test('the riser’s place on the stage', () => {
  expect(centreLineX(layout, stageOf(plan, setup))).toBe(200);
  // The riser lies from -914.4 to 914.4 about x = 0, its front at y = 0; the stage's centre line at 200, its front at -4000.
  expect(placeOnStage(layout, STAGE)).toMatchObject({ what: 'Riser', toFrontMm: 4000 });
  expect(placeOnStage(layout, STAGE)?.offCentreMm).toBeCloseTo(-200, 9);
});

const lengthOf = (marks: readonly Mark[], title: string, axis: 'x' | 'y'): number[] =>
  marks.flatMap((mark) => {
    if (mark.kind !== 'path' || !mark.title?.startsWith(title)) return [];
    const [p] = mark.chains[0].pieces;
    if (p.kind !== 'segment') return [];
    const [dx, dy] = [Math.abs(p.x1 - p.x0), Math.abs(p.y1 - p.y0)];
    if (axis === 'x') return dy < 1e-9 && mark.tint === null ? [dx] : [];
    return dx < 1e-9 && mark.tint === null ? [dy] : [];
  });

test('dimension lines are as long as what they say', () => {
  const { marks } = draw(50, 'stage');
  const near = (list: number[], mm: number) => list.some((one) => Math.abs(one - mm) < 1e-6);
  expect(near(lengthOf(marks, 'Riser to stage edge: depth', 'y'), 4000)).toBe(true);
  expect(near(lengthOf(marks, 'Stage: width', 'x'), 10_400)).toBe(true);
  expect(near(lengthOf(marks, 'Stage: depth', 'y'), 6800)).toBe(true);
  const texts = marks.flatMap((mark) => (mark.kind === 'text' && mark.layer === 'dimensions' ? [mark.text] : []));
  expect(texts).toContain(`13' 1 1/2"`);
  expect(texts).toContain(`7 7/8"`);
});

test('the stage is drawn beneath everything, its edge wide, its wings tinted; the kit’s own view has none of it', () => {
  const { marks } = draw(50, 'stage');
  const edge = marks.find((mark): mark is PathMark => mark.title === 'Hall stage');
  expect(edge?.line?.width).toBe('wide');
  expect(marks.filter((mark) => mark.title?.startsWith('Wing, ') && mark.tint === 'stage')).toHaveLength(2);
  expect(marks.indexOf(edge!)).toBeLessThan(marks.findIndex((mark) => mark.layer === 'deck'));
  expect(draw(20, 'kit').marks.some((mark) => mark.title === 'Hall stage')).toBe(false);
});

test('a cable run: its line, a slash at least on each stretch, a dot at each end; its length as drawn', () => {
  const points = [
    [0, 0],
    [3000, 0],
    [3000, 400],
  ].map(([xMm, yMm]) => ({ xMm, yMm }));
  const cable = { id: 'c', note: 'Snake', points };
  expect(runLengthMm(cable)).toBe(3400);
  const marks = cableRunMarks([cable], 100);
  expect(marks.filter((mark) => mark.kind === 'circle')).toHaveLength(2);
  // 30 mm of paper have four slashes 7 mm apart, 4 mm have one.
  expect(marks.filter((mark) => mark.kind === 'path')).toHaveLength(1 + 4 + 1);
});
