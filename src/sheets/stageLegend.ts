/** The part of the key that names the glyphs a stage is drawn with: only those that the setup has. */

import { deckMarks } from '../drawing/deck.ts';
import { CENTRE, type Style, style, TEXT_MM, THIN, WIDE } from '../drawing/displayList.ts';
import { Pen } from '../drawing/pen.ts';
import { isPlacedMicrophone } from '../drawing/pieces.ts';
import { cableRunMarks } from '../drawing/stage.ts';
import { drawPlacedMicrophone, drawStageItem, type StageGlyph } from '../drawing/stageItems.ts';
import { gearOf } from '../gear/catalogue.ts';
import { STAGE_USES } from '../gear/uses.ts';
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

function entriesOf(plan: Plan, setup: Setup): Entry[] {
  const items = setup.order.flatMap((id) => {
    const item = setup.pieces[id];
    const gear = item?.kind === 'item' ? gearOf(plan.gear, item.gear) : undefined;
    return item?.kind === 'item' && gear?.kind === 'stageItem' ? [{ item, gear }] : [];
  });
  const mixes = new Map((setup.mixes ?? []).map(({ id, by }) => [id, by]));
  const hasMix = (use: StageGlyph['use'], by: 'wedge' | 'inEar') =>
    items.some(({ item, gear }) => gear.use === use && item.mix !== undefined && mixes.get(item.mix) === by);
  const placed = items.filter(({ item }) => isPlacedMicrophone(plan, setup, item));
  const onStands = new Set(
    items.filter(({ item }) => !isPlacedMicrophone(plan, setup, item)).map(({ gear }) => gear.use),
  );
  const entries: Entry[] = USES.filter((use) => onStands.has(use)).map((use) => GLYPHS[use]);
  if (placed.length > 0)
    entries.push({
      text: 'microphone in place',
      draw: (page, x, y) => {
        const pen = new Pen({ angle: 0, dx: 0, dy: 0 }, base);
        const at = { x: x + 1.6, y, reachMm: 2, over: true };
        drawPlacedMicrophone(pen, { x: x + 1.6, y, otherwise: 0, at, standMm: 0, lengthMm: 4.4 });
        page.marks.push(...pen.marks);
      },
    });
  if (hasMix('wedge', 'wedge'))
    entries.push({
      text: 'wedge, its mix',
      draw: glyph('wedge', 7, 5.2, { mix: { number: 1, by: 'wedge' } }),
    });
  if (hasMix('person', 'inEar'))
    entries.push({
      text: 'mix heard by ear',
      draw: glyph('person', 5.4, 5.4, { mix: { number: 2, by: 'inEar' } }),
    });
  const stage = stageOf(plan, setup);
  if (entries.length > 0 && setup.riser !== null)
    entries.push({
      text: 'riser’s edge: a drop',
      draw: (page, x, y) => {
        const modules = [
          [x - SAMPLE_MM / 2, y - 0.3, x + SAMPLE_MM / 2, y - 0.3, x + SAMPLE_MM / 2, y + 2, x - SAMPLE_MM / 2, y + 2],
        ];
        page.marks.push(...deckMarks(modules, 0.7, null));
      },
    });
  if (stage)
    entries.push({
      text: 'stage’s edge: a drop',
      draw: (page, x, y) => page.line(x - SAMPLE_MM / 2, y, x + SAMPLE_MM / 2, y, { line: WIDE }),
    });
  if (stage)
    entries.push({
      text: 'centre line',
      draw: (page, x, y) => page.line(x - SAMPLE_MM / 2, y, x + SAMPLE_MM / 2, y, { line: CENTRE }),
    });
  if (stage && stage.wings.length > 0)
    entries.push({
      text: 'wing',
      draw: (page, x, y) =>
        page.box(x - SAMPLE_MM / 2, y - 1.6, x + SAMPLE_MM / 2, y + 1.6, { line: THIN, tint: 'stage' }),
    });
  if ((setup.cables ?? []).length > 0)
    entries.push({
      text: 'cable run',
      draw: (page, x, y) => {
        const points = [-1, 1].map((side) => ({ xMm: x + (side * SAMPLE_MM) / 2, yMm: y }));
        page.marks.push(...cableRunMarks([{ id: 'legend', note: '', points }], 0.8));
      },
    });
  return entries;
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
