import { canonicalJson, KeyList, verifyDocument } from '@breakbook/evidence';
import { composeDocument } from '@breakbook/reports';
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
import { sealingLab } from '../../../../tests/signing-keys.js';

const LOT = 'CERTIFIED';
let service: TestService;
let issuer: SignedInCaller;
let decider: SignedInCaller;
let report: number;
let disposition: number;

beforeAll(async () => {
  service = await startTestService();
  await keepKeyedLot(
    service,
    keyedLot(
      [1900, 1950, 2010].map((kPa) => ({ kPa, validity: VALID })),
      { lot: LOT },
    ),
  );
  const reviewer = await service.signIn('a-grossmann');
  issuer = await service.signIn('issuer', ['issue']);
  decider = await service.signIn('t-ibanez');
  await reviewKeyedLot(reviewer, LOT, 3);
  report = await draftReport(reviewer, issuer, LOT);
  const { sha256: shown } = (await decider.ask('GET', `/api/lots/${LOT}/disposition`)).body;
  const decided = await decider.ask('POST', `/api/lots/${LOT}/dispositions`, {
    body: { outcome: 'accepted', reason: 'as the sheet says', shown },
  });
  expect(decided, JSON.stringify(decided.body)).toMatchObject({ status: 201 });
  disposition = decided.body.number;
}, 180_000);
afterAll(() => service.close());

async function issue(more: object = {}, of = report): Promise<Answer> {
  const { sha256: shown } = (await issuer.ask('GET', `/api/documents/${of}`)).body;
  return issuer.ask('POST', `/api/dispositions/${disposition}/certificates`, { body: { report: of, shown, ...more } });
}
const move = (n: number, to: string, reason = 'a rim of the lot came back cracked') =>
  issuer.ask('POST', `/api/certificates/${n}/${to}`, { body: { reason } });
/** As a stranger is told who has the paper. */
async function told(n: number): Promise<Answer['body']> {
  const { statusPath } = (await issuer.ask('GET', `/api/certificates/${n}`)).body;
  return (await service.anonymous.ask('GET', statusPath.replace('/c/', '/api/certificate-status/'))).body;
}

it('rests on a signed report that was shown, and on the disposition of the same evaluation', async () => {
  expect(await issue()).toMatchObject({
    status: 409,
    body: { detail: expect.stringContaining('no signed lot test report') },
  });
  report = (await jobDone(issuer, await askToSign(issuer, report))).document;
  expect(await issue({ shown: '0'.repeat(64) })).toMatchObject({ status: 409 });
  expect(await decider.ask('POST', `/api/dispositions/${disposition}/certificates`, { body: {} })).toMatchObject({
    status: 403,
  });
});

it('is one signed file that holds for whoever has the public keys, and says what was decided by whom', async () => {
  const issued = await issue();
  expect(issued, JSON.stringify(issued.body)).toMatchObject({
    status: 201,
    body: { number: 1, state: 'in force', lot: LOT },
  });
  const keys = KeyList.parse(await publishedKeys(service));
  const { findings, content } = await verifyDocument(await fileOf(issuer, issued.body.document), { keys });
  expect(findings.map(({ holds }) => holds)).toEqual([true, true, true, true, true]);
  expect(content).toMatchObject({
    document: 'certificate of test',
    identity: { number: 'CT-1', signatures: [{ meaning: 'authorised', name: 'issuer of the tests' }] },
    disposition: { number: disposition, outcome: 'accepted' },
  });
});

async function certificateFile(n: number): Promise<Uint8Array> {
  return fileOf(issuer, (await issuer.ask('GET', `/api/certificates/${n}`)).body.document);
}

/** As an auditor sees it who has been handed a file. */
async function checked(file: Uint8Array): Promise<Answer> {
  const auditor = await service.signIn('auditor', ['audit']);
  return auditor.ask('POST', '/api/documents/check', {
    body: Buffer.from(file),
    headers: { 'content-type': 'application/pdf' },
  });
}

it('is checked by whoever was handed it, and the report it rests on is worked out again to the last bit', async () => {
  const file = await fileOf(issuer, report);
  const { body } = await checked(file);
  expect(body, JSON.stringify(body)).toMatchObject({
    verdict: 'holds',
    kept: report,
    document: { kind: 'lot test report', revision: 1 },
    recomputed: { filesRead: true, count: 0, differences: [], pagesAlike: true },
  });
  expect(body.findings.map(({ holds }: { holds: boolean }) => holds)).toEqual([true, true, true, true, true]);
  expect(body.recomputed.numbers).toBeGreaterThan(50);

  const other = (await checked(await certificateFile(1))).body;
  expect(other).toMatchObject({ verdict: 'holds', certificate: { number: 1, state: 'in force' } });
  expect(other.recomputed).toMatchObject({ filesRead: true, count: 0, pagesAlike: true });
});

it('is told from one that was altered by a bit, and from a paper that nobody signed', async () => {
  const altered = new Uint8Array(await fileOf(issuer, report));
  altered[Math.floor(altered.length / 3)] = (altered[Math.floor(altered.length / 3)] ?? 0) ^ 1;
  const { body } = await checked(altered);
  expect(body).toMatchObject({
    verdict: 'altered',
    findings: [{ asks: 'digest', holds: false }, { holds: null }, {}, {}, {}],
  });
  expect(body.document ?? body.recomputed ?? body.kept).toBeUndefined();
  expect((await checked(Buffer.from('%PDF-1.7\nof somebody else\n%%EOF'))).body).toMatchObject({
    verdict: 'not-recognised',
  });
  expect(await checked(Buffer.from('no PDF at all'))).toMatchObject({
    status: 415,
    body: { code: 'file.type-mismatch' },
  });
});

it('is not taken for one of this lab where another signed the same content, and nothing more is told of it', async () => {
  const { content } = (await issuer.ask('GET', `/api/documents/${report}`)).body;
  const other = await sealingLab();
  const { body } = await checked(
    await other.seal(canonicalJson(content), (sealing) => composeDocument('lot test report', content, { sealing })),
  );
  expect(body).toMatchObject({
    verdict: 'unknown-key',
    findings: [
      { asks: 'digest', holds: true },
      { asks: 'signature', holds: false, says: expect.stringContaining('none of the keys of') },
      { asks: 'attachment', holds: false },
      { asks: 'ledger', holds: true },
      { asks: 'checkpoint', holds: false },
    ],
  });
  expect(body.document ?? body.recomputed ?? body.kept).toBeUndefined();
});

it('is taken up to 32 MiB, and not a byte more', async () => {
  const large = (bytes: number) => Buffer.concat([Buffer.from('%PDF-1.7\n'), Buffer.alloc(bytes - 9)]);
  expect(await checked(large(32 * 1024 * 1024 + 1))).toMatchObject({ status: 413, body: { code: 'body.too-large' } });
  expect(await checked(large(32 * 1024 * 1024))).toMatchObject({ status: 200, body: { verdict: 'not-recognised' } });
});

it('tells a stranger with the paper how it stands and what it says, and nothing to one who guesses', async () => {
  expect(await told(1)).toEqual({
    certificate: 'CT-1',
    lab: expect.any(String),
    product: expect.any(String),
    lot: LOT,
    issuedAt: expect.any(String),
    sha256: expect.stringMatching(/^[0-9a-f]{64}$/),
    state: 'in force',
    since: expect.any(String),
    askedAt: expect.any(String),
  });
  const { statusPath } = (await issuer.ask('GET', '/api/certificates/1')).body;
  const page = await service.anonymous.fetch(statusPath);
  expect(page.headers.get('content-type')).toContain('text/html');
  expect(await page.text()).toMatch(/CT-1: in force.*The lab stands by this certificate/s);
  const guessed = await service.anonymous.fetch(statusPath.slice(0, -1) + (statusPath.endsWith('A') ? 'B' : 'A'));
  expect(guessed.status).toBe(404);
  expect(await guessed.text()).not.toContain(LOT);
  expect(statusPath).toMatch(/^\/c\/[\w-]{22}$/);
});

it('is held and released with a reason, which a stranger is told', async () => {
  expect(await move(1, 'hold')).toMatchObject({ status: 200, body: { state: 'on hold' } });
  expect(await told(1)).toMatchObject({ state: 'on hold', reason: 'a rim of the lot came back cracked' });
  expect((await checked(await certificateFile(1))).body).toMatchObject({ verdict: 'on-hold' });
  expect(await move(1, 'hold')).toMatchObject({ status: 409 });
  expect(await move(1, 'release', 'it had been struck by a car')).toMatchObject({
    status: 200,
    body: { state: 'in force' },
  });
  expect(await told(1)).toMatchObject({ state: 'in force', reason: 'it had been struck by a car' });
});

it('is known to have been sent to whom, and as what', async () => {
  const body = { recipient: 'Saltmarsh Wheelworks, design office', way: 'by mail' };
  expect(await issuer.ask('POST', '/api/certificates/1/sendings', { body })).toMatchObject({
    status: 201,
    body: { sent: [{ ...body, state: 'in force', by: 'issuer' }] },
  });
});

it('is superseded by one that says what changed, and ends there', async () => {
  expect(await issue()).toMatchObject({ status: 409, body: { detail: expect.stringContaining('CT-1') } });
  const replaces = { certificate: 1, changed: 'the name of the product', because: 'it was misspelt' };
  const second = await issue({ replaces });
  expect(second, JSON.stringify(second.body)).toMatchObject({ status: 201, body: { number: 2, state: 'in force' } });
  expect(await told(1)).toMatchObject({ state: 'superseded', replacedBy: 'CT-2', reason: 'it was misspelt' });
  for (const to of ['hold', 'release', 'withdrawal']) expect(await move(1, to)).toMatchObject({ status: 409 });
  expect((await checked(await certificateFile(1))).body).toMatchObject({
    verdict: 'superseded',
    certificate: { number: 1, state: 'superseded' },
  });
});

it('is withdrawn for good, and then another may be issued', async () => {
  expect(await move(2, 'withdrawal')).toMatchObject({ status: 200, body: { state: 'withdrawn' } });
  for (const to of ['hold', 'release', 'withdrawal']) expect(await move(2, to)).toMatchObject({ status: 409 });
  expect(await told(2)).toMatchObject({ state: 'withdrawn' });
  expect((await checked(await certificateFile(2))).body).toMatchObject({
    verdict: 'withdrawn',
    certificate: { number: 2, state: 'withdrawn' },
  });
  expect(await issue()).toMatchObject({ status: 201, body: { number: 3 } });
  expect((await issuer.ask('GET', '/api/certificates')).body.items).toHaveLength(3);
});

it('is listed under its lot, and so are its files', async () => {
  const other = 'UNCERTIFIED';
  await keepKeyedLot(service, keyedLot([{ kPa: 1900, validity: VALID }], { lot: other }));
  const listed = async (path: string, lot: string) =>
    (await issuer.ask('GET', `/api/${path}?lot=${lot}&limit=2`)).body as { items: { lot: string }[]; next: string };
  for (const path of ['certificates', 'documents']) {
    const { items, next } = await listed(path, LOT);
    expect(items.map(({ lot }) => lot)).toEqual([LOT, LOT]);
    const rest = (await issuer.ask('GET', `/api/${path}?lot=${LOT}&after=${next}`)).body;
    // Three certificates; the report that the lot was kept with, a draft, a signed report and those three.
    expect(rest.items).toHaveLength(path === 'certificates' ? 1 : 4);
    const ofOther = path === 'certificates' ? [] : [{ lot: other, kind: 'lot test report' }];
    expect(await listed(path, other)).toMatchObject({ items: ofOther, next: null });
    expect(await issuer.ask('GET', `/api/${path}?lot=NONE`)).toMatchObject({
      status: 422,
      body: { code: 'query.invalid' },
    });
  }
});
