import fs from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { importDefinitions } from '../../apps/service/src/lots/import-definitions.ts';
import { labOf } from '../../apps/service/src/lots/import-lot.ts';
import { queryAs, testDatabase } from '../database.ts';
import { lotWithoutRuns } from '../sent-runs.ts';
import { codeFor, type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs, told } from '../tools.ts';
import { BUILT, expectAccessible, launchChromium, picture, signIn, watch } from './browser.ts';

const LOT = lotWithoutRuns().lot.lot;
const file = fs.readFileSync(
  fileURLToPath(new URL('../../sample-runs/dunlin-42-preproduction/runs/run-161.csv', import.meta.url)),
  'utf8',
);
/** The same file with a word where line 30 has its pressure, in the second column. */
const broken = file
  .split('\n')
  .map((line, index) => (index === 29 ? line.replace(/,[^,]*/, ',seal slipped') : line))
  .join('\n');
/** One grey point. */
const PHOTO = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
);
const LONG = 240_000;

needs('chromium', 'pdftotext')('a run, from logging it to the report of its lot', () => {
  let service: TestService;
  let browser: Browser;
  let engineer: SignedInCaller;
  let reviewer: SignedInCaller;
  let manager: SignedInCaller;

  beforeAll(async () => {
    const database = await testDatabase();
    const bundle = lotWithoutRuns();
    const lab = await labOf(database.records, bundle);
    await database.records.change(lab, 'lot folder imported', (rows) => importDefinitions(rows, bundle));
    service = await startTestService({ on: database, consoleFolder: BUILT });
    [engineer, reviewer, manager] = [
      await service.signIn('b-ravenscroft'),
      await service.signIn('a-grossmann'),
      await service.signIn('t-ibanez'),
    ];
    browser = await launchChromium();
  }, LONG);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  /** A page of this person's own browser, at the address they came to. */
  async function seated(
    who: SignedInCaller,
    address: string,
    width: number,
  ): Promise<[Page, BrowserContext, string[]]> {
    const context = await browser.newContext({ viewport: { width, height: 900 } });
    context.setDefaultTimeout(30_000);
    const page = await context.newPage();
    const wrong = watch(page, service.url);
    await page.goto(`${service.url}${address}`);
    await signIn(page, who.person, who.passphrase);
    return [page, context, wrong];
  }

  it(
    'is logged by an engineer: refused once with its place, kept through an ended session, then taken',
    async () => {
      const [page, context, wrong] = await seated(engineer, '/log', 390);
      await page.getByRole('heading', { level: 1, name: 'Log a run' }).waitFor();
      await expectAccessible(page);

      // A scanner types and ends its line.
      await page.getByLabel('Specimen', { exact: true }).focus();
      await page.keyboard.type('401\n');
      await page.getByText(`lot ${LOT}`).waitFor();
      await page.keyboard.type('R1\n');
      await page.getByText('File layout revision 1.').waitFor();
      await page.getByRole('radio', { name: /line A/ }).check();

      const ready = page.getByRole('group', { name: /Confirm each line/ }).getByRole('checkbox');
      await ready.first().waitFor();
      for (const one of await ready.all()) await one.check();
      await page.getByText('All confirmed').waitFor();
      await page.getByText('not an interlock').waitFor();

      await page.getByLabel('Drop the files here').setInputFiles({
        name: 'run-161.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(broken),
      });
      await page.getByRole('button', { name: 'Take away run-161.csv' }).waitFor();
      // The file says when it began; the lab's clock is two hours ahead of UTC in summer, or as its zone has it.
      expect(await page.getByLabel(/^Began \(clock/).inputValue()).toMatch(/^2026-09-28T\d\d:50/);

      await page.getByRole('button', { name: 'Add a measurement' }).click();
      await page.getByRole('button', { name: 'Record run' }).click();
      await page.getByText('Measurement 1, its instrument, is missing.').waitFor();
      await page.getByRole('button', { name: 'Take away measurement 1' }).click();

      await page.getByRole('radio', { name: 'something broke' }).check();
      await page.getByRole('checkbox', { name: /BF-FLG/ }).check();
      await page.getByLabel('Where: BF-FLG').fill('49° from the valve, left side');
      await page.getByRole('radio', { name: 'Not sound' }).check();
      await page.getByLabel('Take or choose photos').setInputFiles({
        name: 'flange.png',
        mimeType: 'image/png',
        buffer: PHOTO,
      });
      await page.getByLabel('What flange.png shows').fill('The left flange, opened over a third of the rim.');
      await page.getByLabel('Camera or telephone').fill('bench camera');
      await expectAccessible(page);

      await page.getByRole('button', { name: 'Record run' }).click();
      const refusal = page.locator('.refusal');
      await refusal.getByText('line 30').first().waitFor();
      const said = (await refusal.textContent()) ?? '';
      expect(said).toContain('column 2');
      expect(said).toContain('seal slipped');
      expect(said).toContain('The bytes are kept as an unread file');
      await expectAccessible(page);
      await picture(page, 'log-refused');

      // The right file, and a session that ends just then.
      await page.getByRole('button', { name: 'Take away run-161.csv' }).click();
      await page.getByLabel('Drop the files here').setInputFiles({
        name: 'run-161.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(file),
      });
      await page.getByRole('button', { name: 'Take away run-161.csv' }).waitFor();
      await context.clearCookies();
      await page.getByRole('button', { name: 'Record run' }).click();
      await signIn(page, engineer.person, engineer.passphrase);
      await page.getByRole('button', { name: 'Take away run-161.csv' }).waitFor();
      expect(await page.getByLabel('Where: BF-FLG').inputValue()).toBe('49° from the valve, left side');
      await page.getByRole('button', { name: 'Record run' }).click();
      await page.getByRole('heading', { level: 1, name: 'Run 401-1 is recorded' }).waitFor();
      expect(await page.locator('.head').textContent()).toContain('destroyed');
      expect(await page.getByText('Which photos were not taken?').count()).toBe(0);
      await expectAccessible(page);
      await picture(page, 'recorded');

      await page.getByRole('link', { name: 'Open the run' }).click();
      await page.getByText('This is a run of your own').waitFor();
      expect(await page.getByRole('button', { name: /^Decide/ }).count()).toBe(0);
      expect(wrong).toEqual([]);
      await context.close();
    },
    LONG,
  );

  it(
    'leaves its refused bytes in the list of unread files; the other lists are open too',
    async () => {
      const [page, context, wrong] = await seated(engineer, '/unread', 1440);
      await page.getByRole('heading', { level: 2, name: /Unread file 1: run-161\.csv/ }).waitFor();
      await page.getByText('You sent it, so somebody else may discard it.').waitFor();
      await expectAccessible(page);
      await picture(page, 'unread');
      for (const [address, heading] of [
        ['/specimens', 'Specimens'],
        ['/specimens/401', 'Specimen 401'],
        ['/rigs', 'Rigs'],
        ['/rigs/R1', 'Rig R1'],
        ['/ledger', 'Ledger'],
        ['/documents', 'Documents'],
      ] as const) {
        await page.goto(`${service.url}${address}`);
        await page.getByRole('heading', { level: 1, name: heading }).waitFor();
        await page.locator('.listing, .section').first().waitFor();
        await expectAccessible(page);
        await picture(page, address.slice(1).replace('/', '-'));
      }
      expect(wrong).toEqual([]);
      await context.close();
    },
    LONG,
  );

  it(
    'is decided blind by a reviewer, who evaluates the lot and has its report made',
    async () => {
      const [page, context, wrong] = await seated(reviewer, `/lots/${LOT}`, 1440);
      await page.getByText('It was never evaluated').waitFor();
      await expectAccessible(page);
      await picture(page, 'lot-before');

      const heard: string[] = [];
      page.on('response', (response) => {
        if (response.url().includes('/api/'))
          void response.text().then(
            (text) => heard.push(text),
            () => undefined,
          );
      });
      await page.getByRole('link', { name: '401-1' }).first().click();
      await page.getByRole('heading', { level: 2, name: 'Is this run valid?' }).waitFor();
      await page.locator('.figure svg').first().waitFor();
      const sheet = (await page.locator('main').textContent()) ?? '';
      expect(sheet).not.toMatch(/Margin to the limit|does not conform|OCF-/);
      expect(sheet).toContain('Limits and verdicts are shown once the validity of this run is decided');
      // Not only unseen: no answer so far holds a verdict or the value of a limit.
      expect(heard.join('\n')).not.toMatch(/"outcome":"(conforms|does not conform)|"decisionRule"/);
      await expectAccessible(page);
      await picture(page, 'run-undecided');

      await page.getByRole('radio', { name: /^Valid The run/ }).check();
      // A screen left open: the passphrase is asked for in its place, and the decision stays as it was chosen.
      await queryAs(service.database.owner, `update session set confirmed_at = confirmed_at - interval '5 minutes'`);
      await page.getByRole('button', { name: 'Decide: valid' }).click();
      const passphrase = page.getByLabel('Your passphrase, once more');
      await passphrase.fill('not it');
      const code = page.getByLabel('Code', { exact: true });
      await code.fill('000000');
      await page.getByRole('button', { name: 'Go on' }).click();
      await page
        .getByRole('alert')
        .getByText(/passphrase/i)
        .waitFor();
      expect(await passphrase.inputValue()).toBe('');
      await expectAccessible(page);
      await picture(page, 'passphrase-again');
      await passphrase.fill(reviewer.passphrase);
      await code.fill(await codeFor(page.url(), reviewer.person));
      await page.getByRole('button', { name: 'Go on' }).click();
      await page
        .getByText(/Margin to the limit/)
        .first()
        .waitFor();
      await expectAccessible(page);
      await picture(page, 'run-decided');

      await page.goto(`${service.url}/lots/${LOT}`);
      await page.getByRole('button', { name: 'Evaluate', exact: true }).click();
      const report = page.getByRole('button', { name: 'Make the report' });
      await page.locator('.work').or(report).first().waitFor();
      // The work goes on while the page is left.
      await page.goto(`${service.url}/rigs`);
      await page.goto(`${service.url}/lots/${LOT}`);
      await report.waitFor({ timeout: 120_000 });
      expect(await page.locator('.standing').textContent()).toBe('undecided');
      await page.getByText('How it is printed').first().click();
      await page.getByRole('radio', { name: 'Letter' }).check();
      await page.getByRole('group', { name: 'Pressures in' }).last().getByRole('radio', { name: 'bar' }).check();
      await expectAccessible(page);
      await picture(page, 'how-a-report-is-printed');
      await report.click();
      await page.getByRole('link', { name: 'Open the report (PDF)' }).waitFor({ timeout: 120_000 });
      await expectAccessible(page);
      expect(wrong).toEqual([]);
      await context.close();
    },
    LONG,
  );

  it(
    'is read by the manager with its lot and its report',
    async () => {
      const [page, context, wrong] = await seated(manager, '/lots', 1440);
      await page.getByRole('link', { name: LOT }).click();
      await page.getByRole('heading', { level: 1, name: `Lot ${LOT}` }).waitFor();
      await page.locator('.figure svg').first().waitFor();
      expect(await page.locator('.standing').textContent()).toBe('undecided');
      await expectAccessible(page);
      await picture(page, 'lot-evaluated');
      const address = await page.getByRole('link', { name: 'Open the report (PDF)' }).getAttribute('href');
      const answer = await context.request.get(`${service.url}${address}`);
      expect(answer.headers()['content-type']).toBe('application/pdf');
      const text = told('pdftotext', await answer.body(), (pdf) => ['-layout', pdf, '-']);
      expect(text).toContain(LOT);
      expect(text).toContain('401-1');
      expect(wrong).toEqual([]);
      await context.close();
    },
    LONG,
  );
});
