import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, type LotBundle, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { testDatabase } from '../database.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { BUILT, expectAccessible, launchChromium, picture, signInBeforehand, watch } from './browser.ts';

const samples = fileURLToPath(new URL('../../sample-runs', import.meta.url));
const fileOf = (folder: string, name: string) => path.join(samples, folder, 'runs', name);

/** The specimens, plans and rigs of a sample lot, none of its runs made yet. */
function lotToRun(folder: string): LotBundle {
  const documents = LOT_FOLDER_DOCUMENTS.map(
    (name) => [name, fs.readFileSync(path.join(samples, folder, name))] as const,
  );
  return { ...readLotFolder(new Map(documents)), runs: [] };
}

needs('chromium')('runs of every test, logged through the page', () => {
  let service: TestService;
  let browser: Browser;
  let engineer: SignedInCaller;
  let reviewer: SignedInCaller;

  beforeAll(async () => {
    const database = await testDatabase();
    for (const folder of ['dunlin-42-heat', 'dunlin-42-impact'])
      await importLot(database.records, new PostgresRawStore(), lotToRun(folder), () => []);
    service = await startTestService({ on: database, consoleFolder: BUILT });
    engineer = await service.signIn('b-ravenscroft');
    reviewer = await service.signIn('a-grossmann');
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  async function seated(who: SignedInCaller, address: string): Promise<[Page, BrowserContext, string[]]> {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    context.setDefaultTimeout(30_000);
    const page = await context.newPage();
    const wrong = watch(page, service.url);
    await signInBeforehand(context, service.url, who);
    await page.goto(`${service.url}${address}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    return [page, context, wrong];
  }

  /** Fills one row of the form, a passage or a measurement, by the labels of its fields. */
  async function fillRow(page: Page, row: string, fields: Record<string, string>): Promise<void> {
    const group = page.getByRole('group', { name: row, exact: true });
    for (const [label, value] of Object.entries(fields)) {
      const field = group.getByLabel(label, { exact: true });
      if ((await field.evaluate((one) => one.nodeName)) === 'SELECT') await field.selectOption({ label: value });
      else await field.fill(value);
    }
  }

  async function found(page: Page, endReason: string, mode: RegExp, sound: RegExp): Promise<void> {
    await page.getByRole('radio', { name: endReason }).check();
    await page.getByRole('checkbox', { name: mode }).check();
    await page.getByRole('radio', { name: sound }).check();
  }

  it('a heat run of two stages, its specimen known by the serial on its label', async () => {
    const [page, context, wrong] = await seated(engineer, '/log');
    await page.getByLabel('Specimen', { exact: true }).focus();
    await page.keyboard.type('D42R-PP1-039\n');
    await page.getByText('501: drawn at random').waitFor();
    await page.keyboard.type('R3\n');
    await page.getByText('HEAT-DRAG rev. 1').first().waitFor();
    // One plan and one line fit this lot and this rig, so it is chosen already.
    await expect.poll(() => page.getByRole('radio', { name: /D42R-PP rev. 1, line A/ }).isChecked()).toBe(true);
    expect(await page.getByRole('radio', { name: /, line/ }).count()).toBe(1);
    for (const one of await page
      .getByRole('group', { name: /Confirm each line/ })
      .getByRole('checkbox')
      .all())
      await one.check();

    await page.getByLabel('Drop the files here').setInputFiles(fileOf('dunlin-42-heat', 'run-201.csv'));
    await page.getByRole('button', { name: 'Take away run-201.csv' }).waitFor();
    // The lab is in Copenhagen: UTC+1 in November (directive 2000/84/EC).
    await page.getByRole('button', { name: 'Add a stage' }).click();
    await fillRow(page, 'Passage 1', { Title: '300 W, 15 min', 'Aimed at': '300', 'Its unit': 'W' });
    expect(await page.getByRole('group', { name: 'Passage 1' }).getByLabel('Began').inputValue()).toMatch(
      /^2026-11-04T08:30/,
    );
    await page.getByRole('button', { name: 'Add a stage' }).click();
    await fillRow(page, 'Passage 2', {
      Title: '600 W until failure or 20 min',
      Began: '2026-11-04T08:50:16',
      'Found after it': 'damaged',
    });
    for (const [index, [of, value, passage]] of (
      [
        ['rimWidthBefore', '26.80', 'the whole run'],
        ['rimWidthAfter', '26.83', '1: 300 W, 15 min'],
        ['rimWidthAfter', '28.77', '2: 600 W until failure or 20 min'],
      ] as const
    ).entries()) {
      await page.getByRole('button', { name: 'Add a measurement' }).click();
      await fillRow(page, `Measurement ${index + 1}`, {
        Of: of,
        Value: value,
        Unit: 'mm',
        Instrument: 'digital calliper CD-4',
        Place: 'widest place, 270° from the valve',
        Passage: passage,
      });
    }
    await found(page, 'something broke', /HF-SPR/, /^Not sound/);
    await expectAccessible(page);
    await picture(page, 'log-heat');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByRole('heading', { level: 1, name: 'Run 501-1 is recorded' }).waitFor();
    await page.getByRole('link', { name: 'Open the run' }).click();
    await page.getByRole('heading', { level: 2, name: 'What was measured?' }).waitFor();
    const measured = (await page.locator('main').textContent()) ?? '';
    expect(measured.includes('300 W, 15 min')).toBe(true);
    expect(/28\.77\smm/.test(measured)).toBe(true);

    // The reader's own units: nothing is stored anew, and the highest temperature is told in degrees Fahrenheit.
    expect(measured.includes('°C')).toBe(true);
    await page.getByText('Units', { exact: true }).click();
    await page.getByRole('radio', { name: '°F' }).check();
    await page.getByRole('radio', { name: 'ft·lbf' }).check();
    // 189.5 °C, as the record has it, is 373.1 °F; 522.3 kJ are 385 250 ft·lbf (NIST SP 811, 2008, B.8).
    const peak = page.locator('main').getByText(/373\.1 ± 9\.0\s°F/);
    await peak.first().waitFor();
    expect(
      await page
        .locator('main')
        .getByText(/\sft·lbf/)
        .count(),
    ).toBeGreaterThan(0);
    await expectAccessible(page);
    await picture(page, 'run-heat');
    expect(wrong).toEqual([]);
    await context.close();
  });

  it('an impact run of two strikes, with run-out read before and after at the same places', async () => {
    const [page, context, wrong] = await seated(engineer, '/log?specimen=607');
    await page.getByText('607: drawn at random').waitFor();
    await page.getByLabel('Rig', { exact: true }).fill('R4');
    await page.getByLabel('Rig', { exact: true }).press('Enter');
    await page.getByRole('radio', { name: /D42-W rev. 1, line B/ }).check();
    await page
      .getByLabel('Drop the files here')
      .setInputFiles([1, 2].map((n) => fileOf('dunlin-42-impact', `run-308-strike-${n}.csv`)));
    // Each file is a strike, begun when it says itself.
    const second = page.getByRole('group', { name: 'Passage 2', exact: true });
    await second.waitFor();
    expect(await second.getByLabel('Began').inputValue()).toMatch(/^2026-11-12T09:42/);
    // The number of the strike is its own, and no condition of the run.
    const conditions = page.getByLabel('What', { exact: true });
    expect(await conditions.count()).toBe(1);
    expect(await conditions.inputValue()).toBe('pad');
    for (const [n, target, state] of [
      [1, '42', 'whole'],
      [2, '52', 'damaged'],
    ] as const)
      await fillRow(page, `Passage ${n}`, {
        'Aimed at': target,
        'Its unit': 'J',
        'Place on the part': '90° from the valve, between two spoke holes',
        'Found after it': state,
      });
    const rows: Record<string, string>[] = [
      { Of: 'dropHeight', Value: '423', Unit: 'mm', Passage: '1: Strike 1' },
      { Of: 'gateTime', Value: '7159', Unit: 'µs', Passage: '1: Strike 1' },
      { Of: 'dropHeight', Value: '524', Unit: 'mm', Passage: '2: Strike 2' },
      { Of: 'gateTime', Value: '6420', Unit: 'µs', Passage: '2: Strike 2' },
      { Of: 'lateralRunOutBefore', Value: '0.15', Unit: 'mm', Place: '45° from the valve', Passage: 'the whole run' },
      { Of: 'lateralRunOutBefore', Value: '0.17', Unit: 'mm', Place: '90° from the valve', Passage: 'the whole run' },
    ];
    for (const [index, fields] of rows.entries()) {
      await page.getByRole('button', { name: 'Add a measurement' }).click();
      await fillRow(page, `Measurement ${index + 1}`, { ...fields, Instrument: 'as on the card of the tower' });
    }
    await page.getByRole('button', { name: 'Add the same places after the run (2)' }).click();
    await fillRow(page, 'Measurement 7', { Value: '0.20' });
    await fillRow(page, 'Measurement 8', { Value: '0.29' });
    await found(page, 'something broke', /ID-DEL/, /^Not sound/);
    await expectAccessible(page);
    await picture(page, 'log-impact');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByRole('heading', { level: 1, name: 'Run 607-1 is recorded' }).waitFor();
    await page.getByRole('link', { name: 'Open the run' }).click();
    await page.getByRole('heading', { level: 2, name: 'What was measured?' }).waitFor();
    const sheet = (await page.locator('main').textContent()) ?? '';
    expect(sheet.includes('Strike 2')).toBe(true);
    // 0.29 mm - 0.17 mm at 90°, the larger of the two changes.
    expect(/0\.12\d*(?: ± \S+)?\smm/.test(sheet)).toBe(true);
    await expectAccessible(page);
    await picture(page, 'run-impact');
    expect(wrong).toEqual([]);
    await context.close();
  });

  it('and one whose file was refused is read again as it is, or discarded by somebody else', async () => {
    const good = fs.readFileSync(fileOf('dunlin-42-impact', 'run-301.csv'));
    const [page, context, wrong] = await seated(engineer, '/log?specimen=602');
    /** Sends the file of one specimen as the run of another. */
    const sendWrongly = async (specimen: string, file: string, named: string) => {
      await page.getByText(`${specimen}: drawn at random`).waitFor();
      await page.getByLabel('Rig', { exact: true }).fill('R4');
      await page.getByLabel('Rig', { exact: true }).press('Enter');
      await page.getByRole('radio', { name: /D42-W rev. 1, line A/ }).check();
      await page.getByLabel('Drop the files here').setInputFiles(fileOf('dunlin-42-impact', file));
      await page.getByRole('group', { name: 'Passage 1', exact: true }).waitFor();
      await found(page, 'programme ended', /IV-NIL/, /^Sound/);
      await page.getByRole('button', { name: 'Record run' }).click();
      await page.locator('.refusal').getByText(named).first().waitFor();
    };
    await sendWrongly('602', 'run-301.csv', '601');
    await page.getByRole('link', { name: 'unread file', exact: true }).click();
    await page.getByRole('link', { name: 'Read it again for a run' }).click();
    await page.getByText('The kept bytes of unread file 1').waitFor();
    await page.getByRole('button', { name: 'Start anew' }).click();
    await page.getByLabel('Specimen', { exact: true }).fill('601');
    await page.getByLabel('Specimen', { exact: true }).press('Enter');
    await page.getByText('601: drawn at random').waitFor();
    await page.getByLabel('Rig', { exact: true }).fill('R4');
    await page.getByLabel('Rig', { exact: true }).press('Enter');
    await page.getByRole('radio', { name: /D42-W rev. 1, line A/ }).check();
    await page.getByLabel(/^Began \(clock/).fill('2026-11-11T09:15:00');
    await page.getByRole('button', { name: 'Make a strike of each file' }).click();
    await fillRow(page, 'Passage 1', { Began: '2026-11-11T09:15:00' });
    await page.getByRole('button', { name: 'Add a condition' }).click();
    await fillRow(page, 'Condition 1', { What: 'pad', Is: '85 Shore A, whole, checked 2026-11-02' });
    await found(page, 'programme ended', /IV-NIL/, /^Sound/);
    await expectAccessible(page);
    await picture(page, 'log-unread');
    await page.getByRole('button', { name: 'Record run' }).click();
    await page.getByRole('heading', { level: 1, name: 'Run 601-1 is recorded' }).waitFor();
    const { body } = await engineer.ask('GET', '/api/runs/601-1');
    expect(body.files).toMatchObject([{ name: 'run-301.csv', size: good.length }]);

    await page.goto(`${service.url}/log?specimen=604`);
    await sendWrongly('604', 'run-303.csv', '603');
    expect(wrong).toEqual([]);
    await context.close();

    const [other, otherContext, otherWrong] = await seated(reviewer, '/unread');
    await other.getByText('Discard it', { exact: true }).click();
    await other.getByLabel('Why it is not needed').fill('Sent under the wrong specimen; sent again under its own.');
    await picture(other, 'discard');
    await other.getByRole('button', { name: 'Discard unread file 2' }).click();
    await other.getByText('None is waiting.').waitFor();
    await other.getByRole('radio', { name: 'discarded' }).check();
    await other.getByText('sent again under its own').waitFor();
    await other.getByRole('radio', { name: 'read later' }).check();
    await other.getByText('Read later as run 601-1').waitFor();
    await expectAccessible(other);
    expect(otherWrong).toEqual([]);
    await otherContext.close();
  });
});
