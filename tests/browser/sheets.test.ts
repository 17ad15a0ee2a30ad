/** The sheets' dialog: every kind drawn in the worker, its pages turned, its files saved; by mouse and by keyboard alone. */
import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright';
import { expect, test } from 'vitest';
import { chromiumPages } from './page.ts';

const open = chromiumPages();

async function openSheets(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Sheets to print or send' }).click();
  await page.getByRole('img', { name: /^Page 1 of \d+: Venue sheet/ }).waitFor();
}

async function saved(page: Page, button: string | RegExp): Promise<{ file: Download; bytes: Buffer }> {
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: button }).click()]);
  return { file, bytes: readFileSync(await file.path()) };
}

const choose = (page: Page, kind: string) =>
  page.getByRole('radio', { name: new RegExp(`^${kind}`) }).check({ force: true });

test('every kind is drawn, and its main file is saved; a drawing as DXF too', async () => {
  const page = await open();
  await openSheets(page);
  expect((await saved(page, 'DXF')).bytes.toString('utf8')).toContain('$INSUNITS');
  const venue = await saved(page, 'PDF');
  expect(venue.file.suggestedFilename()).toMatch(/ - venue sheet\.pdf$/);
  expect(venue.bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  expect(venue.bytes.length).toBeGreaterThan(10_000);
  expect(venue.bytes.length).toBeLessThan(400_000);
  for (const kind of ['Mark sheet', 'Template', 'Pull list', 'Comparison']) {
    await choose(page, kind);
    await page.getByRole('img', { name: new RegExp(`^Page 1 of \\d+: ${kind}`) }).waitFor();
    const { bytes } = await saved(page, 'PDF');
    expect(bytes.subarray(0, 5).toString('latin1'), kind).toBe('%PDF-');
  }
});

test('pages are turned, and a picture is of the page that is shown', async () => {
  const page = await open();
  await openSheets(page);
  await choose(page, 'Pull list');
  await page.getByRole('img', { name: /^Page 1 of \d+: Pull list/ }).waitFor();
  await page.getByRole('button', { name: 'Page after' }).click();
  await page.getByRole('img', { name: /^Page 2 of/ }).waitFor();
  const png = await saved(page, /^PNG/);
  expect(png.file.suggestedFilename()).toMatch(/ 2\.png$/);
  expect([...png.bytes.subarray(1, 4)]).toEqual([...Buffer.from('PNG')]);
  const svg = await saved(page, /^SVG/);
  expect(svg.bytes.toString('utf8')).toMatch(/^<svg [^>]*width="[\d.]+mm"/);
  const csv = await saved(page, 'CSV');
  expect(csv.bytes.toString('utf8')).toContain('\r\n');
});

test('by keyboard alone: choose a sheet, its paper and a scale, save it', async () => {
  const page = await open();
  await page.getByRole('button', { name: 'Sheets to print or send' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('img', { name: /^Page 1 of/ }).waitFor();
  await page.getByRole('radio', { name: /^Venue sheet/ }).focus();
  await page.keyboard.press('ArrowDown');
  await page.getByRole('img', { name: /: Mark sheet/ }).waitFor();
  await page.keyboard.press('ArrowUp');
  await page.getByRole('combobox', { name: 'Paper', exact: true }).focus();
  await page.keyboard.type('A4');
  await page.getByRole('combobox', { name: 'Scale' }).selectOption('50');
  await page.getByRole('img', { name: /1:50 on A4/ }).waitFor();
  await page.getByRole('button', { name: 'PDF' }).focus();
  const [file] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(file.suggestedFilename()).toMatch(/\.pdf$/);
  // The press is still where it was, so the dialog hears the key.
  await page.keyboard.press('Escape');
  await expect.poll(() => page.getByRole('dialog').count()).toBe(0);
});

test('a scale that does not fit the paper is said, and nothing is saved', async () => {
  const page = await open();
  await openSheets(page);
  await page.getByRole('combobox', { name: 'Scale' }).selectOption('5');
  await page
    .getByText(/1:5\b.*fit|fit.*1:5\b|does not fit|too large/)
    .first()
    .waitFor();
  expect(await page.getByRole('button', { name: 'PDF' }).isDisabled()).toBe(true);
});
