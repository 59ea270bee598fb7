import 'reflect-metadata';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore } from '@breakbook/records';
import { ModulesContainer } from '@nestjs/core';
import { Validator } from '@seriousme/openapi-schema-validator';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { servedHandlers } from '../http/served-handlers.js';
import { importLot } from '../lots/import-lot.js';
import { ANSWERS, type RouteAnswer } from './answers.decorator.js';
import { type OpenApiDocument, openApiOf } from './document.js';
import { SchemaGatherer } from './json-schema.js';
import { madeFiles } from './made-files.js';

const sample = fileURLToPath(new URL('../../../../sample-runs/dunlin-42-preproduction', import.meta.url));
const bundle = readLotFolder(
  new Map(LOT_FOLDER_DOCUMENTS.map((file) => [file, fs.readFileSync(path.join(sample, file))])),
);

let service: TestService;
let reader: SignedInCaller;
let document: OpenApiDocument;
beforeAll(async () => {
  service = await startTestService();
  // The sample's own lab is another one than the service was begun with; whoever reads is of the sample's.
  const inSample = { ...bundle, lab: { ...bundle.lab, lab: 'saltmarsh' } };
  await importLot(service.records, new PostgresRawStore(), inSample, (run) =>
    (bundle.runs.find((one) => one.run === run)?.files ?? []).map(({ name }) => ({
      name,
      bytes: fs.readFileSync(path.join(sample, name)),
    })),
  );
  reader = await service.signIn('reader', ['audit', 'administer']);
  document = (await service.anonymous.ask('GET', '/api/openapi.json')).body;
}, 120_000);
afterAll(() => service.close());

describe('the description of the interface', () => {
  it('is kept in the repository as the routes make it, and so are the types made from it', async () => {
    // Run "npm run openapi" where this fails.
    for (const { path: file, text } of await madeFiles())
      expect(fs.readFileSync(file, 'utf8') === text, `${file} is stale; run "npm run openapi"`).toBe(true);
  });

  it('is what the service answers', async () => {
    const kept = fileURLToPath(new URL('../../../../docs/openapi.json', import.meta.url));
    expect(document).toEqual(JSON.parse(fs.readFileSync(kept, 'utf8')));
  });

  it('has each route of the running application, and no other', () => {
    const described = Object.entries(document.paths).flatMap(([address, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${address.replaceAll(/\{([A-Za-z]+)\}/g, ':$1')}`),
    );
    const running = service.routes
      .filter(({ method }) => method !== 'HEAD')
      .map(({ method, url }) => `${method} ${url}`);
    expect(described.sort()).toEqual([...new Set(running)].sort());
  });

  // Against the schema of the OpenAPI Initiative for version 3.1, as packed in @seriousme/openapi-schema-validator.
  it('is valid OpenAPI 3.1', async () => {
    const validator = new Validator();
    const { valid, errors } = await validator.validate(structuredClone(document) as never);
    expect(errors).toBeUndefined();
    expect(valid).toBe(true);
    expect(validator.version).toBe('3.1');
  });

  it('refers to nothing that is not there, and names no operation twice', () => {
    const text = JSON.stringify(document);
    for (const [, name = ''] of text.matchAll(/"#\/components\/schemas\/([^"]+)"/g))
      expect(document.components.schemas).toHaveProperty([name]);
    expect(text).not.toContain('#/$defs');
    const ids = [...text.matchAll(/"operationId":"([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('says who may call: the same as the door asks', () => {
    for (const { method, url, admission } of service.routes) {
      const address = url.replaceAll(/:([A-Za-z]+)/g, '{$1}');
      const operation = document.paths[address]?.[method.toLowerCase()];
      if (method === 'HEAD') continue;
      expect(operation, `${method} ${url}`).toMatchObject({ 'x-duty': admission?.duty });
    }
  });
});

describe('an answer has the form that the description gives it', () => {
  const [run] = bundle.runs;
  const NAMES: Record<string, string> = {
    ':lot': bundle.lot.lot,
    ':product': bundle.product.product,
    ':method': bundle.methods[0]?.method ?? '',
    ':limit': bundle.limits[0]?.limit ?? '',
    ':layout': bundle.layouts[0]?.layout ?? '',
    ':plan': bundle.plan.plan,
    ':rig': bundle.rigs[0]?.rig ?? '',
    ':sensor': bundle.sensors[0]?.sensor ?? '',
    ':calibration': bundle.calibrations[0]?.calibration ?? '',
    ':specimen': bundle.specimens[0]?.specimen ?? '',
    ':person': 'i-sorbo',
    ':lab': 'saltmarsh',
    ':run': run?.run ?? '',
    ':channel': 'rimPressure',
    ':sequence': '1',
    ':n': '1',
    ':table': '1',
  };
  /** What the sample does not hold, and what never ends. */
  const WITHOUT = [
    ...['/api/jobs', '/api/unread/:', '/api/attachments/:', '/api/recomputations/:'],
    ...['/api/proposals/:', '/api/dispositions/:', '/api/opinions/:'],
    // Named by the id that a lab has in its ledger; signing.test.ts reads it in its form.
    '/api/keys/:',
    // The sample has none; batches.test.ts reads one.
    '/api/document-batches/:',
    // The sample has none; a-suspect-from-receipt-to-report.test.ts reads them.
    ...['/api/references/:', '/api/comparisons/:', '/api/specimens/:specimen/protected-notes'],
    // The sample has none; certificates.test.ts reads both.
    ...['/api/certificates/:', '/api/certificate-status/:', '/c/:'],
  ];

  /** What an address cannot be asked without. */
  const ASKED: Record<string, string> = { '/api/ledger/consistency': '?from=1' };

  /** The sample holds none. */
  async function aConcessionAsked(): Promise<void> {
    const body = {
      kind: 'concession',
      lot: bundle.lot.lot,
      limit: { limit: 'SW-RIM-BURST', revision: 2 },
      departure: 'One rim broke below the limit of the lab itself.',
      bounds: { quantity: 10 },
      until: '2099-12-31',
      reason: 'wanted for a ride',
      risk: 'less margin than usual',
    };
    const designer = await service.signIn('i-sorbo');
    expect(await designer.ask('POST', '/api/concessions', { body })).toMatchObject({ status: 201 });
  }

  /** Nor one of these. */
  async function aTableOfOldResults(): Promise<void> {
    const header = 'product,lot,specimen,test,characteristic,unit,outcome,value,date,rig,source,validity';
    const row = `${bundle.product.product},${bundle.lot.lot},S-1,burst,pressure,bar,exact,18,2019-05-17,unknown,book,valid`;
    const operator = await service.signIn('b-ravenscroft');
    const answer = await operator.ask('POST', '/api/old-results?name=book.csv&note=book', {
      body: `${header}\n${row}\n`,
      headers: { 'content-type': 'text/csv' },
    });
    expect(answer).toMatchObject({ status: 201 });
  }

  /** Nor what is kept longer, may hurt somebody, or is to go. */
  async function whatIsSaidOfTheLot(): Promise<void> {
    const { lot } = bundle.lot;
    const specimens = [bundle.specimens[0]?.specimen];
    const reason = 'asked for by counsel';
    const flag = {
      title: 'Cracks',
      reason: 'A tyre may come off.',
      seen: 'One cracked.',
      doneAtOnce: 'Shipment stopped.',
    };
    const nothingElse = { runs: [], nonconformities: [], serials: [] };
    for (const [person, address, body] of [
      ['a-grossmann', '/api/legal-holds', { reference: 'file 31/204', reason, lots: [], specimens }],
      ['a-grossmann', '/api/safety-flags', { ...flag, lots: [lot], ...nothingElse }],
      ['d-zunic', '/api/disposals', { specimens, reason, how: 'cut in four' }],
    ] as const) {
      const caller = await service.signIn(person);
      const answer = await caller.ask('POST', address, { body });
      expect(answer, `${address}: ${JSON.stringify(answer.body)}`).toMatchObject({ status: 201 });
    }
  }

  function addressOf(address: string): string {
    if (address.includes('/revisions/:revision')) {
      const kept = {
        ':method': bundle.methods,
        ':limit': bundle.limits,
        ':layout': bundle.layouts,
        ':plan': [bundle.plan],
      };
      const [name = ''] = Object.keys(kept).filter((one) => address.includes(one));
      const revision = kept[name as keyof typeof kept][0]?.revision ?? 0;
      return addressOf(address.replace(':revision', String(revision)));
    }
    return address.replaceAll(/:[A-Za-z]+/g, (name) => NAMES[name] ?? name);
  }

  it('for every address that is read, of a lot judged from its files', async () => {
    await aConcessionAsked();
    await aTableOfOldResults();
    await whatIsSaidOfTheLot();
    const asked: string[] = [];
    for (const { method, address, handler } of servedHandlers(service.app.get(ModulesContainer))) {
      const { answer } = Reflect.getMetadata(ANSWERS, handler) as RouteAnswer;
      if (method !== 'GET' || !answer || WITHOUT.some((one) => address.startsWith(one))) continue;
      const { status, body } = await reader.ask('GET', addressOf(address) + (ASKED[address] ?? ''));
      expect(status, `${addressOf(address)}: ${JSON.stringify(body).slice(0, 300)}`).toBe(200);
      const { error } = answer.safeParse(body);
      expect(error && `${address}: ${z.prettifyError(error)}`).toBeUndefined();
      asked.push(address);
    }
    expect(asked).toContain('/api/lots/:lot/sheet');
    expect(asked).toContain('/api/runs/:run');
    expect(asked.length).toBeGreaterThan(40);
  }, 60_000);
});

describe('making a description', () => {
  it('refuses two schemas of one name that are not alike', () => {
    const schemas = new SchemaGatherer();
    schemas.name(z.strictObject({ a: z.string() }), 'Thing');
    expect(() => schemas.name(z.strictObject({ b: z.string() }), 'Thing')).toThrow('Two schemas are called Thing');
  });

  it('refuses a route that does not say what it answers', () => {
    const container = service.app.get(ModulesContainer);
    const [first] = servedHandlers(container);
    if (!first) throw new Error('no route');
    const said = Reflect.getMetadata(ANSWERS, first.handler);
    Reflect.deleteMetadata(ANSWERS, first.handler);
    try {
      expect(() => openApiOf(container)).toThrow('does not say what it answers');
    } finally {
      Reflect.defineMetadata(ANSWERS, said, first.handler);
    }
  });
});
