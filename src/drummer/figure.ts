/**
 * The drummer as seated: hips, knees, feet on their pedals, shoulders, in the plan.
 *
 * The hips are over the seat's middle, the trunk is upright. A leg is two links, hip to knee and knee to ankle, and the knee lies above
 * the line from hip to ankle, in the upright plane through both, opened outwards as far as a snare between the knees asks for. Heel
 * down, the shoe lies on its board; heel up, it stands on its ball.
 *
 * Units:  mm, radians; z above the deck. Sides are the drummer's own.
 * Source: lengths of links from the sizes of ANSUR II as said at each; where a share of them is from memory or common practice, it says so.
 * Null:   a setup without a throne has nobody seated.
 */
import { gearOf } from '../gear/catalogue.ts';
import { heightMmIn } from '../gear/kinds.ts';
import type { Gear, GearOf } from '../gear/schema.ts';
import { type Cylinder, lineToCylinder } from '../geometry/cylinder.ts';
import { type Motion, movePoint } from '../geometry/frame.ts';
import { roundedPolygon, type Swept } from '../geometry/shapes.ts';
import type { Point3 } from '../geometry/solids.ts';
import { keeper } from '../keep.ts';
import { headNormal } from '../plan/items.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { type Side, type Sitter, type Sizes, sitterOf } from './sizes.ts';
import { feetOf, motionOf, otherSide, type Station } from './stations.ts';

/** A leg with its heel down or up. */
export interface LegPose {
  readonly knee: Point3;
  readonly ankle: Point3;
  /** Between thigh and lower leg; pi: straight. */
  readonly kneeRad: number;
  /** How far the foot is beyond a straight leg; 0: it is within reach. */
  readonly missingMm: number;
}

/** A shoe seen from above, from the middle of its round heel to the middle of its round toe. */
export interface Shoe {
  readonly heel: readonly [number, number];
  readonly toe: readonly [number, number];
  readonly radius: number;
  /** All that it covers, its toe swung to either side about the heel. */
  readonly swung: Swept;
  /** From under the sole to the ankle, heel down. */
  readonly z: readonly [number, number];
}

/** A leg on one of its pedals; `works` null: the foot has none, and rests on the deck. */
export interface Leg {
  readonly side: Side;
  readonly works: Pick<Station, 'piece' | 'board'> | null;
  readonly hip: Point3;
  readonly down: LegPose;
  readonly up: LegPose;
  readonly shoe: Shoe;
}

export interface Figure {
  readonly sitter: Sitter;
  /** The throne's piece. */
  readonly throne: string;
  /** The seat's middle, and which way the drummer faces: a heading, 0 towards the audience. */
  readonly seat: Point3;
  readonly facingRad: number;
  readonly hips: Readonly<Record<Side, Point3>>;
  readonly shoulders: Readonly<Record<Side, Point3>>;
  /** The middle of the head, and the radius of a ball about it. */
  readonly head: Point3;
  readonly headRadiusMm: number;
  /** Every leg on every pedal that it works, the drummer's left one first. */
  readonly legs: readonly Leg[];
  /** Radii: of the thigh at the hip, of the leg at the knee and at the ankle. */
  readonly radiiMm: Readonly<Record<'hip' | 'knee' | 'ankle', number>>;
}

/**
 * From hip to knee as a part of the buttock-knee length: Drillis and Contini's 0.245 of the stature, which it meets to 17 mm for the
 * percentiles of the tables (the 0.245 is from memory).
 */
export const THIGH_OF_BUTTOCK_KNEE = 0.685;
/** The ankle's height as a part of the foot's length: 0.039 of the stature over 0.152 (Drillis and Contini, from memory). */
const ANKLE_UP_OF_FOOT = 0.257;
/** How far in front of the heel the ankle is, as a part of the foot's length. From memory. */
const ANKLE_ALONG_FOOT = 0.25;
/** And the ball: the middle of men in ANSUR II, 201 of 271. */
const BALL_ALONG_FOOT = 0.74;
/** How far a heel is lifted, and its toe swung to either side. Common practice, no source. */
const HEEL_UP_MM = 70;
const SWING_RAD = toRadians(6);
/** Of the foot's breadth, with a sock and a trouser leg. From memory. */
const ANKLE_OF_BREADTH = 0.42;
/** A sole on a board is this far above the deck. Common practice, no source. */
const ON_BOARD_MM = 12;
/** A foot without a pedal: out from the hip. Common practice, no source. */
const REST_OUT_MM = 70;
/** The breadth of a head, ANSUR II, middle of men 154 (from memory): a ball for the picture, never measured. */
const HEAD_RADIUS_MM = 95;

const LEAST_MM = 30;

interface Links {
  readonly thigh: number;
  readonly shank: number;
  /** The ankle above the sole's upper side, and in front of the shoe's heel. */
  readonly ankleUp: number;
  readonly ankleAlong: number;
  readonly sole: number;
  readonly shoeLength: number;
  readonly shoeRadius: number;
  /** How much nearer to the ball the ankle comes when the heel is up. */
  readonly forward: number;
}

function radiiOf({ hipMm, thighMm, kneeMm, poplitealMm, footBreadthMm }: Sizes): Figure['radiiMm'] {
  return {
    // Two thighs side by side are as broad as the hips, and as high as the thigh clearance.
    hip: Math.min(thighMm / 2, hipMm / 4),
    knee: Math.max(LEAST_MM, (kneeMm - poplitealMm) / 2),
    ankle: footBreadthMm * ANKLE_OF_BREADTH,
  };
}

function linksOf({ buttockKneeMm, kneeMm, poplitealMm, footMm, footBreadthMm, shoeMm }: Sizes): Links {
  const ankleUp = footMm * ANKLE_UP_OF_FOOT;
  const toBall = footMm * (BALL_ALONG_FOOT - ANKLE_ALONG_FOOT);
  return {
    thigh: buttockKneeMm * THIGH_OF_BUTTOCK_KNEE,
    // The knee's joint is half-way between its top and the hollow behind it.
    shank: Math.max(2 * LEAST_MM, (kneeMm + poplitealMm) / 2 - ankleUp),
    ankleUp,
    ankleAlong: footMm * ANKLE_ALONG_FOOT + shoeMm / 2,
    sole: shoeMm,
    shoeLength: footMm + shoeMm,
    shoeRadius: (footBreadthMm + shoeMm / 2) / 2,
    forward: toBall - Math.sqrt(Math.max(0, toBall ** 2 - HEEL_UP_MM ** 2)),
  };
}

/** How far knees open: by as little as leaves the snare this much room, and no farther than that. Common practice, no source. */
const FROM_SNARE_MM = 20;
const OPEN_STEP_RAD = toRadians(2);
const OPEN_MOST_RAD = toRadians(30);

/** The snare, which lies between the knees. */
function cylinderOf(item: Item, gear: GearOf<'drum'>): Cylinder {
  const { xMm, yMm } = item.place;
  const axis = headNormal(item);
  const half = gear.depthMm / 2;
  const middle = [
    xMm - half * axis[0],
    yMm - half * axis[1],
    (heightMmIn(item.place, gear) ?? 0) - half * axis[2],
  ] as const;
  return { middle, axis, radius: gear.diameterMm / 2 + gear.hoopMm, half };
}

/** What a leg is made with beside its links: which way is out, from 0 to 1 the page's x and y, and what its knee opens for. */
interface Opening {
  readonly out: readonly [number, number];
  readonly snare: Cylinder | null;
  readonly kneeRadius: number;
}

/** The knee above the straight line from hip to ankle, opened outwards for the snare. */
function legPose(hip: Point3, ankle: Point3, { thigh, shank }: Links, { out, snare, kneeRadius }: Opening): LegPose {
  const [dx, dy, dz] = [ankle[0] - hip[0], ankle[1] - hip[1], ankle[2] - hip[2]];
  const flat = Math.hypot(dx, dy);
  const far = Math.max(1, Math.hypot(flat, dz));
  const missingMm = Math.max(0, far - thigh - shank);
  // A foot that is too near for the links bends the knee as far as it goes.
  const reach = Math.min(thigh + shank, Math.max(Math.abs(thigh - shank) + 1, far));
  const along = (thigh ** 2 - shank ** 2 + reach ** 2) / (2 * reach);
  const above = Math.sqrt(Math.max(0, thigh ** 2 - along ** 2));
  const [ux, uy, uz] = [dx / far, dy / far, dz / far];
  const [fx, fy] = flat > 0 ? [dx / flat, dy / flat] : [0, 0];
  const isOut = out[1] * fx - out[0] * fy >= 0 ? 1 : -1;
  const cos = (thigh ** 2 + shank ** 2 - reach ** 2) / (2 * thigh * shank);
  const kneeRad = Math.acos(Math.max(-1, Math.min(1, cos)));
  const opened = (angle: number): Point3 => {
    // Upwards at right angles to the line: (-uz) forward and flat / far up. Sideways: the level direction across the line.
    const [up, aside] = [above * Math.cos(angle), above * Math.sin(angle) * isOut];
    return [
      hip[0] + along * ux - up * uz * fx - aside * fy,
      hip[1] + along * uy - up * uz * fy + aside * fx,
      hip[2] + along * uz + (up * flat) / far,
    ];
  };
  const roomAt = (knee: Point3) =>
    snare === null
      ? Number.POSITIVE_INFINITY
      : Math.min(lineToCylinder(hip, knee, snare), lineToCylinder(knee, ankle, snare)) - kneeRadius;
  let knee = opened(0);
  let room = roomAt(knee);
  for (let angle = OPEN_STEP_RAD; room < FROM_SNARE_MM && angle <= OPEN_MOST_RAD; angle += OPEN_STEP_RAD) {
    const next = opened(angle);
    const more = roomAt(next);
    if (more > room) [knee, room] = [next, more];
  }
  return { knee, ankle, kneeRad, missingMm };
}

/** A shoe on a board, or on the deck: `at` is the frame, its toe's tip at y = `tip`. */
function shoeAt(at: Motion, tip: number, floor: number, links: Links): Shoe {
  const { shoeLength, shoeRadius: r, sole, ankleUp } = links;
  const long = Math.max(1, shoeLength - 2 * r);
  const heelY = tip + shoeLength - r;
  const [side, y] = [long * Math.sin(SWING_RAD), heelY - long * Math.cos(SWING_RAD)];
  const heel = movePoint(at, 0, heelY);
  return {
    heel,
    toe: movePoint(at, 0, tip + r),
    radius: r,
    swung: roundedPolygon([...heel, ...movePoint(at, -side, y), ...movePoint(at, side, y)], r),
    z: [floor, floor + sole + ankleUp],
  };
}

function legOn(
  side: Side,
  hip: Point3,
  station: Station | null,
  throne: Motion,
  links: Links,
  seat: Omit<Opening, 'out'>,
): Leg {
  const { shoeLength, ankleAlong, ankleUp, sole, thigh, forward } = links;
  const floor = station ? ON_BOARD_MM : 0;
  const out = side === 'left' ? 1 : -1;
  const opening = { ...seat, out: [out * Math.cos(throne.angle), out * Math.sin(throne.angle)] as const };
  const rest = (): [Motion, number] => {
    const [x, y] = movePoint({ ...throne, dx: hip[0], dy: hip[1] }, out * REST_OUT_MM, ankleAlong - shoeLength - thigh);
    return [{ angle: throne.angle, dx: x, dy: y }, 0];
  };
  const [at, tip] = station ? [station.at, Math.max(station.front, station.back - shoeLength)] : rest();
  const ankleY = tip + shoeLength - ankleAlong;
  const ankle = (lift: number): Point3 => [
    ...movePoint(at, 0, ankleY - (lift > 0 ? forward : 0)),
    floor + sole + ankleUp + lift,
  ];
  return {
    side,
    works: station && { piece: station.piece, board: station.board },
    hip,
    down: legPose(hip, ankle(0), links, opening),
    up: legPose(hip, ankle(HEEL_UP_MM), links, opening),
    shoe: shoeAt(at, tip, floor, links),
  };
}

function seated(plan: Plan, sitter: Sitter, item: Item, boards: readonly Item[], snare: Item | undefined): Figure {
  const gear = gearOf(plan.gear, item.gear);
  const drum = snare && gearOf(plan.gear, snare.gear);
  const { sizes, handed } = sitter;
  const throne = motionOf(item.place);
  const height = heightMmIn(item.place, gear) ?? 0;
  const radiiMm = radiiOf(sizes);
  const links = linksOf(sizes);
  const sides = <T>(make: (side: Side, out: number) => T) => ({ left: make('left', 1), right: make('right', -1) });
  const point = (x: number, z: number): Point3 => [...movePoint(throne, x, 0), height + z];
  const hips = sides((_, out) => point((out * sizes.hipMm) / 4, radiiMm.hip));
  const feet = feetOf(plan, boards, throne, handed);
  const opening = {
    snare: snare && drum?.kind === 'drum' ? cylinderOf(snare, drum) : null,
    kneeRadius: radiiMm.knee,
  };
  return {
    sitter,
    throne: item.id,
    seat: point(0, 0),
    facingRad: throne.angle,
    hips,
    shoulders: sides((_, out) => point((out * sizes.shouldersMm) / 2, sizes.shoulderMm)),
    head: point(0, sizes.sittingMm - HEAD_RADIUS_MM),
    headRadiusMm: HEAD_RADIUS_MM,
    legs: (['left', 'right'] as const).flatMap((side) =>
      (feet[side].length > 0 ? feet[side] : [null]).map((station) =>
        legOn(side, hips[side], station, throne, links, opening),
      ),
    ),
    radiiMm,
  };
}

type Role = 'throne' | 'board' | 'snare';

const keepRole = keeper<Role | null>();

/** What a piece is to a seated drummer. */
function roleOf(gear: Gear | undefined): Role | null {
  if (gear?.kind === 'throne') return 'throne';
  if (gear?.kind === 'drum' && gear.use === 'snare') return 'snare';
  return gear?.kind === 'pedal' || (gear?.kind === 'stand' && gear.board) ? 'board' : null;
}

/** By the throne; from all else that the figure is made of. */
const keepFigure = keeper<Figure>();

/** The drummer of a setup, seated; null where there is no throne. Asked in every frame. */
export function figureOf(plan: Plan, setup: Setup): Figure | null {
  let throne: Item | undefined;
  let snare: Item | undefined;
  const boards: Item[] = [];
  for (const id of setup.order) {
    const piece = setup.pieces[id];
    if (piece?.kind !== 'item') continue;
    const role = keepRole(piece, [plan.gear], () => roleOf(gearOf(plan.gear, piece.gear)));
    if (role === 'throne') throne ??= piece;
    else if (role === 'snare') snare ??= piece;
    else if (role === 'board') boards.push(piece);
  }
  if (!throne) return null;
  const sitter = sitterOf(plan, setup);
  const { drummer, sizes, handed } = sitter;
  return keepFigure(throne, [plan.gear, boards, snare, drummer, sizes, handed], () =>
    seated(plan, sitter, throne, boards, snare),
  );
}

/** The hand that leads: as the drummer says, else as the kit is set; null where neither does. */
export function leadingHand({ sitter, legs }: Figure): Side | null {
  if (sitter.handed) return sitter.handed;
  const hat = legs.find(({ works }) => works?.board === 'hiHat');
  if (hat) return otherSide(hat.side);
  return legs.find(({ works }) => works !== null)?.side ?? null;
}
