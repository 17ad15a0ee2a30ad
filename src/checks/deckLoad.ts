/**
 * What stands on the deck against what its rating plate says: all of it, each module, and each foot.
 *
 * Model: every assembly stands rigidly on its floor contacts, as statics.ts shares its weight among them (three feet exactly;
 * more as equal springs that may lift). A foot bar presses at its two ends, a plate at its corners. The player's mass is
 * added on the throne, at its seat's middle. A foot's load is the module's on which its point lies.
 *
 * Units:  N, kPa (= kN/m2), mm.
 * Source: the limit is the deck's own rating plate, and nothing else here. As background only: codes ask 4.8 kN/m2 of assembly
 *         platforms and 7.2 of stage floors (IBC 2021, Table 1607.1), Eurocode data 5.0 of stages (EN 1991-1-1, C4); both
 *         check a point load by itself, not on top of the spread one.
 */
import { area } from '../geometry/area.ts';
import { roundedPolygon } from '../geometry/shapes.ts';
import { unionArea } from '../geometry/union.ts';
import { keeper, kept } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import type { DeckLayout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { code, type SomePieces, saysOf } from './codes.ts';

interface Load {
  readonly pieces: readonly [];
  readonly value: number;
  readonly limit: number;
}

const says = saysOf('deckLoad', {
  rating_unknown: code<Omit<Load, 'limit'> & { readonly limit: null }>('kPa', 'atMost'),
  /** The pieces that nobody weighed. */
  load_unknown: code<Omit<Load, 'pieces'> & SomePieces>('kPa', 'atMost'),
  deck_overloaded: code<Load>('kPa', 'atMost'),
  deck_nearly_full: code<Load>('kPa', 'atMost'),
  deck_holds: code<Load>('kPa', 'atMost'),
});

import { loadLimit } from './ownLimits.ts';
import type { Assembly } from './stability.ts';
import { GRAVITY, massCentre, supportLoads, supportPoints } from './statics.ts';

export interface FootLoad {
  readonly body: string;
  readonly piece: string;
  /** N on this contact; kPa under its whole outline. */
  readonly force: number;
  readonly pressure: number;
}

export interface DeckLoadReading {
  /** kg: everything with a known mass, and the player. */
  readonly mass: number;
  readonly player: number;
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

/** The seat that the player is on: the first throne's. */
const seatOf = (bodies: readonly Body[]): Body | undefined =>
  bodies.find((body) => body.kind === 'throne' && body.part === 'seat');

interface Press {
  readonly x: number;
  readonly y: number;
  readonly force: number;
}

function inConvex(corners: readonly number[], x: number, y: number): boolean {
  for (let i = 0, n = corners.length; i < n; i += 2) {
    const j = (i + 2) % n;
    const side =
      (corners[j] - corners[i]) * (y - corners[i + 1]) - (corners[j + 1] - corners[i + 1]) * (x - corners[i]);
    if (side < 0) return false;
  }
  return true;
}

/** mm2. */
const areasOf = kept((deck: DeckLayout) => {
  const modules = deck.modules.map((corners) => roundedPolygon(corners, 0));
  return { modules: modules.map(area), whole: unionArea(modules).area };
});

/** What one assembly puts on the deck. */
interface Pressed {
  readonly massKg: number;
  readonly feet: readonly FootLoad[];
  readonly presses: readonly Press[];
}

/** By assembly: stability.ts keeps one of which nothing moved. */
const keepPressed = keeper<Pressed>();

/** `seat`: the one the player is on, where it is part of this assembly. */
function pressed({ bodies, knownKg, centre, unmeasured }: Assembly, seat: Body | undefined, player: number): Pressed {
  const masses = centre ? [{ massKg: knownKg, at: centre }] : [];
  if (seat?.massCentre) masses.push({ massKg: player, at: seat.massCentre });
  const all = massCentre(masses);
  const feet: FootLoad[] = [];
  const presses: Press[] = [];
  const done = { massKg: all?.massKg ?? 0, feet, presses };
  if (!all || unmeasured.length > 0) return done;
  const contacts = bodies.filter((body) => body.touchesFloor);
  const points = contacts.map((body) => supportPoints(body.shape));
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

export function deckLoadReading(plan: Plan, deck: DeckLayout | null, assemblies: readonly Assembly[]): DeckLoadReading {
  const player = loadLimit(plan, 'playerKg').value;
  const feet: FootLoad[] = [];
  const presses: Press[] = [];
  let mass = 0;
  let seated = false;
  for (const assembly of assemblies) {
    const seat = seated ? undefined : seatOf(assembly.bodies);
    const load = keepPressed(assembly, [seat, player], () => pressed(assembly, seat, player));
    if (seat?.massCentre) seated = true;
    mass += load.massKg;
    for (const foot of load.feet) feet.push(foot);
    for (const press of load.presses) presses.push(press);
  }
  feet.sort((a, b) => b.force - a.force || (a.body < b.body ? -1 : 1));
  let spread: number | null = null;
  let worstModule: number | null = null;
  if (deck) {
    const { modules, whole } = areasOf(deck);
    spread = ((mass * GRAVITY) / whole) * NEWTON_PER_MM2_IN_KPA;
    worstModule = Math.max(
      ...deck.modules.map((corners, k) => {
        const force = presses.reduce((sum, press) => sum + (inConvex(corners, press.x, press.y) ? press.force : 0), 0);
        return (force / modules[k]) * NEWTON_PER_MM2_IN_KPA;
      }),
    );
  }
  return {
    mass,
    player: seated ? player : 0,
    unmeasured: [...new Set(assemblies.flatMap((each) => each.unmeasured))],
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
  const base = { ...common, limit: rated, source: "the deck's rating, as this plan states it" };
  if (value > rated) return [says('deck_overloaded', { ...base, state: 'blocked', pieces: [] })];
  const [first, ...more] = unmeasured;
  if (first !== undefined) return [says('load_unknown', { ...base, state: 'unmeasured', pieces: [first, ...more] })];
  const near = value > rated * loadLimit(plan, 'deckPart').value;
  return [says(near ? 'deck_nearly_full' : 'deck_holds', { ...base, state: near ? 'tight' : 'clear', pieces: [] })];
}
