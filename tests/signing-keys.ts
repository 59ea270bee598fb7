import { execFileSync } from 'node:child_process';
import { createPrivateKey, generateKeyPairSync, X509Certificate } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {
  CONTENT_TABLE,
  dataKeyOf,
  fillSignature,
  formatDocumentRecord,
  formatNoteKey,
  type KeyList,
  linkEntry,
  type Signer,
  type SigningKeys,
  sha256,
  signCheckpoint,
  signCms,
  signDetached,
} from '@breakbook/evidence';

/** A key with a certificate made by openssl, which is another maker than the lab's own. */
export function opensslSigner(algorithm: 'ec' | 'rsa', holder = 'Saltmarsh Wheelworks test lab'): Signer {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-keys-'));
  try {
    const kind =
      algorithm === 'ec' ? ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256'] : ['-newkey', 'rsa:2048'];
    const [key, certificate] = ['key.pem', 'certificate.pem'].map((name) => path.join(folder, name)) as [
      string,
      string,
    ];
    execFileSync(
      'openssl',
      [
        'req',
        '-x509',
        ...kind,
        '-nodes',
        '-keyout',
        key,
        '-out',
        certificate,
        '-days',
        '7300',
        '-subj',
        `/CN=${holder}`,
      ],
      { stdio: 'ignore' },
    );
    return {
      privateKey: createPrivateKey(fs.readFileSync(key)),
      certificates: [new X509Certificate(fs.readFileSync(certificate))],
    };
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}

/** What a lab signs documents with in tests: a pair of keys, and a ledger of one entry. */
export async function sealingLab(pairs = 1): Promise<SealingLab> {
  const ledger = generateKeyPairSync('ed25519');
  const key = formatNoteKey({ name: ORIGIN, publicKey: ledger.publicKey });
  const made = await Promise.all(
    Array.from({ length: pairs }, async (_, n) => {
      const signer = opensslSigner('ec');
      const { privateKey, publicKey } = generateKeyPairSync('ed25519');
      const { kid } = await dataKeyOf(publicKey);
      const { x = '' } = publicKey.export({ format: 'jwk' });
      const listed: SigningKeys = {
        number: n + 1,
        certificates: signer.certificates.map(String),
        data: { kty: 'OKP', crv: 'Ed25519', x, kid },
        from: `${2031 + n}-01-01T00:00:00.000Z`,
        ...(n < pairs - 1 ? { until: `${2032 + n}-01-01T00:00:00.000Z` } : {}),
      };
      return { signer, privateKey, kid, listed };
    }),
  );
  const keys: KeyList = {
    form: 1,
    lab: { id: 'saltmarsh', name: 'Saltmarsh Wheelworks' },
    keys: made.map(({ listed }) => listed),
    ledger: [key],
  };
  return {
    keys,
    seal: async (json, compose, pair = 1) => {
      const { signer, privateKey, kid } = made[pair - 1] ?? made[0] ?? missing();
      const row = { table: CONTENT_TABLE, id: 'content', digest: sha256('row'), after: { sha256: sha256(json) } };
      const at = '2031-02-20T09:30:00.000Z';
      const entry = linkEntry(undefined, { id: '1', lab: 'saltmarsh', at, by: 'ada', action: 'fixed', rows: [row] });
      const checkpoint = signCheckpoint({ origin: ORIGIN, size: 1, root: entry.hash }, ledger.privateKey);
      const record = formatDocumentRecord({ form: 1, entry: entry.text, leaf: 0, proof: [], checkpoint, key });
      const jws = await signDetached(json, { kid, privateKey });
      return fillSignature(await compose({ jws, record }), (digest) => signCms(digest, signer));
    },
  };
}

export interface SealingLab {
  keys: KeyList;
  /** Signs a document of this content: with the first pair of keys, or another. */
  seal(
    json: string,
    compose: (sealing: { jws: string; record: string }) => Promise<Uint8Array>,
    pair?: number,
  ): Promise<Uint8Array>;
}

const ORIGIN = 'breakbook-ledger/saltmarsh';

function missing(): never {
  throw new Error('A lab signs with one pair of keys or more.');
}
