/**
 * The title block along a sheet's lower edge, with the fields of ISO 7200:2004: what and whose it is, its title,
 * document type, scale, paper, date of issue, revision, sheet number.
 */
import { TEXT_MM, WIDE } from '../drawing/displayList.ts';
import type { Page } from './page.ts';

export interface TitleFields {
  readonly title: string;
  readonly setup: string;
  readonly documentType: string;
  readonly owner: string;
  readonly contact: string;
  readonly scale: string;
  readonly paper: string;
  readonly date: string;
  readonly revision: string;
  readonly sheet: string;
  readonly units: string;
}

export const TITLE_BLOCK_MM = 23;
const UPPER_MM = 13.5;
const LABEL_MM = 2.1;
const PAD_MM = 1.6;

/** A field's name in small type above its value. */
function field(
  page: Page,
  name: string,
  value: string,
  x: number,
  y: number,
  w: number,
  h: number,
  sizeMm: number,
): void {
  page.text(name, x + PAD_MM, y + h - PAD_MM - LABEL_MM * 0.72, { sizeMm: LABEL_MM, faint: true });
  page.fitted(value, x + PAD_MM, y + PAD_MM + 0.5, w - 2 * PAD_MM, { sizeMm, bold: sizeMm > TEXT_MM.small });
}

/** The lines of the field for owner and contact: what there is, and how many and how wide they may be. */
const CONTACT_LINES = 3;
const contactLines = ({ owner, contact }: Pick<TitleFields, 'owner' | 'contact'>): string[] =>
  [owner, ...contact.split('\n')].filter((line) => line.trim() !== '');
const UPPER_PARTS = [0, 0.44, 0.68, 1] as const;

/** A line of the contact set smaller than this part of its size is for the lists instead. */
const CONTACT_SHRINK = 0.8;

/** Whether owner and contact stand in a title block of a width to be read, none of it cut. */
export function holdsContact(page: Page, fields: Pick<TitleFields, 'owner' | 'contact'>, widthMm: number): boolean {
  const lines = contactLines(fields);
  const room = (UPPER_PARTS[3] - UPPER_PARTS[2]) * widthMm - 2 * PAD_MM;
  return (
    lines.length <= CONTACT_LINES &&
    lines.every((line) => page.measure(line, TEXT_MM.small, false) * CONTACT_SHRINK <= room)
  );
}

/** Draws it between two edges of the frame, its lower edge at y. */
export function titleBlock(page: Page, minX: number, maxX: number, y: number, fields: TitleFields): void {
  const width = maxX - minX;
  const top = y + TITLE_BLOCK_MM;
  const split = y + TITLE_BLOCK_MM - UPPER_MM;
  page.line(minX, top, maxX, top, { line: WIDE });
  page.line(minX, split, maxX, split);
  // Above: title, setup, and whose it is.
  const upper = UPPER_PARTS.map((part) => minX + part * width);
  for (const x of upper.slice(1, -1)) page.line(x, split, x, top);
  field(page, 'Title', fields.title, upper[0], split, upper[1] - upper[0], UPPER_MM, TEXT_MM.title * 0.84);
  field(page, 'Setup', fields.setup, upper[1], split, upper[2] - upper[1], UPPER_MM, TEXT_MM.normal * 1.2);
  const ownerX = upper[2] + PAD_MM;
  const ownerWidth = upper[3] - upper[2] - 2 * PAD_MM;
  page.text(fields.owner === '' ? 'Contact' : 'Owner and contact', ownerX, top - PAD_MM - LABEL_MM * 0.72, {
    sizeMm: LABEL_MM,
    faint: true,
  });
  const contact = contactLines(fields).slice(0, CONTACT_LINES);
  if (contact.length === 0) contact.push('not given');
  contact.forEach((line, k) => {
    page.fitted(line, ownerX, top - 5.7 - k * 3.2, ownerWidth);
  });
  // Below: the small fields, by the room they need.
  const cells: [string, string, number][] = [
    ['Document', fields.documentType, 0.25],
    ['Scale', fields.scale, 0.11],
    ['Paper', fields.paper, 0.11],
    ['Lengths', fields.units, 0.13],
    ['Date of issue', fields.date, 0.17],
    ['Revision', fields.revision, 0.11],
    ['Sheet', fields.sheet, 0.12],
  ];
  let x = minX;
  cells.forEach(([name, value, part], k) => {
    if (k > 0) page.line(x, y, x, split);
    field(page, name, value, x, y, part * width, TITLE_BLOCK_MM - UPPER_MM, TEXT_MM.normal * 0.9);
    x += part * width;
  });
}
