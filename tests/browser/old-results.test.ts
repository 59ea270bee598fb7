import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const SAMPLE = fileURLToPath(new URL('../../sample-runs/old-results/workshop-book.csv', import.meta.url));

needs('chromium')('a table of old results', () => {
  let service: TestService;
  let browser: Browser;
  let operator: SignedInCaller;
  let reviewer: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'D42-PP1' }));
    operator = await service.signIn('b-ravenscroft');
    reviewer = await service.signIn('a-grossmann');
    browser = await launchChromium();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  const as = (caller: SignedInCaller, path: string, act: (page: Page) => Promise<void>) =>
    atTheirDesk(browser, service.url, caller, path, act);

  it('is dropped, shown as it would be stored, mended, and taken over; it stands marked beside lot and product', async () => {
    await as(operator, '/old-results', async (page) => {
      await page.getByText('No table was taken over yet.').waitFor();
      await page.getByText('Take over a table').click();
      const drop = page.getByLabel('Drop the table here, or choose it: CSV, one result a row');
      const text = fs.readFileSync(SAMPLE, 'utf8');
      const wrong = text.replace(',18.4,', ',"18,4",').replace('bar,at least', 'psig,at least');
      await drop.setInputFiles({ name: 'book.csv', mimeType: 'text/csv', buffer: Buffer.from(wrong) });
      await page.getByText(/book.csv, line 2, column 8 \(value\)/).waitFor();
      await page.getByText(/book.csv, line 4, column 6 \(unit\)/).waitFor();
      await expectAccessible(page);
      await picture(page, 'old-results-wrong');
      await drop.setInputFiles(SAMPLE);
      await page.getByText('This would be stored: 5 results').waitFor();
      await expectAccessible(page);
      await picture(page, 'old-results-trial');
      await page.getByLabel('Where the table comes from').fill('Workshop book 2, copied out by hand');
      await page.getByRole('button', { name: 'Take over these 5 results' }).click();
      await page.getByText('told by a table, no raw file, not recomputable').waitFor();
      await expectAccessible(page);
      await picture(page, 'old-results-table');
      expect(await page.getByText('Withdraw it').count()).toBe(0);
      await page.getByRole('link', { name: 'D42-PP1' }).click();
      await page.getByRole('table', { name: 'Old results, as told' }).waitFor();
      await expectAccessible(page);
      await picture(page, 'old-results-lot');
      await page.goto(`${service.url}/products/dunlin-42`);
      const rows = page.getByRole('table', { name: 'Old results, as told' }).getByRole('row');
      await rows.last().waitFor();
      expect(await rows.count()).toBe(6);
      await expectAccessible(page);
      await picture(page, 'product');
    });
  }, 90_000);

  it('is withdrawn by another person', async () => {
    await as(reviewer, '/old-results/1', async (page) => {
      await page.getByText('Withdraw it').click();
      await page.getByLabel('Reason').fill('the book is of another rim');
      await page.getByRole('button', { name: 'Withdraw table 1' }).click();
      await page.getByText(/It was withdrawn on/).waitFor();
      await expectAccessible(page);
      await picture(page, 'old-results-withdrawn');
      const told = page.waitForResponse((response) => response.url().includes('/api/products/dunlin-42/old-results'));
      await page.goto(`${service.url}/products/dunlin-42`);
      expect((await (await told).json()).items).toEqual([]);
      await page.getByText('Marked pressure').waitFor();
      expect(await page.getByRole('table', { name: 'Old results, as told' }).count()).toBe(0);
    });
  }, 60_000);
});
