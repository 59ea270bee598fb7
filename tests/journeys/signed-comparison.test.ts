import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { verifyDocument } from '@breakbook/evidence';
import { attachedJson, type ComparisonReportContent, composeDocument, recomputeSignedFile } from '@breakbook/reports';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { inventedComparison } from '../../libs/reports/src/fixtures/invented-comparison.ts';
import { breakbook } from '../breakbook.ts';
import { type SealingLab, sealingLab } from '../signing-keys.ts';
import { needs, told } from '../tools.ts';

const place = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-comparison-'));
const at = (name: string) => path.join(place, name);
afterAll(() => fs.rmSync(place, { recursive: true }));

needs(
  'openssl',
  'pdfsig',
  'pdfdetach',
)('a signed comparison report, with nothing but its file', () => {
  let lab: SealingLab;
  let content: ComparisonReportContent;
  let file: Uint8Array;
  const sealed = (one: ComparisonReportContent) =>
    lab.seal(attachedJson(one), (sealing) => composeDocument('comparison report', one, { paper: 'A4', sealing }));
  beforeAll(async () => {
    lab = await sealingLab();
    content = inventedComparison();
    file = await sealed(content);
    fs.writeFileSync(at('comparison.pdf'), file);
    fs.writeFileSync(at('keys.json'), JSON.stringify(lab.keys));
  });

  it('is verified, here and by another tool', async () => {
    expect(told('pdfsig', file, (one) => [one])).toMatch(/Total document signed[\s\S]*Signature is Valid\./);
    const { status, stdout } = await breakbook('verify', at('comparison.pdf'), '--keys', at('keys.json'));
    expect(status, stdout).toBe(0);
    expect(stdout).toContain('it is the document that the lab signed');
  });

  it('carries the case it rests on, and what it came to', () => {
    const json = told(
      'pdfdetach',
      file,
      (one) => ['-savefile', 'CR-42-1-rev-1.json', '-o', 'content.json', one],
      'content.json',
    );
    expect(JSON.parse(json)).toEqual(JSON.parse(attachedJson(content)));
  });

  it('is refused with any one bit of it changed', async () => {
    // Spread over the whole file: its pages, its data, its signature and its end.
    for (let trial = 0; trial < 24; trial += 1) {
      const altered = Uint8Array.from(file);
      const byte = Math.floor(((trial + 0.37) / 24) * altered.length);
      altered[byte] = (altered[byte] ?? 0) ^ (1 << (trial % 8));
      const found = await verifyDocument(altered, { keys: lab.keys });
      expect(
        found.findings.some(({ holds }) => holds === false),
        `byte ${byte}`,
      ).toBe(true);
    }
  });

  it('gives every number again from its case, and its pages to the byte', async () => {
    const { status, stdout } = await breakbook('recompute', at('comparison.pdf'));
    expect(status, stdout).toBe(0);
    expect(stdout).toContain('CR-42-1 rev. 1');
    expect(stdout).toMatch(/\d{3,} numbers: each identical to the last bit/);
    expect(stdout.replace(/\s+/g, ' ')).toContain('the reports of the lots tell how it was read');
    expect(stdout).toContain('to the byte');
  });

  it('shows a level that is not what its numbers come to, however well it is signed', async () => {
    const altered = JSON.parse(attachedJson(content)) as ComparisonReportContent;
    for (const one of altered.result.items) one.level = 'D';
    const signed = await sealed(altered);
    expect((await verifyDocument(signed, { keys: lab.keys })).findings.every(({ holds }) => holds)).toBe(true);
    const again = await recomputeSignedFile(signed, () => undefined);
    if ('notRecomputed' in again) throw new Error('A comparison report can be recomputed.');
    expect(again.found.differences.map(({ place: where }) => where).join('; ')).toMatch(/items.*level/);
  });
});
