/**
 * Each unit that travels against the revised lifting equation (liftingEquation.ts). A unit is a rigid assembly as it stands:
 * taking drums off it makes it lighter, which is the first thing to do where one is too heavy.
 *
 * Inputs assumed, and shown: lifted from the floor on to the deck, hands at the unit's mass centre, straight ahead, now and then,
 * for less than an hour, a fair grip (tubes have no handles). One person holds it against the body with its narrow side
 * forward; two stand at its ends, hands close. The equation itself covers one person; two together are taken as two thirds of
 * the sum of what each could lift (HSE L23 and ISO 11228-1, from memory). It does not cover carrying.
 */
import { smallestRectangle } from '../geometry/rectangle.ts';
import { keeper } from '../keep.ts';
import type { DeckLayout } from '../layout/layout.ts';
import { code, saysOf } from './codes.ts';
import { horizontalEstimate, type LiftTask, liftingIndex, liftLimit } from './liftingEquation.ts';
import type { Assembly } from './stability.ts';

const says = saysOf('lift', {
  lift_alone: code('kg', 'atMost'),
  lift_rest_alone: code('kg', 'atMost'),
  lift_with_two: code('kg', 'atMost'),
  lift_near_two: code('kg', 'atMost'),
  take_apart: code('kg', 'atMost'),
});

export interface LiftReading {
  readonly id: string;
  /** kg; null: something in it is unmeasured. */
  readonly mass: number | null;
  /** cm: H, V at the start, D; as the equation takes them. */
  readonly inputs: { readonly horizontal: number; readonly vertical: number; readonly travel: number };
  /** kg for one person; 0: too deep or too high for any lift by one. */
  readonly onePerson: number;
  /** kg for two, at its ends. */
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

function liftReading({ id, bodies, centre, knownKg, unmeasured }: Assembly, deckHeightMm: number): LiftReading {
  const { width, depth } = smallestRectangle(bodies.map((body) => body.shape));
  const vertical = (centre?.[2] ?? 0) / MM_PER_CM;
  const travel = deckHeightMm / MM_PER_CM;
  const horizontal = horizontalEstimate(Math.min(width, depth) / MM_PER_CM, vertical);
  const mass = unmeasured.length === 0 ? knownKg : null;
  const onePerson = limitOver(horizontal, vertical, travel);
  return {
    id,
    mass,
    inputs: { horizontal, vertical, travel },
    onePerson,
    twoPeople: 2 * TEAM_OF_TWO * limitOver(CLOSE, vertical, travel),
    index: mass === null ? null : liftingIndex(mass, onePerson),
  };
}

/** By assembly: stability.ts keeps one of which nothing moved. */
const keepReading = keeper<LiftReading>();

export function liftReadings(deck: DeckLayout | null, assemblies: readonly Assembly[]): LiftReading[] {
  const heightMm = deck?.heightMm ?? 0;
  return assemblies
    .filter(({ centre }) => centre !== null)
    .map((assembly) => keepReading(assembly, [heightMm], () => liftReading(assembly, heightMm)));
}

/**
 * One finding for each unit that takes two: clear while two can lift it well within the limit, tight near it or past it. The
 * rest share one, which names the heaviest for its size: each of them can be lifted alone.
 */
export function lift(readings: readonly LiftReading[]): ReturnType<typeof says>[] {
  const base = { bodies: [], source: 'revised lifting equation, NIOSH 94-110 (2021)', at: null };
  const known = readings.flatMap(({ id, mass, onePerson, twoPeople }) =>
    mass ? [{ id, value: mass, onePerson, twoPeople }] : [],
  );
  const share = ({ value, onePerson }: (typeof known)[number]) => liftingIndex(value, onePerson);
  const findings = known
    .filter((reading) => share(reading) > 1)
    .map(({ id, value, twoPeople }) => {
      const code = value > twoPeople ? 'take_apart' : value > NEAR_PART * twoPeople ? 'lift_near_two' : 'lift_with_two';
      const state = code === 'lift_with_two' ? 'clear' : 'tight';
      const source = `${base.source}; for two, two thirds of both together`;
      return says(code, { state, ...base, source, pieces: [id], value, limit: twoPeople });
    });
  const alone = known.filter((reading) => share(reading) <= 1);
  if (alone.length === 0) return findings;
  const worst = alone.reduce((a, b) => (share(b) > share(a) * (1 + ALIKE) ? b : a));
  const code = findings.length > 0 ? 'lift_rest_alone' : 'lift_alone';
  return [
    ...findings,
    says(code, { state: 'clear', ...base, pieces: [worst.id], value: worst.value, limit: worst.onePerson }),
  ];
}
