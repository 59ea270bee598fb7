import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { expect } from 'vitest';
import { codeFor, type SignedInCaller } from '../service.ts';
import { toolPath } from '../tools.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Where the built pages lie. */
export const BUILT = path.join(root, 'apps/console/dist');

/** The source of axe, which the console brings. */
const { source: AXE } = createRequire(path.join(root, 'apps/console/package.json'))('axe-core') as { source: string };

/** Nothing is fetched from elsewhere by the browser itself. */
const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** One for all files that share this process: a start takes seconds, and a context has nothing of another's. */
let running: Promise<Browser> | undefined;

/**
 * The browser, of which closing ends what was opened through it. Chromium itself ends with the process, when the pipe
 * by which it is led is closed.
 */
export async function launchChromium(): Promise<Browser> {
  running ??= chromium.launch({ executablePath: toolPath('chromium'), args: QUIET });
  const browser = await running;
  const opened: BrowserContext[] = [];
  const newContext: Browser['newContext'] = async (options) => {
    const context = await browser.newContext(options);
    opened.push(context);
    return context;
  };
  const close = async () => {
    await Promise.all(opened.map((context) => context.close()));
  };
  return new Proxy(browser, {
    get: (whole, name) =>
      name === 'newContext' ? newContext : name === 'close' ? close : Reflect.get(whole, name, whole),
  });
}

/** Signs somebody in on the page, with a code where one is asked for. */
export async function signIn(page: Page, person: string, passphrase: string): Promise<void> {
  await page.getByLabel('Name to sign in with').fill(person);
  await page.getByLabel('Passphrase', { exact: true }).fill(passphrase);
  await page.keyboard.press('Enter');
  await page.getByLabel('Name to sign in with').waitFor({ state: 'detached' });
  if ((await page.getByLabel('Code', { exact: true }).count()) === 0) return;
  await page.getByLabel('Code', { exact: true }).fill(await codeFor(page.url(), person));
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Second factor' }).waitFor({ state: 'detached' });
}

/**
 * The same without the page: by the two requests that it makes. A context keeps what they are answered as it keeps what
 * pages are answered, and a start of the console is spared each desk.
 */
export async function signInBeforehand(
  context: BrowserContext,
  url: string,
  { person, passphrase }: Pick<SignedInCaller, 'person' | 'passphrase'>,
): Promise<void> {
  const answer = await context.request.post(`${url}/api/sign-in`, { data: { person, passphrase } });
  if (!answer.ok()) throw new Error(`${person} could not sign in: ${await answer.text()}`);
  const { secondFactorNeeded, secondFactor } = await answer.json();
  if (secondFactorNeeded === 'nothing' && secondFactor !== 'owed') return;
  const code = await context.request.post(`${url}/api/me/second-factor`, {
    data: { code: await codeFor(url, person) },
  });
  if (!code.ok()) throw new Error(`${person} could not give a code: ${await code.text()}`);
}

/** What a person does on a page at this address of the service, signed in; nothing may go wrong beside it. */
export async function atTheirDesk(
  browser: Browser,
  url: string,
  caller: Pick<SignedInCaller, 'person' | 'passphrase'>,
  address: string,
  act: (page: Page) => Promise<void>,
  viewport = { width: 1440, height: 900 },
): Promise<void> {
  const context = await browser.newContext({ viewport });
  try {
    const page = await context.newPage();
    const wrong = watch(page, url);
    await signInBeforehand(context, url, caller);
    await page.goto(`${url}${address}`);
    // What is looked at first may be the page as a whole, which is there with its heading.
    await page.getByRole('heading', { level: 1 }).waitFor();
    await act(page);
    expect(wrong).toEqual([]);
  } finally {
    await context.close();
  }
}

/** Pictures of a page, wide and narrow, light and dark, in the folder that BREAKBOOK_PICTURES names, if any. */
export async function picture(page: Page, name: string): Promise<void> {
  const folder = process.env.BREAKBOOK_PICTURES;
  if (folder === undefined) return;
  fs.mkdirSync(folder, { recursive: true });
  const before = page.viewportSize();
  const scrolled = await page.evaluate<number>('scrollY');
  for (const width of [1440, 390])
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      await page.evaluate('scrollTo(0, 0)');
      await page.screenshot({ path: path.join(folder, `${name}-${width}-${colorScheme}.png`), fullPage: true });
    }
  await page.emulateMedia({ colorScheme: null });
  if (before) await page.setViewportSize(before);
  await page.evaluate(`scrollTo(0, ${scrolled})`);
}

/** Collects what must not happen: errors, refusals by the content security policy, requests that leave the service. */
export function watch(page: Page, url: string): string[] {
  const wrong: string[] = [];
  page.on('pageerror', (error) => wrong.push(error.message));
  page.on('console', (message) => {
    // A refusal is an answer, shown on the page, and browsers note it as a failed load besides. Of notes that do not name
    // whoever is signed in the service says that they are not there.
    if (message.type() !== 'error' || /status of (401|409|412|422)/.test(message.text())) return;
    if (/status of 404/.test(message.text()) && message.location().url.endsWith('/protected-notes')) return;
    wrong.push(message.text());
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(url)) wrong.push(`asked for ${request.url()}`);
  });
  return wrong;
}

/** No finding of axe, and nothing that makes the whole page scroll sideways. */
export async function expectAccessible(page: Page): Promise<void> {
  if (await page.evaluate<boolean>("typeof axe === 'undefined'")) await page.evaluate(AXE);
  // All rules are tried; what they find in order is not written out in full, which takes as long as trying them.
  const violations = await page.evaluate<string[]>(`
    axe.run(document, { resultTypes: ['violations'] }).then(({ violations }) =>
      violations.map(({ id, nodes }) => id + ': ' + nodes[0]?.html))`);
  expect(violations).toEqual([]);
  const beyond = await page.evaluate('document.documentElement.scrollWidth - window.innerWidth');
  expect(beyond).toBeLessThanOrEqual(0);
}
