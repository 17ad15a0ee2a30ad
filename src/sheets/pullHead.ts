/** A pull list's first page above its table: the plan with numbers, the sums, the order of loading in, the cautions. */
import type { Checked } from '../checks/run.ts';
import { TEXT_MM } from '../drawing/displayList.ts';
import type { Layout } from '../layout/layout.ts';
import type { PullList } from '../lists/packing.ts';
import type { Plan } from '../plan/schema.ts';
import { cautionsOf } from '../words/cautions.ts';
import { counted, loadName } from '../words/names.ts';
import { massWords, priceText } from '../words/packingWords.ts';
import type { Format } from './framed.ts';
import { numberedPlan } from './numberedPlan.ts';
import { LEADING, type Page } from './page.ts';

/** On paper, mm. */
const PAD_MM = 3.2;
const SMALL = TEXT_MM.small;
const LINE_MM = SMALL * LEADING;
const PLAN_MM = 66;
const ORDER_GAP_MM = 1.5;
/** The list of units beside the plan; more are found by their numbers alone. */
const MOST_LISTED = 30;

const SHARP =
  'Cut tube ends are sharp: take off the burr, put caps on, wear gloves. Curved tubes spring and roll: carry them with two hands.';
/** loadIn.ts, in short. */
const ORDER =
  'Racks first, the heaviest before the others; then of each kind what stands farthest from the way in; the throne when all ' +
  'else stands. Common practice: change it where the stage asks for it.';
const DECIDE = 'Local codes, the venue and licensed practice decide.';

/** What the list comes to, row by row. */
function sums(plan: Plan, list: PullList): (readonly [string, string])[] {
  const rows: [string, string][] = [
    ['Loads', String(list.units.length)],
    ['Parts', String(list.partCount)],
    ['Mass', massWords(list, plan)],
  ];
  if (list.unmeasured > 0) rows.push(['Not weighed', counted(list.unmeasured, 'part')]);
  if (list.price > 0) {
    const price = `${priceText(list.price)} ${list.currency}`.trimEnd();
    rows.push(['Price', list.unpriced > 0 ? `${price}, ${counted(list.unpriced, 'part')} without one` : price]);
  }
  if (list.missing !== null) {
    rows.push(['Stock list', list.stockName || 'unnamed']);
    rows.push(['Missing', list.missing === 0 ? 'nothing' : counted(list.missing, 'part')]);
  }
  return rows;
}

/** How deep it is, and how to draw it. */
export function pullHead(
  plan: Plan,
  setupId: string,
  layout: Layout,
  checked: Checked,
  list: PullList,
  page: Page,
  { frame }: Format,
): { readonly heightMm: number; draw(): void } {
  const [left, right] = [frame.minX + PAD_MM, frame.maxX - PAD_MM];
  const wide = right - left;
  const planMm = wide * 0.5;
  const textX = left + planMm + 4;
  const textMm = right - textX;
  const figures = sums(plan, list);
  const listed = list.units.length <= MOST_LISTED ? list.units : [];
  const cymbals = list.units.reduce((sum, unit) => sum + unit.cymbals, 0);
  const order: string[] = ['First the riser or rug, and the marks.'];
  const last = cymbals > 0 ? `Last the cymbals, ${cymbals} in all.` : '';
  const step = LINE_MM * 1.08;
  const textHigh =
    6 +
    figures.length * step +
    3 +
    6 +
    (order.length + listed.length + (last === '' ? 0 : 1)) * step +
    ORDER_GAP_MM +
    page.paragraphHeight(ORDER, textMm, SMALL);
  const cautions = [...cautionsOf(checked.findings.filter(({ check }) => check === 'lift')), SHARP, DECIDE].join(' ');
  const cautionMm = page.paragraphHeight(cautions, wide - 18, SMALL) + 2.5;
  const upperMm = Math.max(PLAN_MM, textHigh);
  return {
    heightMm: PAD_MM + upperMm + cautionMm + 2,
    draw: () => {
      const top = frame.maxY - PAD_MM;
      const area = { minX: left, maxX: left + planMm, minY: top - upperMm, maxY: top };
      page.marks.push(...numberedPlan(plan, setupId, layout, list.units, area, page.measure));
      let at = top - TEXT_MM.normal;
      page.text('Pull list', textX, at, { bold: true, sizeMm: TEXT_MM.normal });
      at -= 6;
      for (const [name, value] of figures) {
        page.text(name, textX, at, { faint: true });
        page.fitted(value, textX + 28, at, textMm - 28);
        at -= step;
      }
      at -= 3;
      page.text('Order of loading in', textX, at, { bold: true });
      at -= step;
      for (const words of order) {
        page.fitted(words, textX, at, textMm);
        at -= step;
      }
      for (const unit of listed) {
        page.text(String(unit.number), textX + 4.5, at, { anchor: 'end', bold: true });
        const mass = massWords(unit, plan);
        page.text(mass, right, at, { anchor: 'end' });
        const room = textMm - 6.5 - page.measure(mass, SMALL, false) - 3;
        page.fitted(loadName(plan, setupId, unit), textX + 6.5, at, room);
        at -= step;
      }
      if (last !== '') {
        page.fitted(last, textX, at, textMm);
        at -= step;
      }
      page.paragraph(ORDER, textX, at - ORDER_GAP_MM, textMm, { faint: true });
      const cautionY = top - upperMm - 0.5;
      page.line(left, cautionY, right, cautionY, { ink: 'faint' });
      page.text('Caution', left, cautionY - SMALL - 0.8, { bold: true });
      page.paragraph(cautions, left + 18, cautionY - SMALL - 0.8, wide - 18);
    },
  };
}
