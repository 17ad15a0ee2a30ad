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
import { chromiumPages, ready } from './page.ts';

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

const revisionOf = (path: string) =>
  createHash('sha256')
    .update(readFileSync(join(folder, path)))
    .digest('hex')
    .slice(0, 12);

const filesOnDisk = () =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));

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

test('the worker names every file on disk with its own revision, and none else', () => {
  const worker = readFileSync(join(folder, 'sw.js'), 'utf8');
  const named = [
    ...worker.matchAll(/revision:(["'`])(.*?)\1,url:(["'`])(.*?)\3|url:(["'`])(.*?)\5,revision:(["'`])(.*?)\7/g),
  ]
    .map((found) => `${found[4] ?? found[6]} ${found[2] ?? found[8]}`)
    .sort();
  const wanted = filesOnDisk()
    .filter((path) => path !== 'sw.js' && !path.endsWith('.schema.json'))
    .map((path) => `${path} ${revisionOf(path)}`)
    .sort();
  expect(named).toEqual(wanted);
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

/** A newer build on the server: another index, and the help's part under another name, as a change of it would have. */
function newBuild(): string {
  const files = filesOnDisk();
  const before = new Map(files.map((path) => [path, revisionOf(path)]));
  const old = files.find((path) => /^assets\/HelpDialog-.*\.js$/.test(path))!;
  const next = 'assets/HelpDialog-another.js';
  renameSync(join(folder, old), join(folder, next));
  let worker = readFileSync(join(folder, 'sw.js'), 'utf8').replaceAll(old, next);
  for (const path of filesOnDisk()) {
    if (!/\.(js|html)$/.test(path) || path === 'sw.js' || path === next) continue;
    const text = readFileSync(join(folder, path), 'utf8');
    const changed = text
      .replaceAll(old.slice('assets/'.length), next.slice('assets/'.length))
      .replace('<head>', '<head><meta name="build" content="two">');
    if (changed === text) continue;
    writeFileSync(join(folder, path), changed);
    worker = worker.replace(before.get(path)!, revisionOf(path));
  }
  writeFileSync(join(folder, 'sw.js'), worker);
  return old;
}

test('a newer build waits for the word, and takes no part from a tab that goes on', async () => {
  const page = await visited();
  const other = await page.context().newPage();
  await other.goto(address);
  await ready(other);
  const build = (one: Page) => one.evaluate(() => document.querySelector<HTMLMetaElement>('meta[name=build]')?.content);
  const keptFiles = () =>
    page.evaluate(async () => {
      const names = await caches.keys();
      const kept = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
      return kept.flat().map(({ url }) => new URL(url).pathname);
    });

  const old = newBuild();
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await page.getByRole('button', { name: 'Load it' }).waitFor();
  await page.reload();
  await ready(page);
  expect([await build(page), await build(other)]).toEqual([undefined, undefined]);

  await page.getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => build(page).catch(() => null)).toBe('two');
  await ready(page);
  await helpOpens(page);
  // The other tab was not reloaded, and its part, which the server has no more, is still there.
  expect(await build(other)).toBeUndefined();
  await helpOpens(other);
  await page.reload();
  await ready(page);
  expect(await keptFiles()).toContain(IN + old);

  // Its own press loads the new one, though the worker has long changed; when no tab needs the part any more it goes.
  await other.getByRole('button', { name: 'Load it' }).click();
  await expect.poll(() => build(other).catch(() => null)).toBe('two');
  await other.close();
  await page.reload();
  await ready(page);
  await expect.poll(keptFiles).not.toContain(IN + old);
  expect(await keptFiles()).toContain(`${IN}assets/HelpDialog-another.js`);
}, 120_000);
