/** The typeface of the sheets and the engine that draws PNG, from the installed packages. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { readFont, type SheetFonts } from '../sheets/fontFile.ts';

/** Regular and semi-bold. */
export function sheetFonts(): SheetFonts {
  const { resolve } = createRequire(import.meta.url);
  const read = (name: string) =>
    readFont(new Uint8Array(readFileSync(resolve(`@expo-google-fonts/open-sans/${name}`))));
  return {
    regular: read('400Regular/OpenSans_400Regular.ttf'),
    bold: read('600SemiBold/OpenSans_600SemiBold.ttf'),
  };
}

/** The engine's file, for loadRasteriser(). */
export const rasteriser = (): Uint8Array<ArrayBuffer> =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve('@resvg/resvg-wasm/index_bg.wasm')));
