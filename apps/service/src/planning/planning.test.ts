import type { LotBundle } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
let bundle: LotBundle;
let reader: SignedInCaller;
const ask = (route: string, body: unknown): Promise<Answer> => reader.ask('POST', `/api/planning/${route}`, { body });

beforeAll(async () => {
  service = await startTestService();
  bundle = await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: 'PLANNED' }));
  reader = await service.signIn('a-reader', ['audit']);
}, 120_000);
afterAll(() => service.close());

describe('planning', () => {
  // 18 of a lot of 40 for 90/95 by the hypergeometric distribution; 29 of a process (Clopper and Pearson 1934).
  it('sets designs side by side in a thread of its own', async () => {
    const answer = await ask('designs', {
      limit: { value: 1500, unit: 'kPa' },
      coverage: 0.9,
      confidence: 0.95,
      lotSize: 40,
      guess: { mean: 1450, cv: 0.06 },
      distribution: 'normal',
    });
    expect(answer.status).toBe(200);
    expect(answer.body.designs[0]).toMatchObject({ design: 'zero failures', n: 18, population: 'lot' });
  });

  it('says what five can show', async () => {
    const { body } = await ask('showable', { n: 5, coverage: 0.9, confidence: 0.95 });
    expect(body.answers[0].numbers.reliability).toBeCloseTo(0.05 ** (1 / 5), 12);
  });

  it('weighs a plan against the methods and limits on record, and names what is not there', async () => {
    const { plan } = bundle;
    const { body } = await ask('risks', { plan, lotSize: 40 });
    expect(body.lines).toHaveLength(plan.lines.length);
    expect(body.lines[0].criteria[0].curve[0]).toEqual({ share: 0, chance: 1 });
    const [line] = plan.lines;
    const strange = { ...plan, lines: [{ ...line, methodRevision: 99 }] };
    expect(await ask('risks', { plan: strange })).toMatchObject({
      status: 422,
      body: { code: 'body.not-found', pointer: '/plan/lines/0/methodRevision' },
    });
  });

  it('drafts a plan that can be proposed as it is', async () => {
    const { items } = (await reader.ask('GET', '/api/planning/templates')).body;
    expect(items.map(({ template }: { template: string }) => template)).toEqual(['burst', 'brake heat', 'impact']);
    const [line] = bundle.plan.lines;
    const draft = await ask('drafts', {
      template: 'burst',
      plan: 'DRAFTED',
      product: bundle.product.product,
      approvedBy: bundle.plan.approvedBy,
      approvedOn: bundle.plan.approvedOn,
      use: 'touring events',
      method: line?.method,
      methodRevision: line?.methodRevision,
      limits: [{ place: 'strength', ...line?.limits[0] }],
    });
    expect(draft.status).toBe(200);
    const definer = await service.signIn('a-definer', ['define']);
    expect(await definer.ask('POST', '/api/plans', { body: draft.body })).toMatchObject({ status: 201 });
  });

  it.each([
    ['designs', { limit: { value: 1500, unit: 'kPa' }, coverage: 0.9, confidence: 95 }, '/confidence'],
    ['showable', { n: 0, coverage: 0.9, confidence: 0.95 }, '/n'],
    ['drafts', { template: 'burst' }, '/plan'],
  ])('teaches at %s', async (route, body, pointer) => {
    const answer = await ask(route, body);
    expect(answer.status).toBe(422);
    const said = [answer.body, ...(answer.body.errors ?? [])];
    expect(said.map((one: { pointer: string }) => one.pointer)).toContain(pointer);
  });
});
