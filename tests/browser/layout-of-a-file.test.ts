import { randomUUID } from 'node:crypto';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { burstFile, burstRun, formOf, keepLot, specimenKey } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

/** What a logger set to German writes: semicolons, decimal commas, units in round brackets, a title above. */
const GERMAN = [
  'Pruefstand 7',
  'Zeit (s);Druck Felge (psig);Temp (Cel)',
  ...Array.from({ length: 40 }, (_, i) => `0,${String(i).padStart(2, '0')};${i},5;${i === 3 ? 'OL' : '21,8'}`),
  '',
].join('\r\n');

needs('chromium')('a layout made for a file', () => {
  let service: TestService;
  let browser: Browser;
  let engineer: SignedInCaller;
  let unread: string;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepLot(service.records, 2);
    engineer = await service.signIn('layout-engineer', ['define', 'record']);
    const specimen = specimenKey(1);
    const dressed = burstFile(specimen)
      .split('\n')
      .map((line) => (line.startsWith('#') ? line : line.replaceAll(',', ';')))
      .join('\n');
    const refused = await engineer.ask('POST', '/api/runs', {
      body: formOf(burstRun(specimen), { 'log.csv': dressed }),
      headers: { 'idempotency-key': randomUUID() },
    });
    expect(refused).toMatchObject({ status: 422, body: { stored: 'unread' } });
    unread = refused.body.unreadFileId;
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  async function at(address: string, act: (page: Page) => Promise<void>): Promise<void> {
    await atTheirDesk(browser, service.url, engineer, address, act);
  }
  const column = (page: Page, name: string) => page.getByRole('group', { name, exact: true });

  it('shows what the file says, every problem with its place, and the first rows as they would be read', async () => {
    await at('/rigs/R1', async (page) => {
      await page.getByRole('link', { name: 'Make a layout for a file' }).click();
      await page.getByLabel('Drop the file here, or choose it').waitFor();
      await expectAccessible(page);
      await page.getByLabel('Drop the file here, or choose it').setInputFiles({
        name: 'rig-7.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(GERMAN, 'latin1'),
      });
      await page.getByText('The unit "psig" is no UCUM code').waitFor();
      expect(await page.getByLabel('Cells are parted by').inputValue()).toBe('semicolon');
      expect(await page.getByLabel('Lines passed over at the top').inputValue()).toBe('1');

      // Nothing was guessed: no unit for psig, no channel.
      expect(await page.getByLabel('Its code').inputValue()).toBe('');
      expect(await column(page, 'Druck Felge').getByLabel('Channel').inputValue()).toBe('');
      await page.getByText('The layout is not whole yet.').waitFor();
      await page.getByLabel('Its code').fill('[psi]');
      await page.getByLabel('Pressure against').selectOption('gauge');
      await column(page, 'Druck Felge').getByLabel('Channel').selectOption('rimPressure');
      await column(page, 'Druck Felge').getByLabel('Sign and scale').fill('-2');
      await column(page, 'Temp').getByLabel('Channel').selectOption('roomTemperature');
      await column(page, 'Temp').getByLabel('What stands for no reading').fill('');
      await page.getByText('it does not read').waitFor();
      await page.getByText('line 6, column 3', { exact: false }).first().waitFor();
      await expectAccessible(page);
      await picture(page, 'layout-refused');

      await column(page, 'Temp').getByLabel('What stands for no reading').fill('OL');
      await page.getByText('it reads').waitFor();
      const first = page.getByRole('table', { name: 'The first rows, as they would be read' });
      const fourth = first.getByRole('row').nth(4);
      expect(await fourth.getByRole('cell').allTextContents()).toEqual(['-7', 'no reading']);
      await expectAccessible(page);
      await picture(page, 'layout-reads');

      await page.getByLabel('Why the layout changes').fill('another logger since Monday');
      await page.getByRole('button', { name: 'Propose as revision 2 of R1-log' }).click();
      await page.getByText('Proposed as revision 2 of R1-log.').waitFor();
      const kept = (await engineer.ask('GET', '/api/layouts/R1-log')).body;
      expect(kept).toMatchObject({
        reason: 'another logger since Monday',
        content: { revision: 2, unitNames: [{ written: 'psig', unit: '[psi]', reference: 'gauge' }] },
      });
    });
  }, 120_000);

  it('opens with the bytes of an unread file, and leads back to reading it', async () => {
    await at('/unread', async (page) => {
      await page.getByText('Make a layout for it').click();
      await page.getByRole('link', { name: /^for rig R1,/ }).click();
      await page.getByRole('radio', { name: 'what the file says' }).waitFor();
      expect(await page.getByLabel('Cells are parted by').inputValue()).toBe('semicolon');
      await column(page, 'rim pressure').getByLabel('Channel').selectOption('rimPressure');
      await page.getByText('it reads').waitFor();
      await page.getByLabel('Why the layout changes').fill('semicolons');
      await page.getByRole('button', { name: 'Propose as revision 3 of R1-log' }).click();
      await page.getByRole('link', { name: 'Read the unread file again, once it is approved' }).click();
      await page.getByRole('heading', { level: 1, name: 'Log a run' }).waitFor();
      expect(page.url()).toContain(unread);
      await page.getByText('The kept bytes of unread file').waitFor();
    });
  }, 120_000);
});
