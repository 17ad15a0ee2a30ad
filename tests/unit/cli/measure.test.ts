/** The command line as a person meets it: what it prints, from where, and its exit status. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { writePlan } from '../../../src/plan/write.ts';
import { samplePlan } from '../../fixtures/plans.ts';

const root = resolve(import.meta.dirname, '../../..');
const loader = pathToFileURL(join(root, 'node_modules/tsx/dist/loader.mjs')).href;
let folder: string;

function measure(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', loader, join(root, 'src/cli/measure.ts'), ...args],
    { cwd: folder, encoding: 'utf8' },
  );
  return { status, stdout, stderr };
}

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'legroom-'));
  writeFileSync(join(folder, 'plan.legroom.json'), writePlan(samplePlan()));
  writeFileSync(join(folder, 'broken.json'), '{"format": "legroom", "version": 1,');
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A failure is one or two sentences on stderr, nothing on stdout, and no trace of the program's inside. */
function expectSentence({ status, stdout, stderr }: ReturnType<typeof measure>, words: RegExp): void {
  expect(status).toBe(2);
  expect(stdout).toBe('');
  expect(stderr).toMatch(words);
  expect(stderr).not.toMatch(/\bat .*\.ts:\d+/);
}

describe('a plan that reads, from another folder', () => {
  test('in words: every setup side by side, findings by setup, the status of the worst', () => {
    const { status, stdout, stderr } = measure('plan.legroom.json');
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^Test plan\n/);
    expect(stdout).toMatch(/Straight racks +Nothing yet/);
    expect(stdout).toMatch(/\nFloor taken \(hull\) +[\d.]+ m² +–/);
    expect(status).toBe(/^ {2}BLOCKED/m.test(stdout) ? 1 : 0);
  });

  test('as JSON: the keys of the report, one setup', () => {
    const { stdout } = measure('plan.legroom.json', '--json', '--setup', 'Straight racks');
    const report = JSON.parse(stdout);
    expect(report).toMatchObject({
      format: 'legroom-measure/1',
      unit: 'mm',
      plan: 'Test plan',
      setup: 'Straight racks',
    });
    const readings = [
      'floorHullArea',
      'shadowArea',
      'extent',
      'smallestRectangle',
      'riserMargin',
      'bestRiserPose',
      'wayIn',
      'pairs',
      'assemblies',
      'bars',
      'parts',
    ];
    for (const key of readings) expect(Object.keys(report.readings)).toContain(key);
    for (const key of [
      'id',
      'piece',
      'label',
      'kind',
      'assembly',
      'touchesFloor',
      'z',
      'core',
      'radius',
      'mass',
      'massCentre',
    ])
      for (const body of report.bodies) expect(Object.keys(body)).toContain(key);
    expect(report.deck.polygons.length).toBe(2);
    for (const { text } of report.findings) expect(text).toMatch(/^[^\n]{10,}\.$/);
  });

  test('a setup by its id', () =>
    expect(JSON.parse(measure('plan.legroom.json', '--json', '--setup', 'empty').stdout).setup).toBe('Nothing yet'));

  test('an empty setup: nothing to say, status 0', () => {
    const { status, stdout } = measure('plan.legroom.json', '--json', '--setup', 'empty');
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toMatchObject({
      bodies: [],
      deck: null,
      findings: [],
      readings: { floorHullArea: null, wayIn: null },
    });
  });
});

describe('what cannot be done is said in a sentence, status 2', () => {
  test('no such setup: the names there are', () =>
    expectSentence(
      measure('plan.legroom.json', '--setup', 'Curvy'),
      /no setup "Curvy".*"Straight racks", "Nothing yet"/,
    ));
  test('no such file', () =>
    expectSentence(measure('none.json'), /none\.json could not be opened: there is no such file/));
  test('a folder', () => expectSentence(measure('.'), /it is a folder/));
  test('a broken file', () => expectSentence(measure('broken.json'), /broken\.json: /));
  test('no file named', () => expectSentence(measure(), /One plan file is wanted.*Usage/));
  test('a flag that is not there', () => expectSentence(measure('plan.legroom.json', '--loud'), /--loud.*Usage/s));
});
