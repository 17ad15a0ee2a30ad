/**
 * Where names and flags go: each gets the cheapest of many places that overlaps no label set before it. A place costs by the
 * lines it would cover, its distance, and the lines its leader crosses; labels then get a second choice with all others
 * known. Deterministic: the same requests give the same places.
 *
 * Units: mm of the model; text sizes and gaps are of the paper and multiplied by the scale.
 */
import { TAU } from '../geometry/frame.ts';
import {
  CAPITAL_OF_EM,
  circleMark,
  type DrawnBox,
  type Ink,
  lineMark,
  type Mark,
  polygonMark,
  type Style,
  style,
  TEXT_MM,
  THIN,
  type Tint,
  textMark,
} from './displayList.ts';
import { InkMap } from './inkMap.ts';
import { boxAt, firstFree, type Leader, Placed, type Spot, within } from './placing.ts';
import { type MeasureText, wrapText } from './textWidth.ts';

export interface LabelRequest {
  readonly id: string;
  readonly text: string;
  readonly sizeMm: number;
  readonly bold: boolean;
  /** 'name' is plain text; 'flag' stands in a circle and always has a leader. */
  readonly form: 'name' | 'flag';
  readonly ink: Ink;
  /** What it speaks of: a place, and how far the thing reaches round it. */
  readonly x: number;
  readonly y: number;
  readonly reachMm: number;
  /** Other places of the same thing at which a leader may end: a long bar has many. */
  readonly elsewhere?: readonly (readonly [x: number, y: number])[];
  /** Half width and half depth within which the name may stand in the thing itself; null: only beside it. */
  readonly inside: { readonly halfW: number; readonly halfH: number; readonly round: boolean } | null;
  readonly pieceId: string | null;
  /** What is laid under a name in the thing itself, where it covers lines: the thing's own tint. */
  readonly backing: Tint | null;
}

export interface LabelPlace extends Spot {
  readonly request: LabelRequest;
  readonly lines: readonly string[];
  readonly box: DrawnBox;
  /** From the label's edge to the thing; null where the name stands in it. */
  readonly leader: Leader | null;
  readonly ink: number;
}

export interface LabelField {
  /** Labels stay within it. */
  readonly bounds: DrawnBox;
  /** Boxes that no label may touch. */
  readonly taken: readonly DrawnBox[];
  readonly ink: InkMap;
  /** The piece in sight at a place, null where there is none: a name in one piece must not stand on another. */
  readonly topPiece: (x: number, y: number) => string | null;
  /** What lies under a name beside things. */
  readonly groundAt: (x: number, y: number) => Tint;
  readonly scale: number;
  readonly measure: MeasureText;
}

/** On paper, mm. */
const LINE_STEP_EM = 1.18;
const AIR_MM = 0.6;
const WIDEST_NAME_MM = 26;
const FLAG_RADIUS_MM = 2;
const RINGS_MM = [2, 4, 6.5, 9.5, 13, 18, 24, 31, 40];
const DIRECTIONS = 24;
/** Cosine and sine of each direction. */
const WAYS = Array.from({ length: DIRECTIONS }, (_, k) => {
  const angle = (TAU * k) / DIRECTIONS;
  return [Math.cos(angle), Math.sin(angle)] as const;
});
/** How far a leader reaches into what it speaks of, mm on paper. */
export const LEADER_IN_MM = 1.2;

/**
 * What a place costs: for each unit of ink under a label, mm of leader, unit of ink the leader crosses, for standing
 * beside, for each mm off the middle, for each corner or leader's end that is on another piece, and for each corner of a
 * name beside its thing that stands on any.
 */
const COST = { ink: 3, leaderMm: 1.1, crossing: 1.2, beside: 10, off: 1.5, wrongPiece: 7, onPiece: 2.5 };

const clampUnit = (value: number) => Math.min(Math.max(value, -1), 1);

/** Directions within this sine of an axis put a label's side, not its corner, towards the thing. */
const AXIS_SLOPE = 0.3;

interface Size {
  readonly lines: readonly string[];
  readonly w: number;
  readonly h: number;
}

function sizeOf(request: LabelRequest, lines: readonly string[], field: LabelField): Size {
  const { scale, measure } = field;
  if (request.form === 'flag') return { lines, w: 2 * FLAG_RADIUS_MM * scale, h: 2 * FLAG_RADIUS_MM * scale };
  const w = Math.max(...lines.map((line) => measure(line, request.sizeMm, request.bold))) * scale;
  return { lines, w, h: ((lines.length - 1) * LINE_STEP_EM + 1) * request.sizeMm * scale };
}

/** Ink that a leader runs over, a cell of the ink map at a time; a wide line counts no more than two thin ones. */
function leaderCrossings({ ink, scale }: LabelField, x0: number, y0: number, x1: number, y1: number): number {
  const steps = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / (scale / 2)));
  let sum = 0;
  for (let k = 0; k < steps; k++) {
    const t = (k + 0.5) / steps;
    sum += Math.min(2, ink.at(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t));
  }
  return sum;
}

/** How many of a name's corners and the middles of its long sides stand on a piece. */
function cornersOnPieces({ minX, minY, maxX, maxY }: DrawnBox, { topPiece }: LabelField): number {
  let on = 0;
  for (const x of [minX, (minX + maxX) / 2, maxX]) for (const y of [minY, maxY]) if (topPiece(x, y) !== null) on++;
  return on;
}

/** Every place a label may take with its cost, before other labels are looked at. Cheapest first. */
function placesFor(request: LabelRequest, field: LabelField): LabelPlace[] {
  const { scale } = field;
  const found: { place: LabelPlace; cost: number }[] = [];
  const offer = (size: Size, x: number, y: number, leader: LabelPlace['leader'], base: number) => {
    const box = boxAt(x, y, size.w, size.h);
    if (!within(box, field.bounds)) return;
    // Ink per mm of paper squared would favour long labels; the plain amount does not.
    const ink = field.ink.within(box);
    found.push({ place: { request, lines: size.lines, box, leader, ink }, cost: base + COST.ink * Math.sqrt(ink) });
  };
  if (request.inside) {
    const { halfW, halfH, round } = request.inside;
    const seen = new Set<number>();
    for (const part of [0.98, 0.8, 0.62]) {
      const lines = wrapText(request.text, (2 * halfW * part) / scale, request.sizeMm, request.bold, field.measure);
      if (seen.has(lines.length)) continue;
      seen.add(lines.length);
      const size = sizeOf(request, lines, field);
      const roomX = halfW - size.w / 2;
      const roomY = halfH - size.h / 2;
      if (roomX < 0 || roomY < 0) continue;
      for (const dx of [0, -0.5, 0.5, -0.9, 0.9])
        for (const dy of [0, -0.4, 0.4, -0.8, 0.8]) {
          // A round thing is narrower away from its middle: the label's far corner decides.
          const cornerX = (Math.abs(dx * roomX) + size.w / 2) / halfW;
          const cornerY = (Math.abs(dy * roomY) + size.h / 2) / halfH;
          if (round && Math.hypot(cornerX, cornerY) > 1) continue;
          const x = request.x + dx * roomX;
          const y = request.y + dy * roomY;
          const off = (COST.off * Math.hypot(x - request.x, y - request.y)) / scale;
          const corners = [-1, 0, 1].flatMap((i) => [-1, 1].map((j) => [x + (i * size.w) / 2, y + (j * size.h) / 2]));
          const wrong = corners.filter(([cx, cy]) => field.topPiece(cx, cy) !== request.pieceId).length;
          offer(size, x, y, null, off + COST.wrongPiece * wrong);
        }
    }
  }
  const lines =
    request.form === 'flag'
      ? [request.text]
      : wrapText(request.text, WIDEST_NAME_MM, request.sizeMm, request.bold, field.measure);
  const size = sizeOf(request, lines, field);
  const spots = [[request.x, request.y] as const, ...(request.elsewhere ?? [])];
  for (const [spotX, spotY] of spots)
    for (const [c, s] of WAYS) {
      const toX = spotX + c * Math.max(0, request.reachMm - LEADER_IN_MM * scale);
      const toY = spotY + s * Math.max(0, request.reachMm - LEADER_IN_MM * scale);
      const onOther = request.form === 'name' && field.topPiece(toX, toY) !== request.pieceId;
      const base = COST.beside + (onOther ? COST.wrongPiece : 0);
      for (const ring of RINGS_MM) {
        const far = request.reachMm + ring * scale;
        // The label's nearest corner lies on the ray, or near the axes a point of its side.
        const x = spotX + c * far + (clampUnit(c / AXIS_SLOPE) * size.w) / 2;
        const y = spotY + s * far + (clampUnit(s / AXIS_SLOPE) * size.h) / 2;
        const box = boxAt(x, y, size.w, size.h);
        if (!within(box, field.bounds)) continue;
        const air = AIR_MM * scale;
        const [fromX, fromY] =
          request.form === 'flag'
            ? [x - (c * size.w) / 2, y - (s * size.h) / 2]
            : [
                Math.min(Math.max(toX, box.minX - air), box.maxX + air),
                Math.min(Math.max(toY, box.minY - air), box.maxY + air),
              ];
        const crossing = leaderCrossings(field, fromX, fromY, toX, toY);
        const length = Math.hypot(toX - fromX, toY - fromY) / scale;
        const onPieces = request.form === 'name' ? COST.onPiece * cornersOnPieces(box, field) : 0;
        const cost = base + onPieces + COST.leaderMm * length + COST.crossing * crossing;
        offer(size, x, y, [fromX, fromY, toX, toY], cost);
      }
    }
  return found.sort((a, b) => a.cost - b.cost).map(({ place }) => place);
}

/** Rounds of second choices: after three nothing moves in practice. */
const ROUNDS = 3;

/** About how wide a label is, mm on paper. */
const LABEL_MM = 8;

/**
 * Places for all requests that have any; earlier requests choose first. A request without a free place has none, and is
 * the caller's to mention. `work`: how many labels were looked at, for the law that holds their growth.
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  field: LabelField,
  work?: { looks: number },
): LabelPlace[] {
  const { taken, scale } = field;
  const air = AIR_MM * scale;
  const choices = requests.map((request) => placesFor(request, field));
  // What is taken is in the way as a label without a leader is.
  const others = new Placed(
    LABEL_MM * scale,
    air,
    taken.map((box) => ({ box })),
  );
  const chosen = new Map<number, LabelPlace>();
  for (let round = 0; round < ROUNDS; round++) {
    let moved = false;
    choices.forEach((spots, i) => {
      const before = chosen.get(i);
      if (before) others.remove(before);
      chosen.delete(i);
      const best = firstFree({ spots }, { others, air });
      if (best) {
        chosen.set(i, best);
        others.add(best);
      }
      if (best !== before) moved = true;
    });
    if (!moved) break;
  }
  if (work) work.looks += others.looks;
  return [...chosen.entries()].sort(([a], [b]) => a - b).map(([, place]) => place);
}

/** A field on bare paper, where labels keep off the lines of what is drawn. `weigh`: how much a mark's lines count. */
export function bareField(
  marks: readonly Mark[],
  { bounds, scale, measure, taken = [] }: Pick<LabelField, 'bounds' | 'scale' | 'measure'> & Partial<LabelField>,
  weigh: (mark: Mark) => number = () => 1,
): LabelField {
  const ink = new InkMap(bounds, scale);
  for (const mark of marks) ink.add(mark, weigh(mark));
  return { bounds, taken, ink, scale, measure, topPiece: () => null, groundAt: () => 'paper' };
}

const AT_A_POINT = { sizeMm: TEXT_MM.small, bold: true, ink: 'ink', reachMm: 0, inside: null, backing: null } as const;

/** A number at a point, in a flag or as plain text. */
export const numberRequest = (
  of: Pick<LabelRequest, 'id' | 'text' | 'form' | 'x' | 'y' | 'pieceId'> & Partial<LabelRequest>,
): LabelRequest => ({ ...AT_A_POINT, ...of });

/** All that are placed, as marks. */
export const placedMarks = (requests: readonly LabelRequest[], field: LabelField): Mark[] =>
  placeLabels(requests, field).flatMap((place) => labelMarks(place, field));

/** A placed label's marks: leader with a dot on the thing, backing where lines run under it, text. */
export function labelMarks(place: LabelPlace, { scale, groundAt }: Pick<LabelField, 'scale' | 'groundAt'>): Mark[] {
  const { request, box, leader, lines } = place;
  const s: Style = style(request.form === 'flag' ? 'findings' : 'names', {
    zMm: 1e6,
    pieceId: request.pieceId,
    ink: request.ink,
    line: null,
    part: request.id,
  });
  const marks: Mark[] = [];
  if (leader) {
    marks.push(lineMark({ ...s, line: THIN }, ...leader));
    marks.push(circleMark({ ...s, tint: 'solid' }, leader[2], leader[3], 0.45 * scale));
  }
  const x = (box.minX + box.maxX) / 2;
  if (request.form === 'flag') {
    const y = (box.minY + box.maxY) / 2;
    marks.push(circleMark({ ...s, line: THIN, tint: 'paper' }, x, y, FLAG_RADIUS_MM * scale));
    const down = (request.sizeMm * CAPITAL_OF_EM * scale) / 2;
    marks.push(textMark(s, request.text, x, y - down, request.sizeMm, { anchor: 'middle', bold: request.bold }));
    return marks;
  }
  if (place.ink > 0) {
    const air = 0.25 * scale;
    const { minX, minY, maxX, maxY } = box;
    const backing = (leader ? null : request.backing) ?? groundAt(x, (minY + maxY) / 2);
    marks.push(
      polygonMark({ ...s, tint: backing }, [minX - air, minY, maxX + air, minY, maxX + air, maxY, minX - air, maxY]),
    );
  }
  lines.forEach((line, k) => {
    // The first baseline lies one capital's height and the air of the em box below the top.
    const y = box.maxY - ((1 + CAPITAL_OF_EM) / 2 + k * LINE_STEP_EM) * request.sizeMm * scale;
    marks.push(textMark(s, line, x, y, request.sizeMm, { anchor: 'middle', bold: request.bold }));
  });
  return marks;
}
