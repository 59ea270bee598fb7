import type { SignedInCaller } from '../../service.ts';
import { reason, type Walk } from './walk.ts';

/** The version that is shown, where its tag is not. */
async function shown(by: SignedInCaller, at: string): Promise<Record<string, string>> {
  return { 'if-match': `"${(await by.ask('GET', at)).body.version}"` };
}

/** How long things are kept, what holds them, and how they go; of a lot that is decided about. */
export async function walkKeeping({ routes, as }: Walk, lot: string, spare: readonly string[]): Promise<void> {
  const [stores, reviewer, decider] = [as('d-zunic'), as('a-grossmann'), as('t-ibanez')];
  await routes.call(
    decider,
    'PUT /api/lots/:lot/keeping',
    { lot },
    {
      headers: await shown(decider, `/api/lots/${lot}/keeping`),
      body: { recordsUntil: '2090-01-01', remnantsUntil: '2089-01-01', note: 'as proposed, and longer' },
    },
  );
  for (const specimen of spare)
    await routes.call(
      decider,
      'PUT /api/specimens/:specimen/keeping',
      { specimen },
      {
        headers: await shown(decider, `/api/specimens/${specimen}/keeping`),
        body: { until: '2020-01-01', note: 'as counsel said' },
      },
    );
  const held = { reference: 'file 31/204', reason, lots: [], specimens: [spare[0]] };
  const { body: hold } = await routes.call(reviewer, 'POST /api/legal-holds', {}, { body: held });
  await routes.call(decider, 'POST /api/legal-holds/:n/lifting', { n: hold.number }, { body: { reason } });

  const done = { how: 'cut in four', place: 'yard 2', at: '2026-11-20T10:00:00Z', by: 'Dario Zunic' };
  for (const [index, moves] of [
    [['refusal', decider, { reason }]],
    [['withdrawal', stores, { reason }]],
    [
      ['authorisation', decider, { reason }],
      ['carrying-out', stores, done],
    ],
  ].entries() as unknown as Iterable<[number, [string, SignedInCaller, object][]]>) {
    const asked = { specimens: [spare[index]], reason, how: 'cut in four' };
    const { body } = await routes.call(stores, 'POST /api/disposals', {}, { body: asked });
    for (const [move, by, said] of moves)
      await routes.call(
        by,
        `POST /api/disposals/:n/${move}`,
        { n: body.number },
        { headers: await shown(by, `/api/disposals/${body.number}`), body: said },
      );
  }
}

/** What may hurt somebody, and results of before the lab had records of this kind. */
export async function walkSafetyAndOld({ routes, bundle, as }: Walk, lot: string): Promise<void> {
  const [operator, reviewer, decider] = [as('b-ravenscroft'), as('a-grossmann'), as('t-ibanez')];
  const flag = {
    title: 'Cracks at the valve hole',
    reason: 'A rim that cracks there may lose its tyre.',
    seen: 'One of two rims cracked.',
    doneAtOnce: 'Shipment stopped.',
    lots: [lot],
    runs: [],
    nonconformities: [],
    serials: [],
  };
  const { body: raised } = await routes.call(operator, 'POST /api/safety-flags', {}, { body: flag });
  const n = raised.number;
  const at = `/api/safety-flags/${n}`;
  await routes.call(
    operator,
    'PUT /api/safety-flags/:n',
    { n },
    { headers: await shown(operator, at), body: { reason, content: { ...flag, seen: 'Two of two.' } } },
  );
  await routes.call(reviewer, 'POST /api/safety-flags/:n/packages', { n }, { body: { lot } });
  await routes.call(
    decider,
    'POST /api/safety-flags/:n/closing',
    { n },
    { headers: await shown(decider, at), body: { decision: 'Counsel was told.' } },
  );

  const header = 'product,lot,specimen,test,characteristic,unit,outcome,value,date,rig,source,validity';
  const row = 'OLD-1,S-1,rim burst,burst pressure,kPa,at least,100,2019-05-17,unknown,bench book 3,valid';
  const sent = { body: `${header}\n${bundle.product.product},${row}\n`, headers: { 'content-type': 'text/csv' } };
  await routes.call(operator, 'POST /api/old-results/trials', {}, { ...sent, query: '?name=bench+book.csv' });
  const query = '?name=bench+book.csv&note=from+the+bench+book';
  const { body: taken } = await routes.call(operator, 'POST /api/old-results', {}, { ...sent, query });
  const table = { table: taken.number };
  await routes.call(reviewer, 'POST /api/old-results/:table/withdrawal', table, { body: { reason } });
}
