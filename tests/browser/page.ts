/**
 * A real Chromium and pages in it. A worker's test files share one browser, and in it one profile and one tab for each screen
 * and look, so that the page is fetched and compiled once. Between two tests the tab leaves the page, and what the last one kept
 * in it is cleared. A page that logs an error fails the test that opened it.
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
import { afterEach, beforeAll, expect, inject } from 'vitest';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // A name that is not this machine's own: its pages are not secure.
  '--host-resolver-rules=MAP legroom.test 127.0.0.1',
];

/** The three screens that every look and test goes through. */
export const SCREENS = {
  desk: { width: 1440, height: 900 },
  tablet: { width: 1024, height: 768 },
  phone: { width: 390, height: 844 },
} as const;

const KEPT_IN = 'indexeddb,local_storage,cache_storage,service_workers';

/** For as long as the worker lives: Playwright ends it with the worker. */
let running: Promise<Browser> | undefined;
const profiles = new Map<string, BrowserContext>();
let errors: string[] = [];
let expected: RegExp | null = null;

/** Until the end of the test, errors that the page logs like this are what the test is about. */
export const expectErrors = (like: RegExp): void => {
  expected = like;
};

function chromiumOfWorker(): Promise<Browser> {
  const executablePath = process.env.CHROMIUM_PATH;
  if (!executablePath) throw new Error('CHROMIUM_PATH is not set: run the browser tests by npm test.');
  running ??= chromium.launch({ executablePath, args: FLAGS });
  return running;
}

async function profileOf(options: BrowserContextOptions): Promise<BrowserContext> {
  // The worker that keeps the page for later fetches every file of it: only the test of that needs it.
  const whole: BrowserContextOptions = {
    viewport: SCREENS.desk,
    serviceWorkers: 'block',
    reducedMotion: 'reduce',
    colorScheme: 'light',
    hasTouch: false,
    isMobile: false,
    ...options,
  };
  const key = JSON.stringify(whole);
  const known = profiles.get(key);
  if (known) return known;
  const context = await (await chromiumOfWorker()).newContext(whole);
  // The system's file pickers are no part of a page: it gets the input and the download that other browsers have.
  await context.addInitScript(() => {
    for (const picker of ['showOpenFilePicker', 'showSaveFilePicker']) Reflect.deleteProperty(window, picker);
    // What the page's policy forbids and something did all the same is an error of ours.
    document.addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI, sourceFile }) =>
      console.error(`Against the policy: ${violatedDirective}, ${blockedURI}, ${sourceFile}`),
    );
  });
  context.on('page', (page) => {
    page.on('pageerror', (error) => errors.push(String(error)));
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
  });
  profiles.set(key, context);
  return context;
}

/** The errors that a page logged so far, which a test that wants them takes. */
export const takeErrors = (): string[] => errors.splice(0);

/** Leaves the page as a closed tab would, and keeps the tab: a new one costs as much as the page in it. */
async function leave(context: BrowserContext): Promise<void> {
  const [tab, ...others] = context.pages();
  for (const other of others) await other.close();
  if (!tab) return;
  await tab.goto('about:blank');
  await tab.mouse.move(0, 0);
}

/** Call at the top of a test file. The returned function opens the page as a first visit sees it. */
export function chromiumPages(): (options?: BrowserContextOptions) => Promise<Page> {
  beforeAll(chromiumOfWorker);
  afterEach(async () => {
    for (const [key, context] of profiles) {
      if (!key.includes('"serviceWorkers":"allow"')) {
        await leave(context);
        continue;
      }
      // What a test put into a worker, or unplugged, is no other test's.
      await context.close();
      profiles.delete(key);
    }
    const seen = errors.filter((one) => !expected?.test(one));
    errors = [];
    expected = null;
    expect(seen).toEqual([]);
  });
  return async (options = {}) => {
    const context = await profileOf(options);
    // A test that asks twice for the same gets two tabs, but the first time one that stands empty.
    const page = context.pages().find((one) => one.url() === 'about:blank') ?? (await context.newPage());
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

/** Axe's rules for WCAG 2.2 A and AA, and those among them that a look of the page can break. */
const EVERY_RULE = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const RULES_OF_COLOUR = ['color-contrast', 'link-in-text-block'];

/** What axe sees on the page as it stands, or within one part: rule, place and reason of each. */
export async function violations(page: Page, within = 'html', rules = EVERY_RULE): Promise<string[]> {
  // Half-faded colours are no colours of the page.
  await page.evaluate(() =>
    Promise.all(document.getAnimations().map((animation) => animation.finished.catch(() => null))),
  );
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(
    async ([part, runOnly]) => {
      const found = await (window as unknown as { axe: typeof axe }).axe.run(part, { runOnly });
      return found.violations.flatMap(({ id, nodes }) =>
        nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary}`),
      );
    },
    [within, rules] as const,
  );
}

/** The same in both looks, for a page that was opened in the light one: in the dark one whatever has to do with colours. */
export async function violationsInBothLooks(page: Page, within = 'html'): Promise<string[]> {
  const isIn = (look: string) => page.locator(`html[data-look=${look}]`).waitFor();
  await isIn('light');
  const light = await violations(page, within);
  await page.emulateMedia({ colorScheme: 'dark' });
  await isIn('dark');
  const dark = await violations(page, within, RULES_OF_COLOUR);
  await page.emulateMedia({ colorScheme: 'light' });
  await isIn('light');
  return [...light, ...dark.map((one) => `dark: ${one}`)];
}

export async function eventually(read: () => Promise<unknown>, wanted: unknown): Promise<void> {
  await expect.poll(read, { timeout: 10_000 }).toEqual(wanted);
}
