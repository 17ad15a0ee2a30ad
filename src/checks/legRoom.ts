/**
 * Have the drummer's legs room: thighs, lower legs and shoes, heel down and up, on every pedal that they work, clear of whatever else
 * stands there; and does each foot reach its pedal?
 *
 * What a foot works it may touch, with all of that piece, and the throne. The limit is that for the drummer and the other's kind
 * (limits.ts), measured in space whichever way the two lie. Angles of knees are readings; what people sit with is common practice.
 *
 * Units: mm, degrees.
 * Speed: kept by the other body: in a frame only what moved is measured again.
 */
import type { Figure, Leg } from '../drummer/figure.ts';
import type { Side } from '../drummer/sizes.ts';
import { gapValue } from '../geometry/gap.ts';
import { disc, type Swept } from '../geometry/shapes.ts';
import { spaceGap } from '../geometry/space.ts';
import { extent } from '../geometry/support.ts';
import { keeper, kept } from '../keep.ts';
import { type Body, solidOf } from '../layout/body.ts';
import { type LegBody, type Limb, legBodies } from '../layout/drummerBodies.ts';
import type { Layout } from '../layout/layout.ts';
import type { Limits, Plan } from '../plan/schema.ts';
import { toDegrees } from '../units.ts';
import { pairState, worse } from './clearance.ts';
import {
  checkOf,
  code,
  type Drawn,
  type Measured,
  type OnePiece,
  type PartOf,
  saysOf,
  type Told,
  type Unmeasured,
} from './codes.ts';
import { clearanceSource, LISTED_BELOW_MM, requiredClearance } from './limits.ts';
import { isAbove, isBelow } from './tolerance.ts';

interface Near {
  readonly side: Side;
  readonly limb: Limb;
  /** The piece that the foot is on, where that foot has several; else null. */
  readonly on: string | null;
  /** What of the piece is near. */
  readonly part: PartOf;
  /** Nobody is named in the plan: a typical drummer. */
  readonly typical: boolean;
}
type LegGap = Measured & OnePiece & Drawn & Near;
/** The pedal that the foot is on. */
type OnPedal = Measured & OnePiece & { readonly side: Side };

const LIMBS: Readonly<Record<Limb, string>> = { thigh: 'thigh', shin: 'lower leg', shoe: 'shoe', way: 'foot' };

/** `left thigh with the foot on Hi-hat stand`. */
const legWord = ({ piece }: Told, { side, limb, on }: Near): string =>
  `${side} ${LIMBS[limb]}${on === null ? '' : `${limb === 'way' ? ' on its way to' : ' with the foot on'} ${piece(on)}`}`;

/** What of the piece it is near. */
const other = ({ partsOf }: Told, { pieces: [piece], part }: LegGap): string =>
  partsOf({ pieces: [piece, piece], parts: [part, part] }, false)[1];

const whose = ({ typical }: Pick<Near, 'typical'>): string => (typical ? 'a typical drummer' : 'the drummer');

export const LEG_ROOM = checkOf('legRoom', {
  word: 'Leg room',
  caution: null,
  codes: {
    leg_hits: code<LegGap>(
      'mm',
      'atLeast',
      (told, found) =>
        `The drummer’s ${legWord(told, found)} runs into ${other(told, found)}: move one of them to leave ${told.limit}.`,
    ),
    leg_close: code<LegGap>(
      'mm',
      'atLeast',
      (told, found) =>
        `The drummer’s ${legWord(told, found)} is ${told.value} from ${other(told, found)}, and ${told.limit} is wanted.`,
    ),
    legs_clear: code<LegGap>(
      'mm',
      'atLeast',
      (told, found) =>
        `The legs of ${whose(found)} are clear: the ${legWord(told, found)} comes nearest to ${other(told, found)}, ${told.value} away with ${told.limit} wanted.`,
    ),
    /** Nothing is near them. */
    legs_free: code<Unmeasured & Pick<Near, 'typical'>>(
      'mm',
      'atLeast',
      (_, found) => `The legs of ${whose(found)} are clear: nothing is near them.`,
    ),
    /** How far beyond a straight leg it is. */
    pedal_out_of_reach: code<OnPedal>(
      'mm',
      'atMost',
      ({ names: [first], missing }, { side }) =>
        `${first} is ${missing} beyond the drummer’s ${side} foot, the leg straight: bring it nearer to the throne.`,
    ),
    knee_too_bent: code<OnPedal>(
      'deg',
      'atLeast',
      ({ names: [first], value, limit }, { side }) =>
        `The drummer’s ${side} knee is bent to ${value} on ${first}, and ${limit} is the sharpest that people play with: move the throne back, or raise it.`,
    ),
    knee_too_straight: code<OnPedal>(
      'deg',
      'atMost',
      ({ names: [first], value, limit }, { side }) =>
        `The drummer’s ${side} knee is stretched to ${value} on ${first}, and ${limit} is the most that people play with: move the throne forward, or lower it.`,
    ),
    knees_bend: code<OnPedal>(
      'deg',
      'atLeast',
      ({ names: [first], value }, { side }) =>
        `The drummer’s knees have an easy bend: the ${side} one is sharpest, ${value} on ${first}.`,
    ),
    /** There are pedals, and no throne to sit on. */
    nobody_sits: code<Unmeasured>(
      'mm',
      null,
      () => 'Nobody sits at this kit: add a throne, and leg room and reach are checked.',
    ),
  },
});
const says = saysOf(LEG_ROOM);

/** Knees from here to there are what people play with; most sit with about 100 degrees. Common practice, no source. */
const KNEE_LEAST_DEG = 80;
const KNEE_MOST_DEG = 150;

const OWN = "Legroom's own default";

/** A leg, and what comes near it. */
export interface LegPair {
  readonly leg: LegBody;
  readonly body: Body;
  readonly gap: number;
  readonly required: number;
  readonly line: readonly [number, number, number, number];
}

/** A disc round all of the legs. */
const reachOf = kept((legs: readonly LegBody[]): Swept => {
  const { minX, minY, maxX, maxY } = extent(legs.map(({ body }) => body.shape))!;
  return disc((minX + maxX) / 2, (minY + maxY) / 2, Math.hypot(maxX - minX, maxY - minY) / 2);
});

function pairOf(leg: LegBody, body: Body, required: number): LegPair | null {
  const reach = Math.max(required, LISTED_BELOW_MM);
  if (leg.works.includes(body.piece)) return null;
  if (Math.max(leg.body.z0 - body.z1, body.z0 - leg.body.z1) >= reach) return null;
  const flat = gapValue(leg.body.shape, body.shape);
  if (flat >= reach) return null;
  const found = spaceGap(solidOf(leg.body), solidOf(body), reach);
  if (found.beyond || found.gap >= reach) return null;
  const { meeting, gap, ax, ay, bx, by } = found;
  const line = meeting ? middleLine(leg.body.shape) : ([ax, ay, bx, by] as const);
  return { leg, body, gap: meeting ? Math.min(0, flat) : gap, required, line };
}

function middleLine({ core }: Swept): readonly [number, number, number, number] {
  const [x, y] =
    core.kind === 'segment'
      ? [(core.x0 + core.x1) / 2, (core.y0 + core.y1) / 2]
      : core.kind === 'polygon'
        ? [core.points[0], core.points[1]]
        : core.kind === 'point'
          ? [core.x, core.y]
          : [core.cx, core.cy];
  return [x, y, x, y];
}

const worstOf = (pairs: readonly LegPair[]): LegPair | null =>
  pairs.reduce<LegPair | null>((worst, pair) => (worst === null || worse(pair, worst) ? pair : worst), null);

const keepWorst = keeper<LegPair | null>();

/** Of one body that is no part of what the legs may touch: its worst with any leg. */
const worstWith = (body: Body, legs: readonly LegBody[], limits: Limits | undefined): LegPair | null =>
  keepWorst(body, [legs, limits], () => {
    const required = requiredClearance(limits, 'drummer', body.kind);
    if (required === null || gapValue(reachOf(legs), body.shape) >= Math.max(required, LISTED_BELOW_MM)) return null;
    return worstOf(legs.flatMap((leg) => pairOf(leg, body, required) ?? []));
  });

/** What comes nearer to a leg than its limit or than LISTED_BELOW_MM, one for each body, in the layout's order. */
export function legPairs({ limits }: Pick<Plan, 'limits'>, { bodies, figure }: Layout): LegPair[] {
  if (!figure) return [];
  const legs = legBodies(figure);
  const pairs: LegPair[] = [];
  if (legs.length === 0) return pairs;
  for (const body of bodies) {
    if (body.piece === figure.throne) continue;
    const pair = worstWith(body, legs, limits);
    if (pair) pairs.push(pair);
  }
  return pairs;
}

const CODES = { blocked: 'leg_hits', tight: 'leg_close', clear: 'legs_clear' } as const;

function gapFinding({ limits }: Plan, figure: Figure, { leg, body, gap, required, line }: LegPair) {
  const state = pairState({ gap, required });
  return says(CODES[state], {
    state,
    pieces: [body.piece],
    bodies: [leg.body.id, body.id],
    value: gap,
    limit: required,
    source: clearanceSource(limits, 'drummer', body.kind, false),
    at: [(line[0] + line[2]) / 2, (line[1] + line[3]) / 2],
    line,
    side: leg.side,
    limb: leg.limb,
    on: leg.works.length > 1 ? leg.on : null,
    part: { kind: body.kind, part: body.part },
    typical: figure.sitter.drummer === null,
  });
}

/** One finding for each piece that is too close to a leg; with none, what comes nearest. */
function gapFindings(plan: Plan, figure: Figure, pairs: readonly LegPair[]) {
  const worst = new Map<string, LegPair>();
  for (const pair of pairs) {
    if (pairState(pair) === 'clear') continue;
    const before = worst.get(pair.body.piece);
    if (!before || worse(pair, before)) worst.set(pair.body.piece, pair);
  }
  if (worst.size > 0) return [...worst.values()].map((pair) => gapFinding(plan, figure, pair));
  const nearest = worstOf(pairs);
  if (nearest) return [gapFinding(plan, figure, nearest)];
  const typical = figure.sitter.drummer === null;
  return [
    says('legs_free', {
      state: 'clear',
      pieces: [],
      bodies: [],
      value: null,
      limit: null,
      source: OWN,
      at: null,
      typical,
    }),
  ];
}

type OnBoard = Leg & { readonly works: NonNullable<Leg['works']> };
const onBoards = ({ legs }: Figure) => legs.filter((leg): leg is OnBoard => leg.works !== null);

const kneeDeg = (leg: Leg): number => toDegrees(leg.down.kneeRad);

function kneeFindings(figure: Figure) {
  const legs = onBoards(figure);
  const on = (leg: OnBoard, value: number, limit: number) => ({
    pieces: [leg.works.piece] as const,
    bodies: [],
    value,
    limit,
    source: OWN,
    at: [leg.down.knee[0], leg.down.knee[1]] as const,
    side: leg.side,
  });
  const found: ReturnType<typeof says>[] = [];
  for (const leg of legs) {
    const { missingMm } = leg.down;
    const angle = kneeDeg(leg);
    if (isAbove(missingMm, 0)) found.push(says('pedal_out_of_reach', { state: 'blocked', ...on(leg, missingMm, 0) }));
    else if (isBelow(angle, KNEE_LEAST_DEG))
      found.push(says('knee_too_bent', { state: 'tight', ...on(leg, angle, KNEE_LEAST_DEG) }));
    else if (isAbove(angle, KNEE_MOST_DEG))
      found.push(says('knee_too_straight', { state: 'tight', ...on(leg, angle, KNEE_MOST_DEG) }));
  }
  if (found.length > 0 || legs.length === 0) return found;
  const least = legs.reduce((a, b) => (kneeDeg(b) < kneeDeg(a) ? b : a));
  return [says('knees_bend', { state: 'clear', ...on(least, kneeDeg(least), KNEE_LEAST_DEG) })];
}

/** Inputs: `pairs` of this layout. */
export function legRoom(plan: Plan, { bodies, figure }: Layout, pairs: readonly LegPair[]): ReturnType<typeof says>[] {
  if (!figure) {
    const pedals = [
      ...new Set(bodies.flatMap(({ kind, part, piece }) => (kind === 'pedal' && part === 'board' ? [piece] : []))),
    ];
    const base = { state: 'unmeasured', bodies: [], value: null, limit: null, source: OWN, at: null } as const;
    return pedals.length > 0 ? [says('nobody_sits', { ...base, pieces: pedals })] : [];
  }
  return onBoards(figure).length > 0 ? [...gapFindings(plan, figure, pairs), ...kneeFindings(figure)] : [];
}

/** What the report says of the drummer: who it is, sizes, knees. mm, degrees. */
export function drummerReading({ figure }: Layout, pairs: readonly LegPair[]) {
  if (!figure) return null;
  const { drummer, sizes, handed } = figure.sitter;
  return {
    name: drummer?.name ?? 'A typical drummer',
    typical: drummer === null,
    handed,
    sizes,
    seat: figure.seat,
    facing: toDegrees(figure.facingRad),
    hips: figure.hips,
    shoulders: figure.shoulders,
    legs: figure.legs.map(({ side, works, down, up }) => ({
      side,
      on: works?.piece ?? null,
      board: works?.board ?? null,
      knee: down.knee,
      kneeAngle: toDegrees(down.kneeRad),
      kneeAngleHeelUp: toDegrees(up.kneeRad),
      missing: down.missingMm,
    })),
    pairs: pairs.map(({ leg, body, gap, required }) => ({ a: leg.body.id, b: body.id, gap, required })),
  };
}
