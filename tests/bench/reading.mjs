/**
 * How fast run files are read: megabytes a second of processor time of our reader beside the fastest general CSV library we know for this
 * job, on the same files in the same run, as a ratio; then how time and memory grow with the length of the file. Files of
 * ten columns of numbers are made in the system's temporary folder and taken away again.
 */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { seededGenerator } from '@breakbook/statistics';

const COLUMNS = 10;
const MEGABYTE = 1e6;
const WANTED_RATIO = 1.5;
const WANTED_MEMORY = 200 * 2 ** 20;
const READ_FILE = fileURLToPath(new URL('read-file.mjs', import.meta.url));

/** A run file of about so many megabytes: a header, then rows of plain numbers as a logger writes them. */
function makeFile(name, megabytes) {
  const chance = seededGenerator(5);
  const names = Array.from({ length: COLUMNS - 1 }, (_, index) => `c${index} [kPa]`);
  // A thousand invented rows stand again and again; only the time goes on.
  const readings = Array.from({ length: 1000 }, () =>
    names.map(() => (1000 * chance.weibull({ shape: 2, scale: 1 })).toFixed(3)).join(','),
  );
  const handle = fs.openSync(name, 'w');
  fs.writeSync(handle, `time [s],${names.join(',')}\n`);
  let written = 0;
  for (let row = 0; written < megabytes * MEGABYTE; ) {
    const block = readings.map((cells) => `${(row++ / 1000).toFixed(3)},${cells}\n`).join('');
    written += fs.writeSync(handle, block);
  }
  fs.closeSync(handle);
  return written;
}

function read(file, reader) {
  return JSON.parse(execFileSync(process.execPath, [READ_FILE, file, reader], { encoding: 'utf8' }));
}

const best = (readings) => readings.reduce((least, one) => (one.seconds < least.seconds ? one : least));

/** Prints the tables; `sizes` in megabytes. */
export function benchReading(sizes) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-bench-'));
  try {
    console.log(
      `\n| file, MB | our reader, MB/s | library, MB/s | ratio, wanted ${WANTED_RATIO} | memory, MiB, wanted below ${WANTED_MEMORY / 2 ** 20} | s per MB, times the first |`,
    );
    console.log('| --- | --- | --- | --- | --- | --- |');
    let first;
    for (const megabytes of sizes) {
      const file = path.join(folder, `${megabytes}.csv`);
      const bytes = makeFile(file, megabytes);
      // In turns, so that a machine that is busy for a while is busy for both.
      const rounds = Array.from({ length: 3 }, () => ({ ours: read(file, 'rows'), library: read(file, 'library') }));
      const [ours, library] = [best(rounds.map((one) => one.ours)), best(rounds.map((one) => one.library))];
      if (ours.rows !== library.rows || Math.abs(ours.sum / library.sum - 1) > 1e-9)
        throw new Error(`the two read differently: ${JSON.stringify({ ours, library })}`);
      const perMegabyte = ours.seconds / bytes;
      first ??= perMegabyte;
      const ratio = library.seconds / ours.seconds;
      const memory = Math.max(...rounds.map((one) => one.ours.bytes));
      const missed = (met) => (met ? '' : ' (missed)');
      console.log(
        `| ${megabytes} | ${Math.round(bytes / MEGABYTE / ours.seconds)} | ${Math.round(bytes / MEGABYTE / library.seconds)} | ${ratio.toFixed(2)}${missed(ratio >= WANTED_RATIO)} | ${Math.round(memory / 2 ** 20)}${missed(memory < WANTED_MEMORY)} | ${(perMegabyte / first).toFixed(2)} |`,
      );
      fs.rmSync(file);
    }
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}
