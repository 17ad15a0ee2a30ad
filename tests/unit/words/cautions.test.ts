import { expect, test } from 'vitest';
import { cautionsOf } from '../../../src/words/cautions.ts';

test('cautions belong to the checks that spoke, each once', () => {
  expect(cautionsOf([{ check: 'clearance' }])).toEqual([]);
  const said = cautionsOf([{ check: 'lift' }, { check: 'stability' }, { check: 'lift' }]);
  expect(said).toHaveLength(2);
  expect(said[0]).toContain('Tip angles');
  expect(said[1]).toContain('carrying more than a step or two');
  expect(cautionsOf([{ check: 'deckLoad' }])[0]).toContain('rating plate');
});
