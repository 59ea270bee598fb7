import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('what is kept, flagged and thought of a lot', () => {
  let service: TestService;
  let browser: Browser;
  let decider: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    const bundle = await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'KEPT', spare: 2 }));
    decider = await service.signIn('t-ibanez');
    const reviewer = await service.signIn('a-grossmann');
    for (const { method, revision } of bundle.methods)
      await reviewer.ask('POST', `/api/people/${decider.person}/competences`, {
        body: { method, revision, level: 'authorised', until: '2099-12-31', note: 'six runs watched' },
      });
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('is said on its pages by whoever may', async () => {
    await atTheirDesk(browser, service.url, decider, '/safety-flags', async (page) => {
      await raiseFlag(page);
      await looked(page, 'safety-flags');
      await page.getByRole('link', { name: '1', exact: true }).click();
      await page.getByRole('button', { name: 'Pack lot KEPT' }).waitFor();
      await looked(page, 'safety-flag');

      await page.goto(`${service.url}/lots/KEPT`);
      await page.getByText('Cracks at the valve hole').waitFor();
      await page.getByText('Give an opinion').click();
      await page.getByLabel('Opinion', { exact: true }).fill('The break speaks for the drill.');
      await page.getByLabel('Basis', { exact: true }).fill('Six photographs.');
      await page.getByRole('button', { name: 'Give this opinion' }).click();
      await page.getByRole('heading', { name: 'Opinion 1 on lot KEPT' }).waitFor();
      await page.getByText('Say until when').click();
      await page.getByLabel('Why', { exact: true }).fill('as proposed');
      await page.getByRole('button', { name: 'Keep until these days' }).click();
      await page.getByText('Records until 14 Jul 2038, remnants until 14 Jul 2027').waitFor();
      await looked(page, 'lot-kept');

      await page.goto(`${service.url}/keeping`);
      await page.getByText('Place a legal hold').click();
      await page.getByLabel('Reference').fill('file 31/204');
      await page.getByLabel('Reason').first().fill('A rider asks.');
      await page.getByLabel('Specimens it covers').fill('KEPT-2');
      await page.getByRole('button', { name: 'Place the hold' }).click();
      await page.getByRole('heading', { name: 'Legal hold 1, in force' }).waitFor();
      await page.getByText('Ask for a disposal').click();
      await page.getByLabel('Specimens', { exact: true }).fill('KEPT-3');
      await page.getByLabel('Reason').last().fill('No room.');
      await page.getByLabel('How it is to be done').fill('cut in four');
      await page.getByRole('button', { name: 'Ask for it' }).click();
      await page.getByRole('heading', { name: 'Disposal 1, asked for' }).waitFor();
      await looked(page, 'keeping');
      await page.goto(`${service.url}/specimens/KEPT-2`);
      await page.getByText('is on legal hold 1.').waitFor();
      await looked(page, 'specimen-on-hold');
      await page.goto(`${service.url}/lots/KEPT/disposition`);
      await page.getByText('The break speaks for the drill.').waitFor();
      await page.getByText('On legal hold 1').waitFor();
      await looked(page, 'disposition-with-flag');
    });
  }, 150_000);

  async function raiseFlag(page: Page): Promise<void> {
    await page.getByText('Raise a safety flag').click();
    await page.getByLabel('What it is, in a line').fill('Cracks at the valve hole');
    await page.getByLabel('What was seen').fill('One of eight rims cracked there.');
    await page.getByLabel('Why it may endanger somebody').fill('The tyre may come off.');
    await page.getByLabel('What was done at once').fill('Shipment stopped.');
    await page.getByLabel('Lots', { exact: true }).fill('KEPT');
    await page.getByRole('button', { name: 'Raise the flag' }).click();
    await page.getByRole('link', { name: '1', exact: true }).waitFor();
  }

  async function looked(page: Page, name: string): Promise<void> {
    await expectAccessible(page);
    await picture(page, name);
  }
});
