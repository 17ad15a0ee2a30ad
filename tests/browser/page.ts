/**
 * A real Chromium and pages in it. A file's tests share one profile for each screen and look, so that the page is fetched and
 * compiled once; what the last test kept in it is cleared. A page that logs an error fails the test that opened it.
 */
import axe from 'axe-core';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Locator,
  type Page,
} from 'playwright';
import { afterAll, afterEach, beforeAll, expect, inject } from 'vitest';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** The three screens that every look and test goes through. */
export const SCREENS = {
  desk: { width: 1440, height: 900 },
  tablet: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
} as const;

const KEPT_IN = 'indexeddb,local_storage,cache_storage,service_workers';

/** Call at the top of a test file. The returned function opens the page as a first visit sees it. */
export function chromiumPages(): (options?: BrowserContextOptions) => Promise<Page> {
  let browser: Browser;
  const profiles = new Map<string, BrowserContext>();
  let errors: string[] = [];
  beforeAll(async () => {
    const executablePath = process.env.CHROMIUM_PATH;
    if (!executablePath) throw new Error('CHROMIUM_PATH is not set: run the browser tests by npm test.');
    browser = await chromium.launch({ executablePath, args: FLAGS });
  });
  afterEach(async () => {
    for (const [key, context] of profiles) {
      for (const page of context.pages()) await page.close();
      // What a test put into a worker, or unplugged, is no other test's.
      if (!key.includes('serviceWorkers')) continue;
      await context.close();
      profiles.delete(key);
    }
    const seen = errors;
    errors = [];
    expect(seen).toEqual([]);
  });
  afterAll(() => browser.close());
  const profileOf = async (options: BrowserContextOptions): Promise<BrowserContext> => {
    const key = JSON.stringify(options);
    const known = profiles.get(key);
    if (known) return known;
    // The worker that keeps the page for later fetches every file of it: only the test of that needs it.
    const context = await browser.newContext({
      viewport: SCREENS.desk,
      serviceWorkers: 'block',
      reducedMotion: 'reduce',
      ...options,
    });
    // The system's file pickers are no part of a page: it gets the input and the download that other browsers have.
    await context.addInitScript(() => {
      for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker);
    });
    context.on('page', (page) => {
      page.on('pageerror', (error) => errors.push(String(error)));
      page.on('console', (message) => {
        if (message.type() === 'error') errors.push(message.text());
      });
    });
    profiles.set(key, context);
    return context;
  };
  return async (options = {}) => {
    const context = await profileOf(options);
    const page = await context.newPage();
    const address = inject('address');
    const devtools = await context.newCDPSession(page);
    await devtools.send('Storage.clearDataForOrigin', { origin: new URL(address).origin, storageTypes: KEPT_IN });
    await devtools.detach();
    await page.goto(address);
    return page;
  };
}

/** What several test files do on the page. */
export const ready = (page: Page) => page.getByRole('heading', { level: 1 }).waitFor();
export const title = (page: Page) => page.getByRole('heading', { level: 1 }).textContent();
export const tab = (page: Page, name: string) => page.getByRole('tab', { name: new RegExp(`^${name}`) }).click();
export const field = (page: Page, name: string | RegExp) => page.getByRole('textbox', { name }).first();
export const undo = (page: Page) => page.getByRole('button', { name: 'Undo' });
export const drawing = (page: Page) => page.getByRole('application', { name: 'Drawing from above' });
/** What the page says by itself, the sentence that matches. */
export const said = (page: Page, words: RegExp) => page.getByRole('status').filter({ hasText: words });
/** What is chosen, in the drawing's words. */
export const chosen = (page: Page) => said(page, /^(Selected: .*|Nothing is selected)\.$/).textContent();
/** The setups at the foot of the page. */
export const setupCards = (page: Page) => page.getByRole('region', { name: 'Setups' }).getByRole('listitem');
/** One of the numbers in the drawing's corner. */
export const figure = (page: Page, name: string) =>
  page
    .getByRole('region', { name: "The drawing's numbers" })
    .locator('div')
    .filter({ has: page.getByRole('term').filter({ hasText: name }) })
    .getByRole('definition')
    .textContent();

/** The words of the choice that a list box shows. */
export const shown = (box: Locator) =>
  box.evaluate((one: HTMLSelectElement) => one.selectedOptions[0]?.textContent ?? '');

/** What a field's error says: the description that goes with `aria-invalid`, or nothing. */
export const errorOf = (input: Locator): Promise<string> =>
  input.evaluate((one) => {
    if (one.getAttribute('aria-invalid') !== 'true') return '';
    const ids = one.getAttribute('aria-describedby')?.split(' ') ?? [];
    return ids.map((id) => document.getElementById(id)?.textContent ?? '').join(' ');
  });

/** Chooses a piece in the list of pieces, by the start of its row, and shows its fields. */
export async function choose(page: Page, name: string): Promise<void> {
  await tab(page, 'Pieces');
  await page
    .getByRole('option', { name: new RegExp(`^${name}`) })
    .first()
    .click();
  await tab(page, 'Selected');
}

export async function type(input: Locator, text: string): Promise<void> {
  await input.fill(text);
  await input.press('Enter');
}

/** Opens a sample, or a new plan, from the File menu. */
export async function fromMenu(page: Page, item: string): Promise<void> {
  await page.getByRole('button', { name: 'File', exact: true }).click();
  await page.getByRole('menuitem', { name: item }).click();
  await eventually(() => title(page), item);
}

/** Lets go a file over the page, as a drag from the desktop does. */
export async function drop(page: Page, name: string, text: string): Promise<void> {
  await page.getByRole('main').evaluate(
    (target, [fileName, content]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([content], fileName));
      for (const kind of ['dragover', 'drop'])
        target.dispatchEvent(new DragEvent(kind, { bubbles: true, cancelable: true, dataTransfer: transfer }));
    },
    [name, text],
  );
}

/** The stock list as the browser keeps it: what is asked for is written while the page goes on. */
export const keptStock = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      new Promise<string>((resolve, reject) => {
        const opening = indexedDB.open('legroom-stock');
        opening.onerror = () => reject(opening.error);
        // Not there yet: it is the page that makes it.
        opening.onupgradeneeded = () => opening.transaction?.abort();
        opening.onsuccess = () => {
          const asked = opening.result.transaction('stock').objectStore('stock').get('mine');
          asked.onsuccess = () => {
            opening.result.close();
            resolve(asked.result ?? '');
          };
        };
      }),
  );

/** What axe sees (its rules for WCAG 2.2 A and AA) on the page as it stands, or within one part: rule, place and reason of each. */
export async function violations(page: Page, within = 'html'): Promise<string[]> {
  // Half-faded colours are no colours of the page.
  await page.evaluate(() =>
    Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => null))),
  );
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(async (part) => {
    const found = await (window as unknown as { axe: typeof axe }).axe.run(part, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary}`),
    );
  }, within);
}

export async function eventually(read: () => Promise<unknown>, wanted: unknown): Promise<void> {
  await expect.poll(read, { timeout: 10_000 }).toEqual(wanted);
}
