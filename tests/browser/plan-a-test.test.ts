import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepLot } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('planning a test', () => {
  let service: TestService;
  let browser: Browser;
  let designer: SignedInCaller;
  let proposal: number;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    const { plan } = await keepLot(service.records, 2);
    designer = await service.signIn('i-sorbo');
    const answer = await designer.ask('POST', '/api/plans', { body: { ...plan, plan: 'PLANNED', revision: 1 } });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
    proposal = answer.body.standing.proposal;
    browser = await launchChromium();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  async function at(width: number, path: string, act: (page: Page) => Promise<void>): Promise<void> {
    await atTheirDesk(browser, service.url, designer, path, act, { width, height: 900 });
  }

  it('sets designs side by side, and anew when a slider is moved', async () => {
    await at(1440, '/planning', async (page) => {
      const designs = page.getByRole('table', { name: 'Designs side by side' });
      await designs.waitFor({ timeout: 120_000 });
      const zero = designs.getByRole('row', { name: /^Zero failures \d/ });
      // 29 of a process for 90/95 (Clopper and Pearson 1934), 18 of a lot of 40.
      expect(await zero.textContent()).toMatch(/^Zero failures29/);
      expect(await page.getByRole('img', { name: /Tests by counts/ }).count()).toBe(1);
      await page.getByText('At least 54.9 % of the process').waitFor({ timeout: 60_000 });
      await expectAccessible(page);
      await picture(page, 'plan-a-test');
      await page.getByLabel('Units in the lot').fill('40');
      await page.getByText(/Test 18 specimens; if none fails/).waitFor({ timeout: 120_000 });
      await page.setViewportSize({ width: 390, height: 844 });
      await expectAccessible(page);
      await picture(page, 'plan-a-test-narrow');
    });
  }, 300_000);

  it('opens a plan from a design, weighs it as it is filled in, and proposes it', async () => {
    await at(1440, '/planning', async (page) => {
      await page.getByRole('table', { name: 'Designs side by side' }).waitFor({ timeout: 120_000 });
      await page.getByLabel('Load of a test above the limit').fill('1.2');
      await page.getByLabel('Lowest plausible Weibull shape').fill('8');
      await page.getByLabel('Where that shape comes from').fill('Three lots of last year');
      // 0.9 ^ (1.2 ^ 8) = 0.6357 at the raised load, and ln 0.05 / ln 0.6357 = 6.6 (Nelson 1985): 7 specimens.
      const raised = page.getByRole('row', { name: /^Zero failures, raised load 7/ });
      await raised.waitFor({ timeout: 120_000 });
      await raised.getByRole('link').click();
      await page.getByText('As designed: zero failures, raised load, 7 specimens').waitFor();
      await page.getByText(/^Still open: .*the failure modes known at the limit/).waitFor();
      await expectAccessible(page);
      await page.getByLabel('Number of the plan').fill('P-RAISED-1');
      await page.getByLabel('Use that is claimed').fill('touring events');
      await page.getByLabel('Method', { exact: true }).selectOption({ index: 1 });
      await page.getByLabel('Limit at "strength"', { exact: true }).selectOption('OCF-W-7.2 1');
      await page.getByLabel('Who approves it').selectOption({ index: 1 });
      await page
        .getByRole('group', { name: /Failure modes known/ })
        .getByRole('checkbox')
        .first()
        .check();
      await page.getByRole('table', { name: /What line A risks/ }).waitFor({ timeout: 60_000 });
      const file = page.getByRole('link', { name: 'The plan as a file' });
      expect(await file.getAttribute('download')).toBe('P-RAISED-1.json');
      await expectAccessible(page);
      await picture(page, 'plan-written');
      await page.setViewportSize({ width: 390, height: 844 });
      await picture(page, 'plan-written-narrow');
      await page.getByRole('button', { name: 'Propose P-RAISED-1 rev. 1' }).click();
      await page.getByText('Proposed as P-RAISED-1 rev. 1.').waitFor();
      await page.getByRole('link', { name: 'Who approves it' }).click();
      await page.getByText('The Weibull shape of 8 rests on: Three lots of last year.').waitFor();
    });
  }, 300_000);

  it('opens a plan from a draft', async () => {
    await at(390, '/planning/plan?template=impact', async (page) => {
      await page.getByText('As the draft proposes').waitFor();
      expect(await page.getByRole('radio', { name: 'Impact' }).isChecked()).toBe(true);
      await expectAccessible(page);
    });
  }, 60_000);

  it('says beside a proposed plan what it risks', async () => {
    await at(1440, `/approvals/${proposal}`, async (page) => {
      await page.getByRole('heading', { name: 'What does the plan risk?' }).waitFor({ timeout: 60_000 });
      await page.getByRole('table', { name: /What line A risks/ }).waitFor();
      await expectAccessible(page);
      await picture(page, 'approval-of-a-plan');
    });
  }, 180_000);
});
