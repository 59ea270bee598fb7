import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const LOT = 'SHEETS';
const RUNS = 5;

needs('chromium')('sheets of runs and specimens', () => {
  let service: TestService;
  let browser: Browser;
  let head: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepKeyedLot(
      service,
      keyedLot(
        Array.from({ length: RUNS }, (_, n) => ({ kPa: 1900 + 7 * n, validity: VALID })),
        { lot: LOT },
      ),
    );
    head = await service.signIn('a-grossmann');
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it.each([1440, 390])(
    'are made all at once on the page of their lot, and one by one on their own: %i px',
    async (width) => {
      await atTheirDesk(
        browser,
        service.url,
        head,
        `/lots/${LOT}`,
        async (page) => {
          const kind = width === 1440 ? 'run sheets' : 'specimen records';
          await page.getByRole('radio', { name: `all ${kind}` }).check();
          await page.getByRole('button', { name: `Make all ${kind}` }).click();
          const row = page.getByRole('row', { name: new RegExp(`All ${kind}.*${RUNS} of ${RUNS}, complete`) });
          await row.waitFor({ timeout: 90_000 });
          await expectAccessible(page);
          await picture(page, `all-sheets-${width}`);
          const zip = row.getByRole('link', { name: /^Zip of batch/ });
          const [download] = await Promise.all([page.waitForEvent('download'), zip.click()]);
          expect(download.suggestedFilename()).toMatch(/^(run-sheets|specimen-records)-\d\.zip$/);

          const [address, button, link] =
            width === 1440
              ? [`/lots/${LOT}/runs/${LOT}-r1`, 'Make the run sheet', /^Run sheet, document \d+/]
              : [`/specimens/${LOT}-1`, 'Make the specimen record', /^Specimen record, document \d+/];
          await page.goto(`${service.url}${address}`);
          await page.getByRole('link', { name: link }).waitFor();
          const before = await page.getByRole('link', { name: link }).textContent();
          await page.getByRole('button', { name: button }).click();
          await expect
            .poll(() => page.getByRole('link', { name: link }).textContent(), { timeout: 60_000 })
            .not.toBe(before);
          await expectAccessible(page);
          await picture(page, `one-sheet-${width}`);
        },
        { width, height: 900 },
      );
    },
    300_000,
  );
});
