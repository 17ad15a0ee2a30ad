import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatAngle,
  formatArea,
  formatLength,
  formatMass,
  formatMoment,
  formatNumber,
  formatPressure,
  formatSmallArea,
  formatStress,
  formatTape,
  KPA_PER_PSF,
  MM_PER_IN,
  parseLength,
  toDegrees,
  toRadians,
} from '../../src/units.ts';

describe('parseLength', () => {
  test.each([
    // text           in mm display   in inch display
    [`6' 8 1/2"`, 2044.7, 2044.7],
    [`6'8 1/2"`, 2044.7, 2044.7],
    [`6' - 8 1/2"`, 2044.7, 2044.7],
    [`6'-8-1/2"`, 2044.7, 2044.7],
    ['6’ 8½”', 2044.7, 2044.7],
    ['6′ 8 1⁄2″', 2044.7, 2044.7],
    [`6'' `, 152.4, 152.4],
    ['6 ft 8.5 in', 2044.7, 2044.7],
    ['6 feet 8 1/2', 2044.7, 2044.7],
    [`6'8`, 2032, 2032],
    [`6'`, 1828.8, 1828.8],
    ['1 1/2 ft', 457.2, 457.2],
    ['80.5 in', 2044.7, 2044.7],
    ['80.5 In.', 2044.7, 2044.7],
    ['80 1/2 inches', 2044.7, 2044.7],
    ['12 1/2"', 317.5, 317.5],
    ['12-1/2"', 317.5, 317.5],
    ['12½"', 317.5, 317.5],
    ['½"', 12.7, 12.7],
    ['3/8 in', 9.525, 9.525],
    ['2.04 m', 2040, 2040],
    ['2,04 m', 2040, 2040],
    ['1.1m', 1100, 1100],
    ['204 cm', 2040, 2040],
    ['.5 m', 500, 500],
    ['2040 mm', 2040, 2040],
    ['2040', 2040, 51816],
    ['46', 46, 1168.4],
    ['12 1/2', 12.5, 317.5],
    ['3.', 3, 76.2],
    ['-30 mm', -30, -30],
    ['− 3/4 in', -19.05, -19.05],
    ['+5 mm', 5, 5],
    ['0', 0, 0],
    ['-0', 0, 0],
  ])('%s', (text, inMm, inInches) => {
    expect(parseLength(text, 'mm')).toStrictEqual({ ok: true, mm: inMm });
    expect(parseLength(text, 'in')).toStrictEqual({ ok: true, mm: inInches });
  });

  test.each([
    ['', /^Write a length/],
    ['   ', /^Write a length/],
    ['abc', /is not a length/],
    ['six feet', /is not a length/],
    ['6 8', /is not a length/],
    ['1e5', /is not a length/],
    ['NaN', /is not a length/],
    ['Infinity', /is not a length/],
    ['12 in 3 cm', /is not a length/],
    ['8" 6\'', /is not a length/],
    ['--5', /is not a length/],
    ['1.2.3', /is not a length/],
    ['12 furlongs', /"furlongs" is no unit/],
    ['5 constructor', /"constructor" is no unit/],
    ['2,040', /can be read two ways/],
    ['1/0', /fraction/],
    [`6' 1/0"`, /fraction/],
    ['9'.repeat(41), /too long/],
  ])('%s is refused with a sentence', (text, reason) => {
    for (const display of ['mm', 'in'] as const) {
      const parsed = parseLength(text, display);
      expect(parsed.ok).toBe(false);
      if (parsed.ok) return;
      expect(parsed.reason).toMatch(reason);
      expect(parsed.reason).toMatch(/\.$/);
    }
  });

  test('never throws, and what it reads is finite, on any text', () =>
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 50 }),
        fc.constantFrom('mm' as const, 'in' as const),
        (text, display) => {
          const parsed = parseLength(text, display);
          expect(parsed.ok ? Number.isFinite(parsed.mm) : parsed.reason.length > 5).toBe(true);
        },
      ),
    ));
});

describe('formatLength', () => {
  test.each([
    [1168.4, '1168.4 mm', '46"'],
    [2044.7, '2044.7 mm', `6' 8 1/2"`],
    [2040, '2040 mm', `6' 8 5/16"`],
    [2438.4, '2438.4 mm', `8'`],
    [1828.8, '1828.8 mm', `6'`],
    [1828.1, '1828.1 mm', `6'`],
    [1827, '1827 mm', `5' 11 15/16"`],
    [1524, '1524 mm', '60"'],
    [1525.6, '1525.6 mm', `5' 0 1/16"`],
    [1835.15, '1835.2 mm', `6' 0 1/4"`],
    [317.5, '317.5 mm', '12 1/2"'],
    [12.7, '12.7 mm', '1/2"'],
    [-12.7, '-12.7 mm', '-1/2"'],
    [0, '0 mm', '0"'],
    [-0.01, '0 mm', '0"'],
    [0.5, '0.5 mm', '0"'],
    [Number.NaN, '–', '–'],
    [Number.POSITIVE_INFINITY, '–', '–'],
  ])('%f mm', (mm, inMm, inInches) => {
    expect(formatLength(mm, 'mm')).toBe(inMm);
    expect(formatLength(mm, 'in')).toBe(inInches);
  });

  test('no length to 30 ft can be read two ways: a fraction after feet follows its inches', () => {
    for (let k = 0; k <= 30 * 12 * 16; k++) {
      const mm = (k * MM_PER_IN) / 16;
      for (const text of [formatLength(mm, 'in'), formatTape(mm)]) {
        expect(text).toMatch(/^(\d+'|(\d+' )?(\d+|\d+ \d+\/\d+)"|\d+\/\d+")$/);
        const back = parseLength(text, 'mm');
        expect(back.ok && Math.abs(back.mm - mm) < MM_PER_IN / 32, text).toBe(true);
      }
      // Below one another on a sheet: always inches, and feet from a foot on.
      expect(formatTape(mm).includes("'")).toBe(k >= 12 * 16);
      expect(formatTape(mm)).toMatch(/"$/);
    }
    expect(formatLength(8 * 12 * MM_PER_IN + (11 * MM_PER_IN) / 16, 'in')).toBe(`8' 0 11/16"`);
    expect(formatTape(8 * 12 * MM_PER_IN)).toBe(`8' 0"`);
    expect(formatTape(46 * MM_PER_IN)).toBe(`3' 10"`);
  });

  test('is read back within half of its last place, and again as the same text', () =>
    fc.assert(
      fc.property(fc.double({ min: -50_000, max: 50_000, noNaN: true }), (mm) => {
        for (const [display, half] of [
          ['mm', 0.05],
          ['in', MM_PER_IN / 32],
        ] as const) {
          const text = formatLength(mm, display);
          const back = parseLength(text, display);
          expect(back.ok).toBe(true);
          if (!back.ok) return;
          expect(Math.abs(back.mm - mm)).toBeLessThanOrEqual(half + 1e-6);
          expect(formatLength(back.mm, display)).toBe(text);
        }
      }),
    ));
});

describe('other readings', () => {
  test.each([
    [2.3456, 2, '2.35'],
    [10, 1, '10'],
    [100, 0, '100'],
    [-0.04, 1, '0'],
    [1.5, 3, '1.5'],
    [Number.NaN, 1, '–'],
  ])('formatNumber %f to %i places', (value, places, text) => expect(formatNumber(value, places)).toBe(text));

  test('areas: 8 x 8 ft is 64 ft² and 5.95 m²', () => {
    const m2 = (8 * 0.3048) ** 2;
    expect(formatArea(m2, 'in')).toBe('64 ft²');
    expect(formatArea(m2, 'mm')).toBe('5.95 m²');
  });

  test('masses: 23 kg is 50.7 lb', () => {
    expect(formatMass(23, 'mm')).toBe('23 kg');
    expect(formatMass(23, 'in')).toBe('50.7 lb');
  });

  test('areas of a foot: cm² and in², from a tenth of a square metre on as other areas', () => {
    expect(formatSmallArea(0.0172, 'mm')).toBe('172 cm²');
    expect(formatSmallArea(0.0254 ** 2 * 26.5, 'in')).toBe('26.5 in²');
    expect(formatSmallArea(-0.0172, 'mm')).toBe('-172 cm²');
    expect(formatSmallArea(0.1, 'mm')).toBe('0.1 m²');
    expect(formatSmallArea((8 * 0.3048) ** 2, 'in')).toBe('64 ft²');
  });

  // NIST SP 811 (2008), appendix B.8, from memory: 1 lbf/ft2 = 47.880 26 Pa; 1 lbf ft = 1.355 818 N m; 1 psi = 6894.757 Pa; 1 lbf = 4.448 222 N.
  test('loads, by the factors of NIST SP 811', () => {
    expect(KPA_PER_PSF).toBeCloseTo(0.04788026, 8);
    expect(formatPressure(4.788026, 'in')).toBe('100 lb/ft² (4.79 kN/m²)');
    expect(formatPressure(4.788026, 'mm')).toBe('4.79 kN/m²');
    expect(formatMoment(1.355818 * 18.5, 'in')).toBe('18.5 lb ft');
    expect(formatMoment(25, 'mm')).toBe('25 N m');
    expect(formatStress(6.894757, 'in')).toBe('1000 psi');
    expect(formatStress(157.4, 'mm')).toBe('157 MPa');
    for (const format of [formatPressure, formatMoment, formatStress, formatSmallArea])
      expect(format(Number.NaN, 'in')).toBe('–');
  });

  test('angles', () => {
    expect(formatAngle(12.34)).toBe('12.3°');
    expect(formatAngle(-90)).toBe('−90°');
    expect(toRadians(180)).toBe(Math.PI);
    expect(toDegrees(Math.PI / 2)).toBe(90);
  });
});
