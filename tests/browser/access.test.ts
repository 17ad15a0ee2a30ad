/** What axe sees (WCAG 2.2 A and AA) where panels.test.ts does not look: the menu, the dialogs, and a telephone. */
import { expect, test } from 'vitest';
import { chromiumPages, ready, SCREENS, violations, violationsInBothLooks } from './page.ts';

const open = chromiumPages();

test('menu and dialogs, in either look', async () => {
  const page = await open();
  await ready(page);
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menu').waitFor();
  expect(await violationsInBothLooks(page), 'File menu').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('menu').waitFor({ state: 'detached' });

  await page.keyboard.press('F1');
  await page.getByRole('dialog', { name: 'Help' }).waitFor();
  expect(await violationsInBothLooks(page), 'Help').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });

  await page.getByRole('button', { name: 'Sheets to print or send' }).click();
  await page.getByRole('img', { name: /^Page 1 of/ }).waitFor();
  expect(await violationsInBothLooks(page), 'Sheets').toEqual([]);
}, 180_000);

test('a telephone, dark look', async () => {
  const page = await open({
    viewport: SCREENS.phone,
    hasTouch: true,
    isMobile: true,
    colorScheme: 'dark',
    reducedMotion: 'reduce',
  });
  await ready(page);
  for (const name of ['Drawing', 'Gear', 'Selected', 'Findings']) {
    await page.getByRole('radio', { name, exact: true }).click();
    expect(await violations(page), name).toEqual([]);
  }
}, 180_000);
