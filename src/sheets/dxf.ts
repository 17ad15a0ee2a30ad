/**
 * A drawing as DXF: lines, circles, arcs, ellipses, polylines with bulges and texts on layers by kind, in mm.
 *
 * Units:  mm, one drawing unit to the millimetre; a drawing of the model is at 1:1. Angles in degrees, as the format has them.
 * Exact:  arcs stay arcs; numbers have ten decimals, so that an arc's end is within 1e-6 mm of where it should be.
 * Left out: tints. Nothing covers anything in this format, so every edge is whole; a caller leaves hidden lines out.
 * Throws: RangeError for a number that is not finite: readers refuse a whole file for one.
 * Source: the DXF reference as ezdxf's documentation has it; the codes of ELLIPSE, TEXT and SOLID from memory,
 *         held by the readers in tests/outside/dxf.test.ts.
 */
import {
  boxOfMarks,
  CAPITAL_OF_EM,
  type Chain,
  type EllipseMark,
  type Layer,
  LINE_WIDTH_MM,
  type LineKind,
  type Mark,
  type TextMark,
} from '../drawing/displayList.ts';
import { TAU } from '../geometry/frame.ts';
import { toDegrees } from '../units.ts';
import { DxfFile, type DxfLayer, dxfNumber } from './dxfFile.ts';
import { composed } from './fontFile.ts';

export interface DxfOptions {
  /** Mm of the drawing in one mm of paper, for type sizes and dashes: 20 for a drawing to be printed at 1:20. */
  readonly scale: number;
  /** A line at the head of the file: what it is. */
  readonly comment: string;
}

/** Layers by kind of piece; the colours are the format's own numbers (7 black or white, 8 grey, 1 red, 3 green, 5 blue). */
const DXF_LAYERS: Readonly<Record<Layer, DxfLayer>> = {
  deck: { name: 'DECK', colour: 7, line: 'continuous' },
  stage: { name: 'STAGE', colour: 8, line: 'continuous' },
  feet: { name: 'FEET', colour: 7, line: 'continuous' },
  stands: { name: 'STANDS', colour: 7, line: 'continuous' },
  racks: { name: 'RACKS', colour: 5, line: 'continuous' },
  pedals: { name: 'PEDALS', colour: 7, line: 'continuous' },
  throne: { name: 'THRONE', colour: 7, line: 'continuous' },
  drums: { name: 'DRUMS', colour: 7, line: 'continuous' },
  cymbals: { name: 'CYMBALS', colour: 3, line: 'continuous' },
  mounts: { name: 'MOUNTS', colour: 5, line: 'continuous' },
  centre: { name: 'CENTRE-LINE', colour: 1, line: 'longDashDot' },
  dimensions: { name: 'DIMENSIONS', colour: 8, line: 'continuous' },
  names: { name: 'TEXT', colour: 7, line: 'continuous' },
  findings: { name: 'FINDINGS', colour: 1, line: 'continuous' },
  frame: { name: 'FRAME', colour: 8, line: 'continuous' },
};

/** Below this ratio of its axes an ellipse is a line: readers refuse flatter ones. */
const FLATTEST = 1e-6;
/** A stretch shorter than this is no stretch, mm. */
const SHORTEST_MM = 1e-9;

/**
 * A text as the format writes it: one line, without control characters, and with the signs that would be read as codes
 * (%% and ^ and \U+) written so that they are read as themselves.
 */
function dxfText(text: string): string {
  return [...composed(text)]
    .map((char) => (char < ' ' || (char >= '\u007f' && char < '\u00a0') || /[\u2028\u2029]/.test(char) ? ' ' : char))
    .join('')
    .replace(/\^/g, '^ ')
    .replace(/%{2,}/g, (run) => '%%%'.repeat(run.length))
    .replace(/\\(?=[UM]\+)/g, '\\ ');
}

/** Corners of a chain with the bulge of the stretch that leaves each; arcs of more than half a turn in parts. */
function corners({ pieces, closed }: Chain): { x: number; y: number; bulge: number }[] {
  const out: { x: number; y: number; bulge: number }[] = [];
  let end: [number, number] = [0, 0];
  for (const p of pieces) {
    if (p.kind === 'segment') {
      end = [p.x1, p.y1];
      if (Math.hypot(p.x1 - p.x0, p.y1 - p.y0) > SHORTEST_MM) out.push({ x: p.x0, y: p.y0, bulge: 0 });
      continue;
    }
    const at = (angle: number): [number, number] => [p.cx + p.r * Math.cos(angle), p.cy + p.r * Math.sin(angle)];
    end = at(p.start + p.sweep);
    if (Math.abs(p.r * p.sweep) <= SHORTEST_MM) continue;
    const parts = Math.ceil(Math.abs(p.sweep) / Math.PI - 1e-9);
    for (let k = 0; k < parts; k++) {
      const [x, y] = at(p.start + (p.sweep * k) / parts);
      out.push({ x, y, bulge: Math.tan(p.sweep / parts / 4) });
    }
  }
  if (!closed) out.push({ x: end[0], y: end[1], bulge: 0 });
  return out;
}

class Writer {
  private readonly file: DxfFile;

  constructor(
    marks: readonly Mark[],
    private readonly scale: number,
    comment: string,
  ) {
    const used = new Set(marks.map((mark) => mark.layer));
    const layers = (Object.keys(DXF_LAYERS) as Layer[]).filter((layer) => used.has(layer));
    this.file = new DxfFile(
      layers.map((layer) => DXF_LAYERS[layer]),
      LINE_WIDTH_MM.thin * scale,
      boxOfMarks(marks),
      dxfText(comment),
    );
    for (const mark of marks) this.mark(mark);
  }

  text(): string {
    return this.file.text();
  }

  private begin(mark: Mark, type: string, subclass: string): void {
    const { name, line: usual } = DXF_LAYERS[mark.layer];
    const kind: LineKind = mark.line?.kind ?? usual;
    // Line weights in hundredths of a millimetre; 18 is the format's step next to 0.175.
    const weight = mark.line === null ? null : Math.round(LINE_WIDTH_MM[mark.line.width] * 100);
    this.file.entity(type, subclass, name, kind === usual ? null : kind, weight);
  }

  private point(code: number, x: number, y: number): void {
    this.file.add(code, dxfNumber(x), code + 10, dxfNumber(y), code + 20, '0');
  }

  private mark(mark: Mark): void {
    if (mark.kind === 'text') {
      this.words(mark);
      return;
    }
    // A tint alone is left out, but what is solid in its ink is a thing of its own: arrowheads, dots, bars of a scale.
    if (mark.line === null && mark.tint !== 'solid') return;
    switch (mark.kind) {
      case 'circle':
        if (mark.r > SHORTEST_MM) this.circle(mark, mark.cx, mark.cy, mark.r);
        return;
      case 'ellipse':
        this.ellipse(mark);
        return;
      case 'path':
        for (const chain of mark.chains) this.chain(mark, chain);
    }
  }

  private circle(mark: Mark, x: number, y: number, r: number): void {
    this.begin(mark, 'CIRCLE', 'AcDbCircle');
    this.point(10, x, y);
    this.file.add(40, dxfNumber(r));
  }

  private line(mark: Mark, x0: number, y0: number, x1: number, y1: number): void {
    if (Math.hypot(x1 - x0, y1 - y0) <= SHORTEST_MM) return;
    this.begin(mark, 'LINE', 'AcDbLine');
    this.point(10, x0, y0);
    this.point(11, x1, y1);
  }

  /** Parameters count from the longer axis, counter-clockwise. */
  private ellipse(mark: EllipseMark): void {
    const { cx, cy, rx, ry, rotation } = mark;
    const [long, short] = rx >= ry ? [rx, ry] : [ry, rx];
    const turn = rx >= ry ? 0 : Math.PI / 2;
    const [ux, uy] = [long * Math.cos(rotation + turn), long * Math.sin(rotation + turn)];
    const whole = Math.abs(mark.sweep) >= TAU;
    const from = whole ? 0 : Math.min(mark.start, mark.start + mark.sweep) - turn;
    const to = whole ? TAU : from + Math.abs(mark.sweep);
    if (short <= long * FLATTEST) {
      // Seen edge on: the stretch of the longer axis that the parameters pass.
      const ends = [Math.cos(from), Math.cos(to)];
      for (let k = Math.ceil(from / Math.PI); k * Math.PI <= to; k++) ends.push(Math.cos(k * Math.PI));
      const [low, high] = [Math.min(...ends), Math.max(...ends)];
      this.line(mark, cx + low * ux, cy + low * uy, cx + high * ux, cy + high * uy);
      return;
    }
    this.begin(mark, 'ELLIPSE', 'AcDbEllipse');
    this.point(10, cx, cy);
    this.point(11, ux, uy);
    this.file.add(40, dxfNumber(short / long), 41, dxfNumber(from), 42, dxfNumber(to));
  }

  private chain(mark: Mark, chain: Chain): void {
    const [first] = chain.pieces;
    if (chain.pieces.length === 1 && first.kind === 'arc') {
      const { cx, cy, r, start, sweep } = first;
      if (Math.abs(r * sweep) <= SHORTEST_MM) return;
      if (Math.abs(sweep) >= TAU) this.circle(mark, cx, cy, r);
      if (Math.abs(sweep) >= TAU) return;
      if (!chain.closed) {
        const from = sweep > 0 ? start : start + sweep;
        const degrees = (angle: number) => dxfNumber(((toDegrees(angle) % 360) + 360) % 360);
        this.begin(mark, 'ARC', 'AcDbCircle');
        this.point(10, cx, cy);
        this.file.add(40, dxfNumber(r), 100, 'AcDbArc');
        this.file.add(50, degrees(from), 51, degrees(from + Math.abs(sweep)));
        return;
      }
    }
    const points = corners(chain);
    if (points.length === 2 && !chain.closed && points[0].bulge === 0) {
      this.line(mark, points[0].x, points[0].y, points[1].x, points[1].y);
      return;
    }
    if (points.length < 2) return;
    const straight = points.every(({ bulge }) => bulge === 0);
    if (mark.tint === 'solid' && straight && chain.closed && (points.length === 3 || points.length === 4)) {
      // The format's filled corner figure: the last two corners are crossed over.
      const [a, b, c, d = c] = points;
      this.begin(mark, 'SOLID', 'AcDbTrace');
      [a, b, d, c].forEach(({ x, y }, k) => {
        this.point(10 + k, x, y);
      });
      return;
    }
    this.begin(mark, 'LWPOLYLINE', 'AcDbPolyline');
    this.file.add(90, String(points.length), 70, chain.closed ? '1' : '0');
    for (const { x, y, bulge } of points) {
      this.file.add(10, dxfNumber(x), 20, dxfNumber(y));
      if (bulge !== 0) this.file.add(42, dxfNumber(bulge));
    }
  }

  private words(mark: TextMark): void {
    const text = dxfText(mark.text);
    if (text.trim() === '') return;
    this.begin(mark, 'TEXT', 'AcDbText');
    this.point(10, mark.x, mark.y);
    // Its height is that of capitals.
    this.file.add(40, dxfNumber(mark.sizeMm * CAPITAL_OF_EM * this.scale), 1, text);
    this.file.add(50, dxfNumber(toDegrees(mark.rotation)), 7, 'STANDARD');
    if (mark.anchor !== 'start') {
      this.file.add(72, mark.anchor === 'middle' ? '1' : '2');
      this.point(11, mark.x, mark.y);
    }
    this.file.add(100, 'AcDbText');
  }
}

/** The marks as the text of a DXF file, the same for the same marks. */
export function toDxf(marks: readonly Mark[], { scale, comment }: DxfOptions): string {
  return new Writer(marks, scale, comment).text();
}
