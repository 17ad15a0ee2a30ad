/**
 * What every framed sheet has: margins, the frame, the title block along its lower edge, and what the file says of itself.
 *
 * Units: mm on paper, from the lower left corner.
 */
import { type DrawnBox, type Mark, WIDE } from '../drawing/displayList.ts';
import type { Plan } from '../plan/schema.ts';
import type { Page } from './page.ts';
import { PAPERS, type PaperName, type Sheet, type SheetOptions } from './sheet.ts';
import { TITLE_BLOCK_MM, titleBlock } from './titleBlock.ts';

export const MARGIN_MM = 10;

export type Box = DrawnBox;

/** A paper turned one way, and the frame on it. */
export interface Format {
  readonly paper: PaperName;
  readonly lying: boolean;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly frame: Box;
  /** What the frame leaves above the title block. */
  readonly room: Box;
}

export function formatOf(paper: PaperName, lying: boolean): Format {
  const { widthMm: short, heightMm: long } = PAPERS[paper];
  const [widthMm, heightMm] = lying ? [long, short] : [short, long];
  const frame = { minX: MARGIN_MM, minY: MARGIN_MM, maxX: widthMm - MARGIN_MM, maxY: heightMm - MARGIN_MM };
  return { paper, lying, widthMm, heightMm, frame, room: { ...frame, minY: frame.minY + TITLE_BLOCK_MM } };
}

export interface SheetSubject {
  readonly plan: Plan;
  /** What the title block's field "Setup" says. */
  readonly setupName: string;
  /** "Mark sheet", "Venue sheet: kit". */
  readonly documentType: string;
  /** One line of what the file holds: "Mark sheet on A4". */
  readonly subject: string;
  /** "1:20"; "-" where nothing is drawn to scale. */
  readonly scale: string;
  readonly number: number;
  readonly count: number;
}

/** Pages of one document, framed and numbered; each has its own scale. */
export function framedSheets(
  pages: readonly { readonly page: Page; readonly marks?: readonly Mark[]; readonly scale: string }[],
  format: Format,
  subject: Omit<SheetSubject, 'scale' | 'number' | 'count'>,
  options: SheetOptions,
): Sheet[] {
  return pages.map(({ page, marks = [], scale }, k) =>
    framedSheet(page, marks, format, { ...subject, scale, number: k + 1, count: pages.length }, options),
  );
}

/** The frame and the title block round whatever the page holds. */
export function framedSheet(
  page: Page,
  marks: readonly Mark[],
  { paper, lying, widthMm, heightMm, frame }: Pick<Format, 'paper' | 'lying' | 'widthMm' | 'heightMm' | 'frame'>,
  { plan, setupName, documentType, subject, scale, number, count }: SheetSubject,
  { date, title = plan.name, revision = plan.revision ?? 'A', owner = '' }: SheetOptions,
): Sheet {
  titleBlock(page, frame.minX, frame.maxX, frame.minY, {
    title,
    setup: setupName,
    documentType,
    owner,
    contact: plan.contact ?? '',
    scale,
    paper: `${PAPERS[paper].label}${lying ? ' lying' : ''}`,
    date,
    revision,
    sheet: `${number} / ${count}`,
    units: plan.units === 'mm' ? 'mm' : 'feet, inches',
  });
  page.box(frame.minX, frame.minY, frame.maxX, frame.maxY, { line: WIDE });
  return { widthMm, heightMm, title: `${title} - ${setupName}`, subject, date, marks: [...marks, ...page.marks] };
}
