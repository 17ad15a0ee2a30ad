/**
 * The plan document: what a `*.legroom.json` file holds, and what the program holds in memory.
 *
 * Lengths in mm, angles in degrees counter-clockwise as seen on the page: the document is kept as it was written, so
 * that opening and saving gives the same bytes; layout turns degrees into radians at its door. Heading 0 faces the
 * audience: a piece's own x runs to the page's right, its own y upstage. Objects are loose, so that fields of a newer
 * minor version are kept. Cross-references (a bar's tube, a mount's rack) are checked in rules.ts, not here.
 */
import { z } from 'zod';
import { gearSchema } from '../gear/schema.ts';

export const PLAN_FORMAT = 'legroom';
export const PLAN_VERSION = 1;

/** Limits of a plan, stated in the README's file section and checked when a file is read. */
export const LIMITS = {
  bytes: 4_000_000,
  /** Objects and lists within one another, counted from the plan itself. */
  nesting: 40,
  setups: 40,
  pieces: 1000,
  risers: 40,
  modules: 100,
  stages: 40,
  /** Corners of a stage's or a wing's outline, and points of a cable run. */
  corners: 60,
  wings: 12,
  inputs: 200,
  mixes: 40,
  cables: 100,
  venueLines: 40,
  legs: 12,
  barsPerSpan: 6,
  ties: 6,
  gear: 1000,
};

const mm = z.number().min(-50_000).max(50_000);
const length = z.number().positive().max(20_000);
const degrees = z.number().min(-3600).max(3600);
/** Ids are keys of records; three words would reach behind a JavaScript object, so no id is one of them. */
const id = z
  .string()
  .min(1)
  .max(80)
  .regex(/^(?!(?:__proto__|constructor|prototype)$)/);
const label = z.string().max(120);
const text = z.string().max(4000);

/**
 * Where a piece is. x, y: its anchor (a drum's top centre, a cymbal's or throne's centre, a pedal's or box's middle, a
 * stand's tube, a rack's first leg). heightMm: the playing height above the deck (a drum's top, a cymbal's edge plane,
 * a throne's seat); left out, the gear's own. tiltDeg lowers the piece's back edge, the one upstage at heading 0.
 */
const place = z.looseObject({
  xMm: mm,
  yMm: mm,
  headingDeg: degrees,
  heightMm: z.number().min(0).max(5000).optional(),
  tiltDeg: z.number().min(-90).max(90).optional(),
});

/** A point on something that can carry a clamp. */
const carrier = z.discriminatedUnion('on', [
  /** On a rack's bar, atMm along its centre line from the tube's own start. */
  z.looseObject({ on: z.literal('bar'), rack: id, bar: id, atMm: z.number().min(0).max(20_000) }),
  /** On a rack's upright, at a height above the deck. */
  z.looseObject({ on: z.literal('leg'), rack: id, leg: id, heightMm: z.number().min(0).max(5000) }),
  /** In a socket of the arm or platform that holds another piece; sockets count from 0. */
  z.looseObject({ on: z.literal('socket'), piece: id, socket: z.int().min(0).max(20) }),
  /** On top of a stand, or on a bass drum. */
  z.looseObject({ on: z.literal('piece'), piece: id }),
]);

/** How a piece is held. Null in the plan: it stands on the deck by itself. */
const mount = z.looseObject({
  carrier,
  /** Gear ids. A stand or a bass drum may hold without either. */
  clamp: id.nullable(),
  arm: id.nullable(),
  /** Where `arm` is a platform: the arm in the platform's own socket that takes hold of the piece. */
  platformArm: id.nullable().optional(),
});

/** Ties a legless stand to a rack: clamp to clamp. */
const tie = z.looseObject({ carrier, link: id, clamp: id.nullable(), heightMm: z.number().min(0).max(5000) });

const item = z.looseObject({
  kind: z.literal('item'),
  id,
  name: label,
  gear: id,
  place,
  mount: mount.nullable(),
  ties: z.array(tie).max(LIMITS.ties).optional(),
  /** A double pedal's second pedal, relative to the first in its own frame. */
  second: z.looseObject({ xMm: mm, yMm: mm, headingDeg: degrees }).optional(),
  /** Turns a tripod's legs about its tube, relative to the heading. */
  legsTurnDeg: degrees.optional(),
  /** What a microphone or DI takes: a piece's id. A piece that is gone is no error: the line then says nothing of it. */
  takes: id.optional(),
  /** The monitor mix that a wedge plays or a person hears by ear, of this setup's `mixes`. */
  mix: id.optional(),
  /** What a power drop gives, and what will hang on it. */
  power: z
    .looseObject({ volts: z.number().positive().max(1000), loadW: z.number().min(0).max(200_000).nullable() })
    .optional(),
  locked: z.boolean().optional(),
  note: text.optional(),
});

/** Straight when null. Else a circular arc between two straight ends; `side` is where the bow lies going along the bar. */
const bend = z.looseObject({
  radiusMm: z.number().min(20).max(20_000),
  straightEndsMm: z.number().min(0).max(5000),
  side: z.enum(['left', 'right']),
});

/** overhangMm: what stands out beyond the leg at the bar's start. The far end's overhang follows from the leg's place. */
const bar = z.looseObject({
  id,
  tube: id,
  cutLengthMm: length,
  bend: bend.nullable(),
  overhangMm: z.number().min(0).max(5000),
  heightMm: z.number().min(0).max(5000),
});

/**
 * Between two neighbouring legs. The first bar sets their distance, with `farOverhangMm` left over at its end; bars after
 * it must reach as well. turnDeg: the joint angle against the span before (the first span: 0).
 */
const span = z.looseObject({
  turnDeg: degrees,
  farOverhangMm: z.number().min(0).max(5000),
  bars: z.array(bar).min(1).max(LIMITS.barsPerSpan),
});

/** foot null: the upright stands on its own end. headingDeg of the foot is relative to the rack's heading; 0 lies along the first span. */
const leg = z.looseObject({
  id,
  tube: id,
  lengthMm: length,
  foot: z.looseObject({ gear: id, lengthMm: length, headingDeg: degrees }).nullable(),
});

/** place: the first leg; headingDeg: from the first leg to the second, 0 along the page's x. legs.length = spans.length + 1. */
const rack = z.looseObject({
  kind: z.literal('rack'),
  id,
  name: label,
  place,
  legs: z.array(leg).min(2).max(LIMITS.legs),
  spans: z
    .array(span)
    .min(1)
    .max(LIMITS.legs - 1),
  locked: z.boolean().optional(),
  note: text.optional(),
});

export const pieceSchema = z.discriminatedUnion('kind', [item, rack]);

/** A riser: deck modules in the plan frame (x, y: the module's middle). edgeMarginMm: wanted between a contact and the edge. */
export const riserSchema = z.looseObject({
  id,
  name: label,
  heightMm: z.number().min(0).max(5000),
  ratedKPa: z.number().positive().max(100).nullable(),
  edgeMarginMm: z.number().min(0).max(2000),
  modules: z
    .array(
      z.looseObject({
        id,
        xMm: mm,
        yMm: mm,
        widthMm: length,
        depthMm: length,
        headingDeg: degrees,
        gear: id.optional(),
      }),
    )
    .min(1)
    .max(LIMITS.modules),
});

const corner = z.looseObject({ xMm: mm, yMm: mm });
const outline = z.array(corner).min(3).max(LIMITS.corners);

/** A stage in the plan frame: its outline with the audience below, the centre line's place, and the wings beside it. */
export const stageSchema = z.looseObject({
  id,
  name: label,
  outline,
  centreXMm: mm,
  wings: z.array(z.looseObject({ id, name: label, outline })).max(LIMITS.wings),
});

/** A line of the input list; its number is its place in the list. */
export const inputSchema = z.looseObject({
  id,
  source: label,
  /** The piece that it takes, so that the list can say which pieces have no channel. */
  piece: id.optional(),
  by: z.enum(['microphone', 'di', 'line']),
  /** Which microphone or DI, in the user's words. */
  device: label.optional(),
  stand: label.optional(),
  phantom: z.boolean().optional(),
  note: label.optional(),
});

/** A monitor mix; its number is its place in the list. */
export const mixSchema = z.looseObject({
  id,
  /** Who hears it. */
  name: label,
  by: z.enum(['wedge', 'inEar']),
  wants: text.optional(),
});

/** A cable run as a note on the drawing. */
export const cableSchema = z.looseObject({ id, note: label, points: z.array(corner).min(2).max(LIMITS.corners) });

export const setupSchema = z.looseObject({
  id,
  name: label,
  riser: id.nullable(),
  /** Which of the plan's stages it stands on; left out or null: none drawn. */
  stage: id.nullable().optional(),
  /** Left out: proposed from the kit and the stage. */
  inputs: z.array(inputSchema).max(LIMITS.inputs).optional(),
  mixes: z.array(mixSchema).max(LIMITS.mixes).optional(),
  cables: z.array(cableSchema).max(LIMITS.cables).optional(),
  /** What the venue must bring, a line each. */
  venueProvides: z.array(label).max(LIMITS.venueLines).optional(),
  /** By id; drawn and listed in the order of `order`. Ids are the same across setups for what is the same piece. */
  pieces: z.record(id, pieceSchema),
  order: z.array(id).max(LIMITS.pieces),
  note: text.optional(),
});

/** Clearance limits that the user set, by pair of kinds ('pedal+stand', sorted); null: not checked. mm. */
export const limitsSchema = z.looseObject({
  clearanceMm: z.record(z.string().max(60), z.number().min(0).max(2000).nullable()).optional(),
  /** Heights closer than this count as meeting. */
  heightMm: z.number().min(0).max(500).optional(),
  /** Loads and stability; left out: Legroom's own defaults (checks/ownLimits.ts says what each means). */
  tipAngleDeg: z.number().min(0).max(90).optional(),
  friction: z.number().min(0).max(2).optional(),
  playerKg: z.number().min(0).max(400).optional(),
  sagMm: z.number().min(0).max(200).optional(),
  clampMomentNm: z.number().min(0).max(1000).optional(),
  stressPart: z.number().positive().max(1).optional(),
  deckPart: z.number().positive().max(1).optional(),
});

export const planSchema = z.looseObject({
  format: z.literal(PLAN_FORMAT),
  version: z.literal(PLAN_VERSION),
  name: label,
  units: z.enum(['mm', 'in']),
  setups: z.record(id, setupSchema),
  order: z.array(id).min(1).max(LIMITS.setups),
  risers: z.record(id, riserSchema),
  /** Gear of this plan's own: new entries, and catalogue entries with measured values (same id). */
  gear: z.record(id, gearSchema),
  stages: z.record(id, stageSchema).optional(),
  limits: limitsSchema.optional(),
  /** The user's own prices (for one, in `currency`) and notes, by gear id or end-cap id (inventory.ts). */
  partNotes: z
    .record(id, z.looseObject({ price: z.number().min(0).max(1_000_000).optional(), note: text.optional() }))
    .optional(),
  currency: z.string().max(10).optional(),
  contact: text.optional(),
  /** Of the sheets; left out: A. */
  revision: z.string().max(20).optional(),
  note: text.optional(),
});

export type Plan = z.infer<typeof planSchema>;
export type Setup = z.infer<typeof setupSchema>;
export type Piece = z.infer<typeof pieceSchema>;
export type Item = z.infer<typeof item>;
export type Rack = z.infer<typeof rack>;
export type Leg = z.infer<typeof leg>;
export type Span = z.infer<typeof span>;
export type Bar = z.infer<typeof bar>;
export type Bend = z.infer<typeof bend>;
export type Mount = z.infer<typeof mount>;
export type Tie = z.infer<typeof tie>;
export type Carrier = z.infer<typeof carrier>;
export type Place = z.infer<typeof place>;
export type Riser = z.infer<typeof riserSchema>;
export type Stage = z.infer<typeof stageSchema>;
export type Input = z.infer<typeof inputSchema>;
export type Mix = z.infer<typeof mixSchema>;
export type Cable = z.infer<typeof cableSchema>;
export type Limits = z.infer<typeof limitsSchema>;
