/** The side elevation in a real browser: shown by a key, a height dragged in it as one step of undo; parts and stock beside it. */
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { choose, chromiumPages, drawing, keptStock, ready, SCREENS, undo, violationsInBothLooks } from './page.ts';

const open = chromiumPages();
const strip = (page: Page) => page.getByRole('region', { name: 'Side elevation' });

test('E shows it, a cymbal is lifted by hand in one step, and E puts it away', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Crash 18');
  await drawing(page).focus();
  await page.keyboard.press('e');
  await strip(page).waitFor();
  const height = page.getByRole('textbox', { name: /^Edge above deck/ }).first();
  const before = await height.inputValue();
  const canvas = strip(page).locator('canvas');
  // Where is it? The pointer says so by its shape: the highest thing that can be lifted is a crash.
  const find = (element: Element) => {
    const { left, top, right, bottom } = element.getBoundingClientRect();
    for (let y = top + 40; y < bottom; y += 3)
      for (let x = left + 60; x < right - 60; x += 6) {
        element.dispatchEvent(new PointerEvent('pointermove', { clientX: x, clientY: y }));
        if ((element as HTMLElement).style.cursor === 'ns-resize') return { x, y };
      }
    return null;
  };
  await expect.poll(() => canvas.evaluate(find)).not.toBeNull();
  const { x, y } = (await canvas.evaluate(find))!;
  await page.mouse.move(x, y + 2);
  await page.mouse.down();
  await page.mouse.move(x, y - 10, { steps: 3 });
  await page.mouse.move(x, y - 18, { steps: 3 });
  await page.mouse.up();
  await expect.poll(() => height.inputValue()).not.toBe(before);
  await undo(page).click();
  await expect.poll(() => height.inputValue()).toBe(before);
  expect(await undo(page).isDisabled()).toBe(true);
  await strip(page).getByRole('radio', { name: 'From stage left' }).click();
  await canvas.focus();
  await page.keyboard.press('e');
  await strip(page).waitFor({ state: 'detached' });
});

test('parts by unit; who owns all of a setup can build it, and the list outlives the page', async () => {
  const page = await open();
  await ready(page);
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  const dialog = page.getByRole('dialog', { name: /^Parts of/ });
  await dialog.getByRole('table').waitFor();
  expect(await dialog.getByRole('rowheader', { name: /Side rack, hi-hat/ }).count()).toBe(1);
  await dialog.getByRole('tab', { name: 'Built from what you own' }).click();
  await dialog.getByRole('button', { name: 'I own all of this setup' }).click();
  await dialog.getByText('It can be built: nothing is missing.').waitFor();
  const count = dialog.getByRole('textbox', { name: /How many: Joint of bar and upright/ }).first();
  await count.fill('0');
  await count.press('Enter');
  await dialog.getByText(/It cannot be built/).waitFor();
  await expect.poll(() => keptStock(page)).toMatch(/"count": 0\b/);
  await page.reload();
  await ready(page);
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await dialog.getByRole('tab', { name: 'Built from what you own' }).click();
  await dialog.getByText(/It cannot be built/).waitFor();
});

test('compared setups say first whether they play the same, and which parts come and go', async () => {
  const page = await open();
  await ready(page);
  await page.getByRole('button', { name: 'Compare' }).click();
  const table = page.getByRole('table');
  await table.waitFor();
  const rows = table.getByRole('row');
  expect(await rows.nth(1).textContent()).toMatch(/^Playing layout.*The same/);
  for (const label of ['Pieces that differ', 'Parts added', 'Parts removed'])
    expect(await table.getByRole('row', { name: new RegExp(`^${label}`) }).count()).toBe(1);
  expect(await table.getByRole('row', { name: /^Parts added/ }).textContent()).toContain('+');
});

test('axe finds nothing in the strip and the parts, in either look', async () => {
  const page = await open();
  await ready(page);
  await page.getByRole('button', { name: 'Side elevation beneath the plan' }).click();
  await strip(page).waitFor();
  expect(await violationsInBothLooks(page, 'main')).toEqual([]);
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await page.getByRole('table').waitFor();
  expect(await violationsInBothLooks(page)).toEqual([]);
});

test('on a phone the strip leaves the plan its room and runs out of nothing', async () => {
  const page = await open({ viewport: SCREENS.phone, hasTouch: true, isMobile: true });
  await ready(page);
  await page.getByRole('button', { name: 'Side elevation beneath the plan' }).click();
  await strip(page).waitFor();
  const box = (await strip(page).boundingBox())!;
  const plan = (await drawing(page).boundingBox())!;
  expect(box.x).toBe(0);
  expect(box.width).toBe(SCREENS.phone.width);
  expect(plan.y + plan.height).toBeLessThanOrEqual(box.y + 1);
  expect(plan.height).toBeGreaterThan(box.height);
  const numbers = (await page.getByRole('region', { name: "The drawing's numbers" }).boundingBox())!;
  expect(numbers.y + numbers.height).toBeLessThanOrEqual(box.y);
});
