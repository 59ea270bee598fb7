import { type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { keepSuspects } from '../suspect-case.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const COMPARISON = 'GRAYFORD';

needs('chromium')('a suspect case', () => {
  let service: TestService;
  let browser: Browser;
  let as: Record<'designer' | 'quality' | 'operator' | 'stores' | 'head', SignedInCaller>;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepSuspects(service);
    as = {
      designer: await service.signIn('i-sorbo'),
      quality: await service.signIn('t-ibanez'),
      operator: await service.signIn('b-ravenscroft'),
      stores: await service.signIn('d-zunic'),
      head: await service.signIn('a-grossmann'),
    };
    browser = await launchChromium();
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  const desk = (who: keyof typeof as, address: string, act: (page: Page) => Promise<void>) =>
    atTheirDesk(browser, service.url, as[who], address, act);
  const looked = async (page: Page, name: string) => {
    await expectAccessible(page);
    await picture(page, `suspect-${name}`);
  };
  const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

  it('begins with a reference and a declaration, each filled in on its page', async () => {
    await desk('designer', '/choose-reference?product=dunlin-42', async (page) => {
      await page.getByLabel('Its name').fill('D42-KNOWN');
      await page.getByLabel('What it is, in a line').fill('Dunlin 42 made in June');
      await page.getByLabel('Made from').fill('2026-06-01');
      await page.getByLabel('Made to').fill('2026-06-30');
      for (const lot of ['REF-A', 'REF-B', 'REF-C']) {
        await page.getByText(new RegExp(`^Lot ${lot}, `)).click();
        await button(page, `All of lot ${lot}`).click();
      }
      await page.getByLabel('REF-A-5', { exact: false }).uncheck();
      await page.getByText('14 chosen, of 3 lots.').waitFor();
      await button(page, 'Freeze this reference').click();
      await page.getByText('One thing is to be mended').waitFor();
      expect(await page.getByLabel('How they were chosen').getAttribute('aria-invalid')).toBe('true');
      await looked(page, 'reference-refused');
      await page.getByLabel('How they were chosen').fill('Every rim of the three lots whose build records are whole.');
      await page.getByLabel('The build records were looked through').check();
      await page.getByLabel('What was looked through').fill('change notes of Dunlin 42, March to June');
      await button(page, 'Freeze this reference').click();
      await page.getByText('14 units of 3 lots, frozen').waitFor();
      await looked(page, 'reference');
      await page.getByRole('link', { name: 'Declare a comparison' }).click();

      await page.getByLabel('Name of the comparison').fill(COMPARISON);
      await page.getByLabel('What it is, in a line').fill('Two rims bought at the market of Grayford');
      await page.getByText(/^Lot MARKET, /).click();
      await button(page, 'All of lot MARKET').click();
      await page.getByText(/^Lot REF-A, /).click();
      await page.getByLabel('REF-A-5', { exact: false }).check();
      await page.getByLabel('Method').selectOption('BURST-TABLE 1');
      await page.getByLabel('Characteristic', { exact: true }).selectOption('burstPressure');
      await button(page, 'Add a feature').click();
      await page.getByLabel('How it is called').last().fill('Label on the rim');
      await page.getByLabel('Short name').last().fill('label');
      await page.getByLabel('Kind').selectOption('label text');
      await page.getByLabel('Items are examined blind').check();
      await page.getByLabel(/Ravenscroft/).check();
      await page.getByLabel('Who keeps the list of codes').selectOption('d-zunic');
      await page.getByLabel('Remnants may go to court', { exact: false }).check();
      await button(page, 'Declare this comparison').click();
      await page.getByText('things are to be mended, said beside their fields above.').waitFor();
      await looked(page, 'declare-refused');
      await page
        .getByLabel('The question')
        .fill('Do the items agree with Dunlin 42 as made in June, in burst pressure?');
      await page.getByLabel('How it is read').fill('Letter by letter, in capitals as printed.');
      await page.getByLabel('What could have been examined').fill('resin family\nfibre content');
      await button(page, 'Declare this comparison').click();
      await page.getByText('declared, rev. 1').waitFor();
      await looked(page, 'declared');
      await page.goto(`${service.url}/comparisons`);
      await page.getByRole('link', { name: COMPARISON }).waitFor();
      await looked(page, 'comparisons');
      await page.goto(`${service.url}/references`);
      await page.getByRole('link', { name: 'D42-KNOWN' }).waitFor();
      await looked(page, 'references');
      await page.goto(`${service.url}/products/dunlin-42`);
      await page.getByRole('link', { name: COMPARISON }).waitFor();
      await looked(page, 'product');
    });
  }, 240_000);
});
