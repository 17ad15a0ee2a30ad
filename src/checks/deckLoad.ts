/**
 * What stands on the deck against what its rating plate says: all of it, each module, and each foot. All of it is the kit, the player,
 * and whatever else is on the deck: amplifiers, wedges, other people. What stands beside the deck loads it with nothing.
 *
 * Model: every assembly stands rigidly on its floor contacts, as far as they rest on the deck (resting.ts), as statics.ts shares its
 * weight among them (three feet exactly; more as equal springs that may lift). A foot bar presses at its two ends, a plate at its
 * corners. The player's mass is added on the throne, at its seat's middle. What touches no floor (a clipped microphone) presses where
 * its mass centre is. A foot's load is the module's on which its point lies; in the crack between two, both modules'.
 *
 * Units:  N, kPa (= kN/m2), mm.
 * Source: the limit is the deck's own rating plate, and nothing else here. As background only: codes ask 4.8 kN/m2 of assembly
 *         platforms and 7.2 of stage floors (IBC 2021, Table 1607.1), Eurocode data 5.0 of stages (EN 1991-1-1, C4); both
 *         check a point load by itself, not on top of the spread one.
 */
import { area } from '../geometry/area.ts';
import { pointInDeck } from '../geometry/deck.ts';
import { roundedPolygon } from '../geometry/shapes.ts';
import { unionArea } from '../geometry/union.ts';
import { keeper, kept } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import type { DeckLayout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { checkOf, code, type SomePieces, saysOf } from './codes.ts';
import { loadLimit } from './ownLimits.ts';
import { restingOn } from './resting.ts';
import { preparedDeck } from './riserFit.ts';
import type { Assembly } from './stability.ts';
import { GRAVITY, massCentre, type PointMass, supportLoads, supportPoints } from './statics.ts';
import { isAbove } from './tolerance.ts';

interface Load {
  readonly pieces: readonly [];
  readonly value: number;
  readonly limit: number;
}

export const DECK_LOAD = checkOf('deckLoad', {
  word: 'Deck load',
  caution:
    "The deck's limit is its own rating plate as you typed it. Point loads under small feet, swaying and the deck's legs are not in it: the venue, local codes and licensed practice decide.",
  codes: {
    rating_unknown: code<Omit<Load, 'limit'> & { readonly limit: null }>(
      'kPa',
      'atMost',
      ({ value }) => `${value} rests on the riser, and its rating is not stated: read it off the deck's plate.`,
    ),
    /** The pieces that nobody weighed. */
    load_unknown: code<Omit<Load, 'pieces'> & SomePieces>(
      'kPa',
      'atMost',
      ({ names, value, limit, listed }) =>
        `At least ${value} rests on the riser, rated ${limit}; not weighed: ${listed(names)}.`,
    ),
    deck_overloaded: code<Load>(
      'kPa',
      'atMost',
      ({ value, limit }) =>
        `${value} rests on the riser, and it is rated for ${limit}: take weight off, or ask for a stronger deck.`,
    ),
    deck_nearly_full: code<Load>(
      'kPa',
      'atMost',
      ({ value, limit }) => `${value} rests on the riser, close to its rating of ${limit}.`,
    ),
    deck_holds: code<Load>(
      'kPa',
      'atMost',
      ({ value, limit }) => `The riser holds it: ${value} rests on its most loaded part, and it is rated for ${limit}.`,
    ),
  },
});
const says = saysOf(DECK_LOAD);

export interface FootLoad {
  readonly body: string;
  readonly piece: string;
  /** N on this contact; kPa under its whole outline. */
  readonly force: number;
  readonly pressure: number;
}

export interface DeckLoadReading {
  /** kg on the deck with a known mass, the player and what is not of the kit included; without a riser, of the kit and the player. */
  readonly mass: number;
  readonly player: number;
  /** kg of it that is not of the kit: amplifiers, people. */
  readonly others: number;
  /** Pieces on the deck of which some part has no known mass. */
  readonly unmeasured: readonly string[];
  /** kPa over the whole deck; over its most loaded module. Null without a riser. */
  readonly spread: number | null;
  readonly worstModule: number | null;
  /** kPa; null: not stated. */
  readonly rated: number | null;
  /** The most loaded first. Assemblies off their feet, or of unknown mass, have none. */
  readonly feet: readonly FootLoad[];
}

const NEWTON_PER_MM2_IN_KPA = 1000;
/** N: less than the weight of a speck of dust. */
const ALIKE_N = 1e-4;

/** The seat that the player is on: the first throne's. */
const seatOf = (bodies: readonly Body[]): Body | undefined =>
  bodies.find((body) => body.kind === 'throne' && body.part === 'seat');

interface Press {
  readonly x: number;
  readonly y: number;
  readonly force: number;
}

/** Modules that are clamped together leave no wider crack than this, mm: what presses on it presses on both. */
const CRACK_MM = 3;

/** Of a module's sides: the unit normal inwards, and how far in the origin lies; three numbers each. */
function sidesOf(corners: readonly number[]): number[] {
  const sides: number[] = [];
  for (let i = 0, n = corners.length; i < n; i += 2) {
    const j = (i + 2) % n;
    const ex = corners[j] - corners[i];
    const ey = corners[j + 1] - corners[i + 1];
    const long = Math.hypot(ex, ey);
    const [nx, ny] = [-ey / long, ex / long];
    sides.push(nx, ny, -(nx * corners[i] + ny * corners[i + 1]));
  }
  return sides;
}

function isWithin(sides: readonly number[], x: number, y: number): boolean {
  for (let i = 0; i < sides.length; i += 3)
    if (sides[i] * x + sides[i + 1] * y + sides[i + 2] < -CRACK_MM) return false;
  return true;
}

/** mm2. */
const measuresOf = kept((deck: DeckLayout) => {
  const modules = deck.modules.map((corners) => roundedPolygon(corners, 0));
  return {
    modules: modules.map((module, k) => ({ area: area(module), sides: sidesOf(deck.modules[k]) })),
    whole: unionArea(modules).area,
  };
});

/** What one assembly puts on the deck; `isOn`: whether it is there at all. */
interface Pressed {
  readonly isOn: boolean;
  readonly massKg: number;
  readonly feet: readonly FootLoad[];
  readonly presses: readonly Press[];
}

/** By assembly: stability.ts keeps one of which nothing moved. */
const keepPressed = keeper<Pressed>();

/** `seat`: the one the player is on, where it is part of this assembly. */
function pressed(
  { bodies, knownKg, centre, unmeasured }: Assembly,
  deck: DeckLayout | null,
  seat: Body | undefined,
  player: number,
): Pressed {
  const masses = centre ? [{ massKg: knownKg, at: centre }] : [];
  if (seat?.massCentre) masses.push({ massKg: player, at: seat.massCentre });
  const all = massCentre(masses);
  const feet: FootLoad[] = [];
  const presses: Press[] = [];
  const contacts = bodies.filter((body) => body.touchesFloor);
  const points = contacts.map((body) => restingOn(deck, body).flatMap(supportPoints));
  const hangs = contacts.length === 0 && all !== null;
  const isOn = hangs ? isOver(deck, all.at) : points.some((own) => own.length > 0);
  const done = { isOn, massKg: isOn ? (all?.massKg ?? 0) : 0, feet, presses };
  if (!all || !isOn || unmeasured.length > 0) return done;
  if (hangs) {
    const force = all.massKg * GRAVITY;
    presses.push({ x: all.at[0], y: all.at[1], force });
    const [{ id, piece, shape }] = bodies;
    feet.push({ body: id, piece, force, pressure: (force / area(shape)) * NEWTON_PER_MM2_IN_KPA });
    return done;
  }
  const loads = supportLoads(points.flat(), all.massKg * GRAVITY, all.at[0], all.at[1]);
  if (!loads) return done;
  let next = 0;
  contacts.forEach((body, k) => {
    const own = loads.slice(next, next + points[k].length);
    points[k].forEach(([x, y], i) => {
      presses.push({ x, y, force: own[i] });
    });
    next += points[k].length;
    const force = own.reduce((sum, each) => sum + each, 0);
    const pressure = (force / area(body.shape)) * NEWTON_PER_MM2_IN_KPA;
    feet.push({ body: body.id, piece: body.piece, force, pressure });
  });
  return done;
}

const isOver = (deck: DeckLayout | null, [x, y]: PointMass['at']): boolean =>
  deck === null || pointInDeck(preparedDeck(deck), x, y);

/** `others`: what is not of the kit (stability.ts, othersOf). */
export function deckLoadReading(
  plan: Plan,
  deck: DeckLayout | null,
  assemblies: readonly Assembly[],
  others: readonly Assembly[] = [],
): DeckLoadReading {
  const player = loadLimit(plan, 'playerKg').value;
  const feet: FootLoad[] = [];
  const presses: Press[] = [];
  const unmeasured = new Set<string>();
  let mass = 0;
  let seated = false;
  let isSeatOn = false;
  const add = (assembly: Assembly, seat: Body | undefined) => {
    const load = keepPressed(assembly, [deck, seat, player], () => pressed(assembly, deck, seat, player));
    if (seat?.massCentre) {
      seated = true;
      isSeatOn = load.isOn;
    }
    mass += load.massKg;
    if (load.isOn) for (const piece of assembly.unmeasured) unmeasured.add(piece);
    for (const foot of load.feet) feet.push(foot);
    for (const press of load.presses) presses.push(press);
  };
  for (const assembly of assemblies) add(assembly, seated ? undefined : seatOf(assembly.bodies));
  const kit = mass;
  for (const assembly of others) add(assembly, undefined);
  // Feet alike but for rounding in the order of their names: the two spurs of a drum carry the same.
  const asked = new Map(feet.map((foot) => [foot, Math.round(foot.force / ALIKE_N)]));
  feet.sort((a, b) => (asked.get(b) ?? 0) - (asked.get(a) ?? 0) || (a.body < b.body ? -1 : 1));
  let spread: number | null = null;
  let worstModule: number | null = null;
  if (deck) {
    const { modules, whole } = measuresOf(deck);
    spread = ((mass * GRAVITY) / whole) * NEWTON_PER_MM2_IN_KPA;
    worstModule = 0;
    for (const module of modules) {
      let force = 0;
      for (const press of presses) if (isWithin(module.sides, press.x, press.y)) force += press.force;
      worstModule = Math.max(worstModule, (force / module.area) * NEWTON_PER_MM2_IN_KPA);
    }
  }
  return {
    mass,
    player: isSeatOn ? player : 0,
    others: mass - kit,
    unmeasured: [...unmeasured],
    spread,
    worstModule,
    rated: deck?.ratedKPa ?? null,
    feet,
  };
}

/** One finding for a riser: the worse of the whole deck and its most loaded module. None without a riser. */
export function deckLoad(plan: Plan, deck: DeckLayout | null, reading: DeckLoadReading): ReturnType<typeof says>[] {
  const { spread, worstModule, rated, unmeasured } = reading;
  if (!deck || spread === null || worstModule === null) return [];
  // An empty riser is not loaded with 0: there is nothing to say.
  if (reading.mass === 0 && unmeasured.length === 0) return [];
  const value = Math.max(spread, worstModule);
  const common = { bodies: [], value, at: null };
  if (rated === null)
    return [
      says('rating_unknown', {
        ...common,
        state: 'unmeasured',
        pieces: [],
        limit: null,
        source: "the deck's rating plate",
      }),
    ];
  const base = { limit: rated, ...common, source: "the deck's rating, as this plan states it" };
  if (isAbove(value, rated)) return [says('deck_overloaded', { ...base, state: 'blocked', pieces: [] })];
  const [first, ...more] = unmeasured;
  if (first !== undefined) return [says('load_unknown', { ...base, state: 'unmeasured', pieces: [first, ...more] })];
  const near = isAbove(value, rated * loadLimit(plan, 'deckPart').value);
  return [says(near ? 'deck_nearly_full' : 'deck_holds', { state: near ? 'tight' : 'clear', ...base, pieces: [] })];
}
