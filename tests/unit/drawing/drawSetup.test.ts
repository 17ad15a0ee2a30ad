/** Whole drawings of the samples: labels keep apart, dimensions measure what they say, the riser's edge is where it is. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../../src/checks/run.ts';
import type { DrawnBox, Mark, TextMark } from '../../../src/drawing/displayList.ts';
import { drawSetup } from '../../../src/drawing/drawSetup.ts';
import { nameRequests } from '../../../src/drawing/names.ts';
import { drawPiece } from '../../../src/drawing/pieces.ts';
import { estimateText, textBox } from '../../../src/drawing/textWidth.ts';
import { layoutSetup } from '../../../src/layout/layout.ts';
import { readPlan } from '../../../src/plan/read.ts';
import type { Plan } from '../../../src/plan/schema.ts';

function sample(name: string): Plan {
  const read = readPlan(readFileSync(`samples/${name}`, 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  return read.plan;
}

const SAMPLES = readdirSync('samples').filter((name) => name.endsWith('.legroom.json'));
const cases = SAMPLES.flatMap((name) => {
  const plan = sample(name);
  return plan.order.map((id): [string, Plan, string] => [`${plan.name}: ${plan.setups[id].name}`, plan, id]);
});

const texts = (marks: readonly Mark[], layer: Mark['layer']) =>
  marks.filter((mark): mark is TextMark => mark.kind === 'text' && mark.layer === layer);

const overlap = (a: DrawnBox, b: DrawnBox) =>
  Math.min(a.maxX, b.maxX) - Math.max(a.minX, b.minX) > 1e-6 &&
  Math.min(a.maxY, b.maxY) - Math.max(a.minY, b.minY) > 1e-6;

describe.each(cases)('%s', (_, plan, id) => {
  const layout = layoutSetup(plan, id);
  const checked = runChecks(plan, id, layout);
  const scale = 20;
  const { marks, box } = drawSetup(plan, id, layout, checked, { scale, flags: true });

  test('no two names, numbers or flags overlap', () => {
    const boxes = ['names', 'findings', 'dimensions'].flatMap((layer) =>
      texts(marks, layer as Mark['layer']).map((mark) => ({ mark, box: textBox(mark, scale, estimateText) })),
    );
    expect(boxes.length).toBeGreaterThan(8);
    for (let i = 0; i < boxes.length; i++)
      for (let j = i + 1; j < boxes.length; j++) {
        // Lines of one name are set closer than labels.
        if (boxes[i].mark.part === boxes[j].mark.part && boxes[i].mark.layer === 'names') continue;
        expect(overlap(boxes[i].box, boxes[j].box), `${boxes[i].mark.text} on ${boxes[j].mark.text}`).toBe(false);
      }
  });

  test('every piece that has a name to show shows it whole', () => {
    const requests = nameRequests(plan, plan.setups[id], layout, plan.setups[id].order, new Map());
    expect(requests.length).toBeGreaterThan(5);
    for (const request of requests) {
      const lines = texts(marks, 'names').filter(({ part }) => part === request.id);
      expect(lines.map(({ text }) => text).join(' ')).toBe(request.text);
    }
  });

  test('flags count every finding that is not clear and has a place', () => {
    const count = checked.findings.filter((finding) => finding.state !== 'clear' && finding.at).length;
    const shown = texts(marks, 'findings').map(({ text }) => Number(text));
    expect(shown.sort((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, k) => k + 1));
  });

  test('the box holds every mark', () => {
    for (const mark of texts(marks, 'names')) {
      const own = textBox(mark, scale, estimateText);
      expect(own.minX).toBeGreaterThanOrEqual(box.minX - 1);
      expect(own.maxX).toBeLessThanOrEqual(box.maxX + 1);
    }
  });

  test('each piece draws something, tagged with its own id', () => {
    for (const pieceId of plan.setups[id].order) {
      const own = drawPiece(plan, plan.setups[id], pieceId, layout);
      expect(own.length, pieceId).toBeGreaterThan(0);
      expect(new Set(own.map((mark) => mark.pieceId))).toEqual(new Set([pieceId]));
    }
  });
});

test('the riser’s dimension line is as long as the riser', () => {
  const base = sample('compact-one-up-two-down.legroom.json');
  const [id] = base.order;
  const riser = base.setups[id].riser!;
  const module = { id: 'one', xMm: 30, yMm: 900, widthMm: 2345, depthMm: 1800, headingDeg: 0 };
  const plan = { ...base, risers: { [riser]: { ...base.risers[riser], modules: [module] } } };
  const layout = layoutSetup(plan, id);
  const { marks } = drawSetup(plan, id, layout, { findings: [] }, { scale: 20, names: 'none' });
  const lengths = marks.flatMap((mark) => {
    if (mark.kind !== 'path' || !mark.title?.startsWith('Riser: width')) return [];
    const [{ pieces }] = mark.chains;
    const [p] = pieces;
    return p.kind === 'segment' && p.y0 === p.y1 ? [Math.abs(p.x1 - p.x0)] : [];
  });
  expect(lengths).toEqual([2345]);
});

test('a piece that is not in the setup draws nothing, an unknown setup is refused', () => {
  const plan = sample('compact-one-up-two-down.legroom.json');
  const [id] = plan.order;
  const layout = layoutSetup(plan, id);
  expect(drawPiece(plan, plan.setups[id], 'toString', layout)).toEqual([]);
  expect(() => drawSetup(plan, 'toString', layout, { findings: [] }, { scale: 20 })).toThrow(/no setup/);
});

test('the same plan gives the same drawing', () => {
  const plan = sample('one-up-two-down.legroom.json');
  const [id] = plan.order;
  const draw = () => drawSetup(plan, id, layoutSetup(plan, id), { findings: [] }, { scale: 20 });
  expect(JSON.stringify(draw())).toBe(JSON.stringify(draw()));
});
