/**
 * The DXF read back by two parsers that nobody here made, dxf-parser and dxf. What is expected comes from sizes typed into a plan
 * or from the display list, which knows nothing of the format; bulges are turned into arcs here by their published meaning.
 *
 * Sources: ezdxf's documentation of bulges (sagitta over half the chord), of $INSUNITS (4 = mm), $MEASUREMENT, and ARC.
 */
import { createRequire } from 'node:module';
import DxfParser, { type IDxf } from 'dxf-parser';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { sheetFonts } from '../../src/cli/fonts.ts';
import { circleMark, ellipseMark, type Mark, straightChain, style, textMark } from '../../src/drawing/displayList.ts';
import { drawSetup } from '../../src/drawing/drawSetup.ts';
import type { Piece } from '../../src/geometry/outline.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import type { Plan } from '../../src/plan/schema.ts';
import { toDxf } from '../../src/sheets/dxf.ts';
import { makeDxf } from '../../src/sheets/kinds.ts';
import { samplePlan } from '../fixtures/plans.ts';
import { checkedOf, layoutOf, sampleSetups } from '../fixtures/samplePlans.ts';

const fonts = sheetFonts();

interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

interface Read {
  readonly type: string;
  readonly layer: string;
  readonly handle: string;
  readonly vertices: readonly Vertex[];
  readonly shape?: boolean;
  readonly points: readonly Vertex[];
  readonly center: Vertex;
  readonly radius: number;
  readonly startAngle: number;
  readonly endAngle: number;
  readonly majorAxisEndPoint: Vertex;
  readonly axisRatio: number;
  readonly text: string;
  readonly textHeight: number;
  readonly rotation: number;
  readonly startPoint: Vertex;
  readonly halign?: number;
}

interface OtherRead {
  readonly type: string;
  readonly layer: string;
  readonly vertices?: readonly Vertex[];
  readonly closed?: boolean;
  readonly string?: string;
  readonly corners?: readonly Vertex[];
}

const other: { parseString(text: string): { entities: OtherRead[]; header: Record<string, unknown> } } = createRequire(
  import.meta.url,
)('dxf');

function parsed(text: string): { dxf: IDxf; entities: readonly Read[] } {
  const dxf = new DxfParser().parseSync(text);
  if (!dxf) throw new Error('The parser gave nothing.');
  return { dxf, entities: dxf.entities as unknown as Read[] };
}

interface Arc {
  readonly cx: number;
  readonly cy: number;
  readonly r: number;
  readonly lengthMm: number;
}

/** What a polyline's bulges say: bulge = sagitta / half chord = tan(angle / 4), to the right of the chord where positive. */
function arcsOf(vertices: readonly Vertex[], closed: boolean): { arcs: Arc[]; straightMm: number } {
  const arcs: Arc[] = [];
  let straightMm = 0;
  const count = closed ? vertices.length : vertices.length - 1;
  for (let k = 0; k < count; k++) {
    const [a, b] = [vertices[k], vertices[(k + 1) % vertices.length]];
    const chord = Math.hypot(b.x - a.x, b.y - a.y);
    if (!a.bulge) {
      straightMm += chord;
      continue;
    }
    const sagitta = (a.bulge * chord) / 2;
    const r = Math.abs(((chord / 2) ** 2 + sagitta ** 2) / (2 * sagitta));
    const angle = 4 * Math.atan(a.bulge);
    // From the chord's middle towards the centre, which lies to the left of a counter-clockwise arc below half a turn.
    const to = Math.sign(a.bulge) * (r - Math.abs(sagitta));
    const cx = (a.x + b.x) / 2 + (to * -(b.y - a.y)) / chord;
    const cy = (a.y + b.y) / 2 + (to * (b.x - a.x)) / chord;
    arcs.push({ cx, cy, r, lengthMm: r * Math.abs(angle) });
  }
  return { arcs, straightMm };
}

/** What has an edge, or is solid in its ink. */
const drawn = (marks: readonly Mark[]) =>
  marks.filter((mark) => mark.kind !== 'text' && (mark.line !== null || mark.tint === 'solid'));

/** Round a filled corner figure, whose last two corners the format crosses over. */
function roundSolid([a, b, d, c]: readonly Vertex[]): number {
  const ring = [a, b, c, d];
  return ring.reduce((sum, p, k) => sum + Math.hypot(p.x - ring[(k + 1) % 4].x, p.y - ring[(k + 1) % 4].y), 0);
}

const piecesOf = (marks: readonly Mark[]): Piece[] =>
  marks.flatMap((mark) => (mark.kind === 'path' ? mark.chains.flatMap(({ pieces }) => pieces) : []));

function drawingOf(plan: Plan, id: string): readonly Mark[] {
  const layout = layoutOf(plan, id);
  return drawSetup(plan, id, layout, checkedOf(plan, id), { scale: 20, hidden: false }).marks;
}

const dxfOf = (marks: readonly Mark[]) => toDxf(marks, { scale: 20, comment: 'Test' });

describe.each(sampleSetups().map(({ name, plan, id }) => [name, drawingOf(plan, id)] as const))('%s', (_, marks) => {
  const text = dxfOf(marks);
  const { dxf, entities } = parsed(text);
  const edges = drawn(marks);
  const polylines = entities.filter(({ type }) => type === 'LWPOLYLINE');

  test('2007’s format in mm and metric, every handle its own, every layer declared', () => {
    expect(dxf.header).toMatchObject({ $ACADVER: 'AC1021', $INSUNITS: 4, $MEASUREMENT: 1 });
    expect(new Set(entities.map(({ handle }) => handle)).size).toBe(entities.length);
    const declared = Object.keys(dxf.tables.layer.layers);
    expect(new Set(declared).size).toBe(declared.length);
    for (const { layer } of entities) expect(declared).toContain(layer);
    expect(other.parseString(text).header).toMatchObject({ insUnits: 4, measurement: 1 });
  });

  test('every round stretch is on an arc of the drawing: centre and radius to 1e-5 mm; none is lost', () => {
    const wanted = piecesOf(edges).flatMap((p) => (p.kind === 'arc' ? [p] : []));
    const circles = edges.filter((mark) => mark.kind === 'circle');
    const alone = entities.filter(({ type }) => type === 'ARC');
    const got = [
      ...polylines.flatMap(({ vertices, shape = false }) => arcsOf(vertices, shape).arcs),
      ...alone.map(({ center, radius, startAngle, endAngle }): Arc => {
        const sweep = endAngle > startAngle ? endAngle - startAngle : endAngle - startAngle + 2 * Math.PI;
        return { cx: center.x, cy: center.y, r: radius, lengthMm: radius * sweep };
      }),
    ];
    expect(got.length).toBeGreaterThan(10);
    for (const arc of got) {
      const near = wanted.some(
        ({ cx, cy, r }) =>
          Math.abs(r - arc.r) < 1e-5 * Math.max(1, r) && Math.hypot(cx - arc.cx, cy - arc.cy) < 1e-5 * Math.max(1, r),
      );
      expect(near, `radius ${arc.r} at ${arc.cx}, ${arc.cy}`).toBe(true);
    }
    const whole = entities.filter(({ type }) => type === 'CIRCLE');
    const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);
    const lengths = [...got.map(({ lengthMm }) => lengthMm), ...whole.map(({ radius }) => 2 * Math.PI * radius)];
    const expected = [
      ...wanted.map(({ r, sweep }) => r * Math.abs(sweep)),
      ...circles.map((mark) => (mark.kind === 'circle' ? 2 * Math.PI * mark.r : 0)),
    ];
    expect(Math.abs(sum(lengths) / sum(expected) - 1)).toBeLessThan(1e-8);
  });

  test('straight stretches have the drawing’s total length in both parsers', () => {
    let wanted = 0;
    for (const p of piecesOf(edges)) if (p.kind === 'segment') wanted += Math.hypot(p.x1 - p.x0, p.y1 - p.y0);
    const length = ([a, b]: readonly Vertex[]) => Math.hypot(b.x - a.x, b.y - a.y);
    let got = 0;
    for (const { type, vertices, points, shape = false } of entities) {
      if (type === 'LINE') got += length(vertices);
      if (type === 'LWPOLYLINE') got += arcsOf(vertices, shape).straightMm;
      if (type === 'SOLID') got += roundSolid(points);
    }
    expect(Math.abs(got / wanted - 1)).toBeLessThan(1e-9);
    let second = 0;
    for (const entity of other.parseString(text).entities) {
      const { start, end } = entity as unknown as { start: Vertex; end: Vertex };
      if (entity.type === 'LINE') second += length([start, end]);
      if (entity.type === 'LWPOLYLINE') second += arcsOf(entity.vertices!, entity.closed === true).straightMm;
      if (entity.type === 'SOLID') second += roundSolid(entity.corners!);
    }
    expect(Math.abs(second / wanted - 1)).toBeLessThan(1e-9);
  });

  test('every text is there, as it was', () => {
    const wanted = marks.flatMap((mark) => (mark.kind === 'text' && mark.text.trim() !== '' ? [mark.text] : []));
    expect(wanted.length).toBeGreaterThan(5);
    expect(entities.flatMap(({ type, text: words }) => (type === 'TEXT' ? [words] : []))).toEqual(wanted);
  });

  test('the same drawing gives the same bytes', () => expect(dxfOf(marks)).toBe(text));
});

describe('sizes that were typed into a plan', () => {
  const { entities } = parsed(dxfOf(drawingOf(samplePlan(), 'straight')));

  test('a level cymbal of 406 mm at (200, -700) is a circle of radius 203 on its layer', () => {
    const circles = entities.filter(({ type, layer }) => type === 'CIRCLE' && layer === 'CYMBALS');
    expect(circles).toContainEqual(expect.objectContaining({ radius: 203, center: { x: 200, y: -700, z: 0 } }));
  });

  test('tilted by 12 degrees it is an ellipse: 203 along, 203 cos 12 across', () => {
    const [tilted] = entities.filter(({ type, layer }) => type === 'ELLIPSE' && layer === 'CYMBALS');
    const { x, y } = tilted.majorAxisEndPoint;
    expect(Math.hypot(x, y)).toBeCloseTo(203, 6);
    expect(tilted.axisRatio).toBeCloseTo(Math.cos((12 * Math.PI) / 180), 6);
  });

  test('a riser of two modules of 1000 x 2000 is a closed outline of 2000 x 2000', () => {
    const boxes = entities
      .filter(({ type, layer, shape }) => type === 'LWPOLYLINE' && layer === 'DECK' && shape)
      .map(({ vertices }) => {
        const [xs, ys] = [vertices.map(({ x }) => x), vertices.map(({ y }) => y)];
        return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
      });
    expect(boxes).toContainEqual([2000, 2000]);
  });
});

describe.each(['marks', 'template'] as const)('the %s at 1:1', (kind) => {
  const plan = samplePlan();
  const layout = layoutSetup(plan, 'straight');
  const source = { plan, setupId: 'straight', layout, checked: runChecks(plan, 'straight', layout) };
  const text = makeDxf(kind, source, { paper: 'a4', date: '2026-03-14', fonts });
  const { dxf, entities } = parsed(text);
  const texts = entities.flatMap(({ type, text: words }) => (type === 'TEXT' ? [words] : []));

  test('in mm, from the centre line and the front edge: the riser of 2000 x 2000 lies at x -1000 to 1000, y 0 to 2000', () => {
    expect(dxf.header).toMatchObject({ $INSUNITS: 4 });
    const [riser] = entities.filter(({ layer, type }) => layer === 'DECK' && type === 'LWPOLYLINE');
    const [xs, ys] = [riser.vertices.map(({ x }) => x), riser.vertices.map(({ y }) => y)];
    expect([Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]).toEqual([-1000, 1000, 0, 2000]);
    expect(text.split('\n')[1]).toMatch(/2026-03-14.*mm at 1:1; x to stage left of the centre line/);
  });

  test('five T-feet of 500 x 40 are outlines as long and as wide as that', () => {
    const feet = entities.filter(({ layer, type, vertices, shape = false }) => {
      if (layer !== 'FEET' || type !== 'LWPOLYLINE') return false;
      const { arcs, straightMm } = arcsOf(vertices, shape);
      // Round ends of half the width; the straight sides are shorter by both.
      return (
        arcs.length === 2 && arcs.every(({ r }) => Math.abs(r - 20) < 1e-6) && Math.abs(straightMm - 2 * 460) < 1e-6
      );
    });
    expect(feet).toHaveLength(5);
  });

  test(kind === 'marks' ? 'numbers and hooks are there' : 'names are there', () => {
    if (kind === 'marks') for (const word of ['1', '2', 'A', 'B']) expect(texts).toContain(word);
    else expect(texts.join('; ')).toMatch(/Front rack.*foot/);
  });
});

describe('marks one by one', () => {
  const s = style('racks');
  const path = (pieces: readonly Piece[], closed = false): Mark => ({
    ...s,
    kind: 'path',
    chains: [{ pieces, closed }],
  });
  const arc = (sweep: number): Piece => ({ kind: 'arc', cx: 10, cy: 20, r: 50, start: 0.5, sweep });
  const one = (mark: Mark): Read => {
    const { entities } = parsed(dxfOf([mark]));
    expect(entities).toHaveLength(1);
    return entities[0];
  };
  const turn = (angle: number) => ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

  test.each([1.2, -1.2, 4, -4])(
    'an arc of %f rad alone is an ARC, counter-clockwise, with its radius and ends',
    (sweep) => {
      const read = one(path([arc(sweep)]));
      expect(read).toMatchObject({ type: 'ARC', radius: 50, center: { x: 10, y: 20 } });
      expect(turn(read.startAngle)).toBeCloseTo(turn(sweep > 0 ? 0.5 : 0.5 + sweep), 9);
      expect(turn(read.endAngle - read.startAngle)).toBeCloseTo(Math.abs(sweep), 9);
    },
  );

  test('a whole turn is a CIRCLE', () =>
    expect(one(path([arc(2 * Math.PI)], true))).toMatchObject({ type: 'CIRCLE', radius: 50 }));

  test.each([4, -4])('an arc of %f rad in a chain comes in parts below half a turn, of the same length', (sweep) => {
    const [x0, y0] = [10 + 50 * Math.cos(0.5), 20 + 50 * Math.sin(0.5)];
    const read = one(path([{ kind: 'segment', x0: 200, y0: 0, x1: x0, y1: y0 }, arc(sweep)]));
    const { arcs, straightMm } = arcsOf(read.vertices, false);
    expect(arcs).toHaveLength(2);
    for (const part of arcs) {
      expect(part.r).toBeCloseTo(50, 8);
      expect(part.cx).toBeCloseTo(10, 7);
      expect(part.cy).toBeCloseTo(20, 7);
    }
    expect(arcs[0].lengthMm + arcs[1].lengthMm).toBeCloseTo(200, 7);
    expect(straightMm).toBeCloseTo(Math.hypot(200 - x0, y0), 8);
    const end = read.vertices[read.vertices.length - 1];
    expect(end.x).toBeCloseTo(10 + 50 * Math.cos(0.5 + sweep), 8);
    expect(end.y).toBeCloseTo(20 + 50 * Math.sin(0.5 + sweep), 8);
  });

  test.each([
    ['longer along', 80, 30],
    ['longer across', 30, 80],
  ])('part of an ellipse, %s: the points at its ends', (_, rx, ry) => {
    const whole = ellipseMark(s, 5, 6, rx, ry, 0.3);
    for (const sweep of [1.5, -1.5]) {
      const read = one({ ...whole, start: 0.4, sweep } as Mark);
      const { x: ux, y: uy } = read.majorAxisEndPoint;
      const at = (t: number) => [
        5 + ux * Math.cos(t) - uy * read.axisRatio * Math.sin(t),
        6 + uy * Math.cos(t) + ux * read.axisRatio * Math.sin(t),
      ];
      const wanted = (t: number) => [
        5 + rx * Math.cos(t) * Math.cos(0.3) - ry * Math.sin(t) * Math.sin(0.3),
        6 + rx * Math.cos(t) * Math.sin(0.3) + ry * Math.sin(t) * Math.cos(0.3),
      ];
      const [from, to] = sweep > 0 ? [0.4, 0.4 + sweep] : [0.4 + sweep, 0.4];
      for (const [got, expected] of [
        [at(read.startAngle), wanted(from)],
        [at(read.endAngle), wanted(to)],
      ])
        got.forEach((value, k) => {
          expect(value).toBeCloseTo(expected[k], 6);
        });
      expect(read.axisRatio).toBeLessThanOrEqual(1);
    }
  });

  test('an ellipse seen edge on is a line along its axis', () => {
    const read = one(ellipseMark(s, 0, 0, 0, 40, 0));
    expect(read.type).toBe('LINE');
    const ys = read.vertices.map(({ y }) => y).sort((a, b) => a - b);
    expect(ys[0]).toBeCloseTo(-40, 9);
    expect(ys[1]).toBeCloseTo(40, 9);
  });

  test.each([
    ['Greek and Cyrillic', 'Τύμπανο Молот Їжак', 'Τύμπανο Молот Їжак'],
    ['loose accents', 'Žižek'.normalize('NFD'), 'Žižek'],
    ['lines and control characters', 'two\nlines\u0000\u0085\u2028!', 'two lines   !'],
    ['codes of the format', '100 %%c', '100 %%%%%%c'],
    ['a caret', 'A^J', 'A^ J'],
    ['what would be a character by number', '\\U+0041', '\\ U+0041'],
    ['a single per cent sign and a backslash', '5 % \\ 6', '5 % \\ 6'],
    ['another script, which the reader’s own faces may have', '太鼓', '太鼓'],
  ])('text: %s', (_, text, expected) => {
    const file = dxfOf([textMark(s, text, 1, 2, 3, { anchor: 'middle', rotation: Math.PI / 2 })]);
    const { entities } = parsed(file);
    expect(entities).toHaveLength(1);
    expect(entities[0]).toMatchObject({ type: 'TEXT', text: expected, rotation: 90, halign: 1 });
    // Capitals of Open Sans are 0.714 of the type's size, here at 1:20.
    expect(entities[0].textHeight).toBeCloseTo(3 * 0.714 * 20, 9);
    expect(other.parseString(file).entities.map(({ string }) => string)).toEqual([expected]);
  });

  test('nothing to draw, empty texts and things without length still give a file that reads', () => {
    const marks = [
      textMark(s, ' \n', 0, 0, 3),
      circleMark(s, 0, 0, 0),
      path([]),
      { ...s, kind: 'path', chains: [straightChain([1, 1, 1, 1], false)] } as Mark,
    ];
    expect(parsed(dxfOf(marks)).entities).toEqual([]);
    expect(parsed(dxfOf([])).entities).toEqual([]);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])('a length of %f is refused in words', (value) =>
    expect(() => dxfOf([circleMark(s, value, 0, 5)])).toThrow(/not a finite number/),
  );
});
