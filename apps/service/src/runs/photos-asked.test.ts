import { randomUUID } from 'node:crypto';
import { PostgresRawStore } from '@breakbook/records';
import { importLot } from '@breakbook/service';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { burstFile, burstRun, formOf, lotWithoutRuns, specimenKey } from '../../../../tests/sent-runs.js';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';

// Made by ImageMagick 6.9.11: convert -size 5x3 xc:teal PNG24:a.png.
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=',
  'base64',
);

let service: TestService;
let operator: SignedInCaller;
let reviewer: SignedInCaller;
let unused = 0;

/** The pre-production lot, its burst method asking for two photos where the flange broke. */
beforeAll(async () => {
  service = await startTestService();
  const bundle = lotWithoutRuns();
  const [model] = bundle.specimens;
  if (!model) throw new Error('the sample lot has specimens');
  const methods = bundle.methods.map((method) => ({
    ...method,
    failureModes: method.failureModes.map((mode) =>
      mode.code === 'BF-FLG'
        ? {
            ...mode,
            photos: [
              { of: 'whole rim', least: 1 },
              { of: 'origin of the fracture', least: 1 },
            ],
          }
        : mode,
    ),
  }));
  const specimens = Array.from({ length: 5 }, (_, index) => ({
    ...model,
    specimen: specimenKey(index + 1),
    serial: `X-${index}`,
  }));
  const lot = { ...bundle, methods, specimens, lot: { ...bundle.lot, size: 105 } };
  await importLot(service.records, new PostgresRawStore(), lot, () => []);
  operator = await service.signIn('b-ravenscroft');
  reviewer = await service.signIn('a-grossmann');
}, 120_000);
afterAll(() => service.close());

async function recorded(code = 'BF-FLG'): Promise<string> {
  const specimen = specimenKey(++unused);
  const { examination, ...run } = burstRun(specimen);
  if (!examination) throw new Error('the sent run is examined');
  const answer = await operator.ask('POST', '/api/runs', {
    body: formOf({ ...run, examination: { ...examination, modes: [{ code }] } }, { 'log.csv': burstFile(specimen) }),
    headers: { 'idempotency-key': randomUUID() },
  });
  expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201 });
  return answer.body.run;
}
const look = async (run: string) => operator.ask('GET', `/api/runs/${run}`);
const decide = async (run: string, body: object = { validity: 'valid' }) =>
  reviewer.ask('POST', `/api/runs/${run}/validity`, {
    body,
    headers: { 'if-match': (await look(run)).headers.get('etag') ?? '' },
  });
function attach(run: string, shows: string | undefined) {
  const about = new URLSearchParams({
    run,
    caption: 'as found',
    takenBy: 'b-ravenscroft',
    device: 'bench camera',
    takenAt: '2026-09-28T07:05:00Z',
    ...(shows === undefined ? {} : { shows }),
  });
  return operator.ask('POST', `/api/attachments?${about}`, { body: PNG, headers: { 'content-type': 'image/png' } });
}

describe('photos that a failure mode asks for', () => {
  it('are listed, and keep validity from being decided until they are there', async () => {
    const run = await recorded();
    expect((await look(run)).body.photosAsked).toEqual([
      { of: 'whole rim', least: 1, present: 0 },
      { of: 'origin of the fracture', least: 1, present: 0 },
    ]);
    expect((await attach(run, undefined)).status).toBe(201);
    expect(await decide(run)).toMatchObject({
      status: 409,
      body: {
        code: 'state.conflict',
        found: 'whole rim: 0 of 1; origin of the fracture: 0 of 1',
        action: expect.stringContaining('or say in the examination why'),
      },
    });
    const [photo] = (await operator.ask('GET', `/api/attachments?run=${run}`)).body.items;
    const { number, content, version } = photo;
    // It is said later what a photo shows.
    const said = await operator.ask('PUT', `/api/attachments/${number}`, {
      body: { content: { ...content, shows: 'whole rim' }, reason: 'it shows the whole rim' },
      headers: { 'if-match': `"${version}"` },
    });
    expect(said, JSON.stringify(said.body)).toMatchObject({ status: 200 });
    expect((await look(run)).body.photosAsked[0]).toEqual({ of: 'whole rim', least: 1, present: 1 });
    expect(await decide(run)).toMatchObject({ status: 409, body: { found: 'origin of the fracture: 0 of 1' } });
  });

  it('may be missing with a reason in the examination', async () => {
    const run = await recorded();
    const { body, headers } = await look(run);
    const { examination } = body.run;
    const withoutPhotos = 'the pieces were swept up before they were photographed';
    const said = await operator.ask('POST', `/api/runs/${run}/examination`, {
      body: { examination: { ...examination, withoutPhotos }, reason: 'photos are missing' },
      headers: { 'if-match': headers.get('etag') ?? '' },
    });
    expect(said, JSON.stringify(said.body)).toMatchObject({ status: 201 });
    expect(await decide(run)).toMatchObject({ status: 201, body: { validity: 'valid' } });
  });

  it('are not asked of a mode without them, nor of a run recorded by mistake', async () => {
    const other = await recorded('BF-WAL');
    expect((await look(other)).body.photosAsked).toEqual([]);
    expect(await decide(other)).toMatchObject({ status: 201 });
    const mistaken = await recorded();
    expect(await decide(mistaken, { validity: 'void', note: 'of another specimen' })).toMatchObject({ status: 201 });
  });
});
