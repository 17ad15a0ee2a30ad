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
  formatMoment,
  formatNumber,
  KG_PER_LB,
  KPA_PER_PSF,
  MM_PER_IN,
  NM_PER_LB_FT,
  parseLength,
} from '../../../units.ts';
import type { Bounds } from './bounds.ts';

export type Parsed = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly sentence: string };

export interface Measure {
  readonly parse: (text: string) => Parsed;
  readonly format: (value: number) => string;
  /** Arrow key; with Shift; Page keys. In plan units. */
  readonly steps: readonly [number, number, number];
  readonly least: number;
  readonly most: number;
}

/** Reads a field's text: the measure's own reading, then its bounds. */
export function readField(measure: Measure, text: string): Parsed {
  const parsed = measure.parse(text);
  if (!parsed.ok) return parsed;
  const { least, most, format } = measure;
  if (parsed.value < least) return { ok: false, sentence: `The least is ${format(least)}.` };
  return parsed.value > most ? { ok: false, sentence: `The most is ${format(most)}.` } : parsed;
}

/** Whether a text says just what a field holds, to the last digit: what is typed as a rounded value is shown is another value. */
export function isSaid(measure: Measure, text: string, value: number | null): boolean {
  if (value === null) return text.trim() === '';
  const read = readField(measure, text);
  return read.ok && read.value === value;
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

/** Reads `7`, `7.5`, `7,5`, `-7` and whatever of `units` follows, each with its factor to the plan's unit. */
function parseWithUnits(text: string, units: Readonly<Record<string, number>>, bare: number, example: string): Parsed {
  const match = /^\s*([+\-−]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*(\D.*?|)\s*$/.exec(text);
  const factor = match === null ? undefined : match[3] === '' ? bare : units[match[3].toLowerCase()];
  if (match === null || factor === undefined)
    return { ok: false, sentence: `“${text.trim()}” is not a value here. Write it like ${example}.` };
  const size = Number(match[2].replace(',', '.'));
  return { ok: true, value: (match[1] === '' || match[1] === '+' ? size : -size) * factor };
}

export type MeasureKind = 'length' | 'angle' | 'mass' | 'pressure' | 'moment' | 'voltage' | 'load' | 'price' | 'count';
type Way = Pick<Measure, 'parse' | 'format' | 'steps'>;

/** `bare`: what a number without a unit counts. */
const way = (
  units: Readonly<Record<string, number>>,
  bare: number,
  example: string,
  format: Measure['format'],
  steps: Measure['steps'],
): Way => ({ parse: (text) => parseWithUnits(text, units, bare, example), format, steps });

const PRESSURES = { kpa: 1, 'kn/m²': 1, 'kn/m2': 1, psf: KPA_PER_PSF, 'lb/ft²': KPA_PER_PSF, 'lb/ft2': KPA_PER_PSF };
const wayOfCount = (steps: Measure['steps'], example: string): Way => {
  const { parse } = way({}, 1, example, String, steps);
  return {
    parse: (text) => {
      const parsed = parse(text);
      if (!parsed.ok || Number.isInteger(parsed.value)) return parsed;
      return { ok: false, sentence: 'Only whole numbers are counted here.' };
    },
    format: (count) => String(Math.round(count)),
    steps,
  };
};

/** How each kind is read, written and stepped, where lengths are shown in mm and where in inches. */
const WAYS: Readonly<Record<MeasureKind, (display: DisplayUnit) => Way>> = {
  // In inches an arrow key is a sixteenth, with Shift an inch, a page key half a foot.
  length: (display) => ({
    parse: (text) => {
      const parsed = parseLength(text, display);
      return parsed.ok ? { ok: true, value: parsed.mm } : { ok: false, sentence: parsed.reason };
    },
    format: (mm) => formatLength(mm, display),
    steps: display === 'mm' ? [1, 10, 100] : [MM_PER_IN / 16, MM_PER_IN, 6 * MM_PER_IN],
  }),
  // Degrees, counter-clockwise on the page.
  angle: () => way({ '°': 1, deg: 1, degree: 1, degrees: 1 }, 1, '12.5°', formatAngle, [1, 5, 15]),
  mass: (display) => {
    const [bare, example] = display === 'mm' ? [1, '4.2 kg'] : [KG_PER_LB, '9 lb'];
    const units = { kg: 1, g: 1e-3, lb: KG_PER_LB, lbs: KG_PER_LB };
    return way(units, bare, example, (kg) => formatMass(kg, display), [0.1 * bare, bare, 5 * bare]);
  },
  // On a deck; kPa is kN/m².
  pressure: (display) =>
    display === 'mm'
      ? way(PRESSURES, 1, '7.5 kPa', (kPa) => `${formatNumber(kPa)} kPa`, [0.1, 0.5, 1])
      : way(PRESSURES, KPA_PER_PSF, '125 lb/ft²', (kPa) => `${formatNumber(kPa / KPA_PER_PSF, 1)} lb/ft²`, [
          KPA_PER_PSF,
          5 * KPA_PER_PSF,
          25 * KPA_PER_PSF,
        ]),
  // What turns a clamp on its tube.
  moment: (display) => {
    const [bare, example] = display === 'mm' ? [1, '25 N m'] : [NM_PER_LB_FT, '18 lb ft'];
    const feet = { 'lb ft': NM_PER_LB_FT, 'ft lb': NM_PER_LB_FT, 'ft-lb': NM_PER_LB_FT, lbft: NM_PER_LB_FT };
    const units = { nm: 1, 'n m': 1, n·m: 1, ...feet };
    return way(units, bare, example, (newtonMetre) => formatMoment(newtonMetre, display), [bare, 5 * bare, 25 * bare]);
  },
  voltage: () =>
    way({ v: 1, volt: 1, volts: 1, kv: 1000 }, 1, '230 V', (volts) => `${formatNumber(volts)} V`, [1, 10, 100]),
  load: () =>
    way({ w: 1, watt: 1, watts: 1, kw: 1000 }, 1, '1500 W', (watt) => `${formatNumber(watt)} W`, [10, 100, 1000]),
  // In whatever currency the list names.
  price: () => way({}, 1, '24.50', priceText, [1, 10, 100]),
  count: () => wayOfCount([1, 10, 100], '4'),
};

export const priceText = (price: number): string => (Number.isInteger(price) ? String(price) : price.toFixed(2));

/**
 * What the names of the plan's fields end with, by the project's own rule: a name says its unit. And where nothing at all is refused
 * (a tube of no length), the least that anybody measures: there a field begins.
 */
const NAMED: Readonly<Record<MeasureKind, readonly [ending: RegExp, leastOfSome: number]>> = {
  length: [/Mm$/, 1],
  angle: [/Deg$/, 1],
  mass: [/Kg$/, 0.001],
  pressure: [/KPa$/, 0.1],
  moment: [/Nm$/, 0.1],
  voltage: [/^volts$/, 1],
  load: [/W$/, 1],
  price: [/^price$/, 0.01],
  count: [/^(?:count|percentile)$/, 1],
};

const bounded = (one: Way, { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY }: Bounds): Measure => ({
  ...one,
  least,
  most,
});

/** `isAbove`: the least itself is refused. */
export const measureOf = (kind: MeasureKind, display: DisplayUnit, bounds: Bounds = {}, isAbove = false): Measure => {
  const { least = 0, most } = bounds;
  const above = { least: Math.max(least, NAMED[kind][1]), most };
  return bounded(WAYS[kind](display), isAbove ? above : bounds);
};

export interface CountBounds extends Bounds {
  readonly steps: Measure['steps'];
  readonly example: string;
}

/** A whole number of things, stepped as suits them. */
export const countMeasure = ({ steps, example, ...bounds }: CountBounds): Measure =>
  bounded(wayOfCount(steps, example), bounds);

/** What the field at a path measures. Throws: an Error for a name that does not say it. */
export function kindOfField(path: string): MeasureKind {
  const name = path.slice(path.lastIndexOf('.') + 1);
  const kinds = Object.keys(NAMED) as MeasureKind[];
  const found = kinds.find((kind) => NAMED[kind][0].test(name));
  if (found === undefined) throw new Error(`“${name}” does not say what it measures.`);
  return found;
}
