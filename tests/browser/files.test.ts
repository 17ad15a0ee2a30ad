/**
 * A browser opens a file picker only while it counts the user's press: five seconds in Chromium, one in others, and on a slow
 * machine a page can use them up. Found: every way from a press to a picker ran in the press's own task already, and runs in
 * it here, so time cannot pass between them; what was wrong is that a picker the browser refused was waited for without end,
 * and that sending a sheet asked only after the sheet was made. Both are told now (storage/planFile.ts, useSheets.ts).
 */
import type { Page } from 'playwright';
import { expect, onTestFinished, test } from 'vitest';
import { chromiumPages, ready } from './page.ts';

const open = chromiumPages();

interface Asked {
  readonly picker: 'open' | 'save' | 'share';
  /** Whether no task ended between the press and the asking, and whether the browser counted the press. */
  readonly isInPress: boolean;
  readonly isActive: boolean;
}

/** The page with pickers that write down when they were asked, and that the user closes. */
async function withPickers(options: Parameters<typeof open>[0] = {}): Promise<Page> {
  const page = await open(options);
  const pickers = await page.addInitScript(() => {
    let isInPress = false;
    const asked: Asked[] = [];
    const { port1, port2 } = new MessageChannel();
    port2.onmessage = () => {
      isInPress = false;
    };
    for (const type of ['keydown', 'keyup', 'pointerdown', 'pointerup', 'click'])
      window.addEventListener(
        type,
        () => {
          isInPress = true;
          port1.postMessage('the next task');
        },
        true,
      );
    const ask = (picker: Asked['picker'], refuses: string) => () => {
      asked.push({ picker, isInPress, isActive: navigator.userActivation.isActive });
      return picker === 'share' && isInPress ? Promise.resolve() : Promise.reject(new DOMException('', refuses));
    };
    Object.assign(window, {
      asked,
      showOpenFilePicker: ask('open', 'AbortError'),
      showSaveFilePicker: ask('save', 'AbortError'),
    });
    Object.assign(navigator, { canShare: () => true, share: ask('share', 'NotAllowedError') });
  });
  // The tab is another test's afterwards.
  onTestFinished(() => pickers.dispose());
  await page.reload();
  await ready(page);
  return page;
}

const asked = (page: Page) =>
  page.evaluate(() => (window as unknown as { asked: Asked[] }).asked.splice(0, Number.POSITIVE_INFINITY));

async function expectAsked(page: Page, picker: Asked['picker'], press: () => Promise<void>): Promise<void> {
  await press();
  await expect.poll(() => asked(page)).toEqual([{ picker, isInPress: true, isActive: true }]);
}

const inMenu = (page: Page, name: RegExp) => async () => {
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name }).click();
};

test('every way to a file picker asks in the press itself', async () => {
  const page = await withPickers();
  const key = (keys: string) => () => page.keyboard.press(keys);
  const button = (name: string) => () => page.getByRole('button', { name }).click();
  await expectAsked(page, 'open', key('Control+o'));
  await expectAsked(page, 'save', key('Control+s'));
  await expectAsked(page, 'save', key('Control+Shift+s'));
  await expectAsked(page, 'save', button('Save to file'));
  await expectAsked(page, 'open', inMenu(page, /^Open/));
  await expectAsked(page, 'save', inMenu(page, /^Save to file/));
  await expectAsked(page, 'save', inMenu(page, /^Save to another file/));
  await expectAsked(page, 'open', async () => {
    await page.getByRole('button', { name: 'File', exact: true }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('menuitem', { name: /^Open/ }).focus();
    await page.keyboard.press('Enter');
  });
  await page.getByRole('button', { name: 'Parts', exact: true }).click();
  await page.getByRole('tab', { name: 'Built from what you own' }).click();
  await expectAsked(page, 'open', button('Open a list …'));
  await button('I own all of this setup')();
  await expectAsked(page, 'save', button('Save it to a file'));
  // From inside a dialog, too.
  await expectAsked(page, 'save', key('Control+s'));
}, 60_000);

test('by touch', async () => {
  const page = await withPickers({ hasTouch: true });
  await expectAsked(page, 'open', async () => {
    await page.getByRole('button', { name: 'File', exact: true }).tap();
    await page.getByRole('menuitem', { name: /^Open/ }).tap();
  });
});

test('a press that the browser no longer counts is told, and nothing waits for it', async () => {
  const page = await open();
  await ready(page);
  await page.evaluate(() => {
    HTMLInputElement.prototype.showPicker = () => {
      throw new DOMException('no press', 'NotAllowedError');
    };
  });
  await page.keyboard.press('Control+o');
  expect(await page.getByRole('alertdialog').locator('.alert-sentence').textContent()).toBe(
    'The browser did not let this page choose a file. Try once more, or drop the file onto the page.',
  );
});

test('a sheet that took longer to make than a press counts is sent by the next press', async () => {
  const page = await withPickers();
  await page.getByRole('button', { name: 'Sheets to print or send' }).click();
  await page.getByRole('img', { name: /^Page 1 of/ }).waitFor();
  const send = page.getByRole('button', { name: /^Send/ });
  await send.click();
  await page.getByText('The sheet is made: press once more to share it.').waitFor();
  expect(await asked(page)).toMatchObject([{ picker: 'share', isInPress: false }]);
  await expectAsked(page, 'share', () => send.click());
}, 60_000);
