/** The main job from end to end, once by the mouse and once by keys alone, and files that are no plans. */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright';
import { expect, test } from 'vitest';
import { chosen, chromiumPages, drawing, field, figure, setupCards, title, type, undo } from './page.ts';

const open = chromiumPages();

const SAMPLE = 'samples/one-up-two-down.legroom.json';
const SLOW = { timeout: 30_000, interval: 100 };

async function opened(): Promise<Page> {
  const page = await open({ reducedMotion: 'reduce' });
  await page.getByRole('heading', { level: 1 }).waitFor();
  await drawing(page).locator('canvas').first().waitFor();
  return page;
}

const tab = (page: Page, name: string) => page.getByRole('tab', { name: new RegExp(`^${name}`) });

/** By the key. The page opens the chooser in the press itself (files.test.ts), so that no load can make it lose the press. */
async function chooseFile(page: Page, name: string, text: string): Promise<void> {
  const asked = page.waitForEvent('filechooser');
  // A key goes to the page by another way than the wish for its choosers, and under load comes first: the page's own answer tells that
  // the wish is there.
  await page.evaluate(() => null);
  await page.keyboard.press('Control+o');
  await (await asked).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
}

test('by the mouse: add, copy, bend, compare, save, begin anew, open again, go back', async () => {
  const page = await opened();
  await page.getByRole('searchbox', { name: 'Find gear' }).fill('14 floor');
  await page
    .getByRole('button', { name: /^Floor tom 14 x 14/ })
    .first()
    .click();
  await tab(page, 'Selected').click();
  await type(field(page, 'Name'), 'Second floor tom');
  await type(field(page, /^Upstage/), '80.5 in');
  await expect.poll(() => field(page, /^Upstage/).inputValue(), SLOW).toBe(`6' 8 1/2"`);

  const setups = await setupCards(page).count();
  await page.getByRole('button', { name: 'Copy this one' }).click();
  await expect.poll(() => setupCards(page).count(), SLOW).toBe(setups + 1);
  await tab(page, 'Pieces').click();
  await page.getByRole('option', { name: /^Side rack, hi-hat/ }).click();
  await tab(page, 'Selected').click();
  await page.getByRole('button', { name: 'Bend bars' }).click();
  await page.getByRole('button', { name: 'Straighten bars' }).waitFor();
  await page.getByRole('button', { name: 'Compare' }).click();
  await expect.poll(() => page.getByRole('table').first().getByRole('columnheader').count(), SLOW).toBe(setups + 1);
  await page.keyboard.press('Escape');

  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save to file' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('One up, two down.legroom.json');
  const saved = readFileSync(await download.path(), 'utf8');

  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: 'New plan' }).click();
  await expect.poll(() => title(page), SLOW).toBe('New plan');
  // A plan that nobody touched would be forgotten.
  await page.getByRole('button', { name: 'Empty setup' }).click();
  await chooseFile(page, 'again.legroom.json', saved);
  await expect.poll(() => title(page), SLOW).toBe('One up, two down');
  expect(await setupCards(page).count()).toBe(setups + 1);
  await tab(page, 'Pieces').click();
  expect(await page.getByRole('option', { name: /^Second floor tom/ }).count()).toBe(1);

  // What was open before stands in the list of kept plans.
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: /^Plans kept here/ }).click();
  await page
    .getByRole('list', { name: 'Plans' })
    .getByRole('button', { name: /^New plan/ })
    .click();
  await expect.poll(() => title(page), SLOW).toBe('New plan');
}, 180_000);

test('the best pose on the riser is applied, and taken back', async () => {
  const page = await opened();
  await tab(page, 'Riser').click();
  const margin = () => figure(page, 'Riser margin');
  const before = await margin();
  await page
    .getByRole('button', { name: /the kit there$/ })
    .first()
    .click();
  await expect.poll(margin, SLOW).not.toBe(before);
  await undo(page).click();
  await expect.poll(margin, SLOW).toBe(before);
}, 180_000);

test('on a riser of modules laid askew the page answers while the best pose is looked for, and says it for the plan that is shown', async () => {
  const page = await opened();
  const plan = JSON.parse(readFileSync(SAMPLE, 'utf8'));
  const riser = plan.risers[plan.setups[plan.order[0]].riser];
  riser.modules = [0, 15, 30].map((headingDeg, k) => ({
    ...riser.modules[0],
    ...{ id: `askew-${k}`, xMm: (k - 1) * 1150, yMm: 900 + 120 * k, headingDeg },
  }));
  await chooseFile(page, 'askew.legroom.json', JSON.stringify({ ...plan, name: 'Askew' }));
  await expect.poll(() => title(page), SLOW).toBe('Askew');
  await tab(page, 'Riser').click();
  // Fields are there at once; the answer comes from the worker.
  await field(page, 'Name').waitFor();
  await page.getByRole('button', { name: 'Shift the kit there' }).click(SLOW);
  await page
    .getByText('The kit stands where it has the most margin')
    .or(page.getByText(/^For the most margin/))
    .waitFor(SLOW);
  expect(await page.getByRole('progressbar', { name: 'Looking for the best place' }).count()).toBe(0);
}, 180_000);

/** Presses Tab until the focus is where it should be; on the way it must always be somewhere, and be seen. */
async function tabTo(page: Page, wanted: Locator): Promise<number> {
  for (let presses = 1; presses <= 60; presses++) {
    await page.keyboard.press('Tab');
    if (await wanted.evaluateAll((all) => all.includes(document.activeElement as HTMLElement))) return presses;
    const at = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement;
      const style = getComputedStyle(element);
      return {
        name: `${element.tagName} ${element.ariaLabel ?? element.textContent}`,
        isBody: element === document.body,
        isSeen: style.outlineStyle !== 'none' || style.boxShadow !== 'none' || element.textContent === 'To the drawing',
      };
    });
    if (!at.isBody) expect(at.isSeen, `the focus is seen on ${at.name}`).toBe(true);
  }
  throw new Error(`Sixty presses of Tab did not reach ${wanted}.`);
}

test('by keys alone: the drawing, its fields, the help and the gear, and no trap', async () => {
  const page = await opened();
  const focused = () => page.evaluate(() => document.activeElement?.id);

  // The first stop leads past everything to the drawing.
  expect(await tabTo(page, page.getByRole('button', { name: 'To the drawing' }))).toBe(1);
  await page.keyboard.press('Enter');
  expect(await focused()).toBe('drawing');

  await page.keyboard.press('n');
  await expect.poll(() => chosen(page), SLOW).toBe('Selected: Bass drum.');
  const x = field(page, /^From centre/);
  const before = await x.inputValue();
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => x.inputValue(), SLOW).not.toBe(before);
  const turned = await field(page, /^Heading/).inputValue();
  await page.keyboard.press('[');
  await expect.poll(() => field(page, /^Heading/).inputValue(), SLOW).not.toBe(turned);

  // On through the tools to the tabs at the side, and into the fields.
  await tabTo(page, page.getByRole('tab'));
  await tabTo(page, page.getByRole('textbox'));
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Kick');
  await page.keyboard.press('Enter');
  await expect.poll(() => page.getByRole('heading', { level: 2, name: 'Kick' }).count(), SLOW).toBe(1);

  // Help opens from anywhere and gives the focus back.
  const atField = await focused();
  await page.keyboard.press('F1');
  await page.getByRole('dialog', { name: 'Help' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await expect.poll(focused, SLOW).toBe(atField);

  // The list of gear is one stop, and arrows walk in it.
  await page.reload();
  await drawing(page).locator('canvas').first().waitFor();
  const rows = page.getByRole('complementary', { name: 'Gear' }).getByRole('listitem').getByRole('button');
  await tabTo(page, rows);
  const gear = () => page.evaluate(() => document.activeElement?.textContent);
  const first = await gear();
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowDown');
  expect(await gear()).toMatch(/^Bass drum 16/);
  await page.keyboard.press('Home');
  expect(await gear()).toBe(first);
  expect(await tabTo(page, drawing(page))).toBeLessThanOrEqual(2);
}, 180_000);

const good = readFileSync(SAMPLE, 'utf8');
const firstX = /"xMm": -?[\d.]+/;
/** The sample with its first setup changed by hand. */
function changed(change: (pieces: Record<string, { spans?: object[] }>, order: string[]) => void): string {
  const plan = JSON.parse(good);
  const setup = plan.setups.straight;
  change(setup.pieces, setup.order);
  return JSON.stringify(plan);
}
const barOnNoLeg = changed((pieces) => {
  const { spans } = pieces['rack-right'];
  spans?.push(JSON.parse(JSON.stringify(spans[0]).replaceAll('"bar-1"', '"bar-9"')));
});
const fiveThousand = changed((pieces, order) => {
  for (let i = 0; i < 5000; i++) {
    pieces[`extra-${i}`] = { ...pieces.bass, id: `extra-${i}` } as object;
    order.push(`extra-${i}`);
  }
});
const BROKEN: readonly (readonly [string, string, RegExp])[] = [
  ['no JSON', 'bass drum on the left', /^Line 1, column 1/],
  ['half a file', good.slice(0, good.length / 2), /^Line \d+, column \d+/],
  ['another format', '{"format": "recipe/2"}', /"recipe\/2"/],
  ['words for a number', good.replace(firstX, '"xMm": "left"'), /"Straight side racks".*"Bass drum".*"xMm"/],
  ['not a number', good.replace(firstX, '"xMm": NaN'), /"Bass drum".*"xMm".*NaN/],
  ['beyond all numbers', good.replace(firstX, '"xMm": 1e999'), /"Bass drum".*"xMm".*1e999/],
  ['an id twice', good.replace('"snare": {', '"bass": {'), /"bass" is written twice/],
  ['a newer version', good.replace(/"version": \d+/, '"version": 99'), /newer program \(version 99/],
  ['a mount on nothing', good.replace(/"rack": "rack-left"/, '"rack": "ghost"'), /"ghost"/],
  ['a bar joined to no leg', barOnNoLeg, /"Side rack, floor toms", span 2, bar 1: it is joined to no leg/],
  ['far too many pieces', fiveThousand, /\d{4} pieces, and the most is 1000/],
  ['far too long', `{"note": "${'x'.repeat(1e7)}"}`, /10\.0 MB/],
];

test('each broken file is refused in one sentence that names the place, and the plan stays', async () => {
  const page = await opened();
  await tab(page, 'Plan').click();
  await type(field(page, 'Name of the plan'), 'Mine');
  await expect.poll(() => title(page), SLOW).toBe('Mine');
  for (const [name, text, says] of BROKEN) {
    await chooseFile(page, `${name}.json`, text);
    const alert = page.getByRole('alertdialog');
    await alert.waitFor({ timeout: SLOW.timeout });
    const sentence = await alert.getByRole('paragraph').first().textContent();
    expect(sentence, name).toMatch(says);
    expect(sentence, name).not.toContain('\n');
    await page.keyboard.press('Escape');
    await alert.waitFor({ state: 'detached' });
    expect(await title(page), name).toBe('Mine');
  }
  // Not even the history was touched.
  await undo(page).click();
  await expect.poll(() => title(page), SLOW).toBe('One up, two down');
}, 180_000);
