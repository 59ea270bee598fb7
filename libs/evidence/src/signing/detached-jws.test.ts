import { createPrivateKey, createPublicKey, verify } from 'node:crypto';
import { compactVerify } from 'jose';
import { describe, expect, it } from 'vitest';
import { checkDetached, dataKeyOf, kidOf, signDetached } from './detached-jws.js';

/** RFC 8037, appendix A.1 (the first key of RFC 8032, 7.1), its thumbprint in A.3, and the signature in A.4. */
const JWK = {
  kty: 'OKP',
  crv: 'Ed25519',
  d: 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A',
  x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
};
const THUMBPRINT = 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k';
const WHOLE =
  'eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc.' +
  'hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg';

const privateKey = createPrivateKey({ key: JWK, format: 'jwk' });
const publicKey = createPublicKey(privateKey);

describe('a signature of data that lie beside it', () => {
  it('names the key by its thumbprint (RFC 8037, A.3)', async () => {
    expect((await dataKeyOf(privateKey)).kid).toBe(THUMBPRINT);
    expect((await dataKeyOf(publicKey)).kid).toBe(THUMBPRINT);
  });

  it('rests on what verifies the example of RFC 8037, A.4', async () => {
    const { payload } = await compactVerify(WHOLE, publicKey, { algorithms: ['EdDSA'] });
    expect(Buffer.from(payload).toString()).toBe('Example of Ed25519 signing');
  });

  it('is of header and data as RFC 7515, 5.1, puts them together', async () => {
    const payload = '{"burstPressure":1842}';
    const jws = await signDetached(payload, { kid: THUMBPRINT, privateKey });
    const [header = '', signature = ''] = jws.split('..');
    expect(Buffer.from(header, 'base64url').toString()).toBe(`{"alg":"EdDSA","kid":"${THUMBPRINT}"}`);
    const signed = Buffer.from(`${header}.${Buffer.from(payload).toString('base64url')}`);
    expect(verify(null, signed, publicKey, Buffer.from(signature, 'base64url'))).toBe(true);
    expect(kidOf(jws)).toBe(THUMBPRINT);
    expect(await checkDetached(jws, payload, { kid: THUMBPRINT, publicKey })).toBe(true);
  });

  it('is refused with any letter of it changed, with other data, and by another key', async () => {
    const payload = '{"burstPressure":1842}';
    const jws = await signDetached(payload, { kid: THUMBPRINT, privateKey });
    const holds = (text: string, data = payload) =>
      (async () => checkDetached(text, data, { kid: THUMBPRINT, publicKey }))().catch(() => false);
    for (let at = 0; at < jws.length; at += 1)
      for (const other of ['A', '_', '.', '=']) {
        const changed = jws.slice(0, at) + other + jws.slice(at + 1);
        expect(await holds(changed), changed).toBe(changed === jws);
      }
    expect(await holds(jws, '{"burstPressure":1843}')).toBe(false);
    expect(await checkDetached(jws, payload, { kid: 'x'.repeat(43), publicKey })).toBe(false);
  });
});
