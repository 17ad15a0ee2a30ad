/**
 * What has to stand beside answers on which somebody's back, foot or fall may depend: one sentence or two a check, for page,
 * sheets and reports. They say what the number does not cover; they replace nobody's judgement on the spot.
 */
import type { Finding } from '../checks/finding.ts';
import { LIFT_SCOPE } from '../checks/liftingEquation.ts';

const CAUTIONS: Readonly<Record<string, string>> = {
  stability:
    'Tip angles are for things at rest on a hard, even floor. Playing, leaning, carpet and cables are not in them: tie, brace or weigh down what could fall on someone.',
  deckLoad:
    "The deck's limit is its own rating plate as you typed it. Point loads under small feet, swaying and the deck's legs are not in it: the venue, local codes and licensed practice decide.",
  barLoad:
    'Bars are taken as straight, new tubes of common grades, joints as free to turn. Look at dents, cracks and worn clamps yourself.',
  lift: `The lifting limit is for two hands, a firm floor and a few lifts. It does not speak of ${LIFT_SCOPE.slice(0, -1).join(', ')} or ${LIFT_SCOPE[LIFT_SCOPE.length - 1]}. Two people together are an estimate.`,
};

/** The cautions that belong to a setup's findings, each once, in a fixed order. */
export function cautionsOf(findings: readonly Pick<Finding, 'check'>[]): string[] {
  const checks = new Set(findings.map(({ check }) => check));
  return Object.keys(CAUTIONS)
    .filter((check) => checks.has(check))
    .map((check) => CAUTIONS[check]);
}
