import { tables } from '@breakbook/records';
import type { SignedInCaller } from '../../service.ts';
import { askToSign, fileOf, jobDone } from '../../signed-report.ts';
import { reason, seen, type Walk } from './walk.ts';

/** From what departed to who answers for the lot. One rim holds the outside limit and not that of the lab itself. */
export async function walkDecisions(walk: Walk, lot: string): Promise<void> {
  const { routes, as } = walk;
  const [reviewer, decider, second] = [as('a-grossmann'), as('t-ibanez'), as('second-decider')];
  await walkNonconformity(walk, lot);
  await walkConcessions(walk, lot);
  const opinion = { text: 'The break begins at the valve hole.', basis: 'The results alone.' };
  const given = await routes.call(reviewer, 'POST /api/opinions', {}, { body: { ...opinion, lot } });
  const n = given.body.number;
  await routes.put(reviewer, 'PUT /api/opinions/:n', { n }, () => ({ ...opinion, text: 'It begins beside it.' }));
  await routes.call(
    reviewer,
    'POST /api/opinions/:n/withdrawal',
    { n },
    {
      headers: await seen(reviewer, `/api/opinions/${n}`),
      body: { reason },
    },
  );
  for (const run of [`${lot}-r1`, `${lot}-r2`])
    await routes.call(
      reviewer,
      'POST /api/runs/:run/reviews',
      { run },
      {
        headers: await seen(reviewer, `/api/runs/${run}`),
        body: {},
      },
    );

  const shown = async (by: SignedInCaller) => (await by.ask('GET', `/api/lots/${lot}/disposition`)).body.sha256;
  const disposed = await routes.call(
    decider,
    'POST /api/lots/:lot/dispositions',
    { lot },
    {
      body: { outcome: 'accepted on concession', reason, shown: await shown(decider) },
    },
  );
  await routes.call(
    second,
    'POST /api/dispositions/:n/signatures',
    { n: disposed.body.number },
    {
      body: { shown: await shown(second) },
    },
  );
  await routes.call(
    reviewer,
    'POST /api/lots/:lot/retests',
    { lot },
    {
      body: { line: 'A', runs: 1, ground: 'assignable cause found', reason },
    },
  );
}

async function walkNonconformity({ routes, as }: Walk, lot: string): Promise<void> {
  const [operator, closer] = [as('b-ravenscroft'), as('trainer')];
  const dealtWith = { cause: 'glue', containment: 'tied on', correctiveAction: 'other glue', due: '2026-12-01' };
  const content = { title: 'a label fell off', found: 'no label', lots: [lot], runs: [], specimens: [] };
  const { body } = await routes.call(operator, 'POST /api/nonconformities', {}, { body: content });
  // The one that the failed limit opened is dealt with too.
  const open = (await operator.ask('GET', `/api/nonconformities?lot=${lot}`)).body.items;
  for (const { number: n, content: found } of open) {
    const { source: _, ...said } = found;
    await routes.put(operator, 'PUT /api/nonconformities/:n', { n }, () => ({ ...said, ...dealtWith }));
    const at = `/api/nonconformities/${n}`;
    const close = async (by: SignedInCaller) =>
      routes.call(
        by,
        'POST /api/nonconformities/:n/closing',
        { n },
        {
          headers: await seen(by, at),
          body: { reason },
        },
      );
    await close(closer);
    if (n !== body.number) continue;
    await routes.call(
      operator,
      'POST /api/nonconformities/:n/reopening',
      { n },
      {
        headers: await seen(operator, at),
        body: { reason },
      },
    );
    // To close it is to write in it.
    await close(as('a-grossmann'));
  }
}

async function walkConcessions({ routes, as }: Walk, lot: string): Promise<void> {
  const [designer, decider] = [as('i-sorbo'), as('t-ibanez')];
  const wanted = {
    kind: 'concession',
    lot,
    limit: { limit: 'SW-RIM-BURST', revision: 2 },
    departure: 'below the limit of the lab itself',
    bounds: { quantity: 5 },
    until: '2099-12-31',
    reason: 'wanted',
    risk: 'less margin',
  };
  for (const [move, by] of [
    ['refusal', decider],
    ['withdrawal', designer],
    ['grant', decider],
  ] as const) {
    const { body } = await routes.call(designer, 'POST /api/concessions', {}, { body: wanted });
    await routes.call(
      by,
      `POST /api/concessions/:n/${move}`,
      { n: body.number },
      {
        headers: await seen(by, `/api/concessions/${body.number}`),
        body: { reason },
      },
    );
  }
}

/** What is worked out of a lot, and what is handed out of it; last, what is done with the ledger itself. */
export async function walkWork({ service, routes, as }: Walk, lot: string): Promise<void> {
  const [reviewer, auditor] = [as('a-grossmann'), as('y-hamasaki')];
  const evaluated = await routes.call(reviewer, 'POST /api/lots/:lot/evaluations', { lot });
  const { body: job } = await reviewer.ask('GET', `/api/jobs/${evaluated.body.id}`);
  const whatIf = { limits: [{ limit: 'OCF-W-7.2', revision: 1, value: 1650 }] };
  await routes.call(auditor, 'POST /api/lots/:lot/what-ifs', { lot }, { body: whatIf });
  const report = { kind: 'lot test report' };
  await routes.call(reviewer, 'POST /api/evaluations/:n/documents', { n: job.evaluation }, { body: report });
  const drafts = (await reviewer.ask('GET', '/api/documents?order=newest')).body.items;
  const { number, sha256 } = drafts.at(0);
  const office = as('y-hamasaki');
  const { body: pair } = await routes.call(office, 'POST /api/signing-keys', {}, { body: { reason } });
  // The content is named in the ledger before the file that carries the proof of it.
  const authorised = { body: { shown: sha256 }, leaves: 2 };
  await routes.call(reviewer, 'POST /api/documents/:n/signing', { n: number }, authorised);
  await walkCertificates({ routes, as }, lot);
  const pdf = { 'content-type': 'application/pdf' };
  await routes.call(auditor, 'POST /api/documents/check', {}, { body: await fileOf(auditor, number), headers: pdf });
  await routes.call(office, 'POST /api/signing-keys/:n/revocation', { n: pair.number }, { body: { reason } });
  await routes.call(reviewer, 'POST /api/lots/:lot/packages', { lot });
  const [run, specimen] = [`${lot}-r1`, `${lot}-1`];
  await routes.call(reviewer, 'POST /api/runs/:run/documents', { run }, { body: { kind: 'run sheet' } });
  const record = { body: { kind: 'specimen record' } };
  await routes.call(reviewer, 'POST /api/specimens/:specimen/documents', { specimen }, record);
  const labels = { kind: 'label sheet' };
  await routes.call(reviewer, 'POST /api/lots/:lot/documents', { lot }, { body: labels });
  // That it was begun, and the one document that all labels are on.
  await routes.call(reviewer, 'POST /api/lots/:lot/document-batches', { lot }, { body: labels, leaves: 2 });
  const { id: lotId } = await service.records.read(service.lab.labId).named(tables.Lot, lot);
  const { number: n } = await service.records.change(service.lab, 'batch begun and never gone on with', (rows) =>
    rows.add(tables.DocumentBatch, {
      lotId,
      content: {
        ...{ kind: 'specimen record', paper: 'A4', language: 'en', units: 'as kept' },
        ...{ grid: 'A4, 24 of 70 × 37 mm', code: 'qr', items: [[specimen]] },
      },
    }),
  );
  await routes.call(reviewer, 'POST /api/document-batches/:n/resumption', { n });
  await routes.call(auditor, 'POST /api/recomputations');
  const { body: signed } = await routes.call(auditor, 'POST /api/ledger/checkpoints');
  const { note, key } = signed;
  await routes.call(auditor, 'POST /api/ledger/checkpoints/comparison', {}, { body: { note, key } });
  const { body: whole } = await routes.call(auditor, 'POST /api/ledger/verification');
  if (!whole.holds) throw new Error(`The records do not hold: ${whole.because}`);
}

/** What is issued over the disposition in force, and what becomes of it. */
async function walkCertificates({ routes, as }: Pick<Walk, 'routes' | 'as'>, lot: string): Promise<void> {
  const by = as('a-grossmann');
  const decided = (await by.ask('GET', `/api/lots/${lot}/dispositions`)).body.items;
  const { number: n, evaluation } = decided.find(({ state }: { state: string }) => state === 'in force');
  // It rests on the report of what was decided on, which is an earlier evaluation than the walk's own.
  const { items } = (await by.ask('GET', '/api/documents')).body;
  const { number: draft } = items.find((one: { evaluation: number }) => one.evaluation === evaluation);
  const words = { changed: 'the evaluation that was decided on', because: reason };
  const { document: report } = await jobDone(by, await askToSign(by, draft, words));
  const { sha256: shown } = (await by.ask('GET', `/api/documents/${report}`)).body;
  const over = { body: { report, shown }, leaves: 2 };
  const { body: certificate } = await routes.call(by, 'POST /api/dispositions/:n/certificates', { n }, over);
  const sent = { body: { recipient: 'design office', way: 'by mail' } };
  await routes.call(by, 'POST /api/certificates/:n/sendings', { n: certificate.number }, sent);
  for (const to of ['hold', 'release', 'withdrawal'])
    await routes.call(by, `POST /api/certificates/:n/${to}`, { n: certificate.number }, { body: { reason } });
}
