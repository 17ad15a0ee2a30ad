/** Drums and cymbals as bodies. Sizes the catalogue does not carry are typical (common practice, no source). */

import { KINDS } from '../gear/kinds.ts';
import type { GearOf } from '../gear/schema.ts';
import { DRUM_USES } from '../gear/uses.ts';
import { capsule, disc, rectangle } from '../geometry/shapes.ts';
import { type Discs, drumSolid, type Point3 } from '../geometry/solids.ts';
import type { Item } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import type { Maker } from './maker.ts';

const LEG_ROD_RADIUS_MM = 6;
const LEG_TIP_RADIUS_MM = 12;
const LEG_TIP_HEIGHT_MM = 25;
/** Spurs of a bass drum splay beyond the shell and lean to the front. */
const SPUR_SPLAY_MM = 90;
const SPUR_FORWARD_MM = 60;
const SPUR_FROM_FRONT_MM = 130;
const SPUR_RADIUS_MM = 8;
/** The batter hoop rests on the deck along a short stretch of its lowest part. */
const HOOP_CONTACT_MM = 60;
const HOOP_WIDTH_MM = 38;

/**
 * A lying cylinder as slabs, in parts of its radius: from height, to height, half width. Each holds its slice of the cylinder,
 * sqrt(1 - (1 - h)^2) wide at height h, so that a rack's foot may reach under the curve and no true overlap is missed.
 */
const BASS_SLABS: readonly (readonly [string, number, number, number])[] = [
  ['shell', 0.5, 1.5, 1],
  ['belly', 0.2, 0.5, Math.sqrt(1 - 0.5 ** 2)],
  ['keel', 0, 0.2, Math.sqrt(1 - 0.8 ** 2)],
  ['shoulder', 1.5, 1.8, Math.sqrt(1 - 0.5 ** 2)],
  ['crown', 1.8, 2, Math.sqrt(1 - 0.8 ** 2)],
];

/** At right angles to a head or an edge, leaning to the piece's back. */
const normalOf = (tiltRad: number): Point3 => [0, Math.sin(tiltRad), Math.cos(tiltRad)];

/**
 * A drum: its top centre is the anchor. Tilted, its outline is the segment from its top centre to its bottom centre swept by its
 * radius, which bounds the true one from outside; the height interval is exact, and so is the cylinder in space.
 */
export function drumBodies(make: Maker, gear: GearOf<'drum'>, item: Item, massKg: number | null): void {
  const height = item.place.heightMm ?? KINDS.drum.placed.ownHeightMm(gear);
  const tilt = toRadians(item.place.tiltDeg ?? 0);
  const radius = gear.diameterMm / 2 + gear.hoopMm;
  const sin = Math.sin(tilt);
  const cos = Math.cos(tilt);
  // The head's normal leans to the back, so the bottom goes to the front.
  const bottomY = -gear.depthMm * sin;
  const bottomZ = height - gear.depthMm * cos;
  const rim = radius * Math.abs(sin);
  const kind = DRUM_USES[gear.use].body;
  make.add({
    part: 'shell',
    kind,
    shape: capsule(0, 0, 0, bottomY, radius),
    z: [Math.max(0, Math.min(height, bottomZ) - rim), Math.max(height, bottomZ) + rim],
    solid: tilt === 0 ? undefined : drumSolid([0, 0, height], normalOf(tilt), radius, gear.depthMm),
    massKg,
    centre: [0, bottomY / 2, (height + bottomZ) / 2],
  });
  if (item.mount !== null || !gear.legs) return;
  const circle = gear.legs.circleMm / 2;
  for (let k = 0; k < gear.legs.count; k++) {
    const angle = toRadians(item.legsTurnDeg ?? 0) - Math.PI / 2 + (k * 2 * Math.PI) / gear.legs.count;
    const x = circle * Math.cos(angle);
    const y = circle * Math.sin(angle);
    const top = Math.max(LEG_TIP_HEIGHT_MM, height - gear.depthMm / 2);
    make.add({
      part: `tip${k + 1}`,
      kind: 'spur',
      shape: disc(x, y, LEG_TIP_RADIUS_MM),
      z: [0, LEG_TIP_HEIGHT_MM],
      floor: true,
    });
    make.add({ part: `rod${k + 1}`, kind: 'spur', shape: disc(x, y, LEG_ROD_RADIUS_MM), z: [0, top] });
  }
}

/** A bass drum lies along its own y, batter head to the back; it rests on its batter hoop and the tips of two spurs. */
export function bassDrumBodies(make: Maker, gear: GearOf<'bassDrum'>, massKg: number | null): void {
  const radius = gear.diameterMm / 2 + gear.hoopMm;
  for (const [part, from, to, halfWidth] of BASS_SLABS) {
    const whole = part === 'shell';
    make.add({
      part,
      kind: 'bassDrum',
      shape: rectangle(0, 0, 2 * radius * halfWidth, gear.depthMm, 0),
      z: [from * radius, to * radius],
      solid: {
        kind: 'lying',
        middle: [0, 0, radius],
        angle: Math.PI / 2,
        halfLength: gear.depthMm / 2,
        radius,
        z0: from * radius,
        z1: to * radius,
      },
      massKg: whole ? massKg : 0,
      centre: whole ? [0, 0, radius] : undefined,
    });
  }
  const back = gear.depthMm / 2 - HOOP_WIDTH_MM / 2;
  make.add({
    part: 'hoop',
    kind: 'bassDrum',
    shape: capsule(-HOOP_CONTACT_MM, back, HOOP_CONTACT_MM, back, HOOP_WIDTH_MM / 2),
    z: [0, HOOP_WIDTH_MM],
    floor: true,
  });
  for (const [name, side] of [
    ['right', -1],
    ['left', 1],
  ] as const) {
    const rootY = -gear.depthMm / 2 + SPUR_FROM_FRONT_MM;
    const x = side * (radius + SPUR_SPLAY_MM);
    const y = rootY - SPUR_FORWARD_MM;
    make.add({
      part: `${name}-tip`,
      kind: 'spur',
      shape: disc(x, y, LEG_TIP_RADIUS_MM),
      z: [0, LEG_TIP_HEIGHT_MM],
      floor: true,
    });
    const rootX = side * radius * 0.9;
    make.add({
      part: `${name}-spur`,
      kind: 'spur',
      shape: capsule(rootX, rootY, x, y, SPUR_RADIUS_MM),
      z: [0, radius],
      solid: {
        kind: 'rod',
        a: [rootX, rootY, radius - SPUR_RADIUS_MM],
        b: [x, y, SPUR_RADIUS_MM],
        radius: SPUR_RADIUS_MM,
      },
    });
  }
}

/** Bell's diameter over the cymbal's: about a fifth to a quarter (common practice, no source). */
export const BELL_RATIO = 0.22;

/** The disc within a cymbal's edge, and all between it and its bell as high as the profile: the bow lies within that. */
function cymbalSolid(height: number, tilt: number, radius: number, profile: number): Discs {
  const normal = normalOf(tilt);
  const a: Point3 = [0, 0, height];
  const b: Point3 = [0, profile * normal[1], height + profile * normal[2]];
  return { kind: 'discs', normal, a, radiusA: radius, b, radiusB: radius * BELL_RATIO };
}

/** A cymbal: the centre of its edge plane is the anchor. A level disc of its radius bounds the tilted one's outline from outside. */
export function cymbalBodies(make: Maker, gear: GearOf<'cymbal'>, item: Item, massKg: number | null): void {
  const height = item.place.heightMm ?? KINDS.cymbal.placed.ownHeightMm(gear);
  const tilt = toRadians(item.place.tiltDeg ?? 0);
  const radius = gear.diameterMm / 2;
  const rim = radius * Math.abs(Math.sin(tilt));
  const bell = gear.profileMm * Math.cos(tilt) + rim * BELL_RATIO;
  make.add({
    part: 'cymbal',
    kind: 'cymbal',
    shape: disc(0, 0, radius),
    z: [Math.max(0, height - rim), Math.max(height + rim, height + bell)],
    solid: cymbalSolid(height, tilt, radius, gear.profileMm),
    massKg,
    centre: [0, 0, height + (gear.profileMm / 3) * Math.cos(tilt)],
  });
}
