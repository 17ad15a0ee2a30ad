/**
 * What tints and inks are on paper. Tints grow lighter with height and stay light enough for black text, also when
 * printed without colour; every ink has 4.5:1 or more on white.
 */
import type { Ink, Tint } from '../drawing/displayList.ts';

export type Rgb = readonly [number, number, number];

export const INK_RGB: Readonly<Record<Ink, Rgb>> = {
  ink: [17, 20, 24],
  faint: [98, 106, 114],
  clear: [0, 104, 77],
  tight: [148, 82, 0],
  blocked: [176, 20, 20],
  unmeasured: [82, 82, 82],
};

/** alpha: how much it hides. */
export const TINT_RGB: Readonly<Record<Exclude<Tint, 'solid'>, { readonly rgb: Rgb; readonly alpha: number }>> = {
  ground: { rgb: [190, 202, 212], alpha: 1 },
  low: { rgb: [211, 220, 227], alpha: 1 },
  middle: { rgb: [228, 234, 239], alpha: 1 },
  high: { rgb: [242, 245, 247], alpha: 1 },
  overhead: { rgb: [255, 255, 255], alpha: 0.45 },
  deck: { rgb: [250, 247, 240], alpha: 1 },
  stage: { rgb: [236, 236, 236], alpha: 1 },
  paper: { rgb: [255, 255, 255], alpha: 1 },
  band: { rgb: [240, 242, 244], alpha: 1 },
};
