import { describe, expect, it } from 'vitest';
import { canonicalJson } from './canonical-json.js';
import { type ChainHead, checkChain, linkEntry, type StoredEntry } from './chain.js';
import { sha256 } from './digest.js';
import { entryHash, formatEntry, type LedgerEntry, NO_ENTRY, parseEntry } from './ledger-entry.js';

const LAB = '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c01';
const ANOTHER_LAB = '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c99';

function content(n: number, lab = LAB): Omit<LedgerEntry, 'sequence' | 'previous'> {
  return {
    id: `0198c2f0-1111-7000-8000-${String(n).padStart(12, '0')}`,
    lab,
    at: new Date(Date.UTC(2031, 2, 4, 9, 0, n)).toISOString(),
    by: '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c02',
    action: 'specimen measured',
    reason: `measurement ${n} of the receipt check`,
    rows: [
      {
        table: 'measurement',
        id: `0198c2f0-0000-7000-8000-${String(n).padStart(12, '0')}`,
        digest: sha256(`row ${n}`),
        record: '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c05',
        version: n + 1,
        before: { value: 412 + n },
        after: { value: 413 + n },
      },
    ],
  };
}

function grow(length: number, lab = LAB): StoredEntry[] {
  const entries: StoredEntry[] = [];
  let head: ChainHead | undefined;
  for (let n = 0; n < length; n += 1) {
    const { text, hash, sequence } = linkEntry(head, content(n, lab));
    head = { lab, sequence, hash };
    entries.push({ text, hash });
  }
  return entries;
}

/** The entry with one part of its content changed and its hash made to fit again. */
function rewritten(stored: StoredEntry | undefined, change: (entry: LedgerEntry) => Partial<LedgerEntry>): StoredEntry {
  const entry = parseEntry(stored?.text ?? '');
  const text = formatEntry({ ...entry, ...change(entry) });
  return { text, hash: entryHash(text) };
}

describe('entryHash', () => {
  // RFC 9162, section 2.1.1: SHA-256(0x00 ‖ leaf). The first value is the well-known hash of an empty leaf,
  // the second that of the leaf "L123456"; both are the RFC 6962 hasher's test vectors in google/trillian.
  it.each([
    ['', '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d'],
    ['L123456', '395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56'],
  ])('is the leaf hash of a certificate transparency log: "%s"', (leaf, hash) => {
    expect(entryHash(leaf)).toBe(hash);
  });
});

describe('formatEntry and parseEntry', () => {
  const entry: LedgerEntry = { ...content(0), sequence: 1, previous: NO_ENTRY };

  it('are a pair', () => {
    expect(parseEntry(formatEntry(entry))).toEqual(entry);
  });

  it('name the format and its version in the first line', () => {
    expect(formatEntry(entry).split('\n')[0]).toBe('breakbook ledger entry 1');
  });

  it.each([
    ['another version', (text: string) => text.replace('entry 1', 'entry 2')],
    ['a third line', (text: string) => `${text}\n`],
    ['no last line feed', (text: string) => text.slice(0, -1)],
    ['a blank in the JSON', (text: string) => text.replace('":', '": ')],
    [
      'members in another order',
      (text: string) => text.replace(/\{"action":("[^"]*"),(.*)\}\n$/, '{$2,"action":$1}\n'),
    ],
    ['a member nobody knows', (text: string) => text.replace('{"action"', '{"aaa":1,"action"')],
    ['a member missing', (text: string) => text.replace(/,"by":"[^"]*"/, '')],
    ['a time without zone', (text: string) => text.replace(/(\.\d{3})Z/, '$1')],
  ])('refuse %s', (_, alter) => {
    const text = formatEntry(entry);
    expect(alter(text)).not.toBe(text);
    expect(() => parseEntry(alter(text))).toThrow();
  });

  it('refuse an entry that says nothing was written', () => {
    expect(() => formatEntry({ ...entry, rows: [] })).toThrow();
  });
});

describe('checkChain', () => {
  const chain = grow(100);
  const last = parseEntry(chain[99]?.text ?? '');

  it('accepts a chain as it was written, of any length', () => {
    expect(checkChain([])).toEqual({ holds: true });
    for (let length = 1; length <= 100; length += 1) {
      expect(checkChain(chain.slice(0, length))).toMatchObject({ holds: true, head: { lab: LAB, sequence: length } });
    }
  });

  it('goes on from a head that was checked before', () => {
    const first = checkChain(chain.slice(0, 60));
    const head = first.holds ? first.head : undefined;
    expect(checkChain(chain.slice(60), head)).toMatchObject({ holds: true, head: { sequence: 100 } });
    expect(checkChain(chain.slice(61), head)).toMatchObject({ holds: false, position: 1, fault: 'sequence' });
  });

  it('finds every single character that was changed, and names its entry', () => {
    const short = grow(3);
    short.forEach(({ text, hash }, index) => {
      for (let at = 0; at < text.length; at += 1) {
        const altered = text.slice(0, at) + String.fromCharCode(text.charCodeAt(at) ^ 1) + text.slice(at + 1);
        expect(checkChain(short.with(index, { text: altered, hash }))).toMatchObject({
          holds: false,
          position: index + 1,
        });
      }
      for (let at = 0; at < hash.length; at += 1) {
        const altered = hash.slice(0, at) + (hash[at] === '0' ? '1' : '0') + hash.slice(at + 1);
        expect(checkChain(short.with(index, { text, hash: altered }))).toMatchObject({
          holds: false,
          position: index + 1,
          fault: 'hash',
        });
      }
    });
  });

  it('finds each part of an entry rewritten with a right hash, at the entry that follows', () => {
    const changes: ((entry: LedgerEntry) => Partial<LedgerEntry>)[] = [
      () => ({ id: 'another id' }),
      () => ({ at: '2031-03-05T00:00:00.000Z' }),
      () => ({ by: '0198c2f0-7a3e-7c11-8d02-5b7d1f0a9c03' }),
      () => ({ action: 'specimen received' }),
      () => ({ reason: 'another reason' }),
      () => ({ reason: undefined }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, table: 'examination' })) }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, id: '0198c2f0-0000-7000-8000-999999999999' })) }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, digest: sha256('another row') })) }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, record: 'another record' })) }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, version: 99 })) }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, before: { value: 0 } })) }),
      ({ rows }) => ({ rows: rows.map((row) => ({ ...row, after: { value: 0 } })) }),
      ({ rows }) => ({ rows: [...rows, ...rows] }),
    ];
    for (const change of changes) {
      expect(checkChain(chain.with(49, rewritten(chain[49], change)))).toMatchObject({
        holds: false,
        position: 51,
        fault: 'previous',
      });
    }
  });

  it('finds another lab, another number, another entry before', () => {
    for (const [fault, change] of [
      ['lab', () => ({ lab: ANOTHER_LAB })],
      ['sequence', () => ({ sequence: 51 })],
      ['previous', () => ({ previous: NO_ENTRY })],
    ] as const) {
      expect(checkChain(chain.with(49, rewritten(chain[49], change)))).toMatchObject({
        holds: false,
        position: 50,
        fault,
      });
    }
  });

  it('finds an entry left out, put in, doubled, moved or taken from another ledger', () => {
    const other = grow(100, ANOTHER_LAB);
    for (let at = 0; at < 99; at += 1) {
      expect(checkChain(chain.toSpliced(at, 1))).toMatchObject({ holds: false, position: at + 1 });
      expect(checkChain(chain.toSpliced(at, 0, chain[at] as StoredEntry))).toMatchObject({
        holds: false,
        position: at + 2,
      });
      expect(checkChain(chain.toSpliced(at, 2, ...chain.slice(at, at + 2).reverse()))).toMatchObject({
        holds: false,
        position: at + 1,
      });
      expect(checkChain(chain.with(at, other[at] as StoredEntry)).holds).toBe(false);
    }
  });

  it('cannot see a tail cut off, except against a head kept elsewhere', () => {
    const cut = checkChain(chain.slice(0, 99));
    expect(cut.holds).toBe(true);
    expect(cut.holds && cut.head).not.toMatchObject({ sequence: last.sequence });
  });
});

describe('linkEntry', () => {
  it('refuses to follow an entry of another lab', () => {
    expect(() => linkEntry({ lab: ANOTHER_LAB, sequence: 1, hash: sha256('') }, content(1))).toThrow('cannot follow');
  });

  it('writes canonical JSON', () => {
    const body = linkEntry(undefined, content(1)).text.split('\n')[1] ?? '';
    expect(canonicalJson(JSON.parse(body))).toBe(body);
  });
});
