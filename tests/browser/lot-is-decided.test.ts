import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../keyed-lot.ts';
import { type Answer, type Asking, type SignedInCaller, startTestService, type TestService } from '../service.ts';
import { needs } from '../tools.ts';
import { atTheirDesk, BUILT, expectAccessible, launchChromium, picture } from './browser.ts';

const LOT = 'DECIDED';

needs('chromium')('a lot is decided about in the browser', () => {
  let service: TestService;
  let browser: Browser;
  const callers = new Map<string, SignedInCaller>();

  beforeAll(async () => {
    service = await startTestService({ consoleFolder: BUILT });
    // One rim holds the limit of the governing body and not that of the lab itself; of a third it is not decided yet.
    const runs = [{ kPa: 1900, validity: VALID }, { kPa: 1600, validity: VALID }, { kPa: 1700 }];
    await keepKeyedLot(service, keyedLot(runs, { lot: LOT, planned: 2 }));
    for (const person of ['b-ravenscroft', 'a-grossmann', 'i-sorbo', 't-ibanez'])
      callers.set(person, await service.signIn(person));
    callers.set('second-decider', await service.signIn('second-decider', ['decide']));
    browser = await launchChromium();
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await service?.close();
  });

  /** What somebody does at their own screen. */
  async function as(person: string, address: string, work: (page: Page) => Promise<void>): Promise<void> {
    await atTheirDesk(browser, service.url, callers.get(person) as SignedInCaller, address, work);
  }

  it('by seven hands: a correction, an invalid run, cause, closing, a concession refused and one granted, reviews, and two signatures over what is shown', async () => {
    const third = `/api/runs/${LOT}-r3`;
    const recorded = await asked('b-ravenscroft', 'GET', third);
    await asked('b-ravenscroft', 'POST', `${third}/examination`, {
      headers: { 'if-match': recorded.headers.get('etag') ?? '' },
      body: {
        examination: { ...recorded.body.run.examination, modes: [{ code: 'BF-FLG', place: 'at the valve' }] },
        reason: 'the wrong side was written down',
      },
    });
    await as('a-grossmann', `/lots/${LOT}/runs/${LOT}-r3`, async (page) => {
      await page.getByText('What was corrected, or entered late?').waitFor();
      await page.getByText('the wrong side was written down').waitFor();
      await page.getByRole('radio', { name: /^Invalid/ }).check();
      await page.getByRole('radio', { name: 'rig fault' }).check();
      await expectAccessible(page);
      await picture(page, 'run-corrected');
      await page.getByRole('button', { name: 'Decide: invalid' }).click();
      await page.getByRole('button', { name: `I have reviewed run ${LOT}-r3` }).waitFor();
      await picture(page, 'run-invalid');
    });
    // A rig that failed is the lab's own affair, and was opened as one.
    await closeOverHttp(2, 't-ibanez');

    await as('t-ibanez', `/lots/${LOT}/disposition`, async (page) => {
      await page.getByText('The signature opens once nothing is missing.').waitFor();
      await page.getByText('Nonconformity 1 is open.').waitFor();
      expect(await page.getByRole('button', { name: /^Sign(:| disposition| as)/ }).count()).toBe(0);
      await expectAccessible(page);
      await picture(page, 'disposition-missing');
    });

    await as('b-ravenscroft', '/nonconformities/1', async (page) => {
      await page.getByLabel('Cause', { exact: true }).fill('The oven of this lot ran too cool.');
      await page.getByLabel('Containment', { exact: true }).fill('The lot is kept in the store.');
      await page.getByLabel('Corrective action').fill('The oven has a second thermometer now.');
      await page.getByLabel('Due', { exact: true }).fill('2026-12-01');
      await page.getByLabel('Why this is said now').fill('The cure log was read.');
      await expectAccessible(page);
      await page.getByRole('button', { name: 'Keep this' }).click();
      await page.getByText('somebody with the duty to review or decide, who wrote nothing of it, closes it.').waitFor();
      await picture(page, 'nonconformity');
      await page.goto(`${service.url}/nonconformities`);
      await page.getByRole('table').waitFor();
      await page.getByText('Open a nonconformity').click();
      await expectAccessible(page);
      await picture(page, 'nonconformities');
    });

    await as('a-grossmann', '/nonconformities/1', async (page) => {
      await page.getByLabel('What shows that it is dealt with').fill('Thermometer and log were seen.');
      await page.getByRole('button', { name: 'Close nonconformity 1' }).click();
      await page.getByText('nothing. Whoever works here may open it again').waitFor();
      for (const n of [1, 2, 3]) {
        await page.goto(`${service.url}/lots/${LOT}/runs/${LOT}-r${n}`);
        await page.getByRole('button', { name: `I have reviewed run ${LOT}-r${n}` }).click();
        await page.getByRole('button', { name: `I have reviewed run ${LOT}-r${n}` }).waitFor({ state: 'detached' });
      }
      await expectAccessible(page);
      await picture(page, 'run-reviewed');
    });

    // What was judged before the third run was decided about rests no longer on the records.
    const job = await asked('a-grossmann', 'POST', `/api/lots/${LOT}/evaluations`);
    await (await callers.get('a-grossmann')?.fetch(`${job.headers.get('location')}/events`))?.text();

    await as('i-sorbo', '/concessions', async (page) => {
      await page.getByText('Ask for one').click();
      await page.getByLabel('Lot', { exact: true }).fill(LOT);
      await page.getByLabel('Limit of the lab’s own').fill('OCF-W-7.2');
      await page.getByLabel('Its revision').fill('1');
      await page.getByLabel('What departs from what').fill('Specimen DECIDED-2 broke at 1600 kPa.');
      await page.getByLabel('For at most so many units').fill('20');
      await page.getByLabel('Until', { exact: true }).fill('2099-12-31');
      await page.getByLabel('Reason', { exact: true }).fill('Twenty wheels are wanted for a slow ride.');
      await page.getByLabel('What may come of it, for whom').fill('Less margin than usual for twenty riders.');
      await page.getByRole('button', { name: 'Ask for this concession' }).click();
      await page.getByText('A failed external limit is never conceded').waitFor();
      await picture(page, 'concession-refused');
      await page.getByLabel('Limit of the lab’s own').fill('SW-RIM-BURST');
      await page.getByLabel('Its revision').fill('2');
      await page.getByRole('button', { name: 'Ask for this concession' }).click();
      await page.getByRole('heading', { name: 'Concession 1: requested' }).waitFor();
      await page.getByText('You asked for it, so somebody else grants or refuses it.').waitFor();
      await expectAccessible(page);
    });

    await as('t-ibanez', '/concessions', async (page) => {
      await page.getByText('Grant or refuse it').click();
      await page.getByRole('radio', { name: 'refuse' }).check();
      await page.getByLabel('Why').first().fill('Twenty slow rides are no reason; say who rides them.');
      await expectAccessible(page);
      await page.getByRole('button', { name: 'Refuse concession 1' }).click();
      await page.getByRole('heading', { name: 'Concession 1: refused' }).waitFor();
      await picture(page, 'concession-refused-by-a-person');
      const { content } = (await asked('i-sorbo', 'GET', '/api/concessions/1')).body;
      await asked('i-sorbo', 'POST', '/api/concessions', {
        body: { ...content, reason: 'Twenty wheels for the riders of the yard, at walking pace.' },
      });
      await page.goto(`${service.url}/concessions`);
      await page.getByText('Grant or refuse it').click();
      await page.getByLabel('Why').first().fill('Weighed with the design office.');
      await page.getByRole('button', { name: 'Grant concession 2' }).click();
      await page.getByRole('heading', { name: 'Concession 2: granted' }).waitFor();
      await expectAccessible(page);
      await picture(page, 'concession');

      await page.goto(`${service.url}/lots/${LOT}/disposition`);
      await page.getByLabel('Accepted on concession').check();
      await page.getByLabel('Reason', { exact: true }).fill('Twenty units may leave, for the use that is named.');
      await expectAccessible(page);
      await picture(page, 'disposition-open');
      // Somebody opens something meanwhile: what would be signed is no longer what is shown.
      const opened = await callers.get('b-ravenscroft')?.ask('POST', '/api/nonconformities', {
        body: { title: 'a label fell off', found: 'no label', lots: [LOT], runs: [], specimens: [] },
      });
      await page.getByRole('button', { name: 'Sign: accepted on concession' }).click();
      await page.getByText('is not as it was when it was shown').waitFor();
      await closeOverHttp(opened?.body.number);
      await page.goto(`${service.url}/lots/${LOT}/disposition`);
      await page.getByLabel('Accepted on concession').check();
      await page.getByLabel('Reason', { exact: true }).fill('Twenty units may leave, for the use that is named.');
      await page.getByRole('button', { name: 'Sign: accepted on concession' }).click();
      await page.getByText('You signed it as first decider; it waits for a second one.').waitFor();
    });

    await as('second-decider', `/lots/${LOT}/disposition`, async (page) => {
      await page.getByRole('button', { name: 'Sign as second decider' }).click();
      await page.getByText('nothing. It can only be changed by a new disposition.').waitFor();
      await expectAccessible(page);
      await picture(page, 'disposition-signed');
    });
    const { body } = (await callers.get('t-ibanez')?.ask('GET', '/api/dispositions/1')) ?? { body: undefined };
    expect(body).toMatchObject({ state: 'in force', outcome: 'accepted on concession' });
  }, 300_000);

  /** Asked by somebody elsewhere, and taken. */
  async function asked(person: string, method: string, at: string, asking?: Asking): Promise<Answer> {
    const answer = await callers.get(person)?.ask(method, at, asking);
    if (!answer || answer.status >= 300) throw new Error(`${person}, ${method} ${at}: ${JSON.stringify(answer)}`);
    return answer;
  }

  async function closeOverHttp(number: number, by = 'a-grossmann'): Promise<void> {
    const at = `/api/nonconformities/${number}`;
    await callers.get('b-ravenscroft')?.ask('PUT', at, {
      headers: { 'if-match': '"1"' },
      body: {
        reason: 'glued on',
        content: {
          title: 'a label fell off',
          found: 'no label',
          lots: [LOT],
          runs: [],
          specimens: [],
          cause: 'glue',
          containment: 'tied on',
          correctiveAction: 'other glue',
          due: '2026-12-01',
        },
      },
    });
    const closed = await callers.get(by)?.ask('POST', `${at}/closing`, {
      headers: { 'if-match': '"2"' },
      body: { reason: 'seen' },
    });
    expect(closed?.status).toBe(200);
  }
});
