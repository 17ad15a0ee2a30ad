/**
 * Beside or beneath a drawing: the riser's and the kit's figures, what lines and tints mean, and the cautions. In one column
 * where it stands beside the drawing, in three where it lies beneath.
 */

import { countByState } from '../checks/finding.ts';
import type { Checked } from '../checks/run.ts';
import { CENTRE, HIDDEN, type Line, TEXT_MM, THIN, type Tint, WIDE } from '../drawing/displayList.ts';
import { deckBox } from '../drawing/extents.ts';
import { placeOnStage } from '../drawing/setupDimensions.ts';
import { HEIGHT_BANDS_MM } from '../drawing/tubes.ts';
import { isKit } from '../layout/body.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { stageBox, stageOf } from '../plan/stages.ts';
import { formatArea, formatLength, formatMass, formatNumber, formatPressure, MM_PER_IN } from '../units.ts';
import { wholeLength } from '../words/markWords.ts';
import { stateText } from '../words/states.ts';
import { LEADING, type Page } from './page.ts';
import { drawStageLegend, stageLegendHeight } from './stageLegend.ts';

/** What of the key stands on a page. */
export interface KeyParts {
  readonly figures: boolean;
  /** What lines and tints of the kit mean. */
  readonly kit: boolean;
  /** What the glyphs of the stage mean. */
  readonly stage: boolean;
  /** On every page with a drawing. */
  readonly caution: boolean;
}

export interface KeyContent extends KeyParts {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly layout: Layout;
  readonly checked: Checked;
  /** How many findings there are, for the crew's own use. */
  readonly withChecks: boolean;
}

const PAD_MM = 3.2;
const COLUMN_GAP_MM = 5;
const ROW_MM = TEXT_MM.small * 1.5;
const HEADING_MM = 5.2;
const GAP_MM = 3;
const SAMPLE_MM = 11;

const shortLength = (mm: number, { units }: Plan) => wholeLength(mm, units);

function sizes(wideMm: number, deepMm: number, plan: Plan): string {
  if (plan.units === 'in') return `${formatLength(wideMm, 'in')} × ${formatLength(deepMm, 'in')}`;
  return `${formatNumber(wideMm, 0)} × ${formatNumber(deepMm, 0)} mm`;
}

type Rows = readonly (readonly [string, string])[];

function riserRows({ plan, setup, layout, checked }: KeyContent): Rows {
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const box = deckBox(layout);
  if (!riser || !box) return [['Riser', 'none: kit on the stage floor']];
  const rows: [string, string][] = [
    ['Riser', `${sizes(box.maxX - box.minX, box.maxY - box.minY, plan)}, ${shortLength(riser.heightMm, plan)} high`],
    ['Rated load', riser.ratedKPa === null ? 'not given' : formatPressure(riser.ratedKPa, plan.units)],
  ];
  const { riserMargin } = checked.readings;
  if (riserMargin !== null)
    rows.push(
      riserMargin >= 0
        ? ['Least edge margin', `${shortLength(riserMargin, plan)} (wanted ${shortLength(riser.edgeMarginMm, plan)})`]
        : ['Off the riser by', shortLength(-riserMargin, plan)],
    );
  return rows;
}

/** Where the riser, or the kit, stands on the stage. */
function stageRows({ plan, setup, layout }: KeyContent): Rows {
  const stage = stageOf(plan, setup);
  if (!stage) return [];
  const { minX, minY, maxX, maxY } = stageBox(stage);
  const rows: [string, string][] = [[stage.name || 'Stage', sizes(maxX - minX, maxY - minY, plan)]];
  const place = placeOnStage(layout, stage);
  if (!place) return rows;
  const { what, offCentreMm, toFrontMm } = place;
  const side = offCentreMm > 0 ? 'stage left' : 'stage right';
  const off = Math.abs(offCentreMm) < 1 ? 'on it' : `${shortLength(Math.abs(offCentreMm), plan)} ${side}`;
  rows.push([`${what} to centre line`, off]);
  if (toFrontMm !== null)
    rows.push(
      toFrontMm >= 0
        ? [`${what} to stage edge`, shortLength(toFrontMm, plan)]
        : [`${what} over the stage edge by`, shortLength(-toFrontMm, plan)],
    );
  return rows;
}

function kitRows({ plan, layout, checked, withChecks }: KeyContent): Rows {
  const { extent, smallestRectangle, floorHullArea } = checked.readings;
  const rows: [string, string][] = [];
  if (extent) rows.push(['Kit', sizes(extent.width, extent.depth, plan)]);
  if (smallestRectangle)
    rows.push(['Smallest rectangle', sizes(smallestRectangle.width, smallestRectangle.depth, plan)]);
  if (floorHullArea !== null) rows.push(['Floor taken', formatArea(floorHullArea, plan.units)]);
  const kit = layout.bodies.filter(isKit);
  const knownKg = kit.reduce((sum, body) => sum + (body.massKg ?? 0), 0);
  const unknown = kit.some((body) => body.massKg === null);
  rows.push(['Mass, without player', `${unknown ? 'over ' : ''}${formatMass(knownKg, plan.units)}`]);
  if (withChecks) rows.push(['Checks', stateText(countByState(checked.findings))]);
  return rows;
}

function drawRows(page: Page, rows: Rows, x: number, y: number, w: number): number {
  let at = y;
  for (const [name, value] of rows) {
    const base = at - TEXT_MM.small;
    page.text(name, x, base, { faint: true });
    const left = page.measure(name, TEXT_MM.small, false) + 2;
    page.fitted(value, x + w, base, w - left, { anchor: 'end' });
    at -= ROW_MM;
  }
  return at;
}

const LINES: readonly (readonly [Line, string])[] = [
  [WIDE, 'stands on the deck'],
  [THIN, 'hangs or is held above'],
  [HIDDEN, 'hidden beneath'],
  [CENTRE, 'centre line'],
];

/** A riser's edge is in the key too: it is a drop. */
const EDGE_TEXT = 'edge of the riser: a drop';

function tintRows({ plan }: KeyContent): (readonly [Tint, string])[] {
  // To the nearest inch: a key to tints, not a measure.
  const [low, middle, high] = HEIGHT_BANDS_MM.map((mm) =>
    shortLength(plan.units === 'in' ? Math.round(mm / MM_PER_IN) * MM_PER_IN : mm, plan),
  );
  return [
    ['ground', `top up to ${low}`],
    ['low', `up to ${middle}`],
    ['middle', `up to ${high}`],
    ['high', 'higher'],
  ];
}

function drawLegend(page: Page, content: KeyContent, x: number, y: number): number {
  let at = y;
  const caption = (text: string) => page.text(text, x + SAMPLE_MM + 2.5, at - TEXT_MM.small);
  for (const [line, text] of LINES) {
    const middle = at - TEXT_MM.small * 0.66;
    page.line(x, middle, x + SAMPLE_MM, middle, { line });
    caption(text);
    at -= ROW_MM;
  }
  if (content.layout.deck) {
    const middle = at - TEXT_MM.small * 0.5;
    page.line(x, middle, x + SAMPLE_MM, middle, { line: WIDE });
    page.line(x, middle + 1.1, x + SAMPLE_MM, middle + 1.1);
    for (let k = 0; k < 5; k++) {
      const from = x + ((k + 0.8) * SAMPLE_MM) / 5;
      page.line(from, middle, from - 1, middle - 1);
    }
    caption(EDGE_TEXT);
    at -= ROW_MM;
  }
  for (const [tint, text] of tintRows(content)) {
    page.box(x, at - TEXT_MM.small * 1.1, x + SAMPLE_MM, at - TEXT_MM.small * 0.1, { tint });
    caption(text);
    at -= ROW_MM;
  }
  return at;
}

const CAUTIONS =
  'Deck load, tipping, lifting, power and the drops at the edges of riser and stage can hurt people. Sizes are typical ' +
  'unless measured, gaps are between things standing still. Check the deck’s rating plate, secure the riser and mark ' +
  'its edge; only licensed persons connect power. Local codes, the venue and licensed practice decide, not this sheet.';

interface Section {
  readonly heading: string;
  /** Of the width, where sections stand side by side. */
  readonly share: number;
  /** The width that it needs, mm. */
  readonly leastMm: number;
  height(widthMm: number): number;
  draw(x: number, y: number, widthMm: number): void;
}

/** Wider than this, the figures stand in two columns. */
const WIDE_FIGURES_MM = 120;

function sections(page: Page, content: KeyContent, beside: boolean): Section[] {
  const { plan, setup } = content;
  const figures = [...stageRows(content), ...riserRows(content), ...kitRows(content)];
  const legendRows = LINES.length + tintRows(content).length + (content.layout.deck ? 1 : 0);
  const columns = beside ? 1 : 2;
  const glyphsMm = stageLegendHeight(plan, setup, columns);
  const all: (Section & { readonly shown: boolean })[] = [
    {
      shown: content.figures,
      heading: 'Figures',
      leastMm: 50,
      share: 1.05,
      height: (w) => Math.ceil(figures.length / (w > WIDE_FIGURES_MM ? 2 : 1)) * ROW_MM,
      draw: (x, y, w) => {
        if (w <= WIDE_FIGURES_MM) {
          drawRows(page, figures, x, y, w);
          return;
        }
        const half = Math.ceil(figures.length / 2);
        const columnMm = (w - 2 * COLUMN_GAP_MM) / 2;
        drawRows(page, figures.slice(0, half), x, y, columnMm);
        drawRows(page, figures.slice(half), x + columnMm + 2 * COLUMN_GAP_MM, y, columnMm);
      },
    },
    {
      shown: content.kit,
      heading: 'Seen from above',
      leastMm: 46,
      share: 0.8,
      height: () => legendRows * ROW_MM,
      draw: (x, y) => {
        drawLegend(page, content, x, y);
      },
    },
    {
      shown: content.stage && glyphsMm > 0,
      heading: 'On the stage',
      leastMm: columns * 36,
      share: 1.6,
      height: () => glyphsMm,
      draw: (x, y, w) => {
        drawStageLegend(page, plan, setup, x, y, w, columns);
      },
    },
    {
      shown: content.caution,
      heading: 'Caution',
      leastMm: 30,
      share: 1,
      height: (w) => page.paragraphHeight(CAUTIONS, w, TEXT_MM.small),
      draw: (x, y, w) => {
        page.paragraph(CAUTIONS, x, y - TEXT_MM.small, w);
      },
    },
  ];
  return all.filter(({ shown }) => shown);
}

/** Wider than this, the sections stand side by side. */
const ONE_COLUMN_MM = 90;

const isBeside = (widthMm: number): boolean => widthMm <= ONE_COLUMN_MM;

/** Widths of the sections within a block: what each needs, and of what is left a share. Null where they need more. */
function sectionWidths(all: readonly Section[], widthMm: number): number[] | null {
  if (isBeside(widthMm)) return all.map(() => widthMm - 2 * PAD_MM);
  const room = widthMm - 2 * PAD_MM - (all.length - 1) * COLUMN_GAP_MM;
  const shares = all.reduce((sum, { share }) => sum + share, 0);
  const spare = room - all.reduce((sum, { leastMm }) => sum + leastMm, 0);
  if (spare < 0) return null;
  return all.map(({ share, leastMm }) => leastMm + (spare * share) / shares);
}

/** How deep the block is at a width; infinite where the width is too small for it. */
export function keyHeight(page: Page, content: KeyContent, widthMm: number): number {
  const all = sections(page, content, isBeside(widthMm));
  const widths = sectionWidths(all, widthMm);
  if (!widths) return Number.POSITIVE_INFINITY;
  const heights = all.map((section, k) => HEADING_MM + section.height(widths[k]));
  if (!isBeside(widthMm)) return Math.max(...heights) + 2 * PAD_MM - LEADING;
  return heights.reduce((sum, height) => sum + height + GAP_MM, 0) + PAD_MM;
}

/** Draws the block in its area, from the top. `beside`: the drawing is to its left, and a line divides them. */
export function keyBlock(
  page: Page,
  content: KeyContent,
  area: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number },
  beside: boolean,
): void {
  const all = sections(page, content, beside);
  const widths = sectionWidths(all, area.maxX - area.minX);
  if (!widths) throw new Error('The key has less room than it needs.');
  if (beside) page.line(area.minX, area.minY, area.minX, area.maxY);
  else page.line(area.minX, area.maxY, area.maxX, area.maxY);
  let x = area.minX + PAD_MM;
  let y = area.maxY - PAD_MM;
  all.forEach((section, k) => {
    page.text(section.heading, x, y - TEXT_MM.small, { bold: true, sizeMm: TEXT_MM.small * 1.1 });
    section.draw(x, y - HEADING_MM, widths[k]);
    if (!beside) {
      x += widths[k] + COLUMN_GAP_MM;
      return;
    }
    y -= HEADING_MM + section.height(widths[k]) + GAP_MM;
    if (k < all.length - 1) page.line(area.minX, y + GAP_MM / 2, area.maxX, y + GAP_MM / 2, { ink: 'faint' });
  });
}
