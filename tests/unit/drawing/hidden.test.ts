import { describe, expect, test } from 'vitest';
import {
  circleMark,
  ellipseMark,
  lineMark,
  type Mark,
  polygonMark,
  type Style,
  style,
} from '../../../src/drawing/displayList.ts';
import { encloses } from '../../../src/drawing/edges.ts';
import { hiddenLines } from '../../../src/drawing/hidden.ts';
import { outlineMarks } from '../../../src/drawing/outline.ts';
import { bentCapsule, capsule } from '../../../src/geometry/shapes.ts';

const bar: Style = style('racks', { part: 'bar', covered: 'dashed' });
const drum = (part: string): Style => style('drums', { part, tint: 'middle', covered: 'dashed' });

function segments(marks: readonly Mark[]): [number, number, number, number][] {
  return marks.flatMap((mark) =>
    mark.kind === 'path'
      ? mark.chains.flatMap(({ pieces }) =>
          pieces.flatMap((p): [number, number, number, number][] =>
            p.kind === 'segment' ? [[p.x0, p.y0, p.x1, p.y1]] : [],
          ),
        )
      : [],
  );
}

describe('a line of 1000 mm', () => {
  const line = lineMark(bar, -500, 60, 500, 60);

  test('under a drum of radius 100 is dashed along its chord there: 2 sqrt(100^2 - 60^2) = 160', () => {
    const hidden = hiddenLines([line, circleMark(drum('drum'), 0, 0, 100)]);
    expect(hidden.map(({ line: kind }) => kind?.kind)).toEqual(['dashed']);
    const [[x0, y0, x1, y1]] = segments(hidden);
    expect([x0, x1].map((x) => Math.round(x * 10) / 10)).toEqual([-80, 80]);
    expect([y0, y1]).toEqual([60, 60]);
  });

  test('under two drums is dashed twice; where they overlap, once', () => {
    const apart = [circleMark(drum('a'), -200, 60, 50), circleMark(drum('b'), 200, 60, 50)];
    expect(segments(hiddenLines([line, ...apart]))).toHaveLength(2);
    const together = [circleMark(drum('a'), -30, 60, 50), circleMark(drum('b'), 30, 60, 50)];
    expect(segments(hiddenLines([line, ...together]))).toHaveLength(1);
  });

  test.each<[string, Mark[]]>([
    ['above the drum', [circleMark(drum('drum'), 0, 0, 100), line]],
    ['under a cymbal, which lets it show', [line, circleMark({ ...drum('c'), tint: 'overhead' }, 0, 0, 100)]],
    ['under a part of the same thing', [line, circleMark(drum('bar'), 0, 0, 100)]],
    ['that leaves no trace when covered', [{ ...line, covered: 'unseen' }, circleMark(drum('drum'), 0, 0, 100)]],
    ['beside the drum', [line, circleMark(drum('drum'), 0, 300, 100)]],
  ])('%s has no dashes', (_, marks) => expect(hiddenLines(marks)).toEqual([]));
});

test('an ellipse half under a box keeps its curve: the hidden half is the ellipse’s own arc', () => {
  const rim = ellipseMark({ ...drum('tom') }, 0, 0, 150, 120, 0.3);
  const box = polygonMark(drum('amp'), [-500, -500, 500, -500, 500, 0, -500, 0]);
  const hidden = hiddenLines([rim, box]).filter((mark) => mark.kind === 'ellipse');
  expect(hidden.length).toBeGreaterThanOrEqual(1);
  const total = hidden.reduce((sum, mark) => sum + mark.sweep, 0);
  expect(total).toBeCloseTo(Math.PI, 3);
});

describe('encloses', () => {
  const tube = outlineMarks(capsule(0, 0, 100, 0, 20), drum('t'))[0];
  const bent = outlineMarks(bentCapsule(0, 0, 200, 0, 2, 20), drum('t'))[0];
  const ring = outlineMarks(bentCapsule(0, 0, 200, 0, 7, 20), drum('t'))[0];
  test.each<[string, Mark, number, number, boolean]>([
    ['a tube its middle', tube, 50, 0, true],
    ['a tube its round end', tube, 119, 0, true],
    ['a tube nothing past its end', tube, 121, 0, false],
    ['a bend its middle', bent, 200 * Math.cos(1), 200 * Math.sin(1), true],
    ['a bend not its centre', bent, 0, 0, false],
    ['a ring not its hole', ring, 0, 0, false],
    ['a ring its tube', ring, 0, -200, true],
    ['an ellipse its far end', ellipseMark(drum('e'), 0, 0, 100, 10, Math.PI / 2), 0, 99, true],
    ['an ellipse nothing at its flat side', ellipseMark(drum('e'), 0, 0, 100, 10, Math.PI / 2), 11, 0, false],
  ])('%s', (_, mark, x, y, inside) => expect(encloses(mark, x, y)).toBe(inside));
});
