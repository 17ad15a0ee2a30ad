/** Panels and storage in a real browser: fields, gear, findings, setups, files, and two tabs on one plan. */
import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright';
import { expect, inject, test } from 'vitest';
import {
  choose,
  chromiumPages,
  drawing,
  drop,
  errorOf,
  eventually,
  field,
  fromMenu,
  ready,
  SCREENS,
  setupCards,
  tab,
  title,
  type,
  undo,
  violationsInBothLooks,
} from './page.ts';

const open = chromiumPages();

test('a field reads feet and inches, steps by keys, and undoes the steps as one; what is no length stays with its reason', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Throne');
  const x = field(page, /^From centre/);
  const before = await x.inputValue();
  await type(x, `1' 2 1/2"`);
  await eventually(() => x.inputValue(), '14 1/2"');
  for (let i = 0; i < 4; i++) await x.press('ArrowUp');
  await eventually(() => x.inputValue(), '14 3/4"');
  await undo(page).click();
  await eventually(() => x.inputValue(), '14 1/2"');
  await undo(page).click();
  await eventually(() => x.inputValue(), before);

  await type(x, 'a bit to the left');
  await expect.poll(() => errorOf(x)).toContain('is not a length');
  await x.press('Escape');
  expect(await x.inputValue()).toBe(before);
  expect(await errorOf(x)).toBe('');

  // Dragging has another way: steps by buttons.
  await page.getByRole('combobox', { name: 'Step' }).selectOption({ label: '1"' });
  const y = field(page, /^Upstage/);
  await type(y, '50 in');
  await page.getByRole('button', { name: 'Move upstage' }).click();
  await page.getByRole('button', { name: 'Move upstage' }).click();
  await eventually(() => y.inputValue(), '52"');
});

test('by the keyboard alone the list of pieces is walked, and gear is found by a few letters and put on the drawing', async () => {
  const page = await open();
  await ready(page);
  await tab(page, 'Pieces');
  const rows = page.getByRole('option');
  await rows.first().focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Space');
  await eventually(() => rows.nth(2).getAttribute('aria-selected'), 'true');
  await page.keyboard.press('Shift+ArrowUp');
  await eventually(() => page.getByRole('option', { selected: true }).count(), 2);

  const before = await rows.count();
  await page.getByRole('searchbox', { name: 'Find gear' }).fill('18 crash');
  const found = page.getByRole('button', { name: /^Crash 18 in/ });
  await found.focus();
  await page.keyboard.press('Enter');
  await eventually(() => rows.count(), before + 1);
  await eventually(() => page.getByRole('option', { selected: true }).count(), 1);
  expect(await page.getByRole('option', { selected: true }).textContent()).toContain('Crash 18 in');
});

test('gear is dragged onto the drawing, and let go elsewhere is not added', async () => {
  const page = await open();
  await ready(page);
  await tab(page, 'Pieces');
  const rows = page.getByRole('option');
  await rows.first().waitFor();
  const before = await rows.count();
  const row = (await page.getByRole('button', { name: /^Bass drum 16 x 14 in/ }).boundingBox())!;
  const { x, y, width } = (await drawing(page).boundingBox())!;
  const drag = async (toX: number, toY: number) => {
    await page.mouse.move(row.x + 30, row.y + row.height / 2);
    await page.mouse.down();
    await page.mouse.move(row.x + 60, row.y + row.height / 2 + 10, { steps: 3 });
    await page.mouse.move(toX, toY, { steps: 6 });
    await page.mouse.up();
  };
  await drag(x + width - 80, y + 80);
  await eventually(() => rows.count(), before + 1);
  await drag(x + width / 2, 5);
  // One step is undone, and that was all.
  await undo(page).click();
  await eventually(() => rows.count(), before);
  expect(await undo(page).isDisabled()).toBe(true);
});

test('bending a rack keeps its tubes’ lengths and can be taken back', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Side rack, hi-hat');
  const bar = page.getByRole('button', { name: /^Bar 1/ });
  const straight = await bar.textContent();
  const length = straight?.match(/[\d' /]+"/)?.[0];
  await page.getByRole('button', { name: 'Bend bars' }).click();
  await eventually(async () => (await bar.textContent())?.includes('bent'), true);
  expect(await bar.textContent()).toContain(length);
  await bar.click();
  const rise = field(page, 'Rise');
  await type(rise, '5 in');
  await eventually(() => rise.inputValue(), '5"');
  await page.getByRole('button', { name: 'Straighten bars' }).click();
  await eventually(() => bar.textContent(), straight);
});

test('a setup is copied, compared and removed', async () => {
  const page = await open();
  await ready(page);
  const cards = setupCards(page);
  const before = await cards.count();
  await page.getByRole('button', { name: 'Copy this one' }).click();
  await eventually(() => cards.count(), before + 1);
  await page.getByRole('button', { name: 'Compare' }).click();
  const table = page.getByRole('table');
  await table.waitFor();
  expect(await table.getByRole('columnheader').count()).toBe(before + 1);
  // Nothing was changed in the copy yet.
  const differing = table.getByRole('row', { name: /^Pieces that differ/ });
  expect(await differing.getByRole('cell').allTextContents()).toContain('none');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^Actions for .*copy/ }).click();
  await page.getByRole('menuitem', { name: 'Remove' }).click();
  await eventually(() => cards.count(), before);
});

const SAMPLE = 'samples/five-toms-front-rack.legroom.json';

test('a dropped file is opened; a broken one is told about, and what was open stays', async () => {
  const page = await open();
  await ready(page);
  const text = readFileSync(SAMPLE, 'utf8');
  const { name } = JSON.parse(text) as { name: string };
  await drop(page, 'five.legroom.json', text);
  await eventually(() => title(page), name);
  await drop(page, 'broken.legroom.json', text.replace(/"headingDeg": -?[\d.]+/, '"headingDeg": "east"'));
  const alert = page.getByRole('alertdialog');
  await alert.waitFor();
  expect(await alert.textContent()).toContain('broken.legroom.json');
  expect(await alert.textContent()).toMatch(/setup ".*", piece ".*"/i);
  await alert.getByRole('button', { name: 'Back to the plan' }).click();
  expect(await title(page)).toBe(name);
});

test('a plan goes through a link: it opens beside what is kept, and the address is clean again', async () => {
  const page = await open();
  await ready(page);
  await fromMenu(page, 'One kit on four bases');
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: 'Link to this plan' }).click();
  const dialog = page.getByRole('dialog', { name: 'Link to this plan' });
  await dialog.getByRole('button', { name: 'Copy link' }).click();
  await dialog.getByRole('status').filter({ hasText: 'The link is copied.' }).waitFor();
  const link = await dialog.getByRole('textbox').inputValue();
  expect(link).toMatch(/#plan=d\w+\.[\w-]+$/);
  expect(await violationsInBothLooks(page, '[role=dialog]')).toEqual([]);
  await page.keyboard.press('Escape');

  await fromMenu(page, 'New plan');
  await page.goto(link);
  await eventually(() => title(page), 'One kit on four bases');
  expect(page.url()).not.toContain('#');
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: /^Plans/ }).click();
  const kept = page.getByRole('dialog', { name: 'Plans kept in this browser' });
  await kept.getByRole('listitem').filter({ hasText: 'One kit on four bases' }).waitFor();
  await page.keyboard.press('Escape');
  // As a visitor has it who follows a link into a new tab; cut short there.
  await page.goto('about:blank');
  await page.goto(link.slice(0, -20));
  await page
    .getByRole('alertdialog', { name: /Link.* was not opened/ })
    .getByText(/damaged or cut short/)
    .waitFor();
  await page.getByRole('button', { name: 'Back to the plan' }).click();
  expect(page.url()).not.toContain('#');
  expect(await title(page)).toBe('One kit on four bases');
}, 60_000);

test('a change made just before the page is left is there again after a reload', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Throne');
  await type(field(page, 'Name'), 'The stool');
  await eventually(() => page.getByRole('heading', { level: 2, name: 'The stool' }).count(), 1);
  await page.reload();
  await ready(page);
  await tab(page, 'Pieces');
  await eventually(() => page.getByRole('option', { name: /^The stool/ }).count(), 1);
});

async function secondTab(context: BrowserContext): Promise<Page> {
  const page = await context.newPage();
  await page.goto(inject('address'));
  await ready(page);
  return page;
}

test('a second tab reads only, takes over with the last change, and the first then reads only', async () => {
  const first = await open();
  await ready(first);
  await choose(first, 'Throne');
  // The first has the plan for itself.
  await expect.poll(() => first.evaluate(async () => (await navigator.locks.query()).held?.length)).toBeGreaterThan(0);
  const second = await secondTab(first.context());
  const takeOver = second.getByRole('button', { name: 'Take over' });
  await takeOver.waitFor();
  await tab(second, 'Plan');
  expect(await field(second, 'Name of the plan').getAttribute('readonly')).not.toBeNull();
  await type(field(first, 'Name'), 'Last change');
  await takeOver.click();
  await tab(second, 'Pieces');
  await eventually(() => second.getByRole('option', { name: /^Last change/ }).count(), 1);
  await first.getByRole('button', { name: 'Take over' }).waitFor();
  await tab(second, 'Plan');
  await eventually(() => field(second, 'Name of the plan').getAttribute('readonly'), null);
});

test('no panel breaks a rule that axe can see, in either look', async () => {
  const page = await open();
  await ready(page);
  await choose(page, 'Side rack, hi-hat');
  await page.getByRole('button', { name: /^Bar 1/ }).click();
  expect(await violationsInBothLooks(page), 'the whole page').toEqual([]);
  // A tab changes the side and nothing else.
  for (const name of ['Findings', 'Pieces', 'Riser', 'Plan']) {
    await tab(page, name);
    expect(await violationsInBothLooks(page, 'aside[aria-label^="Piece"]'), name).toEqual([]);
  }
  await page.getByRole('button', { name: 'Compare' }).click();
  await page.getByRole('table').waitFor();
  expect(await violationsInBothLooks(page), 'Compare').toEqual([]);
});

test('on a phone nothing runs out of the page sideways, and what is tapped is 44 px high', async () => {
  const page = await open({ viewport: SCREENS.phone, hasTouch: true, isMobile: true });
  await ready(page);
  for (const name of ['Gear', 'Selected', 'Findings', 'Drawing']) {
    await page.getByRole('radio', { name, exact: true }).click();
    const { scroll, width, small } = await page.evaluate(() => {
      const seen = (element: Element) => {
        const box = element.getBoundingClientRect();
        return box.width > 1 && box.bottom > 0 && box.top < innerHeight;
      };
      const targets = [...document.querySelectorAll('button, select, input:not([type=checkbox]), [role=tab]')];
      return {
        scroll: document.documentElement.scrollWidth,
        width: innerWidth,
        small: targets
          .filter((element) => seen(element) && element.getBoundingClientRect().height < 43.5)
          .map((element) => element.getAttribute('aria-label') ?? element.textContent),
      };
    });
    expect(scroll, name).toBeLessThanOrEqual(width);
    expect(small, name).toEqual([]);
  }
});

test('the room that a cymbal wants to swing is the user’s own, and is taken back', async () => {
  const page = await open();
  await ready(page);
  await tab(page, 'Plan');
  const room = field(page, 'Over or under a drum');
  expect([await room.inputValue(), await room.getAttribute('placeholder')]).toEqual(['', '1 9/16"']);
  await type(room, '2"');
  await eventually(() => room.inputValue(), '2"');
  await undo(page).click();
  await eventually(() => room.inputValue(), '');
});
