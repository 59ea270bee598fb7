import { type Finding, sha256, verifyDocument } from '@breakbook/evidence';
import { attachedJson, composeDocument } from '@breakbook/reports';
import { beforeAll, expect, it } from 'vitest';
import { inventedContent } from '../../libs/reports/src/fixtures/invented-lot.ts';
import { type SealingLab, sealingLab } from '../signing-keys.ts';
import { needs } from '../tools.ts';

/**
 * Documents altered in every way that keeps them readable: is each found? `npm test` turns 500 bits and edits 500 times;
 * `npm run faults` does 10 000 of each.
 */
const LONG = process.env.FAULT_TRIALS !== undefined;
const BITS = LONG ? 10_000 : 500;
const EDITS = LONG ? 10_000 : 500;
const SEED = Number(process.env.FAULT_SEED ?? 20261126);

const random = seeded(SEED);
const upTo = (below: number) => Math.floor(random() * below);

needs('openssl')('a signed document', () => {
  let lab: SealingLab;
  let one: Uint8Array;
  let other: Uint8Array;
  const documentOf = async (number: string, pair = 1, issuedAt = '2031-02-20T09:30:00.000Z') => {
    const content = inventedContent({ specimens: 3, identity: { number, issuedAt } });
    return lab.seal(
      attachedJson(content),
      (sealing) => composeDocument('lot test report', content, { paper: 'A4', sealing }),
      pair,
    );
  };
  beforeAll(async () => {
    lab = await sealingLab(4);
    [one, other] = [await documentOf('LTR-1'), await documentOf('LTR-2')];
  });

  it('holds as it is, after three more pairs of keys', async () => {
    for (const [pair, year] of [1, 2, 3, 4].map((n) => [n, 2030 + n] as const)) {
      const file = await documentOf(`LTR-${pair}`, pair, `${year}-06-01T12:00:00.000Z`);
      expect(failed(await verifyDocument(file, { keys: lab.keys }))).toEqual([]);
      expect((await verifyDocument(file, { keys: lab.keys })).content).toMatchObject({
        identity: { number: `LTR-${pair}` },
      });
    }
  });

  it('does not hold as one of another time than that of its key, or with a key that was revoked, which is named', async () => {
    const late = await documentOf('LTR-3', 1, '2033-06-01T12:00:00.000Z');
    expect(failed(await verifyDocument(late, { keys: lab.keys }))).toMatchObject([{ asks: 'signature' }]);
    const revoked = structuredClone(lab.keys);
    Object.assign(revoked.keys[0] ?? {}, {
      revoked: { at: '2031-05-01T00:00:00.000Z', because: 'its disk was stolen' },
    });
    expect(failed(await verifyDocument(one, { keys: revoked }))).toEqual([
      { asks: 'signature', holds: false, says: 'key 1 was revoked on 2031-05-01T00:00:00.000Z: its disk was stolen' },
    ]);
  });

  it("does not hold with another lab's keys", async () => {
    const stranger = await sealingLab();
    expect(failed(await verifyDocument(one, { keys: stranger.keys })).map(({ asks }) => asks)).toEqual([
      'signature',
      'attachment',
      'checkpoint',
    ]);
  });

  it('is asked for its keys where none are given: what rests on them is neither good nor bad', async () => {
    const { findings } = await verifyDocument(one);
    expect(findings.map(({ holds }) => holds)).toEqual([true, undefined, undefined, true, undefined]);
  });

  it(`is refused with any of ${BITS} bits turned, those of its signature among them`, async () => {
    const place = Buffer.from(one).indexOf('/Contents <');
    for (let n = 0; n < BITS; n += 1) {
      // Every third within the signature and its padding, which are not among the signed bytes.
      const bit = n % 3 === 0 ? place * 8 + upTo(8 * 16_500) : upTo(one.length * 8);
      const turned = Uint8Array.from(one);
      turned[bit >> 3] = (turned[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      expect(await holds(turned, lab), `bit ${bit}, seed ${SEED}`).toBe(false);
    }
  }, 600_000);

  it(`is refused after any of ${EDITS} edits: bytes put in, left out, exchanged, moved, of another document, behind the end`, async () => {
    for (let n = 0; n < EDITS; n += 1) {
      const edited = edit(Buffer.from(one), Buffer.from(other), n % 6);
      if (sha256(edited) === sha256(one)) continue;
      expect(await holds(edited, lab), `edit ${n}, seed ${SEED}`).toBe(false);
    }
  }, 600_000);

  it('is refused with parts of another one: its signature, its data, its later section', async () => {
    const [a, b] = [Buffer.from(one), Buffer.from(other)];
    const signatureOf = (file: Buffer) =>
      file.subarray(file.indexOf('/Contents <'), file.indexOf('>', file.indexOf('/Contents <')));
    const at = a.indexOf(signatureOf(a));
    const withOther = Buffer.concat([a.subarray(0, at), signatureOf(b), a.subarray(at + signatureOf(a).length)]);
    expect(await holds(withOther, lab)).toBe(false);
    // What an editor adds when it saves: a further section with its own table of places and end (ISO 32000-2, 7.5.6).
    const update =
      '1 0 obj\n<< >>\nendobj\nxref\n0 1\n0000000000 65535 f \ntrailer\n<< /Size 1 /Prev 0 >>\nstartxref\n0\n%%EOF\n';
    expect(await holds(Buffer.concat([a, Buffer.from(update)]), lab)).toBe(false);
    expect(await holds(Buffer.concat([a, b]), lab)).toBe(false);
  });
});

async function holds(file: Uint8Array, { keys }: SealingLab): Promise<boolean> {
  return failed(await verifyDocument(file, { keys })).length === 0;
}

function failed({ findings }: { findings: Finding[] }): Finding[] {
  return findings.filter(({ holds: good }) => good !== true);
}

function edit(a: Buffer, b: Buffer, kind: number): Buffer {
  const [from, to] = [upTo(a.length), upTo(a.length)].sort((x, y) => x - y) as [number, number];
  const length = 1 + upTo(64);
  switch (kind) {
    case 0:
      return Buffer.concat([a.subarray(0, from), b.subarray(to, to + length), a.subarray(from)]);
    case 1:
      return Buffer.concat([a.subarray(0, from), a.subarray(from + length)]);
    case 2:
      return Buffer.concat([a.subarray(0, from), b.subarray(from, from + length), a.subarray(from + length)]);
    case 3:
      return Buffer.concat([a.subarray(0, from), a.subarray(to), a.subarray(from, to)]);
    case 4:
      return Buffer.concat([a, b.subarray(from, from + length)]);
    default:
      return Buffer.from(
        a.toString('latin1').replace(/\d{4,}/g, (digits) => (random() < 0.001 ? `${BigInt(digits) + 1n}` : digits)),
        'latin1',
      );
  }
}

/** Numbers in [0, 1) that follow from the seed (mulberry32). */
function seeded(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
