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
import { TEXT_MM } from '../drawing/displayList.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type DisplayUnit, MM_PER_IN } from '../units.ts';
import { errorLength, fromCentre, fromFront, markName, tapeLength, WAY_WORDS } from '../words/markWords.ts';
import { type SettingGroup, settingsOf } from '../words/settings.ts';
import { type Block, type BlockGroup, drawBlocks, paginate } from './blocks.ts';
import { type Box, type Format, formatOf, framedSheets } from './framed.ts';
import { type MarkDrawing, markDrawing } from './markDrawing.ts';
import { LEADING, measureWith, Page } from './page.ts';
import { SCALES } from './scaleBar.ts';
import { PAPERS, type Sheet, type SheetOptions } from './sheet.ts';
import { type Line, Table } from './table.ts';

/** What a mark should lie within. Source: two-tape tape-out, a quarter of an inch (tests/outside/SOURCES.md). */
const AIM_MM: Readonly<Record<DisplayUnit, number>> = { mm: TOLERANCE_MM, in: MM_PER_IN / 4 };

/** On paper, mm. */
const PAD_MM = 3;
const ROW_MM = 4.4;
const GROUP_MM = 6;
/** On lying paper the words stand in a column beside the drawing. */
const COLUMN_MM = 44;
const BETWEEN_MM = 0.6;

type Part = readonly [title: string, part: number];

const COLUMNS: readonly Part[] = [
  ['No.', 0.042],
  ['Mark', 0.33],
  ['From centre line', 0.15],
  ['From front edge', 0.108],
  ['Tape', 0.1],
  ['Tape', 0.1],
  ['Off by up to', 0.07],
  ['Control', 0.1],
];
/** What a group's heading runs over: up to the tapes. */
const HEADING_COLUMNS = 4;

/** Of what is set above the floor. */
const SETTING_COLUMNS: readonly Part[] = [
  ['Piece, and its arm', 0.15],
  ['Held by', 0.285],
  ['Post', 0.07],
  ['Arm', 0.07],
  ['Arm tilt', 0.05],
  ['Height', 0.07],
  ['Tilt', 0.1],
  ['From centre line', 0.13],
  ['From front', 0.075],
];
/** From "Held by" to the arm's tilt, and in the second line as far as there are columns. */
const HELD_COLUMNS = [4, 8] as const;
/** From "Post" to the arm's tilt. */
const POST_COLUMNS = 3;

const LOOK = { rowMm: ROW_MM, lineMm: 3, sizeMm: TEXT_MM.small * 1.06 } as const;
/** Between tables with other columns. */
const TABLES_GAP_MM = 3;

const tableOf = (measurer: Page, parts: readonly Part[], widthMm: number): Table =>
  new Table(
    measurer,
    parts.map(([title, part]) => ({ title, widthMm: part * widthMm, afterMm: 0.6 })),
    LOOK,
  );

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

const bold = (text: string, span = 1): Line => ({ text, bold: true, span });

/** What is set above the floor. */
function settingGroups(measurer: Page, groups: readonly SettingGroup[], widthMm: number): BlockGroup[] {
  const table = tableOf(measurer, SETTING_COLUMNS, widthMm);
  const titles = table.titles();
  return groups.map(({ heading, rows }, k) => {
    const [head] = table.row({ cells: [bold(heading, SETTING_COLUMNS.length)], heightMm: GROUP_MM, band: true });
    const settings = rows.flatMap(({ piece, by, held, post, postSide, tilt, ...rest }) => {
      // What a rack is made of has no arm: its words have those columns too.
      const heldColumns = by === '' && post === '' ? HELD_COLUMNS : [1, 1];
      const { arm, armTilt, height, fromCentre, fromFront } = rest;
      return table.row({
        cells: [
          by === '' ? bold(piece) : [bold(piece), by],
          held.map((text, n): Line => ({ text, span: heldColumns[n] })),
          postSide === '' ? post : [post, { text: postSide, span: POST_COLUMNS }],
          ...[arm, armTilt, height, tilt, fromCentre, fromFront],
        ],
      });
    });
    return { titles, head, continued: head, rows: settings, gapMm: k === 0 ? TABLES_GAP_MM : 0 };
  });
}

/** The marks' table. */
function markGroups(measurer: Page, made: MarkPlan, units: DisplayUnit, widthMm: number): BlockGroup[] {
  const table = tableOf(measurer, COLUMNS, widthMm);
  const titles = table.titles();
  const markRow = ({ number, mark, fromCentreMm, fromFrontMm, tapes, control }: LaidMark): Block[] => {
    const star = tapes && tapes.errorMm > AIM_MM[units] ? ' *' : '';
    return table.row({
      cells: [
        bold(String(number)),
        markName(mark),
        fromCentre(fromCentreMm, units),
        fromFront(fromFrontMm, units),
        ...(tapes
          ? [
              bold(tapeLength(tapes.firstMm, units)),
              bold(tapeLength(tapes.secondMm, units)),
              `${errorLength(tapes.errorMm, units)}${star}`,
            ]
          : ['', '', '']),
        control ? `${control.to}: ${tapeLength(control.distanceMm, units)}` : '',
      ],
    });
  };
  const group = (heading: string, letters: readonly string[], marks: readonly LaidMark[]): BlockGroup[] => {
    if (marks.length === 0) return [];
    const cells = [bold(heading, HEADING_COLUMNS), '', '', '', ...letters.map((letter) => bold(`from ${letter}`))];
    const [head] = table.row({ cells, heightMm: GROUP_MM, band: true });
    return [{ titles, head, continued: head, rows: marks.flatMap(markRow) }];
  };
  const without = (reason: LaidMark['refused']) => made.byCoordinates.filter(({ refused }) => refused === reason);
  return [
    ...made.groups.flatMap(({ racks, first: { letter: a }, second: { letter: b }, way, marks }: TapeGroup) =>
      group(
        `${racks ? 'Racks' : 'The rest'}, tapes at ${a} and ${b}: marks ${WAY_WORDS[way]} of the line ${a}-${b}`,
        [a, b],
        marks,
      ),
    ),
    ...group(
      'By coordinates, square to the lines: every pair of tapes would cross too flatly',
      [],
      without('too_flat'),
    ),
    ...group(
      'Beyond the edge: these places cannot be marked, the setup stands out over the riser',
      [],
      without('off_deck'),
    ),
  ];
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
  /** What is left beneath the drawing for the table. */
  readonly roomMm: number;
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
  /** Words and drawing, and what they leave for the table; null where the drawing does not fit. */
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
    const roomMm = lying ? 0 : Math.max(0, drawing.bottomMm - 2 - floor);
    return { page, format, drawing, roomMm, notesHere };
  };

  const ways = turned ? [turned === 'lying'] : [false, true];
  let first: First | null = null;
  for (const scale of SCALES) for (const lying of ways) first ??= firstPage(lying, scale);
  if (!first) throw new RangeError('This setup is too large for any scale on this paper.');
  const { format, drawing, roomMm, notesHere } = first;
  const { minX, maxX, minY, maxY } = format.room;
  const widthMm = maxX - minX - 2 * PAD_MM;
  const restMm = maxY - minY - 2 * PAD_MM;
  // Notes that found no room beside the drawing stand at the foot of the second page.
  const notesMm = notesHere ? 0 : notesHeight(first.page, notes, widthMm) + 2;
  const contents = paginate(
    [...markGroups(first.page, made, units, widthMm), ...settingGroups(first.page, settings, widthMm)],
    { firstMm: roomMm, secondMm: restMm - notesMm, restMm, gapMm: 0, isDense: true },
  );
  if (!notesHere && contents.length === 1) contents.push([]);
  const pages = contents.map((blocks, k) => {
    const page = k === 0 ? first.page : new Page(measure);
    if (k === 1 && !notesHere) drawNotes(page, notes, minX + PAD_MM, minY + PAD_MM, widthMm);
    drawBlocks(page, blocks, minX + PAD_MM, k === 0 ? drawing.bottomMm - 2 : maxY - PAD_MM);
    return { page, scale: k === 0 ? `1:${drawing.scale}` : '-' };
  });
  const subject = `Mark sheet on ${PAPERS[paper].label}, ${made.marks.length} marks`;
  const of = { plan, setupName: plan.setups[setupId].name, documentType: 'Mark sheet', subject };
  return framedSheets(pages, format, of, options);
}
