/** What fields read and how they step. */
import { describe, expect, test } from 'vitest';
import { measureOf, readField, stepped } from '../../../src/editor/panels/fields/measures.ts';
import { KG_PER_LB, MM_PER_IN } from '../../../src/units.ts';

describe('lengths', () => {
  test.each([
    ['feet and inches', 'in', `6' 8 1/2"`, 80.5 * MM_PER_IN],
    ['inches with a unit, in a metric plan', 'mm', '80.5 in', 80.5 * MM_PER_IN],
    ['metres', 'in', '2.04 m', 2040],
    ['a bare number is in the display unit', 'mm', '2040', 2040],
    ['a bare number is in the display unit', 'in', '40', 1016],
  ] as const)('%s', (_, display, text, mm) => {
    const read = readField(measureOf('length', display), text);
    expect(read).toMatchObject({ ok: true });
    if (read.ok) expect(read.value).toBeCloseTo(mm, 9);
  });

  test.each([
    ['nonsense', 'twelve'],
    ['nothing', ''],
    ['two numbers', '1 2 3'],
  ])('%s is refused in a sentence', (_, text) => {
    const read = readField(measureOf('length', 'mm'), text);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.sentence).toMatch(/^[A-Z“"].*\.$/);
  });

  test('bounds are said in the user’s unit', () => {
    expect(readField(measureOf('length', 'in', { least: 0, most: 508 }), '21')).toEqual({
      ok: false,
      sentence: 'The most is 20".',
    });
    expect(readField(measureOf('length', 'mm', { least: 0 }), '-1')).toEqual({
      ok: false,
      sentence: 'The least is 0 mm.',
    });
  });

  test.each(['mm', 'in'] as const)('what is shown reads back as itself in %s', (display) => {
    const measure = measureOf('length', display);
    for (let sixteenths = -200; sixteenths <= 2000; sixteenths += 7) {
      const mm = display === 'in' ? (sixteenths * MM_PER_IN) / 16 : sixteenths / 10;
      const read = readField(measure, measure.format(mm));
      expect(read.ok && Math.abs(read.value - mm), measure.format(mm)).toBeLessThan(1e-6);
    }
  });
});

describe('other measures', () => {
  test.each([
    ['degrees', measureOf('angle', 'mm'), '12.5°', 12.5],
    ['degrees in words', measureOf('angle', 'mm'), '-90 degrees', -90],
    ['a real minus sign', measureOf('angle', 'mm'), '−7,5', -7.5],
    ['kilograms', measureOf('mass', 'in'), '4.2 kg', 4.2],
    ['grams', measureOf('mass', 'mm'), '850 g', 0.85],
    ['bare pounds in an inch plan', measureOf('mass', 'in'), '9', 9 * KG_PER_LB],
    // 1 lbf/ft2 = 47.88025898 Pa: NIST SP 811, appendix B.8.
    ['pounds per square foot', measureOf('pressure', 'mm'), '100 psf', 4.788025898],
    ['a bare number where lengths are inches', measureOf('pressure', 'in'), '100', 4.788025898],
    ['a unit with a digit', measureOf('pressure', 'mm'), '100 lb/ft2', 4.788025898],
    ['a bare number where they are metric', measureOf('pressure', 'mm'), '4,8', 4.8],
  ])('%s', (_, measure, text, value) => {
    const read = readField(measure, text);
    expect(read.ok && read.value).toBeCloseTo(value, 9);
  });

  test('an unknown unit is refused, not guessed', () => {
    expect(readField(measureOf('angle', 'mm'), '2 rad').ok).toBe(false);
    expect(readField(measureOf('mass', 'mm'), '3 stone').ok).toBe(false);
    expect(readField(measureOf('mass', 'mm'), 'constructor').ok).toBe(false);
    expect(readField(measureOf('mass', 'mm'), '3 toString').ok).toBe(false);
  });
});

describe('arrow keys', () => {
  const mm = measureOf('length', 'mm', { least: 0, most: 100 });
  test.each([
    ['a step up', 33, 1, 0, 34],
    ['by tens to the next ten', 33, 1, 1, 40],
    ['from a whole ten to the next', 40, 1, 1, 50],
    ['down to the ten below', 33, -1, 1, 30],
    ['held at the most', 95, 1, 1, 100],
    ['held at the least', 0.4, -1, 1, 0],
    ['a half goes to the whole step', 33.5, 1, 0, 34],
  ] as const)('%s', (_, from, direction, size, to) => {
    expect(stepped(mm, from, direction, size)).toBe(to);
  });

  test('sixteenths of an inch stay sixteenths over a hundred steps', () => {
    const inches = measureOf('length', 'in');
    let value = 1016;
    for (let i = 0; i < 100; i++) value = stepped(inches, value, 1, 0);
    expect(value).toBeCloseTo(1016 + (100 / 16) * MM_PER_IN, 9);
    expect(inches.format(value)).toBe('46 1/4"');
  });
});
