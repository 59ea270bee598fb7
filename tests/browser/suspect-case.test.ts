import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { burstItem, keepSuspects, reviewRuns } from '../suspect-case.ts';
import { needs } from '../tools.ts';
import { aPhoto } from './a-photo.ts';
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
  }, 300_000);
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
  /** Attaches a photo of this specimen, and lets what is written down rest on it. */
  const rests = async (page: Page, specimen: string) => {
    await page.getByLabel('What a further photo shows').fill(`the label of ${specimen}`);
    await page.getByLabel('Camera or telephone').fill('bench camera');
    await page.getByLabel(`Drop a photo of ${specimen} here`).setInputFiles(aPhoto(`${specimen}.png`));
    await page.getByLabel(`the label of ${specimen}`).check();
  };

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

  it('is approved by another person, and its custody and codes are written down', async () => {
    await desk('quality', `/comparisons/${COMPARISON}`, async (page) => {
      await button(page, 'Approve rev. 1').click();
      await page.getByText('approved, rev. 1').waitFor();
    });
    await desk('stores', '/specimens/MARKET-1', async (page) => {
      await page.getByText('Write a step down').click();
      await page.getByLabel('From whom').fill('Amrei Lund, who bought it');
      await page.getByLabel('Who has it after').fill('d-zunic');
      await page.getByLabel('Where', { exact: true }).fill('gate');
      await page.getByLabel('Seal').fill('4711');
      await page.getByLabel('In what condition').fill('whole, in its taped box');
      await button(page, 'Write this step down').click();
      await page.getByRole('table', { name: 'Custody of MARKET-1' }).waitFor();
      await looked(page, 'specimen-with-custody');

      await page.goto(`${service.url}/comparisons/${COMPARISON}`);
      await page.getByText('Keep the list', { exact: true }).click();
      for (const item of ['MARKET-1', 'MARKET-2'])
        await page.getByLabel(`What ${item} is`).fill('from the second stall');
      await page.getByLabel('What REF-A-5 is').fill('of lot REF-A, put among them');
      await button(page, 'Keep this list').click();
      await page.getByRole('table', { name: 'List kept' }).waitFor();
      await page.getByText('Record a consent or notice').click();
      await page.getByLabel('Who agreed, or was told').fill('insurer of the rider');
      await page.getByLabel('About what').fill('Both rims are burst.');
      await button(page, 'Record this consent').click();
      await page.getByRole('cell', { name: 'insurer of the rider' }).waitFor();
    });
  }, 180_000);

  it('is examined by somebody to whom no page tells which item is which', async () => {
    await desk('operator', '/specimens/MARKET-1', async (page) => {
      await page.getByText('You examine this blind.').waitFor();
      expect(await page.locator('main').textContent()).not.toMatch(/suspect|S-MARKET|Lund|second stall/);
      await looked(page, 'specimen-blind');

      await page.goto(`${service.url}/comparisons/${COMPARISON}`);
      await page.getByText('Write down what is seen').click();
      await page.getByLabel('What is seen, letter by letter').fill('DUNLIN 24');
      await page.getByLabel('Found by').selectOption('outside provider');
      await button(page, 'Write it down').click();
      await page.getByText('Nothing is filled in here.').or(page.getByText('needs the name')).first().waitFor();
      await page.getByLabel('Who that is').fill('Harbour Materials Laboratory');
      await rests(page, 'MARKET-1');
      await button(page, 'Write it down').click();
      await page.getByText('not found by this lab').waitFor();
      await page.getByLabel('Specimen', { exact: true }).selectOption('REF-A-1');
      await page.getByLabel('What is seen, letter by letter').fill('DUNLIN 42');
      await rests(page, 'REF-A-1');
      await button(page, 'Write it down').click();
      // One beside the other, the reference at the left, each a small copy that leads to what came.
      const photo = (specimen: string) => page.getByRole('img', { name: `label of ${specimen}, attachment` });
      const [left, right] = [await photo('REF-A-1').boundingBox(), await photo('MARKET-1').boundingBox()];
      expect(left?.x).toBeLessThan(right?.x ?? 0);
      expect(await page.locator('main').textContent()).not.toMatch(/Lund|second stall/);
      await looked(page, 'comparison-blind');
    });
    const seen = (specimen: string, label: string) =>
      as.operator.ask('POST', `/api/comparisons/${COMPARISON}/observations`, {
        body: { specimen, feature: 'label', seen: label, at: new Date().toISOString() },
      });
    for (const specimen of ['REF-A-5', 'REF-B-1', 'REF-C-1'])
      expect((await seen(specimen, 'DUNLIN 42')).status).toBe(201);
    for (const [specimen, kPa] of [
      ['MARKET-1', 1210],
      ['MARKET-2', 1180],
      ['REF-A-5', 1915],
    ] as const)
      await burstItem(as, specimen, kPa);
  }, 240_000);

  it('comes to a result, is locked over what was shown, and only then opens', async () => {
    await desk('quality', `/comparisons/${COMPARISON}`, async (page) => {
      await button(page, 'Work out the result').click();
      await page.getByText('not locked yet, so nothing is concluded').waitFor({ timeout: 120_000 });
      await page.getByRole('heading', { name: 'Do they agree in burst pressure?' }).waitFor();
      await page.getByText('Every value', { exact: true }).click();
      await looked(page, 'result');
      await page.getByLabel('Note beside them').fill('MARKET-1 is a fake.');
      await button(page, 'Lock these conclusions').click();
      await page.getByText('is not for a lab to say').first().waitFor();
      await page.getByLabel('Note beside them').fill('');
      await button(page, 'Lock these conclusions').click();
      await page.getByText('concluded, rev. 1').waitFor();
      await looked(page, 'concluded');
    });
    await desk('operator', '/specimens/MARKET-1', async (page) => {
      await page.getByText('Amrei Lund, who bought it').waitFor();
      expect(await page.locator('main').textContent()).toMatch(/suspect/);
      await page.goto(`${service.url}/comparisons/${COMPARISON}`);
      await page.getByText('Known to everybody since conclusions were locked.').waitFor();
    });
  }, 300_000);

  it('is reported, and the report is authorised and signed once its runs are reviewed', async () => {
    await reviewRuns(as.head, COMPARISON);
    await desk('head', `/comparisons/${COMPARISON}`, async (page) => {
      await button(page, 'Make the comparison report').click();
      await page.getByRole('link', { name: 'an unsigned draft' }).click({ timeout: 120_000 });
      await button(page, 'Authorise and sign').click();
      await page.getByText('A draft: nobody has authorised it.').waitFor({ state: 'detached', timeout: 120_000 });
      await page.getByRole('link', { name: COMPARISON }).click();
      await page.getByRole('link', { name: 'signed by the lab' }).waitFor();
    });
  }, 300_000);
});
