/**
 * The drummer as seated: hips, knees, feet on their pedals, shoulders, in the plan.
 *
 * The hips are over the seat's middle, the trunk is upright. A leg is two links, hip to knee and knee to ankle, and the knee lies above
 * the line from hip to ankle, in the upright plane through both: neither pressed together nor spread. Heel down, the shoe lies on its
 * board; heel up, it stands on its ball.
 *
 * Units:  mm, radians; z above the deck. Sides are the drummer's own.
 * Source: lengths of links from the sizes of ANSUR II as said at each; where a share of them is from memory or common practice, it says so.
 * Null:   a setup without a throne has nobody seated.
 */
import { heightMmIn } from '../gear/kinds.ts';
import type { GearOf } from '../gear/schema.ts';
import { type Motion, movePoint } from '../geometry/frame.ts';
import { roundedPolygon, type Swept } from '../geometry/shapes.ts';
import type { Point3 } from '../geometry/solids.ts';
import { keeper } from '../keep.ts';
import { itemsOfKind, type KnownItem, knownItems } from '../plan/items.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { toRadians } from '../units.ts';
import { type Side, type Sitter, type Sizes, sitterOf } from './sizes.ts';
import { feetOf, motionOf, type Station } from './stations.ts';

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
  /** From the sole to the ankle: heel down, and up. */
  readonly z: readonly [number, number];
  readonly zUp: readonly [number, number];
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

/** The knee above the straight line from hip to ankle, in the upright plane through both. */
function legPose(hip: Point3, ankle: Point3, { thigh, shank }: Links): LegPose {
  const [dx, dy, dz] = [ankle[0] - hip[0], ankle[1] - hip[1], ankle[2] - hip[2]];
  const flat = Math.hypot(dx, dy);
  const far = Math.max(1, Math.hypot(flat, dz));
  const missingMm = Math.max(0, far - thigh - shank);
  // A foot that is too near for the links bends the knee as far as it goes.
  const reach = Math.min(thigh + shank, Math.max(Math.abs(thigh - shank) + 1, far));
  const along = (thigh ** 2 - shank ** 2 + reach ** 2) / (2 * reach);
  const above = Math.sqrt(Math.max(0, thigh ** 2 - along ** 2));
  const [ux, uy, uz] = [dx / far, dy / far, dz / far];
  // At right angles to the line, in the upright plane, upwards: (-uz) forward and flat / far up.
  const [fx, fy] = flat > 0 ? [dx / flat, dy / flat] : [0, 0];
  const knee: Point3 = [
    hip[0] + along * ux - above * uz * fx,
    hip[1] + along * uy - above * uz * fy,
    hip[2] + along * uz + (above * flat) / far,
  ];
  const cos = (thigh ** 2 + shank ** 2 - reach ** 2) / (2 * thigh * shank);
  return { knee, ankle, kneeRad: Math.acos(Math.max(-1, Math.min(1, cos))), missingMm };
}

/** A shoe on a board, or on the deck: `at` is the frame, its toe's tip at y = `tip`. */
function shoeAt(at: Motion, tip: number, floor: number, links: Links): Shoe {
  const { shoeLength, shoeRadius: r, sole, ankleUp } = links;
  const long = Math.max(1, shoeLength - 2 * r);
  const heelY = tip + shoeLength - r;
  const [side, y] = [long * Math.sin(SWING_RAD), heelY - long * Math.cos(SWING_RAD)];
  const heel = movePoint(at, 0, heelY);
  const top = floor + sole + ankleUp;
  return {
    heel,
    toe: movePoint(at, 0, tip + r),
    radius: r,
    swung: roundedPolygon([...heel, ...movePoint(at, -side, y), ...movePoint(at, side, y)], r),
    z: [floor, top],
    zUp: [floor, top + HEEL_UP_MM],
  };
}

function legOn(side: Side, hip: Point3, station: Station | null, throne: Motion, links: Links): Leg {
  const { shoeLength, ankleAlong, ankleUp, sole, thigh, forward } = links;
  const floor = station ? ON_BOARD_MM : 0;
  const out = side === 'left' ? 1 : -1;
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
    down: legPose(hip, ankle(0), links),
    up: legPose(hip, ankle(HEEL_UP_MM), links),
    shoe: shoeAt(at, tip, floor, links),
  };
}

function seated(plan: Plan, setup: Setup, sitter: Sitter, { item, gear }: KnownItem<GearOf<'throne'>>): Figure {
  const { sizes, handed } = sitter;
  const throne = motionOf(item.place);
  const height = heightMmIn(item.place, gear) ?? 0;
  const radiiMm = radiiOf(sizes);
  const links = linksOf(sizes);
  const sides = <T>(make: (side: Side, out: number) => T) => ({ left: make('left', 1), right: make('right', -1) });
  const point = (x: number, z: number): Point3 => [...movePoint(throne, x, 0), height + z];
  const hips = sides((_, out) => point((out * sizes.hipMm) / 4, radiiMm.hip));
  const feet = feetOf(plan, setup, throne, handed);
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
      (feet[side].length > 0 ? feet[side] : [null]).map((station) => legOn(side, hips[side], station, throne, links)),
    ),
    radiiMm,
  };
}

/** By the throne; from all else that the figure is made of. */
const keepFigure = keeper<Figure>();

/** The drummer of a setup, seated; null where there is no throne. */
export function figureOf(plan: Plan, setup: Setup): Figure | null {
  const throne = itemsOfKind(plan, setup, 'throne')[0];
  if (!throne) return null;
  const sitter = sitterOf(plan, setup);
  const boards = knownItems(plan, setup).flatMap(({ item, gear }) =>
    gear.kind === 'pedal' || (gear.kind === 'stand' && gear.board) ? [item] : [],
  );
  const { drummer, sizes, handed } = sitter;
  return keepFigure(throne.item, [plan.gear, boards, drummer, sizes, handed], () =>
    seated(plan, setup, sitter, throne),
  );
}
