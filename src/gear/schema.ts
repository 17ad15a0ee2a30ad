/**
 * What a gear entry says. Sizes in mm, masses in kg, angles in degrees (this is the data file's own image).
 *
 * Every entry is a typical size unless its field names stand in `measured`. A mass that nobody knows is null and
 * stays `unmeasured`; a tube's mass is computed from its section and has no field. Objects are loose: fields of a
 * newer version are kept.
 *
 * The least and the greatest of a size are those of things that exist, with room to spare: what is beyond them was typed in another
 * unit, or by mistake. Common practice, no source.
 */
import * as z from 'zod/mini';
import {
  bendRadius,
  between,
  footLength,
  list,
  moduleSide,
  some,
  text,
  tubeLength,
  upTo,
  whole,
  word,
} from './fieldSchemas.ts';

const range = (min: number, max: number) =>
  z
    .tuple([between(min, max), between(min, max)])
    .check(
      z.refine(([low, high]) => low <= high, { message: 'the first number of a range must not be above the second' }),
    );

const common = {
  id: word(80),
  name: word(120),
  massKg: z.nullable(upTo(500)),
  /** Names of the fields that somebody measured; all others are typical. */
  measured: z.optional(list(text(40), 40)),
  note: z.optional(text(500)),
};

/** Lies on its side: the plan body is a rectangle depth x diameter. Stands on its batter hoop and two spurs. `hoopMm`: how far a hoop stands out beyond the shell, all round. */
const bassDrum = z.looseObject({
  kind: z.literal('bassDrum'),
  ...common,
  diameterMm: between(250, 1050),
  depthMm: between(100, 1000),
  hoopMm: upTo(60),
});

/**
 * `legs`: the drum's own three floor legs; a drum on a mount leaves them off. `heightMm`: heights of the head that they can be set to.
 * `massKg`: what of the drum's mass all of them are; left out, nobody weighed them, and a mounted drum counts as if it kept them.
 * `hoopMm`: as for a bass drum.
 */
const drum = z.looseObject({
  kind: z.literal('drum'),
  ...common,
  use: z.enum(['snare', 'rackTom', 'floorTom']),
  diameterMm: between(100, 800),
  depthMm: between(30, 800),
  hoopMm: upTo(40),
  playHeightMm: between(100, 2000),
  legs: z.optional(
    z.looseObject({
      count: whole(3, 4),
      circleMm: between(100, 1000),
      heightMm: z.optional(range(50, 2000)),
      massKg: z.optional(upTo(20)),
    }),
  ),
});

const cymbal = z.looseObject({
  kind: z.literal('cymbal'),
  ...common,
  use: z.enum(['hiHat', 'crash', 'ride', 'splash', 'china', 'stack']),
  diameterMm: between(100, 800),
  /** Height from edge plane to the top of the bell, as used: a hi-hat pair counts both. */
  profileMm: between(3, 200),
  playHeightMm: between(100, 2500),
});

/** The board's toe points along the piece's forward direction. `shaft`: the drive shaft to a second pedal. */
const pedal = z.looseObject({
  kind: z.literal('pedal'),
  ...common,
  use: z.enum(['single', 'double']),
  boardLengthMm: between(100, 600),
  boardWidthMm: between(40, 300),
  plateWidthMm: between(40, 400),
  heightMm: between(50, 600),
  shaft: z.optional(
    z.looseObject({ lengthMm: range(50, 2000), diameterMm: between(5, 60), heightMm: between(30, 300) }),
  ),
});

const throne = z.looseObject({
  kind: z.literal('throne'),
  ...common,
  seat: z.enum(['round', 'saddle']),
  widthMm: between(200, 800),
  depthMm: between(200, 800),
  baseRadiusMm: between(100, 800),
  heightMm: range(200, 1000),
});

/** `base`: how it meets the floor. Legless stands have form 'none' or 'foot' and are tied to a rack by links. */
const base = z.looseObject({
  form: z.enum(['tripod', 'twoLeg', 'foot', 'none']),
  radiusMm: upTo(1000),
  legDiameterMm: between(5, 100),
});

const stand = z.looseObject({
  kind: z.literal('stand'),
  ...common,
  use: z.enum(['cymbal', 'boom', 'snare', 'hiHat', 'tom']),
  base,
  tubeDiameterMm: between(8, 100),
  heightMm: range(50, 2500),
  /** A hi-hat stand's own footboard, its toe at the tube. */
  board: z.optional(
    z.looseObject({ lengthMm: between(100, 600), widthMm: between(40, 300), heightMm: between(10, 300) }),
  ),
  /** From a boom stand's tilter to the cymbal, or a tom stand's own arms; a snare stand's basket has `basketMm`. */
  armMm: z.optional(range(0, 2000)),
  /** A boom's tilt above level. */
  tiltDeg: z.optional(range(-90, 90)),
  /** The whole length of a boom's rod: what is not arm stands out behind the tilter. Left out: nothing does. */
  rodMm: z.optional(between(50, 2500)),
  rodTubeMm: z.optional(between(4, 60)),
  /** What of the stand's mass is its boom. Left out: the mass is taken to be in the tube. */
  boomMassKg: z.optional(upTo(50)),
  /** How many arms for toms it has, and the tilt that their ball joints make. */
  arms: z.optional(whole(1, 4)),
  ballTiltDeg: z.optional(range(0, 90)),
  basketMm: z.optional(range(100, 500)),
});

const material = z.enum(['steel', 'aluminium', 'stainless']);

/** Mass follows from the section. `bendRadiusMm` (of the centre line) makes it a curved tube with two straight ends. */
const tube = z.looseObject({
  kind: z.literal('tube'),
  ...common,
  use: z.enum(['bar', 'upright']),
  outsideMm: between(10, 120),
  wallMm: between(0.5, 20),
  material,
  cutLengthMm: tubeLength,
  bendRadiusMm: z.optional(bendRadius),
  straightEndsMm: z.optional(upTo(3000)),
});

const foot = z.looseObject({
  kind: z.literal('foot'),
  ...common,
  lengthMm: footLength,
  widthMm: between(10, 200),
  heightMm: between(5, 400),
});

/**
 * `widthMm` is the room taken along the tube; `reachMm` from the tube's axis to the socket's axis. `gripNm`: the moment about its tube
 * that it holds before it turns, as its maker states or someone measured; left out: nobody says.
 */
const clamp = z.looseObject({
  kind: z.literal('clamp'),
  ...common,
  use: z.enum(['arm', 'cross', 'leg', 'swivel', 'collar']),
  widthMm: between(5, 200),
  tubeMm: range(5, 120),
  socketMm: z.optional(range(1, 80)),
  reachMm: upTo(200),
  gripNm: z.optional(upTo(1000)),
});

/** Post straight up from the clamp, then a tilting arm. The piece sits at the arm's end. `rodMm`: as for a boom stand. */
const boom = z.looseObject({
  kind: z.literal('boom'),
  ...common,
  tubeMm: between(4, 60),
  postMm: range(0, 1500),
  armMm: range(0, 1500),
  tiltDeg: range(-90, 90),
  rodMm: z.optional(between(50, 2500)),
  sockets: z.optional(whole(0, 4)),
  /** Diameters that these take. */
  socketMm: z.optional(range(1, 80)),
});

/** Post up, a level arm out, then a ball joint carrying the drum. */
const lArm = z.looseObject({
  kind: z.literal('lArm'),
  ...common,
  tubeMm: between(4, 60),
  postMm: range(0, 800),
  armMm: range(0, 800),
  ballTiltDeg: range(0, 90),
  sockets: z.optional(whole(0, 4)),
  /** Diameters that these take. */
  socketMm: z.optional(range(1, 80)),
});

/** A head on one clamp with sockets for several arms; the last ones may point to the rear. `name`: which socket it is, as its player sees it: "left". `takesMm`: diameters that it takes. */
const platform = z.looseObject({
  kind: z.literal('platform'),
  ...common,
  postMm: range(0, 800),
  sockets: some(
    z.looseObject({
      name: z.optional(word(40)),
      xMm: between(-500, 500),
      yMm: between(-500, 500),
      use: z.enum(['tom', 'rear']),
      takesMm: z.optional(range(1, 80)),
    }),
    6,
  ),
});

/**
 * Ties a legless stand to a rack, clamp to clamp. A bent link rises to `passHeightMm` above the deck between its ends (0: a straight
 * link): level for `endMm` from each end, then over `riserMm`, both as seen in plan. Left out: typical ones.
 */
const link = z.looseObject({
  kind: z.literal('link'),
  ...common,
  tubeMm: between(4, 60),
  lengthMm: range(0, 2000),
  passHeightMm: upTo(600),
  endMm: z.optional(upTo(1000)),
  riserMm: z.optional(upTo(1000)),
});

const deck = z.looseObject({
  kind: z.literal('deck'),
  ...common,
  widthMm: moduleSide,
  depthMm: moduleSide,
  heightsMm: some(upTo(3000), 20),
  ratedKPa: z.nullable(between(0.1, 100)),
});

/**
 * `poleMm`: the tube on a base `baseMm` high; left out, it is as wide as it is all the way up. `heldAtMm`: clipped to something, not
 * standing on the deck: the height of its lower end where the plan does not say.
 */
const stageItem = z.looseObject({
  kind: z.literal('stageItem'),
  ...common,
  use: z.enum(['amplifier', 'wedge', 'microphone', 'di', 'power', 'keyboard', 'person']),
  shape: z.enum(['box', 'round']),
  widthMm: between(10, 5000),
  depthMm: between(10, 5000),
  heightMm: between(10, 3000),
  baseMm: z.optional(between(1, 3000)),
  poleMm: z.optional(between(5, 300)),
  heldAtMm: z.optional(upTo(3000)),
});

export const gearSchema = z.discriminatedUnion('kind', [
  bassDrum,
  drum,
  cymbal,
  pedal,
  throne,
  stand,
  tube,
  foot,
  clamp,
  boom,
  lArm,
  platform,
  link,
  deck,
  stageItem,
]);

export type Gear = z.infer<typeof gearSchema>;
export type GearKind = Gear['kind'];
export type GearOf<K extends GearKind> = Extract<Gear, { kind: K }>;
