import net from 'node:net';
import { gzipSync } from 'node:zlib';
import { PROBLEM_CODES } from '@breakbook/lab';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SignedInCaller, startTestService, type TestService } from '../../../../tests/service.ts';
import { ProblemAnswer } from './problem-details.js';

const product = {
  product: 'dunlin-42',
  name: 'Dunlin 42',
  description: 'Hooked composite rim',
  beadStyle: 'hooked',
  brakeKind: 'disc',
  markedMaximum: { value: 830, unit: 'kPa' },
};
const json = JSON.stringify(product);
const withMember = (member: string) => `${json.slice(0, -1)},${member}}`;

let service: TestService;
let designer: SignedInCaller;
beforeAll(async () => {
  service = await startTestService();
  designer = await service.signIn('designer', ['define', 'calibrate', 'draw']);
  const { status } = await designer.ask('POST', '/api/products', { body: { ...product, product: 'known' } });
  expect(status).toBe(201);
}, 60_000);
afterAll(() => service.close());

interface Sent {
  method?: string;
  to?: string;
  body?: unknown;
  headers?: Record<string, string>;
}

type Row = [what: string, sent: Sent, status: number, code: string, more?: object];

const post = (body: unknown, headers?: Record<string, string>): Sent => ({
  method: 'POST',
  body,
  ...(headers ? { headers } : {}),
});
const change = (part: object) => post({ ...product, ...part });
const get = (to: string, headers?: Record<string, string>): Sent => ({ to, ...(headers ? { headers } : {}) });

const JSON_ROWS: Row[] = [
  ['cut JSON', post(json.slice(0, -1)), 400, 'json.syntax', { line: 1 }],
  ['two documents', post(json + json), 400, 'json.syntax'],
  ['NaN', post(withMember('"innerWidth":{"value":NaN,"unit":"mm"}')), 400, 'json.syntax'],
  ['a comment', post(`// a product\n${json}`), 400, 'json.syntax'],
  ['a byte order mark alone', post(new Uint8Array([0xef, 0xbb, 0xbf])), 400, 'json.syntax'],
  ['bytes that are not UTF-8', post(new Uint8Array([0x7b, 0x22, 0xff, 0x22, 0x7d])), 400, 'json.encoding'],
  ['overlong UTF-8', post(new Uint8Array([0x22, 0xc0, 0xaf, 0x22])), 400, 'json.encoding'],
  ['65 levels', post('['.repeat(65) + ']'.repeat(65)), 400, 'json.too-deep'],
  ['a hundred thousand levels', post('['.repeat(100_000) + ']'.repeat(100_000)), 400, 'json.too-deep'],
  ['a doubled key', post(withMember('"name":"other"')), 400, 'json.duplicate-key', { line: 1 }],
  ['a doubled key, escaped', post(withMember('"\\u006eame":"other"')), 400, 'json.duplicate-key'],
  ['1e400', post(withMember('"innerWidth":{"value":1e400,"unit":"mm"}')), 422, 'number.not-finite'],
];

const BODY_ROWS: Row[] = [
  ['no body', { method: 'POST' }, 400, 'body.empty'],
  ['an empty body', post(''), 400, 'body.empty'],
  ['an array', post('[]'), 422, 'body.not-object', { pointer: '' }],
  ['null', post('null'), 422, 'body.not-object'],
  ['a text', post('"dunlin-42"'), 422, 'body.not-object'],
  ['256 kB and a byte', post(' '.repeat(256 * 1024 + 1 - json.length) + json), 413, 'body.too-large'],
  ['another media type', post(json, { 'content-type': 'text/plain' }), 415, 'body.media-type'],
  [
    'a form of a page',
    post('name=Dunlin', { 'content-type': 'application/x-www-form-urlencoded' }),
    415,
    'body.media-type',
  ],
  ['a form with parts', post(json, { 'content-type': 'multipart/form-data; boundary=x' }), 415, 'body.media-type'],
  ['a picture', post(json, { 'content-type': 'image/png' }), 415, 'body.media-type'],
  ['no media type', post(json, { 'content-type': '' }), 415, 'body.media-type'],
  [
    'a compressed body',
    post(gzipSync(json), { 'content-encoding': 'gzip' }),
    415,
    'body.media-type',
    { found: 'gzip' },
  ],
  ['a field missing', change({ name: undefined }), 422, 'body.missing-field', { pointer: '/name' }],
  ['a field unknown', change({ colour: 'red' }), 422, 'body.unknown-field', { pointer: '/colour' }],
  [
    'a field unknown deep down',
    change({ markedMaximum: { value: 1, unit: 'kPa', of: 1 } }),
    422,
    'body.unknown-field',
    { pointer: '/markedMaximum/of' },
  ],
  [
    'a number as text',
    change({ markedMaximum: { value: '830', unit: 'kPa' } }),
    422,
    'body.type',
    { pointer: '/markedMaximum/value', found: '830' },
  ],
  ['a text as number', change({ name: 42 }), 422, 'body.type', { pointer: '/name' }],
  ['null for a text', change({ name: null }), 422, 'body.type', { pointer: '/name' }],
  ['not in the list', change({ beadStyle: 'glued' }), 422, 'body.enum', { pointer: '/beadStyle', found: 'glued' }],
  ['a bad form', change({ product: 'dunlin 42' }), 422, 'body.format', { pointer: '/product' }],
  ['a bad form, a path', change({ product: '../x' }), 422, 'body.format', { pointer: '/product' }],
  ['no unit', change({ markedMaximum: { value: 830 } }), 422, 'body.missing-field', { pointer: '/markedMaximum/unit' }],
  [
    'an empty unit',
    change({ markedMaximum: { value: 830, unit: '' } }),
    422,
    'unit.missing',
    { pointer: '/markedMaximum/unit' },
  ],
  [
    'an unknown unit',
    change({ markedMaximum: { value: 830, unit: 'kpa' } }),
    422,
    'unit.unknown',
    { pointer: '/markedMaximum/unit' },
  ],
  [
    'a unit of another quantity',
    change({ markedMaximum: { value: 830, unit: 'mm' } }),
    422,
    'unit.wrong-dimension',
    { pointer: '/markedMaximum/unit' },
  ],
  ['U+0000', change({ name: 'Dunlin\u0000 42' }), 422, 'body.text-invalid', { pointer: '/name' }],
  ['U+0000 in a name', post(withMember('"a\\u0000b":1')), 422, 'body.text-invalid'],
  ['a lone surrogate', post(json.replace('Dunlin 42', '\\ud83d')), 422, 'body.text-invalid', { pointer: '/name' }],
  [
    'a lone surrogate where any text goes',
    change({ markedMaximum: { value: 1, unit: 'kPa', entered: { text: '1', unit: '\ud83d' } } }),
    422,
    'body.text-invalid',
  ],
  [
    'U+0000 where any text goes',
    change({ markedMaximum: { value: 1, unit: 'kPa', entered: { text: '\u0000', unit: 'kPa' } } }),
    422,
    'body.text-invalid',
    { pointer: '/markedMaximum/entered/text' },
  ],
  ['a member named __proto__', post(withMember('"__proto__":{"name":"x"}')), 422, 'body.text-invalid'],
  [
    'a control character',
    change({ name: 'Dunlin\u001b[31m' }),
    422,
    'body.text-invalid',
    { pointer: '/name', found: 'Dunlin\\u001B[31m' },
  ],
  ['blanks only', change({ name: ' \u00a0 ' }), 422, 'body.text-invalid', { pointer: '/name' }],
  ['too long', change({ name: 'x'.repeat(301) }), 422, 'body.text-invalid', { pointer: '/name' }],
  ['a name that is taken', change({ product: 'known' }), 409, 'state.conflict', { pointer: '/product' }],
];

const ADDRESS_ROWS: Row[] = [
  ['an address that is none', get('/api/nothing'), 404, 'request.not-found'],
  ['a thing that is not there', get('/api/products/none'), 404, 'request.not-found'],
  ['a thing of no possible name', get('/api/products/%20'), 404, 'request.not-found'],
  ['U+0000 in an address', get('/api/products/%00'), 404, 'request.not-found'],
  ['a path in an address', get('/api/products/..%2f..%2fetc'), 404, 'request.not-found'],
  ['an id that is none', get('/api/rigs/none/placements'), 404, 'request.not-found'],
  ['a bad escape in the path', get('/api/products/%zz'), 400, 'request.malformed'],
  ['no UTF-8 in the path', get('/api/products/%ff'), 400, 'request.malformed'],
  ['a bad escape in the query', get('/api/products?limit=%zz'), 400, 'request.malformed'],
  ['no UTF-8 in the query', get('/api/products?limit=%ff'), 400, 'request.malformed'],
  ['an unknown parameter', get('/api/products?colour=red'), 422, 'query.invalid', { parameter: 'colour' }],
  ['a parameter where none is taken', get('/api/products/known?limit=1'), 422, 'query.invalid', { parameter: 'limit' }],
  ['a parameter given twice', get('/api/products?limit=1&limit=2'), 422, 'query.invalid', { parameter: 'limit' }],
  ['a page of none', get('/api/products?limit=0'), 422, 'query.invalid', { parameter: 'limit', found: '0' }],
  ['a page too large', get('/api/products?limit=201'), 422, 'query.invalid', { parameter: 'limit' }],
  ['a page size that is no number', get('/api/products?limit=1e2'), 422, 'query.invalid', { parameter: 'limit' }],
  ['an unknown order', get('/api/products?order=name'), 422, 'query.invalid', { parameter: 'order' }],
  ['a place that is none', get('/api/products?after=YWZ0ZXIgMQ%3D%3D'), 422, 'query.invalid', { parameter: 'after' }],
  ['a filter that names nothing', get('/api/specimens?lot=none'), 422, 'query.invalid', { parameter: 'lot' }],
  [
    'a method not offered',
    { method: 'DELETE', to: '/api/products/known' },
    405,
    'request.method',
    { expected: 'GET, HEAD, PUT' },
  ],
  [
    'another method not offered',
    { method: 'PATCH', to: '/api/products' },
    405,
    'request.method',
    { expected: 'GET, HEAD, POST' },
  ],
  ['a type not offered', get('/api/products', { accept: 'text/csv' }), 406, 'request.not-acceptable'],
  [
    'a type ruled out',
    get('/api/products', { accept: 'application/json;q=0, text/html' }),
    406,
    'request.not-acceptable',
  ],
  ['an address too long', get(`/api/products?after=${'x'.repeat(9000)}`), 414, 'request.too-long'],
  ['a part of an address too long', get(`/api/products/${'x'.repeat(300)}`), 414, 'request.too-long'],
];

const VERSION_ROWS: Row[] = [
  ['no version', { method: 'PUT', to: '/api/products/known', body: {} }, 428, 'version.required'],
  [
    'any version',
    { method: 'PUT', to: '/api/products/known', body: {}, headers: { 'if-match': '*' } },
    428,
    'version.required',
  ],
  [
    'another version',
    {
      method: 'PUT',
      to: '/api/products/known',
      body: { reason: 'r', content: { ...product, product: 'known' } },
      headers: { 'if-match': '"7"' },
    },
    412,
    'version.stale',
  ],
  [
    'a version without quotes',
    { method: 'PUT', to: '/api/products/known', body: {}, headers: { 'if-match': '1' } },
    412,
    'version.stale',
  ],
  [
    'a weak version',
    { method: 'PUT', to: '/api/products/known', body: {}, headers: { 'if-match': 'W/"1"' } },
    412,
    'version.stale',
  ],
];

async function head(): Promise<unknown> {
  return (await designer.ask('GET', '/api/ledger/head')).body;
}

describe.each([
  ['JSON', JSON_ROWS],
  ['bodies', BODY_ROWS],
  ['addresses and methods', ADDRESS_ROWS],
  ['versions', VERSION_ROWS],
])('%s', (_, rows) => {
  it.each(rows)('%s: refused by its code, and nothing is changed', async (_what, sent, status, code, more = {}) => {
    const { method = 'GET', to = '/api/products', body, headers = {} } = sent;
    const before = await head();
    const answer = await designer.ask(method, to, { body, headers });
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status, body: { code, status, ...more } });
    expect(answer.headers.get('content-type')).toBe('application/problem+json; charset=utf-8');
    expect(answer.headers.get('cache-control')).toBe('no-store');
    expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
    expect(ProblemAnswer.safeParse(answer.body).error).toBeUndefined();
    expect(PROBLEM_CODES).toContain(code);
    expect(JSON.stringify(answer.body)).not.toMatch(/node_modules|\.ts:|\bselect\b.*\bfrom\b|stack/i);
    if (status === 405) expect(answer.headers.get('allow')).toBe((more as { expected: string }).expected);
    expect(await head()).toEqual(before);
  });
});

describe('framing, told before there is a request', () => {
  const request = (lines: string[], body = '') => [...lines, '', body].join('\r\n');

  it.each([
    ['no HTTP at all', request(['hello']), 400, 'request.malformed'],
    [
      'two lengths',
      request(['POST /api/products HTTP/1.1', 'Host: x', 'Content-Length: 2', 'Content-Length: 3'], '{}'),
      400,
      'request.malformed',
    ],
    [
      'a length and pieces',
      request(
        ['POST /api/products HTTP/1.1', 'Host: x', 'Content-Length: 2', 'Transfer-Encoding: chunked'],
        '0\r\n\r\n',
      ),
      400,
      'request.malformed',
    ],
    [
      'a length that is no number',
      request(['POST /api/products HTTP/1.1', 'Host: x', 'Content-Length: two'], '{}'),
      400,
      'request.malformed',
    ],
    [
      'a header with a line end in it',
      request(['GET /api/products HTTP/1.1', 'Host: x', 'X-A: b\rc']),
      400,
      'request.malformed',
    ],
    [
      'a head of 20 kB',
      request(['GET /api/products HTTP/1.1', 'Host: x', `X-A: ${'y'.repeat(20_000)}`]),
      431,
      'request.too-long',
    ],
    [
      'a body whose length nothing tells',
      request(['POST /api/products HTTP/1.1', 'Host: x', 'Content-Type: application/json', 'Connection: close']),
      411,
      'request.no-length',
    ],
  ])('%s', async (_what, text, status, code) => {
    const answer = await sentRaw(text);
    expect(answer).toMatch(new RegExp(`^HTTP/1\\.1 ${status} `));
    expect(answer).toContain('application/problem+json');
    expect(answer).toMatch(/^connection: close\r$/im);
    const body: unknown = JSON.parse(answer.slice(answer.indexOf('\r\n\r\n') + 4));
    expect(body).toMatchObject({ code, status });
    expect(ProblemAnswer.safeParse(body).error).toBeUndefined();
  });

  function sentRaw(text: string): Promise<string> {
    return new Promise((resolve, reject) => {
      const socket = net.connect(Number(new URL(service.url).port), '127.0.0.1', () => socket.write(text));
      let answer = '';
      socket.on('data', (data) => {
        answer += data;
      });
      socket.on('close', () => resolve(answer));
      socket.on('error', reject);
      socket.setTimeout(5000, () => socket.destroy(new Error('the connection stayed open')));
    });
  }
});

describe('what is taken', () => {
  it('is kept letter by letter, whatever it looks like to other programs', async () => {
    const description =
      "=1+1 <script>alert(1)</script> ../../etc \u202Eright to left\u202C \u{1F6B2} e\u0301 '; drop table lot; --";
    const { status } = await designer.ask('POST', '/api/products', { body: { ...product, description } });
    expect(status).toBe(201);
    expect((await designer.ask('GET', '/api/products/dunlin-42')).body.content.description).toBe(description);
  });

  it.each(['*/*', 'application/*', 'application/json', 'text/html, */*;q=0.1', ''])('Accept: %s', async (accept) => {
    expect((await designer.ask('GET', '/api/products', { headers: { accept } })).status).toBe(200);
  });

  it('is as much as 256 kB', async () => {
    const body = ' '.repeat(256 * 1024 - json.length) + json.replace('dunlin-42', 'dunlin-43');
    expect((await designer.ask('POST', '/api/products', { body })).status).toBe(201);
  });
});

describe('what is not yours', () => {
  it('is answered as what is not there, to the letter', async () => {
    const other = await service.records.labs();
    expect(other).toHaveLength(1);
    const { aLab } = await import('../../../../tests/lab-fixture.ts');
    const by = await aLab(service.records);
    const { tables } = await import('@breakbook/records');
    await service.records.change(by, 'product defined', async (rows) => {
      const noun = await rows.add(tables.Product, { key: 'theirs' });
      await rows.addVersion(tables.ProductVersion, noun.id, {
        content: { ...product, product: 'theirs' } as never,
      });
    });
    const [theirs, none] = await Promise.all(
      ['theirs', 'absent'].map((key) => designer.ask('GET', `/api/products/${key}`)),
    );
    const told = (answer: typeof theirs, key: string) => {
      const { instance: _, ...rest } = answer?.body ?? {};
      return JSON.stringify({ status: answer?.status, ...rest }).replaceAll(key, 'KEY');
    };
    expect(told(theirs, 'theirs')).toBe(told(none, 'absent'));
    const put = (key: string) =>
      designer.ask('PUT', `/api/products/${key}`, {
        headers: { 'if-match': '"1"' },
        body: { reason: 'r', content: { ...product, product: key } },
      });
    expect((await put('theirs')).body.code).toBe('request.not-found');
    expect(
      (await designer.ask('GET', '/api/products')).body.items.map(({ key }: { key: string }) => key),
    ).not.toContain('theirs');

    const lot = (key: string) =>
      designer.ask('POST', '/api/lots', {
        body: {
          lot: 'L-1',
          product: key,
          kind: 'production',
          size: 10,
          madeFrom: '2026-09-01',
          madeTo: '2026-09-02',
          customer: { name: 'Overland Cycling Federation', contact: 'the test desk' },
        },
      });
    const [lotOfTheirs, lotOfNone] = [await lot('theirs'), await lot('absent')];
    expect(lotOfTheirs).toMatchObject({ status: 422, body: { code: 'body.not-found', pointer: '/product' } });
    expect(told(lotOfTheirs, 'theirs')).toBe(told(lotOfNone, 'absent'));
  });
});

describe('the calculator', () => {
  const ask = (body: unknown) => designer.ask('POST', '/api/compute', { body });

  it('answers what the function answers, and a wrong question as a problem', async () => {
    // Zero-failure sizes: 29 at reliability 0.9 and confidence 0.95 (ln 0.05 / ln 0.9 = 28.4; Clopper and Pearson 1934).
    expect(await ask({ method: 'zero-failure-size', reliability: 0.9, confidence: 0.95 })).toMatchObject({
      status: 200,
      body: { method: 'zero-failure-size', result: { n: 29 } },
    });
    expect(await ask({ method: 'weibull-fit', sample: { atLeast: [3, 4] } })).toMatchObject({
      status: 200,
      body: { notEvaluated: { because: expect.any(String), possibleIf: expect.any(String) } },
    });
    expect(await ask({ method: 'summary', values: ['1'] })).toMatchObject({
      status: 422,
      body: { code: 'body.type', pointer: '/values/0' },
    });
    expect(await ask('{"method":"summary","method":"summary"}')).toMatchObject({
      status: 400,
      body: { code: 'json.duplicate-key' },
    });
    expect(await ask('')).toMatchObject({ status: 400, body: { code: 'body.empty' } });
    expect(await ask('[]')).toMatchObject({ status: 422, body: { code: 'body.not-object' } });
    expect(await service.anonymous.ask('POST', '/api/compute', { body: {} })).toMatchObject({ status: 401 });
  });

  it('lists its methods', async () => {
    const { body } = await designer.ask('GET', '/api/compute/methods');
    expect(body.items.map(({ method }: { method: string }) => method)).toContain('lower-tolerance-bound');
    expect((await designer.ask('GET', '/api/compute/schema')).body.oneOf).toHaveLength(body.items.length);
  });

  it('takes ten megabytes, keeps answering others meanwhile, and refuses more than 32 MiB', async () => {
    const values = Array.from({ length: 500_000 }, (_, n) => 1 + Math.sin(n));
    const body = JSON.stringify({ method: 'summary', values });
    expect(body.length).toBeGreaterThan(8e6);
    const answered: number[] = [];
    const pending = ask(body).finally(() => answered.push(-1));
    while (!answered.includes(-1)) {
      const begun = performance.now();
      await service.anonymous.ask('GET', '/health/live');
      if (!answered.includes(-1)) answered.push(performance.now() - begun);
    }
    expect(await pending).toMatchObject({ status: 200, body: { result: { n: 500_000 } } });
    // Loose: what it must not do is wait for the whole calculation.
    expect(Math.max(...answered)).toBeLessThan(1500);
    expect(await ask(`{"method":"summary","values":[${'1,'.repeat(17 * 1024 * 1024)}1]}`)).toMatchObject({
      status: 413,
      body: { code: 'body.too-large' },
    });
  }, 60_000);
});
