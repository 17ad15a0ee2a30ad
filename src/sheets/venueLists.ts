/**
 * The venue sheet's lists: inputs, monitor mixes, power, cable runs, what the venue provides, contact, cautions. Tables run
 * over pages; a text too long for its column runs over lines, so that nothing of it is lost.
 *
 * Units: mm on paper.
 */
import { TEXT_MM } from '../drawing/displayList.ts';
import { INPUT_HEADING, inputList } from '../lists/inputList.ts';
import { mixList } from '../lists/mixes.ts';
import { powerOf } from '../lists/power.ts';
import { stageItems } from '../lists/stageItems.ts';
import type { Cable, Item, Plan, Setup } from '../plan/schema.ts';
import { runLengthMm, stageFrontY, stageOf } from '../plan/stages.ts';
import { formatNumber } from '../units.ts';
import { wholeLength } from '../words/markWords.ts';
import { type Block, type BlockGroup, beside, stacked } from './blocks.ts';
import { LEADING, type Page } from './page.ts';
import { broken, type Column, MOST_LINES, Table } from './table.ts';

const SMALL = TEXT_MM.small;
const LINE_MM = SMALL * LEADING;
const HEADING_MM = 6;
const heading = (text: string): Block => ({
  heightMm: HEADING_MM,
  draw: (page, x, topMm) => {
    if (text !== '') page.text(text, x, topMm - HEADING_MM + 1.8, { bold: true, sizeMm: TEXT_MM.normal * 0.9 });
  },
});

interface ColumnShare extends Omit<Column, 'widthMm'> {
  readonly share: number;
}

const columnsOf = (shares: readonly ColumnShare[], widthMm: number): Column[] => {
  const all = shares.reduce((sum, { share }) => sum + share, 0);
  return shares.map(({ share, ...column }) => ({ ...column, widthMm: (share / all) * widthMm }));
};

export interface ListPlace {
  readonly widthMm: number;
  /** Of a row with one line. */
  readonly rowMm: number;
}

function tableGroup(
  measurer: Page,
  title: string,
  shares: readonly ColumnShare[],
  rows: readonly (readonly string[])[],
  { widthMm, rowMm }: ListPlace,
  sums: readonly string[] = [],
): BlockGroup[] {
  if (rows.length === 0) return [];
  const table = new Table(measurer, columnsOf(shares, widthMm), { rowMm, wraps: true, grid: true });
  const titles = table.titles();
  return [
    {
      head: stacked([heading(title), titles]),
      continued: stacked([heading(`${title}, continued`), titles]),
      rows: [
        ...rows.flatMap((cells) => table.row({ cells })),
        ...sums.flatMap((text) => table.row({ cells: [{ text, bold: true, span: shares.length }] })),
      ],
    },
  ];
}

type Words = readonly [title: string, lines: readonly string[]];
const COLUMN_GAP_MM = 6;

/** Lines of words under a heading. */
function words(measurer: Page, title: string, lines: readonly string[], { widthMm }: ListPlace): BlockGroup[] {
  if (lines.length === 0) return [];
  const rows = lines.flatMap((text) =>
    broken(measurer, { text }, widthMm).map(
      (line): Block => ({
        heightMm: LINE_MM,
        draw: (page, x, topMm) => page.text(line.text, x, topMm - SMALL),
      }),
    ),
  );
  return [{ head: heading(title), continued: heading(`${title}, continued`), rows }];
}

/** Two lists of words, the second beside the first where it is short. */
function wordsBeside(measurer: Page, first: Words, second: Words, place: ListPlace): BlockGroup[] {
  const half = (place.widthMm - COLUMN_GAP_MM) / 2;
  const [left] = words(measurer, ...first, { ...place, widthMm: half });
  const [right] = words(measurer, ...second, { ...place, widthMm: half });
  if (!left || !right || Math.max(left.rows.length, right.rows.length) > MOST_LINES)
    return [...words(measurer, ...first, place), ...words(measurer, ...second, place)];
  const { head, rows } = beside(left, right, half + COLUMN_GAP_MM);
  return [{ head, rows }];
}

const BY_WORDS = { microphone: '', di: 'DI', line: 'line' } as const;

const inputRows = (plan: Plan, setup: Setup): string[][] =>
  inputList(plan, setup).map(({ number, source, by, device, stand, phantom, note }) => [
    String(number),
    source,
    device || BY_WORDS[by],
    stand,
    phantom ? 'yes' : '',
    note,
  ]);

const mixRows = (plan: Plan, setup: Setup): string[][] =>
  mixList(plan, setup).map(({ number, mix: { name, by, wants }, wedges }) => {
    const heard = by === 'inEar' ? 'by ear' : wedges > 1 ? `${wedges} wedges` : 'wedge';
    return [String(number), name, heard, wants ?? ''];
  });

/** Nearer to the centre line than this is on it, mm. */
const ON_LINE_MM = 1;

/** Where something stands on the stage, as a crew would ask: from the centre line, and from the stage's front edge. */
function placeText(plan: Plan, setup: Setup, { xMm, yMm }: Item['place'], centreX: number): string {
  const off = xMm - centreX;
  const side = off > 0 ? 'stage left' : 'stage right';
  const across =
    Math.abs(off) < ON_LINE_MM ? 'on the centre line' : `${wholeLength(Math.abs(off), plan.units)} ${side}`;
  const stage = stageOf(plan, setup);
  const front = stage ? stageFrontY(stage, xMm) : null;
  return front === null ? across : `${across}, ${wholeLength(yMm - front, plan.units)} from the front edge`;
}

const ampere = (current: number): string => `${formatNumber(current, 1)} A`;

function powerRows(plan: Plan, setup: Setup, centreX: number): { rows: string[][]; totals: string[] } {
  const { drops, sums, unknown } = powerOf(plan, stageItems(plan, setup, 'power'));
  const rows = drops.map(({ item, name, volts, loadW, leastA }) => [
    name,
    volts === null ? 'not given' : `${formatNumber(volts, 0)} V`,
    loadW === null ? 'not given' : `${formatNumber(loadW, 0)} W`,
    leastA === null ? '' : ampere(leastA),
    placeText(plan, setup, item.place, centreX),
  ]);
  const totals = sums.map(
    ({ volts, loadW, leastA }) =>
      `Total at ${formatNumber(volts, 0)} V: ${formatNumber(loadW, 0)} W, ${ampere(leastA)} at least`,
  );
  const missing = unknown === 1 ? 'the load of one drop is not given' : `the loads of ${unknown} drops are not given`;
  const last = totals.pop();
  return { rows, totals: last === undefined ? [] : [...totals, unknown > 0 ? `${last}; ${missing}` : last] };
}

/** What can hurt somebody on a stage. Common practice, no source; it replaces nobody's judgement. */
const CAUTIONS = [
  'Power: only licensed persons connect, distribute and test it. Loads are what the band typed, currents the least that these loads draw.',
  'Load: riser and stage carry what their rating plates say; a riser without one is for the venue to judge. Point loads under small feet are not in the figures.',
  'Fall: the edges of riser and stage are drops. Mark them so that they are seen in the dark, secure the riser, and give it a step.',
  'Lifting: racks, risers and amplifiers need as many hands as their mass asks for. Cable runs are to be covered where people walk.',
  'Local codes, the venue and licensed practice decide, not this sheet.',
];

const INPUT_COLUMNS: readonly ColumnShare[] = [
  { title: 'Ch', share: 8, anchor: 'end' },
  { title: 'Source', share: 46 },
  { title: 'Microphone or DI', share: 48 },
  { title: 'Stand', share: 32 },
  { title: '48 V', share: 11, anchor: 'middle' },
  { title: 'Note', share: 45 },
];
/** The same without notes in half a page's width. */
const HALF_COLUMNS: readonly ColumnShare[] = [
  { title: 'Ch', share: 7, anchor: 'end' },
  { title: 'Source', share: 23 },
  { title: 'Microphone or DI', share: 38 },
  { title: 'Stand', share: 17 },
  { title: '48 V', share: 8, anchor: 'middle' },
];
/** Where a note stands in a row of the input list. */
const NOTE_CELL = 5;

/**
 * The input list to stand beneath a drawing: null where it is not all there is to list. `halves`: in two halves side by side,
 * which is null where it has notes, or a text that would not fit a line of its column.
 */
export function inputsBeneath(
  measurer: Page,
  plan: Plan,
  setup: Setup,
  place: ListPlace,
  halves: boolean,
): BlockGroup | null {
  const rows = inputRows(plan, setup);
  if (rows.length < 2 || hasOtherLists(plan, setup)) return null;
  const title = setup.inputs ? 'Input list' : INPUT_HEADING;
  if (!halves) return tableGroup(measurer, title, INPUT_COLUMNS, rows, place)[0];
  if (rows.some((cells) => cells[NOTE_CELL] !== '')) return null;
  const texts = rows.map((cells) => cells.slice(0, NOTE_CELL));
  const middle = Math.ceil(texts.length / 2);
  const widthMm = (place.widthMm - COLUMN_GAP_MM) / 2;
  const [left] = tableGroup(measurer, title, HALF_COLUMNS, texts.slice(0, middle), { ...place, widthMm });
  const [right] = tableGroup(measurer, '', HALF_COLUMNS, texts.slice(middle), { ...place, widthMm });
  const fits = [...left.rows, ...right.rows].every(({ heightMm }) => heightMm <= place.rowMm);
  return fits ? beside(left, right, widthMm + COLUMN_GAP_MM) : null;
}

/** All lists of a setup, in the order of a soundcheck. `figures`: more lists before them, as the drawing had no room. */
export function listGroups(measurer: Page, plan: Plan, setup: Setup, centreX: number, place: ListPlace): BlockGroup[] {
  const mixes: ColumnShare[] = [
    { title: 'Mix', share: 8, anchor: 'end' },
    { title: 'For', share: 46 },
    { title: 'Heard by', share: 24 },
    { title: 'Wants', share: 112 },
  ];
  const power: ColumnShare[] = [
    { title: 'Power drop', share: 46 },
    { title: 'Voltage', share: 18, anchor: 'end' },
    { title: 'Load', share: 20, anchor: 'end' },
    { title: 'At least', share: 18, anchor: 'end' },
    { title: 'From the centre line, and from the stage’s front edge', share: 88 },
  ];
  const cables: ColumnShare[] = [
    { title: 'Run', share: 8, anchor: 'end' },
    { title: 'What', share: 142 },
    { title: 'Length as drawn', share: 40, anchor: 'end' },
  ];
  const { rows, totals } = powerRows(plan, setup, centreX);
  const lengthOf = (cable: Cable) => wholeLength(runLengthMm(cable), plan.units);
  const runs = (setup.cables ?? []).map((cable, k) => [String(k + 1), cable.note, lengthOf(cable)]);
  const filled = (lines: readonly string[]) => lines.filter((line) => line.trim() !== '');
  const provides = filled(setup.venueProvides ?? []).map((line) => `–  ${line}`);
  const contact = filled((plan.contact ?? '').split('\n'));
  return [
    ...tableGroup(measurer, setup.inputs ? 'Input list' : INPUT_HEADING, INPUT_COLUMNS, inputRows(plan, setup), place),
    ...tableGroup(measurer, 'Monitor mixes', mixes, mixRows(plan, setup), place),
    ...tableGroup(measurer, 'Power', power, rows, place, totals),
    ...tableGroup(measurer, 'Cable runs', cables, runs, place),
    ...wordsBeside(measurer, ['The venue provides', provides], ['Contact', contact], place),
    ...words(measurer, 'Cautions', CAUTIONS, place),
  ];
}

/** Whether a setup has anything to list but inputs, the cautions and the contact. */
function hasOtherLists(plan: Plan, setup: Setup): boolean {
  return (
    (setup.mixes ?? []).length > 0 ||
    (setup.cables ?? []).length > 0 ||
    (setup.venueProvides ?? []).length > 0 ||
    stageItems(plan, setup, 'power').length > 0
  );
}

/** Whether a setup has anything to list but the cautions and the contact. */
export const hasLists = (plan: Plan, setup: Setup): boolean =>
  inputList(plan, setup).length > 0 || hasOtherLists(plan, setup);
