import fs from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { testDatabase } from '../database.ts';
import { startTestService, type TestService } from '../service.ts';
import { needs, toolPath } from '../tools.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const built = path.join(root, 'apps/console/dist');
const folder = path.join(root, 'sample-runs/dunlin-42-second-lot');
/** The console brings it; its types would drag the whole of playwright in. */
const { AxeBuilder } = createRequire(path.join(root, 'apps/console/package.json'))('@axe-core/playwright') as {
  AxeBuilder: new (given: {
    page: Page;
  }) => { analyze(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
};

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

const SCREENS: [string, BrowserContextOptions][] = [
  ['a wide screen, light', { viewport: { width: 1440, height: 900 }, colorScheme: 'light' }],
  ['a wide screen, dark', { viewport: { width: 1440, height: 900 }, colorScheme: 'dark' }],
  ['a telephone, light', { viewport: { width: 390, height: 844 }, colorScheme: 'light', hasTouch: true }],
  ['a telephone, dark', { viewport: { width: 390, height: 844 }, colorScheme: 'dark', hasTouch: true }],
];

needs('chromium')('the pages in a browser', () => {
  let service: TestService;
  let browser: Browser;
  let passphrase: string;

  beforeAll(async () => {
    const database = await testDatabase();
    const documents = LOT_FOLDER_DOCUMENTS.map((name) => [name, fs.readFileSync(path.join(folder, name))] as const);
    const bundle = readLotFolder(new Map(documents));
    await importLot(database.records, new PostgresRawStore(), bundle, (run) =>
      (bundle.runs.find((one) => one.run === run)?.files ?? []).map(({ name }) => ({
        name,
        bytes: fs.readFileSync(path.join(folder, name)),
      })),
    );
    service = await startTestService({ on: database, consoleFolder: built });
    ({ passphrase } = await service.signIn('a-grossmann'));
    browser = await chromium.launch({ executablePath: toolPath('chromium'), args: QUIET });
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('were built', () => {
    expect(fs.existsSync(path.join(built, 'index.html')), 'run "node apps/launch/prepare.mjs --build" first').toBe(
      true,
    );
  });

  it.each(SCREENS)(
    'take a person from signing in to a lot and one of its runs: %s',
    async (_, screen) => {
      const context = await browser.newContext(screen);
      try {
        const page = await context.newPage();
        const wrong = watch(page, service.url);
        await page.goto(`${service.url}/lots/D42-P02`);
        await page.getByLabel('Passphrase').waitFor();
        await expectAccessible(page);
        await page.getByLabel('Name to sign in with').fill('a-grossmann');
        await page.getByLabel('Passphrase').fill(passphrase);
        await page.keyboard.press('Enter');

        await page.getByRole('heading', { level: 1, name: 'Lot D42-P02' }).waitFor();
        expect(await page.locator('.standing').textContent()).toBe('does not meet the plan');
        await expectAccessible(page);

        // "/" and a scanner's line end lead anywhere.
        await page.keyboard.press('/');
        await page.keyboard.type('433\n');
        await page.getByRole('heading', { level: 1, name: 'specimen 433' }).waitFor();
        await page.locator('.figure svg').first().waitFor();
        await expectAccessible(page);

        await page.goto(`${service.url}/`);
        await page.getByRole('heading', { level: 1, name: 'Lots' }).waitFor();
        await page.locator('.figure svg').first().waitFor();
        await expectAccessible(page);
        expect(wrong).toEqual([]);
      } finally {
        await context.close();
      }
    },
    120_000,
  );
});

/** Collects what must not happen: errors, refusals by the content security policy, requests that leave the service. */
function watch(page: Page, url: string): string[] {
  const wrong: string[] = [];
  page.on('pageerror', (error) => wrong.push(error.message));
  page.on('console', (message) => {
    // That nobody is signed in yet is an answer, and browsers note it as a failed load.
    if (message.type() === 'error' && !message.text().includes('401')) wrong.push(message.text());
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(url)) wrong.push(`asked for ${request.url()}`);
  });
  return wrong;
}

/** No finding of axe, and nothing that makes the whole page scroll sideways. */
async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  const beyond = await page.evaluate('document.documentElement.scrollWidth - window.innerWidth');
  expect(beyond).toBeLessThanOrEqual(0);
}
