/**
 * The measure report read as a stranger would: from its numbers alone, with plain sums and dense sampling, nothing of ours
 * in between. Mass centres to 0.01 mm, tip margins to 0.05 mm. Parts are counted again from the text of plan and catalogue.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type MeasureReport, reportOf, SAMPLE_PLANS } from '../fixtures/samplePlans.ts';

const reports = SAMPLE_PLANS.flatMap(({ name, text, plan }) =>
  plan.order.map((id) => ({ name: `${name}, ${id}`, written: JSON.parse(text), id, report: reportOf(plan, id) })),
);

interface Counted {
  count: number;
  /** kg of one; null: the file says none. */
  kg: number | null;
}

const catalogue = JSON.parse(readFileSync(resolve(import.meta.dirname, '../../src/gear/catalogue.json'), 'utf8'));

/** kg/m3, as EN section tables take them. No sample has a stainless tube. */
const DENSITY: Record<string, number> = { steel: 7850, aluminium: 2700 };

/**
 * Parts of a setup from the file's text, by unit: `gear|cut length|bend` -> how many. The rules are those that parts.ts
 * states: a cross joint where a bar meets an upright, a leg joint for each T-foot, two caps a bar and one on each upright.
 */
// biome-ignore lint/suspicious/noExplicitAny: the file as a stranger reads it
function recount(plan: any, setupId: string): Map<string, Map<string, Counted>> {
  const { pieces, order } = plan.setups[setupId];
  // biome-ignore lint/suspicious/noExplicitAny: the file as a stranger reads it
  const gearOf = (id: string): any => plan.gear[id] ?? catalogue.find((gear: { id: string }) => gear.id === id);
  const above = (id: string): string | undefined => {
    const carrier = pieces[id].mount?.carrier ?? pieces[id].ties?.[0]?.carrier;
    return carrier && (carrier.rack ?? carrier.piece);
  };
  const root = (id: string): string => (above(id) === undefined ? id : root(above(id)!));
  const units = new Map<string, Map<string, Counted>>();
  const add = (piece: string, key: string, kg: number | null, count = 1) => {
    const unit = units.get(root(piece)) ?? new Map<string, Counted>();
    units.set(root(piece), unit.set(key, { count: (unit.get(key)?.count ?? 0) + count, kg }));
  };
  const plain = (piece: string, gear: string | null | undefined) =>
    gear && add(piece, `${gear}||`, gearOf(gear).massKg);
  // biome-ignore lint/suspicious/noExplicitAny: the file as a stranger reads it
  const tube = (piece: string, id: string, cut: number, bend: any) => {
    const { outsideMm: d, wallMm: t, material } = gearOf(id);
    // A hollow cylinder: the outer one less the inner.
    const area = (Math.PI / 4) * (d ** 2 - (d - 2 * t) ** 2);
    const shape = bend ? `${bend.radiusMm} ${bend.straightEndsMm}` : '';
    add(piece, `${id}|${cut}|${shape}`, (area * cut * DENSITY[material]) / 1e9);
  };
  const joint = (piece: string, use: string, tubes: string[]) => {
    const own = Object.values<{ id: string }>(plan.gear).sort((a, b) => (a.id < b.id ? -1 : 1));
    const clamp = [...own, ...catalogue.filter((gear: { id: string }) => !plan.gear[gear.id])].find(
      (gear) =>
        gear.kind === 'clamp' &&
        gear.use === use &&
        tubes.every((id) => gear.tubeMm[0] <= gearOf(id).outsideMm && gearOf(id).outsideMm <= gear.tubeMm[1]),
    );
    plain(piece, clamp.id);
  };
  const caps = (piece: string, id: string, count: number) =>
    add(piece, `end-cap-${gearOf(id).outsideMm}mm||`, null, count);

  for (const id of order) {
    const piece = pieces[id];
    if (piece.kind === 'rack') {
      piece.spans.forEach((span: typeof piece, k: number) => {
        // The first bar sets where the legs stand, so it meets both; whether a further one does would need its chord.
        if (span.bars.length > 1) throw new Error('The recount knows one bar a span.');
        const [bar] = span.bars;
        tube(id, bar.tube, bar.cutLengthMm, bar.bend);
        caps(id, bar.tube, 2);
        for (const leg of [piece.legs[k], piece.legs[k + 1]]) joint(id, 'cross', [bar.tube, leg.tube]);
      });
      for (const leg of piece.legs) {
        tube(id, leg.tube, leg.lengthMm, null);
        caps(id, leg.tube, leg.foot ? 1 : 2);
        if (!leg.foot) continue;
        add(id, `${leg.foot.gear}|${leg.foot.lengthMm}|`, gearOf(leg.foot.gear).massKg);
        joint(id, 'leg', [leg.tube]);
      }
      continue;
    }
    // What stands on the stage beside the kit is no part of it.
    if (gearOf(piece.gear).kind === 'stageItem') continue;
    // A drum on a mount leaves its legs at home.
    const { massKg, legs } = gearOf(piece.gear);
    add(id, `${piece.gear}||`, massKg === null ? null : massKg - (piece.mount ? (legs?.massKg ?? 0) : 0));
    for (const gear of [piece.mount?.clamp, piece.mount?.arm, piece.mount?.platformArm]) plain(id, gear);
    for (const tie of piece.ties ?? []) for (const gear of [tie.link, tie.clamp]) plain(id, gear);
  }
  return units;
}

/** Whether a disc lies on one convex module of a deck, corners counter-clockwise: left of each side by its radius. */
const onDeck = (deck: MeasureReport['deck'], x: number, y: number, radius: number): boolean =>
  deck === null ||
  deck.polygons.some((corners) =>
    corners.every(([ax, ay], k) => {
      const [bx, by] = corners[(k + 1) % corners.length];
      return (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= (radius - 1e-6) * Math.hypot(bx - ax, by - ay);
    }),
  );

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

test('every setup of every sample has a report', () => expect(reports.length).toBeGreaterThanOrEqual(12));

describe.each(reports)('$name', ({ report, written, id: setupId }) => {
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
    for (const { id, centre, tipMargin, tipAngle, tipPush, mass, feetOnDeck } of report.readings.assemblies) {
      if (centre === null || tipMargin === null) continue;
      const isOver = feetOnDeck.onDeck < feetOnDeck.feet;
      const contacts = members(id)
        .filter((body) => body.touchesFloor)
        .map(({ core, radius }) => {
          const points = corePoints(core);
          const isOn = points.every(([x, y]) => onDeck(report.deck, x, y, radius));
          if (!isOver || isOn) return { points, radius };
          // A foot bar over the edge rests with what of its middle line lies on the deck.
          if (core.type !== 'segment') throw new Error('Only foot bars reach over an edge in the samples.');
          const along = Array.from({ length: 20_001 }, (_, k) => k / 20_000).map((t): [number, number] => [
            core.from[0] + (core.to[0] - core.from[0]) * t,
            core.from[1] + (core.to[1] - core.from[1]) * t,
          ]);
          return { points: along.filter(([x, y]) => onDeck(report.deck, x, y, 0)), radius: 0 };
        });
      const reach = (k: number): number => {
        const angle = (k * Math.PI) / 36_000;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        let most = Number.NEGATIVE_INFINITY;
        for (const { points, radius } of contacts)
          for (const [x, y] of points) most = Math.max(most, (x - centre[0]) * c + (y - centre[1]) * s + radius);
        return most;
      };
      // A reach changes by at most so much a step: where that cannot bring it to the least, the steps between are left out.
      const far = Math.max(
        ...contacts.flatMap(({ points }) => points.map(([x, y]) => Math.hypot(x - centre[0], y - centre[1]))),
      );
      const slack = (20 * far * Math.PI) / 36_000;
      const coarse = Array.from({ length: 1800 }, (_, k) => reach(40 * k + 20));
      let least = Math.min(...coarse);
      coarse.forEach((value, k) => {
        if (value - slack < least) for (let j = 0; j < 40; j++) least = Math.min(least, reach(40 * k + j));
      });
      expect(Math.abs(least - tipMargin), id).toBeLessThan(0.05);
      expect(tipAngle).toBeCloseTo((Math.atan2(tipMargin, centre[2]) * 180) / Math.PI, 6);
      // Standard gravity, a lever of the push's height against one of the margin.
      expect(tipPush?.force).toBeCloseTo(Math.max(0, ((mass ?? 0) * 9.80665 * tipMargin) / (tipPush?.height ?? 1)), 6);
    }
  });

  test('parts, unit by unit, are those counted again from the file; masses too', () => {
    const counted = recount(written, setupId);
    const { units, parts, assemblies } = report.readings;
    expect(units.map(({ id }) => id).sort()).toEqual([...counted.keys()].sort());
    for (const { id, parts: rows } of units) {
      const theirs = counted.get(id)!;
      const ours = new Map(
        rows.map(({ gear, cutLength, bend, count, mass }) => [
          `${gear}|${cutLength ?? ''}|${bend ? `${bend.radiusMm} ${bend.straightEndsMm}` : ''}`,
          { count, kg: mass },
        ]),
      );
      expect([...ours.keys()].sort()).toEqual([...theirs.keys()].sort());
      let total: number | null = 0;
      for (const [key, { count, kg }] of theirs) {
        expect(ours.get(key)?.count, `${id}: ${key}`).toBe(count);
        if (kg === null) expect(ours.get(key)?.kg).toBeNull();
        else expect(Math.abs(ours.get(key)!.kg! - kg)).toBeLessThan(1e-9);
        if (key.startsWith('end-cap')) continue;
        total = kg === null || total === null ? null : total + kg * count;
      }
      const mass = assemblies.find((assembly) => assembly.id === id)!.mass;
      if (total === null) expect(mass).toBeNull();
      else expect(Math.abs(mass! - total), id).toBeLessThan(1e-6);
    }
    const sum = (rows: Iterable<{ count: number }>) => [...rows].reduce((all, { count }) => all + count, 0);
    expect(sum(parts)).toBe([...counted.values()].reduce((all, unit) => all + sum(unit.values()), 0));
  });

  test('every foot load pushes, and together they carry what stands on them and the player', () => {
    const { feet, mass, unmeasured } = report.readings.deckLoad;
    for (const foot of feet) expect(foot.force).toBeGreaterThanOrEqual(0);
    if (unmeasured.length > 0) return;
    const total = feet.reduce((sum, foot) => sum + foot.force, 0);
    expect(Math.abs(total / 9.80665 - mass)).toBeLessThan(1e-6);
  });
});
