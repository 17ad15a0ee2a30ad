/**
 * The page without a network, and a newer version of it: on a plain server that answers 404 for what is not there and lets
 * browsers keep every answer for an hour, in a folder that is not its root.
 */
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import type { Page } from 'playwright';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { chromiumPages, expectErrors, ready, tab, violations } from './page.ts';

const open = chromiumPages();
const IN = '/club/';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
};

let folder: string;
let server: Server;
let address: string;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'legroom-page-'));
  cpSync(inject('built'), folder, { recursive: true });
  server = createServer(({ url = '' }, response) => {
    const path = new URL(url, 'http://localhost').pathname;
    const name = path === IN ? 'index.html' : path.slice(IN.length);
    let bytes: Buffer;
    try {
      if (!path.startsWith(IN)) throw new Error('not in the folder');
      bytes = readFileSync(join(folder, name));
    } catch {
      response.writeHead(404).end();
      return;
    }
    const type = TYPES[extname(name)] ?? 'application/octet-stream';
    response.writeHead(200, { 'Content-Type': type, 'Cache-Control': 'max-age=3600', Vary: 'Origin' }).end(bytes);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}${IN}`;
});
afterEach(() => {
  unplug();
  rmSync(folder, { recursive: true });
});

function unplug(): void {
  server.close();
  server.closeAllConnections();
}

const hashOf = (path: string) =>
  createHash('sha256')
    .update(readFileSync(join(folder, path)))
    .digest('base64');

interface Kept {
  readonly url: string;
  readonly revision: string;
  readonly integrity: string;
}

/** What the worker on the server keeps, as it names it. */
const listed = (): Kept[] =>
  JSON.parse(/^const PRECACHE=(\[.*?\]);/.exec(readFileSync(join(folder, 'sw.js'), 'utf8'))![1]);

/** Writes the worker's list anew, as a build of what is on disk would. */
function relist(): void {
  const list = filesToKeep().map((url) => {
    const hash = hashOf(url);
    return { url, revision: hash.slice(0, 12), integrity: `sha256-${hash}` };
  });
  const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
  writeFileSync(
    join(folder, 'sw.js'),
    worker.replace(/^const PRECACHE=.*?\];/, `const PRECACHE=${JSON.stringify(list)};`),
  );
}

const filesOnDisk = () =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));

const filesToKeep = () =>
  filesOnDisk()
    .filter((path) => path !== 'sw.js' && !path.endsWith('.schema.json'))
    .sort();

/** The page as a visitor has it once everything is kept. */
async function visited(): Promise<Page> {
  const page = await open({ serviceWorkers: 'allow' });
  await page.goto(address);
  await ready(page);
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.reload();
  await ready(page);
  expect(await page.evaluate(() => navigator.serviceWorker.controller?.state)).toBe('activated');
  return page;
}

async function helpOpens(page: Page): Promise<void> {
  await page.keyboard.press('F1');
  await page.getByRole('dialog', { name: 'Help' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}

test('the worker names every file on disk with its own hash, and none else: another index is another worker', () => {
  expect(listed().map(({ url, integrity }) => `${url} ${integrity}`)).toEqual(
    filesToKeep().map((url) => `${url} sha256-${hashOf(url)}`),
  );
  expect(new Set(listed().map(({ url, revision }) => url + revision)).size).toBe(filesToKeep().length);
  const before = readFileSync(join(folder, 'sw.js'), 'utf8');
  build('two');
  expect(listed().filter(({ url }) => url === 'index.html')).not.toEqual([]);
  expect(readFileSync(join(folder, 'sw.js'), 'utf8')).not.toBe(before);
});

test('the licence of every package in the build is in the file that comes with it', async () => {
  const packages = inject('bundled');
  expect(packages.length).toBeGreaterThan(20);
  const text = readFileSync(join(folder, 'licences.txt'), 'utf8');
  const missing = packages.filter((name) => !text.includes(`\n${name} `));
  expect(missing).toEqual([]);
  expect(text).toMatch(/^MIT License/);
  // The typeface is in the sheets themselves, the painter of PNG beside them.
  expect(text).toContain('SIL OPEN FONT LICENSE');
  expect(packages).toContain('@resvg/resvg-wasm');
  // Parts of the PDF writer that no sheet needs, and their places, stay outside.
  for (const left of ['html2canvas', 'canvg', 'dompurify', 'core-js', 'empty-npm-package'])
    expect(filesOnDisk().join(' ') + text).not.toContain(left);
});

test('without a network the page opens, with its lazy parts, its samples and its sheets', async () => {
  const page = await visited();
  unplug();
  await page.reload();
  await page.locator('.konvajs-content canvas').first().waitFor();
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('One up, two down');
  await helpOpens(page);
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: 'One kit on four bases' }).click();
  await expect.poll(() => page.getByRole('heading', { level: 1 }).textContent()).toBe('One kit on four bases');
  await page.getByRole('button', { name: 'Sheets to print or send' }).click();
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: /PDF/ }).click(),
  ]);
  expect(readFileSync(await download.path(), 'latin1')).toMatch(/^%PDF-/);
}, 120_000);

/** A newer build on the server: another index, and every script under another name. Returns where the help's part was before. */
function build(name: string): string {
  const scripts = filesOnDisk().filter((path) => /^assets\/.*\.js$/.test(path));
  const fileName = (path: string) => path.slice('assets/'.length);
  const renamed = new Map(
    scripts.map((path) => [fileName(path), fileName(path).replace(/(~\w+)?\.js$/, `~${name}.js`)]),
  );
  for (const [old, next] of renamed) renameSync(join(folder, 'assets', old), join(folder, 'assets', next));
  for (const path of filesOnDisk()) {
    if (!/\.(js|html)$/.test(path) || path === 'sw.js') continue;
    const text = readFileSync(join(folder, path), 'utf8')
      .replace(/[\w.-]+(~\w+)?\.js/g, (word) => renamed.get(word) ?? word)
      .replace(/<head>(<meta name="build" content="\w+">)?/, `<head><meta name="build" content="${name}">`);
    writeFileSync(join(folder, path), text);
  }
  relist();
  return scripts.find((path) => path.includes('HelpDialog'))!;
}

/** A script of the build on the server. */
const scriptOf = (part: string) =>
  filesOnDisk().find((path) => path.startsWith(`assets/${part}-`) && path.endsWith('.js'))!;

/** Which build a tab shows; undefined: the first. Null while it loads. */
const buildOf = (page: Page) =>
  page.evaluate(() => document.querySelector<HTMLMetaElement>('meta[name=build]')?.content).catch(() => null);

/** Looks for a newer build, and waits until it is installed or refused. */
const lookForUpdate = (page: Page) =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const { installing } = registration;
    if (!installing) return 'none';
    return new Promise<string>((resolve) => {
      installing.addEventListener('statechange', () => resolve(installing.state));
    });
  });

test('a newer build waits for the word, and takes no part from a tab that goes on', async () => {
  const page = await visited();
  const other = await page.context().newPage();
  await other.goto(address);
  await ready(other);
  const keptFiles = () =>
    page.evaluate(async () => {
      const names = await caches.keys();
      const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
      return kept.flat().map(({ url }) => new URL(url).pathname);
    });

  const old = build('two');
  expect(await lookForUpdate(page)).toBe('installed');
  await page.getByRole('button', { name: 'Load it' }).waitFor();
  await page.reload();
  await ready(page);
  expect([await buildOf(page), await buildOf(other)]).toEqual([undefined, undefined]);

  await page.getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => buildOf(page)).toBe('two');
  await ready(page);
  await helpOpens(page);
  // The other tab was not reloaded, and its part, which the server has no more, is still there.
  expect(await buildOf(other)).toBeUndefined();
  await helpOpens(other);
  await page.reload();
  await ready(page);
  expect(await keptFiles()).toContain(IN + old);

  // Its own press loads the new one, though the worker has long changed; when no tab needs the part any more it goes.
  await other.getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => buildOf(other)).toBe('two');
  await other.close();
  await page.reload();
  await ready(page);
  await expect.poll(keptFiles).not.toContain(IN + old);
  expect(await keptFiles()).toContain(IN + scriptOf('HelpDialog'));
}, 120_000);

test('a broken build is not kept, and neither it nor the next hinders a good one that waits', async () => {
  const page = await visited();
  // Every refusal is logged by the worker's own fetching.
  expectErrors(/404|integrity|bad-precaching-response/);
  build('cut');
  const help = join(folder, scriptOf('HelpDialog'));
  const bytes = readFileSync(help);
  writeFileSync(help, bytes.subarray(0, bytes.length / 2));
  expect(await lookForUpdate(page)).toBe('redundant');
  expect(await page.getByRole('button', { name: 'Load it' }).count()).toBe(0);
  await page.reload();
  await ready(page);
  await helpOpens(page);
  expect(await buildOf(page)).toBeUndefined();

  writeFileSync(help, bytes);
  build('good');
  expect(await lookForUpdate(page)).toBe('installed');
  build('gone');
  rmSync(join(folder, scriptOf('HelpDialog')));
  expect(await lookForUpdate(page)).toBe('redundant');
  await page.getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => buildOf(page)).toBe('good');
  await ready(page);
  await helpOpens(page);
}, 120_000);

test('a page without a worker, whose build the server has no more, says so where the part would be', async () => {
  const page = await open({ serviceWorkers: 'block' });
  await page.goto(address);
  await ready(page);
  expectErrors(/404/);
  build('two');
  await page.keyboard.press('F1');
  const words = page
    .getByRole('alert')
    .filter({ hasText: /newer version of Legroom is out.*reload.*Your plan is safe/ });
  await words.waitFor();
  await tab(page, 'Riser');
  await expect.poll(() => words.count()).toBe(2);
  expect(await violations(page)).toEqual([]);
  await words.first().getByRole('button', { name: 'Reload' }).click();
  await expect.poll(() => buildOf(page)).toBe('two');
  await ready(page);
  await helpOpens(page);
}, 120_000);
