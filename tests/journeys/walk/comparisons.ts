import { aComparison, aReference, declaredDigest, keepSuspects } from '../../suspect-case.ts';
import { reason, type Walk } from './walk.ts';

const AT = '2026-10-01T09:00:00Z';

/** Items of unknown making beside what is known: chosen, declared, handed on, looked at. */
export async function walkComparisons({ service, routes, as }: Walk): Promise<void> {
  await keepSuspects(service);
  const [designer, other, operator] = [as('i-sorbo'), as('t-ibanez'), as('b-ravenscroft')];
  const [stores, reviewer] = [as('d-zunic'), as('a-grossmann')];
  await routes.call(designer, 'POST /api/references', {}, { body: aReference() });
  const chosen = { ...aReference(), revision: 2, title: 'Dunlin 42 made before July' };
  const reference = { reference: 'D42-KNOWN' };
  await routes.call(designer, 'POST /api/references/:reference/revisions', reference, {
    body: { reason, content: chosen },
  });

  const blind = { blinded: ['b-ravenscroft'], listKeptBy: 'd-zunic' };
  const named = { comparison: 'MARKET-1' };
  await routes.call(designer, 'POST /api/comparisons', {}, { body: aComparison('MARKET-1', { blind }) });
  const shown = async () => ({ shown: await declaredDigest(other, 'MARKET-1') });
  const declined = { ...(await shown()), because: 'no ply count' };
  await routes.call(other, 'POST /api/comparisons/:comparison/declining', named, { body: declined });
  const anew = aComparison('MARKET-1', { revision: 2, blind });
  await routes.call(designer, 'POST /api/comparisons/:comparison/revisions', named, {
    body: { reason, content: anew },
  });
  await routes.call(other, 'POST /api/comparisons/:comparison/approval', named, { body: await shown() });
  const consent = { kind: 'notice', party: 'Counsel of the maker', about: 'Rims are burst in October.', at: AT };
  await routes.call(stores, 'POST /api/comparisons/:comparison/consents', named, { body: consent });
  const codes = { codes: [{ code: 'MARKET-1', identity: 'bought at the market of Grayford' }] };
  await routes.call(stores, 'POST /api/comparisons/:comparison/codes', named, { body: codes });

  const specimen = { specimen: 'MARKET-1' };
  const received = { step: 'received', from: 'a customer', to: 'd-zunic', place: 'gate', seal: '4711' };
  const event = { ...received, at: AT, condition: 'whole', changesItem: false };
  await routes.call(stores, 'POST /api/specimens/:specimen/custody', specimen, { body: event });
  const note = { title: 'Covert', text: 'A dot beside the valve.', readers: ['i-sorbo'] };
  await routes.call(designer, 'POST /api/specimens/:specimen/protected-notes', specimen, { body: note });

  const seen = { ...specimen, feature: 'label', seen: 'DUNLIN 24', at: AT };
  const { body } = await routes.call(operator, 'POST /api/comparisons/:comparison/observations', named, { body: seen });
  await routes.call(
    operator,
    'PUT /api/comparisons/:comparison/observations/:n',
    { ...named, n: body.number },
    { headers: { 'if-match': '"1"' }, body: { reason, content: { ...seen, seen: 'DUNLIN 42' } } },
  );
  await routes.call(reviewer, 'POST /api/comparisons/:comparison/results', named);
  const { number, sha256 } = (await other.ask('GET', '/api/comparisons/MARKET-1/result')).body;
  const locked = { result: number, shown: sha256, note: 'No item was run yet.' };
  await routes.call(other, 'POST /api/comparisons/:comparison/conclusions', named, { body: locked });
  const report = { kind: 'comparison report' };
  await routes.call(reviewer, 'POST /api/comparisons/:comparison/documents', named, { body: report });
  const aside = { specimen: 'MARKET-2', because: 'It was dropped on the way.' };
  await routes.call(reviewer, 'POST /api/comparisons/:comparison/set-aside', named, { body: aside });
  await designer.ask('POST', '/api/comparisons', { body: aComparison('MARKET-2') });
  const another = { comparison: 'MARKET-2' };
  await routes.call(designer, 'POST /api/comparisons/:comparison/withdrawal', another, { body: { reason } });
}
