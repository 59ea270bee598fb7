/**
 * How fast run files are read: megabytes a second of processor time of our reader beside the fastest general CSV library
 * we know for this job, on the same files in the same run, as a ratio, and how time grows with the length of the file.
 * Then how much memory all of the reading takes (digest, unpacking, rows, a survey of every column) of a short file and
 * of the longest one that is taken. Files of numbers are made in the system's temporary folder and taken away again.
 */
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pipeline } from 'node:stream/promises';
import { fileURLToPath } from 'node:url';
import { createGzip } from 'node:zlib';
import { seededGenerator } from '@breakbook/statistics';

const MEGABYTE = 1e6;
const WANTED_RATIO = 1.5;
const WANTED_MEMORY = 200 * 2 ** 20;
const READ_FILE = fileURLToPath(new URL('read-file.mjs', import.meta.url));

/** A run file of about so many megabytes: a header, then rows of plain numbers as a logger writes them. */
export function makeFile(name, megabytes, columns = 10) {
  const chance = seededGenerator(5);
  const names = Array.from({ length: columns - 1 }, (_, index) => `c${index} [kPa]`);
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

/** What one process finds in a file, and what it takes to find it. */
export function read(file, reader) {
  return JSON.parse(execFileSync(process.execPath, [READ_FILE, file, reader], { encoding: 'utf8' }));
}

const missed = (met) => (met ? '' : ' (missed)');
const best = (readings) => readings.reduce((least, one) => (one.seconds < least.seconds ? one : least));

/** The same file, packed. */
export async function packed(file) {
  const inside = `${file}.gz`;
  await pipeline(fs.createReadStream(file), createGzip({ level: 1 }), fs.createWriteStream(inside));
  return inside;
}

/** Prints the tables; sizes in megabytes: those read beside the library, and those whose memory is looked at. */
export async function benchReading(sizes, memorySizes) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'breakbook-bench-'));
  try {
    console.log(
      `\n| file, MB | our reader, MB/s | library, MB/s | ratio, wanted ${WANTED_RATIO} | s per MB, times the first |`,
    );
    console.log('| --- | --- | --- | --- | --- |');
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
      console.log(
        `| ${megabytes} | ${Math.round(bytes / MEGABYTE / ours.seconds)} | ${Math.round(bytes / MEGABYTE / library.seconds)} | ${ratio.toFixed(2)}${missed(ratio >= WANTED_RATIO)} | ${(perMegabyte / first).toFixed(2)} |`,
      );
      fs.rmSync(file);
    }

    console.log(
      `\n| file, MB | rows | as it is: memory, MiB, wanted below ${WANTED_MEMORY / 2 ** 20} | MB/s | packed: memory, MiB | MB/s |`,
    );
    console.log('| --- | --- | --- | --- | --- | --- |');
    for (const megabytes of memorySizes) {
      const file = path.join(folder, `${megabytes}.csv`);
      // More columns, so that the longest file holds no more rows than are taken.
      const bytes = makeFile(file, megabytes, 16);
      const found = [read(file, 'survey'), read(await packed(file), 'survey')];
      if (found[0].rows !== found[1].rows || found[0].largest !== found[1].largest)
        throw new Error(`packed, the file reads differently: ${JSON.stringify(found)}`);
      const cells = found.flatMap(({ bytes: memory, seconds }) => [
        `${Math.round(memory / 2 ** 20)}${missed(memory < WANTED_MEMORY)}`,
        Math.round(bytes / MEGABYTE / seconds),
      ]);
      console.log(`| ${megabytes} | ${found[0].rows} | ${cells.join(' | ')} |`);
      for (const name of [file, `${file}.gz`]) fs.rmSync(name);
    }
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}
