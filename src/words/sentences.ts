/**
 * Findings in words, for a drummer: what, where, how much, and the limit. The one place, for page, sheets and reports.
 *
 * CHECK_WORDS has every check and every code of it: one that lacks its words does not compile.
 */
import type { Unit } from '../checks/codes.ts';
import type { CheckName, CodeOf, Finding, FindingOf } from '../checks/finding.ts';
import type { Trade } from '../checks/legless.ts';
import { LIFT_SCOPE } from '../checks/liftingEquation.ts';
import type { Load } from '../checks/loads.ts';
import { isBelow } from '../checks/tolerance.ts';
import type { BodyKind } from '../gear/bodyKinds.ts';
import { gearOf } from '../gear/catalogue.ts';
import { isArm, socketWord } from '../gear/kinds.ts';
import type { Plan } from '../plan/schema.ts';
import {
  type DisplayUnit,
  formatAngle,
  formatArea,
  formatLength,
  formatMass,
  formatMoment,
  formatPressure,
  formatStress,
} from '../units.ts';
import { counted, gearName, listed, loadName, pieceName } from './names.ts';
import { atSentenceStart, partName } from './partWords.ts';

const FORMATS: Readonly<Record<Unit, (value: number, display: DisplayUnit) => string>> = {
  mm: formatLength,
  m2: formatArea,
  kg: formatMass,
  deg: formatAngle,
  kPa: formatPressure,
  Nm: formatMoment,
  MPa: formatStress,
};

/** A finding's number with its unit, as the plan's user reads it. */
export const valueText = (value: number, unit: Unit, display: DisplayUnit): string => FORMATS[unit](value, display);

/** `Against "Snare stand" it frees the 52 cm circle ... and costs 1 link and 1 clamp, 1.2 kg`, without a full stop. */
function tradeWords(trade: Trade, plan: Plan, setupId: string): string {
  const { against, setup, feet, links, clamps, partsMass, moreMass, circle, room } = trade;
  const where = setup === null ? '' : `, as it stands in "${plan.setups[setup]?.name ?? setup}"`;
  const mass = (kg: number) => formatMass(Math.abs(kg), plan.units);
  const beside = (mm: number) => (mm > 0 ? formatLength(mm, plan.units) : 'none');
  const does = [`frees the circle that its legs take, ${formatLength(circle, plan.units)} across`];
  // What the display's rounding makes alike is no difference to whoever reads it.
  if (room && beside(room.now) !== beside(room.before))
    does.push(
      `leaves ${beside(room.now)} beside ${pieceName(plan, setupId, room.piece)} instead of ${beside(room.before)}`,
    );
  if (feet !== 0)
    does.push(`has ${counted(Math.abs(feet), 'foot', 'feet')} ${feet > 0 ? 'fewer' : 'more'} on the deck`);
  const weigh = partsMass === null ? 'not all of them weighed' : mass(partsMass);
  const all =
    moreMass === null
      ? ''
      : mass(moreMass) === mass(0)
        ? '; with the stand that weighs the same'
        : `; with the stand that is ${mass(moreMass)} ${moreMass > 0 ? 'heavier' : 'lighter'}`;
  return `Against "${gearName(plan, against)}"${where}, it ${does.join(', ')}, and costs ${counted(links, 'link')} and ${counted(clamps, 'clamp')}, ${weigh}${all}`;
}

/** What a sentence is made of beside the finding's own fields. */
interface Parts {
  /** Of its pieces, in their order. */
  readonly names: readonly string[];
  /** Its numbers with their unit; 'unknown' where there is none. */
  readonly value: string;
  readonly limit: string;
  /** The value without its sign: how much is missing. */
  readonly missing: string;
  gear(id: string): string;
  load(load: Load): string;
  length(mm: number): string;
  /** A socket of an arm, `left socket`. */
  socket(arm: string, at: number): string;
  trade(trade: Trade): string;
  /** The two parts that a clearance is between; the first as a sentence begins, unless told otherwise. */
  partsOf(found: Between, atStart?: boolean): readonly [string, string];
}

type Between = Pick<FindingOf<'overlap' | 'overlaps_itself'>, 'pieces' | 'parts'>;

type Say<F extends Finding> = (parts: Parts, finding: F) => string;

interface CheckWords<C extends CheckName> {
  readonly word: string;
  /**
   * What has to stand beside answers on which somebody's back, foot or fall may depend, in one sentence or two: what the
   * number does not cover. Null: no such answers.
   */
  readonly caution: string | null;
  /** One sentence, or two where there is much to say; a full stop at its end. */
  readonly says: { readonly [K in CodeOf<C>]: Say<FindingOf<K>> };
}

const OTHER_ARM = 'move its clamp, or take another arm.';

/** What to do about two parts of one rack, or a brace and its stand. */
function rackRemedy({ parts }: FindingOf<'overlaps_itself' | 'too_close_itself'>): string {
  const kinds = parts.map(({ kind }) => kind);
  const has = (kind: BodyKind) => kinds.includes(kind);
  if (has('link')) return 'move its clamp';
  if (!has('bar')) return 'turn a foot, or set the legs farther apart';
  if (has('foot')) return 'raise the bar';
  return has('leg') ? 'move the leg, or bend the bar otherwise' : 'set one bar higher';
}

/** What to do about an arm or link that misses: one that ends before the piece, and one that is too long for it. */
const misses: Say<FindingOf<'arm_misses' | 'link_misses'>> = (
  { names: [first], missing, gear },
  { arm, wouldDo, tooLong },
) =>
  `${gear(arm)} of ${first} is ${missing} ${tooLong ? 'too long for' : 'short of'} its place: ${wouldDo === null ? '' : `take ${gear(wouldDo)}, or `}move it or its clamp.`;

/** `36 to 40 mm`, or one length where both are alike. */
const between = (length: Parts['length'], [low, high]: readonly [number, number]): string =>
  low === high ? length(low) : `${length(low)} to ${length(high)}`;

const instead = (id: string | null, gear: Parts['gear'], otherwise: string): string =>
  id === null ? otherwise : `take ${gear(id)}`;

/** What a stand is set to, where it does not meet what sits on it: at the end of its range, or short of it. */
const standWay = (length: Parts['length'], set: number, end: number, way: 'up' | 'down'): string =>
  way === 'up'
    ? set >= end
      ? `goes up to ${length(end)}: lower the piece, or take a taller stand`
      : `is set to ${length(set)}: raise the stand`
    : set <= end
      ? `goes down to ${length(end)}: raise the piece, or take a lower stand`
      : `is set to ${length(set)}: lower the stand`;

export const CHECK_WORDS: { readonly [C in CheckName]: CheckWords<C> } = {
  clearance: {
    word: 'Clearance',
    caution: null,
    says: {
      overlap: ({ limit, partsOf }, { value, limit: wanted, ...found }) => {
        const [first, second] = partsOf(found);
        if (wanted === 0) return `${first} runs into ${second}, which carries it: ${OTHER_ARM}`;
        return isBelow(value, 0)
          ? `${first} and ${second} run into each other: move them apart to leave ${limit}.`
          : `${first} and ${second} touch: move one of them ${limit} away.`;
      },
      too_close: ({ value, limit, partsOf }, { pieces, parts, upper }) => {
        if (upper === null)
          return `${partsOf({ pieces, parts }).join(' and ')} are ${value} apart, and ${limit} is wanted.`;
        const [over, under] = partsOf(
          upper === 0 ? { pieces, parts } : { pieces: [pieces[1], pieces[0]], parts: [parts[1], parts[0]] },
        );
        return `${over} is ${value} above ${under}, and ${limit} is wanted: raise the one or lower the other.`;
      },
      apart: ({ value, limit, partsOf }, found) =>
        `Nothing is too close: ${partsOf(found, false).join(' and ')} come nearest, ${value} apart with ${limit} wanted.`,
      overlaps_itself: ({ names: [name], partsOf }, found) => {
        const [first, second] = partsOf(found);
        return found.parts[0].kind === 'arm'
          ? `${first} runs through ${name} itself: ${OTHER_ARM}`
          : `${first} and ${second} run into each other: ${rackRemedy(found)}.`;
      },
      too_close_itself: ({ value, limit, partsOf }, found) =>
        `${partsOf(found).join(' and ')} are ${value} apart, and ${limit} is wanted: ${rackRemedy(found)}.`,
    },
  },
  crowd: {
    word: 'Clearance',
    caution: null,
    says: {
      more_pairs: (_, { untold, unlooked }) =>
        [
          ...(untold > 0
            ? [
                `${counted(untold, 'more pair of pieces', 'more pairs of pieces')} ${untold === 1 ? 'is' : 'are'} too close.`,
              ]
            : []),
          ...(unlooked > 0
            ? [`Too much stands in one place: ${unlooked} pairs of parts or more are not checked.`]
            : []),
          'Move pieces apart, the worst first.',
        ].join(' '),
    },
  },
  riserFit: {
    word: 'Riser fit',
    caution: null,
    says: {
      off_the_riser: ({ names: [first], missing }) =>
        `${first} stands ${missing} over the riser's edge: move it onto the riser, or turn the kit.`,
      near_the_edge: ({ names: [first], value, limit }) =>
        `${first} stands ${value} from the riser's edge, and ${limit} is wanted.`,
      on_the_riser: ({ names: [first], value, limit }) =>
        `Everything stands on the riser: ${first} comes nearest to its edge, ${value} away with ${limit} wanted.`,
    },
  },
  rack: {
    word: 'Rack',
    caution: null,
    says: {
      bend_past_turn: ({ names: [first] }) =>
        `A bar of ${first} would bend past a full turn: give it a larger bend radius or a shorter cut length.`,
      straight_ends_too_long: ({ names: [first] }) =>
        `A bar of ${first} has straight ends longer than the tube: shorten them, or cut a longer tube.`,
      no_leg_distance: ({ names: [first] }) =>
        `A bar of ${first} leaves no distance between its two legs: make its overhangs shorter.`,
      bar_too_short: ({ names: [first], value }) =>
        `A second bar of ${first} ends ${value} before the leg: cut a longer tube, or give it less overhang.`,
      bar_in_deck: ({ names: [first], limit }) =>
        `A bar of ${first} lies in the deck: raise it, its middle to ${limit} at least.`,
    },
  },
  gear: {
    word: 'Gear',
    caution: null,
    says: {
      unknown_gear: ({ names: [first] }) =>
        `${first} is of gear that neither this plan nor the catalogue has, so it cannot be measured: choose its gear.`,
      not_placeable: ({ names: [first] }) =>
        `${first} is of gear that does not stand by itself, such as a tube or a clamp: choose a drum, a cymbal, a pedal or a stand.`,
    },
  },
  driveShaft: {
    word: 'Drive shaft',
    caution: null,
    says: {
      shaft_too_short: ({ names: [first], value, limit }) =>
        `The two pedals of ${first} are ${value} apart, and its drive shaft reaches ${limit}: move them together.`,
      shaft_too_long: ({ names: [first], value, limit }) =>
        `The two pedals of ${first} are ${value} apart, and its drive shaft is no shorter than ${limit}: move them apart.`,
    },
  },
  wayIn: {
    word: 'Way in',
    caution: null,
    says: {
      way_in_narrow: ({ names: [first, second], value, limit }, { pieces }) =>
        pieces.length === 1
          ? `${first} leaves a way of ${value} to the throne, and ${limit} is wanted.`
          : `The widest way to the throne, between ${first} and ${second}, is ${value}, and ${limit} is wanted.`,
      way_in_wide: ({ limit }) => `The way to the throne is wider than ${limit}.`,
    },
  },
  barRoom: {
    word: 'Room on the bar',
    caution: null,
    says: {
      clamps_overlap: ({ names: [first, second], missing }, { pieces }) =>
        pieces.length === 1
          ? `Two clamps of ${first} take the same ${missing} of the tube: move one along.`
          : `The clamps of ${first} and ${second} take the same ${missing} of the tube: move one along.`,
      clamp_past_end: ({ names: [first], missing }) =>
        `The clamp of ${first} stands ${missing} out past the tube's end: move it inwards.`,
      bar_has_room: ({ names: [first], value }) =>
        `All clamps fit: the fullest bar, of ${first}, has a free stretch of ${value}.`,
    },
  },
  mountReach: {
    word: 'Mounts',
    caution: null,
    says: {
      arm_reaches: ({ names: [first], value, gear }, { arm }) =>
        `Every arm reaches its piece: ${gear(arm)} of ${first} has the least room left, ${value}.`,
      arm_misses: misses,
      link_misses: misses,
      stand_misses: ({ names: [first], missing, gear }, { arm, wouldDo }) =>
        `${first} is ${missing} beyond the reach of ${gear(arm)}: ${wouldDo === null ? 'move one of them' : `move one of them, or take ${gear(wouldDo)}`}.`,
      platform_needs_arm: ({ names: [first], value, gear }, { arm, wouldDo }) =>
        `${first} is ${value} from a bare socket of ${gear(arm)}: take ${gear(wouldDo)} as the platform's arm.`,
      socket_taken: ({ names: [first, second], gear }, { holder }) =>
        `${first} and ${second} stand in one socket of ${gear(holder ?? '')}: take another socket for one of them.`,
      ball_too_flat: ({ names: [first], value, gear }, { arm }) =>
        `${first} is tilted ${value} more than the ball joint of ${gear(arm)} allows: tilt it less, or take another arm.`,
      nothing_holds_it: ({ names: [first] }) => `Nothing holds ${first}: mount it on a rack, a stand or another arm.`,
    },
  },
  mountFit: {
    word: 'Clamps and sockets',
    caution: null,
    says: {
      clamp_misfits_tube: ({ names: [first], value, gear, length }, { clamp, range, wouldDo }) =>
        `${gear(clamp)} of ${first} takes tubes of ${between(length, range)}, and it is on one of ${value}: ${instead(wouldDo, gear, 'take another clamp')}.`,
      clamp_holds_no_arm: ({ names: [first], gear }, { clamp, wouldDo }) =>
        `${gear(clamp)} holds no arm, so nothing holds ${first}: ${instead(wouldDo, gear, 'take a clamp for an arm')}.`,
      arm_misfits_clamp: ({ names: [first], value, gear, length }, { clamp, arm, range, wouldDo }) =>
        `${gear(arm ?? '')} of ${first} is ${value} thick, and ${gear(clamp)} takes ${between(length, range)}: ${instead(wouldDo, gear, 'take another clamp or arm')}.`,
      arm_misfits_socket: (
        { names: [first], value, gear, length, socket },
        { arm, holder, socket: at, freeSocket, range },
      ) =>
        `${gear(arm)} of ${first} is ${value} thick, and the ${socket(holder, at)} of ${gear(holder)} takes ${between(length, range)}: ${freeSocket === null ? 'take another arm' : `use its ${socket(holder, freeSocket)}`}.`,
      socket_takes_no_such: ({ names: [first], gear, socket }, { arm, holder, socket: at }) =>
        `${gear(arm)} of ${first} does not go into the ${socket(holder, at)} of ${gear(holder)}: only an arm does.`,
      socket_for_toms: ({ names: [first], gear, socket }, { holder, socket: at, freeSocket }) =>
        `${first} is in the ${socket(holder, at)} of ${gear(holder)}, which is for a tom: ${freeSocket === null ? 'take a holder with a rear socket, or check that its arm fits' : `use its ${socket(holder, freeSocket)}`}.`,
      arm_without_clamp: ({ names: [first], gear }, { arm }) =>
        `No clamp holds ${gear(arm)} of ${first} on its tube: choose a clamp.`,
      arm_below_leg_top: ({ names: [first], value, gear }, { arm }) =>
        `${gear(arm)} of ${first} has no clamp and is ${value} below the top of its leg: choose a clamp, or let it into the leg's open top.`,
      arm_misfits_leg: ({ names: [first], value, limit, gear }, { arm }) =>
        `${gear(arm)} of ${first} is ${value} thick and does not go into its leg, ${limit} wide inside: choose a clamp.`,
      leg_top_taken: ({ names: [first, second] }) =>
        `${first} and ${second} are both let into the top of one leg: choose a clamp for one of them.`,
      clamp_without_arm: ({ names: [first], value, limit, gear }, { clamp }) =>
        `${first} is ${value} from its tube, and ${gear(clamp)} alone holds it within ${limit}: choose an arm.`,
      nothing_between: ({ names: [first, second] }) =>
        `${first} is on ${second} without a clamp and an arm, so nothing holds it: choose them.`,
    },
  },
  pedals: {
    word: 'Bass drum pedals',
    caution: null,
    says: {
      pedal_off_drum: ({ names: [first, second], value }) =>
        `${first} is ${value} from the hoop of ${second}: bring it to the hoop, where its clamp holds it.`,
      shaft_through_drum: ({ names: [first, second] }) =>
        `The drive shaft of ${first} runs through ${second}: move its second pedal to the other side, or back.`,
    },
  },
  seats: {
    word: 'Stands and heights',
    caution: null,
    says: {
      beside_its_stand: ({ names: [first, second], value }, { part }) =>
        `${first} is ${value} beside the ${part} of ${second}: put one under the other.`,
      above_its_stand: ({ names: [first, second], value, length }, { part, set, range }) =>
        `${first} is ${value} above the ${part} of ${second}, which ${standWay(length, set, range[1], 'up')}.`,
      below_its_stand: ({ names: [first, second], value, length }, { part, set, range }) =>
        `${first} is ${value} below the ${part} of ${second}, which ${standWay(length, set, range[0], 'down')}.`,
      stand_too_full: ({ names: [first, second], gear }, { stand }) =>
        `${gear(stand)} has no place for ${first}: it holds ${second} already. Take another stand for one of them.`,
      stand_holds_no_such: ({ names: [first, second] }) =>
        `${second} does not hold ${first} by itself: take an arm for it, or another stand.`,
      basket_too_small: ({ names: [first], value, limit, gear }, { stand }) =>
        `${first}, ${value} wide, does not fit into the basket of ${gear(stand)}, which opens to ${limit}: take a larger one.`,
      basket_too_large: ({ names: [first], value, limit, gear }, { stand }) =>
        `${first}, ${value} wide, falls through the basket of ${gear(stand)}, which closes to ${limit}: take a smaller one.`,
      height_too_high: ({ names: [first], value, limit }) =>
        `${first} is set to ${value}, and it goes up to ${limit}: lower it, or measure its gear.`,
      height_too_low: ({ names: [first], value, limit }) =>
        `${first} is set to ${value}, and it goes down to ${limit}: raise it, or measure its gear.`,
    },
  },
  stability: {
    word: 'Stability',
    caution:
      'Tip angles are for things at rest on a hard, even floor. Playing, leaning, carpet and cables are not in them: tie, brace or weigh down what could fall on someone.',
    says: {
      stands: ({ names: [first], value, limit }, { all }) =>
        `${all ? 'Everything stands' : 'What is on the riser stands'}: ${first} is the least stable, and tips when the floor leans by ${value}; ${limit} is wanted.`,
      tips_easily: ({ names: [first], value, limit }) =>
        `${first} tips when the floor leans by ${value}, and ${limit} is wanted: set its feet wider, or hang weight lower or further in.`,
      feet_off_deck: ({ names: [first], value }, { onDeck, feet, state }) =>
        `${first} has ${onDeck} of its ${counted(feet, 'foot', 'feet')} on the riser, and ${state === 'blocked' ? 'falls off it' : `tips when the floor leans by ${value}`}: move it onto the riser.`,
      falls_over: ({ names: [first] }) =>
        `${first} falls over: its weight is not over its feet. Move a foot under it, or move what hangs out.`,
      mass_unknown: ({ names: [first, ...rest] }) =>
        `Whether ${first} stands is not known: nobody has weighed ${rest.length > 0 ? listed(rest) : 'all of it'}. Write the mass into the gear.`,
    },
  },
  deckLoad: {
    word: 'Deck load',
    caution:
      "The deck's limit is its own rating plate as you typed it. Point loads under small feet, swaying and the deck's legs are not in it: the venue, local codes and licensed practice decide.",
    says: {
      rating_unknown: ({ value }) =>
        `${value} rests on the riser, and its rating is not stated: read it off the deck's plate.`,
      load_unknown: ({ names, value, limit }) =>
        `At least ${value} rests on the riser, rated ${limit}; not weighed: ${listed(names)}.`,
      deck_overloaded: ({ value, limit }) =>
        `${value} rests on the riser, and it is rated for ${limit}: take weight off, or ask for a stronger deck.`,
      deck_nearly_full: ({ value, limit }) => `${value} rests on the riser, close to its rating of ${limit}.`,
      deck_holds: ({ value, limit }) =>
        `The riser holds it: ${value} rests on its most loaded part, and it is rated for ${limit}.`,
    },
  },
  barLoad: {
    word: 'Bars and clamps',
    caution:
      "Bars are taken as new tubes of common grades and legs as stiff. What a clamp or joint holds is its maker's to say. Look at dents, cracks and worn clamps yourself.",
    says: {
      bar_overstressed: ({ names: [first], value, limit }) =>
        `A bar of ${first} is bent with ${value}, and ${limit} is allowed: hang less on it, nearer its legs, or take a stronger tube.`,
      bar_sags: ({ names: [first], value, limit }) =>
        `A bar of ${first} sags by ${value}, and ${limit} is wanted: hang less on it, nearer its legs, or take a stronger tube.`,
      clamp_turns: ({ names: [first], value, limit }) =>
        `${first} turns its clamp with ${value}, and ${limit} is wanted, or it droops: bring it nearer to its clamp, or take a stop collar.`,
      clamp_holds: ({ names: [first], value, limit }) =>
        `No clamp is turned too hard: ${first} turns its own most, with ${value} of ${limit}.`,
      bar_turns: ({ names: [first], value, limit }, { leg }) =>
        `A bar of ${first} turns in its joints: ${value} at leg ${leg}, where a joint holds ${limit}. Hang drums on both sides of it, bring them nearer, or add a bar.`,
      joint_slips: ({ names: [first], value, limit }, { leg }) =>
        `A bar of ${first} slips in its joint at leg ${leg}, asked for ${value} of ${limit}, until its other joint holds it: hang weight on its other side, or nearer.`,
      grip_unknown: ({ names: [first], value, limit }, { leg }) =>
        `A bar of ${first} turns its joint at leg ${leg} with ${value}. A plain joint holds ${limit}, and nobody has stated what this one holds: state it under Plan, or hang weight on its other side.`,
      joint_holds: ({ names: [first], value, limit }, { leg }) =>
        `No clamp or joint is turned too hard: a bar of ${first} turns its joint at leg ${leg} most, with ${value} of ${limit}.`,
    },
  },
  lift: {
    word: 'Lifting',
    caution: `The lifting limit is for two hands, a firm floor and a few lifts. It does not speak of ${LIFT_SCOPE.slice(0, -1).join(', ')} or ${LIFT_SCOPE[LIFT_SCOPE.length - 1]}. Two people together are an estimate.`,
    says: {
      lift_alone: ({ value, limit, load }, finding) =>
        `One person can lift each load: ${load(finding.load)} is the heaviest for its size, ${value} of ${limit}.`,
      lift_rest_alone: ({ value, limit, load }, finding) =>
        `One person can lift each of the other loads: ${load(finding.load)} is the heaviest of them for its size, ${value} of ${limit}.`,
      lift_with_two: ({ value, limit, load }, finding) =>
        `${load(finding.load)} needs two to lift it: it weighs ${value}, and two people should lift no more than ${limit}.`,
      lift_near_two: ({ value, limit, load }, finding) =>
        `${load(finding.load)} needs two to lift it, and is nearly too heavy for them: it weighs ${value}, and two people should lift no more than ${limit}.`,
      take_apart: ({ value, limit, load }, finding) =>
        `${load(finding.load)} weighs ${value}, and two people should lift no more than ${limit}: split it, or have more people lift it.`,
      lift_too_high: ({ value, load }, finding) =>
        `${load(finding.load)} weighs ${value}, and would be lifted higher than the lifting limit speaks of: hand it up to someone on the riser.`,
    },
  },
  legless: {
    word: 'Legless stands',
    caution: null,
    says: {
      legless_frees: ({ names: [first], trade }, finding) => `${first} stands without legs. ${trade(finding.trade)}.`,
      legless_loose: ({ names: [first], trade, gear, length }, finding) =>
        `${first} has no legs, and ${gear(finding.link)} that ties it is ${length(finding.missingMm)} ${finding.tooLong ? 'too long' : 'short'}: ${finding.wouldDo === null ? '' : `take ${gear(finding.wouldDo)}, or `}move the stand or its clamp. ${trade(finding.trade)}.`,
      legless_untied: ({ names: [first], trade }, finding) =>
        `${first} has no legs, and nothing ties it: link it to a rack. ${trade(finding.trade)} so far.`,
    },
  },
};

export const checkWord = (check: CheckName): string => CHECK_WORDS[check].word;

/** How much is missing; what is printed as nothing is less than the least that is printed. */
function missingText({ value, unit }: Finding, units: DisplayUnit, say: (value: number) => string): string {
  const missing = Math.abs(value ?? 0);
  const text = say(missing);
  if (unit !== 'mm' || missing === 0 || text !== say(0)) return text;
  return `less than ${units === 'in' ? '1/16"' : '0.1 mm'}`;
}

export function findingSentence(finding: Finding, plan: Plan, setupId: string): string {
  const say = (value: number | null) => (value === null ? 'unknown' : valueText(value, finding.unit, plan.units));
  const [value, limit] = [say(finding.value), say(finding.limit)];
  // What rounding prints as the limit itself is past it all the same.
  const isShort =
    (finding.state === 'tight' || finding.state === 'blocked') && value === limit && finding.sense !== null;
  // Which code goes with which fields is known of each finding, not of all of them at once.
  const says: Readonly<Record<string, Say<never>>> = CHECK_WORDS[finding.check].says;
  const parts: Parts = {
    names: finding.pieces.map((id) => pieceName(plan, setupId, id)),
    value: isShort ? `just ${finding.sense === 'atLeast' ? 'under' : 'over'} ${limit}` : value,
    limit,
    missing: missingText(finding, plan.units, say),
    gear: (id) => gearName(plan, id),
    load: (load) => loadName(plan, setupId, load),
    length: (mm) => formatLength(mm, plan.units),
    socket: (id, at) => {
      const arm = gearOf(plan.gear, id);
      return socketWord(isArm(arm) ? arm : undefined, at);
    },
    trade: (trade) => tradeWords(trade, plan, setupId),
    partsOf: ({ pieces, parts }, atStart = true) => {
      const [first, second] = parts.map((part, k) => partName(plan, setupId, pieces[k] ?? pieces[0], part));
      return [atStart ? atSentenceStart(first) : first, second];
    },
  };
  return says[finding.code](parts, finding as never);
}
