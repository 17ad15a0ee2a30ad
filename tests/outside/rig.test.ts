/**
 * The measure report read as a stranger would: from its numbers alone, with plain sums and dense sampling, nothing of ours
 * in between. Mass centres to 0.01 mm, tip margins to 0.05 mm.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runChecks } from '../../src/checks/run.ts';
import { type MeasureReport, measureReport } from '../../src/drawing/report.ts';
import { layoutSetup } from '../../src/layout/layout.ts';
import { readPlan } from '../../src/plan/read.ts';

const folder = resolve(import.meta.dirname, '../../samples');
const reports = readdirSync(folder)
  .filter((name) => name.endsWith('.legroom.json'))
  .flatMap((file) => {
    const read = readPlan(readFileSync(join(folder, file), 'utf8'));
    if (!read.ok) throw new Error(read.problem.sentence);
    return read.plan.order.map((id) => {
      const layout = layoutSetup(read.plan, id);
      const report = measureReport(read.plan, id, layout, runChecks(read.plan, id, layout));
      return { name: `${file}, ${id}`, report: JSON.parse(JSON.stringify(report)) as MeasureReport };
    });
  });

/** A contact's outline as many points of its core; the radius is added to each direction's reach. */
function corePoints(core: MeasureReport['bodies'][number]['core']): [number, number][] {
  switch (core.type) {
    case 'point':
      return [core.at];
    case 'segment':
      return [core.from, core.to];
    case 'polygon':
      return core.points;
    case 'arc':
      return Array.from({ length: 2001 }, (_, k) => {
        const angle = ((core.start + (core.sweep * k) / 2000) * Math.PI) / 180;
        return [core.centre[0] + core.radius * Math.cos(angle), core.centre[1] + core.radius * Math.sin(angle)];
      });
  }
}

describe.each(reports)('$name', ({ report }) => {
  const members = (id: string) => report.bodies.filter((body) => body.assembly === id);

  test('masses and mass centres are the sums of the bodies', () => {
    expect(report.readings.assemblies.length).toBeGreaterThan(1);
    for (const { id, mass, centre, unmeasured } of report.readings.assemblies) {
      const bodies = members(id);
      const unknown = new Set(bodies.filter((body) => body.mass === null).map((body) => body.piece));
      expect([...unknown].sort()).toEqual([...unmeasured].sort());
      if (mass === null || centre === null) continue;
      const sum = bodies.reduce((all, body) => all + (body.mass ?? 0), 0);
      expect(Math.abs(sum - mass)).toBeLessThan(1e-9);
      for (const axis of [0, 1, 2]) {
        const moment = bodies.reduce((all, body) => all + (body.mass ?? 0) * (body.massCentre?.[axis] ?? 0), 0);
        expect(Math.abs(moment / sum - centre[axis])).toBeLessThan(0.01);
      }
    }
  });

  test('tip margins: the least reach of the contacts past the mass centre, over 72 000 directions', () => {
    for (const { id, centre, tipMargin, tipAngle, tipPush, mass } of report.readings.assemblies) {
      if (centre === null || tipMargin === null) continue;
      const contacts = members(id)
        .filter((body) => body.touchesFloor)
        .map((body) => ({ points: corePoints(body.core), radius: body.radius }));
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k < 72_000; k++) {
        const angle = (k * Math.PI) / 36_000;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        let reach = Number.NEGATIVE_INFINITY;
        for (const { points, radius } of contacts)
          for (const [x, y] of points) reach = Math.max(reach, (x - centre[0]) * c + (y - centre[1]) * s + radius);
        least = Math.min(least, reach);
      }
      expect(Math.abs(least - tipMargin), id).toBeLessThan(0.05);
      expect(tipAngle).toBeCloseTo((Math.atan2(tipMargin, centre[2]) * 180) / Math.PI, 6);
      // Standard gravity, a lever of the push's height against one of the margin.
      expect(tipPush?.force).toBeCloseTo(Math.max(0, ((mass ?? 0) * 9.80665 * tipMargin) / (tipPush?.height ?? 1)), 6);
    }
  });

  test('every foot load pushes, and together they carry what stands on them and the player', () => {
    const { feet, mass, unmeasured } = report.readings.deckLoad;
    for (const foot of feet) expect(foot.force).toBeGreaterThanOrEqual(0);
    if (unmeasured.length > 0) return;
    const total = feet.reduce((sum, foot) => sum + foot.force, 0);
    expect(Math.abs(total / 9.80665 - mass)).toBeLessThan(1e-6);
  });
});
