/** A plan that breaks the page, and a page that did not come over a secure way. */
import type { Page } from 'playwright';
import { expect, inject, test } from 'vitest';
import { chromiumPages, drawing, ready, takeErrors, title, undo } from './page.ts';

const open = chromiumPages();

/** From now on, whatever measures a distance or draws a line throws, until it is mended. */
const breakBy = (page: Page, what: 'layout' | 'painting') =>
  page.evaluate((kind) => {
    const [of, name] = kind === 'layout' ? [Math, 'hypot'] : [CanvasRenderingContext2D.prototype, 'stroke'];
    const owner = of as unknown as Record<string, unknown>;
    const whole = owner[name];
    owner[name] = () => {
      throw new Error(`no ${kind}`);
    };
    Object.assign(window, { mend: () => Object.assign(owner, { [name]: whole }) });
  }, what);
const mend = (page: Page) => page.evaluate(() => (window as unknown as { mend(): void }).mend());

const nudgeSomething = async (page: Page) => {
  await drawing(page).focus();
  await page.keyboard.press('n');
  await page.keyboard.press('ArrowRight');
};

test.each(['layout', 'painting'] as const)(
  'a plan that breaks %s is named, can be saved, taken back a step, and is not brought back by itself',
  async (what) => {
    const page = await open();
    await ready(page);
    await nudgeSomething(page);
    await expect.poll(() => undo(page).isEnabled()).toBe(true);
    const name = await title(page);
    await breakBy(page, what);
    await page.keyboard.press('ArrowRight');
    await page.getByRole('heading', { name: `“${name}” broke the page` }).waitFor();
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Download the plan' }).click();
    expect((await saved).suggestedFilename()).toMatch(/\.legroom\.json$/);
    await mend(page);
    await page.getByRole('button', { name: 'Undo the last step' }).click();
    await expect.poll(() => title(page)).toBe(name);
    await drawing(page).waitFor();

    await breakBy(page, what);
    await drawing(page).focus();
    await page.keyboard.press('ArrowRight');
    await page.getByRole('heading', { name: /broke the page/ }).waitFor();
    expect(takeErrors().join()).toContain(`no ${what}`);
    await page.reload();
    await ready(page);
    const held = page.getByRole('alertdialog', { name: `“${name}” was not opened` });
    await held.getByRole('button', { name: 'Open it all the same' }).click();
    await held.waitFor({ state: 'detached' });
    await expect.poll(() => title(page)).toBe(name);
    takeErrors();
  },
);

test('over plain http the page opens, keeps a plan and says what it lacks', async () => {
  const page = await open();
  await page.goto(inject('address').replace('127.0.0.1', 'legroom.test'));
  await ready(page);
  expect(await page.evaluate(() => [isSecureContext, 'randomUUID' in crypto])).toEqual([false, false]);
  await nudgeSomething(page);
  await page.getByText('Kept here').waitFor();
  expect(await page.getByText('Kept here').locator('..').getAttribute('title')).toContain('plain http');
  const name = await title(page);
  await page.reload();
  await ready(page);
  expect(await title(page)).toBe(name);
});
