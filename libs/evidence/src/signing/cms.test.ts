import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { opensslSigner } from '../../../../tests/signing-keys.ts';
import { needs } from '../../../../tests/tools.ts';
import { sha256 } from '../digest.js';
import { checkCms, readCms, signCms } from './cms.js';

const CONTENT = 'Burst pressure of specimen 401: 1 842 kPa\n';
const digest = sha256(CONTENT);

needs('openssl')('a detached CMS signature', () => {
  describe.each(['ec', 'rsa'] as const)('with a key for %s', (algorithm) => {
    const signer = opensslSigner(algorithm);
    const signed = signCms(digest, signer);

    it('is good for openssl (cms -verify), and for no other content', () => {
      expect(opensslTakes(signed, CONTENT)).toBe(true);
      expect(opensslTakes(signed, CONTENT.replace('1 842', '1 843'))).toBe(false);
    });

    it('is good here, and for no other digest', () => {
      expect(checkCms(readCms(signed), digest).fingerprint256).toBe(signer.certificates[0]?.fingerprint256);
      expect(() => checkCms(readCms(signed), sha256('another'))).toThrow(/was signed/);
    });

    it('is refused with a bit of it turned in every byte', () => {
      for (let byte = 0; byte < signed.length; byte += algorithm === 'ec' ? 1 : 3) {
        const bit = byte * 8 + (byte % 8);
        const turned = Uint8Array.from(signed);
        turned[bit >> 3] = (turned[bit >> 3] ?? 0) ^ (1 << (bit & 7));
        expect(holds(turned), `bit ${bit}`).toBe(false);
      }
    });

    it('is refused with bytes behind it', () => {
      expect(holds(Buffer.concat([signed, Uint8Array.of(0)]))).toBe(false);
    });
  });

  it('names every certificate in it, so that none can be exchanged', () => {
    const [own, other] = [opensslSigner('ec'), opensslSigner('ec', 'Another')];
    const issuer = opensslSigner('ec', 'Whoever issued it').certificates;
    const signed = Buffer.from(signCms(digest, { ...own, certificates: [...own.certificates, ...issuer] }));
    const [from, to] = [issuer[0]?.raw, other.certificates[0]?.raw];
    expect(readCms(signed).certificates).toHaveLength(2);
    expect(checkCms(readCms(signed), digest).fingerprint256).toBe(own.certificates[0]?.fingerprint256);
    if (!from || !to) throw new Error('no certificates');
    const at = signed.indexOf(from);
    const exchanged = Buffer.concat([signed.subarray(0, at), to, signed.subarray(at + from.length)]);
    expect(holds(exchanged)).toBe(false);
  });

  it('is made only with the key of its certificate', () => {
    const [one, other] = [opensslSigner('ec'), opensslSigner('ec')];
    expect(() => signCms(digest, { privateKey: one.privateKey, certificates: other.certificates })).toThrow(
      /not that of the private key/,
    );
  });
});

function holds(cms: Uint8Array): boolean {
  try {
    checkCms(readCms(cms), digest);
    return true;
  } catch {
    return false;
  }
}

function opensslTakes(cms: Uint8Array, content: string): boolean {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-cms-'));
  try {
    fs.writeFileSync(path.join(folder, 'cms'), cms);
    fs.writeFileSync(path.join(folder, 'content'), content);
    const args = ['-inform', 'DER', '-in', 'cms', '-content', 'content', '-binary', '-noverify', '-out', '/dev/null'];
    execFileSync('openssl', ['cms', '-verify', ...args], { cwd: folder, stdio: 'ignore' });
    return true;
  } catch {
    return false;
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}
