import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepLot, sendBurst, specimenKey } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('a moment of a record, moved by a person', () => {
  let service: TestService;
  let browser: Browser;
  let operator: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepLot(service.records, 2);
    operator = await service.signIn('b-ravenscroft');
    await sendBurst(operator, specimenKey(1));
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('is taken from the trace, kept with its reason, and shown with both numbers', async () => {
    await atTheirDesk(browser, service.url, operator, `/lots/D42-PP1/runs/run-${specimenKey(1)}`, async (page) => {
      await page.getByText('Look closer, down to single samples').click();
      await page.getByText(/^2.600 samples from/).waitFor();
      await page.getByText('Confirm a moment, or put it elsewhere').click();
      await page.getByText('The checks propose 12.5 s (burst).').waitFor();
      await expectAccessible(page);

      // A press at three quarters of the picture lies at about three quarters of the 13 seconds.
      const trace = page.locator('.trace-zoom .figure svg');
      const box = await trace.boundingBox();
      if (!box) throw new Error('the trace is drawn');
      await trace.click({ position: { x: 0.75 * box.width, y: 0.5 * box.height } });
      const at = page.getByLabel('failure, at so many seconds on the clock of the record');
      expect(Math.abs(Number(await at.inputValue()) - 9.75)).toBeLessThan(0.6);

      // Ten seconds are 16 bar on the made ramp.
      await at.fill('10');
      expect(await page.getByRole('button', { name: 'Keep this moment' }).isDisabled()).toBe(true);
      await page.getByLabel('Reason').fill('A crack is heard on the video at this moment.');
      await picture(page, 'moment-asked');
      await page.getByRole('button', { name: 'Keep this moment' }).click();
      const changed = page.getByRole('table', { name: 'What the moved moments changed' });
      await changed.waitFor();
      const row = changed.getByRole('row').filter({ hasText: 'Burst pressure' }).first();
      expect(await row.textContent()).toMatch(/2.0\d\d.*kPa.*1.[56]\d\d.*kPa/);
      await page.getByText('A person put it at 10 s (burst).').waitFor({ state: 'attached' });
      await expectAccessible(page);
      await picture(page, 'moment-moved');
    });
  }, 120_000);
});
