/** The side elevation in a real browser: shown by a key, a height dragged in it as one step of undo; parts and stock beside it. */
import axe from 'axe-core';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { chromiumPages, ready, SCREENS } from './page.ts';

const open = chromiumPages();
const strip = (page: Page) => page.getByRole('region', { name: 'Side elevation' });

async function choose(page: Page, name: string): Promise<void> {
  await page.getByRole('tab', { name: /^Pieces/ }).click();
  await page
    .getByRole('option', { name: new RegExp(`^${name}`) })
    .first()
    .click();
  await page.getByRole('tab', { name: /^Selected/ }).click();
}

test('E shows it, a cymbal is lifted by hand in one step, and E puts it away', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Crash 18');
  await page.getByRole('application', { name: 'Drawing from above' }).focus();
  await page.keyboard.press('e');
  await strip(page).waitFor();
  await page.waitForTimeout(400);
  const height = page.getByRole('textbox', { name: /^Edge above deck/ }).first();
  const before = await height.inputValue();
  const canvas = strip(page).locator('canvas');
  // Where is it? The pointer says so by its shape: the highest thing that can be lifted is a crash.
  const found = await canvas.evaluate((element) => {
    const { left, top, right, bottom } = element.getBoundingClientRect();
    for (let y = top + 40; y < bottom; y += 3)
      for (let x = left + 60; x < right - 60; x += 6) {
        element.dispatchEvent(new PointerEvent('pointermove', { clientX: x, clientY: y }));
        if ((element as HTMLElement).style.cursor === 'ns-resize') return { x, y };
      }
    return null;
  });
  expect(found).not.toBeNull();
  await page.mouse.move(found!.x, found!.y + 2);
  await page.mouse.down();
  await page.mouse.move(found!.x, found!.y - 10, { steps: 3 });
  await page.mouse.move(found!.x, found!.y - 18, { steps: 3 });
  await page.mouse.up();
  await expect.poll(() => height.inputValue()).not.toBe(before);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(() => height.inputValue()).toBe(before);
  expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true);
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
  await page.waitForTimeout(300);
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

test.each(['light', 'dark'] as const)('axe finds nothing in the strip and the parts (%s)', async (colorScheme) => {
  const page = await open({ colorScheme });
  await ready(page);
  await page.getByRole('button', { name: 'Side elevation beneath the plan' }).click();
  await strip(page).waitFor();
  await page.addScriptTag({ content: axe.source });
  const violations = () =>
    page.evaluate(async () => {
      const { violations: found } = await (window as never as { axe: typeof axe }).axe.run({
        runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
      });
      return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
    });
  expect(await violations()).toEqual([]);
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await page.getByRole('table').waitFor();
  expect(await violations()).toEqual([]);
});

test('on a phone the strip leaves the plan its room and runs out of nothing', async () => {
  const page = await open({ viewport: SCREENS.phone, hasTouch: true, isMobile: true });
  await ready(page);
  await page.getByRole('button', { name: 'Side elevation beneath the plan' }).click();
  await strip(page).waitFor();
  const box = (await strip(page).boundingBox())!;
  const plan = (await page.getByRole('application', { name: 'Drawing from above' }).boundingBox())!;
  expect(box.x).toBe(0);
  expect(box.width).toBe(SCREENS.phone.width);
  expect(plan.y + plan.height).toBeLessThanOrEqual(box.y + 1);
  expect(plan.height).toBeGreaterThan(box.height);
});
