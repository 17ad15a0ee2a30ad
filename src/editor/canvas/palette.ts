/** What tints and inks are on the screen, by look. Contrast of every ink on its ground is 4.5:1 or more, of edges 3:1. */
import type { Ink, Tint } from '../../drawing/displayList.ts';

export interface Palette {
  readonly paper: string;
  readonly grid: string;
  readonly gridStrong: string;
  readonly ruler: string;
  readonly rulerInk: string;
  readonly accent: string;
  readonly halo: string;
  readonly ink: Readonly<Record<Ink, string>>;
  readonly tint: Readonly<Record<Exclude<Tint, 'solid'>, string>>;
}

export const LIGHT: Palette = {
  paper: '#f6f4ee',
  grid: '#e8e4da',
  gridStrong: '#d6d0c2',
  ruler: '#fbfaf6',
  rulerInk: '#5d5a52',
  accent: '#0a5f9e',
  halo: 'rgba(246,244,238,0.88)',
  ink: {
    ink: '#15212b',
    faint: '#66707a',
    clear: '#00684d',
    tight: '#8f4f00',
    blocked: '#b3261e',
    unmeasured: '#525252',
  },
  tint: {
    ground: '#b4c4d0',
    low: '#c8d5de',
    middle: '#dbe5eb',
    high: '#eaf0f3',
    overhead: 'rgba(255,252,240,0.62)',
    deck: '#fffdf7',
    stage: '#e3e1da',
    paper: '#f6f4ee',
    band: '#eceae3',
  },
};

export const DARK: Palette = {
  paper: '#12171c',
  grid: '#1b2229',
  gridStrong: '#2a333c',
  ruler: '#171d23',
  rulerInk: '#a3adb6',
  accent: '#6cb8f0',
  halo: 'rgba(18,23,28,0.85)',
  ink: {
    ink: '#dfe6ec',
    faint: '#93a0ab',
    clear: '#3fc49b',
    tight: '#f0a93c',
    blocked: '#ff8078',
    unmeasured: '#b5b5b5',
  },
  tint: {
    ground: '#2b4052',
    low: '#263746',
    middle: '#22303c',
    high: '#1f2932',
    overhead: 'rgba(70,74,66,0.42)',
    deck: '#191f25',
    stage: '#262a2e',
    paper: '#12171c',
    band: '#1c2329',
  },
};
