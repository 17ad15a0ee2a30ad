/** Mounts in a real browser: offered where a cymbal is put down, found at a press, and a clamp that slides on the drawing. */
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { choose, chromiumPages, ready, said, shown, tab, undo } from './page.ts';

const open = chromiumPages();
const carriedBy = (page: Page) => page.getByRole('combobox', { name: 'Carried by' });

test('a crash moved near a rack is offered a mount; taking it is one step of undo, and a free one is found again at a press', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Crash 16');
  const before = await shown(carriedBy(page));
  expect(before).toMatch(/rack/i);
  // From its rack to the deck, then a little aside: it is put down near the rack.
  await carriedBy(page).selectOption({ label: 'Stands on the deck' });
  const notice = said(page, /^Mount Crash 16 on .*, with Boom arm/);
  await page.getByRole('button', { name: 'Move upstage' }).click();
  await notice.getByRole('button', { name: 'Mount' }).click();
  await expect.poll(() => shown(carriedBy(page))).toMatch(/rack/i);
  expect(await notice.count()).toBe(0);
  await undo(page).click();
  await expect.poll(() => shown(carriedBy(page))).toBe('Stands on the deck');
  await page.getByRole('button', { name: 'Find a mount' }).click();
  await expect.poll(() => shown(carriedBy(page))).toMatch(/rack/i);
  await said(page, /to spare/).waitFor();
});

test('two floor toms are shifted together by a typed distance, and a tom holder whose arms would run into the rack is refused', async () => {
  const page = await open();
  await ready(page);
  await tab(page, 'Pieces');
  await page
    .getByRole('option', { name: /^Floor tom 14/ })
    .first()
    .click();
  await page
    .getByRole('option', { name: /^Floor tom 16/ })
    .first()
    .click({ modifiers: ['Control'] });
  await tab(page, 'Selected');
  await page.getByRole('heading', { name: '2 pieces' }).waitFor();
  await page.getByRole('button', { name: 'Put both on one double tom holder' }).click();
  await said(
    page,
    /^Wherever a double tom holder reaches both, an arm runs into .+: move that, or a drum\.$/,
  ).waitFor();
  const shift = page.getByRole('textbox', { name: 'Shift to stage left' });
  await shift.fill('2"');
  await shift.press('Enter');
  await page.getByRole('button', { name: 'Move all by that' }).click();
  await expect.poll(() => shift.inputValue()).toMatch(/^0/);
  await choose(page, 'Floor tom 14');
  const x = page.getByRole('textbox', { name: /^From centre/ });
  const moved = await x.inputValue();
  // Undo chooses again what was chosen then: both.
  await undo(page).click();
  await page.getByRole('heading', { name: '2 pieces' }).waitFor();
  await choose(page, 'Floor tom 14');
  expect(await x.inputValue()).not.toBe(moved);
});
