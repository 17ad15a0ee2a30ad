/**
 * The mark sheet: where everything stands on the floor, so that one person with two tapes can lay it all again; and how racks, clamps
 * and arms are set above it.
 *
 * First a drawing with a number at every mark and a letter at every point that a tape is hooked to; then the table, in the
 * order of laying: coordinates from the centre line and the front edge, the two tapes, how far off a mark can be, and a control.
 *
 * Units:  as the plan has them; whole mm, or inches to 1/16, and the rounding is in the error.
 * Inputs: a layout of this setup. Throws: RangeError when the plan has no such setup, or when no scale fits the paper.
 */
import { READING_ERROR_MM, TOLERANCE_MM } from '../checks/marks/crossing.ts';
import { type LaidMark, type MarkPlan, markPlan, type TapeGroup } from '../checks/marks/markPlan.ts';
import { TEXT_MM, WIDE } from '../drawing/displayList.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type DisplayUnit, MM_PER_IN } from '../units.ts';
import { errorLength, fromCentre, fromFront, markName, tapeLength, WAY_WORDS } from '../words/markWords.ts';
import { type SettingGroup, settingsOf } from '../words/settings.ts';
import { type Box, type Format, formatOf, framedSheet } from './framed.ts';
import { type MarkDrawing, markDrawing } from './markDrawing.ts';
import { LEADING, measureWith, Page } from './page.ts';
import { SCALES } from './scaleBar.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';

/** What a mark should lie within. Source: two-tape tape-out, a quarter of an inch (tests/outside/SOURCES.md). */
const AIM_MM: Readonly<Record<DisplayUnit, number>> = { mm: TOLERANCE_MM, in: MM_PER_IN / 4 };

/** On paper, mm. */
const PAD_MM = 3;
const ROW_MM = 4.6;
const GROUP_MM = 6;
const HEAD_MM = 5.4;
/** On lying paper the words stand in a column beside the drawing. */
const COLUMN_MM = 44;
const BETWEEN_MM = 0.6;

interface Column {
  readonly name: string;
  readonly part: number;
}

const COLUMNS: readonly Column[] = [
  { name: 'No.', part: 0.042 },
  { name: 'Mark', part: 0.33 },
  { name: 'From centre line', part: 0.15 },
  { name: 'From front edge', part: 0.108 },
  { name: 'Tape', part: 0.1 },
  { name: 'Tape', part: 0.1 },
  { name: 'Off by up to', part: 0.07 },
  { name: 'Control', part: 0.1 },
];

/** Of what is set above the floor; each shows the setting of the same place in SETTING_KEYS. */
const SETTING_COLUMNS: readonly Column[] = [
  { name: 'Piece, and its arm', part: 0.15 },
  { name: 'Held by', part: 0.285 },
  { name: 'Post', part: 0.07 },
  { name: 'Arm', part: 0.07 },
  { name: 'Arm tilt', part: 0.05 },
  { name: 'Height', part: 0.07 },
  { name: 'Tilt', part: 0.1 },
  { name: 'From centre line', part: 0.13 },
  { name: 'From front', part: 0.075 },
];
const SETTING_KEYS = ['piece', 'held', 'post', 'arm', 'armTilt', 'height', 'tilt', 'fromCentre', 'fromFront'] as const;
/** A row of two lines, and from one of them to the other. */
const SETTING_ROW_MM = 7.4;
const LINE_MM = 3.1;
/** From "Held by" to the arm's tilt, and in the second line as far as there are columns. */
const HELD_COLUMNS = [4, 8] as const;
/** From "Post" to the arm's tilt. */
const POST_COLUMN = 2;
const POST_COLUMNS = 3;

/** What the coordinates count from, in a sentence. */
function frameWords({ frame, datums }: MarkPlan, units: DisplayUnit): string {
  switch (frame.from) {
    case 'riser':
      return "Coordinates: the centre line runs through the middle of the riser, square to its front edge; front distances count from that edge, upstage. They meet at O. Tapes hook to the riser's corners.";
    case 'stage':
      return "Coordinates: the stage's centre line, and its front edge, upstage from it. They meet at O. Tapes hook to the front edge's two ends.";
    case 'baseLine': {
      const [a, b] = datums;
      const length = tapeLength(Math.hypot(b.at[0] - a.at[0], b.at[1] - a.at[1]), units);
      return `There is neither riser nor stage to measure from, so lay a base line first: mark A, a straight line towards stage left along the front, mark B ${length} from A. The centre line is square to it through its middle, O; front distances count from it, upstage.`;
    }
  }
}

/** The lengths between the datums, so that the crew sees at once whether this is the deck that was drawn. */
function datumWords({ datums, frame }: MarkPlan, units: DisplayUnit): string {
  if (datums.length > 6 || frame.from === 'baseLine') return '';
  const lengths = datums.flatMap((a, i) =>
    datums
      .slice(i + 1)
      .map((b) => `${a.letter}${b.letter} ${tapeLength(Math.hypot(b.at[0] - a.at[0], b.at[1] - a.at[1]), units)}`),
  );
  return `Measure the hooks against each other first: ${lengths.join(', ')}.`;
}

/** How to use it, in three steps. */
function steps(units: DisplayUnit): string[] {
  const twice = errorLength(2 * TOLERANCE_MM, units);
  return [
    '1  Clear the floor. Take a group of the table: hook a tape at each of its two letters, pull both across each other to the lengths of a mark, stick a numbered piece of tape where they cross. Both tapes level and taut; start where the group starts, so they sweep across once.',
    `2  Measure each mark's control to the place named. More than ${twice}${units === 'mm' ? ' mm' : ''} off: read both tapes again.`,
    '3  When all marks lie, set down racks, then bass drum, pedals, hi-hat, snare stand, other stands, the throne last. A foot lies between the marks of its two ends; a spot "under the tube" is plumb below it.',
  ];
}

function cautions({ leftOut }: MarkPlan, units: DisplayUnit, deck: boolean): string[] {
  const reading = errorLength(READING_ERROR_MM, units);
  const unit = units === 'mm' ? ' mm' : '';
  return [
    `"Off by up to" is for both tapes read ${reading}${unit} wrong, and for the rounding of the printed lengths. Aim: ${errorLength(AIM_MM[units], units)}${unit}. A star: that aim needs better readings or the control.`,
    'Spurs, tips of legs and bases are where typical sizes put them: measure your own, or go by the spot under the tube and the direction of the leg.',
    `${deck ? "Who walks backwards with a tape does not see the riser's edge: light it, guard it, or have someone watch. " : ''}Loose tape trips. Local codes, the venue and licensed practice decide.`,
    ...(leftOut > 0
      ? [`Not marked here: ${leftOut} other ${leftOut === 1 ? 'thing' : 'things'} on the stage; see the venue sheet.`]
      : []),
  ];
}

interface Row {
  readonly columns: readonly Column[];
  readonly heightMm: number;
  /** Draws with its upper edge at y. */
  draw(page: Page, y: number): void;
  /** The group's heading, to be said again where a page begins within it. */
  readonly heading: Row | null;
}

/** Writing in the cells of a table between two edges. */
function cellsOf(columns: readonly Column[], minX: number, maxX: number) {
  const width = maxX - minX;
  const lefts: number[] = [];
  let at = minX;
  for (const { part } of columns) {
    lefts.push(at);
    at += part * width;
  }
  const cell = (page: Page, column: number, text: string, y: number, heightMm: number, bold = false, span = 1) => {
    const part = columns.slice(column, column + span).reduce((sum, each) => sum + each.part, 0);
    page.fitted(text, lefts[column] + 1, baseline(y, heightMm), part * width - 1.6, {
      sizeMm: CELL_TEXT_MM,
      bold,
    });
  };
  return { lefts, cell };
}

const CELL_TEXT_MM = TEXT_MM.small * 1.06;
/** The baseline of a line in the middle of a row whose upper edge is at y. */
const baseline = (y: number, heightMm: number) => y - heightMm / 2 - CELL_TEXT_MM * 0.357;

/** What is set above the floor. */
function settingRows(groups: readonly SettingGroup[], minX: number, maxX: number): Row[] {
  const columns = SETTING_COLUMNS;
  const { cell } = cellsOf(columns, minX, maxX);
  return groups.flatMap(({ heading: text, rows }) => {
    const heading: Row = {
      columns,
      heightMm: GROUP_MM,
      heading: null,
      draw(page, y) {
        page.box(minX, y - GROUP_MM, maxX, y, { tint: 'band', line: null });
        page.line(minX, y, maxX, y, { line: WIDE });
        page.fitted(text, minX + 1, baseline(y, GROUP_MM), maxX - minX - 2, { sizeMm: CELL_TEXT_MM, bold: true });
      },
    };
    const settings = rows.map((setting): Row => {
      const lines = Math.max(setting.held.length, setting.tilt.length, setting.by === '' ? 1 : 2);
      const heightMm = lines > 1 ? SETTING_ROW_MM : ROW_MM;
      // What a rack is made of has no arm: its words have those columns too.
      const heldColumns = setting.by === '' && setting.post === '' ? HELD_COLUMNS : [1, 1];
      return {
        columns,
        heightMm,
        heading,
        draw(page, y) {
          SETTING_KEYS.forEach((key, column) => {
            const value = setting[key];
            if (typeof value === 'string') {
              if (value !== '') cell(page, column, value, y, Math.min(heightMm, ROW_MM), column === 0);
            } else
              value.forEach((line, k) => {
                cell(page, column, line, y - k * LINE_MM, ROW_MM, false, key === 'held' ? heldColumns[k] : 1);
              });
          });
          if (setting.by !== '') cell(page, 0, setting.by, y - LINE_MM, ROW_MM);
          if (setting.postSide !== '')
            cell(page, POST_COLUMN, setting.postSide, y - LINE_MM, ROW_MM, false, POST_COLUMNS);
          page.line(minX, y - heightMm, maxX, y - heightMm, { ink: 'faint' });
        },
      };
    });
    return [heading, ...settings];
  });
}

/** The rows of the marks' table. */
function tableRows(made: MarkPlan, units: DisplayUnit, minX: number, maxX: number): Row[] {
  const columns = COLUMNS;
  const { lefts, cell } = cellsOf(columns, minX, maxX);
  const sizeMm = CELL_TEXT_MM;
  const groupRow = (text: string, letters: readonly [string, string]): Row => ({
    columns,
    heightMm: GROUP_MM,
    heading: null,
    draw(page, y) {
      page.box(minX, y - GROUP_MM, maxX, y, { tint: 'band', line: null });
      page.line(minX, y, maxX, y, { line: WIDE });
      page.fitted(text, minX + 1, baseline(y, GROUP_MM), lefts[4] - minX - 2, { sizeMm, bold: true });
      letters.forEach((letter, k) => {
        if (letter !== '') page.text(`from ${letter}`, lefts[4 + k] + 1, baseline(y, GROUP_MM), { sizeMm, bold: true });
      });
    },
  });
  const markRow = (laid: LaidMark, heading: Row): Row => ({
    columns,
    heightMm: ROW_MM,
    heading,
    draw(page, y) {
      const { number, mark, fromCentreMm, fromFrontMm, tapes, control } = laid;
      cell(page, 0, String(number), y, ROW_MM, true);
      cell(page, 1, markName(mark), y, ROW_MM);
      cell(page, 2, fromCentre(fromCentreMm, units), y, ROW_MM);
      cell(page, 3, fromFront(fromFrontMm, units), y, ROW_MM);
      if (tapes) {
        cell(page, 4, tapeLength(tapes.firstMm, units), y, ROW_MM, true);
        cell(page, 5, tapeLength(tapes.secondMm, units), y, ROW_MM, true);
        cell(page, 6, `${errorLength(tapes.errorMm, units)}${tapes.errorMm > AIM_MM[units] ? ' *' : ''}`, y, ROW_MM);
      }
      if (control) cell(page, 7, `${control.to}: ${tapeLength(control.distanceMm, units)}`, y, ROW_MM);
      page.line(minX, y - ROW_MM, maxX, y - ROW_MM, { ink: 'faint' });
    },
  });
  const groups = made.groups.flatMap((group: TapeGroup) => {
    const { first, second, way, marks } = group;
    const line = `${first.letter}-${second.letter}`;
    const heading = groupRow(
      `Tapes at ${first.letter} and ${second.letter}: marks ${WAY_WORDS[way]} of the line ${line}`,
      [first.letter, second.letter],
    );
    return [heading, ...marks.map((laid) => markRow(laid, heading))];
  });
  const others = (
    [
      ['too_flat', 'By coordinates, square to the lines: every pair of tapes would cross too flatly'],
      ['off_deck', 'Beyond the edge: these places cannot be marked, the setup stands out over the riser'],
    ] as const
  ).flatMap(([reason, text]) => {
    const marks = made.byCoordinates.filter(({ refused }) => refused === reason);
    if (marks.length === 0) return [];
    const heading = groupRow(text, ['', '']);
    return [heading, ...marks.map((laid) => markRow(laid, heading))];
  });
  return [...groups, ...others];
}

function headRow(page: Page, columns: readonly Column[], minX: number, maxX: number, y: number): void {
  let at = minX;
  for (const { name, part } of columns) {
    const width = part * (maxX - minX);
    page.fitted(name, at + 1, y - HEAD_MM + 1.7, width - 1.6, { faint: true });
    at += width;
  }
}

/**
 * Draws rows from y down to a floor; returns those that are left. The columns' names stand over the first row and wherever they
 * change; a group's heading is never the last row of a page, and is said again where a page begins within its group.
 */
function flow(page: Page, rows: readonly Row[], minX: number, maxX: number, y: number, floor: number): Row[] {
  let at = y;
  let columns: readonly Column[] | null = null;
  for (let k = 0; k < rows.length; k++) {
    const row = rows[k];
    const head = row.columns === columns ? 0 : HEAD_MM + (columns === null ? 0 : 3);
    const again = columns === null ? row.heading : null;
    const need = head + (again?.heightMm ?? 0) + row.heightMm + (row.heading === null ? SETTING_ROW_MM : 0);
    if (at - need < floor) return rows.slice(k);
    if (head > 0) {
      headRow(page, row.columns, minX, maxX, at - head + HEAD_MM);
      columns = row.columns;
      at -= head;
    }
    if (again) {
      again.draw(page, at);
      at -= again.heightMm;
    }
    row.draw(page, at);
    at -= row.heightMm;
  }
  return [];
}

function notesHeight(page: Page, notes: readonly string[], widthMm: number): number {
  return notes.reduce((sum, text) => sum + page.paragraphHeight(text, widthMm, TEXT_MM.small) + BETWEEN_MM, 0);
}

/** Notes with their lower edge at y. */
function drawNotes(page: Page, notes: readonly string[], x: number, y: number, widthMm: number): void {
  let at = y + notesHeight(page, notes, widthMm) - TEXT_MM.small * 0.9;
  for (const text of notes) at = page.paragraph(text, x, at, widthMm, { faint: true }) - BETWEEN_MM;
}

interface First {
  readonly page: Page;
  readonly format: Format;
  readonly drawing: MarkDrawing;
  /** Rows of the table that found no room beneath the drawing. */
  readonly left: readonly Row[];
  readonly notesHere: boolean;
}

export function markSheets(plan: Plan, setupId: string, layout: Layout, options: SheetOptions): Sheet[] {
  const made = markPlan(plan, setupId, layout);
  const { units } = plan;
  const { paper, turned } = options;
  const measure = measureWith(options.fonts);
  const words = [
    ...steps(units),
    [frameWords(made, units), datumWords(made, units)].filter((text) => text !== '').join(' '),
  ];
  const notes = cautions(made, units, layout.deck !== null);
  const settings = settingsOf(plan, plan.setups[setupId], layout, made.frame);
  const rowsBetween = ({ room }: Format): Row[] => {
    const [minX, maxX] = [room.minX + PAD_MM, room.maxX - PAD_MM];
    return [...tableRows(made, units, minX, maxX), ...settingRows(settings, minX, maxX)];
  };

  /** Words, drawing and as much of the table as there is room for; null where the drawing does not fit. */
  const firstPage = (lying: boolean, scale: number): First | null => {
    const format = formatOf(paper, lying);
    const { room } = format;
    const page = new Page(measure);
    const [minX, maxX] = [room.minX + PAD_MM, room.maxX - PAD_MM];
    const widthMm = lying ? COLUMN_MM : maxX - minX;
    let y = room.maxY - PAD_MM - TEXT_MM.normal;
    page.text('Marks on the floor', minX, y, { bold: true, sizeMm: TEXT_MM.normal });
    y -= TEXT_MM.normal * 1.3;
    for (const text of words) y = page.paragraph(text, minX, y, widthMm) - BETWEEN_MM;
    const bottom = room.minY + PAD_MM;
    const notesMm = notesHeight(page, notes, widthMm);
    // A narrow column may have no room for them; then they stand beneath the table.
    const notesHere = bottom + notesMm <= y;
    if (notesHere) drawNotes(page, notes, minX, bottom, widthMm);
    else if (!lying) return null;
    const floor = bottom + (lying ? 0 : notesMm + 2);
    const top = lying ? room.maxY - PAD_MM : y + TEXT_MM.small * (LEADING - 0.4);
    const area: Box = { minX: lying ? minX + COLUMN_MM + 2 * PAD_MM : minX, maxX, minY: floor, maxY: top };
    const drawing = markDrawing({ plan, setupId, layout, made, area, scale, page });
    if (!drawing) return null;
    page.marks.unshift(...drawing.marks);
    const rows = rowsBetween(format);
    const left = lying ? rows : flow(page, rows, minX, maxX, drawing.bottomMm - 2, floor);
    return { page, format, drawing, left, notesHere };
  };

  const ways = turned ? [turned === 'lying'] : [false, true];
  let first: First | null = null;
  for (const scale of SCALES) for (const lying of ways) first ??= firstPage(lying, scale);
  if (!first) throw new RangeError('This setup is too large for any scale on this paper.');
  const { format, drawing } = first;
  const pages = [first.page];
  let { left, notesHere } = first;
  while (left.length > 0 || !notesHere) {
    const page = new Page(measure);
    pages.push(page);
    const { minX, maxX, minY, maxY } = format.room;
    const width = maxX - minX - 2 * PAD_MM;
    let floor = minY + PAD_MM;
    if (!notesHere) {
      drawNotes(page, notes, minX + PAD_MM, floor, width);
      floor += notesHeight(page, notes, width) + 2;
    }
    notesHere = true;
    left = flow(page, left, minX + PAD_MM, maxX - PAD_MM, maxY - PAD_MM, floor);
  }
  return pages.map((page, k) =>
    framedSheet(
      page,
      [],
      format,
      {
        plan,
        setupName: plan.setups[setupId].name,
        documentType: 'Mark sheet',
        subject: `Mark sheet on ${PAPERS[paper].label}, ${made.marks.length} marks`,
        scale: k === 0 ? `1:${drawing.scale}` : '-',
        number: k + 1,
        count: pages.length,
      },
      options,
    ),
  );
}
