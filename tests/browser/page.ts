/** A real Chromium and pages in it. A page that logs an error fails the test that opened it. */
import { type Browser, type BrowserContextOptions, chromium, type Locator, type Page } from 'playwright';
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

/** Call at the top of a test file. The returned function opens the page in a fresh profile. */
export function chromiumPages(): (options?: BrowserContextOptions) => Promise<Page> {
  let browser: Browser;
  let opened: Page[] = [];
  let errors: string[] = [];
  beforeAll(async () => {
    const executablePath = process.env.CHROMIUM_PATH;
    if (!executablePath) throw new Error('CHROMIUM_PATH is not set: run the browser tests by npm test.');
    browser = await chromium.launch({ executablePath, args: FLAGS });
  });
  afterEach(async () => {
    for (const page of opened) await page.context().close();
    opened = [];
    const seen = errors;
    errors = [];
    expect(seen).toEqual([]);
  });
  afterAll(() => browser.close());
  return async (options = {}) => {
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
    const page = await context.newPage();
    page.on('pageerror', (error) => errors.push(String(error)));
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    opened.push(page);
    await page.goto(inject('address'));
    return page;
  };
}

/** What several test files do on the page. */
export const ready = (page: Page) => page.getByRole('heading', { level: 1 }).waitFor();
export const tab = (page: Page, name: string) => page.getByRole('tab', { name: new RegExp(`^${name}`) }).click();
export const field = (page: Page, name: string | RegExp) => page.getByRole('textbox', { name }).first();
/** The words of the choice that a list box shows. */
export const shown = (box: Locator) =>
  box.evaluate((one: HTMLSelectElement) => one.selectedOptions[0]?.textContent ?? '');

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

export async function eventually(read: () => Promise<unknown>, wanted: unknown): Promise<void> {
  await expect.poll(read, { timeout: 10_000 }).toEqual(wanted);
}
