import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const LOT = 'COMPLETE';

needs('chromium')('what other people allow, and whose values they are', () => {
  let service: TestService;
  let browser: Browser;
  let operator: SignedInCaller;
  let reviewer: SignedInCaller;
  let warden: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    const bundle = keyedLot([{ kPa: 1900, validity: VALID }], { lot: LOT, planned: 1, spare: 2 });
    const [run] = bundle.runs;
    if (!run) throw new Error('The keyed lot has no run.');
    const measurements = run.measurements.map((one, index) =>
      index === 0 ? { ...one, givenBy: 'customer' as const } : one,
    );
    await keepKeyedLot(service, { ...bundle, runs: [{ ...run, measurements }] });
    operator = await service.signIn('b-ravenscroft');
    reviewer = await service.signIn('a-grossmann');
    warden = await service.signIn('warden', ['administer']);
    const asked = await reviewer.ask('POST', `/api/lots/${LOT}/evaluations`);
    await (await reviewer.fetch(`${asked.headers.get('location')}/events`)).text();
    browser = await launchChromium();
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  const as = (caller: SignedInCaller, path: string, act: (page: Page) => Promise<void>) =>
    atTheirDesk(browser, service.url, caller, path, act);

  it('a retest is authorised on the lot’s sheet by somebody who recorded nothing of it', async () => {
    await as(reviewer, `/lots/${LOT}`, async (page) => {
      await page.getByText('Authorise a retest').click();
      await page.getByLabel('Ground').selectOption('assignable cause found');
      await page.getByLabel('Reason, as it is printed').fill('The seal was found cracked.');
      await expectAccessible(page);
      await picture(page, 'retest-form');
      await page.getByRole('button', { name: 'Authorise this retest' }).click();
      const table = page.getByRole('table', { name: 'Retests, used or not' });
      await table.getByText('not used yet').waitFor();
      expect(await table.textContent()).toContain('assignable cause found');
      await expectAccessible(page);
      await picture(page, 'retest-authorised');
    });
    await as(operator, `/lots/${LOT}`, async (page) => {
      await page.getByText('not used yet').waitFor();
      expect(await page.getByText('Authorise a retest').count()).toBe(0);
    });
  }, 90_000);

  it('a competence is recorded and ended on the person’s sheet, never on one’s own', async () => {
    await as(reviewer, '/people', async (page) => {
      await picture(page, 'people');
      await expectAccessible(page);
      await page
        .getByRole('link', { name: /Ravenscroft/ })
        .first()
        .click();
      await page.getByText('Nothing is recorded, so every run of theirs is flagged.').waitFor();
      await page.getByText('Record or end a competence').click();
      await page.getByLabel('Method, in its last revision').selectOption({ index: 1 });
      await page.getByLabel('Until and with').fill('2099-12-31');
      await page.getByLabel('What it rests on').fill('Three runs observed.');
      await expectAccessible(page);
      await picture(page, 'competence-form');
      await page.getByRole('button', { name: 'Record it' }).click();
      await page.getByText('authorised until 31 Dec 2099', { exact: true }).waitFor();
      await page.getByLabel('They are').selectOption('withdrawn');
      await page.getByLabel('What it rests on').fill('On leave for a year.');
      await page.getByRole('button', { name: 'Record it' }).click();
      await page.getByText('authorised until 31 Dec 2099, replaced by a later word').waitFor();
      await expectAccessible(page);
      await picture(page, 'competence');
      await page.goto(`${service.url}/people/a-grossmann`);
      await page.getByText('Nothing is recorded').waitFor();
      expect(await page.getByText('Record or end a competence').count()).toBe(0);
    });
  }, 90_000);

  it('a name outside is linked and ended by an administrator', async () => {
    await as(warden, '/people/b-ravenscroft', async (page) => {
      await page.getByText('Link to a name outside').click();
      await page.getByLabel('Provider, by its address').fill('https://id.saltmarsh.example');
      await page.getByLabel('What it calls them').fill('u-0417');
      await page.getByLabel('Reason').fill('moved to the house’s sign-in');
      await expectAccessible(page);
      await picture(page, 'outside-identity-form');
      await page.getByRole('button', { name: 'Link b-ravenscroft' }).click();
      await page.getByText('u-0417').waitFor();
      await page.getByText('End the link', { exact: true }).click();
      await expectAccessible(page);
      await picture(page, 'outside-identity');
      await page.getByLabel('Reason').fill('left the house');
      await page.getByRole('button', { name: 'End the link of b-ravenscroft' }).click();
      await page.getByText('By none: they sign in with their passphrase.').waitFor();
    });
  }, 90_000);

  it('a value that the customer gave is said so in the log, and marked on the run', async () => {
    operator = await service.signIn('b-ravenscroft');
    await as(operator, '/log', async (page) => {
      await page.getByRole('button', { name: 'Add a measurement' }).click();
      const whose = page.getByLabel('Whose value');
      expect(await whose.locator('option').allTextContents()).toEqual([
        'measured by this lab',
        'given by the customer',
        'given by an outside provider',
      ]);
      await whose.selectOption('customer');
      await expectAccessible(page);
      await picture(page, 'given-by-form');
      await page.goto(`${service.url}/lots/${LOT}/runs/${LOT}-r1`);
      await page.getByText('given by the customer, not measured by this lab').waitFor();
      await expectAccessible(page);
      await picture(page, 'given-by-run');
    });
  }, 90_000);
});
