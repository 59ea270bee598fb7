/**
 * How long `breakbook recompute` takes for a hundred, a thousand and ten thousand small lots: copies of the lot of keyed
 * strengths, each under its own name, and what is kept of each.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const SAMPLE = path.join(ROOT, 'sample-runs/dunlin-42-keyed');
const LOT = 'D42-OR1';

const breakbook = (...words) =>
  spawnSync(process.execPath, [path.join(ROOT, 'apps/cli/bin/breakbook.mjs'), ...words], { encoding: 'utf8' });

/** Prints the table; `sizes` are how many lots are recomputed by one command. */
export function benchRejudging(sizes) {
  const folder = mkdtempSync(path.join(os.tmpdir(), 'breakbook-lots-'));
  try {
    const [lots, kept] = [path.join(folder, 'lots'), path.join(folder, 'kept')];
    breakbook('judge', SAMPLE, '--out', kept);
    const files = readdirSync(SAMPLE).map((name) => [name, readFileSync(path.join(SAMPLE, name), 'utf8')]);
    const result = readFileSync(path.join(kept, LOT, 'result.json'), 'utf8');
    const named = (text, lot) => text.replaceAll(LOT, lot);
    let made = 0;
    let before;
    console.log('\n| lots recomputed by one command | s | ms a lot | times the lot of the row before |');
    console.log('| --- | --- | --- | --- |');
    for (const size of sizes) {
      for (; made < size; made++) {
        const lot = `${LOT}-${made}`;
        for (const at of [path.join(lots, lot), path.join(kept, lot)]) mkdirSync(at, { recursive: true });
        for (const [name, text] of files) writeFileSync(path.join(lots, lot, name), named(text, lot));
        writeFileSync(path.join(kept, lot, 'result.json'), named(result, lot));
      }
      const start = performance.now();
      const { stdout, stderr, status } = breakbook('recompute', lots, '--against', kept);
      const seconds = (performance.now() - start) / 1000;
      if (status !== 0 || !stdout.includes(`${size} of ${size} lots identical`))
        throw new Error(`recompute ended with ${status}: ${stdout.slice(0, 2000)}${stderr.slice(0, 2000)}`);
      const each = seconds / size;
      console.log(
        `| ${size} | ${seconds.toFixed(1)} | ${(1000 * each).toFixed(1)} | ${before ? (each / before).toFixed(2) : ''} |`,
      );
      before = each;
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
}
