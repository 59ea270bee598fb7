import { burstFile } from '../../sent-runs.ts';
import { reason, type Walk } from './walk.ts';

const YESTERDAY = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10);

/** Products, methods, layouts, limits and plans, and what becomes of their proposals. */
export async function walkDefinitions({ routes, bundle, as }: Walk): Promise<void> {
  const [designer, quality] = [as('i-sorbo'), as('t-ibanez')];
  await routes.call(designer, 'POST /api/products', {}, { body: { ...bundle.product, product: 'dunlin-50' } });
  const product = { product: 'dunlin-50' };
  await routes.put(designer, 'PUT /api/products/:product', product, (content) => ({ ...content, name: 'Dunlin 50' }));

  const [method, layout, limit] = [bundle.methods[0], bundle.layouts[0], bundle.limits[0]];
  if (!method || !layout || !limit) throw new Error('The sample lot is not as it was.');
  const things = [
    ['methods', 'method', { ...method, method: 'WALKED-M', revision: 1 }, { inForceFrom: YESTERDAY }],
    ['layouts', 'layout', { ...layout, layout: 'WALKED-L', revision: 1, rig: 'R9' }, {}],
    ['limits', 'limit', { ...limit, limit: 'WALKED-S', revision: 1 }, { inForceFrom: YESTERDAY }],
    ['plans', 'plan', { ...bundle.plan, plan: 'WALKED-P', revision: 1 }, { approvedOn: YESTERDAY }],
  ] as const;
  for (const [address, word, content, next] of things) {
    const first = await routes.call(designer, `POST /api/${address}`, {}, { body: content });
    const shown = async (n: number) => (await quality.ask('GET', `/api/proposals/${n}`)).body.sha256;
    const n = first.body.standing.proposal;
    await routes.call(quality, 'POST /api/proposals/:n/approval', { n }, { body: { shown: await shown(n) } });
    const key = (content as unknown as Record<string, string>)[word] ?? '';
    const revised = await routes.call(
      designer,
      `POST /api/${address}/:${word}/revisions`,
      { [word]: key },
      {
        body: { reason, content: { ...content, ...next, revision: 2 } },
      },
    );
    const second = revised.body.standing.proposal;
    await routes.call(
      quality,
      'POST /api/proposals/:n/declining',
      { n: second },
      {
        body: { shown: await shown(second), because: 'not now' },
      },
    );
  }

  const file = new File([burstFile('X0001')], 'log.csv');
  const dropped = new FormData();
  dropped.append('file', file);
  await routes.call(designer, 'POST /api/layouts/proposals', {}, { body: dropped });
  const trial = new FormData();
  trial.append('layout', new Blob([JSON.stringify(layout)], { type: 'application/json' }), 'layout.json');
  trial.append('file', file);
  await routes.call(designer, 'POST /api/layouts/trials', {}, { body: trial });
  const computed = { method: 'zero-failure-size', reliability: 0.9, confidence: 0.95 };
  await routes.call(designer, 'POST /api/compute', {}, { body: computed });

  const claim = { coverage: 0.9, confidence: 0.95 };
  const question = {
    ...claim,
    limit: { value: 1500, unit: 'kPa' },
    guess: { mean: 1450, cv: 0.06 },
    distribution: 'normal',
  };
  await routes.call(designer, 'POST /api/planning/designs', {}, { body: question });
  await routes.call(designer, 'POST /api/planning/showable', {}, { body: { ...claim, n: 5 } });
  await routes.call(designer, 'POST /api/planning/risks', {}, { body: { plan: bundle.plan } });
  const draft = {
    template: 'burst',
    plan: 'WALKED-D',
    product: 'dunlin-50',
    approvedBy: bundle.plan.approvedBy,
    approvedOn: YESTERDAY,
    use: 'touring events',
    method: method.method,
    methodRevision: method.revision,
    limits: [{ place: 'strength', limit: limit.limit, revision: limit.revision }],
  };
  await routes.call(designer, 'POST /api/planning/drafts', {}, { body: draft });
}

/** Rigs, what is built into them, and how it is calibrated. */
export async function walkRigs({ routes, bundle, as }: Walk): Promise<void> {
  const metrologist = as('c-marandu');
  const [calibration] = bundle.calibrations;
  await routes.call(metrologist, 'POST /api/rigs', {}, { body: { rig: 'R9', name: 'Spare rig', location: 'Bay 9' } });
  await routes.put(metrologist, 'PUT /api/rigs/:rig', { rig: 'R9' }, (content) => ({ ...content, location: 'Bay 8' }));
  const sensor = { sensor: 'P-R9', description: 'pressure transducer', serial: 'R9-1' };
  await routes.call(metrologist, 'POST /api/sensors', {}, { body: sensor });
  await routes.put(metrologist, 'PUT /api/sensors/:sensor', { sensor: 'P-R9' }, (content) => ({
    ...content,
    serial: 'R9-2',
  }));
  const placement = {
    channel: 'rimPressure',
    sensor: 'P-R9',
    from: '2026-04-01',
    fullScale: { value: 40, unit: 'bar' },
  };
  const placed = await routes.call(metrologist, 'POST /api/rigs/:rig/placements', { rig: 'R9' }, { body: placement });
  await routes.call(
    metrologist,
    'PUT /api/rigs/:rig/placements/:placement',
    { rig: 'R9', placement: placed.body.placement },
    {
      headers: { 'if-match': '"1"' },
      body: { reason, content: { ...placement, to: '2026-12-01' } },
    },
  );
  const certificate = { ...calibration, calibration: 'CAL-WALKED', sensor: 'P-R9' };
  await routes.call(metrologist, 'POST /api/calibrations', {}, { body: certificate });
  const named = { calibration: 'CAL-WALKED' };
  await routes.put(metrologist, 'PUT /api/calibrations/:calibration', named, (content) => ({
    ...content,
    by: 'Brennholt',
  }));
}
