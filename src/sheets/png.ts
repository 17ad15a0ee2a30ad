/**
 * A sheet as PNG, drawn from its SVG by resvg (the page and the command line alike), with the sheet's own typeface.
 *
 * Units:  pixels in a metre of the paper. The file says so itself (chunk pHYs), so it prints at its true size.
 * Inputs: rasterise once: the engine is a WebAssembly file of 2.4 MB, which the caller reads and loadRasteriser() starts.
 * Throws: RangeError where the picture would have more pixels than memory holds, with the most that would do.
 * Source: W3C, Portable Network Graphics (3rd ed.), 5.3 chunk layout and CRC, 11.3.4.3 pHYs (unit 1 is the metre).
 */
import { initWasm, Resvg } from '@resvg/resvg-wasm';
import type { SheetFonts } from './fontFile.ts';
import { LEAST_PER_METRE } from './pixels.ts';
import type { Sheet } from './sheet.ts';
import { toPrintedSvg } from './svg.ts';

/** 4 bytes each while it is drawn: 256 MB, which a telephone still has. */
const MOST_PIXELS = 64e6;
const MM_PER_M = 1000;

let started: Promise<void> | null = null;

/** Starts the engine from its file's bytes; further calls wait for the first. */
export function loadRasteriser(wasm: () => Promise<BufferSource | Response> | BufferSource): Promise<void> {
  started ??= Promise.resolve(wasm())
    .then((bytes) => initWasm(bytes))
    .catch((problem) => {
      // The next picture tries again.
      started = null;
      throw problem;
    });
  return started;
}

export interface PixelSize {
  readonly width: number;
  readonly height: number;
}

/** Throws: RangeError with a sentence where the number makes no picture. */
export function pixelSize({ widthMm, heightMm }: Sheet, pixelsPerMetre: number): PixelSize {
  if (!Number.isFinite(pixelsPerMetre) || pixelsPerMetre < LEAST_PER_METRE)
    throw new RangeError(`A picture needs at least ${LEAST_PER_METRE} pixels in a metre of paper.`);
  const width = Math.max(1, Math.round((widthMm / MM_PER_M) * pixelsPerMetre));
  const height = Math.max(1, Math.round((heightMm / MM_PER_M) * pixelsPerMetre));
  if (width * height > MOST_PIXELS) {
    const most = Math.floor(Math.sqrt(MOST_PIXELS / (widthMm * heightMm)) * MM_PER_M * 0.999);
    throw new RangeError(
      `At ${pixelsPerMetre} pixels a metre this picture would have ${width} x ${height} pixels, more than memory holds. ` +
        `Take ${most} or fewer.`,
    );
  }
  return { width, height };
}

/** The checksum of a chunk, a bit at a time: it runs over 17 bytes. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** Where the first chunk (IHDR, always 13 bytes) ends: signature 8, length 4, type 4, content 13, checksum 4. */
const AFTER_HEADER = 33;

/** The same picture with a chunk that says how many pixels go to a metre. */
function withResolution(png: Uint8Array, pixelsPerMetre: number): Uint8Array {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set(new TextEncoder().encode('pHYs'), 4);
  const each = Math.round(pixelsPerMetre);
  view.setUint32(8, each);
  view.setUint32(12, each);
  view.setUint8(16, 1);
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  const out = new Uint8Array(png.length + chunk.length);
  out.set(png.subarray(0, AFTER_HEADER));
  out.set(chunk, AFTER_HEADER);
  out.set(png.subarray(AFTER_HEADER), AFTER_HEADER + chunk.length);
  return out;
}

/** One sheet as the bytes of a PNG; loadRasteriser() must have come first. */
export function toPng(sheet: Sheet, fonts: SheetFonts, pixelsPerMetre: number): Uint8Array {
  const { width } = pixelSize(sheet, pixelsPerMetre);
  const engine = new Resvg(toPrintedSvg(sheet, fonts), {
    fitTo: { mode: 'width', value: width },
    font: { fontBuffers: [fonts.regular.bytes, fonts.bold.bytes], defaultFontFamily: 'Open Sans' },
    background: '#ffffff',
  });
  try {
    const image = engine.render();
    try {
      return withResolution(image.asPng(), pixelsPerMetre);
    } finally {
      image.free();
    }
  } finally {
    engine.free();
  }
}
