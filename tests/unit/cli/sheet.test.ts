/** The sheet command: files, sentences, exit status. What is in the files: tests/outside. As a process: smoke.test.ts. */
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { sheetCommand } from '../../../src/cli/sheetCommand.ts';
import { readPlan } from '../../../src/plan/read.ts';
import { writePlan } from '../../../src/plan/write.ts';
import { formatsOf, KINDS, type SheetFormat } from '../../../src/sheets/kinds.ts';
import { listening } from './listening.ts';

const folder = mkdtempSync(join(tmpdir(), 'legroom-sheet-'));
afterAll(() => rmSync(folder, { recursive: true }));

const FILE = 'samples/compact-one-up-two-down.legroom.json';
const STOCK = 'samples/rehearsal-room.legroom-stock.json';
const DATE = ['--date', '2026-03-14'];
const at = (name: string) => join(folder, name);

async function sheet(...words: string[]) {
  const { say, heard } = listening();
  const status = await sheetCommand(words, say);
  const { stdout, stderr } = heard();
  return { status, said: stdout.trimEnd(), complained: stderr.trimEnd() };
}

/** All pages of a sheet, in their order: one file, or several that are numbered. */
function bytesOf(name: string, format: string): Buffer {
  const files = readdirSync(folder).filter((file) => new RegExp(`^${name}(-\\d+)?\\.${format}$`).test(file));
  expect(files.length, `${name}.${format}`).toBeGreaterThan(0);
  return Buffer.concat(files.sort().map((file) => readFileSync(at(file))));
}

/** How each format's file begins. */
const BEGINNINGS: Readonly<Record<SheetFormat, RegExp>> = {
  pdf: /^%PDF-/,
  svg: /^<svg /,
  png: /^\u0089PNG/,
  dxf: /^999\n/,
  csv: /^\u00ef\u00bb\u00bfload_in,/,
};

describe.each(KINDS)('%s', (kind) => {
  test.each(formatsOf(kind))('as %s: its files are there, each said in a line', async (format) => {
    const extra = format === 'png' ? ['--ppm', '1000'] : [];
    const out = `${kind}-all.${format}`;
    const { status, said, complained } = await sheet(FILE, '--kind', kind, '-o', at(out), ...DATE, ...extra);
    expect(complained).toBe('');
    expect(status).toBe(0);
    const files = readdirSync(folder).filter((name) => name.startsWith(`${kind}-all`) && name.endsWith(`.${format}`));
    expect(said.split('\n').map((line) => line.split(': ')[0])).toHaveLength(files.length);
    for (const name of files) {
      expect(readFileSync(at(name)).subarray(0, 40).toString('latin1')).toMatch(BEGINNINGS[format]);
      expect(said).toContain(`${at(name)}: `);
    }
  });
});

test('several pages of a format that holds one become several files, numbered', async () => {
  const { status, said } = await sheet('samples/sixty-pieces.legroom.json', '-o', at('many.svg'), ...DATE);
  expect(status).toBe(0);
  const count = said.split('\n').length;
  expect(count).toBeGreaterThan(1);
  for (let k = 1; k <= count; k++) expect(readFileSync(at(`many-${k}.svg`), 'utf8')).toMatch(/^<svg /);
  expect(existsSync(at('many.svg'))).toBe(false);
});

test('the same words and the same day give the same bytes, in every format', async () => {
  for (const [kind, format] of [
    ['venue', 'pdf'],
    ['venue', 'png'],
    ['venue', 'dxf'],
    ['pull', 'csv'],
  ]) {
    const words = (name: string) => [FILE, '--kind', kind, '-o', at(`${name}.${format}`), ...DATE];
    await sheet(...words('first'));
    await sheet(...words('second'));
    expect(bytesOf('first', format).equals(bytesOf('second', format))).toBe(true);
  }
});

test('title, revision, owner, units and paper come from outside', async () => {
  await sheet(
    ...[FILE, '-o', at('words.svg'), ...DATE, '--title', 'Late show', '--revision', 'Q7', '--owner', 'Stage office'],
    ...['--units', 'mm', '--paper', 'a4', '--turned', 'lying'],
  );
  const svg = bytesOf('words', 'svg').toString();
  for (const text of ['Late show', 'Q7', 'Stage office', '2026-03-14', 'A4 lying']) expect(svg).toContain(`>${text}<`);
  expect(svg).toMatch(/width="297mm" height="210mm"/);
});

test('a stock list says in the table what is owned; without it those columns are empty', async () => {
  await sheet(FILE, '--kind', 'pull', '-o', at('with.csv'), '--stock', STOCK);
  await sheet(FILE, '--kind', 'pull', '-o', at('without.csv'));
  const column = (name: string) => {
    const [head, ...rows] = readFileSync(at(name), 'utf8').trim().split('\r\n');
    const k = head.split(',').indexOf('gear');
    return { head, k, rows };
  };
  expect(column('with.csv').head).toBe(column('without.csv').head);
  expect(column('with.csv').rows).toHaveLength(column('without.csv').rows.length);
  expect(readFileSync(at('with.csv'), 'utf8')).not.toBe(readFileSync(at('without.csv'), 'utf8'));
});

test('a name that the typeface lacks is said with the place, and the sheet is still written', async () => {
  const read = readPlan(readFileSync(FILE, 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  writeFileSync(at('drum.legroom.json'), writePlan({ ...read.plan, name: 'Tour 鼓' }));
  const { status, complained } = await sheet(at('drum.legroom.json'), '-o', at('drum.pdf'));
  expect(status).toBe(0);
  expect(complained).toMatch(/^The typeface has no 鼓, found in "Tour 鼓"\. .*U\+9F13.*Latin, Greek or Cyrillic/);
  expect(readFileSync(at('drum.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
  // Readers of SVG bring faces of their own.
  expect((await sheet(at('drum.legroom.json'), '-o', at('drum.svg'))).complained).toBe('');
  expect(bytesOf('drum', 'svg').toString()).toContain('Tour 鼓');
});

test.each<[string, string[], RegExp]>([
  ['no place for it', [FILE], /-o/],
  ['no such kind', [FILE, '-o', 'out.pdf', '--kind', 'poster'], /no sheet "poster"; the kinds are venue, marks/],
  ['no such format', [FILE, '-o', 'out.gif'], /\.pdf, \.svg.*"out\.gif" is none/],
  [
    'a table of a drawing',
    [FILE, '-o', 'out.csv'],
    /venue sheet is not written as CSV.*pull list alone.*PDF, SVG, PNG or DXF/,
  ],
  ['a drawing of a table', [FILE, '--kind', 'pull', '-o', 'out.dxf'], /pull list is not written as DXF/],
  ['another paper', [FILE, '-o', 'out.pdf', '--paper', 'a3'], /no paper "a3"/],
  ['a day that is none', [FILE, '-o', 'out.pdf', '--date', '2026-02-30'], /is no day/],
  ['a scale that is none', [FILE, '-o', 'out.pdf', '--scale', '1:7'], /"1:7" is no scale here; take one of 1:5/],
  ['paper on its head', [FILE, '-o', 'out.pdf', '--turned', 'down'], /upright or lying, not "down"/],
  ['another unit', [FILE, '-o', 'out.pdf', '--units', 'ells'], /mm or in, not in "ells"/],
  ['pixels that are none', [FILE, '-o', 'out.png', '--ppm', 'many'], /"many" is none/],
  ['pixels without a picture', [FILE, '-o', 'out.pdf', '--ppm', '900'], /--ppm belongs to PNG/],
  ['more pixels than memory', [FILE, '-o', 'out.png', '--ppm', '90000'], /At 90000 pixels a metre.*Take \d+ or fewer/],
  ['a flag of another sheet', [FILE, '-o', 'out.pdf', '--long'], /--long belongs to the template/],
  ['a stock list for a venue', [FILE, '-o', 'out.pdf', '--stock', STOCK], /--stock belongs to the pull list/],
  [
    'two setups for one',
    [FILE, '-o', 'out.pdf', '--setup', 'straight', '--setup', 'curved'],
    /of one setup, and 2 were named/,
  ],
  ['an unknown setup', [FILE, '-o', 'out.pdf', '--setup', 'Nope'], /no setup "Nope".*"Curved side racks"/],
  ['a file that is not there', ['none.json', '-o', 'out.pdf'], /no such file/],
  [
    'a stock list that is not there',
    [FILE, '--kind', 'pull', '-o', 'out.pdf', '--stock', 'none.json'],
    /none\.json could not be opened/,
  ],
  ['a plan for a stock list', [FILE, '--kind', 'pull', '-o', 'out.pdf', '--stock', FILE], /legroom\.json: /],
  ['a folder that is not there', [FILE, '-o', join('no', 'such', 'out.pdf')], /no such folder/],
])('%s: one sentence, status 2, no file', async (_, words, sentence) => {
  const { status, said, complained } = await sheet(...words.map((word) => (word.startsWith('out.') ? at(word) : word)));
  expect(complained.replaceAll(`${folder}/`, '')).toMatch(sentence);
  expect(complained.split('\n')).toHaveLength(1);
  expect(said).toBe('');
  expect(status).toBe(2);
  expect(readdirSync(folder).filter((name) => name.startsWith('out.'))).toEqual([]);
});

test('without any words it says how it is called', async () => {
  const { status, complained } = await sheet();
  expect(status).toBe(2);
  for (const flag of ['--kind', '--setup', '--against', '--stock', '--ppm', '--long', '--scale', '-o OUT'])
    expect(complained).toContain(flag);
});
