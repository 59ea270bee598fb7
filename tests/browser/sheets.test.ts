import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import type { Browser, BrowserContextOptions } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { testDatabase } from '../database.ts';
import { startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { BUILT, expectAccessible, launchChromium, signIn, watch } from './browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = path.join(root, 'sample-runs/dunlin-42-second-lot');
const SCREENS: [string, BrowserContextOptions][] = [
  ['a wide screen, light', { viewport: { width: 1440, height: 900 }, colorScheme: 'light' }],
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
    service = await startTestService({ on: database, consoleFolder: BUILT });
    ({ passphrase } = await service.signIn('a-grossmann'));
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('were built', () => {
    expect(fs.existsSync(path.join(BUILT, 'index.html')), 'run "node apps/launch/prepare.mjs --build" first').toBe(
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
        await signIn(page, 'a-grossmann', passphrase);

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
