import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import { describe, expect, it } from 'vitest';
import { entryHash, formatEntry, parseEntry } from './ledger-entry.js';

describe('the example of docs/formats.md', () => {
  const page = fs.readFileSync(new URL('../../../docs/formats.md', import.meta.url), 'utf8');
  const entry = /^(breakbook ledger entry 1\n\{.*\}\n)```$/m.exec(page)?.[1] ?? '';
  const hash = /The entry above has the hash\n\n```\n([0-9a-f]{64})\n```/.exec(page)?.[1];

  it('is an entry as it is written', () => {
    expect(formatEntry(parseEntry(entry))).toBe(entry);
  });

  it('has the hash that stands there', () => {
    expect(entryHash(entry)).toBe(hash);
  });

  it.runIf(process.platform === 'linux')('has it by the command that stands there, too', () => {
    const command = "{ printf '\\0'; cat; } | sha256sum";
    expect(execFileSync('sh', ['-c', command], { input: entry, encoding: 'utf8' }).split(' ')[0]).toBe(hash);
  });
});
