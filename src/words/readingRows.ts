/** A setup's readings as rows of a table, and the differences between setups. The numbers themselves come from checks. */
import type { ComparedSetup } from '../checks/compare.ts';
import { countByState, type Finding, type State } from '../checks/finding.ts';
import type { Layout } from '../layout/layout.ts';
import { type DisplayUnit, formatAngle, formatArea, formatLength, formatMass } from '../units.ts';
import { marginText } from './riserWords.ts';
import { STATES } from './states.ts';

export interface Span {
  readonly width: number;
  readonly depth: number;
}

/** What a card and the comparison show of one setup. mm, m², kg; null: nothing to measure, or not measured. */
export interface SetupReadings {
  /** Its riser's id; left out or null: none. */
  readonly riser?: string | null;
  readonly floorHullArea: number | null;
  readonly shadowArea: number | null;
  readonly extent: Span | null;
  readonly smallestRectangle: Span | null;
  readonly riserMargin: number | null;
  readonly wayIn?: number | null;
  /** Nothing rings the throne: one walks in from anywhere. */
  readonly isOpen?: boolean;
  /** What a turn (degrees) and a shift would leave of margin at best, and what a shift alone would. */
  readonly bestRiserPose?: {
    readonly angle: number;
    readonly margin: number;
    readonly within?: number;
    /** Degrees from facing the audience. */
    readonly turnAtMost?: number;
  } | null;
  readonly bestRiserShift?: { readonly margin: number; readonly within?: number } | null;
  /** How far something above the deck reaches out over its edge. */
  readonly overhang?: number | null;
  /** What is known of the mass, and how many pieces nobody weighed (left out: none). */
  readonly massKg?: number | null;
  readonly massUnknown?: number;
  /** m²: what comes down to the deck covers of it. */
  readonly standingArea?: number | null;
  readonly feetOnFloor?: number;
  readonly freeBarMm?: number | null;
  readonly pieceCount: number;
}

export interface ReadingRow {
  readonly key: string;
  readonly label: string;
  /** Which way is better, where one is. */
  readonly better: 'less' | 'more' | null;
  /** Only setups on the same riser are ranked by it. */
  readonly ofRiser?: true;
  readonly value: (readings: SetupReadings) => number | null;
  readonly format: (value: number, units: DisplayUnit) => string;
  /** What stands in the table instead of the single value, where two numbers belong together. */
  readonly text?: (readings: SetupReadings, units: DisplayUnit) => string | null;
}

/** A width and a depth: both are shown, and their area is compared. */
const spanRow = (key: string, label: string, of: (readings: SetupReadings) => Span | null): ReadingRow => ({
  ...{ key, label, better: 'less', format: formatArea },
  value: (readings) => {
    const span = of(readings);
    return span && (span.width * span.depth) / 1e6;
  },
  text: (readings, units) => {
    const span = of(readings);
    return span && `${formatLength(span.width, units)} × ${formatLength(span.depth, units)}`;
  },
});

/** mm: a gap in the proof of a pose below this is not worth a word. */
const WORTH_SAYING_MM = 0.5;

/** What the search for a pose could not rule out where it ran out of time. */
const perhapsMore = ({ margin, within = 0 }: { margin: number; within?: number }, units: DisplayUnit) =>
  within > WORTH_SAYING_MM ? `, perhaps up to ${formatLength(margin + within, units)}` : '';

/** How far a kit might be turned, where that is less than all round. */
const ofTurns = ({ turnAtMost = 180 }: { turnAtMost?: number }) =>
  turnAtMost < 180 ? ` (at most ${formatAngle(turnAtMost)})` : '';

export const READING_ROWS: readonly ReadingRow[] = [
  { key: 'floor', label: 'Floor taken (hull)', better: 'less', value: (r) => r.floorHullArea, format: formatArea },
  { key: 'shadow', label: 'Shadow from above', better: 'less', value: (r) => r.shadowArea, format: formatArea },
  {
    key: 'standing',
    label: 'Floor under feet and pedals',
    better: 'less',
    value: (r) => r.standingArea ?? null,
    format: formatArea,
  },
  { key: 'feet', label: 'Feet on the deck', better: 'less', value: (r) => r.feetOnFloor ?? null, format: String },
  spanRow('extent', 'Width × depth', (r) => r.extent),
  spanRow('rectangle', 'Smallest rectangle', (r) => r.smallestRectangle),
  {
    key: 'margin',
    label: 'Riser margin',
    better: 'more',
    ofRiser: true,
    value: (r) => r.riserMargin,
    format: formatLength,
    text: ({ riserMargin: margin }, units) => (margin === null ? null : marginText(margin, units)),
  },
  {
    key: 'shifted',
    label: 'Best margin, shifted only',
    better: 'more',
    ofRiser: true,
    value: (r) => r.bestRiserShift?.margin ?? null,
    format: formatLength,
    text: ({ bestRiserShift: shift }, units) =>
      shift ? `${marginText(shift.margin, units)}${perhapsMore(shift, units)}` : null,
  },
  {
    key: 'turned',
    label: 'Best margin, turned too',
    better: 'more',
    ofRiser: true,
    value: (r) => r.bestRiserPose?.margin ?? null,
    format: formatLength,
    text: ({ bestRiserPose: pose }, units) =>
      pose
        ? `${marginText(pose.margin, units)} at ${formatAngle(pose.angle)}${ofTurns(pose)}${perhapsMore(pose, units)}`
        : null,
  },
  {
    key: 'overhang',
    label: 'Out over the edge',
    better: 'less',
    ofRiser: true,
    value: (r) => r.overhang ?? null,
    format: formatLength,
  },
  {
    key: 'wayIn',
    label: 'Way in',
    better: 'more',
    value: (r) => r.wayIn ?? null,
    format: formatLength,
    text: (r) => (r.isOpen ? 'open' : null),
  },
  { key: 'free', label: 'Free bar left', better: 'more', value: (r) => r.freeBarMm ?? null, format: formatLength },
  {
    key: 'mass',
    label: 'Mass',
    better: 'less',
    // What nobody weighed would make any comparison a guess.
    value: (r) => (r.massUnknown ? null : (r.massKg ?? null)),
    format: formatMass,
    text: (r, units) =>
      r.massUnknown && r.massKg != null ? `${formatMass(r.massKg, units)}, ${r.massUnknown} not known` : null,
  },
  { key: 'pieces', label: 'Pieces', better: null, value: (r) => r.pieceCount, format: String },
];

export const rowText = (row: ReadingRow, readings: SetupReadings, units: DisplayUnit): string => {
  const text = row.text?.(readings, units);
  if (text !== undefined && text !== null) return text;
  const value = row.value(readings);
  return value === null ? '–' : row.format(value, units);
};

export interface Difference {
  /** `−0.21 m²`, `+35 mm`, `same`. */
  readonly text: string;
  readonly sense: 'better' | 'worse' | 'neither';
}

/** How a setup's reading differs from another's; null where one of them has none. */
export function differenceOf(
  row: ReadingRow,
  readings: SetupReadings,
  against: SetupReadings,
  units: DisplayUnit,
): Difference | null {
  const a = row.value(readings);
  const b = row.value(against);
  if (a === null || b === null) return null;
  const size = row.format(Math.abs(a - b), units);
  if (row.ofRiser && (readings.riser ?? null) !== (against.riser ?? null))
    return { text: 'another riser', sense: 'neither' };
  // What the display's rounding makes nothing is no difference to whoever reads it.
  if (size === row.format(0, units)) return { text: 'same', sense: 'neither' };
  const sense = row.better === null ? 'neither' : a < b === (row.better === 'less') ? 'better' : 'worse';
  return { text: `${a < b ? '−' : '+'}${size}`, sense };
}

/** Which values of a row are the best: better than some, worse than none. */
export function bestOf(row: ReadingRow, all: readonly SetupReadings[], units: DisplayUnit): boolean[] {
  return all.map((mine) => {
    const senses = all.map((other) => (other === mine ? null : differenceOf(row, mine, other, units)?.sense));
    return senses.includes('better') && !senses.includes('worse');
  });
}

/** A compared setup's readings as the rows want them: without a ring round the throne the way in is open. */
export function comparedReadings({
  readings,
  layout,
}: {
  readonly readings: Omit<ComparedSetup['readings'], 'bestRiserPose' | 'bestRiserShift'>;
  readonly layout: Layout;
}): SetupReadings {
  const seated = layout.bodies.some(({ kind }) => kind === 'throne');
  return { ...readings, isOpen: readings.wayIn === null && seated };
}

/** The worst of a setup's findings, and how many share its state. */
export function worstOf(findings: readonly Finding[]): { state: State; count: number } {
  const counts = countByState(findings);
  const state = STATES.find((each) => counts[each] > 0) ?? 'clear';
  return { state, count: counts[state] };
}
