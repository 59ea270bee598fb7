/**
 * Reads one run of a sample lot, its records made so many times longer by straight lines between their samples, and
 * prints what it took, as JSON: bytes, samples, seconds of processor time for reading the files alone and for the whole
 * reading with checks and characteristics, and the most memory the process ever had.
 *
 *   node tests/bench/read-record.mjs <lot folder> <factor>
 */
import fs from 'node:fs';
import path from 'node:path';
import { LOT_FOLDER_DOCUMENTS, readLotFolder } from '@breakbook/lab';
import { readRun } from '@breakbook/signals';

const [, , folder, factor] = process.argv;
const documents = LOT_FOLDER_DOCUMENTS.map((name) => path.join(folder, name)).filter((file) => fs.existsSync(file));
const bundle = readLotFolder(new Map(documents.map((file) => [path.basename(file), fs.readFileSync(file)])));
const run = bundle.runs[0];
const files = run.files.map(({ name }) => ({
  name,
  sha256: '0'.repeat(64),
  bytes: Buffer.from(longer(fs.readFileSync(path.join(folder, name), 'utf8'), Number(factor))),
}));

/** The same course, sampled so many times as often. */
function longer(text, times) {
  const lines = text.trimEnd().split('\n');
  const head = lines.findIndex((line) => line.startsWith('time'));
  const rows = lines.slice(head + 1).map((line) => line.split(',').map(Number));
  const between = rows.flatMap((row, at) => {
    const next = rows[at + 1];
    if (!next) return [written(row)];
    return Array.from({ length: times }, (_, part) =>
      written(row.map((value, column) => value + (part / times) * (next[column] - value))),
    );
  });
  return [...lines.slice(0, head + 1), ...between, ''].join('\n');
}

function written([time, ...values]) {
  return [time.toFixed(8), ...values.map((value) => value.toFixed(4))].join(',');
}

const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
let parsed;
const start = process.cpuUsage();
const seconds = () => {
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
};
const { traces } = readRun({
  method,
  layout: bundle.layouts.find((one) => one.rig === run.rig && one.revision === run.layoutRevision),
  rig: bundle.rigs.find((one) => one.rig === run.rig),
  calibrations: bundle.calibrations,
  files,
  run,
  markedMaximum: bundle.product.markedMaximum,
  // The last word of the files' reader: what follows is checks and characteristics.
  onProgress: () => {
    parsed = seconds();
  },
});
const all = seconds();
console.log(
  JSON.stringify({
    bytes: files.reduce((sum, one) => sum + one.bytes.length, 0),
    samples: traces.reduce((sum, one) => sum + one.values.length, 0),
    parsed,
    seconds: all,
    memory: 1024 * process.resourceUsage().maxRSS,
  }),
);
