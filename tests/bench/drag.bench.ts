/**
 * A drag on the sample of sixty pieces in a real Chromium: script time of each frame's callbacks (gesture, preview, layout,
 * gaps, overlay) and of the whole page's tasks, panels included. ms.
 *
 * Run by `npm run bench drag`; CHROMIUM_PATH names the browser where it is not on the PATH.
 */
import { chromium } from 'playwright';
import { build, preview } from 'vite';

const FRAMES = 240;
const WARM_UP = 40;

/** Runs in the page before its own script: keeps how long each frame's callbacks took together. */
function countFrames(): void {
  const page = window as unknown as { frameTimes: number[] };
  page.frameTimes = [];
  const ask = window.requestAnimationFrame.bind(window);
  let stamp = -1;
  window.requestAnimationFrame = (callback) =>
    ask((now) => {
      const begun = performance.now();
      callback(now);
      const took = performance.now() - begun;
      if (now === stamp) page.frameTimes[page.frameTimes.length - 1] += took;
      else page.frameTimes.push(took);
      stamp = now;
    });
}

const share = (sorted: readonly number[], part: number) => sorted[Math.floor((sorted.length - 1) * part)];

await build({ logLevel: 'warn' });
const server = await preview({ preview: { port: 0, host: '127.0.0.1', open: false }, logLevel: 'warn' });
const at = server.httpServer.address();
if (at === null || typeof at === 'string') throw new Error('The page could not be served.');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
});
try {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' });
  const page = await context.newPage();
  // tsx names functions by a helper that the page does not have.
  await page.addInitScript('globalThis.__name = (target) => target;');
  await page.addInitScript(countFrames);
  await page.goto(`http://127.0.0.1:${at.port}/`);
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: 'Sixty pieces' }).click();
  const box = await page.locator('.drawing').boundingBox();
  if (!box) throw new Error('There is no drawing.');
  const from = { x: box.x + box.width * 0.5, y: box.y + box.height * 0.42 };
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  const session = await context.newCDPSession(page);
  await session.send('Performance.enable');
  const tasks = async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')!.value * 1000;
  };
  await page.evaluate(() => {
    (window as unknown as { frameTimes: number[] }).frameTimes.length = 0;
  });
  const begun = await tasks();
  for (let k = 0; k < FRAMES; k++) {
    await page.mouse.move(from.x + 60 * Math.sin(k / 9), from.y + 30 * Math.cos(k / 7));
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
  }
  const all = (await tasks()) - begun;
  const moved = await page.evaluate(() => (window as unknown as { frameTimes: number[] }).frameTimes);
  await page.mouse.up();
  const isDrag = await page.getByRole('button', { name: 'Undo' }).isEnabled();
  if (!isDrag) throw new Error('Nothing was dragged: the grip missed every piece.');
  const times = moved.slice(WARM_UP).sort((a, b) => a - b);
  const show = (ms: number) => ms.toFixed(2);
  console.log(
    `drag, 60 pieces: frames ${times.length}, callbacks min ${show(times[0])} median ${show(share(times, 0.5))} p95 ${show(share(times, 0.95))} max ${show(share(times, 1))} ms; all tasks of the page ${show(all / moved.length)} ms a frame`,
  );
} finally {
  await browser.close();
  await server.close();
}
