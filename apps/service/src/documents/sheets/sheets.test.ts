import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../../tests/keyed-lot.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../../tests/service.js';
import { askToSign, fileOf, jobDone } from '../../../../../tests/signed-report.js';
import { needs, told } from '../../../../../tests/tools.js';
import { importLot } from '../../lots/import-lot.js';

const FOLDER = fileURLToPath(new URL('../../../../../sample-runs/dunlin-42-second-lot', import.meta.url));
const KEYED = 'KEYED-S';
const bundle = readLotFolder(
  new Map(LOT_FOLDER_DOCUMENTS.map((file) => [file, fs.readFileSync(path.join(FOLDER, file))])),
);
const [ofFiles] = bundle.runs;
if (!ofFiles) throw new Error('The sample lot has no runs.');
const RUN = ofFiles.run;
const SPECIMEN = ofFiles.specimen;

let service: TestService;
let reviewer: SignedInCaller;
let issuer: SignedInCaller;
let auditor: SignedInCaller;

beforeAll(async () => {
  service = await startTestService();
  const inLab = { ...bundle, lab: { ...bundle.lab, lab: 'saltmarsh' } };
  await importLot(service.records, new PostgresRawStore(), inLab, (run) =>
    (bundle.runs.find((one) => one.run === run)?.files ?? []).map(({ name }) => ({
      name,
      bytes: fs.readFileSync(path.join(FOLDER, name)),
    })),
  );
  // The last of them is not decided yet.
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }, { kPa: 1960 }], { lot: KEYED, spare: 3 }));
  reviewer = await service.signIn('a-grossmann');
  issuer = await service.signIn('issuer', ['issue']);
  auditor = await service.signIn('auditor', ['audit']);
}, 120_000);
afterAll(() => service.close());

async function made(address: string, body: object): Promise<Answer['body']> {
  const { document } = await jobDone(reviewer, await reviewer.ask('POST', `${address}/documents`, { body }));
  return (await reviewer.ask('GET', `/api/documents/${document}`)).body;
}
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ').replace(/\s+/g, ' ');
async function textOf(n: number): Promise<string> {
  return plain(told('pdftotext', await fileOf(reviewer, n), (file) => [file, '-']));
}
async function checked(n: number): Promise<Answer['body']> {
  const headers = { 'content-type': 'application/pdf' };
  return (await auditor.ask('POST', '/api/documents/check', { body: await fileOf(auditor, n), headers })).body;
}
async function signed(n: number, more?: object): Promise<number> {
  return (await jobDone(issuer, await askToSign(issuer, n, more))).document;
}

it('a run sheet has the figures of the run’s page, of the files that are kept', async () => {
  const document = await made(`/api/runs/${RUN}`, { kind: 'run sheet' });
  expect(document).toMatchObject({
    kind: 'run sheet',
    lot: bundle.lot.lot,
    run: RUN,
    evaluation: null,
    signedWith: null,
    content: { identity: { number: `RS-${RUN}-1`, signatures: [] }, entry: { run: RUN, inClaim: true } },
  });
  const page = (await reviewer.ask('GET', `/api/runs/${RUN}`)).body;
  expect(page.verdicts.length).toBeGreaterThan(0);
  const { reading, judgement, trace } = document.content;
  expect(judgement).toMatchObject({ results: page.results, verdicts: page.verdicts, validity: page.validity });
  expect(reading).toEqual(page.reading);
  const drawn = (await reviewer.ask('GET', `/api/runs/${RUN}/trace`)).body.trace;
  expect(trace.channels.length).toBe(drawn.panels?.length ?? trace.channels.length);
  expect(trace.channels[0].values.length).toBeGreaterThan(100);
}, 180_000);

it('a run that is not decided has no limit and no verdict on its sheet, nor in what is attached', async () => {
  const { content } = await made(`/api/runs/${KEYED}-r2`, { kind: 'run sheet' });
  expect(content.bundle.limits).toEqual([]);
  expect(content.judgement).toMatchObject({ validity: 'not decided', verdicts: [] });
  expect(content.reading.characteristics.length).toBeGreaterThan(0);
});

it('a specimen record tells the life of a specimen from what was said of it', async () => {
  const specimen = `${KEYED}-1`;
  const { headers } = await reviewer.ask('GET', `/api/specimens/${specimen}/states`);
  const moved = await service.signIn('store', ['draw']).then((by) =>
    by.ask('POST', `/api/specimens/${specimen}/states`, {
      headers: { 'if-match': headers.get('etag') ?? '' },
      body: { move: 'retain', note: 'rack 7, shelf 2' },
    }),
  );
  expect(moved.status, JSON.stringify(moved.body)).toBe(200);
  const document = await made(`/api/specimens/${specimen}`, {
    kind: 'specimen record',
    paper: 'Letter',
    language: 'de',
    units: { pressure: '[psi]' },
  });
  expect(document).toMatchObject({ specimen, lot: KEYED, content: { identity: { number: `SR-${specimen}-1` } } });
  const { content } = document;
  expect(content.state).toBe('retained');
  expect(content.states.map(({ state }: { state: string }) => state)).toEqual(['received', 'destroyed', 'retained']);
  expect(content.states.at(-1)).toMatchObject({ by: 'store of the tests', note: 'rack 7, shelf 2' });
  expect(content.runs).toMatchObject([{ run: `${KEYED}-r1`, results: [{ value: { value: 1900 } }] }]);
  expect(content.print).toEqual({ paper: 'Letter', language: 'de', units: { pressure: '[psi]' } });
});

needs(
  'pdftotext',
  'pdfsig',
  'qpdf',
  'pdffonts',
)('as a file', () => {
  it('labels are of the specimens asked for, on the sheet asked for', async () => {
    const all = await made(`/api/lots/${KEYED}`, { kind: 'label sheet' });
    expect(all.content.labels.map(({ code }: { code: string }) => code)).toEqual(
      [1, 2, 3, 4, 5].map((n) => `${KEYED}-${n}`),
    );
    const body = { kind: 'label sheet', grid: 'Letter, 10 of 101.6 × 50.8 mm', code: 'qr', used: 9 };
    const some = await made(`/api/lots/${KEYED}`, { ...body, specimens: [`${KEYED}-4`, `${KEYED}-5`] });
    expect(some.content).toMatchObject({ codeForm: 'qr', used: 9, identity: { number: `LS-${KEYED}-2` } });
    expect(await textOf(some.number)).toMatch(new RegExp(`${KEYED}-4.*${KEYED}-5`));
    expect(told('qpdf', await fileOf(reviewer, some.number), (file) => ['--show-npages', file]).trim()).toBe('2');
  });

  it('each kind is signed, holds, and gives every number again from the files that are kept', async () => {
    const [specimenRun] = bundle.runs.filter(({ specimen }) => specimen === SPECIMEN);
    expect(specimenRun?.run).toBe(RUN);
    const drafts = [
      await made(`/api/runs/${RUN}`, { kind: 'run sheet' }),
      await made(`/api/specimens/${SPECIMEN}`, { kind: 'specimen record' }),
      await made(`/api/lots/${KEYED}`, { kind: 'label sheet' }),
    ];
    expect(await askToSign(issuer, drafts[0].number)).toMatchObject({
      status: 409,
      body: { detail: expect.stringContaining(`Nobody has reviewed run ${RUN}`) },
    });
    const { headers } = await reviewer.ask('GET', `/api/runs/${RUN}`);
    const etag = { 'if-match': headers.get('etag') ?? '' };
    expect(await reviewer.ask('POST', `/api/runs/${RUN}/reviews`, { body: {}, headers: etag })).toMatchObject({
      status: 201,
    });
    for (const { number, kind } of drafts) {
      const n = await signed(number);
      const pdf = await fileOf(issuer, n);
      expect(
        told('pdfsig', pdf, (file) => [file]),
        kind,
      ).toMatch(/Total document signed[\s\S]*Signature is Valid\./);
      expect(
        told('qpdf', pdf, (file) => ['--check', file]),
        kind,
      ).toContain('No syntax or stream encoding errors');
      const fonts = told('pdffonts', pdf, (file) => [file])
        .trim()
        .split('\n')
        .slice(2);
      expect(fonts.length, kind).toBeGreaterThan(0);
      // Columns of pdffonts: name, type, encoding, emb, sub, uni.
      for (const font of fonts) expect(font, kind).toMatch(/ yes +yes +yes /);
      const { verdict, findings, recomputed } = await checked(n);
      expect(verdict, JSON.stringify(findings)).toBe('holds');
      expect(recomputed, kind).toMatchObject({ count: 0, filesRead: true, pagesAlike: true });
      if (kind !== 'label sheet') expect(recomputed.numbers, kind).toBeGreaterThan(20);
    }
  }, 180_000);

  it('a later one of the same run has the next number, and says what it replaces', async () => {
    const later = await made(`/api/runs/${RUN}`, { kind: 'run sheet', language: 'de' });
    expect(later.content.identity.number).toMatch(new RegExp(`^RS-${RUN}-[23]$`));
    expect(await askToSign(issuer, later.number)).toMatchObject({ status: 422, body: { pointer: '/changed' } });
    const n = await signed(later.number, { changed: 'the language', because: 'the customer asked for it' });
    const { content } = (await issuer.ask('GET', `/api/documents/${n}`)).body;
    expect(content.identity).toMatchObject({
      replaces: { changed: 'the language' },
      signatures: [{ meaning: 'prepared' }, { meaning: 'reviewed' }, { meaning: 'authorised' }],
    });
    expect(await textOf(n)).toContain('Versuchsblatt');
  }, 180_000);
});

it('is listed with its run, its specimen and its lot', async () => {
  const listed = async (query: string) =>
    (await reviewer.ask('GET', `/api/documents?${query}`)).body.items.map((one: Answer['body']) => one.kind);
  expect(new Set(await listed(`run=${RUN}`))).toEqual(new Set(['run sheet']));
  expect(new Set(await listed(`specimen=${KEYED}-1`))).toEqual(new Set(['specimen record']));
  expect(await listed(`specimen=${KEYED}-2`)).toEqual([]);
  const kinds = new Set(await listed(`lot=${KEYED}`));
  for (const kind of ['run sheet', 'specimen record', 'label sheet']) expect(kinds).toContain(kind);
  expect(await reviewer.ask('GET', '/api/documents?run=none')).toMatchObject({ body: { code: 'query.invalid' } });
});

it('is refused where there is no such thing, and to whoever has not the duty', async () => {
  const run = { body: { kind: 'run sheet' } };
  expect(await reviewer.ask('POST', '/api/runs/none/documents', run)).toMatchObject({ status: 404 });
  const ofOther = { kind: 'label sheet', specimens: [SPECIMEN] };
  expect(await reviewer.ask('POST', `/api/lots/${KEYED}/documents`, { body: ofOther })).toMatchObject({
    status: 422,
    body: { code: 'body.not-found', pointer: '/specimens/0' },
  });
  const full = { kind: 'label sheet', grid: 'A4, 10 of 105 × 57 mm', used: 10 };
  expect(await reviewer.ask('POST', `/api/lots/${KEYED}/documents`, { body: full })).toMatchObject({
    status: 422,
    body: { code: 'body.range', pointer: '/used' },
  });
  const body = { kind: 'specimen record' };
  expect(await auditor.ask('POST', `/api/specimens/${SPECIMEN}/documents`, { body })).toMatchObject({ status: 403 });
});

it('leaves a ledger that holds', async () => {
  expect(await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore())).toMatchObject({
    holds: true,
  });
}, 180_000);
