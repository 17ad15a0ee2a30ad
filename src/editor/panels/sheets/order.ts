/** What the page asks of the sheets' worker, and what it gets: plain data, so that it crosses to the worker. */
import type { Plan } from '../../../plan/schema.ts';
import type { SheetKind } from '../../../sheets/kinds.ts';
import type { PaperName } from '../../../sheets/sheet.ts';

export interface SheetWishes {
  readonly kind: SheetKind;
  readonly paper: PaperName;
  readonly turned: 'fit' | 'upright' | 'lying';
  /** Model mm in one mm of paper; null: the largest of the standard scales that fits. */
  readonly scale: number | null;
  readonly units: Plan['units'];
  /** YYYY-MM-DD. */
  readonly date: string;
  readonly title: string;
  readonly revision: string;
  /** Venue sheet: numbered flags at what is tight or blocked. */
  readonly flags: boolean;
  /** Template: one long page for a plotter. */
  readonly long: boolean;
  /** Comparison: the setups beside the current one. */
  readonly against: readonly string[];
  /** Pull list: say what of it is owned. */
  readonly owned: boolean;
  /** PNG. */
  readonly pixelsPerMetre: number;
}

export interface SheetOrder {
  readonly plan: Plan;
  readonly setupId: string;
  readonly wishes: SheetWishes;
  /** The text of the stock list that this browser keeps; null where there is none. */
  readonly stockText: string | null;
}

export interface PagePicture {
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly subject: string;
}

export interface DrawnSheets {
  readonly pages: readonly PagePicture[];
  /** Sentences about what is not as asked: characters without a glyph, a stock list that cannot be read. */
  readonly remarks: readonly string[];
}

export interface MadeFile {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Media type. */
  readonly type: string;
}
