/** What stands on the deck by itself: pedals, thrones, stands. */
import { KINDS, SECOND_PEDAL, TOWER_DEPTH_MM } from '../gear/kinds.ts';
import type { GearOf } from '../gear/schema.ts';
import { capsule, disc, rectangle } from '../geometry/shapes.ts';
import type { Item } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import type { Maker } from './maker.ts';

/** Typical sizes that the catalogue does not carry (common practice, no source). */
const BOARD_HEIGHT_MM = 110;
const SEAT_THICKNESS_MM = 90;
const THRONE_TUBE_RADIUS_MM = 25;
const THRONE_LEG_RADIUS_MM = 12;
/** A tripod's legs leave the tube at this height, or half-way up a low stand. */
const TRIPOD_HUB_MM = 220;
const TIP_HEIGHT_MM = 30;
/** A leg's rubber tip is this much thicker than the leg, all round. */
export const TIP_BEYOND_MM = 2;
const LEGLESS_TUBE_FROM_MM = 60;
const BASKET_HEIGHT_MM = 45;
const SADDLE_PAD_PART = 0.3;

function onePedal(make: Maker, gear: GearOf<'pedal'>, massKg: number | null): void {
  make.add({
    part: 'board',
    kind: 'pedal',
    shape: rectangle(0, 0, gear.plateWidthMm, gear.boardLengthMm, 0),
    z: [0, Math.min(BOARD_HEIGHT_MM, gear.heightMm)],
    floor: true,
    massKg,
    centre: [0, -gear.boardLengthMm / 6, gear.heightMm / 3],
  });
  make.add({
    part: 'tower',
    kind: 'pedal',
    shape: rectangle(0, towerY(gear), gear.plateWidthMm, TOWER_DEPTH_MM, 0),
    z: [0, gear.heightMm],
  });
}

const towerY = (gear: GearOf<'pedal'>) => -gear.boardLengthMm / 2 + TOWER_DEPTH_MM / 2;

/** Where a double pedal's shaft starts and ends, in the first pedal's frame: the middles of the two towers. */
export function shaftEnds(gear: GearOf<'pedal'>, item: Item): [number, number, number, number] {
  const second = item.second ?? SECOND_PEDAL;
  const angle = toRadians(second.headingDeg);
  const y = towerY(gear);
  return [0, y, second.xMm - y * Math.sin(angle), second.yMm + y * Math.cos(angle)];
}

/** A double pedal's mass is shared evenly between its two pedals; the shaft's own is within it. */
export function pedalBodies(make: Maker, gear: GearOf<'pedal'>, item: Item, massKg: number | null): void {
  if (gear.use !== 'double') {
    onePedal(make, gear, massKg);
    return;
  }
  const half = massKg === null ? null : massKg / 2;
  onePedal(make, gear, half);
  const second = item.second ?? SECOND_PEDAL;
  onePedal(make.within({ angle: toRadians(second.headingDeg), dx: second.xMm, dy: second.yMm }, 'second-'), gear, half);
  if (!gear.shaft) return;
  const radius = gear.shaft.diameterMm / 2;
  const z = gear.shaft.heightMm;
  const [x0, y0, x1, y1] = shaftEnds(gear, item);
  make.add({
    part: 'shaft',
    kind: 'shaft',
    shape: capsule(x0, y0, x1, y1, radius),
    z: [z - radius, z + radius],
    solid: { kind: 'rod', a: [x0, y0, z], b: [x1, y1, z], radius },
  });
}

interface Legs {
  readonly angles: readonly number[];
  readonly radiusMm: number;
  readonly legRadiusMm: number;
  readonly hubMm: number;
  readonly kind: 'stand' | 'throne';
}

/** Legs from the tube down to their tips. A leg's body is a bound: its height interval is that of the whole leg. */
function legBodies(make: Maker, { angles, radiusMm, legRadiusMm, hubMm, kind }: Legs): void {
  angles.forEach((angle, k) => {
    const x = radiusMm * Math.cos(angle);
    const y = radiusMm * Math.sin(angle);
    make.add({
      part: `tip${k + 1}`,
      kind,
      shape: disc(x, y, legRadiusMm + TIP_BEYOND_MM),
      z: [0, TIP_HEIGHT_MM],
      floor: true,
    });
    make.add({ part: `leg${k + 1}`, kind, shape: capsule(0, 0, x, y, legRadiusMm), z: [0, hubMm] });
  });
}

const tripod = (turn: number) => [0, 1, 2].map((k) => turn - Math.PI / 2 + (k * 2 * Math.PI) / 3);
/** Two legs to the sides and front; a footboard behind is the third support. */
const twoLegs = (turn: number) => [turn - Math.PI / 6, turn + Math.PI + Math.PI / 6];

export function throneBodies(make: Maker, gear: GearOf<'throne'>, item: Item, massKg: number | null): void {
  const height = item.place.heightMm ?? KINDS.throne.placed.ownHeightMm(gear);
  const under = Math.max(0, height - SEAT_THICKNESS_MM);
  const { widthMm: w, depthMm: d } = gear;
  const pad = Math.min(d * SADDLE_PAD_PART, w / 2 - 1, d / 2 - 1);
  make.add({
    part: 'seat',
    kind: 'throne',
    shape: gear.seat === 'round' ? disc(0, 0, Math.max(w, d) / 2) : rectangle(0, 0, w - 2 * pad, d - 2 * pad, 0, pad),
    z: [under, height],
    massKg,
    centre: [0, 0, height / 2],
  });
  make.add({ part: 'tube', kind: 'throne', shape: disc(0, 0, THRONE_TUBE_RADIUS_MM), z: [0, under] });
  legBodies(make, {
    angles: tripod(toRadians(item.legsTurnDeg ?? 0)),
    radiusMm: gear.baseRadiusMm,
    legRadiusMm: THRONE_LEG_RADIUS_MM,
    hubMm: Math.min(TRIPOD_HUB_MM, under / 2),
    kind: 'throne',
  });
}

/**
 * Whether a stand without legs rests on its tip, as against hanging on its brace: as the plan says, else by its gear: one with a foot
 * rests on it, one without hangs.
 */
export const standsOnTip = ({ base }: GearOf<'stand'>, tip: Item['tip']): boolean =>
  base.form === 'foot' ? tip !== 'hangs' : base.form === 'none' && tip === 'floor';

export function standBodies(make: Maker, gear: GearOf<'stand'>, item: Item, massKg: number | null): void {
  const top = item.place.heightMm ?? KINDS.stand.placed.ownHeightMm(gear);
  const { base } = gear;
  const radius = gear.tubeDiameterMm / 2;
  const isLegless = base.form === 'none' || base.form === 'foot';
  const rests = standsOnTip(gear, item.tip);
  const bottom = isLegless && !rests ? Math.min(LEGLESS_TUBE_FROM_MM, top / 2) : 0;
  make.add({
    part: 'tube',
    kind: 'stand',
    shape: disc(0, 0, radius),
    z: [bottom, top],
    massKg,
    centre: [0, 0, base.form === 'tripod' || base.form === 'twoLeg' ? top * 0.4 : top / 2],
  });
  if (base.form === 'foot' || rests)
    make.add({
      part: 'foot',
      kind: 'stand',
      shape: disc(0, 0, Math.max(base.radiusMm, radius)),
      z: [bottom, Math.min(bottom + TIP_HEIGHT_MM, top)],
      floor: rests,
    });
  if (base.form === 'tripod' || base.form === 'twoLeg') {
    const turn = toRadians(item.legsTurnDeg ?? 0);
    legBodies(make, {
      angles: base.form === 'tripod' ? tripod(turn) : twoLegs(turn),
      radiusMm: base.radiusMm,
      legRadiusMm: base.legDiameterMm / 2,
      hubMm: Math.min(TRIPOD_HUB_MM, top / 2),
      kind: 'stand',
    });
  }
  if (gear.board) {
    const { lengthMm, widthMm, heightMm } = gear.board;
    make.add({
      part: 'board',
      kind: 'pedal',
      shape: rectangle(0, lengthMm / 2, widthMm, lengthMm, 0),
      z: [0, heightMm],
      floor: true,
    });
  }
  if (gear.basketMm) {
    const wide = gear.basketMm[1] / 2;
    make.add({ part: 'basket', kind: 'stand', shape: disc(0, 0, wide), z: [Math.max(0, top - BASKET_HEIGHT_MM), top] });
  }
}
