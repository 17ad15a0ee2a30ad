/** A sheet: one page of a display list in page mm, from the lower left corner, and what its file says of itself. */
import type { Mark } from '../drawing/displayList.ts';

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

/** Width and height upright, mm. Source: paper.iso216, paper.us. */
export const PAPERS: Readonly<
  Record<PaperName, { readonly label: string; readonly widthMm: number; readonly heightMm: number }>
> = {
  a4: { label: 'A4', widthMm: 210, heightMm: 297 },
  letter: { label: 'Letter', widthMm: 215.9, heightMm: 279.4 },
};
