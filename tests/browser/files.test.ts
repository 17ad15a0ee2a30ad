/**
 * A browser opens a file picker only while it counts the user's press: five seconds in Chromium, one in others, and on a slow
 * machine a page can use them up. Found: every way from a press to a picker ran in the press's own task already, and runs in
 * it here, so time cannot pass between them; what was wrong is that a picker the browser refused was waited for without end,
 * and that sending a sheet asked only after the sheet was made. Both are told now (storage/planFile.ts, useSheets.ts).
 */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright';
import { expect, onTestFinished, test } from 'vitest';
import { newPlan } from '../../src/plan/newPlan.ts';
import { chromiumPages, drop, eventually, fromMenu, ready, said, title, undo, violations } from './page.ts';

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

const press = (within: Page | Locator, name: string | RegExp) => within.getByRole('button', { name }).first().click();
/** One finished edit, which the bar shows. */
const turnUnits = (page: Page) => press(page, /^Lengths in/);
const units = (page: Page) => page.locator('.unit-button').textContent();
const kept = (page: Page) => page.locator('.kept').getAttribute('data-kept');
/** What the browser would ask before the page is left. */
const asksBeforeLeaving = (page: Page) =>
  page.evaluate(() => !window.dispatchEvent(new Event('beforeunload', { cancelable: true })));

test('a tab that is killed in the middle of the work has lost nothing that was finished; each tab keeps to its own plan', async () => {
  const first = await open();
  await ready(first);
  await fromMenu(first, 'New plan');
  const second = await first.context().newPage();
  await second.goto(first.url());
  await ready(second);
  await fromMenu(second, 'One kit on four bases');
  await first.reload();
  await ready(first);
  expect([await title(first), await kept(first)]).toEqual(['New plan', 'kept']);
  await turnUnits(second);
  const wanted = await units(second);
  await new Promise((resolve) => setTimeout(resolve, 60));
  const devtools = await second.context().newCDPSession(second);
  const crashed = new Promise((resolve) => second.once('crash', resolve));
  devtools.send('Page.crash').catch(() => undefined);
  await crashed;
  const third = await first.context().newPage();
  await third.goto(first.url());
  await ready(third);
  expect([await title(third), await units(third)]).toEqual(['One kit on four bases', wanted]);
  await second.close();
}, 60_000);

test('what cannot be kept is not left without the word, and is kept when room returns', async () => {
  const page = await open();
  await ready(page);
  await page.evaluate(() => {
    const { put, add } = IDBObjectStore.prototype;
    const full = () => {
      throw new DOMException('The disk is full.', 'QuotaExceededError');
    };
    Object.assign(IDBObjectStore.prototype, { put: full, add: full });
    Object.assign(window, { makeRoom: () => Object.assign(IDBObjectStore.prototype, { put, add }) });
  });
  expect(await asksBeforeLeaving(page)).toBe(false);
  await turnUnits(page);
  await eventually(() => kept(page), 'failed');
  await said(page, /^Not kept$/).waitFor();
  expect(await asksBeforeLeaving(page)).toBe(true);
  const asked = page.getByRole('alertdialog', { name: /is kept nowhere/ });
  await inMenu(page, /^New plan/)();
  await press(asked, 'Stay with this plan');
  await asked.waitFor({ state: 'detached' });
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    drop(page, 'other.legroom.json', JSON.stringify(newPlan('Other'))).then(() =>
      press(asked, 'Save to a file and go on'),
    ),
  ]);
  expect(saved.suggestedFilename()).toMatch(/legroom\.json$/);
  await eventually(() => title(page), 'Other');
  await turnUnits(page);
  await eventually(() => kept(page), 'failed');
  await page.evaluate(() => {
    (window as unknown as { makeRoom(): void }).makeRoom();
    window.dispatchEvent(new Event('focus'));
  });
  await eventually(() => kept(page), 'kept');
  expect(await asksBeforeLeaving(page)).toBe(false);
  await fromMenu(page, 'New plan');
}, 60_000);

test('kept plans are taken over from before, newest last; one of a newer version is said and stays', async () => {
  const page = await open();
  await ready(page);
  const plans = ['Old', 'Newer', 'From next year'].map((name, k) => ({
    id: `plan-${k}`,
    name,
    text: JSON.stringify({ ...newPlan(name), ...(k === 2 ? { version: 9 } : {}) }),
    keptAt: 1e12 + k,
    fileName: null,
    fileText: null,
  }));
  await page.evaluate(
    (records) =>
      new Promise<void>((resolve, reject) => {
        sessionStorage.clear();
        const gone = indexedDB.deleteDatabase('legroom');
        gone.onsuccess = () => {
          const opening = indexedDB.open('legroom', 1);
          opening.onerror = () => reject(opening.error);
          opening.onupgradeneeded = () => {
            const store = opening.result.createObjectStore('plans', { keyPath: 'id' });
            store.createIndex('keptAt', 'keptAt');
            for (const record of records) store.put(record);
          };
          opening.onsuccess = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    plans,
  );
  await page.reload();
  const passed = page.getByRole('alertdialog', { name: '“From next year” was not opened' });
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    passed.getByRole('button', { name: 'Download it' }).click(),
  ]);
  expect(JSON.parse(readFileSync(await file.path(), 'utf8')).version).toBe(9);
  await passed.getByRole('button', { name: 'Go on' }).click();
  expect(await title(page)).toBe('Newer');

  // An hour back: what is written now is the last all the same.
  await page.evaluate(() => {
    Date.now = () => 1e11;
  });
  await fromMenu(page, 'New plan');
  await turnUnits(page);
  await inMenu(page, /^Plans kept here/)();
  const list = page.getByRole('dialog', { name: 'Plans kept in this browser' });
  const names = () => list.getByRole('list', { name: 'Plans' }).locator('.kept-name').allTextContents();
  await eventually(names, ['New plan', 'From next year', 'Newer', 'Old']);
  await list.getByText(/cannot be read/).waitFor();
  const [everything] = await Promise.all([
    page.waitForEvent('download'),
    list.getByRole('button', { name: 'Save everything to one file' }).click(),
  ]);
  await list.getByRole('button', { name: 'Remove Old' }).click();
  await eventually(async () => (await names()).includes('Old'), false);
  await list.getByRole('button', { name: 'Put it back' }).click();
  await eventually(async () => (await names()).at(-1), 'Old');
  await list.getByRole('button', { name: 'Remove Old' }).click();
  await eventually(async () => (await names()).includes('Old'), false);
  await list.locator('input[type=file]').setInputFiles(await everything.path());
  await list.getByText('1 plan taken in. 3 plans here already, just so.').waitFor();
  await eventually(async () => (await names()).at(-1), 'Old');
  expect(await violations(page, '.modal')).toEqual([]);
}, 60_000);

test('an earlier state is brought back as one step', async () => {
  const page = await open();
  await ready(page);
  const before = await units(page);
  for (let k = 0; k < 5; k++) await turnUnits(page);
  await inMenu(page, /^Versions/)();
  const list = page.getByRole('dialog', { name: /^Versions of/ });
  const rows = list.getByRole('list', { name: 'Versions' }).getByRole('listitem');
  await expect.poll(() => rows.count()).toBe(2);
  await rows.last().getByText('Then: Other units').waitFor();
  expect(await violations(page, '.modal')).toEqual([]);
  await rows
    .last()
    .getByRole('button', { name: /^Bring back/ })
    .click();
  await eventually(() => units(page), before);
  await undo(page).click();
  await expect.poll(() => units(page)).not.toBe(before);
});

test('a file that another program changed is not written over without the word; without a database nothing is said to be kept', async () => {
  const page = await open();
  await ready(page);
  const script = await page.addInitScript(() => {
    const file = async () =>
      (await navigator.storage.getDirectory()).getFileHandle('kit.legroom.json', { create: true });
    Object.assign(window, { showOpenFilePicker: file, showSaveFilePicker: file });
    Object.defineProperty(window, 'indexedDB', { value: undefined });
  });
  onTestFinished(() => script.dispose());
  await page.reload();
  await ready(page);
  await said(page, /^Not kept$/).waitFor();
  await page.keyboard.press('Control+s');
  await eventually(() => page.locator('.kept').getAttribute('data-file'), 'current');
  const onDisk = (write?: string) =>
    page.evaluate(async (text) => {
      const file = await (await navigator.storage.getDirectory()).getFileHandle('kit.legroom.json');
      if (text !== undefined) {
        const stream = await file.createWritable();
        await stream.write(text);
        await stream.close();
      }
      return (await file.getFile()).text();
    }, write);
  await onDisk(JSON.stringify(newPlan('Theirs')));
  await turnUnits(page);
  await page.keyboard.press('Control+s');
  const asked = page.getByRole('alertdialog', { name: /is not as it was/ });
  await asked.waitFor();
  expect(JSON.parse(await onDisk()).name).toBe('Theirs');
  await asked.getByRole('button', { name: 'Write over it' }).click();
  await eventually(async () => JSON.parse(await onDisk()).name, 'One up, two down');
});
