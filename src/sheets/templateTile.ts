/**
 * One page of the template: what of it lies there, with names and numbers, register crosses in the overlaps, a 100 mm check bar
 * both ways, and where the page belongs.
 *
 * Units: mm on paper, which are mm of the floor: a page's lower left corner of the frame is its tile's.
 */
import type { MarkFrame } from '../checks/marks/datums.ts';
import {
  boxOfMarks,
  CAPITAL_OF_EM,
  CENTRE,
  type Chain,
  circleMark,
  HIDDEN,
  type Line,
  lineMark,
  type Mark,
  placed,
  style,
  TEXT_MM,
  type TextMark,
  THIN,
  textMark,
  WIDE,
} from '../drawing/displayList.ts';
import { grown } from '../drawing/extents.ts';
import { besideBox, boxAt, firstFree, type Spot, within } from '../drawing/placing.ts';
import { textBox } from '../drawing/textWidth.ts';
import { pieceEnd, pieceStart } from '../geometry/loops.ts';
import type { Loop, Piece } from '../geometry/outline.ts';
import type { DisplayUnit } from '../units.ts';
import { fromCentre, fromFront } from '../words/markWords.ts';
import { type Box, MARGIN_MM } from './framed.ts';
import type { Page } from './page.ts';
import type { Template } from './templateShapes.ts';
import { clipPieces, type Tile, type Tiling } from './tiles.ts';

/** The check bar, and its title in the file, by which a test finds it. */
const CHECK_BAR_MM = 100;

/** On paper, mm. */
const CROSS_MM = 6;
const REGISTER_MM = 4;
const TICK_MM = 3;
/** The bars' corner lies beyond the overlap. */
const BARS_AT_MM = 15;
const NAME_GAP_MM = 2;
/** Between texts: numbers may stand closer than names. */
const NUMBER_AIR_MM = 0.2;
const NAME_AIR_MM = 0.8;
const SCAN_MM = 5;
const LEADER_FROM_MM = 7;
/** How far from its cross a number may stand, and on which sides, the nearest and most usual first. */
const NUMBER_RINGS_MM = [1.4, 4, 8, 13, 19, 26, 34, 44];
const NUMBER_WAYS = [
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
  [0, 1],
  [0, -1],
  [1, 0],
  [-1, 0],
] as const;

interface Request {
  readonly template: Template;
  readonly tiling: Tiling;
  readonly tile: Tile;
  readonly page: Page;
  /** Plan, setup, revision and date in a line. */
  readonly said: string;
  readonly units: DisplayUnit;
  readonly setting: MarkFrame['from'];
}

/** Cut stretches as chains: those that still meet end to start stay one line. */
export function chainsOf(pieces: readonly Piece[]): Chain[] {
  const chains: Piece[][] = [];
  for (const piece of pieces) {
    const last = chains[chains.length - 1];
    const [x, y] = pieceStart(piece);
    const [ex, ey] = last ? pieceEnd(last[last.length - 1]) : [Number.NaN, Number.NaN];
    if (Math.hypot(x - ex, y - ey) < 1e-6) last.push(piece);
    else chains.push([piece]);
  }
  return chains.map((chain) => {
    const [x, y] = pieceStart(chain[0]);
    const [ex, ey] = pieceEnd(chain[chain.length - 1]);
    return { pieces: chain, closed: chain.length > 1 && Math.hypot(x - ex, y - ey) < 1e-6 };
  });
}

function clipped(loops: readonly Loop[], box: Box, line: Line, title: string | null, faint = false): Mark[] {
  const chains = loops.flatMap((loop) => chainsOf(clipPieces(loop, box)));
  if (chains.length === 0) return [];
  return [{ ...style('feet', { line, title, ink: faint ? 'faint' : 'ink' }), kind: 'path', chains }];
}

/** Register crosses of a tile, in the template's frame: the middles of its overlaps at its corners and half-way along its sides. */
function registerPlaces({ box }: Tile, overlapMm: number): [number, number][] {
  const half = overlapMm / 2;
  const xs = [box.minX + half, (box.minX + box.maxX) / 2, box.maxX - half];
  const ys = [box.minY + half, (box.minY + box.maxY) / 2, box.maxY - half];
  return xs.flatMap((x, i) => ys.flatMap((y, j): [number, number][] => (i === 1 && j === 1 ? [] : [[x, y]])));
}

const EDGE_WORDS: Readonly<Record<MarkFrame['from'], string>> = {
  riser: "riser's front edge",
  stage: "stage's front edge",
  baseLine: 'base line A-B',
};

export function tilePage({ template, tiling, tile, page, said, units, setting }: Request): Mark[] {
  const { box } = tile;
  const { measure } = page;
  const marks: Mark[] = [];
  const [dx, dy] = [MARGIN_MM - box.minX, MARGIN_MM - box.minY];
  const frame: Box = {
    minX: MARGIN_MM,
    minY: MARGIN_MM,
    maxX: MARGIN_MM + tiling.tileW,
    maxY: MARGIN_MM + tiling.tileH,
  };
  const onPage = (list: readonly Mark[]) => list.map((mark) => placed(mark, { factor: 1, dx, dy }));
  const taken: Box[] = [];
  const say = (text: TextMark) => {
    marks.push(text);
    taken.push(textBox(text, 1, measure));
  };
  const names = style('names', { zMm: 1e5 });
  /** A line from a text to what it speaks of, where that is not beside it. */
  const lead = (from: Box, x: number, y: number) => {
    const [tx, ty] = nearest(from, x, y);
    if (Math.hypot(x - tx, y - ty) > LEADER_FROM_MM)
      marks.push(lineMark(style('names', { line: THIN, ink: 'faint' }), tx, ty, x, y));
  };

  // Outlines, with what of each is seen here kept for its name.
  const seen: { name: string; box: Box }[] = [];
  const strokes: Piece[] = [];
  for (const { loops, name, contact } of template.shapes) {
    const own = onPage(clipped(loops, box, contact ? WIDE : THIN, name));
    if (own.length === 0) continue;
    marks.push(...own);
    const at = boxOfMarks(own);
    if (name !== null) seen.push({ name, box: at });
  }
  marks.push(...onPage(clipped(template.deck, box, THIN, 'Edge of the riser', true)));
  const straight = (x0: number, y0: number, x1: number, y1: number): Loop => [{ kind: 'segment', x0, y0, x1, y1 }];
  const guide = (loop: Loop, title: string) => marks.push(...onPage(clipped([loop], box, CENTRE, title)));
  guide(straight(0, box.minY - 1, 0, box.maxY + 1), 'centre line');
  guide(straight(box.minX - 1, 0, box.maxX + 1, 0), EDGE_WORDS[setting]);

  for (const mark of marks) if (mark.kind === 'path') strokes.push(...mark.chains.flatMap(({ pieces }) => pieces));

  // Overlaps and register crosses.
  const faint = style('frame', { line: HIDDEN, ink: 'faint' });
  const { overlapMm } = tiling;
  const has = (column: number, row: number) => tiling.tiles.some((t) => t.column === column && t.row === row);
  const [lapX, lapY] = [frame.maxX - overlapMm, frame.maxY - overlapMm];
  if (has(tile.column + 1, tile.row)) marks.push(lineMark(faint, lapX, frame.minY, lapX, frame.maxY));
  if (has(tile.column, tile.row + 1)) marks.push(lineMark(faint, frame.minX, lapY, frame.maxX, lapY));
  const register = style('frame', { line: THIN, title: 'Register cross' });
  for (const [u, v] of registerPlaces(tile, overlapMm)) {
    const [x, y] = [u + dx, v + dy];
    marks.push(
      lineMark(register, x - REGISTER_MM, y, x + REGISTER_MM, y),
      lineMark(register, x, y - REGISTER_MM, x, y + REGISTER_MM),
    );
    marks.push(circleMark(register, x, y, REGISTER_MM / 2));
    taken.push(boxAt(x, y, 2 * REGISTER_MM, 2 * REGISTER_MM));
  }
  page.box(frame.minX, frame.minY, frame.maxX, frame.maxY);

  // The bars, in the corner where they lie over least.
  const corner = barsCorner(frame, strokes);
  bars(page, corner);
  taken.push(corner.acrossBox, corner.upBox);
  const textX = Math.min(corner.x, corner.x + corner.sx * CHECK_BAR_MM) + 4;
  const lineY = (k: number) => (corner.sy > 0 ? corner.y + 4.5 + (2 - k) * 4 : corner.y - 8.5 - k * 4);
  const wide = CHECK_BAR_MM - 8;
  page.text(tile.name, textX, lineY(0) + 1, { bold: true, sizeMm: TEXT_MM.title });
  const nameW = measure(tile.name, TEXT_MM.title, true) + 3;
  page.fitted('1:1, print at 100 %: both bars measure 100 mm', textX + nameW, lineY(0) + 1, wide - nameW, {
    bold: true,
  });
  page.fitted(said, textX, lineY(1), wide, { faint: true });
  page.fitted(neighbourWords(tile, tiling), textX, lineY(2), wide, { faint: true });

  // Where the page belongs: at its lower left and upper right register crosses.
  const half = overlapMm / 2;
  const sayPlace = (u: number, v: number, x: number, y: number, anchor: TextMark['anchor']) => {
    const place = `${fromCentre(u, units)}, ${fromFront(v, units)} from the front`;
    say(textMark(names, place, x, y, TEXT_MM.small, { anchor }));
  };
  const [low, high] = [frame.minX + half + REGISTER_MM + 1.5, frame.maxX - half - REGISTER_MM - 1.5];
  sayPlace(box.minX + half, box.minY + half, low, frame.minY + 3.5, 'start');
  sayPlace(box.maxX - half, box.maxY - half, high, frame.maxY - 6, 'end');

  // Crosses and numbers of the marks.
  const cross = style('dimensions', { line: THIN, title: 'Mark' });
  for (const { number, at } of template.marks) {
    const [x, y] = [at[0] + dx, at[1] + dy];
    if (x < frame.minX || x > frame.maxX || y < frame.minY || y > frame.maxY) continue;
    const loops: Loop[] = [
      straight(at[0] - CROSS_MM, at[1], at[0] + CROSS_MM, at[1]),
      straight(at[0], at[1] - CROSS_MM, at[0], at[1] + CROSS_MM),
    ];
    for (const mark of onPage(clipped(loops, box, THIN, null))) marks.push({ ...mark, ...cross, line: THIN } as Mark);
    const size = TEXT_MM.normal;
    const text = String(number);
    const wide = page.measure(text, size, true);
    const spots = NUMBER_RINGS_MM.flatMap((ring) =>
      NUMBER_WAYS.map(([wx, wy]) => {
        const px = x + wx * (ring + wide / 2);
        const py = y + wy * (ring + (size * CAPITAL_OF_EM) / 2) - (size * CAPITAL_OF_EM) / 2;
        return textMark(names, text, px, py, size, { anchor: 'middle', bold: true });
      }),
    );
    const seenHere = spots
      .map((mark) => ({ mark, box: textBox(mark, 1, measure) }))
      .filter((s) => within(s.box, frame));
    const wanted = { spots: seenHere, isOver: (spot: Spot) => clipPieces(strokes, spot.box).length > 0 };
    const shown = firstFree(wanted, { others: [], taken, air: NUMBER_AIR_MM }) ?? seenHere[0];
    if (!shown) continue;
    say(shown.mark);
    lead(shown.box, x, y);
  }

  const field: Field = { frame, taken, strokes, page };
  const sayFree = (name: string, at: Box): TextMark | null => {
    const spot = freeSpot(name, at, field);
    if (spot) say(spot);
    return spot;
  };
  // The guides' names, along them.
  const inner = grown(frame, -30);
  if (box.minX < -12 && box.maxX > 12) sayFree('centre line', { ...inner, minX: dx + 1, maxX: dx + 2 });
  if (box.minY < -12 && box.maxY > 12) sayFree(EDGE_WORDS[setting], { ...inner, minY: dy + 1, maxY: dy + 2 });
  for (const { name, box: at } of seen) {
    const spot = sayFree(name, at);
    if (!spot) continue;
    const own = textBox(spot, 1, measure);
    lead(own, ...nearest(at, (own.minX + own.maxX) / 2, (own.minY + own.maxY) / 2));
  }
  return marks;
}

const nearest = (box: Box, x: number, y: number): [number, number] => [
  Math.min(Math.max(x, box.minX), box.maxX),
  Math.min(Math.max(y, box.minY), box.maxY),
];

function neighbourWords({ column, row }: Tile, { tiles }: Tiling): string {
  const at = (c: number, r: number) => tiles.find((t) => t.column === c && t.row === r)?.name;
  const words = [
    ['stage right', at(column - 1, row)],
    ['stage left', at(column + 1, row)],
    ['downstage', at(column, row - 1)],
    ['upstage', at(column, row + 1)],
  ].flatMap(([side, name]) => (name ? [`${name} ${side}`] : []));
  return words.length === 0 ? 'No page beside it: lay it by its crosses' : `Beside it: ${words.join(', ')}`;
}

interface Corner {
  readonly x: number;
  readonly y: number;
  readonly sx: 1 | -1;
  readonly sy: 1 | -1;
  readonly acrossBox: Box;
  readonly upBox: Box;
}

/** Of the four corners the one where the bars and their words lie over the fewest lines; of equals the lower left. */
function barsCorner(frame: Box, strokes: readonly Piece[]): Corner {
  const corners = ([1, -1] as const).flatMap((sy) =>
    ([1, -1] as const).map((sx): Corner => {
      const x = sx > 0 ? frame.minX + BARS_AT_MM : frame.maxX - BARS_AT_MM;
      const y = sy > 0 ? frame.minY + BARS_AT_MM : frame.maxY - BARS_AT_MM;
      const [endX, endY] = [x + sx * CHECK_BAR_MM, y + sy * CHECK_BAR_MM];
      const across = { minX: Math.min(x, endX), maxX: Math.max(x, endX) };
      const up = { minY: Math.min(y, endY), maxY: Math.max(y, endY) };
      const acrossBox = { ...across, minY: sy > 0 ? y - TICK_MM : y - 20, maxY: sy > 0 ? y + 20 : y + TICK_MM };
      return { x, y, sx, sy, acrossBox, upBox: { ...up, minX: x - TICK_MM, maxX: x + TICK_MM } };
    }),
  );
  const load = ({ acrossBox, upBox }: Corner) =>
    clipPieces(strokes, acrossBox).length + clipPieces(strokes, upBox).length;
  return corners.reduce((best, corner) => (load(corner) < load(best) ? corner : best));
}

/** The two check bars, from one corner; ticks every 10 mm. */
function bars(page: Page, { x, y, sx, sy }: Corner): void {
  const long = CHECK_BAR_MM;
  page.line(x, y, x + sx * long, y, { line: WIDE, title: 'Check bar across, 100 mm' });
  page.line(x, y, x, y + sy * long, { line: WIDE, title: 'Check bar up, 100 mm' });
  for (let k = 0; k <= 10; k++) {
    const tick = k % 10 === 0 ? TICK_MM : k === 5 ? TICK_MM * 0.7 : TICK_MM * 0.4;
    page.line(x + (sx * long * k) / 10, y, x + (sx * long * k) / 10, y + sy * tick);
    page.line(x, y + (sy * long * k) / 10, x + sx * tick, y + (sy * long * k) / 10);
  }
}

interface Field {
  readonly frame: Box;
  /** Boxes and lines that no name may lie on. */
  readonly taken: readonly Box[];
  readonly strokes: readonly Piece[];
  readonly page: Page;
}

/** A free place for a name: in the middle of what it names, beside it, else the nearest on the page. Null on a full page. */
function freeSpot(name: string, at: Box, { frame, taken, strokes, page }: Field): TextMark | null {
  const size = TEXT_MM.normal;
  const w = page.measure(name, size, false);
  const h = size * CAPITAL_OF_EM;
  const [cx, cy] = [(at.minX + at.maxX) / 2, (at.minY + at.maxY) / 2];
  const names = style('names', { zMm: 1e5 });
  const inner = grown(frame, -1);
  function* spots() {
    for (const [x, y] of middles()) {
      const mark = textMark(names, name, x - w / 2, y - h / 2, size);
      const box = textBox(mark, 1, page.measure);
      if (within(box, inner)) yield { mark, box };
    }
  }
  function* middles(): Generator<readonly [number, number]> {
    if (at.maxX - at.minX > w + 4 && at.maxY - at.minY > h + 4) yield [cx, cy];
    yield* besideBox(at, w, h, NAME_GAP_MM, NAME_GAP_MM + h / 2);
    const left: { x: number; y: number; far: number }[] = [];
    for (let x = frame.minX + w / 2 + 2; x <= frame.maxX - w / 2 - 2; x += SCAN_MM)
      for (let y = frame.minY + h; y <= frame.maxY - h; y += SCAN_MM)
        left.push({ x, y, far: Math.hypot(x - cx, y - cy) });
    left.sort((a, b) => a.far - b.far);
    for (const { x, y } of left) yield [x, y];
  }
  const isOver = ({ box }: Spot) => clipPieces(strokes, grown(box, 0.5)).length > 0;
  return firstFree({ spots: spots(), isOver, over: 'never' }, { others: [], taken, air: NAME_AIR_MM })?.mark ?? null;
}
