/** The measure command: what it prints, and its exit status. As a process: smoke.test.ts. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { measureCommand } from '../../../src/cli/measureCommand.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { samplePlan } from '../../fixtures/plans.ts';
import { listening } from './listening.ts';

let folder: string;

/** A file's name means one in the test's folder. */
function measure(...args: string[]) {
  const { say, heard } = listening();
  const [first, ...rest] = args;
  const words = first === undefined || first.startsWith('-') ? args : [join(folder, first), ...rest];
  const status = measureCommand(words, say);
  return { status, ...heard() };
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

describe('a plan that reads', () => {
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

describe('--against: what differs from that setup to the one measured', () => {
  /** The first setup with a second beside it: the crash 30 mm over and 50 mm lower, no splash, one stand on legs. */
  function withSecond() {
    const plan = samplePlan();
    const second = structuredClone(plan.setups.straight);
    const { crash, 'hat-stand': stand } = second.pieces;
    if (crash.kind !== 'item' || stand.kind !== 'item') throw new Error('Both are items.');
    crash.place = { ...crash.place, xMm: crash.place.xMm + 30, heightMm: 1000 };
    delete second.pieces.splash;
    plan.gear['hat-legs'] = {
      ...plan.gear['hat-stand'],
      id: 'hat-legs',
      name: 'Hi-hat stand on legs',
      base: { form: 'tripod', radiusMm: 300, legDiameterMm: 20 },
    } as (typeof plan.gear)[string];
    stand.gear = 'hat-legs';
    delete stand.ties;
    second.order = second.order.filter((id) => id !== 'splash');
    plan.setups.second = { ...second, id: 'second', name: 'Fewer cymbals' };
    plan.order.push('second');
    return plan;
  }
  beforeAll(() => writeFileSync(join(folder, 'two.legroom.json'), writePlan(withSecond())));

  test('as JSON', () => {
    const { stdout } = measure('two.legroom.json', '--json', '--setup', 'Fewer cymbals', '--against', 'Straight racks');
    const { setup, differences } = JSON.parse(stdout);
    expect(setup).toBe('Fewer cymbals');
    expect(differences).toMatchObject({ from: 'Straight racks', to: 'Fewer cymbals', samePlayingLayout: false });
    expect(differences.playing.sort()).toEqual(['crash', 'splash']);
    const piece = (id: string) => differences.pieces.find((each: { id: string }) => each.id === id);
    expect(piece('crash')).toMatchObject({ what: 'moved', movedMm: 30, move: [30, 0], raisedMm: -50, playing: true });
    expect(piece('splash')).toMatchObject({ what: 'removed' });
    expect(piece('hat-stand')).toMatchObject({
      gear: { from: 'hat-stand', to: 'hat-legs' },
      ties: { from: [{ link: 'link-1' }], to: [] },
    });
    const counts = (rows: { part: { gear: string }; before: number; after: number }[]) =>
      Object.fromEntries(rows.map(({ part, before, after }) => [part.gear, [before, after]]));
    expect(counts(differences.partsAdded)).toEqual({ 'hat-legs': [0, 1] });
    expect(counts(differences.partsRemoved)).toMatchObject({ 'link-1': [1, 0], 'hat-stand': [1, 0], crash: [3, 2] });
    const reading = (name: string) => differences.readings.find((each: { name: string }) => each.name === name);
    // The three tips of the stand's legs.
    expect(reading('feetOnFloor')).toEqual({ name: 'feetOnFloor', before: 5, after: 8 });
    expect(reading('standingArea').after).toBeGreaterThan(reading('standingArea').before);
    expect(reading('pieceCount')).toEqual({ name: 'pieceCount', before: 9, after: 8 });
    expect(reading('extent.width').before).toBeGreaterThan(0);
  });

  test('in words: both setups in the table, one way only', () => {
    const { stdout } = measure('two.legroom.json', '--setup', 'second', '--against', 'straight');
    expect(stdout).toMatch(/^ +Straight racks +Fewer cymbals$/m);
    expect(stdout.match(/From "Straight racks" to "Fewer cymbals"/g)?.length).toBe(1);
    expect(stdout).toMatch(/^ {2}Not the same playing layout: .*Left crash/m);
    expect(stdout).toMatch(/^ {2}Left crash: moved 30 mm, 50 mm lower$/m);
    expect(stdout).toMatch(/^ {2}Splash: removed$/m);
    expect(stdout).toMatch(/^ {2}−1 Link bar$/m);
    expect(stdout).toMatch(/^ {2}Feet on the deck: 8, was 5 \(\+3\)$/m);
  });

  test('against a copy: the same playing layout, no part, no piece', () => {
    const plan = samplePlan();
    plan.setups.copy = { ...structuredClone(plan.setups.straight), id: 'copy', name: 'Copy' };
    plan.order.push('copy');
    writeFileSync(join(folder, 'copy.legroom.json'), writePlan(plan));
    const { differences } = JSON.parse(
      measure('copy.legroom.json', '--json', '--setup', 'copy', '--against', 'straight').stdout,
    );
    expect(differences).toMatchObject({ samePlayingLayout: true, pieces: [], partsAdded: [], partsRemoved: [] });
    expect(differences.lines).toEqual(['The same playing layout.']);
    for (const { before, after } of differences.readings) expect(after).toBe(before);
  });

  test('without it there is no such key', () =>
    expect(JSON.parse(measure('two.legroom.json', '--json').stdout).differences).toBeUndefined());
  test('against itself, and against what is not there', () => {
    expectSentence(
      measure('two.legroom.json', '--setup', 'second', '--against', 'Fewer cymbals'),
      /"Fewer cymbals" cannot be held against itself: name another setup/,
    );
    expectSentence(measure('two.legroom.json', '--against', 'Third'), /no setup "Third"/);
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
