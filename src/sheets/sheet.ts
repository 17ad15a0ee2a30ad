/** A sheet: one page of a display list in page mm, from the lower left corner, and what its file says of itself. */
import type { Mark } from '../drawing/displayList.ts';
import type { SheetFonts } from './fontFile.ts';

export interface Sheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly title: string;
  readonly subject: string;
  /** YYYY-MM-DD, given from outside. */
  readonly date: string;
  readonly marks: readonly Mark[];
}

export type PaperName = 'a4' | 'letter';

/** Width and height upright, mm. Source: ISO 216; Letter is 8.5 x 11 in. */
export const PAPERS: Readonly<
  Record<PaperName, { readonly label: string; readonly widthMm: number; readonly heightMm: number }>
> = {
  a4: { label: 'A4', widthMm: 210, heightMm: 297 },
  letter: { label: 'Letter', widthMm: 215.9, heightMm: 279.4 },
};

/** What every sheet is asked with. Everything that is not in the plan comes from here, so the same call gives the same sheet. */
export interface SheetOptions {
  readonly paper: PaperName;
  /** Left out: as it fits best. */
  readonly turned?: 'upright' | 'lying';
  /** Model mm in one mm of paper, where a sheet takes one. Left out: the largest of the standard scales that fits. */
  readonly scale?: number;
  /** YYYY-MM-DD. */
  readonly date: string;
  /** Left out: the plan's name. */
  readonly title?: string;
  /** Left out: the plan's, or A. */
  readonly revision?: string;
  readonly owner?: string;
  readonly fonts: SheetFonts;
}
