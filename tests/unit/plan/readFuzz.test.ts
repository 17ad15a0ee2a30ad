import fc from 'fast-check';
import { expect, test } from 'vitest';
import { rackFrame } from '../../../src/plan/rackFrame.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { few, runs } from '../../fixtures/seeds.ts';

type Path = (string | number)[];

/** Every way into a document. */
function paths(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  const keys = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value);
  return [at, ...keys.flatMap((key) => paths((value as never)[key], [...at, key]))];
}

const DELETE = Symbol('delete');

/** A copy with the value at a path replaced or taken away. */
function replaced(value: unknown, path: Path, by: unknown): unknown {
  if (path.length === 0) return by;
  const [key, ...rest] = path;
  if (Array.isArray(value)) {
    const list = [...value];
    if (rest.length === 0 && by === DELETE) list.splice(key as number, 1);
    else list[key as number] = replaced(list[key as number], rest, by);
    return list;
  }
  const copy: Record<string, unknown> = { ...(value as Record<string, unknown>) };
  if (rest.length === 0 && by === DELETE) delete copy[key];
  else copy[key] = replaced(copy[key], rest, by);
  return copy;
}

/** Whatever it is, it is answered: with a plan that holds together, or with one sentence that says where. */
function expectAnswer(text: string): boolean {
  const read = readPlan(text);
  if (!read.ok) {
    const { code, place, sentence } = read.problem;
    expect(code).toMatch(/^[a-z_]+$/);
    expect(sentence.startsWith(place)).toBe(true);
    expect(sentence).toMatch(/^[^\n]{1,500}\.$/);
    return false;
  }
  const again = writePlan(read.plan);
  const twice = readPlan(again);
  expect(twice.ok && writePlan(twice.plan)).toBe(again);
  for (const setup of Object.values(read.plan.setups))
    for (const piece of Object.values(setup.pieces)) {
      if (piece.kind !== 'rack') continue;
      const { legs } = rackFrame(piece);
      for (const leg of legs) expect(Number.isFinite(leg.x + leg.y + leg.headingRad)).toBe(true);
    }
  return true;
}

const sample = samplePlan();
const places = paths(sample).filter((path) => path.length > 0);
const values = places.map((path) => path.reduce<unknown>((value, key) => (value as never)[key], sample));

test('RD-1 a plan with one value changed for another is read whole or told about, and never throws', () => {
  let read = 0;
  const strange = fc.oneof(
    fc.constantFrom<unknown>(DELETE, null, true, '', 'toString', 'left', [], {}, 0, -1, 0.5, 1e6, 360, 1e308),
    fc.constantFrom(...values),
    fc.jsonValue({ maxDepth: 2 }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...places), strange, (path, value) => {
      if (expectAnswer(JSON.stringify(replaced(sample, path, value)))) read++;
    }),
    runs(600, 120),
  );
  // Some changes are harmless (another number in range): both answers were met.
  expect(read).toBeGreaterThan(few(30, 1));
  expect(read).toBeLessThan(few(570, 119));
}, 60_000);

test('RD-1 a plan with some of its text cut out or doubled is told about, and never throws', () => {
  const text = writePlan(sample);
  fc.assert(
    fc.property(fc.nat(text.length), fc.nat(60), fc.boolean(), (at, length, doubled) => {
      const part = text.slice(at, at + length);
      expectAnswer(doubled ? text.slice(0, at) + part + text.slice(at) : text.slice(0, at) + text.slice(at + length));
    }),
    runs(250, 50),
  );
}, 60_000);
