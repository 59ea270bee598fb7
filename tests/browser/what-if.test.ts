import type { LotBundle, Plan } from '@breakbook/lab';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('a lot under a declared schedule, and what if the plan were another', () => {
  let service: TestService;
  let browser: Browser;
  let bundle: LotBundle;
  let definer: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    const runs = [1240, 1800, 1830, 1850, 1870].map((kPa) => ({ kPa, validity: VALID }));
    bundle = await keepKeyedLot(service, scheduled(keyedLot(runs, { lot: 'STAGED', spare: 5, internalDecides: true })));
    definer = await service.signIn('s-definer', ['define']);
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('shows stages, forecast and steps, and what would follow, marked as such', async () => {
    const proposed = await definer.ask('POST', `/api/plans/${bundle.plan.plan}/revisions`, {
      body: { content: { ...bundle.plan, revision: 2, lines: unstaged(bundle.plan) }, reason: 'five rims must do' },
    });
    expect(proposed, JSON.stringify(proposed.body)).toMatchObject({ status: 201 });
    await atTheirDesk(browser, service.url, definer, '/lots/STAGED', async (page) => {
      await page.getByRole('heading', { name: 'Stages declared before the test' }).waitFor();
      await page.getByText(/^Stage 1 of 2: 5 of 5 specimens in the claim/).waitFor();
      await page.getByRole('heading', { name: 'Values far from the others' }).waitFor();
      await page.getByRole('heading', { name: 'Forecast, which decides nothing' }).waitFor();
      await page.getByText('in 2 stages of 5 and 5').waitFor();
      await page.getByText('How this was decided').first().click();
      await page.getByText('Which runs make the claim?').waitFor();

      await page.getByText('Ask what would follow').click();
      await page.getByRole('button', { name: 'What if this plan held?' }).click();
      const then = page.getByRole('region', { name: 'What would follow' });
      await then.getByText('(only proposed) in place of').waitFor();
      await then.getByText(/^What-if, nothing is decided by it: /).waitFor();
      await looked(page, 'lot-what-if');

      await page.getByLabel(/^Value, in/).fill('20');
      await page.getByRole('button', { name: 'What if this limit held?' }).click();
      await then.getByText(/^limit OCF-W-7\.2 rev\. 1: /).waitFor();
      // Nothing of it is kept: the page says what it said before.
      await page.reload();
      await page.getByRole('heading', { name: 'Stages declared before the test' }).waitFor();
      expect(await page.getByText('What-if, nothing is decided').count()).toBe(0);

      await page.goto(`${service.url}/lots/STAGED/runs/STAGED-r1`);
      await page.getByText('How this was judged').first().click();
      await page.getByText('How likely is it that the specimen itself lies within the limit?').first().waitFor();
      await page
        .getByText(/^Source: JCGM 106/)
        .first()
        .waitFor();
      await page
        .getByText(/^Probability that the specimen itself conforms, by the measurement alone: /)
        .first()
        .waitFor();
      await looked(page, 'run-verdicts');

      await page.goto(`${service.url}/approvals/${(await proposals()).at(-1)}`);
      await page.getByRole('heading', { name: 'What does this plan ask for?' }).waitFor();
      await page.getByText('5 specimens, by').waitFor();
      await looked(page, 'approval-of-plan');
    });
  }, 150_000);

  async function proposals(): Promise<number[]> {
    const { body } = await definer.ask('GET', '/api/proposals?state=waiting');
    return body.items.map(({ number }: { number: number }) => number);
  }

  async function looked(page: Page, name: string): Promise<void> {
    await expectAccessible(page);
    await picture(page, name);
  }
});

/** A line of two stages with a bound, of which the first is made. */
function scheduled(bundle: LotBundle): LotBundle {
  const [line] = bundle.plan.lines as [Plan['lines'][number]];
  const limit = { limit: 'OCF-W-7.2', revision: 1 };
  const bound = {
    kind: 'tolerance bound',
    criterion: 'A1',
    limit,
    distribution: 'normal',
    coverage: 0.9,
    confidence: 0.95,
  } as const;
  return {
    ...bundle,
    plan: {
      ...bundle.plan,
      claim: { ...bundle.plan.claim, population: 'process' },
      lines: [{ ...line, specimens: 10, stages: [5, 5], criteria: [bound] }],
    },
  };
}

/** The same with one look, when five are tested. */
function unstaged(plan: Plan): Plan['lines'] {
  return plan.lines.map(({ stages: _, ...line }) => ({ ...line, specimens: 5 }));
}
