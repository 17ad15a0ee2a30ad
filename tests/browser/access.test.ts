/** What axe sees (WCAG 2.2 A and AA) where panels.test.ts does not look: the menu, the dialogs, and a telephone. */
import axe from 'axe-core';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { chromiumPages, SCREENS } from './page.ts';

const open = chromiumPages();

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** Rule, place and reason of each violation on the page as it stands. Half-faded colours are no colours of the page. */
async function violations(page: Page): Promise<string[]> {
  await page.evaluate(() =>
    Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => null))),
  );
  await page.evaluate(axe.source);
  return page.evaluate(async (rules) => {
    interface Found {
      violations: { id: string; nodes: { target: string[]; failureSummary: string }[] }[];
    }
    const { run } = (window as unknown as { axe: { run: (options: object) => Promise<Found> } }).axe;
    const found = await run({ runOnly: rules });
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary}`),
    );
  }, RULES);
}

test.each(['light', 'dark'] as const)(
  'menu and dialogs, %s look',
  async (colorScheme) => {
    const page = await open({ colorScheme, reducedMotion: 'reduce' });
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.getByRole('button', { name: 'File', exact: true }).click();
    await page.getByRole('menu').waitFor();
    expect(await violations(page), 'File menu').toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('menu').waitFor({ state: 'detached' });

    await page.keyboard.press('F1');
    await page.getByRole('dialog', { name: 'Help' }).waitFor();
    expect(await violations(page), 'Help').toEqual([]);
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });

    await page.getByRole('button', { name: 'Sheets to print or send' }).click();
    await page.getByRole('img', { name: /^Page 1 of/ }).waitFor();
    expect(await violations(page), 'Sheets').toEqual([]);
  },
  180_000,
);

test('a telephone, dark look', async () => {
  const page = await open({
    viewport: SCREENS.phone,
    hasTouch: true,
    isMobile: true,
    colorScheme: 'dark',
    reducedMotion: 'reduce',
  });
  await page.getByRole('heading', { level: 1 }).waitFor();
  for (const name of ['Drawing', 'Gear', 'Selected', 'Findings']) {
    await page.getByRole('radio', { name, exact: true }).click();
    expect(await violations(page), name).toEqual([]);
  }
}, 180_000);
