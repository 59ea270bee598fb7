/**
 * How many samples a second go through reading, checks and characteristics, what memory that takes, and how both grow with
 * the length of the record: one run of each rig of the sample lots, sampled once, ten and a hundred times as often.
 */
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const READ_RECORD = fileURLToPath(new URL('read-record.mjs', import.meta.url));
const LOTS = fileURLToPath(new URL('../../sample-runs', import.meta.url));
const RIGS = { burst: 'dunlin-42-preproduction', heat: 'dunlin-42-heat', impact: 'dunlin-42-impact' };
const MEBIBYTE = 2 ** 20;

/** Prints the table; `factors` are how many times as often the records are sampled. */
export function benchRecords(factors) {
  console.log(
    '\n| rig | samples | file, MB | thousand samples a second, in all | through checks and characteristics | memory, MiB | s per sample, times the one before |',
  );
  console.log('| --- | --- | --- | --- | --- | --- | --- |');
  for (const [rig, lot] of Object.entries(RIGS)) {
    let before;
    for (const factor of factors) {
      const rounds = Array.from({ length: 3 }, () =>
        JSON.parse(
          execFileSync(process.execPath, [READ_RECORD, path.join(LOTS, lot), `${factor}`], { encoding: 'utf8' }),
        ),
      );
      const one = rounds.reduce((least, other) => (other.seconds < least.seconds ? other : least));
      const each = one.seconds / one.samples;
      const thousands = (seconds) => Math.round(one.samples / seconds / 1000);
      console.log(
        `| ${rig} | ${one.samples} | ${(one.bytes / 1e6).toFixed(1)} | ${thousands(one.seconds)} | ${thousands(one.seconds - one.parsed)} | ${Math.round(one.memory / MEBIBYTE)} | ${before ? (each / before).toFixed(2) : ''} |`,
      );
      before = each;
    }
  }
}
