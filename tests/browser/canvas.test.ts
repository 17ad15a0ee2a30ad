/** The drawing in a real browser: what a visitor sees first, moving a piece by mouse and by keys, measuring, both looks, offline. */
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { choose, chosen, chromiumPages, drawing, figure, SCREENS, said, tab, title, undo } from './page.ts';

const open = chromiumPages();

/** The page with its first sample, the fit done and the first frame painted. */
async function opened(options: Parameters<typeof open>[0] = {}): Promise<Page> {
  const page = await open({ reducedMotion: 'reduce', ...options });
  await drawing(page).locator('canvas').first().waitFor();
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
  return page;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}
/** Where pieces were found: every test begins with the same drawing. */
const spots = new Map<string, Spot>();

/** Looks for a place on the drawing where a click selects the piece: where it was found before, or from the middle outwards. */
async function findPiece(page: Page, name: string): Promise<Spot> {
  const isAt = async ({ x, y }: Spot) => {
    await page.mouse.click(x, y);
    return (await chosen(page)) === `Selected: ${name}.`;
  };
  const known = spots.get(name);
  if (known && (await isAt(known))) return known;
  const box = await drawing(page).boundingBox();
  if (!box) throw new Error('There is no drawing.');
  for (let ring = 0; ring < 9; ring++)
    for (let k = 0; k < Math.max(1, ring * 6); k++) {
      const angle = (2 * Math.PI * k) / Math.max(1, ring * 6);
      const x = box.x + box.width / 2 + ring * 36 * Math.cos(angle);
      const y = box.y + box.height * 0.42 + ring * 32 * Math.sin(angle);
      if (!(await isAt({ x, y }))) continue;
      spots.set(name, { x, y });
      return { x, y };
    }
  throw new Error(`No click on the drawing selected ${name}.`);
}

const place = async (page: Page) => {
  const field = (label: RegExp) => page.getByRole('textbox', { name: label }).first().inputValue();
  return [await field(/^From centre/), await field(/^Upstage/)];
};

/** Waits until what was asked for is painted: Konva paints in the frame after. */
const painted = (page: Page) =>
  page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done)))),
  );

/** The canvas as tests see it: the stage's nodes by name, in px of the drawing. */
interface StageInPage {
  find(selector: string): { name(): string; getAbsolutePosition(): { x: number; y: number } }[];
  getLayers(): { name(): string; on(event: 'draw', listener: () => void): void }[];
}

/** Names of all nodes that have this one among theirs, and where they are on the page. */
async function nodes(page: Page, name: string): Promise<{ name: string; x: number; y: number }[]> {
  const box = (await page.locator('.drawing').boundingBox())!;
  const found = await page.evaluate((wanted) => {
    const [stage] = (globalThis as unknown as { Konva: { stages: StageInPage[] } }).Konva.stages;
    return stage.find(`.${wanted}`).map((node) => ({ name: node.name(), ...node.getAbsolutePosition() }));
  }, name);
  return found.map((node) => ({ name: node.name, x: box.x + node.x, y: box.y + node.y }));
}

/** How many different colours a canvas shows: one, when nothing is painted on it. */
const colours = (page: Page, layer: number) =>
  drawing(page)
    .locator('canvas')
    .nth(layer)
    .evaluate((canvas: HTMLCanvasElement) => {
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
      const seen = new Set<number>();
      for (let i = 0; i < data.length; i += 4 * 7) seen.add((data[i] << 16) | (data[i + 1] << 8) | data[i + 2]);
      return seen.size;
    });

test('a first visit shows a sample, drawn, with its answers beside it; all its script is under 390 kB, gzipped', async () => {
  const page = await opened();
  expect(await title(page)).toBe('One up, two down');
  expect(await colours(page, 0)).toBeGreaterThan(4);
  expect(await colours(page, 1)).toBeGreaterThan(8);
  expect(await page.getByRole('region', { name: "The drawing's numbers" }).textContent()).toMatch(/Scale\s*1 : \d+/);

  await page.waitForLoadState('networkidle');
  const names = await page.evaluate(() =>
    performance.getEntriesByType('resource').flatMap(({ name }) => (name.endsWith('.js') ? [name] : [])),
  );
  const sizes = await Promise.all(
    names.map(async (name) => {
      const bytes = gzipSync(await (await fetch(name)).text()).length;
      return { bytes, name: new URL(name).pathname };
    }),
  );
  // The page itself, React, the canvas, the sample.
  for (const part of ['index', 'react', 'konva', 'one-up-two-down'])
    expect(sizes.filter(({ name }) => name.includes(`/${part}`))).toHaveLength(1);
  // Not in a crowd either: small files weigh more, and wait for one another.
  expect(names.length).toBeLessThan(10);
  const all = sizes.reduce((sum, { bytes }) => sum + bytes, 0);
  // With the sizes, so that a failure says what has grown.
  if (all >= 390_000) expect(sizes).toEqual(`${all} bytes`);
  expect(all).toBeLessThan(390_000);
});

test('a drag moves a piece, and one undo puts it back', async () => {
  const page = await opened();
  const at = await findPiece(page, 'Throne');
  const before = await place(page);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 30, at.y - 20, { steps: 4 });
  await page.mouse.move(at.x + 46, at.y - 33, { steps: 4 });
  await page.mouse.up();
  await expect.poll(() => place(page)).not.toEqual(before);
  await drawing(page).focus();
  await page.keyboard.press('Control+z');
  await expect.poll(() => place(page)).toEqual(before);
  expect(await undo(page).isDisabled()).toBe(true);
});

test('a drag paints the overlay once a move and the bodies once, when the piece leaves them', async () => {
  const page = await opened();
  const at = await findPiece(page, 'Throne');
  await page.mouse.move(at.x, at.y);
  await painted(page);
  await page.evaluate(() => {
    const page = globalThis as unknown as { Konva: { stages: StageInPage[] }; draws: Record<string, number> };
    page.draws = {};
    for (const layer of page.Konva.stages[0].getLayers()) {
      page.draws[layer.name()] = 0;
      layer.on('draw', () => page.draws[layer.name()]++);
    }
  });
  const draws = () => page.evaluate(() => ({ ...(globalThis as unknown as { draws: Record<string, number> }).draws }));
  await page.mouse.down();
  // From within the page, where a move costs nothing but what the page makes of it. The first begins the drag.
  await page.locator('.drawing').evaluate(async (element, { x, y }) => {
    const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
    for (let k = 1; k <= 20; k++) {
      const to = { clientX: x + 6 + k, clientY: y - k, pointerId: 1, buttons: 1, bubbles: true };
      element.dispatchEvent(new PointerEvent('pointermove', to));
      for (let n = 0; n < 3; n++) await frame();
    }
  }, at);
  expect(await draws()).toEqual({ ground: 0, bodies: 1, labels: 1, overlay: 20 });
  expect((await nodes(page, 'throne')).length).toBeGreaterThan(0);
  await page.mouse.up();
  await painted(page);
  expect((await draws()).bodies).toBe(2);
});

test('handles are nodes with names: a leg is pulled by its own', async () => {
  const page = await opened();
  await choose(page, 'Side rack, hi-hat');
  await drawing(page).focus();
  await expect
    .poll(async () => (await nodes(page, 'grip')).filter(({ name }) => name.includes('handle:leg:')).length)
    .toBe(2);
  const grips = await nodes(page, 'grip');
  expect(grips.some(({ name }) => name === 'grip handle:turn')).toBe(true);
  const leg = grips.findLast(({ name }) => name.startsWith('grip handle:leg:'))!;
  const named = () => nodes(page, leg.name.split(' ')[1]);
  await page.mouse.move(leg.x, leg.y);
  await expect.poll(() => page.locator('.drawing').evaluate((element) => element.style.cursor)).toBe('alias');
  await page.mouse.down();
  await page.mouse.move(leg.x + 20, leg.y + 12, { steps: 3 });
  // While it is pulled the handles are away.
  await expect.poll(named).toEqual([]);
  await page.mouse.up();
  await expect.poll(async () => (await named()).length).toBe(1);
  const [now] = await named();
  expect(Math.hypot(now.x - leg.x, now.y - leg.y)).toBeGreaterThan(5);
  expect(await page.getByRole('button', { name: 'Undo' }).isEnabled()).toBe(true);
});

test('with the riser’s panel open a module is dragged by its handle, and snaps flush to the other', async () => {
  const page = await opened();
  await expect
    .poll(() => nodes(page, 'grip').then((all) => all.filter(({ name }) => name.includes('module'))))
    .toEqual([]);
  await tab(page, 'Riser');
  const grip = async (id: string) => (await nodes(page, `handle:module:${id}`))[0];
  await expect.poll(() => grip('deck-2')).toBeDefined();
  const [first, was] = [await grip('deck-1'), await grip('deck-2')];
  await page.mouse.move(was.x, was.y);
  await page.mouse.down();
  await page.mouse.move(was.x + 90, was.y - 60, { steps: 4 });
  await page.mouse.move(was.x + 7, was.y - 6, { steps: 4 });
  await expect.poll(async () => (await nodes(page, 'flush')).length).toBe(1);
  await page.mouse.up();
  await expect.poll(() => grip('deck-2')).toBeDefined();
  const now = await grip('deck-2');
  expect(now.x - first.x).toBeCloseTo(was.x - first.x, 1);
  expect(now.y).toBeCloseTo(was.y, 1);
  await tab(page, 'Pieces');
  await expect.poll(() => grip('deck-2')).toBeUndefined();
});

test('keys alone choose a piece, move it and let it go', async () => {
  const page = await opened();
  await drawing(page).focus();
  await page.keyboard.press('n');
  const first = await chosen(page);
  await page.keyboard.press('n');
  expect(await chosen(page)).not.toBe(first);
  const before = await place(page);
  await page.keyboard.press('ArrowRight');
  await expect.poll(async () => (await place(page))[0]).not.toBe(before[0]);
  expect((await place(page))[1]).toBe(before[1]);
  await page.keyboard.press('Escape');
  expect(await chosen(page)).toBe('Nothing is selected.');
  // Tab leaves the drawing: it is no trap.
  await page.keyboard.press('Tab');
  expect(await drawing(page).evaluate((one) => one.contains(document.activeElement))).toBe(false);
});

test('Escape in the middle of a drag leaves the plan as it was', async () => {
  const page = await opened();
  const at = await findPiece(page, 'Throne');
  const before = await place(page);
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(at.x + 60, at.y, { steps: 6 });
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await expect.poll(() => place(page)).toEqual(before);
  expect(await undo(page).isDisabled()).toBe(true);
});

test('the wheel zooms at the pointer, 0 shows everything again', async () => {
  const page = await opened();
  const scale = () => figure(page, 'Scale');
  const fitted = await scale();
  const box = (await drawing(page).boundingBox())!;
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.wheel(0, -300);
  await expect.poll(scale).not.toBe(fitted);
  await drawing(page).focus();
  await page.keyboard.press('0');
  await expect.poll(scale).toBe(fitted);
});

test('measuring says the distance between two pieces in words', async () => {
  const page = await opened();
  const throne = await findPiece(page, 'Throne');
  const snare = await findPiece(page, 'Snare');
  await page.getByRole('radio', { name: 'Measure between two pieces' }).click();
  await page.mouse.click(throne.x, throne.y);
  await page.mouse.click(snare.x, snare.y);
  await said(page, /^Throne to Snare: .+ apart in plan\.$/).waitFor();
});

test('on a telephone the drawing comes first, and the panels are a tap away', async () => {
  const page = await opened({ viewport: SCREENS.phone, hasTouch: true, isMobile: true });
  const box = (await drawing(page).boundingBox())!;
  expect(box.height).toBeGreaterThan(SCREENS.phone.height * 0.5);
  await page.getByRole('radio', { name: 'Findings' }).click();
  await expect.poll(() => page.getByRole('tab', { name: /Findings/ }).getAttribute('aria-selected')).toBe('true');
  // Nothing is wider than the screen.
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(SCREENS.phone.width);
});

test('both looks are painted: the dark one is dark', async () => {
  const ground = async (page: Page) =>
    drawing(page)
      .locator('canvas')
      .first()
      .evaluate((canvas: HTMLCanvasElement) => {
        const { data } = canvas.getContext('2d')!.getImageData(canvas.width - 3, canvas.height - 3, 1, 1);
        return data[0] + data[1] + data[2];
      });
  expect(await ground(await opened({ colorScheme: 'dark' }))).toBeLessThan(200);
  expect(await ground(await opened({ colorScheme: 'light' }))).toBeGreaterThan(600);
});
