/**
 * Findings in words, for a drummer: what, where, how much, and the limit. What is said stands with each check's codes (checks/codes.ts);
 * here it gets its names, and its numbers in the plan's units, once for page, sheets and reports.
 */
import type { Check, Told, Unit } from '../checks/codes.ts';
import type { CheckName, Finding } from '../checks/finding.ts';
import { CHECKS } from '../checks/run.ts';
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

/** Every check by its name: what it is called, what has to stand beside it, and a sentence for each code. */
export const CHECK_WORDS = Object.fromEntries(
  CHECKS.flatMap(({ says }): readonly Check[] => says).map((check) => [check.name, check]),
) as { readonly [C in CheckName]: Check };

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
  const told: Told = {
    names: finding.pieces.map((id) => pieceName(plan, setupId, id)),
    value: isShort ? `just ${finding.sense === 'atLeast' ? 'under' : 'over'} ${limit}` : value,
    limit,
    missing: missingText(finding, plan.units, say),
    gear: (id) => gearName(plan, id),
    piece: (id) => pieceName(plan, setupId, id),
    setup: (id) => plan.setups[id]?.name ?? id,
    load: (load) => loadName(plan, setupId, load),
    listed,
    socket: (id, at) => {
      const arm = gearOf(plan.gear, id);
      return socketWord(isArm(arm) ? arm : undefined, at);
    },
    partsOf: ({ pieces, parts }, atStart = true) => {
      const [first, second] = parts.map((part, k) => partName(plan, setupId, pieces[k] ?? pieces[0], part));
      return [atStart ? atSentenceStart(first) : first, second];
    },
    length: (mm) => formatLength(mm, plan.units),
    mass: (kg) => formatMass(kg, plan.units),
    counted,
  };
  return CHECK_WORDS[finding.check].codes[finding.code].sentence(told, finding);
}
