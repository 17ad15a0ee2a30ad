import { readdirSync, readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { inventoryJsonSchema, planJsonSchema, publishedSchemas } from '../../../src/plan/jsonSchema.ts';
import { newPlan } from '../../../src/plan/newPlan.ts';
import { samplePlan } from '../../fixtures/plans.ts';

// An outside reader of JSON Schema 2020-12; strict, so that a word it does not know is an error.
const accepts = new Ajv2020({ strict: true, strictTuples: false, allErrors: true }).compile(planJsonSchema());

// biome-ignore lint/suspicious/noExplicitAny: broken plans are the point
type Broken = any;

test.each(publishedSchemas())('JS-1 the published $name is up to date (npm run schema)', ({ name, text }) => {
  expect(readFileSync(new URL(`../../../public/${name}`, import.meta.url), 'utf8')).toBe(text);
});

test('JS-2 accepts the sample of a stock list, JS-3 refuses one whose counts are none', () => {
  const reads = new Ajv2020({ strict: true, strictTuples: false }).compile(inventoryJsonSchema());
  const sample = new URL('../../../samples/rehearsal-room.legroom-stock.json', import.meta.url);
  const stock: Broken = JSON.parse(readFileSync(sample, 'utf8'));
  expect(reads(stock), JSON.stringify(reads.errors)).toBe(true);
  stock.parts[0].count = -1;
  expect(reads(stock)).toBe(false);
  expect(reads.errors?.[0].instancePath).toBe('/parts/0/count');
});

test('it says which schema language it is written in', () => {
  expect(planJsonSchema().$schema).toBe('https://json-schema.org/draft/2020-12/schema');
});

test('JS-1 what a field means is said at the field, and no meaning is left without one', () => {
  const [{ text }] = publishedSchemas();
  const { properties } = planJsonSchema() as Broken;
  const [item, rack] = properties.setups.additionalProperties.properties.pieces.additionalProperties.oneOf;
  expect(item.properties.place.properties.headingDeg.description).toMatch(/faces the audience/);
  const { spans, legs } = rack.properties;
  expect(spans.items.properties.bars.items.properties.overhangMm.description).toMatch(
    /beyond the leg at the bar’s start/,
  );
  expect(JSON.stringify(legs.items.properties.foot)).toContain('Relative to the rack’s heading');
  // Each description once at least: as many different ones as there are names.
  const descriptions = new Set(text.match(/^\s+"description": .*$/gm)?.map((line) => line.trim()));
  const source = readFileSync(new URL('../../../src/plan/jsonSchema.ts', import.meta.url), 'utf8');
  const [, meanings] = source.match(/MEANINGS: .*= \{\n([\s\S]*?)\n\};/) ?? [];
  const names = meanings.match(/^ {2}['\w.]+:/gm) ?? [];
  expect(names.length).toBeGreaterThan(10);
  expect(descriptions.size).toBe(names.length + 1);
});

test('JS-2 accepts plans, and fields it does not know', () => {
  for (const plan of [samplePlan(), newPlan('New'), { ...newPlan('New'), later: { a: 1 } }]) {
    expect(accepts(JSON.parse(JSON.stringify(plan))), JSON.stringify(accepts.errors)).toBe(true);
  }
});

test('JS-2 accepts every sample', () => {
  const folder = new URL('../../../samples/', import.meta.url);
  const files = readdirSync(folder).filter((name) => name.endsWith('.legroom.json'));
  expect(files.length).toBeGreaterThan(0);
  for (const file of files) {
    const plan = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
    expect(accepts(plan), `${file}: ${JSON.stringify(accepts.errors?.[0])}`).toBe(true);
  }
});

describe('JS-3 refuses', () => {
  test.each<[string, (plan: Broken) => void, string]>([
    [
      'another format',
      (p) => {
        p.format = 'x';
      },
      '/format',
    ],
    [
      'a newer version',
      (p) => {
        p.version = 2;
      },
      '/version',
    ],
    [
      'a missing name',
      (p) => {
        delete p.name;
      },
      '',
    ],
    [
      'text for a number',
      (p) => {
        p.setups.straight.pieces.left.place.xMm = '1';
      },
      '/setups/straight/pieces/left/place/xMm',
    ],
    [
      'a number out of range',
      (p) => {
        p.setups.straight.pieces.left.place.xMm = 1e6;
      },
      '/setups/straight/pieces/left/place/xMm',
    ],
    [
      'a tube of no length',
      (p) => {
        p.setups.straight.pieces.left.legs[0].lengthMm = 0;
      },
      '/setups/straight/pieces/left/legs/0/lengthMm',
    ],
    [
      'a rack with one leg',
      (p) => {
        p.setups.straight.pieces.left.legs.pop();
      },
      '/setups/straight/pieces/left/legs',
    ],
    [
      'an unknown side',
      (p) => {
        p.setups.straight.pieces.left.spans[0].bars[0].bend = { radiusMm: 300, straightEndsMm: 0, side: 'up' };
      },
      '/setups/straight/pieces/left/spans/0/bars/0/bend/side',
    ],
    [
      'a plan without setups in order',
      (p) => {
        p.order = [];
      },
      '/order',
    ],
    [
      'a word kept by JavaScript as an id',
      (p) => {
        p.setups.straight.pieces.left.legs[0].id = 'constructor';
      },
      '/setups/straight/pieces/left/legs/0/id',
    ],
    [
      'own gear without its size',
      (p) => {
        delete p.gear.crash.diameterMm;
      },
      '/gear/crash',
    ],
  ])('%s', (_, change, where) => {
    const plan = JSON.parse(JSON.stringify(samplePlan()));
    change(plan);
    expect(accepts(plan)).toBe(false);
    expect(accepts.errors?.map((error) => error.instancePath)).toContain(where);
  });
});
