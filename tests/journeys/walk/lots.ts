import { randomUUID } from 'node:crypto';
import { burstFile, burstRun, formOf, specimenKey } from '../../sent-runs.ts';
import { reason, seen, type Walk } from './walk.ts';

// 5 by 3 points, made by ImageMagick 6.9.11: convert -size 5x3 xc:teal PNG24:a.png.
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAUAAAADCAIAAADUVFKvAAAAFElEQVQI12NkaGhgQAJMDKgAnQ8ALkABBoH9zgUAAAAASUVORK5CYII=',
  'base64',
);

/** A lot and its specimens, as they are received. */
export async function walkLots({ routes, bundle, as }: Walk): Promise<void> {
  const stores = as('d-zunic');
  const { sampling, ...lot } = bundle.lot;
  const body = { ...lot, lot: 'RECEIVED', customer: bundle.customer };
  const names = { lot: 'RECEIVED' };
  await routes.call(stores, 'POST /api/lots', {}, { body });
  await routes.put(stores, 'PUT /api/lots/:lot', names, (content) => ({ ...content, note: 'seen again' }));
  await routes.call(stores, 'POST /api/lots/:lot/sampling', names, { body: sampling });
  await routes.call(stores, 'PUT /api/lots/:lot/sampling', names, {
    headers: await seen(stores, '/api/lots/RECEIVED/sampling'),
    body: { reason, content: { ...sampling, place: 'rack 5' } },
  });
  const several = ['W1', 'W2', 'W3'].map((specimen) => ({
    ...bundle.specimens[0],
    lot: 'RECEIVED',
    specimen,
    serial: `S-${specimen}`,
  }));
  await routes.call(stores, 'POST /api/specimens', {}, { body: several[0] });
  await routes.call(stores, 'POST /api/specimens/several', {}, { body: { specimens: several.slice(1) } });
  const specimen = { specimen: 'W1' };
  await routes.put(stores, 'PUT /api/specimens/:specimen', specimen, (content) => ({
    ...content,
    condition: 'scratched',
  }));
  await routes.call(stores, 'POST /api/specimens/:specimen/states', specimen, {
    headers: await seen(stores, '/api/specimens/W1/states'),
    body: { move: 'condition', note: '24 h at 23 Cel' },
  });
  await routes.call(stores, 'POST /api/lots/:lot/closing', names, { body: { reason } });
  await routes.call(stores, 'POST /api/lots/:lot/opening', names, { body: { reason } });
}

/** Runs with all that is said of them, and the bytes of those that were refused. */
export async function walkRuns({ routes, as }: Walk): Promise<void> {
  const [operator, reviewer] = [as('b-ravenscroft'), as('a-grossmann')];
  const headers = () => ({ 'idempotency-key': randomUUID() });
  const specimen = specimenKey(1);
  const described = burstRun(specimen);
  const body = formOf(described, { 'log.csv': burstFile(specimen) });
  await routes.call(operator, 'POST /api/runs', {}, { headers: headers(), body });
  const run = { run: described.run };
  const at = `/api/runs/${run.run}`;
  const measurement = {
    of: 'fluidTemperature',
    quantity: { value: 20, unit: 'Cel' },
    instrument: 'T-07',
    person: operator.person,
    at: '2026-09-28T07:00:00Z',
  };
  await routes.call(operator, 'POST /api/runs/:run/measurements', run, {
    headers: await seen(operator, at),
    body: { measurements: [{ measurement }] },
  });
  await routes.call(operator, 'POST /api/runs/:run/examination', run, {
    headers: await seen(operator, at),
    body: { reason, examination: { ...described.examination, note: 'The left flange went first.' } },
  });
  await routes.call(operator, 'POST /api/runs/:run/instants', run, {
    headers: await seen(operator, at),
    body: { instant: 'failure', at: 10, reason },
  });
  await routes.call(reviewer, 'POST /api/runs/:run/validity', run, {
    headers: await seen(reviewer, at),
    body: { validity: 'valid' },
  });
  await routes.call(reviewer, 'POST /api/runs/:run/reviews', run, { headers: await seen(reviewer, at), body: {} });

  for (const [n, route, by] of [
    [2, 'POST /api/unread/:id/read', operator],
    [3, 'POST /api/unread/:id/discard', reviewer],
  ] as const) {
    const wrong = burstRun(specimenKey(n), { examination: { ...BROKEN, modes: [{ code: 'ZZ-ZZ' }] } });
    const form = formOf(wrong, { 'log.csv': burstFile(specimenKey(n)) });
    const refused = await operator.ask('POST', '/api/runs', { headers: headers(), body: form });
    const names = { id: refused.body.unreadFileId };
    await routes.call(by, route, names, { body: n === 2 ? burstRun(specimenKey(n)) : { reason } });
  }

  const said = { caption: 'crack', takenBy: operator.person, device: 'camera', takenAt: '2026-09-21T09:40:00+02:00' };
  const attached = await routes.call(
    operator,
    'POST /api/attachments',
    {},
    {
      query: `?${new URLSearchParams({ ...said, specimen })}`,
      headers: { 'content-type': 'image/png' },
      body: PNG,
    },
  );
  await routes.put(operator, 'PUT /api/attachments/:attachment', { attachment: attached.body.number }, () => ({
    ...said,
    caption: 'crack beside the valve',
  }));
}

const BROKEN = {
  endReason: 'something broke',
  partSound: 'not sound',
  person: 'b-ravenscroft',
  at: '2026-09-28T07:04:55Z',
} as const;
