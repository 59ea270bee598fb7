import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { draftReport, fileOf, reviewKeyedLot } from '../signed-report.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const LOT = 'PAPERS';

needs('chromium')('what the lab signs', () => {
  let service: TestService;
  let browser: Browser;
  let issuer: SignedInCaller;
  let draft: number;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepKeyedLot(
      service,
      keyedLot(
        [1900, 1950, 2010].map((kPa) => ({ kPa, validity: VALID })),
        { lot: LOT },
      ),
    );
    const reviewer = await service.signIn('a-grossmann');
    const decider = await service.signIn('t-ibanez');
    issuer = await service.signIn('issuer', ['issue']);
    await reviewKeyedLot(reviewer, LOT, 3);
    draft = await draftReport(reviewer, issuer, LOT);
    const { sha256: shown } = (await decider.ask('GET', `/api/lots/${LOT}/disposition`)).body;
    const body = { outcome: 'accepted', reason: 'as the sheet says', shown };
    expect((await decider.ask('POST', `/api/lots/${LOT}/dispositions`, { body })).status).toBe(201);
    browser = await launchChromium();
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  /** What somebody does who has signed in elsewhere. */
  async function as(caller: SignedInCaller, address: string, work: (page: Page) => Promise<void>): Promise<void> {
    await atTheirDesk(browser, service.url, caller, address, work);
  }

  it('is authorised, certified, held, noted as sent, checked by whoever has a file, and ends with its keys', async () => {
    await as(issuer, `/documents?lot=${LOT}`, async (page) => {
      await page.getByRole('link', { name: `Document ${draft}`, exact: true }).waitFor();
      await looked(page, 'documents');
      await page.getByRole('link', { name: `Document ${draft}`, exact: true }).click();
      await page.getByText('A draft: nobody has authorised it.').waitFor();
      await looked(page, 'document-draft');
      await page.getByRole('button', { name: 'Authorise and sign' }).click();
      await page.getByText('nothing with this draft.').waitFor({ timeout: 60_000 });

      await page.goto(`${service.url}/lots/${LOT}/disposition`);
      await page.getByText('resting on document').waitFor();
      await looked(page, 'disposition-to-certify');
      await page.getByRole('button', { name: 'Issue a certificate' }).click();
      await page.getByRole('heading', { level: 1, name: 'Certificate of test CT-1' }).waitFor({ timeout: 60_000 });
      await page.getByRole('radio', { name: /^Put it on hold/ }).check();
      await page.getByLabel('Reason').fill('a rim of the lot came back cracked');
      await page.getByRole('button', { name: 'Put CT-1 on hold' }).click();
      await page.getByText('does not stand by it for now.').waitFor();
      await page.getByText('Note a sending').click();
      await page.getByLabel('Who was sent it, or told of it').fill('Saltmarsh Wheelworks, design office');
      await page.getByLabel('In which way').fill('by mail');
      await page.getByRole('button', { name: 'Note this sending' }).click();
      await page.getByRole('cell', { name: 'by mail' }).waitFor();
      await looked(page, 'certificate-on-hold');
      await page.goto(`${service.url}/certificates`);
      await page.getByRole('cell', { name: 'on hold' }).waitFor();
      await looked(page, 'certificates');
      await page.goto(`${service.url}/lots/${LOT}`);
      await page.getByText(`Documents of lot ${LOT}, newest first`).waitFor();
      await picture(page, 'lot-with-papers');
    });

    const [report, certificate] = [draft + 1, draft + 2];
    const auditor = await service.signIn('auditor', ['audit']);
    await as(auditor, '/documents', async (page) => {
      await page.getByRole('link', { name: 'Check a document' }).click();
      await check(page, 'certificate.pdf', await fileOf(issuer, certificate));
      await page.getByText('It is what this lab signed, and is on hold').waitFor({ timeout: 60_000 });
      await check(page, 'report.pdf', await fileOf(issuer, report));
      await page.getByText('It is what this lab signed', { exact: true }).waitFor({ timeout: 60_000 });
      await page.getByText(/^\d+ numbers: each identical, to its last bit\.$/).waitFor();
      expect(await page.getByText('yes', { exact: true }).count()).toBe(6);
      await looked(page, 'document-checked');
      const altered = new Uint8Array(await fileOf(issuer, report));
      altered[altered.length >> 1] = (altered[altered.length >> 1] ?? 0) ^ 1;
      await check(page, 'altered.pdf', altered);
      await page.getByText('It was altered since it was signed').waitFor({ timeout: 60_000 });
      await picture(page, 'document-altered');
      // Whoever has not the duty sees how things stand, and none of the acts.
      await page.goto(`${service.url}/certificates/1`);
      await page.getByText('by mail').waitFor();
      expect(await page.getByRole('button', { name: /hold|Release|Withdraw|Note/ }).count()).toBe(0);
    });

    await as(issuer, `/lots/${LOT}/disposition`, async (page) => {
      await page.getByText('It takes the place of CT-1, which is on hold').waitFor();
      await said(page, 'the name of the product', 'it was misspelt');
      await page.getByRole('button', { name: 'Issue a certificate' }).click();
      await page.getByRole('heading', { level: 1, name: 'Certificate of test CT-2' }).waitFor({ timeout: 60_000 });
      await page.getByRole('link', { name: 'CT-1' }).click();
      await page.getByText('Another certificate has taken its place. Reason: it was misspelt').waitFor();
      await page.getByText('Not noted as told that it is superseded now: Saltmarsh Wheelworks').waitFor();
      expect(await page.getByRole('heading', { name: 'Does the lab stand by it?' }).count()).toBe(0);
      await looked(page, 'certificate-superseded');
      // Of the evaluation before: signed after the other it would replace it, which the service is told in words.
      await page.goto(`${service.url}/documents/${draft - 1}`);
      await page.getByText(`It replaces document ${report}, which is signed.`).waitFor();
      await said(page, 'the evaluation it is of', 'the first one is asked for');
      await looked(page, 'document-to-replace');
      await page.getByRole('button', { name: 'Authorise and sign' }).click();
      await page.getByText('nothing with this draft.').waitFor({ timeout: 60_000 });
    });

    await as(await service.signIn('office', ['administer']), '/documents/keys', async (page) => {
      await page.getByLabel('Why a new pair').fill('a year is over');
      await page.getByRole('button', { name: 'Make a new pair' }).click();
      await page.getByText('retired; what it signed holds').waitFor();
      await page.getByLabel('Pair', { exact: true }).selectOption('1');
      await page.getByLabel('Why it is not to be believed').fill('a copy of it was found');
      await page.getByRole('button', { name: 'Revoke pair 1' }).click();
      await page.getByText('a copy of it was found').waitFor();
      await looked(page, 'signing-keys');
      await page.goto(`${service.url}/documents/check`);
      await check(page, 'report.pdf', await fileOf(issuer, report));
      await page.getByText('It is not signed with a key that this lab stands by').waitFor({ timeout: 60_000 });
      await page.getByText('a copy of it was found').waitFor();
    });
  }, 240_000);

  async function said(page: Page, changed: string, why: string): Promise<void> {
    await page.getByLabel('What changed against that one').fill(changed);
    await page.getByLabel('Why', { exact: true }).fill(why);
  }

  async function check(page: Page, name: string, file: Uint8Array): Promise<void> {
    await page
      .getByLabel('Drop the PDF here, or choose it')
      .setInputFiles({ name, mimeType: 'application/pdf', buffer: Buffer.from(file) });
  }

  async function looked(page: Page, name: string): Promise<void> {
    await expectAccessible(page);
    await picture(page, name);
  }
});
