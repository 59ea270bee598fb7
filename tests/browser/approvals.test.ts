import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepLot } from '../sent-runs.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('a limit that one person proposes and another approves', () => {
  let service: TestService;
  let browser: Browser;
  let designer: SignedInCaller;
  let quality: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    const { limits } = await keepLot(service.records, 2);
    designer = await service.signIn('i-sorbo');
    quality = await service.signIn('t-ibanez');
    const limit = limits.find((one) => one.limit === 'OCF-W-7.2');
    const answer = await designer.ask('POST', '/api/limits/OCF-W-7.2/revisions', {
      body: {
        reason: 'the federation asks for more',
        content: { ...limit, revision: 2, value: 2100, edition: '2032', inForceFrom: '2026-10-01' },
      },
    });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
    browser = await launchChromium();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  const as = (caller: SignedInCaller, act: (page: Page) => Promise<void>) =>
    atTheirDesk(browser, service.url, caller, '/approvals', act);

  it('waits in the list; who proposed it is told who may approve it, and cannot', async () => {
    await as(designer, async (page) => {
      await page.getByRole('link', { name: 'limit OCF-W-7.2 rev. 2' }).waitFor();
      await expectAccessible(page);
      await picture(page, 'approvals');
      await page.getByRole('link', { name: 'limit OCF-W-7.2 rev. 2' }).click();
      await page.getByText('You proposed it, so another person approves it').waitFor();
      expect(await page.getByRole('button', { name: /^Approve/ }).count()).toBe(0);
      await expectAccessible(page);
      await picture(page, 'approval-of-the-proposer');
    });
  }, 60_000);

  it('is approved by whom it names, who sees every difference to the revision before', async () => {
    await as(quality, async (page) => {
      await page.getByRole('link', { name: 'limit OCF-W-7.2 rev. 2' }).click();
      const table = page.getByRole('table', { name: /place by place/ });
      await table.waitFor();
      const places = await table.getByRole('rowheader').allTextContents();
      expect(places.sort()).toEqual(['edition', 'inForceFrom', 'revision', 'value']);
      await expectAccessible(page);
      await picture(page, 'approval');
      await page.getByRole('button', { name: 'Approve rev. 2 of OCF-W-7.2' }).click();
      await page.getByText('It is approved, from 2026-10-01.').waitFor();
      await picture(page, 'approval-given');
    });
    const { body } = await quality.ask('GET', '/api/limits/OCF-W-7.2');
    expect(body.standing).toMatchObject({ proposedBy: 'i-sorbo', decidedBy: 't-ibanez', inForceFrom: '2026-10-01' });
  }, 60_000);
});
