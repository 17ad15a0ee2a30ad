/**
 * A drag in a real Chromium on sixty, two hundred and a thousand pieces: script time of each move (gesture, preview, layout, gaps,
 * React, overlay: all the frames that it takes) and of the whole page's tasks, panels included; then a pan, which paints every
 * layer anew. ms. The tasks are counted in the thread's own time, which other work on the machine does not lengthen.
 *
 * Run by `npm run bench drag`; CHROMIUM_PATH names the browser where it is not on the PATH. AGAINST names a folder with another
 * build of the page: both are then measured by turns.
 */
import { readFileSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright';
import { build, preview } from 'vite';
import { readPlan } from '../../src/plan/read.ts';
import type { Piece, Plan } from '../../src/plan/schema.ts';

const SIZES = [60, 200, 1000];
const MOVES = 240;
const WARM_UP = 40;
const PANS = 40;
/** Rounds where two builds are compared. */
const ROUNDS = 3;
/** From one copy of the kit to the next: its riser is 3.7 m wide. mm. */
const APART = 4000;

/** Copies of the sample side by side, cut to so many pieces. */
function manyPieces(n: number): string {
  const read = readPlan(readFileSync(new URL('../../samples/sixty-pieces.legroom.json', import.meta.url), 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  const plan: Plan = structuredClone(read.plan);
  const setup = plan.setups[plan.order[0]];
  const riser = plan.risers[setup.riser ?? ''];
  const pieces: Record<string, Piece> = {};
  const modules: typeof riser.modules = [];
  const middle = Math.floor(n / setup.order.length / 2);
  for (let copy = 0; Object.keys(pieces).length < n; copy++) {
    const by = (copy - middle) * APART;
    const named = (id: string) => `${id}-${copy}`;
    for (const module of riser.modules) modules.push({ ...module, id: named(module.id), xMm: module.xMm + by });
    for (const id of setup.order.slice(0, n - Object.keys(pieces).length)) {
      const piece = structuredClone(setup.pieces[id]);
      piece.id = named(id);
      piece.name = `${piece.name} ${copy + 1}`;
      piece.place.xMm += by;
      if (piece.kind === 'item' && piece.mount) {
        const { carrier } = piece.mount;
        if (carrier.on === 'bar' || carrier.on === 'leg') carrier.rack = named(carrier.rack);
        else carrier.piece = named(carrier.piece);
      }
      pieces[piece.id] = piece;
    }
  }
  riser.modules = modules;
  setup.pieces = pieces;
  setup.order = Object.keys(pieces);
  plan.name = `${n} pieces`;
  return JSON.stringify(plan);
}

/** Runs in the page before its own script: keeps how long each frame's callbacks and what follows at once took together. */
function countFrames(): void {
  const page = window as unknown as { frameTimes: number[] };
  page.frameTimes = [];
  const ask = window.requestAnimationFrame.bind(window);
  let stamp = -1;
  window.requestAnimationFrame = (callback) =>
    ask((now) => {
      const begun = performance.now();
      const done = () => {
        const took = performance.now() - begun;
        if (now === stamp) page.frameTimes[page.frameTimes.length - 1] += took;
        else page.frameTimes.push(took);
        stamp = now;
      };
      callback(now);
      // React renders in a microtask of the frame, and its canvas in one that comes after it.
      queueMicrotask(() => queueMicrotask(() => queueMicrotask(done)));
    });
}

const share = (sorted: readonly number[], part: number) => sorted[Math.floor((sorted.length - 1) * part)];
const show = (ms: number) => ms.toFixed(2);

async function serve(outDir?: string) {
  const server = await preview({
    preview: { port: 0, host: '127.0.0.1', open: false },
    logLevel: 'warn',
    ...(outDir === undefined ? {} : { build: { outDir } }),
  });
  const at = server.httpServer.address();
  if (at === null || typeof at === 'string') throw new Error('The page could not be served.');
  return { server, address: `http://127.0.0.1:${at.port}/` };
}

async function opened(browser: Browser, address: string, text: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  // tsx names functions by a helper that the page does not have.
  await page.addInitScript('globalThis.__name = (target) => target;');
  await page.addInitScript(countFrames);
  await page.goto(address);
  await page.locator('.konvajs-content').first().waitFor();
  await page.evaluate((plan) => {
    const data = new DataTransfer();
    data.items.add(new File([plan], 'many.legroom.json', { type: 'application/json' }));
    window.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true }));
  }, text);
  const name = (JSON.parse(text) as Plan).name;
  await page.getByRole('heading', { level: 1, name }).waitFor({ timeout: 60_000 });
  return page;
}

const frame = (page: Page) => page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));

/** Script time of all frames since it was last asked for, once what a move leads to is painted: in the frame after, at the latest. */
async function spent(page: Page): Promise<number> {
  await frame(page);
  await frame(page);
  const frames = await page.evaluate(() => (window as unknown as { frameTimes: number[] }).frameTimes.splice(0));
  return frames.reduce((sum, ms) => sum + ms, 0);
}

const summary = (times: readonly number[]) => {
  const sorted = [...times].sort((a, b) => a - b);
  return `median ${show(share(sorted, 0.5))} p95 ${show(share(sorted, 0.95))} worst ${show(share(sorted, 1))}`;
};

/** A place where a press takes hold of a piece, from the middle outwards: the pointer's look says so. */
async function pieceUnder(page: Page): Promise<{ x: number; y: number }> {
  const box = await page.locator('.drawing').boundingBox();
  if (!box) throw new Error('There is no drawing.');
  for (let ring = 0; ring < 40; ring++)
    for (let k = 0; k < Math.max(1, ring * 6); k++) {
      const angle = (2 * Math.PI * k) / Math.max(1, ring * 6);
      const at = {
        x: box.x + box.width * 0.5 + ring * 9 * Math.cos(angle),
        y: box.y + box.height * 0.42 + ring * 9 * Math.sin(angle),
      };
      await page.mouse.move(at.x, at.y);
      await frame(page);
      await frame(page);
      const look = await page.locator('.drawing').evaluate((element) => element.style.cursor);
      if (look === 'move') return at;
    }
  throw new Error('No piece was found under the pointer.');
}

async function drag(browser: Browser, address: string, text: string): Promise<string> {
  const page = await opened(browser, address, text);
  const from = await pieceUnder(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const tasks = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')!.value * 1000;
  };
  await page.mouse.down();
  await spent(page);
  const begun = await tasks();
  const moves: number[] = [];
  for (let k = 0; k < MOVES; k++) {
    await page.mouse.move(from.x + 60 * Math.sin(k / 9), from.y + 30 * Math.cos(k / 7));
    moves.push(await spent(page));
  }
  const all = (await tasks()) - begun;
  await page.mouse.up();
  const isDrag = await page.getByRole('button', { name: 'Undo' }).isEnabled();
  if (!isDrag) throw new Error('Nothing was dragged.');
  // The middle button moves the view.
  await page.mouse.move(from.x, from.y);
  await page.mouse.down({ button: 'middle' });
  await spent(page);
  const pans: number[] = [];
  for (let k = 0; k < PANS; k++) {
    await page.mouse.move(from.x + 80 * Math.sin(k / 9), from.y + 30 * Math.cos(k / 7));
    pans.push(await spent(page));
  }
  await page.context().close();
  const first = Math.max(...moves.slice(0, WARM_UP));
  return `a move ${summary(moves.slice(WARM_UP))}, among the first ${WARM_UP} worst ${show(first)}; all tasks ${show(all / MOVES)} a move; a pan ${summary(pans)}`;
}

const { AGAINST, SIZE } = process.env;
await build({ logLevel: 'warn' });
const ours = await serve();
const theirs = AGAINST === undefined ? null : await serve(AGAINST);
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
});
try {
  for (const size of SIZE === undefined ? SIZES : [Number(SIZE)]) {
    const text = manyPieces(size);
    for (let round = 0; round < (theirs === null ? 1 : ROUNDS); round++) {
      console.log(`drag, ${size} pieces: ${await drag(browser, ours.address, text)}`);
      if (theirs !== null) console.log(`  the other build: ${await drag(browser, theirs.address, text)}`);
    }
  }
} finally {
  await browser.close();
  await ours.server.close();
  await theirs?.server.close();
}
