import { expect, test } from 'vitest';
import { listed } from '../../../src/words/names.ts';

test('names stay apart: a comma within one of them is not taken for the next name', () => {
  expect(listed([])).toBe('');
  expect(listed(['Throne'])).toBe('Throne');
  expect(listed(['Throne', 'Bass drum'])).toBe('Throne, Bass drum');
  expect(listed(['Side rack, hi-hat', 'Side rack, floor toms', 'Throne'])).toBe(
    'Side rack, hi-hat; Side rack, floor toms; Throne',
  );
});
