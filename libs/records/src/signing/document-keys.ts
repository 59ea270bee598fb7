import { createPrivateKey, generateKeyPairSync, randomBytes, X509Certificate } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { dataKeyOf, type Signer } from '@breakbook/evidence';
import { KeysUnsafe, keptKey } from '../ledger/key-files.js';
import { newCertificate } from './new-certificate.js';

/** A pair of keys that a lab signs documents with. */
export interface DocumentKeyPair {
  /** Signs files. */
  signer: Signer;
  /** Signs data. */
  data: { kid: string; privateKey: Signer['privateKey'] };
}

/** What the records keep of a pair. */
export interface PublicPair {
  certificates: string[];
  dataKey: { kty: 'OKP'; crv: 'Ed25519'; x: string; kid: string };
}

/**
 * Keys that sign documents: files in a folder outside the database, which its owner alone may enter, two for each pair.
 * `documents-<lab>-<number>.pem` holds a private key as PKCS #8 and its certificates, `data-<lab>-<number>.pem` one for
 * Ed25519. A pair of the lab's own is put there beforehand as `documents-<lab>-next.pem`; else one is made.
 */
export class DocumentKeys {
  readonly #known = new Map<string, Promise<DocumentKeyPair>>();

  constructor(private readonly folder: string) {}

  /** Makes the pair of this number, or takes what lies there for it. */
  async make(labId: string, number: number, holder: string, from: Date): Promise<PublicPair> {
    this.#takeNext(labId, number);
    // Made beside the files: whoever comes second in the same moment takes what the first put there.
    const made = await newCertificate(holder, { from, serial: `00${randomBytes(15).toString('hex')}` });
    keptKey(this.folder, `documents-${labId}-${number}.pem`, () => `${made.privateKey}${made.certificate}`);
    keptKey(this.folder, `data-${labId}-${number}.pem`, () =>
      String(generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' })),
    );
    this.#known.delete(`${labId} ${number}`);
    const { signer, data } = await this.pair(labId, number);
    const { x = '' } = data.privateKey.export({ format: 'jwk' });
    return {
      certificates: signer.certificates.map(String),
      dataKey: { kty: 'OKP', crv: 'Ed25519', x, kid: data.kid },
    };
  }

  /** The pair of this number. Throws where its files are not there, or are not its owner's alone. */
  pair(labId: string, number: number): Promise<DocumentKeyPair> {
    const place = `${labId} ${number}`;
    const known = this.#known.get(place) ?? this.#read(labId, number);
    this.#known.set(place, known);
    known.catch(() => this.#known.delete(place));
    return known;
  }

  async #read(labId: string, number: number): Promise<DocumentKeyPair> {
    const files = keptKey(this.folder, `documents-${labId}-${number}.pem`, () => lost(labId, number));
    const certificates = files.text.match(/-----BEGIN CERTIFICATE-----[^-]+-----END CERTIFICATE-----/g) ?? [];
    const signer = {
      privateKey: createPrivateKey(files.text),
      certificates: certificates.map((one) => new X509Certificate(one)),
    };
    if (!signer.certificates[0]?.checkPrivateKey(signer.privateKey))
      throw new KeysUnsafe(
        `${files.file} must hold a private key and, first of its certificates, the one of that key.`,
      );
    const data = keptKey(this.folder, `data-${labId}-${number}.pem`, () => lost(labId, number));
    const privateKey = createPrivateKey(data.text);
    if (privateKey.asymmetricKeyType !== 'ed25519')
      throw new KeysUnsafe(
        `${data.file} holds a key for ${privateKey.asymmetricKeyType}; data are signed with Ed25519.`,
      );
    return { signer, data: { kid: (await dataKeyOf(privateKey)).kid, privateKey } };
  }

  #takeNext(labId: string, number: number): void {
    const next = path.join(this.folder, `documents-${labId}-next.pem`);
    const own = path.join(this.folder, `documents-${labId}-${number}.pem`);
    if (!fs.existsSync(next) || fs.existsSync(own)) return;
    fs.renameSync(next, own);
  }
}

function lost(labId: string, number: number): never {
  throw new KeysUnsafe(
    `The private keys of pair ${number} of lab ${labId} are not in their folder. Put the files back, or make a new pair.`,
  );
}
