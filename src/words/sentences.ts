/** Findings in words, for a drummer: what, where, how much, and the limit. The one place, for page, sheets and reports. */
import type { Finding, State, Trade } from '../checks/finding.ts';
import { BODY_KINDS, type BodyKind } from '../gear/bodyKinds.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { Plan } from '../plan/schema.ts';
import {
  type DisplayUnit,
  formatAngle,
  formatArea,
  formatForce,
  formatLength,
  formatMass,
  formatMoment,
  formatNumber,
  formatPressure,
  formatSmallArea,
  formatStress,
} from '../units.ts';

const CHECK_WORDS: Readonly<Record<string, string>> = {
  clearance: 'Clearance',
  riserFit: 'Riser fit',
  rack: 'Rack',
  gear: 'Gear',
  driveShaft: 'Drive shaft',
  wayIn: 'Way in',
  barRoom: 'Room on the bar',
  mountReach: 'Mounts',
  stability: 'Stability',
  deckLoad: 'Deck load',
  barLoad: 'Bars and clamps',
  lift: 'Lifting',
  legless: 'Legless stands',
};

export const kindWord = (kind: BodyKind): string => BODY_KINDS[kind].word;
export const stateWord = (state: State): string => state;
export const checkWord = (check: string): string => CHECK_WORDS[check] ?? check;

/** What a piece is called: its own name, its gear's, or its id. */
export function pieceName(plan: Plan, setupId: string, id: string): string {
  const piece = plan.setups[setupId]?.pieces[id];
  if (!piece) return id;
  if (piece.name) return piece.name;
  return (piece.kind === 'item' ? gearOf(plan.gear, piece.gear)?.name : 'Rack') ?? id;
}

/** A finding's number with its unit, as the plan's user reads it. */
export function valueText(value: number, unit: Finding['unit'], display: DisplayUnit): string {
  switch (unit) {
    case 'mm':
      return formatLength(value, display);
    case 'm2':
      return formatArea(value, display);
    case 'kg':
      return formatMass(value, display);
    case 'deg':
      return formatAngle(value);
    case 'N':
      return formatForce(value, display);
    case 'Nm':
      return formatMoment(value, display);
    case 'MPa':
      return formatStress(value, display);
    case 'kPa':
      return formatPressure(value, display);
    default:
      return formatNumber(value, 2);
  }
}

/** `T-foot of "Left rack"`: the part of a piece that a finding speaks of. */
function bodyWords(plan: Plan, setupId: string, bodyId: string): string {
  const slash = bodyId.lastIndexOf('/');
  return pieceName(plan, setupId, bodyId.slice(0, slash));
}

const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** `Against "Snare stand" it frees 120 cm² of floor ... and costs 1 link and 1 clamp, 1.2 kg`, without a full stop. */
function tradeWords(trade: Trade, plan: Plan): string {
  const { against, setup, floor, hull, feet, links, clamps, partsMass, moreMass } = trade;
  const other = gearOf(plan.gear, against)?.name ?? against;
  const where = setup === null ? '' : `, as it stands in "${plan.setups[setup]?.name ?? setup}"`;
  const area = (m2: number) => formatSmallArea(Math.abs(m2), plan.units);
  const mass = (kg: number) => formatMass(Math.abs(kg), plan.units);
  const does = [`${floor < 0 ? 'takes' : 'frees'} ${area(floor)} of floor`];
  if (feet !== 0)
    does.push(`has ${counted(Math.abs(feet), 'foot', 'feet')} ${feet > 0 ? 'fewer' : 'more'} on the deck`);
  // What the display's rounding makes nothing is no difference to whoever reads it.
  if (area(hull) !== area(0))
    does.push(`makes the hull round all feet ${area(hull)} ${hull > 0 ? 'smaller' : 'larger'}`);
  const weigh = partsMass === null ? 'not all of them weighed' : mass(partsMass);
  const all =
    moreMass === null
      ? ''
      : mass(moreMass) === mass(0)
        ? '; with the stand that weighs the same'
        : `; with the stand that is ${mass(moreMass)} ${moreMass > 0 ? 'heavier' : 'lighter'}`;
  return `Against "${other}"${where}, it ${does.join(', ')}, and costs ${counted(links, 'link')} and ${counted(clamps, 'clamp')}, ${weigh}${all}`;
}

/** One sentence, or two where there is much to say; a full stop at its end. */
export function findingSentence(finding: Finding, plan: Plan, setupId: string): string {
  const names = finding.pieces.map((id) => pieceName(plan, setupId, id));
  const say = (value: number | null) => (value === null ? 'unknown' : valueText(value, finding.unit, plan.units));
  const [first, second] = names;
  const value = say(finding.value);
  const limit = say(finding.limit);
  const gear = (k: number) => {
    const id = finding.gear?.[k];
    return id === undefined ? '' : (gearOf(plan.gear, id)?.name ?? id);
  };
  const trade = finding.trade ? tradeWords(finding.trade, plan) : '';
  const missing = say(Math.abs(finding.value ?? 0));
  const instead = gear(1) ? `take ${gear(1)}, or move it or its clamp` : 'move it or its clamp';
  switch (finding.code) {
    case 'overlap':
      return finding.value === 0
        ? `${first} and ${second} touch: move one of them ${limit} away.`
        : `${first} and ${second} run into each other: move them apart to leave ${limit}.`;
    case 'too_close':
      return `${first} and ${second} are ${value} apart, and ${limit} is wanted.`;
    case 'apart':
      return `Nothing is too close: ${first} and ${second} come nearest, ${value} apart with ${limit} wanted.`;
    case 'off_the_riser':
      return `${first} stands ${say(Math.abs(finding.value ?? 0))} over the riser's edge: move it onto the riser, or turn the kit.`;
    case 'near_the_edge':
      return `${first} stands ${value} from the riser's edge, and ${limit} is wanted.`;
    case 'clamps_overlap':
      return second === undefined
        ? `Two clamps of ${first} take the same ${missing} of the tube: move one along.`
        : `The clamps of ${first} and ${second} take the same ${missing} of the tube: move one along.`;
    case 'clamp_past_end':
      return `The clamp of ${first} stands ${missing} out past the tube's end: move it inwards.`;
    case 'bar_has_room':
      return `All clamps fit: the fullest bar, of ${first}, has a free stretch of ${value}.`;
    case 'way_in_narrow':
      return second === undefined
        ? `${first} leaves a way of ${value} to the throne, and ${limit} is wanted.`
        : `The widest way to the throne, between ${first} and ${second}, is ${value}, and ${limit} is wanted.`;
    case 'way_in_wide':
      return `The way to the throne is wider than ${limit}.`;
    case 'on_the_riser':
      return `Everything stands on the riser: ${first} comes nearest to its edge, ${value} away with ${limit} wanted.`;
    case 'unknown_gear':
      return `${first} is of gear that neither this plan nor the catalogue has, so it cannot be measured: choose its gear.`;
    case 'not_placeable':
      return `${first} is of gear that does not stand by itself, such as a tube or a clamp: choose a drum, a cymbal, a pedal or a stand.`;
    case 'bend_past_turn':
      return `A bar of ${first} would bend past a full turn: give it a larger bend radius or a shorter cut length.`;
    case 'straight_ends_too_long':
      return `A bar of ${first} has straight ends longer than the tube: shorten them, or cut a longer tube.`;
    case 'no_leg_distance':
      return `A bar of ${first} leaves no distance between its two legs: make its overhangs shorter.`;
    case 'bar_too_short':
      return `A second bar of ${first} ends ${value} before the leg: cut a longer tube, or give it less overhang.`;
    case 'shaft_too_short':
      return `The two pedals of ${first} are ${value} apart, and its drive shaft reaches ${limit}: move them together.`;
    case 'shaft_too_long':
      return `The two pedals of ${first} are ${value} apart, and its drive shaft is no shorter than ${limit}: move them apart.`;
    case 'arm_reaches':
      return `Every arm reaches its piece: ${gear(0)} of ${first} has the least room left, ${value}.`;
    case 'arm_misses':
    case 'link_misses':
      return `${gear(0)} of ${first} is ${missing} short of its place: ${instead}.`;
    case 'platform_needs_arm':
      return `${first} is ${value} from a bare socket of ${gear(0)}: take ${gear(1)} as the platform's arm.`;
    case 'socket_taken':
      return `${first} and ${second} stand in one socket of ${gear(0)}: take another socket for one of them.`;
    case 'ball_too_flat':
      return `${first} is tilted ${value} more than the ball joint of ${gear(0)} allows: tilt it less, or take another arm.`;
    case 'nothing_holds_it':
      return `Nothing holds ${first}: mount it on a rack, a stand or another arm.`;
    case 'stands':
      return `Everything stands: ${first} is the least stable, and tips when the floor leans by ${value}; ${limit} is wanted.`;
    case 'tips_easily':
      return `${first} tips when the floor leans by ${value}, and ${limit} is wanted: set its feet wider, or hang weight lower or further in.`;
    case 'falls_over':
      return `${first} falls over: its weight is not over its feet. Move a foot under it, or move what hangs out.`;
    case 'mass_unknown':
      return `Whether ${first} stands is not known: nobody has weighed ${names.length > 1 ? names.slice(1).join(', ') : 'all of it'}. Write the mass into the gear.`;
    case 'rating_unknown':
      return `${value} rests on the riser, and its rating is not stated: read it off the deck's plate.`;
    case 'load_unknown':
      return `At least ${value} rests on the riser, rated ${limit}; not weighed: ${names.join(', ')}.`;
    case 'deck_overloaded':
      return `${value} rests on the riser, and it is rated for ${limit}: take weight off, or ask for a stronger deck.`;
    case 'deck_nearly_full':
      return `${value} rests on the riser, close to its rating of ${limit}.`;
    case 'deck_holds':
      return `The riser holds it: ${value} rests on its most loaded part, and it is rated for ${limit}.`;
    case 'bar_overstressed':
      return `A bar of ${first} is bent with ${value}, and ${limit} is allowed: hang less on it, nearer its legs, or take a stronger tube.`;
    case 'bar_sags':
      return `A bar of ${first} sags by ${value}, and ${limit} is wanted: hang less on it, nearer its legs, or take a stronger tube.`;
    case 'clamp_turns':
      return `${first} turns its clamp with ${value}, and ${limit} is wanted, or it droops: bring it nearer to its clamp, or take a stop collar.`;
    case 'clamp_holds':
      return `No clamp is turned too hard: ${first} turns its own most, with ${value} of ${limit}.`;
    case 'lift_alone':
      return `One person can lift each unit as it stands: ${first} is the heaviest for its size, ${value} of ${limit}.`;
    case 'lift_rest_alone':
      return `One person can lift each of the other units as it stands: ${first} is the heaviest of them for its size, ${value} of ${limit}.`;
    case 'lift_with_two':
      return `${first} needs two to lift it: it weighs ${value} as it stands, and two people should lift no more than ${limit}.`;
    case 'lift_near_two':
      return `${first} needs two to lift it, and is nearly too heavy for them: it weighs ${value} as it stands, and two people should lift no more than ${limit}.`;
    case 'take_apart':
      return `${first} weighs ${value} as it stands, and two people should lift no more than ${limit}: take drums off it first.`;
    case 'legless_frees':
      return `${first} stands without legs. ${trade}.`;
    case 'legless_loose':
      return `${first} has no legs, and no link that ties it reaches: move the stand or its clamp. ${trade}.`;
    case 'legless_untied':
      return `${first} has no legs, and nothing ties it: link it to a rack. ${trade} so far.`;
    default: {
      const of = finding.bodies.map((id) => bodyWords(plan, setupId, id)).join(', ') || names.join(', ');
      return `${checkWord(finding.check)}: ${of} ${value}${finding.limit === null ? '' : `, limit ${limit}`}.`;
    }
  }
}
