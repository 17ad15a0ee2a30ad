/** The part of the key that names the glyphs a stage is drawn with: only those that the setup has. */

import { deckMarks } from '../drawing/deck.ts';
import { CENTRE, type Line, type Style, style, TEXT_MM, THIN, WIDE } from '../drawing/displayList.ts';
import { Pen } from '../drawing/pen.ts';
import { isPlacedMicrophone } from '../drawing/pieces.ts';
import { cableRunMarks } from '../drawing/stage.ts';
import { drawPlacedMicrophone, drawStageItem, type StageGlyph } from '../drawing/stageItems.ts';
import { STAGE_USES } from '../gear/uses.ts';
import { itemsOfKind } from '../plan/items.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { stageOf } from '../plan/stages.ts';
import type { Page } from './page.ts';

interface Entry {
  readonly text: string;
  /** Draws the sample about a middle, within SAMPLE_MM by ROW_MM. */
  draw(page: Page, x: number, y: number): void;
}

const LEGEND_ROW_MM = 5.6;
const SAMPLE_MM = 11;
const HALF_MM = SAMPLE_MM / 2;
const GAP_MM = 2.5;

const base: Style = style('frame', { tint: 'stage', part: 'legend' });

/** A glyph as a drawing at a scale of one to one mm has it. */
function glyph(
  use: StageGlyph['use'],
  widthMm: number,
  depthMm: number,
  more: Partial<StageGlyph> = {},
): Entry['draw'] {
  return (page, x, y) => {
    const pen = new Pen({ angle: 0, dx: x, dy: y }, base);
    drawStageItem(pen, { use, shape: 'box', widthMm, depthMm, scale: 1, ...more }, WIDE);
    page.marks.push(...pen.marks);
  };
}

/** Each use in the order in which the legend tells of them, with its glyph at a scale that shows what is in it. */
const GLYPHS: Readonly<Record<StageGlyph['use'], Entry>> = {
  person: { text: STAGE_USES.person.word, draw: glyph('person', 5.2, 5.2) },
  amplifier: { text: STAGE_USES.amplifier.word, draw: glyph('amplifier', 8, 4) },
  keyboard: { text: STAGE_USES.keyboard.word, draw: glyph('keyboard', 10, 4) },
  microphone: { text: `${STAGE_USES.microphone.word}, stand`, draw: glyph('microphone', 4.8, 4.8) },
  di: { text: STAGE_USES.di.word, draw: glyph('di', 4.4, 3.6) },
  wedge: { text: STAGE_USES.wedge.word, draw: glyph('wedge', 7, 5.2) },
  power: { text: STAGE_USES.power.word, draw: glyph('power', 5, 3.8) },
};
const USES = Object.keys(GLYPHS) as StageGlyph['use'][];

const drawInPlace: Entry['draw'] = (page, x, y) => {
  const pen = new Pen({ angle: 0, dx: 0, dy: 0 }, base);
  const at = { x: x + 1.6, y, reachMm: 2, over: true };
  drawPlacedMicrophone(pen, { x: x + 1.6, y, otherwise: 0, at, standMm: 0, lengthMm: 4.4 });
  page.marks.push(...pen.marks);
};

const drawRiserEdge: Entry['draw'] = (page, x, y) => {
  const [left, right] = [x - HALF_MM, x + HALF_MM];
  page.marks.push(...deckMarks([[left, y - 0.3, right, y - 0.3, right, y + 2, left, y + 2]], 0.7, null));
};

const across =
  (line: Line): Entry['draw'] =>
  (page, x, y) =>
    page.line(x - HALF_MM, y, x + HALF_MM, y, { line });

const drawCable: Entry['draw'] = (page, x, y) => {
  const points = [-1, 1].map((side) => ({ xMm: x + side * HALF_MM, yMm: y }));
  page.marks.push(...cableRunMarks([{ id: 'legend', note: '', points }], 0.8));
};

function entriesOf(plan: Plan, setup: Setup): Entry[] {
  const items = itemsOfKind(plan, setup, 'stageItem');
  const mixes = new Map((setup.mixes ?? []).map(({ id, by }) => [id, by]));
  const hasMix = (use: StageGlyph['use'], by: 'wedge' | 'inEar') =>
    items.some(({ item, gear }) => gear.use === use && item.mix !== undefined && mixes.get(item.mix) === by);
  const placed = items.filter(({ item }) => isPlacedMicrophone(plan, setup, item));
  const onStands = new Set(
    items.filter(({ item }) => !isPlacedMicrophone(plan, setup, item)).map(({ gear }) => gear.use),
  );
  const things = USES.filter((use) => onStands.has(use)).map((use) => GLYPHS[use]);
  const stage = stageOf(plan, setup);
  const has = (shown: boolean, text: string, draw: Entry['draw']): Entry[] => (shown ? [{ text, draw }] : []);
  const wedge = glyph('wedge', 7, 5.2, { mix: { number: 1, by: 'wedge' } });
  const listener = glyph('person', 5.4, 5.4, { mix: { number: 2, by: 'inEar' } });
  const ofKit = [
    ...things,
    ...has(placed.length > 0, 'microphone in place', drawInPlace),
    ...has(hasMix('wedge', 'wedge'), 'wedge, its mix', wedge),
    ...has(hasMix('person', 'inEar'), 'mix heard by ear', listener),
  ];
  return [
    ...ofKit,
    ...has(ofKit.length > 0 && setup.riser !== null, 'riser’s edge: a drop', drawRiserEdge),
    ...has(stage !== undefined, 'stage’s edge: a drop', across(WIDE)),
    ...has(stage !== undefined, 'centre line', across(CENTRE)),
    ...has((stage?.wings ?? []).length > 0, 'wing', (page, x, y) =>
      page.box(x - HALF_MM, y - 1.6, x + HALF_MM, y + 1.6, { line: THIN, tint: 'stage' }),
    ),
    ...has((setup.cables ?? []).length > 0, 'cable run', drawCable),
  ];
}

/** How deep the legend is in a number of columns; 0 where a setup has nothing of a stage. */
export function stageLegendHeight(plan: Plan, setup: Setup, columns: number): number {
  return Math.ceil(entriesOf(plan, setup).length / columns) * LEGEND_ROW_MM;
}

export function drawStageLegend(
  page: Page,
  plan: Plan,
  setup: Setup,
  x: number,
  y: number,
  w: number,
  columns: number,
): void {
  const entries = entriesOf(plan, setup);
  const rows = Math.ceil(entries.length / columns);
  const columnMm = w / columns;
  entries.forEach(({ text, draw }, k) => {
    const left = x + Math.floor(k / rows) * columnMm;
    const middle = y - ((k % rows) + 0.5) * LEGEND_ROW_MM;
    draw(page, left + SAMPLE_MM / 2, middle);
    page.fitted(text, left + SAMPLE_MM + GAP_MM, middle - TEXT_MM.small * 0.36, columnMm - SAMPLE_MM - GAP_MM - 1);
  });
}
