/**
 * The venue sheet's lists: inputs, monitor mixes, power, cable runs, what the venue provides, contact, cautions. Tables run
 * over pages; a text too long for its column runs over lines, so that nothing of it is lost.
 *
 * Units: mm on paper.
 */
import { TEXT_MM } from '../drawing/displayList.ts';
import { cableLengthMm, stageFrontY, stageOf } from '../drawing/stage.ts';
import { wrapText } from '../drawing/textWidth.ts';
import { gearOf } from '../gear/catalogue.ts';
import { INPUT_HEADING, inputList } from '../lists/inputList.ts';
import type { Item, Plan, Setup } from '../plan/schema.ts';
import { type DisplayUnit, formatLength, formatNumber } from '../units.ts';
import { LEADING, type Page } from './page.ts';
import { type Block, type BlockGroup, type Column, columnEdges, columnTitles } from './table.ts';

const SMALL = TEXT_MM.small;
const LINE_MM = SMALL * LEADING;
const AIR_MM = 1;
const HEADING_MM = 6;
/** A cell with more lines than these goes on in a row of its own, which may stand on the next page. */
const MOST_LINES = 24;

/** Lines that fit a width: broken at spaces, and within a word only where it is wider than the column. */
function linesOf(page: Page, text: string, widthMm: number, bold = false): string[] {
  return text.split('\n').flatMap((part) =>
    wrapText(part, widthMm, SMALL, bold, page.measure).flatMap((line) => {
      const lines = [''];
      for (const char of line) {
        const longer = lines[lines.length - 1] + char;
        if (page.measure(longer, SMALL, bold) <= widthMm || longer.length === 1) lines[lines.length - 1] = longer;
        else lines.push(char);
      }
      return lines;
    }),
  );
}

/** A row of cells, each over as many lines as it needs, ruled off. */
function row(
  measurer: Page,
  columns: readonly Column[],
  x: number,
  texts: readonly string[],
  rowMm: number,
  bold = false,
): Block[] {
  const edges = columnEdges(columns, x);
  const cells = texts.map((text, k) => linesOf(measurer, text, edges[k + 1] - edges[k] - 2 * AIR_MM, bold));
  const most = Math.max(1, ...cells.map((lines) => lines.length));
  const blocks: Block[] = [];
  for (let from = 0; from < most; from += MOST_LINES) {
    const count = Math.min(MOST_LINES, most - from);
    const heightMm = rowMm + (count - 1) * LINE_MM;
    const isLast = from + count >= most;
    blocks.push({
      heightMm,
      draw: (page, topMm) => {
        const first = topMm - rowMm / 2 - SMALL * 0.357;
        cells.forEach((lines, k) => {
          const anchor = columns[k].anchor ?? 'start';
          const at =
            anchor === 'end'
              ? edges[k + 1] - AIR_MM
              : anchor === 'middle'
                ? (edges[k] + edges[k + 1]) / 2
                : edges[k] + AIR_MM;
          lines.slice(from, from + count).forEach((line, i) => {
            page.text(line, at, first - i * LINE_MM, { anchor, bold });
          });
        });
        const bottom = topMm - heightMm;
        for (const edge of edges) page.line(edge, topMm, edge, bottom, { ink: 'faint' });
        if (isLast) page.line(edges[0], bottom, edges[edges.length - 1], bottom, { ink: 'faint' });
      },
    });
  }
  return blocks;
}

function heading(text: string, x: number): Block {
  return {
    heightMm: HEADING_MM,
    draw: (page, topMm) => {
      if (text !== '') page.text(text, x, topMm - HEADING_MM + 1.8, { bold: true, sizeMm: TEXT_MM.normal * 0.9 });
    },
  };
}

/** One block of several, one beneath the other. */
function joined(blocks: readonly Block[]): Block {
  return {
    heightMm: blocks.reduce((sum, { heightMm }) => sum + heightMm, 0),
    draw: (page, topMm) => {
      let at = topMm;
      for (const block of blocks) {
        block.draw(page, at);
        at -= block.heightMm;
      }
    },
  };
}

interface ColumnShare extends Omit<Column, 'widthMm'> {
  readonly share: number;
}

const columnsOf = (shares: readonly ColumnShare[], widthMm: number): Column[] => {
  const all = shares.reduce((sum, { share }) => sum + share, 0);
  return shares.map(({ share, ...column }) => ({ ...column, widthMm: (share / all) * widthMm }));
};

export interface ListPlace {
  readonly x: number;
  readonly widthMm: number;
  /** Of a row with one line. */
  readonly rowMm: number;
}

function table(
  measurer: Page,
  title: string,
  shares: readonly ColumnShare[],
  rows: readonly (readonly string[])[],
  { x, widthMm, rowMm }: ListPlace,
  totals: readonly string[] = [],
): BlockGroup[] {
  if (rows.length === 0) return [];
  const columns = columnsOf(shares, widthMm);
  const titles = columnTitles(columns, x);
  const sums = totals.flatMap((text) => row(measurer, [{ title: '', widthMm }], x, [text], rowMm, true));
  return [
    {
      head: joined([heading(title, x), titles]),
      continued: joined([heading(`${title}, continued`, x), titles]),
      rows: [...rows.flatMap((texts) => row(measurer, columns, x, texts, rowMm)), ...sums],
    },
  ];
}

type Words = readonly [title: string, lines: readonly string[]];
const COLUMN_GAP_MM = 6;

/** Lines of words under a heading. */
function words(measurer: Page, title: string, lines: readonly string[], { x, widthMm }: ListPlace): BlockGroup[] {
  if (lines.length === 0) return [];
  const rows = lines.flatMap((text) =>
    linesOf(measurer, text, widthMm).map(
      (line): Block => ({
        heightMm: LINE_MM,
        draw: (page, topMm) => page.text(line, x, topMm - SMALL),
      }),
    ),
  );
  return [{ head: heading(title, x), continued: heading(`${title}, continued`, x), rows }];
}

/** Two groups side by side, row by row. */
function beside(left: BlockGroup, right: BlockGroup): BlockGroup {
  const both = (a: Block | undefined, b: Block | undefined): Block => ({
    heightMm: Math.max(a?.heightMm ?? 0, b?.heightMm ?? 0),
    draw: (page, topMm) => {
      a?.draw(page, topMm);
      b?.draw(page, topMm);
    },
  });
  const count = Math.max(left.rows.length, right.rows.length);
  const rows = Array.from({ length: count }, (_, k) => both(left.rows[k], right.rows[k]));
  return { head: both(left.head, right.head), rows };
}

/** Two lists of words, the second beside the first where it is short. */
function wordsBeside(measurer: Page, first: Words, second: Words, place: ListPlace): BlockGroup[] {
  const half = (place.widthMm - COLUMN_GAP_MM) / 2;
  const [left] = words(measurer, ...first, { ...place, widthMm: half });
  const [right] = words(measurer, ...second, { ...place, x: place.x + half + COLUMN_GAP_MM, widthMm: half });
  if (!left || !right || Math.max(left.rows.length, right.rows.length) > MOST_LINES)
    return [...words(measurer, ...first, place), ...words(measurer, ...second, place)];
  return [beside(left, right)];
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

/** Things on the stage of one use, in the setup's order. */
function thingsOf(plan: Plan, setup: Setup, use: string): Item[] {
  return setup.order.flatMap((id) => {
    const item = setup.pieces[id];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    return item?.kind === 'item' && gear?.kind === 'stageItem' && gear.use === use ? [item] : [];
  });
}

function mixRows(plan: Plan, setup: Setup): string[][] {
  const wedges = thingsOf(plan, setup, 'wedge');
  return (setup.mixes ?? []).map(({ id, name, by, wants }, k) => {
    const count = wedges.filter(({ mix }) => mix === id).length;
    const heard = by === 'inEar' ? 'by ear' : count > 1 ? `${count} wedges` : 'wedge';
    return [String(k + 1), name, heard, wants ?? ''];
  });
}

/** Whole millimetres, or feet and inches. */
const lengthText = (mm: number, units: DisplayUnit): string =>
  units === 'mm' ? `${formatNumber(mm, 0)} mm` : formatLength(mm, units);

/** Nearer to the centre line than this is on it, mm. */
const ON_LINE_MM = 1;

/** Where something stands on the stage, as a crew would ask: from the centre line, and from the stage's front edge. */
function placeText(plan: Plan, setup: Setup, { xMm, yMm }: Item['place'], centreX: number): string {
  const off = xMm - centreX;
  const side = off > 0 ? 'stage left' : 'stage right';
  const across = Math.abs(off) < ON_LINE_MM ? 'on the centre line' : `${lengthText(Math.abs(off), plan.units)} ${side}`;
  const stage = stageOf(plan, setup);
  const front = stage ? stageFrontY(stage, xMm) : null;
  return front === null ? across : `${across}, ${lengthText(yMm - front, plan.units)} from the front edge`;
}

/** A current that a load takes at least: its power by its voltage, as for a load without a shift of phase. */
const ampere = (watt: number, volt: number): string => `${formatNumber(watt / volt, 1)} A`;

interface Power {
  readonly rows: string[][];
  readonly totals: string[];
}

function powerRows(plan: Plan, setup: Setup, centreX: number): Power {
  const drops = thingsOf(plan, setup, 'power');
  const rows = drops.map(({ name, gear, power, place }) => {
    const { volts, loadW = null } = power ?? {};
    return [
      name || (gearOf(plan.gear, gear)?.name ?? ''),
      volts === undefined ? 'not given' : `${formatNumber(volts, 0)} V`,
      loadW === null ? 'not given' : `${formatNumber(loadW, 0)} W`,
      loadW === null || volts === undefined ? '' : ampere(loadW, volts),
      placeText(plan, setup, place, centreX),
    ];
  });
  const byVolts = new Map<number, number>();
  for (const { power } of drops)
    if (power && power.loadW !== null) byVolts.set(power.volts, (byVolts.get(power.volts) ?? 0) + power.loadW);
  const unknown = drops.filter(({ power }) => (power?.loadW ?? null) === null).length;
  const sums = [...byVolts]
    .sort(([a], [b]) => a - b)
    .map(
      ([volts, watt]) =>
        `Total at ${formatNumber(volts, 0)} V: ${formatNumber(watt, 0)} W, ${ampere(watt, volts)} at least`,
    );
  const missing = unknown === 1 ? 'the load of one drop is not given' : `the loads of ${unknown} drops are not given`;
  const totals = unknown > 0 && sums.length > 0 ? [...sums.slice(0, -1), `${sums[sums.length - 1]}; ${missing}`] : sums;
  return { rows, totals };
}

export const CAUTIONS_HEADING = 'Cautions';

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
  if (!halves) return table(measurer, title, INPUT_COLUMNS, rows, place)[0];
  if (rows.some((cells) => cells[NOTE_CELL] !== '')) return null;
  const texts = rows.map((cells) => cells.slice(0, NOTE_CELL));
  const middle = Math.ceil(texts.length / 2);
  const widthMm = (place.widthMm - COLUMN_GAP_MM) / 2;
  const [left] = table(measurer, title, HALF_COLUMNS, texts.slice(0, middle), { ...place, widthMm });
  const second = { ...place, x: place.x + widthMm + COLUMN_GAP_MM, widthMm };
  const [right] = table(measurer, '', HALF_COLUMNS, texts.slice(middle), second);
  const fits = [...left.rows, ...right.rows].every(({ heightMm }) => heightMm <= place.rowMm);
  return fits ? beside(left, right) : null;
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
  const runs = (setup.cables ?? []).map((cable, k) => [
    String(k + 1),
    cable.note,
    lengthText(cableLengthMm(cable), plan.units),
  ]);
  const filled = (lines: readonly string[]) => lines.filter((line) => line.trim() !== '');
  const provides = filled(setup.venueProvides ?? []).map((line) => `–  ${line}`);
  const contact = filled((plan.contact ?? '').split('\n'));
  return [
    ...table(measurer, setup.inputs ? 'Input list' : INPUT_HEADING, INPUT_COLUMNS, inputRows(plan, setup), place),
    ...table(measurer, 'Monitor mixes', mixes, mixRows(plan, setup), place),
    ...table(measurer, 'Power', power, rows, place, totals),
    ...table(measurer, 'Cable runs', cables, runs, place),
    ...wordsBeside(measurer, ['The venue provides', provides], ['Contact', contact], place),
    ...words(measurer, CAUTIONS_HEADING, CAUTIONS, place),
  ];
}

/** Whether a setup has anything to list but inputs, the cautions and the contact. */
function hasOtherLists(plan: Plan, setup: Setup): boolean {
  return (
    (setup.mixes ?? []).length > 0 ||
    (setup.cables ?? []).length > 0 ||
    (setup.venueProvides ?? []).length > 0 ||
    thingsOf(plan, setup, 'power').length > 0
  );
}

/** Whether a setup has anything to list but the cautions and the contact. */
export const hasLists = (plan: Plan, setup: Setup): boolean =>
  inputList(plan, setup).length > 0 || hasOtherLists(plan, setup);
