/**
 * The plan document: what a `*.legroom.json` file holds, and what the program holds in memory.
 *
 * Lengths in mm, angles in degrees counter-clockwise as seen on the page: the document is kept as it was written, so
 * that opening and saving gives the same bytes; layout turns degrees into radians at its door. Heading 0 faces the
 * audience: a piece's own x runs to the page's right, its own y upstage. Objects are loose, so that fields of a newer
 * minor version are kept. Cross-references (a bar's tube, a mount's rack) are checked in rules.ts, not here.
 */
import * as z from 'zod/mini';
import {
  bendRadius,
  between,
  footLength,
  id,
  list,
  moduleSide,
  some,
  text,
  tubeLength,
  upTo,
  whole,
} from '../gear/fieldSchemas.ts';
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
  drummers: 40,
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

const mm = between(-50_000, 50_000);
const degrees = between(-3600, 3600);
const label = text(120);
const prose = text(4000);

/**
 * Where a piece is. x, y: its anchor (a drum's top centre, a cymbal's or throne's centre, a pedal's or box's middle, a
 * stand's tube, a rack's first leg). heightMm: the playing height above the deck (a drum's top, a cymbal's edge plane,
 * a throne's seat); left out, the gear's own. tiltDeg lowers the piece's back edge, the one upstage at heading 0.
 */
const place = z.looseObject({
  xMm: mm,
  yMm: mm,
  headingDeg: degrees,
  heightMm: z.optional(upTo(5000)),
  tiltDeg: z.optional(between(-90, 90)),
});

/** A point on something that can carry a clamp. */
const carrier = z.discriminatedUnion('on', [
  /** On a rack's bar, atMm along its centre line from the tube's own start. */
  z.looseObject({ on: z.literal('bar'), rack: id, bar: id, atMm: upTo(20_000) }),
  /** On a rack's upright, at a height above the deck. */
  z.looseObject({ on: z.literal('leg'), rack: id, leg: id, heightMm: upTo(5000) }),
  /** In a socket of the arm or platform that holds another piece; sockets count from 0. */
  z.looseObject({ on: z.literal('socket'), piece: id, socket: whole(0, 20) }),
  /** On top of a stand, or on a bass drum. */
  z.looseObject({ on: z.literal('piece'), piece: id }),
]);

/** How a piece is held. Null in the plan: it stands on the deck by itself. */
const mount = z.looseObject({
  carrier,
  /** Gear ids. A stand or a bass drum may hold without either. */
  clamp: z.nullable(id),
  arm: z.nullable(id),
  /** Where `arm` is a platform: the arm in the platform's own socket that takes hold of the piece. */
  platformArm: z.optional(z.nullable(id)),
  /**
   * On which side of its tube the arm passes: of a bar, as one goes along it; of an upright or a stand, as one looks from it to the
   * piece. Left out: the side with the most room. A stand's own boom starts from its axis and has no sides.
   */
  side: z.optional(z.enum(['left', 'right'])),
});

/** Ties a legless stand to a rack: clamp to clamp. */
const tie = z.looseObject({ carrier, link: id, clamp: z.nullable(id), heightMm: upTo(5000) });

/** `load`: what it travels in, of a rack too; pieces that say the same travel together. Left out: as checks/loads.ts says. */
const item = z.looseObject({
  kind: z.literal('item'),
  id,
  name: label,
  gear: id,
  place,
  mount: z.nullable(mount),
  ties: z.optional(list(tie, LIMITS.ties)),
  /** A double pedal's second pedal, relative to the first in its own frame. */
  second: z.optional(z.looseObject({ xMm: mm, yMm: mm, headingDeg: degrees })),
  /** Of a stand without legs: it rests on the tip of its tube, or hangs on its brace clear of the deck. Left out: as its gear is made. */
  tip: z.optional(z.enum(['floor', 'hangs'])),
  /** Turns a tripod's legs about its tube, relative to the heading. */
  legsTurnDeg: z.optional(degrees),
  /** What a microphone or DI takes: a piece's id. A piece that is gone is no error: the line then says nothing of it. */
  takes: z.optional(id),
  /** The monitor mix that a wedge plays or a person hears by ear, of this setup's `mixes`. */
  mix: z.optional(id),
  /** What a power drop gives, and what will hang on it. */
  power: z.optional(z.looseObject({ volts: between(1, 1000), loadW: z.nullable(upTo(200_000)) })),
  load: z.optional(text(60)),
  locked: z.optional(z.boolean()),
  note: z.optional(prose),
});

/** Straight when null. Else a circular arc between two straight ends; `side` is where the bow lies going along the bar. */
const bend = z.looseObject({
  radiusMm: bendRadius,
  straightEndsMm: upTo(5000),
  side: z.enum(['left', 'right']),
});

/** overhangMm: what stands out beyond the leg at the bar's start. The far end's overhang follows from the leg's place. */
const bar = z.looseObject({
  id,
  tube: id,
  cutLengthMm: tubeLength,
  bend: z.nullable(bend),
  overhangMm: upTo(5000),
  heightMm: upTo(5000),
});

/**
 * Between two neighbouring legs. The first bar sets their distance, with `farOverhangMm` left over at its end; bars after
 * it must reach as well. turnDeg: the joint angle against the span before (the first span: 0).
 */
const span = z.looseObject({
  turnDeg: degrees,
  farOverhangMm: upTo(5000),
  bars: some(bar, LIMITS.barsPerSpan),
});

/** foot null: the upright stands on its own end. headingDeg of the foot is relative to the rack's heading; 0 lies along the first span. */
const leg = z.looseObject({
  id,
  tube: id,
  // No upright is longer than what may stand on a deck is high.
  lengthMm: between(50, 5000),
  foot: z.nullable(z.looseObject({ gear: id, lengthMm: footLength, headingDeg: degrees })),
});

/** place: the first leg; headingDeg: from the first leg to the second, 0 along the page's x. legs.length = spans.length + 1. */
const rack = z.looseObject({
  kind: z.literal('rack'),
  id,
  name: label,
  place,
  legs: some(leg, LIMITS.legs, 2),
  spans: some(span, LIMITS.legs - 1),
  load: z.optional(text(60)),
  locked: z.optional(z.boolean()),
  note: z.optional(prose),
});

export const pieceSchema = z.discriminatedUnion('kind', [item, rack]);

/** How far the search for the best place may turn a drummer from facing the audience where a riser does not say. Common practice, no source. */
export const TURN_AT_MOST_DEG = 15;

/**
 * A riser: deck modules in the plan frame (x, y: the module's middle). edgeMarginMm: wanted between a contact and the edge.
 * turnAtMostDeg: how far from facing the audience the best place on it may turn the kit; left out: TURN_AT_MOST_DEG.
 */
export const riserSchema = z.looseObject({
  id,
  name: label,
  heightMm: upTo(5000),
  ratedKPa: z.nullable(between(0.1, 100)),
  edgeMarginMm: upTo(2000),
  turnAtMostDeg: z.optional(upTo(180)),
  modules: some(
    z.looseObject({
      id,
      xMm: mm,
      yMm: mm,
      widthMm: moduleSide,
      depthMm: moduleSide,
      headingDeg: degrees,
      gear: z.optional(id),
    }),
    LIMITS.modules,
  ),
});

const corner = z.looseObject({ xMm: mm, yMm: mm });
const outline = some(corner, LIMITS.corners, 3);

/** A stage in the plan frame: its outline with the audience below, the centre line's place, and the wings beside it. */
export const stageSchema = z.looseObject({
  id,
  name: label,
  outline,
  centreXMm: mm,
  wings: list(z.looseObject({ id, name: label, outline }), LIMITS.wings),
});

const tape = (least: number, most: number) => z.optional(between(least, most));

/**
 * A drummer, by the published tables (drummer/tables.ts): of all men or women, the percentile that each size is taken from. What a tape
 * measured stands in `measuredMm` and counts instead. `handed`: the hand that leads; the foot of that side plays the bass drum.
 * `openHanded`: the hi-hat is played with the hand of its own side.
 */
export const drummerSchema = z.looseObject({
  id,
  name: label,
  sex: z.enum(['man', 'woman']),
  percentile: between(1, 99),
  handed: z.enum(['right', 'left']),
  openHanded: z.optional(z.boolean()),
  /** What a shoe adds beneath the heel and to the foot's length; half of it to the breadth. Left out: 25. */
  shoeMm: z.optional(upTo(80)),
  /** The whole length of a stick. Left out: 406 (16 in). */
  stickMm: z.optional(between(250, 600)),
  /** Sitting upright and barefoot, thighs level, lower legs upright. */
  measuredMm: z.optional(
    z.looseObject({
      /** From the seat to the top of the head, and to the bony tip of the shoulder. */
      sittingMm: tape(600, 1150),
      shoulderMm: tape(350, 800),
      /** Between the tips of both shoulders. */
      shouldersMm: tape(240, 600),
      /** From the tip of the shoulder to the middle of the grip; and from the elbow. */
      armMm: tape(400, 950),
      forearmMm: tape(200, 520),
      hipMm: tape(240, 800),
      /** From the seat to the top of the thigh. */
      thighMm: tape(90, 320),
      /** From the back to the front of the knee. */
      buttockKneeMm: tape(400, 850),
      /** From the floor to the top of the knee, and to the hollow behind it. */
      kneeMm: tape(360, 760),
      poplitealMm: tape(260, 600),
      footMm: tape(170, 360),
      footBreadthMm: tape(60, 160),
    }),
  ),
});

/** A line of the input list; its number is its place in the list. */
export const inputSchema = z.looseObject({
  id,
  source: label,
  /** The piece that it takes, so that the list can say which pieces have no channel. */
  piece: z.optional(id),
  by: z.enum(['microphone', 'di', 'line']),
  /** Which microphone or DI, in the user's words. */
  device: z.optional(label),
  stand: z.optional(label),
  phantom: z.optional(z.boolean()),
  note: z.optional(label),
});

/** A monitor mix; its number is its place in the list. */
export const mixSchema = z.looseObject({
  id,
  /** Who hears it. */
  name: label,
  by: z.enum(['wedge', 'inEar']),
  wants: z.optional(prose),
});

/** A cable run as a note on the drawing. */
export const cableSchema = z.looseObject({ id, note: label, points: some(corner, LIMITS.corners, 2) });

export const setupSchema = z.looseObject({
  id,
  name: label,
  riser: z.nullable(id),
  /** Which of the plan's stages it stands on; left out or null: none drawn. */
  stage: z.optional(z.nullable(id)),
  /** Which of the plan's drummers it is set for. Left out: a typical one. */
  drummer: z.optional(id),
  /** Mirrored: its drummer leads with the other hand here. */
  otherHand: z.optional(z.boolean()),
  /** Left out: proposed from the kit and the stage. */
  inputs: z.optional(list(inputSchema, LIMITS.inputs)),
  mixes: z.optional(list(mixSchema, LIMITS.mixes)),
  cables: z.optional(list(cableSchema, LIMITS.cables)),
  /** What the venue must bring, a line each. */
  venueProvides: z.optional(list(label, LIMITS.venueLines)),
  /** By id; drawn and listed in the order of `order`. Ids are the same across setups for what is the same piece. */
  pieces: z.record(id, pieceSchema),
  order: list(id, LIMITS.pieces),
  note: z.optional(prose),
});

/** Clearance limits that the user set, by pair of kinds ('pedal+stand', sorted); null: not checked. mm. */
export const limitsSchema = z.looseObject({
  clearanceMm: z.optional(z.record(text(60), z.nullable(upTo(2000)))),
  /** Heights closer than this count as meeting. */
  heightMm: z.optional(upTo(500)),
  /** Room above and beneath a cymbal's edge, by what is there (checks/limits.ts); left out: Legroom's own defaults. */
  cymbalRoomMm: z.optional(
    z.looseObject({
      drum: z.optional(upTo(500)),
      cymbal: z.optional(upTo(500)),
      tube: z.optional(upTo(500)),
      other: z.optional(upTo(500)),
    }),
  ),
  /** Loads and stability; left out: Legroom's own defaults (checks/ownLimits.ts says what each means). */
  tipAngleDeg: z.optional(upTo(90)),
  friction: z.optional(upTo(2)),
  playerKg: z.optional(upTo(400)),
  sagMm: z.optional(upTo(200)),
  clampMomentNm: z.optional(upTo(1000)),
  stressPart: z.optional(between(0.01, 1)),
  deckPart: z.optional(between(0.01, 1)),
});

export const planSchema = z.looseObject({
  format: z.literal(PLAN_FORMAT),
  version: z.literal(PLAN_VERSION),
  name: label,
  units: z.enum(['mm', 'in']),
  setups: z.record(id, setupSchema),
  order: some(id, LIMITS.setups),
  risers: z.record(id, riserSchema),
  /** Gear of this plan's own: new entries, and catalogue entries with measured values (same id). */
  gear: z.record(id, gearSchema),
  stages: z.optional(z.record(id, stageSchema)),
  drummers: z.optional(z.record(id, drummerSchema)),
  limits: z.optional(limitsSchema),
  /** The user's own prices (for one, in `currency`) and notes, by gear id or end-cap id (inventory.ts). */
  partNotes: z.optional(z.record(id, z.looseObject({ price: z.optional(upTo(1_000_000)), note: z.optional(prose) }))),
  currency: z.optional(text(10)),
  contact: z.optional(prose),
  /** Of the sheets; left out: A. */
  revision: z.optional(text(20)),
  note: z.optional(prose),
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
export type Drummer = z.infer<typeof drummerSchema>;
export type Input = z.infer<typeof inputSchema>;
export type Mix = z.infer<typeof mixSchema>;
export type Cable = z.infer<typeof cableSchema>;
export type Limits = z.infer<typeof limitsSchema>;
