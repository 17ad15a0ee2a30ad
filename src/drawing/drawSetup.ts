/**
 * A whole setup as one display list, in the plan's frame: riser, stage, pieces from low to high, hidden lines, centre line,
 * dimensions, names and numbered findings.
 *
 * Units: mm of the model; `scale` says how many go to one mm of paper, for what belongs to the paper.
 */
import type { Finding } from '../checks/finding.ts';
import { gearOf } from '../gear/catalogue.ts';
import { isBesideKit } from '../gear/kinds.ts';
import { pointInDeck, prepareDeck } from '../geometry/deck.ts';
import type { Layout } from '../layout/layout.ts';
import type { Piece, Plan, Riser, Setup } from '../plan/schema.ts';
import { stageOf } from '../plan/stages.ts';
import { formatLength } from '../units.ts';
import { BoxGrid } from './boxGrid.ts';
import { deckMarks } from './deck.ts';
import {
  boxOfMark,
  boxOfMarks,
  CENTRE,
  type DisplayList,
  type DrawnBox,
  joinBoxes,
  lineMark,
  type Mark,
  style,
  type TextMark,
  type Tint,
  WIDE,
} from './displayList.ts';
import { encloses, isOpaque } from './edges.ts';
import { centreLineX, deckBox, grown, kitBox } from './extents.ts';
import { hiddenLines } from './hidden.ts';
import { InkMap } from './inkMap.ts';
import { type LabelRequest, labelMarks, numberRequest, placeLabels } from './labels.ts';
import { flagRequests, nameRequests } from './names.ts';
import { byHeight, drawPiece, headOf, isPlacedMicrophone, takenBy } from './pieces.ts';
import { allDimensions, stageDimensions } from './setupDimensions.ts';
import { cableRunMarks, stageMarks, stageRequests } from './stage.ts';
import { estimateText, type MeasureText, textBox } from './textWidth.ts';

export interface DrawOptions {
  /** Model mm in one mm of paper: 20 at 1:20. */
  readonly scale: number;
  /** 'kit' leaves out the stage, and other things on it that stand beside the kit and its riser. */
  readonly view?: 'stage' | 'kit';
  /** 'stage' names other things on the stage one by one, and the kit as a whole; microphones on the kit are left out. */
  readonly names?: 'all' | 'stage' | 'none';
  /** Numbers of the input list's channels, by the id of the microphone or DI. */
  readonly channels?: ReadonlyMap<string, string>;
  /** 'riser' leaves out the kit's own. */
  readonly dimensions?: 'all' | 'riser' | 'none';
  /** Numbered flags at what is tight, blocked or unmeasured. */
  readonly flags?: boolean;
  readonly hidden?: boolean;
  readonly measure?: MeasureText;
  /** Where names may stand, mm of the model: a page's free room. Left out: a margin round the drawing. */
  readonly namesWithin?: DrawnBox;
}

export interface Drawn extends DisplayList {
  /** Names and flags for which there was no free place. */
  readonly unnamed: number;
}

/** On paper, mm: from the drawing to its dimensions, and room for names where no page says. */
const ROOM_MM = 2;
const NAMES_MM = 14;
const CENTRE_BEYOND_MM = 5;

/** Pieces that are other things on the stage, not of the kit. */
function isStageItem(plan: Plan, piece: Piece): boolean {
  return piece.kind === 'item' && isBesideKit(gearOf(plan.gear, piece.gear));
}

/** Whether a setup has a stage, or things on it that stand beside the kit and its riser. */
export function hasStageBeside(plan: Plan, setup: Setup, layout: Layout): boolean {
  return stageOf(plan, setup) !== undefined || idsInView(plan, setup, layout, 'kit').length < setup.order.length;
}

/** Whether a piece belongs to the kit's own picture: all of the kit, and what is placed on it. */
function isOfKit(plan: Plan, setup: Setup, piece: Piece): boolean {
  if (!isStageItem(plan, piece)) return true;
  if (piece.kind !== 'item' || !isPlacedMicrophone(plan, setup, piece)) return false;
  return !isBesideKit(takenBy(plan, setup, piece)?.gear);
}

function idsInView(plan: Plan, setup: Setup, layout: Layout, view: 'stage' | 'kit'): string[] {
  const ids = setup.order.filter((id) => setup.pieces[id] !== undefined);
  const boxes = [kitBox(layout), deckBox(layout)].filter((box) => box !== null);
  if (view === 'stage' || boxes.length === 0) return ids;
  const box = boxes.reduce(joinBoxes);
  return ids.filter((id) => {
    const piece = setup.pieces[id];
    const { xMm: x, yMm: y } = piece.place;
    const beside = x < box.minX || x > box.maxX || y < box.minY || y > box.maxY;
    return isOfKit(plan, setup, piece) || !beside;
  });
}

/** The kit as one thing with one name, where pieces are too small to be named. */
function kitRequest(layout: Layout, riser: Riser | undefined, plan: Plan): LabelRequest[] {
  const box = deckBox(layout) ?? kitBox(layout);
  if (!box) return [];
  const text = riser ? `Drum kit on riser, ${formatLength(riser.heightMm, plan.units)} high` : 'Drum kit';
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const reachMm = Math.min(box.maxX - box.minX, box.maxY - box.minY) / 2;
  return [numberRequest({ id: 'kit', text, form: 'name', x, y, reachMm, pieceId: null })];
}

const SOLID_WEIGHT = 4;

/** Names keep off the riser's edge, and off dimension lines; covering a bit of a hidden line costs little. */
function inkWeight({ layer, line, ink }: Mark): number {
  // Seams, in faint ink, are no edge.
  if (layer === 'deck') return ink === 'faint' ? 1 : 16;
  if (layer === 'dimensions') return 2.5;
  return line?.kind === 'dashed' ? 0.3 : 1;
}

/**
 * The drawing of a setup. `findings` are those that runChecks gave (only flags need them). The box holds all of it,
 * names too.
 * Throws: RangeError when the plan has no such setup.
 */
export function drawSetup(
  plan: Plan,
  setupId: string,
  layout: Layout,
  { findings }: { readonly findings: readonly Finding[] },
  options: DrawOptions,
): Drawn {
  const setup = Object.hasOwn(plan.setups, setupId) ? plan.setups[setupId] : undefined;
  if (!setup) throw new RangeError(`The plan has no setup "${setupId}".`);
  const { scale, view = 'stage', names = 'all', dimensions = 'all', flags = false, hidden = true } = options;
  const measure = options.measure ?? estimateText;
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const stage = view === 'stage' ? stageOf(plan, setup) : undefined;
  const cables = view === 'stage' ? (setup.cables ?? []) : [];
  const inView = idsInView(plan, setup, layout, view);
  const ids =
    names === 'stage'
      ? inView.filter((id) => !isStageItem(plan, setup.pieces[id]) || !isOfKit(plan, setup, setup.pieces[id]))
      : inView;
  const deck = layout.deck ? deckMarks(layout.deck.modules, scale, riser?.name || 'Riser') : [];
  const ground = [...(stage ? stageMarks(stage) : []), ...cableRunMarks(cables, scale), ...deck];
  const pieces = byHeight(ids.flatMap((id) => drawPiece(plan, setup, id, layout, scale)));
  const marks: Mark[] = [...ground, ...pieces];
  if (hidden) marks.push(...hiddenLines(pieces));

  const model = boxOfMarks(marks);
  const centre = centreLineX(layout, stageOf(plan, setup));
  // On the kit's own picture the stage's centre line is drawn where it crosses it.
  const along = stage ? model : (deckBox(layout) ?? model);
  if (centre >= model.minX && centre <= model.maxX)
    marks.push(
      lineMark(
        style('centre', { line: CENTRE, title: 'Centre line', zMm: 1e4 }),
        centre,
        along.minY - CENTRE_BEYOND_MM * scale,
        centre,
        along.maxY + CENTRE_BEYOND_MM * scale,
      ),
    );

  const around = grown(model, ROOM_MM * scale);
  const dimensionList = (): Mark[] => {
    if (dimensions === 'none') return [];
    if (!stage) return allDimensions(plan, layout, dimensions, around, scale, measure);
    const others = boxesBeside(pieces, layout);
    return stageDimensions(plan, layout, stage, { around, others, airMm: ROOM_MM, scale, measure });
  };
  const measured = dimensionList();
  marks.push(...measured);
  const box = marks.reduce(
    (all, mark) => joinBoxes(all, mark.kind === 'text' ? textBox(mark, scale, measure) : boxOfMark(mark)),
    around,
  );

  const tints = new Map(
    pieces.flatMap((mark) =>
      mark.pieceId && isOpaque(mark) && mark.tint !== 'solid' ? [[mark.pieceId, mark.tint!]] : [],
    ),
  );
  const named = names === 'all' ? ids : ids.filter((id) => isStageItem(plan, setup.pieces[id]));
  const heads = new Map(
    named.flatMap((id) => {
      const piece = setup.pieces[id];
      if (piece.kind !== 'item' || !isPlacedMicrophone(plan, setup, piece)) return [];
      const head = headOf(pieces.filter(({ pieceId }) => pieceId === id));
      return head ? [[id, head]] : [];
    }),
  );
  const naming = { scale, channels: options.channels, heads };
  const requests = [
    ...(flags ? flagRequests(findings) : []),
    ...(names === 'stage' ? kitRequest(layout, riser, plan) : []),
    ...(names === 'none' ? [] : nameRequests(plan, setup, layout, named, tints, naming)),
    ...(names === 'none' ? [] : stageRequests(stage, cables)),
  ];
  if (requests.length === 0) return { marks, box, unnamed: 0 };
  const bounds = options.namesWithin ?? grown(box, NAMES_MM * scale);
  const ink = new InkMap(bounds, scale);
  for (const mark of marks) ink.add(mark, inkWeight(mark));
  // A microphone's solid head has no line; a name on it could not be read.
  for (const mark of pieces) if (mark.tint === 'solid') ink.add({ ...mark, line: WIDE }, SOLID_WEIGHT);
  // Numbers of dimensions, and of mixes in their glyphs.
  const lettered = [...measured, ...pieces].filter((mark): mark is TextMark => mark.kind === 'text');
  const taken = lettered.map((mark) => textBox(mark, scale, measure));
  const ready = layout.deck ? prepareDeck(layout.deck.modules) : null;
  const wings = ground.filter(({ tint }) => tint === 'stage');
  const groundAt = (x: number, y: number): Tint => {
    if (ready && pointInDeck(ready, x, y)) return 'deck';
    return wings.some((wing) => encloses(wing, x, y)) ? 'stage' : 'paper';
  };
  const field = { bounds, taken, ink, scale, measure, groundAt, topPiece: topPieceOf(pieces) };
  const places = placeLabels(requests, field);
  const unnamed = requests.length - places.length;
  for (const place of places) marks.push(...labelMarks(place, field));
  return { marks, box: places.reduce((all, place) => joinBoxes(all, place.box), box), unnamed };
}

/** The boxes of what is drawn outside the riser, piece by piece: what dimensions keep off. */
function boxesBeside(pieces: readonly Mark[], layout: Layout): DrawnBox[] {
  const deck = deckBox(layout) ?? kitBox(layout);
  const byPiece = new Map<string, DrawnBox>();
  for (const mark of pieces) {
    if (mark.pieceId === null) continue;
    const own = boxOfMark(mark);
    const before = byPiece.get(mark.pieceId);
    byPiece.set(mark.pieceId, before ? joinBoxes(before, own) : own);
  }
  const isWithin = ({ minX, minY, maxX, maxY }: DrawnBox) =>
    deck !== null && minX >= deck.minX && minY >= deck.minY && maxX <= deck.maxX && maxY <= deck.maxY;
  return [...byPiece.values()].filter((box) => !isWithin(box));
}

/** About how wide a drum is, mm. */
const PIECE_MM = 400;

/** Which piece is in sight at a place; cymbals, which let things show through, count where nothing opaque is above them. */
function topPieceOf(pieces: readonly Mark[]): (x: number, y: number) => string | null {
  const filled = pieces.filter((mark) => mark.tint !== null && mark.tint !== 'solid');
  const grid = new BoxGrid<number>(PIECE_MM);
  filled.forEach((mark, k) => {
    grid.add(k, boxOfMark(mark));
  });
  return (x, y) => {
    let top = -1;
    grid.some({ minX: x, minY: y, maxX: x, maxY: y }, (k) => {
      if (k > top && encloses(filled[k], x, y)) top = k;
      return false;
    });
    return filled[top]?.pieceId ?? null;
  };
}
