import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { SealedSecrets } from './sealed-secrets.js';

describe('a sealed secret', () => {
  const folders: string[] = [];
  const aFolder = () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-keys-'));
    folders.push(folder);
    return folder;
  };
  afterAll(() => {
    for (const folder of folders) fs.rmSync(folder, { recursive: true });
  });
  const secret = new TextEncoder().encode('12345678901234567890');

  it('opens for whom it was sealed, under the same key, also after a restart', () => {
    const folder = aFolder();
    const kept = new SealedSecrets(folder).seal(secret, 'imke');
    expect(Buffer.from(new SealedSecrets(folder).open(kept, 'imke') ?? [])).toEqual(Buffer.from(secret));
    expect(new SealedSecrets(folder).open(kept, 'jorun')).toBeUndefined();
    expect(new SealedSecrets(aFolder()).open(kept, 'imke')).toBeUndefined();
    expect(fs.statSync(path.join(folder, 'second-factors.key')).mode & 0o777).toBe(0o600);
  });

  it('is another each time, and opens no more once any byte of it was altered', () => {
    const secrets = new SealedSecrets(aFolder());
    const kept = Buffer.from(secrets.seal(secret, 'imke'), 'base64');
    expect(secrets.seal(secret, 'imke')).not.toBe(kept.toString('base64'));
    for (let place = 0; place < kept.length; place += 1) {
      const altered = Buffer.from(kept);
      altered.writeUInt8(altered.readUInt8(place) ^ 1, place);
      expect(secrets.open(altered.toString('base64'), 'imke'), `byte ${place}`).toBeUndefined();
    }
  });
});
