/** The cautions that belong to a setup's findings: they replace nobody's judgement on the spot. */
import type { CheckName, Finding } from '../checks/finding.ts';
import { CHECK_WORDS } from './sentences.ts';

/** Each once, in the order of the checks. */
export function cautionsOf(findings: readonly Pick<Finding, 'check'>[]): string[] {
  const checks = new Set(findings.map(({ check }) => check));
  return (Object.keys(CHECK_WORDS) as CheckName[]).flatMap((check) => {
    const { caution } = CHECK_WORDS[check];
    return caution !== null && checks.has(check) ? [caution] : [];
  });
}
