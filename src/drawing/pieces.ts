/**
 * One piece from above: its glyph from the gear's sizes and its place, and whatever the layout made for it (legs, feet, bars,
 * arms). For the editor, which draws piece by piece, and for whole drawings.
 *
 * The marks of a piece depend on the piece, its gear and its bodies alone, so they can be kept as long as those are the
 * same objects. They come in the order of height; a whole drawing sorts them all once more (drawSetup).
 */
import { gearOf } from '../gear/catalogue.ts';
import type { Gear } from '../gear/schema.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { drawCymbal } from './cymbals.ts';
import { type Layer, type Line, type Mark, type Style, style, THIN, WIDE } from './displayList.ts';
import { drawBassDrum, drawDrum } from './drums.ts';
import { drawBoard, drawPedal } from './pedals.ts';
import { Pen } from './pen.ts';
import { drawSeat } from './seats.ts';
import { drawStageItem } from './stageItems.ts';
import { bodyStyle, clampMark, rackMarks, tintOfHeight, tubeMarks } from './tubes.ts';

const LAYER_OF_GEAR: Partial<Record<Gear['kind'], Layer>> = {
  bassDrum: 'drums',
  drum: 'drums',
  cymbal: 'cymbals',
  pedal: 'pedals',
  throne: 'throne',
  stand: 'stands',
  stageItem: 'stage',
};

/** Bodies that a glyph of our own stands for. */
const OWN_GLYPH: ReadonlySet<Body['kind']> = new Set([
  'bassDrum',
  'snare',
  'tom',
  'floorTom',
  'cymbal',
  'pedal',
  'throne',
  'stageItem',
]);

/** Bodies by piece, found once for each layout. */
const indexed = new WeakMap<readonly Body[], Map<string, Body[]>>();

function bodiesOf(layout: Layout, pieceId: string): readonly Body[] {
  let index = indexed.get(layout.bodies);
  if (!index) {
    index = new Map();
    for (const body of layout.bodies) {
      const own = index.get(body.piece);
      if (own) own.push(body);
      else index.set(body.piece, [body]);
    }
    indexed.set(layout.bodies, index);
  }
  return index.get(pieceId) ?? [];
}

/** The glyph proper, in the piece's own frame. */
function drawGlyph(pen: Pen, gear: Gear, item: Item, edge: Line): void {
  const tilt = toRadians(item.place.tiltDeg ?? 0);
  switch (gear.kind) {
    case 'drum':
      drawDrum(pen, gear, tilt, edge);
      return;
    case 'bassDrum':
      drawBassDrum(pen, gear, edge);
      return;
    case 'cymbal':
      drawCymbal(pen, gear, tilt);
      return;
    case 'pedal': {
      drawPedal(pen, gear, edge);
      const second = item.second;
      if (second) {
        const part = `${item.id}/second`;
        drawPedal(pen.within(second.xMm, second.yMm, toRadians(second.headingDeg), { part }), gear, edge);
      }
      return;
    }
    case 'throne':
      drawSeat(pen, gear, edge);
      return;
    case 'stageItem':
      drawStageItem(pen, gear, edge);
      return;
    case 'stand':
      // Its toe is at the tube, and points the way the stand faces.
      if (gear.board)
        drawBoard(pen.within(0, gear.board.lengthMm / 2, 0), gear.board.lengthMm, gear.board.widthMm, edge);
      return;
    default:
      return;
  }
}

/** The clamp that holds a piece on a rack's bar. */
function mountClamp(plan: Plan, item: Item, layout: Layout, s: Style): Mark[] {
  const mount = item.mount;
  if (!mount || mount.carrier.on !== 'bar' || mount.clamp === null) return [];
  const { rack, bar: barId, atMm } = mount.carrier;
  const bar = layout.racks[rack]?.bars.find((candidate) => candidate.id === barId);
  const clamp = gearOf(plan.gear, mount.clamp);
  if (!bar || clamp?.kind !== 'clamp') return [];
  const at = bar.pointAt(atMm);
  const above = { ...s, layer: 'mounts' as const, zMm: bar.z + bar.shape.radius + 3, part: `${item.id}/clamp` };
  return [clampMark(above, at.x, at.y, at.headingRad, clamp.widthMm, 2 * bar.shape.radius)];
}

function itemMarks(plan: Plan, item: Item, layout: Layout): Mark[] {
  const gear = gearOf(plan.gear, item.gear);
  const bodies = bodiesOf(layout, item.id);
  const marks: Mark[] = [];
  for (const body of bodies) if (!OWN_GLYPH.has(body.kind)) marks.push(...tubeMarks(body, bodyStyle(body, item.name)));
  if (!gear) return marks;
  const own = bodies.filter((body) => OWN_GLYPH.has(body.kind));
  const zMm = own.reduce((most, body) => Math.max(most, body.z1), 0);
  // What stands on the deck by itself is wide; what a rack, a stand or a drum holds is thin.
  const edge = item.mount === null && gear.kind !== 'cymbal' ? WIDE : THIN;
  const base = style(LAYER_OF_GEAR[gear.kind] ?? 'mounts', {
    line: edge,
    tint: gear.kind === 'stageItem' ? 'stage' : tintOfHeight(zMm),
    zMm,
    pieceId: item.id,
    part: item.id,
    title: item.name || gear.name,
  });
  marks.push(...mountClamp(plan, item, layout, base));
  const { xMm, yMm, headingDeg } = item.place;
  const pen = new Pen({ angle: toRadians(headingDeg), dx: xMm, dy: yMm }, base);
  drawGlyph(pen, gear, item, edge);
  marks.push(...pen.marks);
  return byHeight(marks);
}

/** From low to high; what is equally high stays in the order of drawing. */
export function byHeight(marks: readonly Mark[]): Mark[] {
  return [...marks].sort((a, b) => a.zMm - b.zMm);
}

/** The marks of one piece, in the plan's frame. A piece that is not in the setup has none. */
export function drawPiece(plan: Plan, setup: Setup, pieceId: string, layout: Layout): Mark[] {
  const piece = Object.hasOwn(setup.pieces, pieceId) ? setup.pieces[pieceId] : undefined;
  if (!piece) return [];
  if (piece.kind === 'rack') return byHeight(rackMarks(bodiesOf(layout, pieceId), piece.name));
  return itemMarks(plan, piece, layout);
}
