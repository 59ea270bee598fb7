import { spawn } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import readline from 'node:readline';
import { fileURLToPath } from 'node:url';
import { verifyDocument } from '@breakbook/evidence';
import { attachedJson, composeDocument, type Sealing } from '@breakbook/reports';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inventedContent } from '../../libs/reports/src/fixtures/invented-lot.ts';
import { type SealingLab, sealingLab } from '../signing-keys.ts';
import { needs } from '../tools.ts';

/** So many documents as they were signed, and as many altered; `npm run faults` makes ten times as many as it is told trials. */
const EACH = process.env.FAULT_TRIALS === undefined ? 8 : 10 * Number(process.env.FAULT_TRIALS);

const place = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-second-'));
afterAll(() => fs.rmSync(place, { recursive: true }));

needs('openssl', 'python3')('a second verifier of another make', () => {
  let lab: SealingLab;
  let stranger: SealingLab;
  let python: { verdict(file: Uint8Array): Promise<{ holds: boolean; because?: string }>; end(): void };
  beforeAll(async () => {
    [lab, stranger] = [await sealingLab(2), await sealingLab()];
    python = secondVerifier(lab);
  }, 60_000);
  afterAll(() => python?.end());

  /** The document of this number, whatever is done to what it is sealed with; numbers with every kind of digits. */
  const signed = (n: number, alter: (sealing: Sealing) => Sealing = (one) => one, by = lab) => {
    const issuedAt = `2031-${String(1 + (n % 12)).padStart(2, '0')}-20T09:30:00.000Z`;
    const content = inventedContent({
      specimens: 1 + (n % 3),
      identity: { number: `LTR-${n}`, issuedAt },
      names: { customer: ['Saltmarsh Wheelworks', 'Ø. Sørbø & Søn', '測試室', 'a\tb "c" \\ d'][n % 4] ?? '' },
    });
    const compose = (sealing: Sealing) =>
      composeDocument('lot test report', content, { paper: 'A4', sealing: alter(sealing) });
    return by.seal(attachedJson(content), compose);
  };

  it(
    `says of ${EACH} documents as they were signed, and of ${EACH} altered ones, what the first says`,
    async () => {
      let before: Sealing | undefined;
      for (let n = 0; n < EACH; n += 1) {
        let own: Sealing | undefined;
        const file = await signed(n, (sealing) => {
          own = sealing;
          return sealing;
        });
        const altered = await alteredFrom(n, file, before);
        before = own;
        for (const [one, wanted] of [
          [file, true],
          [altered, false],
        ] as const) {
          const { findings } = await verifyDocument(one, { keys: lab.keys });
          const first = findings.every(({ holds }) => holds === true);
          const second = await python.verdict(one);
          expect({ n, wanted, first, second: second.holds }, JSON.stringify({ second, findings })).toEqual({
            n,
            wanted,
            first: wanted,
            second: wanted,
          });
        }
      }
    },
    60_000 + EACH * 20_000,
  );

  /** One way of altering for each number: of the file after it was signed, or of what was put into it before. */
  function alteredFrom(n: number, file: Uint8Array, other: Sealing | undefined): Promise<Uint8Array> | Uint8Array {
    const bytes = Buffer.from(file);
    const turned = (at: number) => {
      bytes[at] = (bytes[at] ?? 0) ^ (1 << (n % 8));
      return bytes;
    };
    switch (n % 8) {
      case 0:
        return turned((n * 7919) % bytes.length);
      case 1:
        return turned(bytes.indexOf('/Contents <') + 12 + (n % 1500));
      case 2:
        return Buffer.concat([bytes, Buffer.from('\n')]);
      case 3:
        return signed(n, (sealing) => ({ ...sealing, jws: other?.jws ?? 'none' }));
      case 4:
        return signed(n, (sealing) => ({ ...sealing, record: other?.record ?? '{}' }));
      case 5:
        return signed(n, undefined, stranger);
      case 6:
        return signed(n, (sealing) => ({ ...sealing, record: sealing.record.replace('"leaf":0', '"leaf":1') }));
      default:
        return signed(n, (sealing) => ({
          ...sealing,
          jws: sealing.jws.replace(/.$/, (last) => (last === 'A' ? 'B' : 'A')),
        }));
    }
  }
});

/** tests/faults/second_verifier.py, asked again and again. */
function secondVerifier(lab: SealingLab) {
  const keys = path.join(place, 'keys.json');
  fs.writeFileSync(keys, JSON.stringify(lab.keys));
  const program = fileURLToPath(new URL('second_verifier.py', import.meta.url));
  const child = spawn('python3', [program, keys], { stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = readline.createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  return {
    async verdict(file: Uint8Array) {
      const at = path.join(place, 'document.pdf');
      fs.writeFileSync(at, file);
      child.stdin.write(`${JSON.stringify({ file: at })}\n`);
      const { value, done } = await lines.next();
      if (done) throw new Error('The second verifier ended.');
      return JSON.parse(value) as { holds: boolean; because?: string };
    },
    end: () => child.stdin.end(),
  };
}
