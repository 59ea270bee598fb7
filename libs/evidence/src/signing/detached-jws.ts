import { createPublicKey, type KeyObject } from 'node:crypto';
import { CompactSign, calculateJwkThumbprint, compactVerify, exportJWK } from 'jose';

/** A key for data: Ed25519, named by the thumbprint of its public half (RFC 7638). */
export interface DataKey {
  kid: string;
  publicKey: KeyObject;
}

export async function dataKeyOf(key: KeyObject): Promise<DataKey> {
  const publicKey = key.type === 'private' ? createPublicKey(key) : key;
  return { kid: await calculateJwkThumbprint(await exportJWK(publicKey)), publicKey };
}

/**
 * A signature of data that lie beside it: a compact JWS (RFC 7515) without its middle part (appendix F), with EdDSA
 * on Ed25519 (RFC 8037): `header..signature`.
 */
export async function signDetached(
  payload: string,
  { kid, privateKey }: { kid: string; privateKey: KeyObject },
): Promise<string> {
  const whole = await new CompactSign(Buffer.from(payload)).setProtectedHeader({ alg: 'EdDSA', kid }).sign(privateKey);
  const [header, , signature] = whole.split('.');
  return `${header}..${signature}`;
}

/** The name of the key that a detached signature says it is by. Throws where it is written in another form than ours. */
export function kidOf(jws: string): string {
  const [, header = '', signature = ''] = /^([\w-]+)\.\.([\w-]+)$/.exec(jws) ?? [];
  const text = Buffer.from(header, 'base64url').toString();
  const kid = /^\{"alg":"EdDSA","kid":"([\w-]{43})"\}$/.exec(text)?.[1];
  if (kid === undefined || ![header, signature].every(isCanonical))
    throw new Error('What stands in place of the signature of the data is none.');
  return kid;
}

/** Base64url that decodes and encodes to another text would be a second spelling of one signature. */
function isCanonical(encoded: string): boolean {
  return Buffer.from(encoded, 'base64url').toString('base64url') === encoded;
}

/** Is the signature one of this payload by this key? */
export async function checkDetached(jws: string, payload: string, { kid, publicKey }: DataKey): Promise<boolean> {
  if (kidOf(jws) !== kid) return false;
  const whole = jws.replace('..', `.${Buffer.from(payload).toString('base64url')}.`);
  return compactVerify(whole, publicKey, { algorithms: ['EdDSA'] }).then(
    () => true,
    () => false,
  );
}
