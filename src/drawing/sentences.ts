/** Findings in words, for a drummer: what, where, how much, and the limit. The one place, for page, sheets and reports. */
import type { Finding, State } from '../checks/finding.ts';
import { gearOf } from '../gear/catalogue.ts';
import type { BodyKind } from '../layout/body.ts';
import type { Plan } from '../plan/schema.ts';
import { type DisplayUnit, formatAngle, formatArea, formatLength, formatMass, formatNumber } from '../units.ts';

const KIND_WORDS: Readonly<Record<BodyKind, string>> = {
  bassDrum: 'bass drum',
  snare: 'snare',
  tom: 'rack tom',
  floorTom: 'floor tom',
  cymbal: 'cymbal',
  pedal: 'pedal',
  shaft: 'drive shaft',
  throne: 'throne',
  stand: 'stand',
  leg: 'upright',
  foot: 'T-foot',
  bar: 'bar',
  arm: 'arm',
  link: 'link',
  spur: 'spur or drum leg',
  stageItem: 'stage item',
};

const CHECK_WORDS: Readonly<Record<string, string>> = {
  clearance: 'Clearance',
  riserFit: 'Riser fit',
  rack: 'Rack',
  gear: 'Gear',
  driveShaft: 'Drive shaft',
};

export const kindWord = (kind: BodyKind): string => KIND_WORDS[kind];
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
      return `${formatNumber(value, 0)} N`;
    case 'kPa':
      return `${formatNumber(value, 2)} kN/m²`;
    default:
      return formatNumber(value, 2);
  }
}

/** `T-foot of "Left rack"`: the part of a piece that a finding speaks of. */
function bodyWords(plan: Plan, setupId: string, bodyId: string): string {
  const slash = bodyId.lastIndexOf('/');
  return pieceName(plan, setupId, bodyId.slice(0, slash));
}

/** One sentence; a full stop at its end. */
export function findingSentence(finding: Finding, plan: Plan, setupId: string): string {
  const names = finding.pieces.map((id) => pieceName(plan, setupId, id));
  const say = (value: number | null) => (value === null ? 'unknown' : valueText(value, finding.unit, plan.units));
  const [first, second] = names;
  const value = say(finding.value);
  const limit = say(finding.limit);
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
    default: {
      const of = finding.bodies.map((id) => bodyWords(plan, setupId, id)).join(', ') || names.join(', ');
      return `${checkWord(finding.check)}: ${of} ${value}${finding.limit === null ? '' : `, limit ${limit}`}.`;
    }
  }
}
