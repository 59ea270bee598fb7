import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto';

const sha256 = (bytes: Uint8Array | string) => createHash('sha256').update(bytes).digest();

/**
 * A passkey kept in memory: answers as a device does (Web Authentication, level 2, 5.8.1, 6.1 and 6.5.4; the byte
 * strings, maps and texts of CBOR by RFC 8949, 3.1).
 */
export class SoftPasskey {
  readonly #id = randomBytes(16);
  readonly #pair = generateKeyPairSync('ec', { namedCurve: 'P-256' });

  constructor(
    private readonly origin: string,
    private readonly party: string,
  ) {}

  /** A new credential, without attestation. */
  made(challenge: string) {
    const { x = '', y = '' } = this.#pair.publicKey.export({ format: 'jwk' });
    // {1: 2, 3: -7, -1: 1, -2: x, -3: y}: a point on P-256, for ES256 (RFC 9053, 7.1.1).
    const key = [[0xa5, 1, 2, 3, 0x26, 0x20, 1, 0x21], bytes(x), [0x22], bytes(y)];
    const length = [0, this.#id.length];
    const data = Buffer.concat([this.#head(0x45), Buffer.alloc(16), ...[length, this.#id, ...key].map(Buffer.from)]);
    const attestation = [[0xa3], text('fmt'), text('none'), text('attStmt'), [0xa0], text('authData')];
    const object = Buffer.concat([...attestation.map(Buffer.from), Buffer.from([0x58, data.length]), data]);
    return { ...this.#answer('webauthn.create', challenge), attestationObject: object.toString('base64url') };
  }

  /** A signature for a challenge. */
  signed(challenge: string) {
    const answer = this.#answer('webauthn.get', challenge);
    const data = this.#head(0x05);
    const signed = Buffer.concat([data, sha256(Buffer.from(answer.clientDataJSON, 'base64url'))]);
    const signature = sign('sha256', signed, this.#pair.privateKey).toString('base64url');
    return { ...answer, authenticatorData: data.toString('base64url'), signature };
  }

  /** For whom, with which flags, and a counter that stays 0. */
  #head(flags: number): Buffer {
    return Buffer.concat([sha256(this.party), Buffer.from([flags, 0, 0, 0, 0])]);
  }

  #answer(type: string, challenge: string) {
    const client = JSON.stringify({ type, challenge, origin: this.origin, crossOrigin: false });
    return { id: this.#id.toString('base64url'), clientDataJSON: Buffer.from(client).toString('base64url') };
  }
}

function bytes(base64url: string): number[] {
  const all = Buffer.from(base64url, 'base64url');
  return [0x58, all.length, ...all];
}

function text(word: string): number[] {
  return [0x60 + word.length, ...Buffer.from(word)];
}
