/**
 * Each load that travels (loads.ts) against the revised lifting equation (liftingEquation.ts).
 *
 * Inputs assumed, and shown: lifted from the floor on to the deck, straight ahead, now and then, for less than an hour, a fair grip (tubes
 * have no handles). One person holds it against the body with its narrow side forward; two stand at its ends, hands close. What stands on
 * its own feet is taken hold of at the height of its mass centre, arms that hold nothing folded in; a drum or cymbal taken off its stand is carried with its least measure
 * against the body, hands half-way up what then stands upright. A load of several such things is as deep as the deepest of them, and is
 * taken as low as the lowest; cymbals lie in one another. The equation itself covers one person; two together are taken as two thirds of
 * the sum of what each could lift (HSE L23 and ISO 11228-1, from memory). It does not cover carrying.
 *
 * Units: mm and kg in, cm inside, as the equation has them.
 */
import { grouped } from '../gather.ts';
import { gearOf } from '../gear/catalogue.ts';
import { smallestRectangle } from '../geometry/rectangle.ts';
import { keeper } from '../keep.ts';
import { type Body, isArmBody } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { checkOf, code, type Measured, type OnePiece, saysOf } from './codes.ts';
import { horizontalEstimate, LIFT_SCOPE, type LiftTask, liftingIndex, liftLimit } from './liftingEquation.ts';
import { bodiesByLoad, type Load, loadsOf } from './loads.ts';
import { massCentre, type PointMass } from './statics.ts';
import { isAbove } from './tolerance.ts';

/** The load that it speaks of; its first piece stands for it. */
type OfLoad = OnePiece & { readonly load: Load };

export const LIFT = checkOf('lift', {
  word: 'Lifting',
  caution: `The lifting limit is for two hands, a firm floor and a few lifts. It does not speak of ${LIFT_SCOPE.slice(0, -1).join(', ')} or ${LIFT_SCOPE[LIFT_SCOPE.length - 1]}. Two people together are an estimate.`,
  codes: {
    lift_alone: code<Measured & OfLoad>(
      'kg',
      'atMost',
      ({ value, limit, load }, finding) =>
        `One person can lift each load: ${load(finding.load)} is the heaviest for its size, ${value} of ${limit}.`,
    ),
    lift_rest_alone: code<Measured & OfLoad>(
      'kg',
      'atMost',
      ({ value, limit, load }, finding) =>
        `One person can lift each of the other loads: ${load(finding.load)} is the heaviest of them for its size, ${value} of ${limit}.`,
    ),
    lift_with_two: code<Measured & OfLoad>(
      'kg',
      'atMost',
      ({ value, limit, load }, finding) =>
        `${load(finding.load)} needs two to lift it: it weighs ${value}, and two people should lift no more than ${limit}.`,
    ),
    lift_near_two: code<Measured & OfLoad>(
      'kg',
      'atMost',
      ({ value, limit, load }, finding) =>
        `${load(finding.load)} needs two to lift it, and is nearly too heavy for them: it weighs ${value}, and two people should lift no more than ${limit}.`,
    ),
    take_apart: code<Measured & OfLoad>(
      'kg',
      'atMost',
      ({ value, limit, load }, finding) =>
        `${load(finding.load)} weighs ${value}, and two people should lift no more than ${limit}: split it, or have more people lift it.`,
    ),
    /** Higher than the equation allows any lift: there is no limit to hold it against. */
    lift_too_high: code<OfLoad & { readonly value: number; readonly limit: null }>(
      'kg',
      'atMost',
      ({ value, load }, finding) =>
        `${load(finding.load)} weighs ${value}, and would be lifted higher than the lifting limit speaks of: hand it up to someone on the riser.`,
    ),
  },
});
const says = saysOf(LIFT);

/** A load as it is lifted. */
export interface Lifted extends Load {
  /** kg; null: something in it is unmeasured. */
  readonly massKg: number | null;
  /** What is held against the body, and how high the hands are when it stands on the floor. mm. */
  readonly deepMm: number;
  readonly handsMm: number;
}

export interface LiftReading extends Load {
  /** kg; null: something in it is unmeasured. */
  readonly mass: number | null;
  /** cm: H, V at the start, D; as the equation takes them. */
  readonly inputs: { readonly horizontal: number; readonly vertical: number; readonly travel: number };
  /** kg for one person; 0: too deep or too high for any lift by one. */
  readonly onePerson: number;
  /** kg for two, at its ends; 0: too high for any lift. */
  readonly twoPeople: number;
  readonly index: number | null;
}

/** Straight ahead, now and then (the equation's least rate), with a fair grip. */
const AT_A_LOAD_IN = { asymmetryDeg: 0, liftsPerMinute: 0.2, duration: 'short', grip: 'fair' } as const;
/** cm: hands at the end of a unit, close to the body: the equation's least H. */
const CLOSE = 25;
const TEAM_OF_TWO = 2 / 3;
const MM_PER_CM = 10;
/** Part of what two may lift from which a unit is called tight: a cymbal more, and it is past it. Legroom's own default. */
const NEAR_PART = 0.9;

/** Shares that differ by less are the same but for rounding: of two drums alike the first is named. */
const ALIKE = 1e-9;

function limitOver(horizontal: number, vertical: number, travel: number): number {
  const task: LiftTask = { horizontal, ...AT_A_LOAD_IN, vertical, travel };
  // Where it is set down counts as much as where it is taken up: the lesser of both.
  return Math.min(
    liftLimit(task).limit,
    liftLimit({ horizontal, ...AT_A_LOAD_IN, vertical: vertical + travel, travel }).limit,
  );
}

export function liftReading({ massKg, deepMm, handsMm, ...load }: Lifted, deckHeightMm: number): LiftReading {
  const vertical = handsMm / MM_PER_CM;
  const travel = deckHeightMm / MM_PER_CM;
  const horizontal = horizontalEstimate(deepMm / MM_PER_CM, vertical);
  const onePerson = limitOver(horizontal, vertical, travel);
  return {
    mass: massKg,
    ...load,
    inputs: { horizontal, vertical, travel },
    onePerson,
    twoPeople: 2 * TEAM_OF_TWO * limitOver(CLOSE, vertical, travel),
    index: massKg === null ? null : liftingIndex(massKg, onePerson),
  };
}

/** How deep a thing is against the body, and how high it is held. */
interface Held {
  readonly deepMm: number;
  readonly handsMm: number;
}

/** Cymbals in a bag lie in one another: each after the first adds its metal and a cloth. Common practice, no source. mm. */
const NEST_MM = 15;

/** A round thing taken off its stand: carried with its lesser measure forward, the other upright. */
const round = (diameterMm: number, deepMm: number): Held => ({
  deepMm: Math.min(diameterMm, deepMm),
  handsMm: Math.max(diameterMm, deepMm) / 2,
});

/** As it stands on its feet, arms that hold nothing folded in. */
function standing({ pieces }: Load, bodies: readonly Body[], all: PointMass | null): Held {
  const bare = bodies.filter((body) => !isArmBody(body) || pieces.includes(body.piece));
  const own = bare.length > 0 ? bare : bodies;
  const deepMm = keepDeep(own[0], [own], () => {
    const { width, depth } = smallestRectangle(own.map(({ shape }) => shape));
    return Math.min(width, depth);
  });
  return { deepMm, handsMm: all?.at[2] ?? 0 };
}

/** By the first body: a frame stays as deep as it is while a drum is dragged. */
const keepDeep = keeper<number>();

function massOf(bodies: readonly Body[]): PointMass | null {
  const masses: PointMass[] = [];
  for (const { massKg, massCentre: at } of bodies) if (massKg !== null && massKg > 0 && at) masses.push({ massKg, at });
  return massCentre(masses);
}

/** What is joined to a rack or stand of the same load stays on it, as it stands; all else is taken off. */
function groupsOf({ id, pieces }: Load, bodies: readonly Body[]): Iterable<readonly [string, readonly Body[]]> {
  if (pieces.length === 1) return [[id, bodies]];
  const members = new Set(pieces);
  return grouped(bodies, ({ assembly, piece }) => (members.has(assembly) ? assembly : piece));
}

function lifted(plan: Plan, setup: Setup, load: Load, bodies: readonly Body[], all: PointMass): Lifted {
  const held: Held[] = [];
  let nested = 0;
  for (const [id, group] of groupsOf(load, bodies)) {
    const piece = setup.pieces[id];
    const gear = piece?.kind === 'item' ? gearOf(plan.gear, piece.gear) : undefined;
    const isAlone = group.every((body) => body.piece === id);
    if (isAlone && gear?.kind === 'cymbal') {
      held.push(round(gear.diameterMm, gear.profileMm));
      nested++;
    } else if (isAlone && gear?.kind === 'drum' && !group.some(({ touchesFloor }) => touchesFloor))
      held.push(round(gear.diameterMm, gear.depthMm));
    else held.push(standing(load, group, group === bodies ? all : massOf(group)));
  }
  return {
    massKg: bodies.some(({ massKg }) => massKg === null) ? null : all.massKg,
    ...load,
    deepMm: Math.max(...held.map(({ deepMm }) => deepMm)) + NEST_MM * Math.max(0, nested - 1),
    handsMm: Math.min(...held.map(({ handsMm }) => handsMm)),
  };
}

/** By a load's first piece. */
const keepReading = keeper<LiftReading | null>();

export function liftReadings(plan: Plan, setup: Setup, { bodies, deck }: Layout): LiftReading[] {
  const loads = loadsOf(plan, setup);
  const byLoad = bodiesByLoad(loads, bodies);
  const heightMm = deck?.heightMm ?? 0;
  return loads.list.flatMap((load) => {
    const own = byLoad.get(load.id);
    if (!own) return [];
    const make = () => {
      const all = massOf(own);
      return all && liftReading(lifted(plan, setup, load, own, all), heightMm);
    };
    const reading = keepReading(setup.pieces[load.id], [plan.gear, load, own, heightMm], make);
    return reading ? [reading] : [];
  });
}

/**
 * One finding for each load that takes two: clear while two can lift it well within the limit, tight near it or past it. The
 * rest share one, which names the heaviest for its size: each of them can be lifted alone.
 */
export function lift(readings: readonly LiftReading[]): ReturnType<typeof says>[] {
  const base = { bodies: [], source: 'revised lifting equation, NIOSH 94-110 (2021)', at: null };
  const known = readings.flatMap((reading) => (reading.mass ? [{ value: reading.mass, ...reading }] : []));
  const share = ({ value, onePerson }: (typeof known)[number]) => liftingIndex(value, onePerson);
  const loadOf = ({ id, name, pieces }: Load): Load => ({ id, name, pieces });
  const findings = known
    .filter((reading) => isAbove(share(reading), 1))
    .map((reading) => {
      const { id, value, twoPeople } = reading;
      const common = { pieces: [id], ...base, load: loadOf(reading), value } as const;
      if (twoPeople <= 0) return says('lift_too_high', { state: 'unmeasured', ...common, limit: null });
      const isTooMuch = isAbove(value, twoPeople);
      const isNear = isAbove(value, NEAR_PART * twoPeople);
      const code = isTooMuch ? 'take_apart' : isNear ? 'lift_near_two' : 'lift_with_two';
      const state = code === 'lift_with_two' ? 'clear' : 'tight';
      const source = `${base.source}; for two, two thirds of both together`;
      return says(code, { state, ...common, source, limit: twoPeople });
    });
  const alone = known.filter((reading) => !isAbove(share(reading), 1));
  if (alone.length === 0) return findings;
  const worst = alone.reduce((a, b) => (share(b) > share(a) * (1 + ALIKE) ? b : a));
  const code = findings.length > 0 ? 'lift_rest_alone' : 'lift_alone';
  const { id, value, onePerson: limit } = worst;
  return [...findings, says(code, { state: 'clear', ...base, pieces: [id], load: loadOf(worst), value, limit })];
}
