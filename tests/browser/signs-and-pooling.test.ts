import type { LotBundle } from '@breakbook/lab';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

needs('chromium')('signs that must be absent, and earlier lots pooled', () => {
  let service: TestService;
  let browser: Browser;
  let designer: SignedInCaller;

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    await keepKeyedLot(service, pooling('BEFORE', '2026-06-01', [1820, 1860, 1880, 1910, 1970]));
    await keepKeyedLot(service, pooling('TOGETHER', '2026-06-20', [1830, 1870, 1890, 1940, 1980]));
    designer = await service.signIn('i-sorbo');
    browser = await launchChromium();
  }, 170_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  it('tells on the run how the signs were looked for, what was found, and which it was', async () => {
    await atTheirDesk(browser, service.url, designer, '/lots/TOGETHER/runs/TOGETHER-r5', async (page) => {
      await page
        .getByText(/None of BF-VAL, BF-JNT/)
        .first()
        .waitFor();
      await page
        .getByText(/BF-VAL found/)
        .first()
        .waitFor();
      await page
        .getByText(/looked for by eye at 300/i)
        .first()
        .waitFor();
      await page
        .getByText(/cracks of 10/i)
        .first()
        .waitFor();
      // 1 750 kPa and U, as fine as U says it: the limit moved by U is no round number.
      await page
        .getByText(/^1\s765\skPa$/)
        .first()
        .waitFor();
      await expectAccessible(page);
      await picture(page, 'run-with-signs');
      await page.goto(`${service.url}/lots/TOGETHER/runs/TOGETHER-r1`);
      await page
        .getByText(/none found/)
        .first()
        .waitFor();
      await picture(page, 'run-without-signs');
    });
  }, 120_000);

  it('tells on the lot which earlier lots the bound rests on, and what the test of them could see', async () => {
    await atTheirDesk(browser, service.url, designer, '/lots/TOGETHER', async (page) => {
      await page
        .getByText(/Earlier: BEFORE/)
        .first()
        .waitFor();
      await page
        .getByText(/would be seen with probability/)
        .first()
        .waitFor();
      expect(await page.getByText(/10 rims|10 specimens/).count()).toBeGreaterThan(0);
      await expectAccessible(page);
      await picture(page, 'lot-pooled');
    });
  }, 120_000);

  it('shows on the product how its lots did, one after the other', async () => {
    const { product } = pooling('ANY', '2026-06-01', [1820]).product;
    await atTheirDesk(browser, service.url, designer, `/products/${product}`, async (page) => {
      await page.getByRole('heading', { name: 'How did its lots do, one after the other?' }).waitFor();
      await page.locator('.figure svg').first().waitFor();
      await page.getByRole('row', { name: /TOGETHER/ }).waitFor();
      await expectAccessible(page);
      await picture(page, 'lots-over-time');
    });
  }, 120_000);
});

/** A lot whose plan pools one earlier lot and forbids cracks at valve and joint; the last rim cracked from its valve. */
function pooling(lot: string, madeTo: string, strengths: readonly number[]): LotBundle {
  const bundle = keyedLot(
    strengths.map((kPa) => ({ kPa, validity: VALID })),
    { lot },
  );
  const [line] = bundle.plan.lines as [LotBundle['plan']['lines'][number]];
  const [external] = bundle.limits as [LotBundle['limits'][number]];
  const limit = { limit: 'OCF-W-7.2', revision: 1 };
  const signs = { limit: 'SW-RIM-SIGNS', revision: 1 };
  const { appliesTo, edition, inForceFrom, approvedBy, standing } = external;
  return {
    ...bundle,
    lot: { ...bundle.lot, madeFrom: madeTo, madeTo },
    limits: [
      ...bundle.limits,
      {
        ...signs,
        ...{ appliesTo, edition, inForceFrom, approvedBy, standing },
        characteristic: 'burstPressure',
        title: 'Cracks at valve and joint',
        basis: 'internal',
        source: 'Saltmarsh Wheelworks, drawing note 7',
        bound: 'absent',
        decisionRule: { rule: 'simple' },
        signs: ['BF-VAL', 'BF-JNT'],
        unit: '1',
        inspection: {
          method: 'by eye at 300 mm under 1 000 lx, and a fingernail along the bead',
          detects: 'cracks of 10 mm or longer',
        },
      },
    ],
    plan: {
      ...bundle.plan,
      claim: {
        ...bundle.plan.claim,
        population: 'process',
        pooling: {
          rule: 'earlier lots',
          lots: 2,
          test: 'k-sample Anderson-Darling',
          level: 0.05,
          shiftThatMatters: 0.05,
        },
      },
      lines: [
        {
          ...line,
          limits: [...line.limits, signs],
          criteria: [
            {
              kind: 'tolerance bound',
              criterion: 'A1',
              limit,
              distribution: 'normal',
              coverage: 0.9,
              confidence: 0.95,
            },
            { kind: 'failures at most', criterion: 'A2', limit: signs, allowed: 1 },
          ],
        },
      ],
    },
    runs: bundle.runs.map((run, index) =>
      index === bundle.runs.length - 1 && run.examination
        ? { ...run, examination: { ...run.examination, modes: [{ code: 'BF-VAL' }] } }
        : run,
    ),
  };
}
