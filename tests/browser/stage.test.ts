/** The stage in a real browser: its outline, and the lists for the venue, by mouse and by keyboard alone. */
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { chromiumPages, eventually, ready, SCREENS, violations } from './page.ts';

const open = chromiumPages();

const dialog = (page: Page) => page.getByRole('dialog', { name: /^Stage and inputs/ });
const field = (page: Page, name: string | RegExp) => page.getByRole('textbox', { name });
const sources = (page: Page) =>
  page
    .getByRole('textbox', { name: /^Source, channel/ })
    .or(page.getByRole('combobox', { name: /^Source, channel/ }))
    .evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));

async function openLists(page: Page): Promise<void> {
  await page.getByRole('tab', { name: 'Stage' }).click();
  await page.getByRole('button', { name: /^Stage and inputs/ }).click();
  await dialog(page).waitFor();
}

async function addGear(page: Page, words: string): Promise<void> {
  await page.getByRole('searchbox', { name: 'Find gear' }).fill(words);
  await page.getByRole('complementary', { name: 'Gear' }).getByRole('listitem').first().getByRole('button').click();
  await page.getByRole('tab', { name: 'Selected', selected: true }).waitFor();
}

const focused = (page: Page) =>
  page.evaluate(
    () =>
      document.activeElement?.getAttribute('aria-label') ??
      (document.activeElement as HTMLInputElement | null)?.labels?.[0]?.textContent,
  );

const KIT = ['Bass drum', 'Snare, top', 'Snare, bottom', 'Hi-hats', 'Rack tom', 'Floor tom 14', 'Floor tom 16'];
const PROPOSED = [...KIT, 'Overhead, left', 'Overhead, right'];

test('by mouse: a line is edited, moved and removed, what is left out is named, each step is undone, a reload keeps it', async () => {
  const page = await open();
  await ready(page);
  await openLists(page);
  await eventually(() => sources(page), PROPOSED);
  await field(page, 'Source, channel 1').fill('Kick');
  await page.getByRole('checkbox', { name: 'Phantom power, channel 1' }).click();
  await eventually(() => sources(page), ['Kick', ...PROPOSED.slice(1)]);
  await page.getByRole('button', { name: 'Move channel 1 down' }).click();
  await eventually(() => sources(page), ['Snare, top', 'Kick', ...PROPOSED.slice(2)]);
  expect(await page.getByText('Kick is channel 2 now.').count()).toBe(1);
  expect(await page.getByRole('checkbox', { name: 'Phantom power, channel 2' }).isChecked()).toBe(true);
  await page.getByRole('button', { name: 'Remove channel 7' }).click();
  await dialog(page).getByText('Not on the list: Floor tom 16.').waitFor();
  const undo = dialog(page).getByRole('button', { name: 'Undo' });
  await undo.click();
  await undo.click();
  await eventually(() => sources(page), ['Kick', ...PROPOSED.slice(1)]);
  await dialog(page).getByRole('button', { name: 'Redo' }).click();
  await dialog(page).getByRole('button', { name: 'Redo' }).click();
  await page.getByRole('button', { name: 'Add it' }).click();
  const wanted = ['Snare, top', 'Kick', ...PROPOSED.slice(2).filter((one) => one !== 'Floor tom 16'), 'Floor tom 16'];
  await eventually(() => sources(page), wanted);
  await page.reload();
  await ready(page);
  await openLists(page);
  await eventually(() => sources(page), wanted);
  await page.getByRole('button', { name: 'Propose anew' }).click();
  await eventually(() => sources(page), PROPOSED);
});

test('by keyboard alone: opened, edited, walked, moved from within a field, undone, closed', async () => {
  const page = await open();
  await ready(page);
  await page.getByRole('tab', { name: 'Findings' }).focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
  await page.getByRole('tab', { name: 'Stage', selected: true }).waitFor();
  await page.getByRole('button', { name: /^Stage and inputs/ }).waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await dialog(page).waitFor();
  // From the dialog's head to the first source.
  for (let i = 0; i < 12 && (await focused(page)) !== 'Source, channel 1'; i++) await page.keyboard.press('Tab');
  expect(await focused(page)).toBe('Source, channel 1');
  await page.keyboard.press('ArrowDown');
  expect(await focused(page)).toBe('Source, channel 2');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('Snare over');
  // Typed and not yet taken: the move takes it along.
  await page.keyboard.press('Alt+ArrowUp');
  await eventually(() => sources(page), ['Snare over', 'Bass drum', ...PROPOSED.slice(2)]);
  expect(await focused(page)).toBe('Source, channel 1');
  await page.keyboard.press('Alt+ArrowUp');
  expect(await focused(page)).toBe('Source, channel 1');
  await page.keyboard.press('Alt+ArrowDown');
  await page.keyboard.press('Alt+ArrowDown');
  await eventually(() => sources(page), ['Bass drum', 'Snare, bottom', 'Snare over', ...PROPOSED.slice(3)]);
  expect(await focused(page)).toBe('Source, channel 3');
  for (let i = 0; i < 5; i++) await page.keyboard.press('Tab');
  expect(await focused(page)).toBe('Phantom power, channel 3');
  await page.keyboard.press('Space');
  expect(await page.getByRole('checkbox', { name: 'Phantom power, channel 3' }).isChecked()).toBe(true);
  await page.keyboard.press('Control+Z');
  await page.keyboard.press('Control+Z');
  await eventually(() => sources(page), ['Bass drum', 'Snare over', ...PROPOSED.slice(2)]);
  expect(await page.getByRole('checkbox', { name: 'Phantom power, channel 2' }).isChecked()).toBe(false);
  // To the last button of that line, which takes the line away; the next one has the focus.
  for (let i = 0; i < 8 && !(await focused(page))?.startsWith('Remove channel'); i++) await page.keyboard.press('Tab');
  const removed = await focused(page);
  await page.keyboard.press('Enter');
  expect(await focused(page)).toBe(removed);
  await eventually(async () => (await sources(page)).length, PROPOSED.length - 1);
  await page.keyboard.press('Escape');
  await dialog(page).waitFor({ state: 'detached' });
  expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('Stage and inputs');
});

test('a stage of its own size; too small a one is told; undo takes it away', async () => {
  const page = await open();
  await ready(page);
  await page.getByRole('tab', { name: 'Stage' }).click();
  const choice = page.getByRole('combobox', { name: 'Stage' });
  await choice.selectOption({ label: 'A new stage …' });
  const width = field(page, 'Width');
  await eventually(() => width.inputValue(), `24'`);
  await width.fill('1 in');
  await width.press('Enter');
  await page.getByText(/^The least is 19 11\/16"\.$/).waitFor();
  await width.fill('9 m');
  await width.press('Enter');
  await eventually(() => width.inputValue(), `29' 6 5/16"`);
  await field(page, /^Wing, stage left/).fill('6 ft');
  await field(page, /^Wing, stage left/).press('Enter');
  await page.getByText('By its corners').click();
  expect(await page.getByRole('heading', { name: 'Corners, Wing, stage left' }).count()).toBe(1);
  await page.getByRole('button', { name: 'Add a corner after corner 1' }).first().click();
  await eventually(() => field(page, /^Corner \d, from centre$/).count(), 9);
  await page.getByRole('tabpanel').getByRole('textbox', { name: 'Name' }).fill('The hall');
  await page.keyboard.press('Enter');
  await eventually(() => choice.locator('option:checked').textContent(), 'The hall');
  for (let i = 0; i < 5; i++) await page.getByRole('button', { name: 'Undo' }).click();
  await eventually(() => choice.locator('option:checked').textContent(), 'None drawn');
});

test('a wedge is given a mix, a power drop its load, and the lists tell of both', async () => {
  const page = await open();
  await ready(page);
  await addGear(page, 'wedge 12');
  await page.getByRole('combobox', { name: 'Plays' }).selectOption({ label: 'A new mix …' });
  await addGear(page, 'power drop');
  await field(page, 'Voltage').fill('230');
  await field(page, 'Voltage').press('Enter');
  await field(page, /^Load/).fill('2,4 kW');
  await field(page, /^Load/).press('Enter');
  await openLists(page);
  await page.getByRole('tab', { name: 'Mixes' }).click();
  await eventually(() => field(page, 'For, mix 1').inputValue(), 'Wedge, 12 in');
  expect(await page.getByRole('row', { name: /^1/ }).textContent()).toContain('Wedge, 12 in');
  await page.getByRole('tab', { name: 'Power' }).click();
  await dialog(page).getByText('Together 2.4 kW on one power drop.').waitFor();
  expect(
    await page
      .getByRole('row', { name: /^Power drop/ })
      .last()
      .textContent(),
  ).toContain('10.4 A');
  await field(page, 'Voltage, Power drop').fill('lots');
  await field(page, 'Voltage, Power drop').press('Enter');
  expect(await page.getByRole('table').textContent()).toContain('“lots” is not a value here. Write it like 230 V.');
  await field(page, 'Voltage, Power drop').press('Escape');
  await page.getByRole('tab', { name: 'Venue' }).click();
  await page.getByRole('button', { name: 'Add what the plan says' }).click();
  await eventually(() => field(page, /^The venue provides, line/).count(), 4);
  await page.getByRole('tab', { name: 'Cables' }).click();
  await page.getByRole('button', { name: 'Add a cable run' }).click();
  await page.getByRole('combobox', { name: 'End, at' }).selectOption({ label: 'Power drop' });
  await eventually(
    () => page.getByRole('combobox', { name: 'End, at' }).locator('option:checked').textContent(),
    'Power drop',
  );
});

interface Small {
  readonly what: string;
  readonly width: number;
  readonly height: number;
}

/** Everything that is pressed and is smaller than `least` CSS px either way. */
const smallTargets = (page: Page, least: number): Promise<Small[]> =>
  dialog(page)
    .locator('button, input, select, textarea, [role=tab]')
    .evaluateAll(
      (all, min) =>
        all
          .map((one) => {
            // A tick's label is what is pressed.
            const { width, height } = (one.closest('label') ?? one).getBoundingClientRect();
            return { what: one.getAttribute('aria-label') ?? one.textContent ?? '', width, height };
          })
          .filter(({ width, height }) => width > 0 && (width < min || height < min)),
      least,
    );

test.each([
  ['desk, light', SCREENS.desk, 'light', false],
  ['tablet, dark', SCREENS.tablet, 'dark', true],
  ['phone, light', SCREENS.phone, 'light', true],
  ['phone, dark', SCREENS.phone, 'dark', true],
] as const)(
  '%s: every list passes axe, its targets are large enough, nothing runs out of the dialog',
  async (_, viewport, colorScheme, hasTouch) => {
    const page = await open({ viewport, colorScheme, hasTouch });
    await ready(page);
    if (viewport === SCREENS.phone) await page.getByRole('radio', { name: 'Findings' }).click();
    await openLists(page);
    for (const [tab, add] of [
      ['Inputs', 'Add a line'],
      ['Mixes', 'Add a mix'],
      ['Power', null],
      ['Cables', 'Add a cable run'],
      ['Venue', 'Add what the plan says'],
    ] as const) {
      await page.getByRole('tab', { name: tab }).click();
      if (add !== null) await page.getByRole('button', { name: add }).click();
      expect(await violations(page, '[role=dialog]'), tab).toEqual([]);
      expect(await smallTargets(page, hasTouch ? 43.5 : 23.5)).toEqual([]);
      const over = await dialog(page).evaluate((one) => one.scrollWidth - one.clientWidth);
      expect(over, tab).toBeLessThanOrEqual(0);
    }
  },
);
