/**
 * One piece from above: its glyph from the gear's sizes and its place, and whatever the layout made for it (legs, feet, bars,
 * arms). For the editor, which draws piece by piece, and for whole drawings.
 *
 * The marks of a piece depend on the piece, its gear and its bodies alone, so they can be kept as long as those are the
 * same objects. They come in the order of height; a whole drawing sorts them all once more (drawSetup).
 */
import { gearOf } from '../gear/catalogue.ts';
import { hasGlyph, isBesideKit, isPlaceable, type OwnGlyphed, placedKind, SECOND_PEDAL } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { DRUM_USES } from '../gear/uses.ts';
import { boxOf } from '../geometry/support.ts';
import { bodiesOf } from '../layout/bodiesOf.ts';
import type { Body } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { drawCymbal } from './cymbals.ts';
import { type Line, lineMark, type Mark, NEIGHBOUR, type Style, style, THIN, WIDE } from './displayList.ts';
import { drawBassDrum, drawDrum } from './drums.ts';
import { drawBoard, drawPedal } from './pedals.ts';
import { Pen } from './pen.ts';
import { drawSeat } from './seats.ts';
import { drawPlacedMicrophone, drawStageItem, type MixNumber } from './stageItems.ts';
import { drawBasket } from './stands.ts';
import { bodyStyle, clampMark, LAYER_OF_BODY, mergedMarks, rackMarks, tintOfHeight, tubeMarks } from './tubes.ts';

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

/** The number of the monitor mix that a wedge plays or a person hears: its place in the setup's list. */
function mixOf(setup: Setup, item: Item): MixNumber | undefined {
  if (item.mix === undefined) return undefined;
  const at = setup.mixes?.findIndex(({ id }) => id === item.mix) ?? -1;
  return at < 0 ? undefined : { number: at + 1, by: setup.mixes![at].by };
}

/** What a microphone takes, when that is a piece of the setup. */
export function takenBy(plan: Plan, setup: Setup, item: Item): { readonly item: Item; readonly gear: Gear } | null {
  const taken = item.takes !== undefined && Object.hasOwn(setup.pieces, item.takes) ? setup.pieces[item.takes] : null;
  const gear = taken?.kind === 'item' && taken !== item ? gearOf(plan.gear, taken.gear) : undefined;
  return taken?.kind === 'item' && gear ? { item: taken, gear } : null;
}

/** The head of a microphone in place: where its name points. Null among marks that have none. */
export function headOf(
  marks: readonly Mark[],
): { readonly x: number; readonly y: number; readonly reachMm: number } | null {
  const head = marks.findLast((mark) => mark.kind === 'circle' && mark.tint === 'solid');
  return head?.kind === 'circle' ? { x: head.cx, y: head.cy, reachMm: head.r } : null;
}

/** Whether a piece is a microphone placed on something other than a person: on a drum, at an amplifier. */
export function isPlacedMicrophone(plan: Plan, setup: Setup, item: Item): boolean {
  const gear = gearOf(plan.gear, item.gear);
  if (gear?.kind !== 'stageItem' || gear.use !== 'microphone') return false;
  const taken = takenBy(plan, setup, item);
  return taken !== null && !(taken.gear.kind === 'stageItem' && taken.gear.use === 'person');
}

/** What a glyph may need beside its gear. */
interface Scene {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly layout: Layout;
  readonly item: Item;
  readonly scale: number | undefined;
  readonly base: Style;
  readonly edge: Line;
  /** The top of what the glyph stands for. */
  readonly zMm: number;
}

interface Glyph<K extends OwnGlyphed> {
  /** Which of the piece's bodies it stands for; the others are drawn as they are. */
  readonly standsFor: (body: Body, gear: GearOf<K>) => boolean;
  /** The pen is in the piece's own frame. */
  readonly draw: (pen: Pen, gear: GearOf<K>, scene: Scene) => void;
}

const tiltOf = ({ place }: Item): number => toRadians(place.tiltDeg ?? 0);

/** Kinds that are drawn as more than their bodies' outlines. */
const GLYPHS: { readonly [K in OwnGlyphed]: Glyph<K> } = {
  drum: {
    standsFor: ({ kind }, { use }) => kind === DRUM_USES[use].body,
    draw: (pen, gear, { item, edge }) => drawDrum(pen, gear, tiltOf(item), edge),
  },
  bassDrum: {
    standsFor: ({ kind }) => kind === 'bassDrum',
    draw: (pen, gear, { edge }) => drawBassDrum(pen, gear, edge),
  },
  cymbal: {
    standsFor: ({ kind }) => kind === 'cymbal',
    draw: (pen, gear, { item }) => drawCymbal(pen, gear, tiltOf(item)),
  },
  pedal: {
    standsFor: ({ kind }) => kind === 'pedal',
    draw: (pen, gear, { item, edge }) => {
      drawPedal(pen, gear, edge);
      if (gear.use !== 'double') return;
      const second = item.second ?? SECOND_PEDAL;
      const part = `${item.id}/second`;
      drawPedal(pen.within(second.xMm, second.yMm, toRadians(second.headingDeg), { part }), gear, edge);
    },
  },
  // Its legs and its tube are drawn as they are.
  throne: { standsFor: ({ part }) => part === 'seat', draw: (pen, gear, { edge }) => drawSeat(pen, gear, edge) },
  stand: {
    standsFor: ({ kind, part }) => kind === 'pedal' || part === 'basket',
    draw: (pen, gear, { item, edge, zMm }) => {
      // Its toe is at the tube, and points the way the stand faces.
      if (gear.board) {
        const { lengthMm, widthMm, heightMm } = gear.board;
        const board = { zMm: heightMm, tint: tintOfHeight(heightMm), part: `${item.id}/board` };
        drawBoard(pen.within(0, lengthMm / 2, 0, board), lengthMm, widthMm, edge);
      }
      if (gear.basketMm) drawBasket(pen, gear.basketMm, zMm);
    },
  },
  stageItem: { standsFor: ({ kind }) => kind === 'stageItem', draw: drawOnStage },
};

const glyphOf = (gear: Gear | undefined): Glyph<OwnGlyphed> | null =>
  gear !== undefined && hasGlyph(gear) ? (GLYPHS[gear.kind] as Glyph<OwnGlyphed>) : null;

/** Bodies that the gear's glyph stands for. */
function inGlyph(bodies: readonly Body[], gear: Gear | undefined): Body[] {
  const glyph = glyphOf(gear);
  return glyph === null ? [] : bodies.filter((body) => glyph.standsFor(body, gear as GearOf<OwnGlyphed>));
}

function drawOnStage(
  pen: Pen,
  gear: GearOf<'stageItem'>,
  { plan, setup, layout, item, scale, base, edge }: Scene,
): void {
  const { xMm: x, yMm: y, headingDeg } = item.place;
  const heading = toRadians(headingDeg);
  const taken = gear.use === 'microphone' ? takenBy(plan, setup, item) : null;
  // Drawn above what it takes, wherever its own stand ends.
  const own = taken ? inGlyph(bodiesOf(layout.bodies, taken.item.id), taken.gear) : [];
  if (taken && own.length > 0 && isPlacedMicrophone(plan, setup, item)) {
    const box = boxOf(own[0].shape);
    const reachMm = Math.min(box.maxX - box.minX, box.maxY - box.minY) / 2;
    const at = { x: taken.item.place.xMm, y: taken.item.place.yMm, reachMm, over: !isBesideKit(taken.gear) };
    const zMm = own.reduce((most, { z1 }) => Math.max(most, z1), base.zMm) + 1;
    const placed = new Pen({ angle: 0, dx: 0, dy: 0 }, { ...base, zMm });
    const standMm = Math.min(gear.widthMm, gear.depthMm);
    drawPlacedMicrophone(placed, { x, y, otherwise: heading - Math.PI / 2, at, standMm, scale });
    pen.marks.push(...placed.marks);
    return;
  }
  const { use, shape, widthMm, depthMm } = gear;
  // A singer's microphone points at its singer.
  const { xMm, yMm } = taken?.item.place ?? item.place;
  const away = Math.hypot(xMm - x, yMm - y) > 1;
  const pointing = away ? Math.atan2(yMm - y, xMm - x) - heading : Math.PI / 2;
  drawStageItem(pen, { use, shape, widthMm, depthMm, scale, mix: mixOf(setup, item) }, edge, pointing);
}

function itemMarks(plan: Plan, setup: Setup, item: Item, layout: Layout, scale: number | undefined): Mark[] {
  const gear = gearOf(plan.gear, item.gear);
  const bodies = bodiesOf(layout.bodies, item.id);
  const marks: Mark[] = [];
  const arm = bodies.filter((body) => body.kind === 'arm');
  const own = inGlyph(bodies, gear);
  for (const body of bodies)
    if (!own.includes(body) && body.kind !== 'arm') marks.push(...tubeMarks(body, bodyStyle(body, item.name)));
  marks.push(...mergedMarks(arm, item.name, `${item.id}/arm`));
  if (!gear) return marks;
  const zMm = own.reduce((most, body) => Math.max(most, body.z1), 0);
  // What stands on the deck by itself is wide; what a rack, a stand or a drum holds is thin.
  const edge = item.mount === null && gear.kind !== 'cymbal' ? WIDE : THIN;
  const base = style(isPlaceable(gear) ? LAYER_OF_BODY[placedKind(gear).body(gear)] : 'mounts', {
    line: edge,
    tint: isBesideKit(gear) ? 'stage' : tintOfHeight(zMm),
    zMm,
    pieceId: item.id,
    part: item.id,
    title: item.name || gear.name,
  });
  marks.push(...mountMarks(plan, setup, item, layout, base, arm.length > 0));
  const { xMm, yMm, headingDeg } = item.place;
  const pen = new Pen({ angle: toRadians(headingDeg), dx: xMm, dy: yMm }, base);
  const scene = { plan, setup, layout, item, scale, base, edge, zMm };
  glyphOf(gear)?.draw(pen, gear as GearOf<OwnGlyphed>, scene);
  marks.push(...pen.marks);
  return byHeight(marks);
}

/** From low to high; what is equally high stays in the order of drawing. */
export function byHeight(marks: readonly Mark[]): Mark[] {
  return [...marks].sort((a, b) => a.zMm - b.zMm);
}

/**
 * The marks of one piece, in the plan's frame. A piece that is not in the setup has none. `scale`: model mm in one mm of
 * paper, where small things on the stage are drawn large enough to be told apart; left out: everything at its own size.
 */
export function drawPiece(plan: Plan, setup: Setup, pieceId: string, layout: Layout, scale?: number): Mark[] {
  const piece = Object.hasOwn(setup.pieces, pieceId) ? setup.pieces[pieceId] : undefined;
  if (!piece) return [];
  if (piece.kind === 'rack')
    return byHeight(rackMarks(bodiesOf(layout.bodies, pieceId), layout.racks[pieceId]?.bars ?? [], piece.name));
  return itemMarks(plan, setup, piece, layout, scale);
}
