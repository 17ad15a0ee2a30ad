/**
 * Lengths, areas, masses and angles as people write and read them. A leaf: it imports nothing.
 *
 * Inside, everything is mm, m2, kg and radians. Feet, inches and pounds exist only here, at the edges.
 * Exact: 1 in = 25.4 mm and 1 lb = 0.45359237 kg, by definition.
 */
export const MM_PER_IN = 25.4;
export const KG_PER_LB = 0.45359237;
const IN_PER_FT = 12;
const MM_PER_FT = MM_PER_IN * IN_PER_FT;
const M2_PER_FT2 = (MM_PER_FT / 1000) ** 2;
/** A pound-force: a pound times standard gravity, 9.80665 m/s2, by definition. */
const N_PER_LBF = KG_PER_LB * 9.80665;
/** kN/m2 in one lb/ft2: 0.0478802... */
export const KPA_PER_PSF = N_PER_LBF / M2_PER_FT2 / 1000;
export const NM_PER_LB_FT = (N_PER_LBF * MM_PER_FT) / 1000;
const MPA_PER_PSI = N_PER_LBF / MM_PER_IN ** 2;

/** What the user reads lengths in: `mm` goes with m2 and kg, `in` with feet, ft2 and lb. */
export type DisplayUnit = 'mm' | 'in';

export const toRadians = (degrees: number): number => (degrees * Math.PI) / 180;
export const toDegrees = (radians: number): number => (radians * 180) / Math.PI;

export type ParsedLength = { readonly ok: true; readonly mm: number } | { readonly ok: false; readonly reason: string };

const refused = (reason: string): ParsedLength => ({ ok: false, reason });

/** Longest text that is looked at; no length that a person writes comes near it. */
const LONGEST_TEXT = 40;

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅓': '1/3',
  '⅔': '2/3',
};

const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  millimetre: 1,
  millimetres: 1,
  millimeter: 1,
  millimeters: 1,
  cm: 10,
  centimetre: 10,
  centimetres: 10,
  centimeter: 10,
  centimeters: 10,
  m: 1000,
  metre: 1000,
  metres: 1000,
  meter: 1000,
  meters: 1000,
  '"': MM_PER_IN,
  in: MM_PER_IN,
  inch: MM_PER_IN,
  inches: MM_PER_IN,
  "'": MM_PER_FT,
  ft: MM_PER_FT,
  foot: MM_PER_FT,
  feet: MM_PER_FT,
};

/** A whole number with a fraction (`12 1/2`, `12-1/2`), a fraction alone, or a decimal. */
const AMOUNT = String.raw`\d+[ -]\d+\/\d+|\d+\/\d+|\d+(?:\.\d*)?|\.\d+`;
const ONE_UNIT = new RegExp(String.raw`^(${AMOUNT}) ?("|'|[a-z]+)?\.?$`);
const FEET_AND_INCHES = new RegExp(
  String.raw`^(${AMOUNT}) ?(?:'|ft|foot|feet)\.?[ -]*(${AMOUNT}) ?(?:"|in|inch|inches)?\.?$`,
);

/** The value of an AMOUNT; null where it divides by zero. */
function amountOf(text: string): number | null {
  const mixed = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(text);
  if (!mixed) return Number(text);
  const [, whole, over, under] = mixed;
  return Number(under) === 0 ? null : Number(whole ?? 0) + Number(over) / Number(under);
}

/** One way of writing for the many that keyboards and copied sheets bring: primes, curly quotes, vulgar fractions, minus signs. */
function plainly(text: string): string {
  return text
    .normalize('NFC')
    .replace(
      /[½¼¾⅛⅜⅝⅞⅓⅔]/g,
      (sign, at: number, all: string) => (/\d/.test(all[at - 1] ?? '') ? ' ' : '') + VULGAR[sign],
    )
    .replace(/[″”“]|''|′′|’’/g, '"')
    .replace(/[′’‘]/g, "'")
    .replace(/[−–‐‑]/g, '-')
    .replace(/⁄/g, '/')
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/ ?\/ ?/g, '/')
    .toLowerCase();
}

/**
 * Reads a length as a drummer writes it: `6' 8 1/2"`, `80.5 in`, `2.04 m`, `204 cm`, `2040`, `12 1/2"`, `½"`, `-30`.
 *
 * Units:  a number without a unit is in the display unit; after feet it is in inches. The result is mm, rounded to a
 *         millionth of a mm so that a typed decimal comes back as it was typed.
 * Sign:   a leading minus belongs to the whole length.
 * Inputs: any text. What cannot be read gives the reason as a sentence, never a guess.
 */
export function parseLength(text: string, display: DisplayUnit): ParsedLength {
  if (text.length > LONGEST_TEXT) return refused('That is too long to be a length.');
  const plain = plainly(text);
  if (plain === '') return refused(`Write a length, such as ${display === 'in' ? `6' 8 1/2"` : '2040'}.`);
  const negative = /^[-+]/.exec(plain)?.[0] === '-';
  let body = plain.replace(/^[-+] ?/, '');
  if (/\d,\d{3}(?!\d)/.test(body))
    return refused(`"${text.trim()}" can be read two ways; write it without the comma, or with a point for decimals.`);
  body = body.replace(/(\d),(\d)/g, '$1.$2');

  let mm: number | null;
  const both = FEET_AND_INCHES.exec(body);
  const one = both ? null : ONE_UNIT.exec(body);
  if (both) {
    const feet = amountOf(both[1]);
    const inches = amountOf(both[2]);
    mm = feet === null || inches === null ? null : (feet * IN_PER_FT + inches) * MM_PER_IN;
  } else if (one) {
    const unit = one[2] ?? (display === 'in' ? 'in' : 'mm');
    const factor = Object.hasOwn(MM_PER_UNIT, unit) ? MM_PER_UNIT[unit] : undefined;
    if (factor === undefined) return refused(`"${unit}" is no unit known here; use mm, cm, m, in or ft.`);
    const amount = amountOf(one[1]);
    mm = amount === null ? null : amount * factor;
  } else {
    return refused(`"${text.trim()}" is not a length; write it like 6' 8 1/2", 80.5 in, 2.04 m or 2040.`);
  }
  if (mm === null) return refused('A fraction cannot have 0 below its line.');
  const rounded = Math.round(mm * 1e6) / 1e6;
  return { ok: true, mm: negative && rounded !== 0 ? -rounded : rounded };
}

/** A number with at most `decimals` places, without trailing zeros and without a minus on zero. A dash where it is not finite. */
export function formatNumber(value: number, decimals = 1): string {
  if (!Number.isFinite(value)) return '–';
  const fixed = value.toFixed(decimals);
  const short = fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  return short === '-0' ? '0' : short;
}

/** Tubes are known by their inches, and 60 is the longest common one; what is longer is easier read in feet: `46"`, `12 1/2"`, `6' 8 1/2"`. */
const LONGEST_IN_INCHES = 60;

/**
 * Feet and inches to the nearest 1/16, with feet from a number of sixteenths on. After feet the inches are always whole inches, 0 too,
 * before a fraction: a reader who meets 8' 11/16" lays eight feet eleven. `isFull`: also 8' 0" for 8'.
 */
function formatInches(mm: number, feetFrom: number, isFull: boolean): string {
  if (!Number.isFinite(mm)) return '–';
  const sixteenths = Math.round((Math.abs(mm) / MM_PER_IN) * 16);
  const sign = mm < 0 && sixteenths > 0 ? '-' : '';
  const inches = Math.floor(sixteenths / 16);
  let over = sixteenths % 16;
  let under = 16;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  const feet = sixteenths >= feetFrom ? Math.floor(inches / IN_PER_FT) : 0;
  const left = inches - feet * IN_PER_FT;
  if (feet > 0 && left === 0 && over === 0 && !isFull) return `${sign}${feet}'`;
  const parts = [
    ...(feet > 0 ? [`${feet}'`] : []),
    ...(left > 0 || feet > 0 || over === 0 ? [String(left)] : []),
    ...(over > 0 ? [`${over}/${under}`] : []),
  ];
  return `${sign}${parts.join(' ')}"`;
}

/** As a tape is read where many lengths stand below one another, in one style: feet from a foot on, and their inches always: `8' 0"`. */
export const formatTape = (mm: number): string => formatInches(mm, IN_PER_FT * 16, true);

/** With its unit: `1219.2 mm` to a tenth, or feet and inches to 1/16. parseLength reads it back in either display. */
export function formatLength(mm: number, display: DisplayUnit): string {
  if (display === 'in') return formatInches(mm, LONGEST_IN_INCHES * 16 + 1, false);
  return Number.isFinite(mm) ? `${formatNumber(mm, 1)} mm` : '–';
}

/** Square metres as `2.34 m²` or `25.2 ft²`. */
export function formatArea(m2: number, display: DisplayUnit): string {
  if (!Number.isFinite(m2)) return '–';
  return display === 'in' ? `${formatNumber(m2 / M2_PER_FT2, 1)} ft²` : `${formatNumber(m2, 2)} m²`;
}

/** An area of a foot's size: `172 cm²` or `26.7 in²`; as formatArea() has it from a tenth of a square metre on. */
export function formatSmallArea(m2: number, display: DisplayUnit): string {
  if (!Number.isFinite(m2)) return '–';
  if (Math.abs(m2) >= 0.1) return formatArea(m2, display);
  return display === 'in' ? `${formatNumber((m2 * 1e6) / MM_PER_IN ** 2, 1)} in²` : `${formatNumber(m2 * 1e4, 0)} cm²`;
}

/** A turning moment as `25 N m` or `18.4 lb ft`. */
export function formatMoment(newtonMetre: number, display: DisplayUnit): string {
  if (!Number.isFinite(newtonMetre)) return '–';
  return display === 'in'
    ? `${formatNumber(newtonMetre / NM_PER_LB_FT, 1)} lb ft`
    : `${formatNumber(newtonMetre, 1)} N m`;
}

/** A stress within a tube as `157 MPa` or `22771 psi`. */
export function formatStress(mpa: number, display: DisplayUnit): string {
  if (!Number.isFinite(mpa)) return '–';
  return display === 'in' ? `${formatNumber(mpa / MPA_PER_PSI, 0)} psi` : `${formatNumber(mpa, 0)} MPa`;
}

/**
 * What presses on a deck: `4.8 kN/m²`, or `100.3 lb/ft² (4.8 kN/m²)`. Both where feet and inches are read, for a plate may
 * be stamped in either, and whoever reads a number off it must find it here.
 */
export function formatPressure(kPa: number, display: DisplayUnit): string {
  if (!Number.isFinite(kPa)) return '–';
  const metric = `${formatNumber(kPa, 2)} kN/m²`;
  return display === 'in' ? `${formatNumber(kPa / KPA_PER_PSF, 1)} lb/ft² (${metric})` : metric;
}

/** Kilograms as `12.3 kg` or `27.1 lb`. */
export function formatMass(kg: number, display: DisplayUnit): string {
  if (!Number.isFinite(kg)) return '–';
  return display === 'in' ? `${formatNumber(kg / KG_PER_LB, 1)} lb` : `${formatNumber(kg, 1)} kg`;
}

/** Degrees, to a tenth: `12.5°`. */
export function formatAngle(degrees: number): string {
  return Number.isFinite(degrees) ? `${formatNumber(degrees, 1).replace('-', '−')}°` : '–';
}
