/**
 * How long a trace of ten million samples takes to be packed, and each zoom of it to be drawn from two thousand points:
 *
 *   node tests/bench/trace-windows.mjs [samples]
 */
import { blocksOf, traceFrom, traceWindow } from '@breakbook/signals';

const SAMPLES = Number(process.argv[2] ?? 10_000_000);
const RATE = 10_000;
const POINTS = 2000;

const time = Float64Array.from({ length: SAMPLES }, (_, i) => i / RATE);
const values = Float64Array.from(
  { length: SAMPLES },
  (_, i) => Math.round(1e3 * (Math.sin(i / 1e5) + Math.sin(i * i))) / 8,
);
values[Math.floor(SAMPLES / 3)] = 1e6;

const since = (start) => `${(performance.now() - start).toFixed(1)} ms`;

let start = performance.now();
const blocks = [...blocksOf({ time, values })];
const bytes = blocks.reduce(
  (sum, one) => sum + one.time.length + one.values.length + one.fine.length + one.coarse.length,
  0,
);
console.log(`packed   ${SAMPLES} samples in ${since(start)}: ${(bytes / SAMPLES).toFixed(2)} bytes a sample, of 16`);

start = performance.now();
const back = traceFrom(blocks);
const same = [time, values].every(
  (one, i) => Buffer.compare(Buffer.from(one.buffer), Buffer.from([back.time, back.values][i].buffer)) === 0,
);
console.log(`unpacked in ${since(start)}, ${same ? 'bit for bit the same' : 'AND NOT THE SAME'}`);

const source = {
  spans: blocks,
  samples: async (places) => places.map((place) => blocks[place]),
  stretches: async (places, part) => places.map((place) => blocks[place][part]),
};
const end = time.at(-1);
for (let width = end; width > 2 / RATE; width /= 4) {
  const tries = Array.from({ length: 20 }, (_, i) => (i / 20) * (end - width));
  start = performance.now();
  let points = 0;
  for (const from of tries)
    points += (await traceWindow(source, { from, to: from + width, points: POINTS })).time.length;
  const each = (performance.now() - start) / tries.length;
  console.log(
    `window of ${String(Math.round(width * RATE)).padStart(9)} samples: ${each.toFixed(2).padStart(6)} ms, ${points / tries.length} points`,
  );
}
if (!same) process.exitCode = 1;
