import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/*
 * A run file of any length is read in the same memory. Each file is read whole by a process of its own, digest, unpacking
 * and every row; 2 GB in under 200 MiB is measured by `npm run bench -- --reading`. Where a reader held what it read, the
 * longer file would take 90 MB more as bytes, and 100 MB more as numbers.
 */
const READER = fileURLToPath(new URL('../bench/read-file.mjs', import.meta.url));
const MEBIBYTE = 2 ** 20;
const WITHIN = 200 * MEBIBYTE;
const MAY_GROW = 45 * MEBIBYTE;
const LENGTHS = [30e6, 120e6];

let folder = '';
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reading-memory-'));
});
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

function written(name: string, length: number, pack: boolean): { file: string; rows: number } {
  const file = path.join(folder, name);
  let rows = 0;
  const block = () =>
    Array.from({ length: 1000 }, () => `${(rows++ / 1000).toFixed(3)},${(rows * 7919) % 9973}.25,-0.${rows % 997}1\n`);
  const parts = ['time [s],a [kPa],b [kPa]\n'];
  for (let bytes = 0; bytes < length; ) {
    const text = block().join('');
    bytes += text.length;
    parts.push(text);
  }
  const bytes = Buffer.from(parts.join(''));
  fs.writeFileSync(file, pack ? gzipSync(bytes, { level: 1 }) : bytes);
  return { file, rows };
}

function readInAProcess(file: string): { rows: number; bytes: number } {
  return JSON.parse(execFileSync(process.execPath, [READER, file, 'survey'], { encoding: 'utf8' }));
}

describe('memory does not grow with a file', () => {
  it.each([
    ['as it is', false],
    ['packed', true],
  ])('%s', (_, pack) => {
    const memory = LENGTHS.map((length) => {
      const { file, rows } = written(`${length}.csv`, length, pack);
      const found = readInAProcess(file);
      expect(found.rows).toBe(rows);
      return found.bytes;
    }) as [number, number];
    expect(memory[1]).toBeLessThan(WITHIN);
    expect(memory[1] - memory[0]).toBeLessThan(MAY_GROW);
  });
});
