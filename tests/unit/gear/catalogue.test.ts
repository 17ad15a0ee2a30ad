import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { CATALOGUE, gearOf, massKgOf, tubeMassKg } from '../../../src/gear/catalogue.ts';
import { type Gear, type GearKind, type GearOf, gearSchema } from '../../../src/gear/schema.ts';

const path = new URL('../../../src/gear/catalogue.json', import.meta.url);
const all = <K extends GearKind>(kind: K) => CATALOGUE.filter((gear): gear is GearOf<K> => gear.kind === kind);

describe('the file', () => {
  test('one entry a line, so that a change shows as one line', () => {
    const lines = readFileSync(path, 'utf8').trimEnd().split('\n');
    expect([lines[0], lines[lines.length - 1]]).toEqual(['[', ']']);
    expect(lines.length - 2).toBe(CATALOGUE.length);
    for (const line of lines.slice(1, -1))
      expect(gearSchema.safeParse(JSON.parse(line.trim().replace(/,$/, ''))).success).toBe(true);
  });

  test('ids are unique, lower case, and safe in a file name and a page address', () => {
    expect(new Set(CATALOGUE.map((gear) => gear.id)).size).toBe(CATALOGUE.length);
    for (const gear of CATALOGUE) expect(gear.id).toMatch(/^[a-z0-9]+([.-][a-z0-9]+)*$/);
  });

  test('names are unique: a list of names must tell two entries apart', () =>
    expect(new Set(CATALOGUE.map((gear) => gear.name)).size).toBe(CATALOGUE.length));

  test('nothing claims to be measured: every size is typical', () => {
    for (const gear of CATALOGUE) expect(gear.measured).toBeUndefined();
  });

  test.each<[GearKind, number]>([
    ['bassDrum', 10],
    ['drum', 25],
    ['cymbal', 20],
    ['pedal', 3],
    ['throne', 3],
    ['stand', 10],
    ['tube', 20],
    ['foot', 3],
    ['clamp', 6],
    ['boom', 6],
    ['lArm', 4],
    ['platform', 2],
    ['link', 4],
    ['deck', 6],
    ['stageItem', 10],
  ])('%s: at least %i', (kind, least) => expect(all(kind).length).toBeGreaterThanOrEqual(least));
});

describe('ids say what the sizes are', () => {
  test.each([...all('drum'), ...all('bassDrum')].map((gear) => [gear.id, gear] as const))('%s', (id, gear) => {
    const [, diameter, depth] = /-(\d+)x([\d.]+)$/.exec(id)!;
    expect(gear.diameterMm).toBeCloseTo(Number(diameter) * 25.4, 1);
    expect(Math.abs(gear.depthMm - Number(depth) * 25.4)).toBeLessThanOrEqual(0.051);
  });

  test.each(all('tube').map((gear) => [gear.id, gear] as const))('%s', (id, gear) => {
    const [, length, unit] = /-(\d+)(in|mm)(-|$)/.exec(id)!;
    expect(gear.cutLengthMm).toBeCloseTo(Number(length) * (unit === 'in' ? 25.4 : 1), 1);
    expect(gear.name).toContain(`${length} ${unit}`);
    expect(gear.use).toBe(id.startsWith('upright') ? 'upright' : 'bar');
    expect(gear.bendRadiusMm !== undefined).toBe(id.includes('curved'));
  });

  test.each(all('cymbal').map((gear) => [gear.id, gear] as const))('%s', (id, gear) =>
    expect(gear.diameterMm).toBeCloseTo(Number(/-(\d+)$/.exec(id)![1]) * 25.4, 1),
  );
});

describe('tubes', () => {
  test('every straight bar of the common section has a curved one of the same cut length, from 30 in up', () => {
    const lengths = (word: string) =>
      all('tube')
        .filter((tube) => new RegExp(`^tube-${word}-\\d+in$`).test(tube.id))
        .map((tube) => tube.cutLengthMm)
        .filter((mm) => mm >= 762);
    expect(lengths('curved')).toEqual(lengths('straight'));
  });

  test('a curved tube keeps its mass: the length is the centre line', () =>
    expect(massKgOf(gearOf({}, 'tube-curved-48in')!)).toBe(massKgOf(gearOf({}, 'tube-straight-48in')!)));

  test('mass grows with the length, and a wall of half the diameter is a solid bar', () => {
    expect(tubeMassKg(38.1, 1.5, 2000, 'steel')).toBeCloseTo(2 * tubeMassKg(38.1, 1.5, 1000, 'steel'), 12);
    expect(tubeMassKg(20, 10, 1000, 'steel')).toBeCloseTo(Math.PI * 0.01 ** 2 * 7850, 12);
    expect(tubeMassKg(20, 15, 1000, 'steel')).toBe(tubeMassKg(20, 10, 1000, 'steel'));
  });
});

describe('arms', () => {
  test('every socket and pass height can be used: a link that passes over a drive shaft is higher than every shaft', () => {
    const shaftTop = Math.max(
      ...all('pedal').map((pedal) => (pedal.shaft ? pedal.shaft.heightMm + pedal.shaft.diameterMm / 2 : 0)),
    );
    const bent = all('link').filter((link) => link.passHeightMm > 0);
    expect(bent.length).toBeGreaterThan(0);
    for (const link of bent) expect(link.passHeightMm - link.tubeMm / 2).toBeGreaterThan(shaftTop);
  });

  test('every arm fits a clamp of the catalogue', () => {
    for (const arm of [...all('boom'), ...all('lArm')])
      expect(
        all('clamp').some(
          (clamp) => clamp.socketMm && clamp.socketMm[0] <= arm.tubeMm && arm.tubeMm <= clamp.socketMm[1],
        ),
        arm.id,
      ).toBe(true);
  });

  test.each(['arm', 'swivel', 'cross', 'leg', 'collar'] as const)('every tube fits a clamp for: %s', (use) => {
    for (const tube of all('tube'))
      expect(
        all('clamp').some(
          (clamp) => clamp.use === use && clamp.tubeMm[0] <= tube.outsideMm && tube.outsideMm <= clamp.tubeMm[1],
        ),
        tube.id,
      ).toBe(true);
  });
});

describe('gearOf and massKgOf', () => {
  const own: Gear = {
    kind: 'cymbal',
    id: 'crash-16',
    name: 'My crash',
    use: 'crash',
    diameterMm: 405,
    profileMm: 44,
    playHeightMm: 1150,
    massKg: 1.11,
    measured: ['diameterMm', 'massKg'],
  };

  test("a plan's measured entry goes before the catalogue's", () => {
    expect(gearOf({ 'crash-16': own }, 'crash-16')).toBe(own);
    expect(gearOf({}, 'crash-16')?.name).toBe('Crash 16 in');
  });

  test('what is not there is undefined, and a name every object has is no entry', () => {
    expect(gearOf({}, 'no-such-gear')).toBeUndefined();
    expect(gearOf({}, 'toString')).toBeUndefined();
    expect(gearOf({}, '__proto__')).toBeUndefined();
  });

  test('a mass that nobody measured stays null; a measured tube keeps its measured mass', () => {
    expect(massKgOf(own)).toBe(1.11);
    expect(massKgOf(gearOf({}, 'stack-10')!)).toBeNull();
    expect(massKgOf({ ...gearOf({}, 'tube-straight-48in')!, massKg: 1.7 } as Gear)).toBe(1.7);
  });
});
