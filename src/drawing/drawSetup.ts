/**
 * A whole setup as one display list, in the plan's frame: riser, stage, pieces from low to high, hidden lines, centre line,
 * dimensions, names and numbered findings.
 *
 * Units: mm of the model; `scale` says how many go to one mm of paper, for what belongs to the paper.
 */
import type { Finding } from '../checks/finding.ts';
import { prepareDeck } from '../geometry/deck.ts';
import { extent } from '../geometry/support.ts';
import type { Layout } from '../layout/layout.ts';
import type { Plan } from '../plan/schema.ts';
import { type DisplayUnit, formatLength, formatNumber } from '../units.ts';
import { deckMarks } from './deck.ts';
import { dimensionMarks } from './dimensions.ts';
import {
  boxOfMark,
  boxOfMarks,
  CAPITAL_OF_EM,
  CENTRE,
  type DisplayList,
  type DrawnBox,
  joinBoxes,
  lineMark,
  type Mark,
  style,
  type TextMark,
  WIDE,
} from './displayList.ts';
import { hiddenLines } from './hidden.ts';
import { InkMap } from './inkMap.ts';
import { labelMarks, placeLabels } from './labels.ts';
import { flagRequests, nameRequests } from './names.ts';
import { byHeight, drawPiece } from './pieces.ts';
import { estimateText, type MeasureText } from './textWidth.ts';

export interface DrawOptions {
  /** Model mm in one mm of paper: 20 at 1:20. */
  readonly scale: number;
  readonly names?: boolean;
  readonly dimensions?: boolean;
  /** Numbered flags at what is tight, blocked or unmeasured. */
  readonly flags?: boolean;
  readonly hidden?: boolean;
  readonly measure?: MeasureText;
}

/** On paper, mm: room for names round the drawing, and from row to row of dimensions. */
const ROOM_ON_RISER_MM = 3;
const ROOM_WITHOUT_RISER_MM = 14;
const DIMENSION_ROW_MM = 7.5;
const CENTRE_BEYOND_MM = 5;

/** A text's box, for keeping things apart: upright texts and texts turned by quarter turns. */
export function textBox(mark: TextMark, scale: number, measure: MeasureText): DrawnBox {
  const w = measure(mark.text, mark.sizeMm, mark.bold) * scale;
  const start = mark.anchor === 'start' ? 0 : mark.anchor === 'middle' ? -w / 2 : -w;
  const c = Math.cos(mark.rotation);
  const s = Math.sin(mark.rotation);
  const low = -0.24 * mark.sizeMm * scale;
  const high = CAPITAL_OF_EM * mark.sizeMm * scale;
  const corners = [
    [start, low],
    [start + w, low],
    [start, high],
    [start + w, high],
  ].map(([u, v]) => [mark.x + c * u - s * v, mark.y + s * u + c * v]);
  return {
    minX: Math.min(...corners.map(([x]) => x)),
    minY: Math.min(...corners.map(([, y]) => y)),
    maxX: Math.max(...corners.map(([x]) => x)),
    maxY: Math.max(...corners.map(([, y]) => y)),
  };
}

const grown = (box: DrawnBox, by: number): DrawnBox => ({
  minX: box.minX - by,
  minY: box.minY - by,
  maxX: box.maxX + by,
  maxY: box.maxY + by,
});

/** The deck's box, or null without one. */
export function deckBox(layout: Layout): DrawnBox | null {
  return layout.deck ? extent(prepareDeck(layout.deck.modules).modules) : null;
}

/** The box of the kit: every body but other things on the stage. Null for an empty setup. */
export function kitBox(layout: Layout): DrawnBox | null {
  return extent(layout.bodies.filter((body) => body.kind !== 'stageItem').map((body) => body.shape));
}

/** A dimension's number: whole millimetres without their unit, which the sheet states once (draw.dims), or feet and inches. */
export function dimensionText(mm: number, unit: DisplayUnit): string {
  return unit === 'mm' ? formatNumber(mm, 0) : formatLength(mm, unit);
}

/** Rows of dimensions below and to the left: the kit's, then the riser's. */
function allDimensions(plan: Plan, layout: Layout, around: DrawnBox, scale: number, measure: MeasureText): Mark[] {
  const marks: Mark[] = [];
  const kit = kitBox(layout);
  const deck = deckBox(layout);
  const rows = [
    { box: kit, title: 'Kit' },
    { box: deck, title: 'Riser' },
  ].filter((row): row is { box: DrawnBox; title: string } => row.box !== null);
  rows.forEach(({ box, title }, k) => {
    const out = (k + 1) * DIMENSION_ROW_MM * scale;
    const wide = dimensionText(box.maxX - box.minX, plan.units);
    const deep = dimensionText(box.maxY - box.minY, plan.units);
    const common = { scale, measure };
    marks.push(
      ...dimensionMarks({
        ...common,
        from: [box.minX, box.minY],
        to: [box.maxX, box.minY],
        alongRad: 0,
        lineAt: around.minY - out,
        text: wide,
        title: `${title}: width ${wide}`,
      }),
      ...dimensionMarks({
        ...common,
        from: [box.minX, box.minY],
        to: [box.minX, box.maxY],
        alongRad: Math.PI / 2,
        // The normal of a measure along +y points to -x.
        lineAt: -(around.minX - out),
        text: deep,
        title: `${title}: depth ${deep}`,
      }),
    );
  });
  return marks;
}

/** x of the centre line: the riser's middle; without a riser the plan's own 0. */
export function centreLineX(layout: Layout): number {
  const deck = deckBox(layout);
  return deck ? (deck.minX + deck.maxX) / 2 : 0;
}

/**
 * The drawing of a setup. `findings` are those that runChecks gave (only flags need them).
 * Throws: RangeError when the plan has no such setup.
 */
export function drawSetup(
  plan: Plan,
  setupId: string,
  layout: Layout,
  { findings }: { readonly findings: readonly Finding[] },
  options: DrawOptions,
): DisplayList {
  const setup = Object.hasOwn(plan.setups, setupId) ? plan.setups[setupId] : undefined;
  if (!setup) throw new RangeError(`The plan has no setup "${setupId}".`);
  const { scale, names = true, dimensions = true, flags = false, hidden = true, measure = estimateText } = options;
  const riser = setup.riser === null ? undefined : plan.risers[setup.riser];
  const deck = layout.deck ? deckMarks(layout.deck.modules, scale, riser?.name || 'Riser') : [];
  const pieces = byHeight(setup.order.flatMap((id) => drawPiece(plan, setup, id, layout)));
  const marks: Mark[] = [...deck, ...pieces];
  if (hidden) marks.push(...hiddenLines(pieces));

  const model = boxOfMarks(marks);
  const centre = centreLineX(layout);
  const deckOnly = deckBox(layout) ?? model;
  marks.push(
    lineMark(
      style('centre', { line: CENTRE, title: 'Centre line', zMm: 1e4 }),
      centre,
      deckOnly.minY - CENTRE_BEYOND_MM * scale,
      centre,
      deckOnly.maxY + CENTRE_BEYOND_MM * scale,
    ),
  );

  const around = grown(model, (layout.deck ? ROOM_ON_RISER_MM : ROOM_WITHOUT_RISER_MM) * scale);
  const dimensionList = dimensions ? allDimensions(plan, layout, around, scale, measure) : [];
  marks.push(...dimensionList);

  const requests = [...(flags ? flagRequests(findings) : []), ...(names ? nameRequests(plan, setup, layout) : [])];
  if (requests.length > 0) {
    const ink = new InkMap(grown(around, DIMENSION_ROW_MM * scale), scale);
    for (const mark of marks) ink.add(mark);
    const taken = dimensionList.flatMap((mark) => (mark.kind === 'text' ? [textBox(mark, scale, measure)] : []));
    const field = { bounds: around, taken, ink, scale, measure };
    for (const place of placeLabels(requests, field)) marks.push(...labelMarks(place, field));
  }

  const box = marks.reduce(
    (all, mark) => joinBoxes(all, mark.kind === 'text' ? textBox(mark, scale, measure) : boxOfMark(mark)),
    boxOfMark(marks[0]),
  );
  return { marks, box };
}

/** The line round a drawing area, for sheets. */
export const FRAME = style('frame', { line: WIDE, zMm: 1e7 });
