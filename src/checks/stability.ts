/**
 * Does each rigid assembly stand, and how far is it from tipping?
 *
 * An assembly is what stands as one: a rack with all that it carries, a stand with its drum, a throne. Its
 * support polygon is the convex hull of its floor contacts with their whole outlines (Body.touchesFloor), as far as they rest on the
 * deck (resting.ts); its mass centre that of its bodies. The worst direction is that of the least margin: the same for the tip angle and for a push.
 *
 * The push reading is a level push at the assembly's top, its worst height; whether it slides before it tips depends on
 * friction, and a thing that slides first does not tip on that floor.
 */

import { grouped } from '../gather.ts';
import type { Swept } from '../geometry/shapes.ts';
import { keeper } from '../keep.ts';
import type { Body } from '../layout/body.ts';
import { isKit } from '../layout/body.ts';
import type { DeckLayout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { toDegrees } from '../units.ts';
import { checkOf, code, type Measured, type OnePiece, type SomePieces, saysOf } from './codes.ts';
import { loadLimit } from './ownLimits.ts';
import { isOver, restingOn } from './resting.ts';
import { massCentre, type PointMass, pushed, tipAngle, tipMargin } from './statics.ts';
import { isBelow } from './tolerance.ts';

export interface FeetOnDeck {
  /** Floor contacts that rest on the deck wholly; all that it has. */
  readonly onDeck: number;
  readonly feet: number;
}

export const STABILITY = checkOf('stability', {
  word: 'Stability',
  caution:
    'Tip angles are for things at rest on a hard, even floor. Playing, leaning, carpet and cables are not in them: tie, brace or weigh down what could fall on someone.',
  codes: {
    /** `all`: nothing that stands on the floor reaches over the riser's edge. */
    stands: code<Measured & OnePiece & { readonly all: boolean }>(
      'deg',
      'atLeast',
      ({ names: [first], value, limit }, { all }) =>
        `${all ? 'Everything stands' : 'What is on the riser stands'}: ${first} is the least stable, and tips when the floor leans by ${value}; ${limit} is wanted.`,
    ),
    tips_easily: code(
      'deg',
      'atLeast',
      ({ names: [first], value, limit }) =>
        `${first} tips when the floor leans by ${value}, and ${limit} is wanted: set its feet wider, or hang weight lower or further in.`,
    ),
    falls_over: code(
      'deg',
      'atLeast',
      ({ names: [first] }) =>
        `${first} falls over: its weight is not over its feet. Move a foot under it, or move what hangs out.`,
    ),
    /** Some of its feet, not all, rest on the riser: how it stands on those. */
    feet_off_deck: code<Measured & OnePiece & FeetOnDeck>(
      'deg',
      'atLeast',
      ({ names: [first], value, counted }, { onDeck, feet, state }) =>
        `${first} has ${onDeck} of its ${counted(feet, 'foot', 'feet')} on the riser, and ${state === 'blocked' ? 'falls off it' : `tips when the floor leans by ${value}`}: move it onto the riser.`,
    ),
    /** The assembly, then the pieces of it that nobody weighed. */
    mass_unknown: code<SomePieces & { readonly value: null; readonly limit: number }>(
      'deg',
      'atLeast',
      ({ names: [first, ...rest], listed }) =>
        `Whether ${first} stands is not known: nobody has weighed ${rest.length > 0 ? listed(rest) : 'all of it'}. Write the mass into the gear.`,
    ),
  },
});
const says = saysOf(STABILITY);

export interface Assembly {
  readonly id: string;
  readonly pieces: readonly string[];
  readonly bodies: readonly Body[];
  /** Pieces of which some part has no known mass. */
  readonly unmeasured: readonly string[];
  /** Of what is known. kg; mm, null when nothing has mass. */
  readonly knownKg: number;
  readonly centre: readonly [number, number, number] | null;
  readonly contacts: readonly Swept[];
}

/** By its first body and all of them: an assembly of which nothing moved is the same object again. */
const keepAssembly = keeper<Assembly>();

/** The kit's bodies by rigid assembly, in the order of the setup. A mass of null is unknown; bodies without own mass have 0. */
export const assembliesOf = (bodies: readonly Body[]): Assembly[] => byAssembly(bodies.filter(isKit));

/** What stands beside the kit, in the same way: amplifiers, people, wedges, each by itself. */
export const othersOf = (bodies: readonly Body[]): Assembly[] => byAssembly(bodies.filter((body) => !isKit(body)));

function byAssembly(bodies: readonly Body[]): Assembly[] {
  const groups = grouped(bodies, ({ assembly }) => assembly);
  return [...groups].map(([id, group]) => keepAssembly(group[0], [group], () => assemblyOf(id, group)));
}

function assemblyOf(id: string, bodies: readonly Body[]): Assembly {
  const pieces = new Set<string>();
  const unmeasured = new Set<string>();
  const masses: PointMass[] = [];
  const contacts: Swept[] = [];
  for (const { piece, massKg, massCentre: at, touchesFloor, shape } of bodies) {
    pieces.add(piece);
    if (massKg === null) unmeasured.add(piece);
    else if (at && massKg > 0) masses.push({ massKg, at });
    if (touchesFloor) contacts.push(shape);
  }
  const all = massCentre(masses);
  return {
    id,
    pieces: [...pieces],
    bodies,
    unmeasured: [...unmeasured],
    knownKg: all?.massKg ?? 0,
    centre: all?.at ?? null,
    contacts,
  };
}

/** Null wherever a mass is unmeasured or nothing rests on the floor or deck. */
export interface AssemblyReading {
  readonly id: string;
  readonly pieces: readonly string[];
  readonly unmeasured: readonly string[];
  /** kg; mm. */
  readonly mass: number | null;
  readonly centre: readonly [number, number, number] | null;
  /** mm from the mass centre to the nearest tipping line in plan; < 0 outside the feet. */
  readonly tipMargin: number | null;
  /** Degrees that the floor may tilt before it tips. */
  readonly tipAngle: number | null;
  /** Degrees counter-clockwise from the page's x: where it falls first. */
  readonly tipDirection: number | null;
  /** How many of its floor contacts rest wholly on the deck; all of them where there is no riser. */
  readonly feetOnDeck: FeetOnDeck;
  readonly tipPush: {
    /** mm: the assembly's top. N. */
    readonly height: number;
    readonly force: number;
    /** N at which it slides instead, and what comes first. */
    readonly slideForce: number;
    readonly first: 'tips' | 'slides';
    /** mm: pushed lower than this it slides, higher it tips. */
    readonly turnoverHeight: number;
  } | null;
}

const keepReading = keeper<AssemblyReading>();

export function assemblyReadings(
  plan: Plan,
  deck: DeckLayout | null,
  assemblies: readonly Assembly[],
): AssemblyReading[] {
  const friction = loadLimit(plan, 'friction').value;
  return assemblies.map((assembly) =>
    keepReading(assembly, [friction, deck], () => assemblyReading(assembly, deck, friction)),
  );
}

/** What of an assembly's contacts rests on the deck. */
export const restsOf = ({ bodies }: Assembly, deck: DeckLayout | null): readonly Swept[] =>
  bodies.flatMap((body) => (body.touchesFloor ? restingOn(deck, body) : []));

function assemblyReading(assembly: Assembly, deck: DeckLayout | null, friction: number): AssemblyReading {
  const { id, pieces, unmeasured, knownKg, centre, contacts, bodies } = assembly;
  const known = unmeasured.length === 0 && centre !== null;
  const over = bodies.reduce((count, body) => count + (body.touchesFloor && isOver(deck, body) ? 1 : 0), 0);
  const margin = known ? tipMargin(over > 0 ? restsOf(assembly, deck) : contacts, centre[0], centre[1]) : null;
  const height = Math.max(...bodies.map((body) => body.z1));
  const push = margin && height > 0 ? pushed(knownKg, margin.marginMm, height, friction) : null;
  return {
    id,
    pieces,
    unmeasured,
    mass: known ? knownKg : null,
    centre: known ? centre : null,
    tipMargin: margin?.marginMm ?? null,
    tipAngle: margin && centre ? toDegrees(tipAngle(margin.marginMm, centre[2])) : null,
    tipDirection: margin ? toDegrees(margin.directionRad) : null,
    feetOnDeck: { onDeck: contacts.length - over, feet: contacts.length },
    tipPush: push && {
      height,
      force: push.tipN,
      slideForce: push.slideN,
      first: push.first,
      turnoverHeight: push.turnoverHeightMm,
    },
  };
}

/**
 * One finding for each assembly that tips, tips easily, has feet off the riser or parts of unknown mass; when there is none, one for
 * the least stable. Of what is off the riser altogether riserFit.ts speaks: here it only keeps the rest from being called everything.
 */
export function stability(plan: Plan, readings: readonly AssemblyReading[]): ReturnType<typeof says>[] {
  const { value: limit, source } = loadLimit(plan, 'tipAngleDeg');
  const base = { bodies: [], limit, source };
  const findings: ReturnType<typeof says>[] = [];
  let least: AssemblyReading | null = null;
  let all = true;
  for (const reading of readings) {
    const { id, centre, tipMargin: margin, tipAngle: angle, unmeasured } = reading;
    if (unmeasured.length > 0) {
      const pieces = [id, ...unmeasured.filter((piece) => piece !== id)] as const;
      findings.push(says('mass_unknown', { ...base, state: 'unmeasured', pieces, value: null, at: null }));
      continue;
    }
    const { onDeck, feet } = reading.feetOnDeck;
    if (onDeck < feet) all = false;
    if (angle === null || margin === null || centre === null) continue;
    if (onDeck < feet) {
      const state = margin <= 0 ? 'blocked' : 'tight';
      const at = [centre[0], centre[1]] as const;
      findings.push(says('feet_off_deck', { ...base, state, pieces: [id], value: angle, onDeck, feet, at }));
      continue;
    }
    if (least === null || angle < (least.tipAngle ?? 90)) least = reading;
    if (!isBelow(angle, limit)) continue;
    findings.push(
      says(margin <= 0 ? 'falls_over' : 'tips_easily', {
        state: margin <= 0 ? 'blocked' : 'tight',
        ...base,
        pieces: [id],
        value: angle,
        at: [centre[0], centre[1]],
      }),
    );
  }
  if (findings.length === 0 && least?.centre && least.tipAngle !== null)
    findings.push(
      says('stands', {
        state: 'clear',
        ...base,
        pieces: [least.id],
        all,
        value: least.tipAngle,
        at: [least.centre[0], least.centre[1]],
      }),
    );
  return findings;
}
