/** A small plan of a setup with a number at each load that travels, fitted to a box on the page. Not to a standard scale. */
import { type Mark, placed } from '../drawing/displayList.ts';
import { drawSetup } from '../drawing/drawSetup.ts';
import { bareField, type LabelRequest, numberRequest, placedMarks } from '../drawing/labels.ts';
import type { MeasureText } from '../drawing/textWidth.ts';
import { extent } from '../geometry/support.ts';
import type { Layout } from '../layout/layout.ts';
import { own } from '../plan/places.ts';
import type { Plan } from '../plan/schema.ts';
import type { Box } from './framed.ts';

/** What stands at a load: its rack's first bar, or its first piece's own place. */
function placeOf(plan: Plan, setupId: string, layout: Layout, id: string): readonly [number, number] | null {
  const bar = own(layout.racks, id)?.bars[0];
  if (bar) {
    const { x, y } = bar.pointAt(bar.length / 2);
    return [x, y];
  }
  const piece = own(plan.setups[setupId].pieces, id);
  return piece ? [piece.place.xMm, piece.place.yMm] : null;
}

/** Where else its number may point: the sides of its first piece. A drum and the stand under it have one place, and two numbers. */
function sidesOf({ bodies }: Layout, id: string): (readonly [number, number])[] {
  const box = extent(bodies.filter(({ piece, kind }) => piece === id && kind !== 'arm').map(({ shape }) => shape));
  if (!box) return [];
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  return [
    [box.minX, y],
    [box.maxX, y],
    [x, box.minY],
    [x, box.maxY],
  ];
}

/** Room for numbers that stand beside what they speak of, mm on paper. */
const ROUND_MM = 3;

export function numberedPlan(
  plan: Plan,
  setupId: string,
  layout: Layout,
  units: readonly { readonly id: string; readonly number: number }[],
  area: Box,
  measure: MeasureText,
): Mark[] {
  const [wide, high] = [area.maxX - area.minX - 2 * ROUND_MM, area.maxY - area.minY - 2 * ROUND_MM];
  const draw = (scale: number) =>
    drawSetup(
      plan,
      setupId,
      layout,
      { findings: [] },
      { scale, view: 'kit', names: 'none', dimensions: 'none', hidden: false, measure },
    );
  const scaleFor = (scale: number) => {
    const { box } = draw(scale);
    return Math.max((box.maxX - box.minX) / wide, (box.maxY - box.minY) / high, 1);
  };
  // What belongs to the paper takes room as well, and how much of the model that is depends on the scale: twice is near enough.
  const scale = scaleFor(scaleFor(20));
  const { marks: drawn, box } = draw(scale);
  const factor = Math.min(wide / (box.maxX - box.minX), high / (box.maxY - box.minY), 1);
  const dx = (area.minX + area.maxX) / 2 - ((box.minX + box.maxX) / 2) * factor;
  const dy = (area.minY + area.maxY) / 2 - ((box.minY + box.maxY) / 2) * factor;
  const marks = drawn.map((mark) => placed(mark, { factor, dx, dy }));

  const requests = units.flatMap(({ id, number }): LabelRequest[] => {
    const at = placeOf(plan, setupId, layout, id);
    if (!at) return [];
    const onPage = ([x, y]: readonly [number, number]) => [x * factor + dx, y * factor + dy] as const;
    const [x, y] = onPage(at);
    const elsewhere = sidesOf(layout, id).map(onPage);
    return [numberRequest({ id: `load ${number}`, text: String(number), form: 'flag', x, y, pieceId: id, elsewhere })];
  });
  return [...marks, ...placedMarks(requests, bareField(marks, { bounds: area, scale: 1, measure }))];
}
