import fs from 'node:fs';
import path from 'node:path';
import { attachedFiles, documentFiles, KeyList, parseDocumentRecord, verifyDocument } from '@breakbook/evidence';
import { PostgresRawStore, verifyRecords } from '@breakbook/records';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepKeyedLot, keyedLot, VALID } from '../../../../tests/keyed-lot.js';
import { type Answer, type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.js';
import {
  askToSign,
  draftReport,
  fileOf,
  jobDone,
  publishedKeys,
  reviewKeyedLot,
} from '../../../../tests/signed-report.js';
import { needs, told } from '../../../../tests/tools.js';

const LOT = 'SEALED';
let service: TestService;
let reviewer: SignedInCaller;
let issuer: SignedInCaller;
let administrator: SignedInCaller;
let keys: KeyList;
/** The first signed report, and the draft it was made of. */
let first: Uint8Array;
let draft: number;

beforeAll(async () => {
  service = await startTestService();
  await keepKeyedLot(
    service,
    keyedLot(
      [1900, 1950, 2010].map((kPa) => ({ kPa, validity: VALID })),
      { lot: LOT },
    ),
  );
  reviewer = await service.signIn('a-grossmann');
  issuer = await service.signIn('issuer', ['issue']);
  administrator = await service.signIn('administrator', ['administer']);
  draft = await drafted();
}, 120_000);
afterAll(() => service.close());

const drafted = () => draftReport(reviewer, issuer, LOT);
const done = (answer: Answer) => jobDone(issuer, answer);
const sign = (n: number, more?: object) => askToSign(issuer, n, more);
const pdfOf = (n: number) => fileOf(issuer, n);
const published = async () => KeyList.parse(await publishedKeys(service));

const answers = async (file: Uint8Array) =>
  Object.fromEntries((await verifyDocument(file, { keys })).findings.map(({ asks, holds }) => [asks, holds]));
const ALL = { digest: true, signature: true, attachment: true, ledger: true, checkpoint: true };

it('is not before every run was reviewed, and not of another file than was shown', async () => {
  expect(await sign(draft)).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
  await reviewKeyedLot(reviewer, LOT, 3);
  const other = await issuer.ask('POST', `/api/documents/${draft}/signing`, { body: { shown: '0'.repeat(64) } });
  expect(other).toMatchObject({ status: 409, body: { code: 'state.conflict' } });
});

it('is authorised by a person, named in the ledger before the file is, and holds for whoever has the public keys', async () => {
  const { document } = await done(await sign(draft));
  first = await pdfOf(document);
  keys = await published();
  expect(await answers(first)).toEqual(ALL);
  const { content } = await verifyDocument(first, { keys });
  expect(content).toMatchObject({
    identity: {
      signatures: [
        { meaning: 'prepared' },
        { meaning: 'reviewed' },
        { meaning: 'authorised', name: 'issuer of the tests' },
      ],
    },
  });
  const listed = (await issuer.ask('GET', `/api/documents/${draft}`)).body;
  expect(listed).toMatchObject({ signedAs: document, signedWith: null });
  expect(await sign(draft)).toMatchObject({ status: 409 });
  expect(await verifyRecords(service.records.read(service.lab.labId), new PostgresRawStore())).toMatchObject({
    holds: true,
  });
});

it('shows its entry under a checkpoint kept elsewhere, too', async () => {
  const { record } = documentFiles(await attachedFiles(first));
  const { leaf } = parseDocumentRecord(record);
  const { note } = (await issuer.ask('GET', '/api/ledger/checkpoints?limit=1&order=newest')).body.items[0];
  const size = Number(note.split('\n')[1]);
  const { proof } = (await issuer.ask('GET', `/api/ledger/${leaf + 1}/proof?size=${size}`)).body;
  const kept = { checkpoint: note, leaf, proof };
  const { findings } = await verifyDocument(first, { keys, kept });
  expect(findings.find(({ asks }) => asks === 'checkpoint')).toMatchObject({
    holds: true,
    says: expect.stringMatching(/kept elsewhere at/),
  });
  const other = { ...kept, proof: ['0'.repeat(64), ...proof.slice(1)] };
  expect((await verifyDocument(first, { keys, kept: other })).findings.at(-1)).toMatchObject({ holds: false });
});

needs('pdfsig')('its signature', () => {
  it('is whole and good for a reader of PDF', () => {
    const says = told('pdfsig', first, (file) => [file]);
    expect(says).toContain('Total document signed');
    expect(says).toContain('Signature is Valid');
    expect(says).toContain('ETSI.CAdES.detached');
  });
});

it('its private keys lie outside the database, each file its owner’s alone', () => {
  const files = fs.readdirSync(service.keys.folder).filter((name) => /^(documents|data)-/.test(name));
  expect(files).toHaveLength(2);
  for (const name of files) expect(fs.statSync(path.join(service.keys.folder, name)).mode & 0o777).toBe(0o600);
  expect(JSON.stringify(keys)).not.toMatch(/PRIVATE|"d"/);
});

it('a later report of the lot says what changed against it; one signed with older keys still holds', async () => {
  const replaced = await administrator.ask('POST', '/api/signing-keys', { body: { reason: 'as every year' } });
  expect(replaced).toMatchObject({ status: 201, body: { number: 2 } });
  const next = await drafted();
  expect(await sign(next)).toMatchObject({ status: 422, body: { code: 'body.missing-field', pointer: '/changed' } });
  const { document } = await done(
    await sign(next, { changed: 'a run was measured again', because: 'a gauge was read wrong' }),
  );
  keys = await published();
  const second = await pdfOf(document);
  expect(await answers(second)).toEqual(ALL);
  expect(await answers(first)).toEqual(ALL);
  expect((await verifyDocument(second, { keys })).content).toMatchObject({
    identity: { replaces: { changed: 'a run was measured again', because: 'a gauge was read wrong' } },
  });
  expect(keys.keys).toMatchObject([{ number: 1, until: expect.any(String) }, { number: 2 }]);
});

it('nothing signed with revoked keys holds, and the key is named; the next document has new ones', async () => {
  const body = { reason: 'the disk with the keys was stolen' };
  expect(await administrator.ask('POST', '/api/signing-keys/2/revocation', { body })).toMatchObject({ status: 200 });
  expect(await administrator.ask('POST', '/api/signing-keys/2/revocation', { body })).toMatchObject({ status: 409 });
  expect(await administrator.ask('POST', '/api/signing-keys/9/revocation', { body })).toMatchObject({ status: 404 });
  keys = await published();
  const next = await drafted();
  const { document } = await done(await sign(next, { changed: 'nothing', because: 'its keys were stolen' }));
  keys = await published();
  const third = await pdfOf(document);
  expect(await answers(third)).toEqual(ALL);
  expect((await issuer.ask('GET', `/api/documents/${document}`)).body).toMatchObject({ signedWith: 3 });
  expect(await answers(await pdfOf(document - 2))).toEqual({ ...ALL, signature: false });
  expect(await answers(first)).toEqual(ALL);
});
