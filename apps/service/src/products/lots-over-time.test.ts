import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { startTestService, type TestService } from '../../../../tests/service.js';

let service: TestService;
beforeAll(async () => {
  service = await startTestService();
  // Kept in another order than they were made.
  for (const [lot, madeTo, strengths] of [
    ['LATER', '2026-06-20', [1790, 1830, 1880]],
    ['EARLIER', '2026-05-01', [1810, 1850, 1900]],
  ] as const) {
    const bundle = keyedLot(
      strengths.map((kPa) => ({ kPa, validity: VALID })),
      { lot },
    );
    await keepKeyedLot(service, { ...bundle, lot: { ...bundle.lot, madeFrom: madeTo, madeTo } });
  }
}, 170_000);
afterAll(() => service.close());

it('tells how the lots of a product did, in the order in which they were made', async () => {
  const reader = await service.signIn('auditor', ['audit']);
  const { product } = keyedLot([{ kPa: 1800, validity: VALID }], { lot: 'ANY' }).product;
  const { status, body } = await reader.ask('GET', `/api/products/${product}/lots-over-time`);
  expect(status, JSON.stringify(body)).toBe(200);
  expect(body).toMatchObject({
    older: 0,
    lots: [
      { lot: 'EARLIER', madeTo: '2026-05-01' },
      { lot: 'LATER', madeTo: '2026-06-20' },
    ],
  });
  const [figure] = body.figures;
  expect(
    figure.history.lots.map(({ results }: { results: { value: { value: number } }[] }) =>
      results.map(({ value }) => value.value),
    ),
  ).toEqual([
    [1810, 1850, 1900],
    [1790, 1830, 1880],
  ]);
  // Once more: what an evaluation adds is not worked out again, and comes out the same.
  expect((await reader.ask('GET', `/api/products/${product}/lots-over-time`)).body).toEqual(body);
  expect((await reader.ask('GET', '/api/products/nobody/lots-over-time')).status).toBe(404);
}, 60_000);
