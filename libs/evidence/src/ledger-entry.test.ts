import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { entryAround, entryHash, formatEntry, parseEntry } from './ledger-entry.js';

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

describe('entryAround', () => {
  it('gives the text of the entry once hash and number are put between its pieces', () => {
    const said = fc.oneof(
      fc.string({ minLength: 1, unit: 'grapheme' }),
      fc.constantFrom(`,"previous":"${'0'.repeat(64)}"`, '\\","previous":"', '"sequence":1}\n', '\\'),
    );
    const content = fc.record({
      id: said,
      lab: said,
      at: fc.constant('2031-03-04T09:12:44.105Z'),
      by: said,
      action: said,
      reason: fc.option(said, { nil: undefined }),
      rows: fc.tuple(
        fc.record({ table: said, id: said, digest: fc.constant('a'.repeat(64)), after: fc.dictionary(said, said) }),
      ),
    });
    const previous = fc.stringMatching(/^[0-9a-f]{64}$/);
    fc.assert(
      fc.property(content, previous, fc.integer({ min: 1, max: 2 ** 31 - 1 }), (content, previous, sequence) => {
        const [first, second, third] = entryAround(content);
        expect(`${first}${previous}${second}${sequence}${third}`).toBe(formatEntry({ ...content, previous, sequence }));
      }),
    );
  });
});
