/** Numbers are not torn at the end of a line: what the page prints of each unit, and nothing else. */
import { expect, test } from 'vitest';
import { unbroken } from '../../../src/editor/panels/shared/unbroken.ts';
import { formatArea, formatLength, formatMass, formatPressure } from '../../../src/units.ts';

const shown = (text: string) => unbroken(text).replaceAll('\u00a0', '_');

test.each([
  ['move the kit 2 1/8" to stage left, 4 15/16" upstage', 'move the kit 2_1/8" to stage left, 4_15/16" upstage'],
  [`6' 10 1/16" × 5' 2 5/16"`, `6'_10_1/16" × 5'_2_5/16"`],
  [`8' 0" and 8' 0 11/16"`, `8'_0" and 8'_0_11/16"`],
  ['36 to 40 mm of 1 clamp', '36 to 40_mm of 1 clamp'],
  ['5 kg, 0.73 kN/m² and 24.4 ft² of 2 meters', '5_kg, 0.73_kN/m² and 24.4_ft² of 2 meters'],
  ['leg 2 is 3 more, Crash 16 2 times', 'leg 2 is 3 more, Crash 16 2 times'],
])('%s', (text, wanted) => expect(shown(text)).toBe(wanted));

test('law: no printed length, area, weight or load keeps a place to be torn at, but before a second one in brackets', () => {
  for (const display of ['mm', 'in'] as const)
    for (let mm = 1; mm < 9000; mm += 37.3)
      for (const text of [
        formatLength(mm, display),
        formatArea(mm / 1000, display),
        formatMass(mm / 100, display),
        formatPressure(mm / 1000, display),
      ])
        expect(unbroken(text), text).not.toMatch(/ (?!\()/);
});
