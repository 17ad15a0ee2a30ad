/**
 * How to lay a setup's marks with two tapes, alone: for each mark the two datum points and readings that a reading error harms
 * least, in an order with few moves of the tapes, and a control measure.
 *
 * Pairs: a pair of datums serves a mark well where its error is within the tolerance, or, where no pair is, next to the least
 * there is. The pair that serves most marks well is taken first, then the one that serves most of the rest: so most marks need
 * no other hooks. Of several pairs that serve equally many, the one with the least sum of errors.
 * Order: racks first, for all else hangs on them; then pair by pair; within a pair by the angle at its first datum, so that the tapes
 * sweep across the deck once. All marks are laid before anything stands on the deck, so that no tape goes round anything. Pairs and
 * order are chosen before anything is rounded, and from a base line as it is laid in mm: a mark keeps its number whatever units are read.
 * Control: each mark has the distance to one laid before it, or for the first ones to a datum that is not in use: the one whose
 * direction runs most nearly the way in which wrong readings would shift the mark.
 *
 * Units: mm; readings are rounded as they are printed, to 1 mm or 1/16 in, and the shift by that is in the error.
 * Inputs: a layout of this setup. Throws: RangeError when the plan has no such setup.
 */
import { grouped } from '../../gather.ts';
import { deckMargin, prepareDeck } from '../../geometry/deck.ts';
import { disc } from '../../geometry/shapes.ts';
import type { Body } from '../../layout/body.ts';
import { isKit } from '../../layout/body.ts';
import type { Layout } from '../../layout/layout.ts';
import type { Plan } from '../../plan/schema.ts';
import { type DisplayUnit, MM_PER_IN } from '../../units.ts';
import { bodyMargin } from '../riserFit.ts';
import {
  crossingAngle,
  crossingOf,
  FLATTEST_RAD,
  type Point,
  READING_ERROR_MM,
  SHORTEST_TAPE_MM,
  sideOf,
  TOLERANCE_MM,
  worstDirection,
  worstError,
} from './crossing.ts';
import { type Datum, type Datums, datumsOf, inFrame, type MarkFrame } from './datums.ts';
import { type FloorMark, floorMarks, type StageWay, wayOfAngle } from './floorMarks.ts';

/** Readings as printed. */
export const READ_STEP_MM: Readonly<Record<DisplayUnit, number>> = { mm: 1, in: MM_PER_IN / 16 };

export interface Tapes {
  readonly first: Datum;
  readonly second: Datum;
  /** As printed. */
  readonly firstMm: number;
  readonly secondMm: number;
  /** Of the line from the first datum to the second: 1 left, -1 right. */
  readonly side: 1 | -1;
  readonly angleRad: number;
  /** The farthest that the mark can be off: both readings wrong by READING_ERROR_MM, and rounded. */
  readonly errorMm: number;
}

export interface LaidMark {
  /** Its place in the order of laying, from 1. */
  readonly number: number;
  readonly mark: FloorMark;
  /** To stage left of the centre line; to stage right below 0. */
  readonly fromCentreMm: number;
  /** Upstage of the front edge. */
  readonly fromFrontMm: number;
  /** Null where tapes do not serve: then it is laid by its coordinates. */
  readonly tapes: Tapes | null;
  /** Why there are none: every pair of datums crosses too flatly there, or the place is not on the deck at all. */
  readonly refused: 'too_flat' | 'off_deck' | null;
  /** As printed; `to` a datum's letter or the number of a mark laid before. Null where nothing is near enough. */
  readonly control: { readonly to: string | number; readonly distanceMm: number } | null;
}

/** Marks with the same two hooks on the same side of their line. */
export interface TapeGroup {
  /** Racks' marks, or all others. */
  readonly racks: boolean;
  readonly first: Datum;
  readonly second: Datum;
  /** Where the marks lie, seen from the line through the two. */
  readonly way: StageWay;
  readonly marks: readonly LaidMark[];
}

export interface MarkPlan {
  readonly frame: MarkFrame;
  readonly datums: readonly Datum[];
  readonly groups: readonly TapeGroup[];
  /** Laid by coordinates, after the groups. */
  readonly byCoordinates: readonly LaidMark[];
  /** All, in the order of laying. */
  readonly marks: readonly LaidMark[];
  /** Other things on the stage that stand elsewhere than on this deck and are not marked. */
  readonly leftOut: number;
}

/** What rounding by half of the coarser printed step adds to the error at most: both grow alike with the crossing. */
const ROUNDED = 1 + Math.max(...Object.values(READ_STEP_MM)) / 2 / READING_ERROR_MM;
/** Errors that differ by less are as good as each other. */
const ALIKE_MM = 0.25;
/** A contact may stand out over an edge by this before its place counts as off the deck: less than a tape shows. */
const EDGE_MM = 0.5;
/** A control is measured between these; beyond, it needs the other end of the tape held. */
const CONTROL_MM = [150, 3000] as const;

const distance = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Two datums, and the error that wrong readings from them do at a mark. */
interface Hooks {
  readonly first: Datum;
  readonly second: Datum;
  readonly errorMm: number;
}

/** The hooks for one mark, or null where they are refused. */
function hooksFor(mark: Point, first: Datum, second: Datum): Hooks | null {
  if (distance(mark, first.at) < SHORTEST_TAPE_MM || distance(mark, second.at) < SHORTEST_TAPE_MM) return null;
  const angle = crossingAngle(mark, first.at, second.at);
  // A hair below the limit is rounding.
  if (Math.min(angle, Math.PI - angle) < FLATTEST_RAD - 1e-12) return null;
  return { first, second, errorMm: worstError(angle) * ROUNDED };
}

/** The two tapes to one mark, as they are printed. */
function tapesTo(mark: Point, first: Datum, second: Datum, step: number): Tapes {
  const [firstMm, secondMm] = [first, second].map(({ at }) => Math.round(distance(mark, at) / step) * step);
  const side = sideOf(mark, first.at, second.at);
  const angleRad = crossingAngle(mark, first.at, second.at);
  // Rounded lengths that do not cross at all are off by no more than their rounding.
  const printed = crossingOf(first.at, second.at, firstMm, secondMm, side);
  const rounding = printed ? distance(mark, printed) : step;
  return { first, second, firstMm, secondMm, side, angleRad, errorMm: worstError(angleRad) + rounding };
}

/** For each mark the chosen hooks, null where every pair is refused. */
function chooseHooks(marks: readonly Point[], datums: readonly Datum[]): (Hooks | null)[] {
  const pairs = datums.flatMap((first, i) => datums.slice(i + 1).map((second) => ({ first, second })));
  const table = marks.map((mark) => pairs.map(({ first, second }) => hooksFor(mark, first, second)));
  const good = table.map((row) => {
    const least = row.reduce(
      (best, hooks) => Math.min(best, hooks?.errorMm ?? Number.POSITIVE_INFINITY),
      Number.POSITIVE_INFINITY,
    );
    const enough = Math.max(TOLERANCE_MM, least + ALIKE_MM);
    return row.map((hooks) => hooks !== null && hooks.errorMm <= enough);
  });
  const chosen: (Hooks | null)[] = marks.map(() => null);
  const open = new Set([...marks.keys()].filter((k) => good[k].includes(true)));
  while (open.size > 0) {
    let best = { pair: -1, served: [] as number[], sum: 0 };
    pairs.forEach((_, pair) => {
      const served = [...open].filter((k) => good[k][pair]);
      const sum = served.reduce((all, k) => all + table[k][pair]!.errorMm, 0);
      if (served.length > best.served.length || (served.length === best.served.length && sum < best.sum - 1e-9))
        best = { pair, served, sum };
    });
    for (const k of best.served) {
      chosen[k] = table[k][best.pair];
      open.delete(k);
    }
  }
  return chosen;
}

/** Where a side of a line lies, as the stage has it. */
function wayOf(frame: MarkFrame, first: Datum, second: Datum, side: 1 | -1): StageWay {
  const [a, b] = [inFrame(frame, first.at), inFrame(frame, second.at)];
  return wayOfAngle(Math.atan2(side * (b[0] - a[0]), -side * (b[1] - a[1])));
}

/** The control measure of a mark: to whichever of the places its worst shift runs most nearly towards or away from. */
function controlOf(
  mark: Point,
  tapes: Tapes | null,
  places: readonly { to: string | number; at: Point }[],
  step: number,
) {
  const worst = tapes ? worstDirection(mark, tapes.first.at, tapes.second.at) : null;
  let best: { to: string | number; at: Point } | null = null;
  let most = -1;
  for (const place of places) {
    if (place.to === tapes?.first.letter || place.to === tapes?.second.letter) continue;
    const far = distance(mark, place.at);
    if (far < CONTROL_MM[0] || far > CONTROL_MM[1]) continue;
    const [dx, dy] = [(mark[0] - place.at[0]) / far, (mark[1] - place.at[1]) / far];
    const score = worst ? Math.abs(dx * worst[0] + dy * worst[1]) : 1 - far / CONTROL_MM[1];
    if (score > most + 1e-9) {
      most = score;
      best = place;
    }
  }
  return best && { to: best.to, distanceMm: Math.round(distance(mark, best.at) / step) * step };
}

export function markPlan(plan: Plan, setupId: string, layout: Layout): MarkPlan {
  const setup = Object.hasOwn(plan.setups, setupId) ? plan.setups[setupId] : undefined;
  if (!setup) throw new RangeError(`The plan has no setup "${setupId}".`);
  const { deck } = layout;
  const onDeck = (body: Body) => deck === null || bodyMargin(deck, body) >= 0;
  // Without a deck, other things on the stage are the crew's; on it they share the floor with the kit.
  const wanted = (body: Body) => isKit(body) || (deck !== null && onDeck(body));
  const floor = floorMarks(plan, setup, layout, wanted);
  const leftOut = new Set(layout.bodies.filter((body) => !wanted(body)).map(({ piece }) => piece)).size;
  const placesOf = (some: readonly FloorMark[]) => some.map(({ at }) => at);
  const { frame, points: datums }: Datums = datumsOf(plan, setup, layout, placesOf(floor));
  // What the order goes by: the same datums, but for a base line that has other lengths in feet.
  const ordering =
    frame.from === 'baseLine' ? datumsOf({ ...plan, units: 'mm' }, setup, layout, placesOf(floor)).points : datums;
  const printed = new Map(datums.map((datum) => [datum.letter, datum]));
  const step = READ_STEP_MM[plan.units];

  const ready = deck && prepareDeck(deck.modules);
  const isRack = ({ piece }: FloorMark) => Object.hasOwn(setup.pieces, piece) && setup.pieces[piece].kind === 'rack';
  const racksFirst = [...floor.filter(isRack), ...floor.filter((mark) => !isRack(mark))];
  const isOff = ({ at }: FloorMark) => ready !== null && deckMargin(ready, disc(...at, 0)) < -EDGE_MM;
  const off = racksFirst.filter(isOff);
  const within = racksFirst.filter((mark) => !off.includes(mark));
  const chosen = new Map(chooseHooks(placesOf(within), ordering).map((hooks, k) => [within[k], hooks]));

  // Groups in the order in which their pairs serve most marks, racks before all else; within one by the angle at the first hook.
  const keyOf = ({ at }: FloorMark, { first, second }: Hooks) =>
    `${first.letter}${second.letter}${sideOf(at, first.at, second.at)}`;
  const hooked = [...chosen].flatMap(([mark, hooks]) => (hooks ? [{ mark, hooks }] : []));
  const groups = [...grouped(hooked, ({ mark, hooks }) => `${isRack(mark)} ${keyOf(mark, hooks)}`).values()].map(
    (own) => ({
      ...own[0],
      racks: isRack(own[0].mark),
      key: keyOf(own[0].mark, own[0].hooks),
      marks: own.map(({ mark }) => mark),
    }),
  );
  const pairSize = ({ first, second }: Hooks) =>
    hooked.filter(({ hooks }) => hooks.first === first && hooks.second === second).length;
  const ordered = groups.sort(
    (a, b) =>
      Number(b.racks) - Number(a.racks) ||
      pairSize(b.hooks) - pairSize(a.hooks) ||
      a.key.slice(0, 2).localeCompare(b.key.slice(0, 2)) ||
      b.marks.length - a.marks.length,
  );

  const marks: LaidMark[] = [];
  const middle = { to: 'O', at: frame.origin };
  const lay = (mark: FloorMark, tapes: Tapes | null, refused: LaidMark['refused']): LaidMark => {
    const [fromCentreMm, fromFrontMm] = inFrame(frame, mark.at);
    const before = marks
      .filter((other) => other.refused !== 'off_deck')
      .map(({ number, mark: { at } }) => ({ to: number, at }));
    const fixed = [...datums.map(({ letter, at }) => ({ to: letter, at })), middle];
    const control =
      refused === 'off_deck'
        ? null
        : (controlOf(mark.at, tapes, before, step) ?? controlOf(mark.at, tapes, fixed, step));
    const laid = { number: marks.length + 1, mark, fromCentreMm, fromFrontMm, tapes, refused, control };
    marks.push(laid);
    return laid;
  };
  const laidGroups = ordered.map(({ racks, hooks, marks: own }): TapeGroup => {
    const bearing = ({ at }: FloorMark) => {
      const { first, second } = hooks;
      const [a, b] = [second.at[0] - first.at[0], second.at[1] - first.at[1]];
      const [x, y] = [at[0] - first.at[0], at[1] - first.at[1]];
      return Math.abs(Math.atan2(a * y - b * x, a * x + b * y));
    };
    const sorted = [...own].sort((p, q) => bearing(p) - bearing(q) || (p.id < q.id ? -1 : 1));
    const [first, second] = [hooks.first, hooks.second].map(({ letter }) => printed.get(letter)!);
    const laid = sorted.map((mark) => lay(mark, tapesTo(mark.at, first, second, step), null));
    return { racks, first, second, way: wayOf(frame, first, second, laid[0].tapes!.side), marks: laid };
  });
  const flat = within.filter((mark) => chosen.get(mark) === null).map((mark) => lay(mark, null, 'too_flat'));
  const beyond = off.map((mark) => lay(mark, null, 'off_deck'));
  return { frame, datums, groups: laidGroups, byCoordinates: [...flat, ...beyond], marks, leftOut };
}
