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
import { SECOND_PEDAL } from '../layout/floorGear.ts';
import type { Layout } from '../layout/layout.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { drawCymbal } from './cymbals.ts';
import { type Layer, type Line, lineMark, type Mark, NEIGHBOUR, type Style, style, THIN, WIDE } from './displayList.ts';
import { drawBassDrum, drawDrum } from './drums.ts';
import { drawBoard, drawPedal } from './pedals.ts';
import { Pen } from './pen.ts';
import { drawSeat } from './seats.ts';
import { drawStageItem } from './stageItems.ts';
import { drawBasket } from './stands.ts';
import { bodyStyle, clampMark, mergedMarks, rackMarks, tintOfHeight, tubeMarks } from './tubes.ts';

const LAYER_OF_GEAR: Partial<Record<Gear['kind'], Layer>> = {
  bassDrum: 'drums',
  drum: 'drums',
  cymbal: 'cymbals',
  pedal: 'pedals',
  throne: 'throne',
  stand: 'stands',
  stageItem: 'stage',
};

/** Bodies that a glyph of our own stands for; a throne's legs and tube are drawn as they are. */
function hasOwnGlyph(body: Body): boolean {
  switch (body.kind) {
    case 'bassDrum':
    case 'snare':
    case 'tom':
    case 'floorTom':
    case 'cymbal':
    case 'pedal':
    case 'stageItem':
      return true;
    case 'throne':
      return body.part === 'seat';
    case 'stand':
      return body.part === 'basket';
    default:
      return false;
  }
}

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
function drawGlyph(pen: Pen, gear: Gear, item: Item, edge: Line, zMm: number): void {
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
      if (gear.use === 'double') {
        const second = item.second ?? SECOND_PEDAL;
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
      if (gear.board) {
        const { lengthMm, widthMm, heightMm } = gear.board;
        const board = { zMm: heightMm, tint: tintOfHeight(heightMm), part: `${item.id}/board` };
        drawBoard(pen.within(0, lengthMm / 2, 0, board), lengthMm, widthMm, edge);
      }
      if (gear.basketMm) drawBasket(pen, gear.basketMm, zMm);
      return;
    default:
      return;
  }
}

/** Where a mount is held: a place on a bar, an upright, or what the arm's own piece is held by. Null where it cannot be said. */
function heldAt(setup: Setup, layout: Layout, item: Item, depth = 0): { x: number; y: number; zMm: number } | null {
  const carrier = item.mount?.carrier;
  if (!carrier) return null;
  switch (carrier.on) {
    case 'bar': {
      const bar = layout.racks[carrier.rack]?.bars.find(({ id }) => id === carrier.bar);
      return bar ? { ...bar.pointAt(carrier.atMm), zMm: bar.z + bar.radiusMm } : null;
    }
    case 'leg': {
      const leg = layout.racks[carrier.rack]?.legs.find(({ id }) => id === carrier.leg);
      return leg ? { x: leg.x, y: leg.y, zMm: carrier.heightMm } : null;
    }
    case 'socket': {
      // Sockets sit on the holder's clamp; mounts are a forest, and the depth guards a file that says otherwise.
      const holder = Object.hasOwn(setup.pieces, carrier.piece) ? setup.pieces[carrier.piece] : undefined;
      return holder?.kind === 'item' && depth < 20 ? heldAt(setup, layout, holder, depth + 1) : null;
    }
    case 'piece':
      return null;
  }
}

/** The clamp on a bar, and a line where an arm that the layout could not set should run. */
function mountMarks(plan: Plan, setup: Setup, item: Item, layout: Layout, s: Style, hasArm: boolean): Mark[] {
  const { mount } = item;
  const at = heldAt(setup, layout, item);
  if (!mount || !at) return [];
  const marks: Mark[] = [];
  const held: Style = { ...s, layer: 'mounts', line: THIN, zMm: at.zMm + 3, part: `${item.id}/clamp` };
  const clamp = mount.clamp === null ? undefined : gearOf(plan.gear, mount.clamp);
  if (mount.carrier.on === 'bar' && clamp?.kind === 'clamp') {
    const { rack, bar: barId, atMm } = mount.carrier;
    const bar = layout.racks[rack].bars.find(({ id }) => id === barId)!;
    marks.push(clampMark(held, at.x, at.y, bar.pointAt(atMm).headingRad, clamp.widthMm, 2 * bar.radiusMm));
  }
  if (mount.arm !== null && !hasArm) {
    // The layout draws an arm that reaches; one that does not is a line of where it should run.
    const wish = { ...held, line: NEIGHBOUR, part: `${item.id}/arm` };
    marks.push(lineMark(wish, at.x, at.y, item.place.xMm, item.place.yMm));
  }
  return marks;
}

function itemMarks(plan: Plan, setup: Setup, item: Item, layout: Layout): Mark[] {
  const gear = gearOf(plan.gear, item.gear);
  const bodies = bodiesOf(layout, item.id);
  const marks: Mark[] = [];
  const arm = bodies.filter((body) => body.kind === 'arm');
  for (const body of bodies)
    if (!hasOwnGlyph(body) && body.kind !== 'arm') marks.push(...tubeMarks(body, bodyStyle(body, item.name)));
  marks.push(...mergedMarks(arm, item.name, `${item.id}/arm`));
  if (!gear) return marks;
  const own = bodies.filter(hasOwnGlyph);
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
  marks.push(...mountMarks(plan, setup, item, layout, base, arm.length > 0));
  const { xMm, yMm, headingDeg } = item.place;
  const pen = new Pen({ angle: toRadians(headingDeg), dx: xMm, dy: yMm }, base);
  drawGlyph(pen, gear, item, edge, zMm);
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
  if (piece.kind === 'rack')
    return byHeight(rackMarks(bodiesOf(layout, pieceId), layout.racks[pieceId]?.bars ?? [], piece.name));
  return itemMarks(plan, setup, piece, layout);
}
