import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { lotWithoutRuns, sendBurst, specimenKey } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { aPhoto } from './a-photo.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const DROP = 'Drop it here, or choose it: photo (PNG, JPEG), video (MP4, MOV) or PDF';

needs('chromium')('photos that a failure mode asks for', () => {
  let service: TestService;
  let browser: Browser;
  let operator: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    const bundle = lotWithoutRuns();
    const methods = bundle.methods.map((method) => ({
      ...method,
      failureModes: method.failureModes.map((mode) =>
        mode.code === 'BF-FLG' ? { ...mode, photos: [{ of: 'origin of the fracture', least: 1 }] } : mode,
      ),
    }));
    const specimens = bundle.specimens.slice(0, 1).map((one) => ({ ...one, specimen: specimenKey(1) }));
    await importLot(service.records, new PostgresRawStore(), { ...bundle, methods, specimens }, () => []);
    operator = await service.signIn('b-ravenscroft');
    await sendBurst(operator, specimenKey(1));
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('are listed as missing, and attached on the page of the run', async () => {
    await atTheirDesk(
      browser,
      service.url,
      operator,
      `/lots/D42-PP1/runs/run-${specimenKey(1)}`,
      async (page) => {
        const asked = page.getByRole('table', { name: 'Photos that the failure mode asks for' });
        await asked.waitFor();
        expect(await asked.textContent()).toContain('missing');
        await page.getByText('Photos that the failure mode asks for are missing: origin of the fracture.').waitFor();
        await page.getByText('Say why a photo was not taken').click();
        await page.getByText('Attach a photo, video or PDF').click();
        await expectAccessible(page);
        await picture(page, 'photos-missing');
        await page.getByLabel(DROP).setInputFiles(aPhoto('origin.png'));
        await page.getByLabel('What it shows').fill('Flange at 120° from the valve');
        await page.getByLabel('Camera or telephone').fill('bench camera');
        await page.getByRole('button', { name: 'Attach this photo' }).click();
        await page.getByRole('img', { name: 'Flange at 120° from the valve' }).waitFor();
        await asked.getByText('there', { exact: true }).waitFor();
        await expectAccessible(page);
      },
      { width: 390, height: 844 },
    );
  }, 120_000);
});
