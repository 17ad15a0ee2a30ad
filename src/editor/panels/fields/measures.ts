/**
 * What a field measures: how its text is read, how its value is written, how far one arrow key goes.
 *
 * Fields hold plan values (mm, degrees, kg) and show the user's units; the conversion is units.ts and nothing here.
 */
import {
  type DisplayUnit,
  formatAngle,
  formatLength,
  formatMass,
  formatNumber,
  KG_PER_LB,
  KPA_PER_PSF,
  MM_PER_IN,
  parseLength,
} from '../../../units.ts';

export type Parsed = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly sentence: string };

export interface Measure {
  readonly parse: (text: string) => Parsed;
  readonly format: (value: number) => string;
  /** Arrow key; with Shift; Page keys. In plan units. */
  readonly steps: readonly [number, number, number];
  readonly least: number;
  readonly most: number;
}

export interface Bounds {
  readonly least?: number;
  readonly most?: number;
}

const outOfBounds = (value: number, { least, most }: Measure, format: Measure['format']): string | null => {
  if (value < least) return `The least is ${format(least)}.`;
  if (value > most) return `The most is ${format(most)}.`;
  return null;
};

/** Reads a field's text: the measure's own reading, then its bounds. */
export function readField(measure: Measure, text: string): Parsed {
  const parsed = measure.parse(text);
  if (!parsed.ok) return parsed;
  const sentence = outOfBounds(parsed.value, measure, measure.format);
  return sentence === null ? parsed : { ok: false, sentence };
}

/** One step up (+1) or down (-1), to the next whole step: 33 mm goes by tens to 40 and then 50. */
export function stepped(measure: Measure, value: number, direction: 1 | -1, size: 0 | 1 | 2): number {
  const step = measure.steps[size];
  const count = value / step;
  const near = Math.round(count);
  // A value that a step's rounding put just beside a whole step counts as standing on it.
  const onStep = Math.abs(count - near) < 1e-6;
  const next = onStep ? near + direction : direction > 0 ? Math.ceil(count) : Math.floor(count);
  return Math.min(measure.most, Math.max(measure.least, next * step));
}

/** A length in mm. In inches an arrow key is a sixteenth, with Shift an inch, a page key half a foot. */
export function lengthMeasure(display: DisplayUnit, { least = -50_000, most = 50_000 }: Bounds = {}): Measure {
  return {
    parse: (text) => {
      const parsed = parseLength(text, display);
      return parsed.ok ? { ok: true, value: parsed.mm } : { ok: false, sentence: parsed.reason };
    },
    format: (mm) => formatLength(mm, display),
    steps: display === 'mm' ? [1, 10, 100] : [MM_PER_IN / 16, MM_PER_IN, 6 * MM_PER_IN],
    least,
    most,
  };
}

/** Reads `7`, `7.5`, `7,5`, `-7` and whatever of `units` follows, each with its factor to the plan's unit. */
function parseWithUnits(text: string, units: Readonly<Record<string, number>>, bare: number, example: string): Parsed {
  const match = /^\s*([+\-−]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*(\D.*?|)\s*$/.exec(text);
  const factor = match === null ? undefined : match[3] === '' ? bare : units[match[3].toLowerCase()];
  if (match === null || factor === undefined)
    return { ok: false, sentence: `“${text.trim()}” is not a value here. Write it like ${example}.` };
  const size = Number(match[2].replace(',', '.'));
  return { ok: true, value: (match[1] === '' || match[1] === '+' ? size : -size) * factor };
}

/** An angle in degrees, counter-clockwise on the page. */
export function angleMeasure({ least = -3600, most = 3600 }: Bounds = {}): Measure {
  return {
    parse: (text) => parseWithUnits(text, { '°': 1, deg: 1, degree: 1, degrees: 1 }, 1, '12.5°'),
    format: formatAngle,
    steps: [1, 5, 15],
    least,
    most,
  };
}

/** A mass in kg; bare numbers are pounds where lengths are inches. */
export function massMeasure(display: DisplayUnit, { least = 0, most = 500 }: Bounds = {}): Measure {
  const bare = display === 'mm' ? 1 : KG_PER_LB;
  return {
    parse: (text) =>
      parseWithUnits(
        text,
        { kg: 1, g: 1e-3, lb: KG_PER_LB, lbs: KG_PER_LB },
        bare,
        display === 'mm' ? '4.2 kg' : '9 lb',
      ),
    format: (kg) => formatMass(kg, display),
    steps: [0.1 * bare, bare, 5 * bare],
    least,
    most,
  };
}

/** A voltage, V. */
export function voltageMeasure({ least = 1, most = 1000 }: Bounds = {}): Measure {
  return {
    parse: (text) => parseWithUnits(text, { v: 1, volt: 1, volts: 1, kv: 1000 }, 1, '230 V'),
    format: (volts) => `${formatNumber(volts)} V`,
    steps: [1, 10, 100],
    least,
    most,
  };
}

/** An electric load, W. */
export function loadMeasure({ least = 0, most = 200_000 }: Bounds = {}): Measure {
  return {
    parse: (text) => parseWithUnits(text, { w: 1, watt: 1, watts: 1, kw: 1000 }, 1, '1500 W'),
    format: (watt) => `${formatNumber(watt)} W`,
    steps: [10, 100, 1000],
    least,
    most,
  };
}

/** A pressure on a deck, kPa (which is kN/m²); bare numbers are pounds to the square foot where lengths are inches. */
export function pressureMeasure(display: DisplayUnit, { least = 0.1, most = 50 }: Bounds = {}): Measure {
  const units = { kpa: 1, 'kn/m²': 1, 'kn/m2': 1, psf: KPA_PER_PSF, 'lb/ft²': KPA_PER_PSF, 'lb/ft2': KPA_PER_PSF };
  const [bare, example] = display === 'mm' ? [1, '7.5 kPa'] : [KPA_PER_PSF, '125 lb/ft²'];
  return {
    parse: (text) => parseWithUnits(text, units, bare, example),
    format: (kPa) => (display === 'mm' ? `${formatNumber(kPa)} kPa` : `${formatNumber(kPa / KPA_PER_PSF, 1)} lb/ft²`),
    steps: display === 'mm' ? [0.1, 0.5, 1] : [bare, 5 * bare, 25 * bare],
    least,
    most,
  };
}

/** A price for one, in whatever currency the list names. */
export const PRICE_MEASURE: Measure = {
  parse: (text) => parseWithUnits(text, {}, 1, '24.50'),
  format: (price) => (Number.isInteger(price) ? String(price) : price.toFixed(2)),
  steps: [1, 10, 100],
  least: 0,
  most: 1_000_000,
};

export interface CountBounds {
  readonly least: number;
  readonly most: number;
  readonly steps: Measure['steps'];
  readonly example: string;
}

/** A whole number of things. */
export function countMeasure({ least, most, steps, example }: CountBounds): Measure {
  return {
    parse: (text) => {
      const parsed = parseWithUnits(text, {}, 1, example);
      if (!parsed.ok || Number.isInteger(parsed.value)) return parsed;
      return { ok: false, sentence: 'Only whole numbers are counted here.' };
    },
    format: (count) => String(Math.round(count)),
    steps,
    least,
    most,
  };
}
