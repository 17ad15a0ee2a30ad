/**
 * Beside or beneath a drawing: the riser's and the kit's figures, what lines and tints mean, and the cautions. In one column
 * where it stands beside the drawing, in three where it lies beneath.
 */
import type { Finding } from '../checks/finding.ts';
import type { Checked } from '../checks/run.ts';
import { CENTRE, HIDDEN, type Line, TEXT_MM, THIN, type Tint, WIDE } from '../drawing/displayList.ts';
import { deckBox } from '../drawing/extents.ts';
import { HEIGHT_BANDS_MM } from '../drawing/tubes.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan, Setup } from '../plan/schema.ts';
import { formatArea, formatLength, formatMass, formatNumber, KG_PER_LB, MM_PER_IN } from '../units.ts';
import { type Channel, INPUT_HEADING, inputList } from './inputList.ts';
import { LEADING, type Page } from './page.ts';

export interface KeyParts {
  readonly withInputs: boolean;
  /** The figures and the legend; a page that has a companion leaves them to it. The caution is always there. */
  readonly withFigures: boolean;
}

export interface KeyContent extends KeyParts {
  readonly plan: Plan;
  readonly setup: Setup;
  readonly layout: Layout;
  readonly checked: Checked;
}

const PAD_MM = 3.2;
const COLUMN_GAP_MM = 6;
const ROW_MM = TEXT_MM.small * 1.5;
const HEADING_MM = 5.2;
const GAP_MM = 3;
const SAMPLE_MM = 11;

/** A length without more digits than anybody can lay out. */
function shortLength(mm: number, plan: Plan): string {
  return plan.units === 'mm' ? `${formatNumber(mm, 0)} mm` : formatLength(mm, plan.units);
}

function sizes(wideMm: number, deepMm: number, plan: Plan): string {
  if (plan.units === 'in') return `${formatLength(wideMm, 'in')} × ${formatLength(deepMm, 'in')}`;
  return `${formatNumber(wideMm, 0)} × ${formatNumber(deepMm, 0)} mm`;
}

/** A pound-force on a square foot, in kPa: pound times standard gravity over a foot squared. */
const KPA_PER_PSF = (KG_PER_LB * 9.80665) / (12 * 0.0254) ** 2 / 1000;

function ratedLoad(kPa: number, plan: Plan): string {
  return plan.units === 'in' ? `${formatNumber(kPa / KPA_PER_PSF, 0)} lb/ft²` : `${formatNumber(kPa, 1)} kN/m²`;
}

type Rows = readonly (readonly [string, string])[];

function riserRows({ plan, setup, layout, checked }: KeyContent): Rows {
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const box = deckBox(layout);
  if (!riser || !box) return [['Riser', 'none: kit on the stage floor']];
  const rows: [string, string][] = [
    ['Riser', sizes(box.maxX - box.minX, box.maxY - box.minY, plan)],
    ['Height', shortLength(riser.heightMm, plan)],
    ['Rated load', riser.ratedKPa === null ? 'not stated: ask' : ratedLoad(riser.ratedKPa, plan)],
    ['Edge margin wanted', shortLength(riser.edgeMarginMm, plan)],
  ];
  const { riserMargin } = checked.readings;
  if (riserMargin !== null)
    rows.push(
      riserMargin >= 0
        ? ['Least edge margin', shortLength(riserMargin, plan)]
        : ['Over the edge by', shortLength(-riserMargin, plan)],
    );
  return rows;
}

function stateCount(findings: readonly Finding[]): string {
  const count = (state: Finding['state']) => findings.filter((finding) => finding.state === state).length;
  const parts = (['blocked', 'tight', 'unmeasured'] as const)
    .map((state) => [state, count(state)] as const)
    .filter(([, n]) => n > 0)
    .map(([state, n]) => `${n} ${state}`);
  return parts.length > 0 ? parts.join(', ') : 'all clear';
}

function kitRows({ plan, layout, checked }: KeyContent): Rows {
  const { extent, smallestRectangle, floorHullArea } = checked.readings;
  const rows: [string, string][] = [];
  if (extent) rows.push(['Kit', sizes(extent.width, extent.depth, plan)]);
  if (smallestRectangle)
    rows.push(['Smallest rectangle', sizes(smallestRectangle.width, smallestRectangle.depth, plan)]);
  if (floorHullArea !== null) rows.push(['Floor taken', formatArea(floorHullArea, plan.units)]);
  const kit = layout.bodies.filter((body) => body.kind !== 'stageItem');
  const knownKg = kit.reduce((sum, body) => sum + (body.massKg ?? 0), 0);
  const unknown = kit.some((body) => body.massKg === null);
  rows.push(['Mass, without player', `${unknown ? 'over ' : ''}${formatMass(knownKg, plan.units)}`]);
  rows.push(['Checks', stateCount(checked.findings)]);
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

/** Beneath a drawing the list stands in as many columns as keep it no deeper than the figures beside it. */
const LIST_ROWS = 11;

function drawList(page: Page, channels: readonly Channel[], x: number, y: number, w: number, columns: number): void {
  const rows = Math.ceil(channels.length / columns);
  const columnWidth = w / columns;
  channels.forEach(({ number, source }, k) => {
    const left = x + Math.floor(k / rows) * columnWidth;
    const base = y - TEXT_MM.small - (k % rows) * ROW_MM;
    page.text(String(number), left + 4, base, { anchor: 'end', faint: true });
    page.fitted(source, left + 5.5, base, columnWidth - 7);
  });
}

const CAUTIONS =
  'Deck load, tipping, lifting and the drop at the riser’s edge can hurt people. Sizes are typical unless measured, gaps ' +
  'are between things standing still. Check the deck’s rating plate, secure the riser and mark its edge. Local codes, ' +
  'the venue and licensed practice decide, not this sheet.';

interface Section {
  readonly heading: string;
  /** Of the width, where sections stand side by side. */
  readonly share: number;
  height(widthMm: number): number;
  draw(x: number, y: number, widthMm: number): void;
}

function sections(page: Page, content: KeyContent, beside: boolean): Section[] {
  const channels = content.withInputs ? inputList(content.plan, content.setup) : [];
  const columns = beside ? 1 : Math.max(1, Math.ceil(channels.length / LIST_ROWS));
  const inputs: Section = {
    heading: INPUT_HEADING,
    share: beside ? 1 : columns * 0.75,
    height: () => Math.ceil(channels.length / columns) * ROW_MM,
    draw: (x, y, w) => {
      drawList(page, channels, x, y, w, columns);
    },
  };
  const figures = [...riserRows(content), ...kitRows(content)];
  const legendRows = LINES.length + tintRows(content).length + (content.layout.deck ? 1 : 0);
  const figureSections: Section[] = [
    {
      heading: 'Figures',
      share: 1,
      height: () => figures.length * ROW_MM,
      draw: (x, y, w) => {
        drawRows(page, figures, x, y, w);
      },
    },
    {
      heading: 'Seen from above',
      share: 0.8,
      height: () => legendRows * ROW_MM,
      draw: (x, y) => {
        drawLegend(page, content, x, y);
      },
    },
  ];
  return [
    ...(content.withFigures ? figureSections : []),
    ...(channels.length > 0 ? [inputs] : []),
    {
      heading: 'Caution',
      share: 1,
      height: (w) => page.paragraphHeight(CAUTIONS, w, TEXT_MM.small),
      draw: (x, y, w) => {
        page.paragraph(CAUTIONS, x, y - TEXT_MM.small, w);
      },
    },
  ];
}

/** Wider than this, the sections stand side by side. */
const ONE_COLUMN_MM = 90;

const isBeside = (widthMm: number): boolean => widthMm <= ONE_COLUMN_MM;

/** Widths of the sections within a block. */
function sectionWidths(all: readonly Section[], widthMm: number): number[] {
  if (isBeside(widthMm)) return all.map(() => widthMm - 2 * PAD_MM);
  const room = widthMm - 2 * PAD_MM - (all.length - 1) * COLUMN_GAP_MM;
  const shares = all.reduce((sum, { share }) => sum + share, 0);
  return all.map(({ share }) => (room * share) / shares);
}

/** How deep the block is at a width. */
export function keyHeight(page: Page, content: KeyContent, widthMm: number): number {
  const all = sections(page, content, isBeside(widthMm));
  const widths = sectionWidths(all, widthMm);
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
