/** The venue sheet from the page: fonts fetched once, the sheet drawn for the preview, the PDF made when it is asked for. */

import regularUrl from '@expo-google-fonts/open-sans/400Regular/OpenSans_400Regular.ttf?url';
import boldUrl from '@expo-google-fonts/open-sans/700Bold/OpenSans_700Bold.ttf?url';
import type { Checked } from '../../../checks/run.ts';
import type { Layout } from '../../../layout/layout.ts';
import type { Plan } from '../../../plan/schema.ts';
import { readFont, type SheetFonts } from '../../../sheets/fontFile.ts';
import type { PaperName, Sheet } from '../../../sheets/sheet.ts';
import { toSvg } from '../../../sheets/svg.ts';
import { venueSheets } from '../../../sheets/venueSheet.ts';

let fonts: Promise<SheetFonts> | null = null;

async function fetchFont(url: string): Promise<Uint8Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error('A typeface of the sheet could not be loaded.');
  return new Uint8Array(await answer.arrayBuffer());
}

export function sheetFonts(): Promise<SheetFonts> {
  fonts ??= Promise.all([fetchFont(regularUrl), fetchFont(boldUrl)])
    .then(([regular, bold]) => ({ regular: readFont(regular), bold: readFont(bold) }))
    .catch((problem) => {
      // The next try asks again: the page may have been offline for a moment.
      fonts = null;
      throw problem;
    });
  return fonts;
}

export interface SheetWishes {
  readonly paper: PaperName;
  readonly date: string;
  readonly title: string;
  readonly revision: string;
  readonly flags: boolean;
}

export interface SheetSource {
  readonly plan: Plan;
  readonly setupId: string;
  readonly layout: Layout;
  readonly checked: Checked;
}

export async function makeSheets(
  { plan, setupId, layout, checked }: SheetSource,
  wishes: SheetWishes,
): Promise<Sheet[]> {
  return venueSheets(plan, setupId, layout, checked, { ...wishes, fonts: await sheetFonts() });
}

/** The first page as an image source for the preview. */
export const previewOf = ([first]: readonly Sheet[]): string =>
  `data:image/svg+xml,${encodeURIComponent(toSvg(first))}`;

export async function makePdf(sheets: readonly Sheet[]): Promise<{ blob: Blob; missing: readonly string[] }> {
  const [{ toPdf }, loaded] = await Promise.all([import('../../../sheets/pdf.ts'), sheetFonts()]);
  const { bytes, missing } = toPdf(sheets, loaded);
  return { blob: new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' }), missing };
}
