/**
 * Other things on the stage, from above, each told apart by its outline and what is in it, also in black and white: what
 * they are is written beside them as well. Own -y is where they face: an amplifier's or a wedge's front; a keyboard is
 * played from the other side, and a microphone's singer stands there.
 *
 * Sizes: as the gear has them; where that is too small to be told apart on paper, a glyph is drawn as large as it must be
 *        (LEAST_MM) about the same middle. Without a scale, as on the screen, always as the gear has them.
 */
import type { GearOf } from '../gear/schema.ts';
import { TAU } from '../geometry/frame.ts';
import { CAPITAL_OF_EM, type Line, NEIGHBOUR, TEXT_MM, THIN, WIDE } from './displayList.ts';
import type { Pen } from './pen.ts';

export type StageUse = GearOf<'stageItem'>['use'];

/** A monitor mix as a glyph shows it: its number in a square for a wedge, in a lozenge for somebody who hears it by ear. */
export interface MixNumber {
  readonly number: number;
  readonly by: 'wedge' | 'inEar';
}

/** What a glyph is drawn from. */
export interface StageGlyph {
  readonly use: StageUse;
  readonly shape: 'box' | 'round';
  readonly widthMm: number;
  readonly depthMm: number;
  /** Model mm in one mm of paper; left out: the glyph is as large as the thing. */
  readonly scale?: number | undefined;
  readonly mix?: MixNumber | undefined;
}

/** The least that the smaller side of a glyph may be on paper, mm, to be told apart and to hold its lettering. */
export const LEAST_MM: Readonly<Record<StageUse, number>> = {
  person: 5.6,
  amplifier: 2.8,
  keyboard: 2.8,
  microphone: 3.8,
  di: 3.4,
  wedge: 5.2,
  power: 3.4,
};

/** A number's square or lozenge on paper: least and most of the square's side and the lozenge's half diagonal, mm. */
const SQUARE_MM = [3.6, 6] as const;
const LOZENGE_MM = [2.7, 4.4] as const;
/** Where there is no paper: of what a thing's lesser side is. */
const NUMBER_PART = 0.5;
/** A microphone's length on a drum: as it is, and at least on paper. */
const MICROPHONE_MM = 160;
const LEAST_MICROPHONE_MM = 3.2;

const held = (value: number, [least, most]: readonly [number, number]) => Math.min(most, Math.max(least, value));

/** How large a glyph is drawn, mm of the model. */
export function glyphSize({ use, widthMm, depthMm, scale }: StageGlyph): { readonly w: number; readonly d: number } {
  const grow = scale === undefined ? 1 : Math.max(1, (LEAST_MM[use] * scale) / Math.min(widthMm, depthMm));
  return { w: widthMm * grow, d: depthMm * grow };
}

/** How many strokes `stepMm` of paper apart fill a width; without a scale as many as look right on the screen. */
const strokes = (
  widthMm: number,
  scale: number | undefined,
  stepMm: number,
  [least, most]: readonly [number, number],
) => (scale === undefined ? most : Math.round(held(widthMm / scale / stepMm, [least, most])));

/** A mix's number in its plain shape, upright whichever way the thing is turned. */
function drawMix(pen: Pen, { number, by }: MixNumber, lesserMm: number, scale: number | undefined): void {
  const upright = pen.upright();
  const text = String(number);
  const paper = { line: THIN, tint: 'paper' } as const;
  if (by === 'wedge') {
    const side = scale === undefined ? NUMBER_PART * lesserMm : held((0.6 * lesserMm) / scale, SQUARE_MM) * scale;
    upright.box(0, 0, side, side, paper);
  } else {
    const half =
      scale === undefined ? NUMBER_PART * lesserMm * 0.7 : held((0.36 * lesserMm) / scale, LOZENGE_MM) * scale;
    upright.polygon([half, 0, 0, half, -half, 0, 0, -half], paper);
  }
  // A number of two figures is set a little smaller: the lozenge narrows above and below.
  const sizeMm = TEXT_MM.small * (text.length > 1 && by === 'inEar' ? 0.86 : 1);
  upright.text(text, 0, -(sizeMm * CAPITAL_OF_EM * (scale ?? 0)) / 2, sizeMm);
}

function drawPerson(pen: Pen, w: number, d: number, { scale, mix }: StageGlyph): void {
  // A person moves: the room for it as neighbouring and moving things are drawn, in it shoulders and head.
  const r = Math.min(w, d) / 2;
  pen.ellipse(0, 0, w / 2, d / 2, { line: NEIGHBOUR, tint: null, ink: 'faint' });
  pen.ellipse(0, d * 0.04, w * 0.43, d * 0.2, { line: WIDE });
  if (mix?.by === 'inEar') {
    drawMix(pen, mix, Math.min(w, d), scale);
    return;
  }
  // The nose says which way they face.
  pen.polygon([-r * 0.16, -r * 0.26, r * 0.16, -r * 0.26, 0, -r * 0.62], { line: THIN, tint: 'solid' });
  pen.circle(0, 0, r * 0.34, { line: THIN, tint: 'paper' });
}

function drawAmplifier(pen: Pen, w: number, d: number, { scale }: StageGlyph): void {
  const front = -d / 2 + d * 0.34;
  pen.box(0, 0, w, d, { covered: 'dashed' });
  pen.line([-w / 2, front, w / 2, front], { line: THIN });
  const n = strokes(w, scale, 1, [5, 26]);
  for (let k = 1; k < n; k++) {
    const x = -w / 2 + (k * w) / n;
    pen.line([x, -d / 2, x, front], { line: THIN });
  }
}

function drawKeyboard(pen: Pen, w: number, d: number, { scale }: StageGlyph): void {
  const from = -d * 0.02;
  pen.box(0, 0, w, d, { covered: 'dashed' });
  pen.line([-w * 0.48, from, w * 0.48, from], { line: THIN });
  const n = strokes(w, scale, 1.1, [7, 28]);
  const key = (w * 0.96) / n;
  // Two and three black keys in turn, as on any keyboard.
  for (let k = 0; k < n - 1; k++)
    if (k % 7 !== 2 && k % 7 !== 6)
      pen.box(-w * 0.48 + (k + 1) * key, from + d * 0.16, key * 0.56, d * 0.32, { tint: 'solid', line: null });
}

function drawWedge(pen: Pen, w: number, d: number, { scale, mix }: StageGlyph): void {
  // Wide at the front, which slopes; narrower behind.
  const back = w * 0.36;
  const ridge = d * 0.26;
  const at = (y: number) => back + ((w / 2 - back) * (d / 2 - y)) / d;
  pen.polygon([-w / 2, -d / 2, w / 2, -d / 2, back, d / 2, -back, d / 2], { covered: 'dashed' });
  pen.line([-at(ridge), ridge, at(ridge), ridge], { line: THIN });
  const n = strokes(w, scale, 1.5, [4, 12]);
  for (let k = 1; k < n; k++) {
    const x = -w / 2 + (k * w) / n;
    if (Math.abs(x) < at(ridge)) pen.line([x, -d / 2, x, -d / 2 + d * 0.14], { line: THIN });
  }
  if (mix) drawMix(pen, mix, d, scale);
}

/** The letters D and I in strokes, so that they read on every device. */
function drawDi(pen: Pen, w: number, d: number): void {
  pen.box(0, 0, w, d, { covered: 'dashed', tint: 'paper' });
  const high = Math.min(d, w) * 0.27;
  const [left, right] = [-w * 0.28, w * 0.26];
  const bow = high;
  pen.line([left + bow * 0.3, high, left, high, left, -high, left + bow * 0.3, -high], { line: WIDE });
  pen.arc(left + bow * 0.3, 0, high, -TAU / 4, TAU / 2, { line: WIDE });
  pen.line([right, high, right, -high], { line: WIDE });
}

function drawPower(pen: Pen, w: number, d: number): void {
  pen.box(0, 0, w, d, { covered: 'dashed', tint: 'paper' });
  // A bolt, as every electrician's warning sign has one.
  const h = Math.min(w, d) * 0.44;
  const bolt = [0.12, 1, -0.5, -0.12, -0.04, -0.12, -0.12, -1, 0.5, 0.16, 0.04, 0.16].map((part) => part * h);
  pen.polygon(bolt, { tint: 'solid', line: null });
}

/** A microphone with its head at own y = 0, pointing along own +y; `length` behind it. */
function drawMicrophoneBody(pen: Pen, length: number): void {
  const head = length * 0.2;
  const tail = -length + head;
  pen.polygon([-head * 0.5, tail, head * 0.5, tail, head, -head * 0.4, -head, -head * 0.4], {
    line: THIN,
    tint: 'paper',
  });
  pen.circle(0, 0, head, { tint: 'solid', line: null });
}

/** Three legs, or a round base where the stand is narrow, within the round it needs. */
function drawMicrophoneStand(pen: Pen, r: number, isRound: boolean): void {
  if (isRound) pen.circle(0, 0, r, { line: THIN, tint: 'stage' });
  else {
    pen.circle(0, 0, r, { line: NEIGHBOUR, tint: null, ink: 'faint' });
    for (const k of [0, 1, 2]) {
      const angle = -TAU / 4 + (TAU * k) / 3;
      pen.line([0, 0, r * Math.cos(angle), r * Math.sin(angle)], { line: THIN });
    }
  }
}

/** Narrower stands than this have a round base. Common practice, no source. */
const ROUND_BASE_MM = 300;

/** `pointing`: the angle in the pen's frame that the microphone points along; its stand stays as it is. */
function drawMicrophone(pen: Pen, w: number, d: number, { widthMm, scale }: StageGlyph, pointing: number): void {
  const r = Math.min(w, d) / 2;
  drawMicrophoneStand(pen, r, widthMm < ROUND_BASE_MM);
  // From behind the middle to before it, within the round; on a wide stand at the end of a boom.
  const length = Math.min(r * 1.3, Math.max(MICROPHONE_MM, LEAST_MICROPHONE_MM * (scale ?? 0)));
  const head = Math.min(r * 0.66, length * 1.4);
  const out = pen.within(0, 0, pointing - TAU / 4);
  if (head > length) out.line([0, 0, 0, head - length * 0.8], { line: THIN });
  drawMicrophoneBody(out.within(0, head, 0), length);
}

type DrawGlyph = (pen: Pen, w: number, d: number, glyph: StageGlyph, pointing: number) => void;

const GLYPHS: Readonly<Record<StageUse, DrawGlyph>> = {
  person: drawPerson,
  amplifier: drawAmplifier,
  keyboard: drawKeyboard,
  microphone: drawMicrophone,
  wedge: drawWedge,
  di: drawDi,
  power: drawPower,
};

/** Any thing on the stage, in its own frame. `pointing`: for a microphone, else as one on its own: at who stands behind it. */
export function drawStageItem(pen: Pen, glyph: StageGlyph, edge: Line, pointing = TAU / 4): void {
  const { w, d } = glyphSize(glyph);
  const own = pen.within(0, 0, 0, { line: edge });
  GLYPHS[glyph.use](own, w, d, glyph, pointing);
}

/** What a microphone on a drum is placed by, in the plan's frame. */
export interface PlacedMicrophone {
  readonly x: number;
  readonly y: number;
  /** The angle it points along where it stands in the very middle of what it takes. */
  readonly otherwise: number;
  /** What it takes: the middle, and how far it reaches. `over`: it may stand above it, as above a drum. */
  readonly at: { readonly x: number; readonly y: number; readonly reachMm: number; readonly over: boolean };
  readonly standMm: number;
  readonly scale?: number | undefined;
  /** Left out: as long as it is, or as it must be at a scale. */
  readonly lengthMm?: number;
}

/**
 * A microphone on a drum, or at an amplifier: at its own place where that lies over what it takes; else its stand there,
 * and the microphone at the rim, on a boom. It points at the middle. The pen is in the plan's frame.
 */
export function drawPlacedMicrophone(pen: Pen, placed: PlacedMicrophone): void {
  const { x, y, otherwise, at, standMm, scale } = placed;
  const far = Math.hypot(at.x - x, at.y - y);
  const angle = far < 1 ? otherwise : Math.atan2(at.y - y, at.x - x);
  const length = placed.lengthMm ?? Math.max(MICROPHONE_MM, LEAST_MICROPHONE_MM * (scale ?? 0));
  // Over a drum the head stands a little within the rim; before an amplifier's front it stays outside.
  const stop = at.over ? at.reachMm * 0.86 : at.reachMm + length * 0.25;
  const ahead = Math.max(0, far - stop);
  const head = pen.within(x, y, angle - TAU / 4);
  if (ahead > length) {
    const r = standMm / 2;
    drawMicrophoneStand(pen.within(x, y, 0), r, standMm < ROUND_BASE_MM);
    head.line([0, 0, 0, ahead - length * 0.8], { line: THIN });
  }
  drawMicrophoneBody(head.within(0, ahead > length ? ahead : Math.max(ahead, length * 0.3), 0), length);
}
