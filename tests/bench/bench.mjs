/**
 * How long fits, bounds and factors take, as a table of ratios: each against the time of an exponential function on the
 * same machine in the same run, so that tables of two machines can be laid side by side. Then how a fit's time grows with
 * the number of specimens, ten thousand bootstrap bounds in a pool of workers, how fast run files are read, and how many
 * samples a second go through checks and characteristics. Then how long a million entries of the ledger take to be checked, and
 * how long the judgement of a lot takes, and of ten thousand, and the laying out of reports.
 *
 *   npm run bench                 everything, some minutes
 *   npm run bench -- --quick      a tenth of the bootstrap bounds, and short files
 *   npm run bench -- --reading    the reading of files alone; with --quick, of short ones
 *   npm run bench -- --records    reading, checks and characteristics of whole runs alone
 *   npm run bench -- --ledger     the checking of the ledger alone
 *   npm run bench -- --judging    the judging of a lot of 30, and of up to ten thousand small lots by one command, alone
 *   npm run bench -- --documents  the laying out of reports alone
 *   npm run bench -- --lots       not a time: how often lots are accepted wrongly; some hours, writes docs/lot-risks.md.
 *                                 With --quick, a hundredth of the lots, to the screen; with --only forecasts (or other
 *                                 words of its parts), those parts alone, to the screen
 *   npm run bench -- --comparisons  not a time either: how often items are called not consistent that are made as the
 *                                 reference is; an hour or so, writes docs/comparison-risks.md. --quick and --only as above
 */
import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import {
  estimateWeibull,
  fitWeibull,
  hansonKoopmansFactor,
  kaplanMeier,
  lowerToleranceBound,
  normalToleranceFactor,
  seededGenerator,
} from '@breakbook/statistics';
import { bootstrapBounds } from './bootstrap-pool.mjs';
import { benchComparisons } from './comparisons.mjs';
import { benchDocuments } from './documents.mjs';
import { benchJudging } from './judging.mjs';
import { benchLedger } from './ledger.mjs';
import { benchLots } from './lots.mjs';
import { benchReading } from './reading.mjs';
import { benchRecords } from './records.mjs';
import { benchRejudging } from './rejudging.mjs';

const { values } = parseArgs({
  options: {
    quick: { type: 'boolean', default: false },
    reading: { type: 'boolean', default: false },
    records: { type: 'boolean', default: false },
    ledger: { type: 'boolean', default: false },
    judging: { type: 'boolean', default: false },
    documents: { type: 'boolean', default: false },
    lots: { type: 'boolean', default: false },
    comparisons: { type: 'boolean', default: false },
    only: { type: 'string' },
  },
});
const read = () =>
  values.quick ? benchReading([20, 60], [40, 120]) : benchReading([20, 60, 240, 960], [60, 240, 960, 2000]);
if (values.reading) {
  await read();
  process.exit();
}
const records = () => benchRecords(values.quick ? [1, 10] : [1, 10, 100]);
const ledger = () => benchLedger(values.quick ? 100_000 : 1_000_000);
const judging = () => {
  benchJudging();
  benchRejudging(values.quick ? [10, 100] : [100, 1000, 10_000]);
};
if (values.lots)
  process.exit(
    benchLots({
      lots: values.quick ? 100 : 10_000,
      only: values.only,
      out: values.quick || values.only ? undefined : 'docs/lot-risks.md',
    })
      ? 0
      : 1,
  );
if (values.comparisons)
  process.exit(
    benchComparisons({
      comparisons: values.quick ? 200 : 10_000,
      only: values.only,
      out: values.quick || values.only ? undefined : 'docs/comparison-risks.md',
    })
      ? 0
      : 1,
  );
const documents = () => benchDocuments(values.quick ? [5, 100] : [5, 30, 100, 300, 1000]);
for (const [asked, bench] of [
  [values.documents, documents],
  [values.records, records],
  [values.ledger, ledger],
  [values.judging, judging],
])
  if (asked) {
    await bench();
    process.exit();
  }
const chance = seededGenerator(1);

/** Specimens of one rim, those that outlast a rig's limit as "at least". */
function sampleOf(n, limit = Number.POSITIVE_INFINITY) {
  const strengths = Array.from({ length: n }, () => chance.weibull({ shape: 12, scale: 1500 }));
  return {
    exact: strengths.filter((strength) => strength <= limit),
    atLeast: strengths.filter((strength) => strength > limit).map(() => limit),
  };
}

const many = (n, limit) => Array.from({ length: 200 }, () => sampleOf(n, limit));
const [eight, thirty] = [many(8), many(30, 1550)];
const ended = many(8).map(({ exact }) => {
  const sorted = exact.toSorted((a, b) => a - b);
  return { exact: sorted.slice(0, 5), atLeast: [sorted[4], sorted[4], sorted[4]] };
});
const aim = { coverage: 0.9, confidence: 0.95 };

/** What is timed, with how many a second the house wants of it on one core, where it wants any. */
const jobs = [
  { name: 'Weibull fit, n = 30, censored', wanted: 30_000, run: (i) => estimateWeibull(thirty[i % 200]) },
  {
    name: 'the same with one profile bound',
    wanted: 12_000,
    run: (i) =>
      lowerToleranceBound({ ...aim, sample: thirty[i % 200], distribution: 'weibull', technique: 'likelihood-ratio' }),
  },
  { name: 'the same with all its limits', run: (i) => fitWeibull(thirty[i % 200], { quantiles: [0.1] }) },
  { name: 'normal tolerance factor', wanted: 40_000, run: (i) => normalToleranceFactor({ ...aim, n: 2 + (i % 60) }) },
  {
    name: 'Weibull bound, conditional, n = 8',
    run: (i) => lowerToleranceBound({ ...aim, sample: eight[i % 200], distribution: 'weibull' }),
  },
  {
    name: 'normal bound, conditional, 5 breaks of 8',
    run: (i) => lowerToleranceBound({ ...aim, sample: ended[i % 200], distribution: 'normal' }),
  },
  {
    name: 'Weibull bound, calibrated, n = 30',
    run: (i) => lowerToleranceBound({ ...aim, sample: thirty[i % 200], distribution: 'weibull' }),
  },
  { name: 'Hanson-Koopmans factor', run: (i) => hansonKoopmansFactor({ ...aim, n: 2 + (i % 27) }) },
  { name: 'Kaplan-Meier, n = 30', run: (i) => kaplanMeier(thirty[i % 200]) },
];

/** Seconds for one call: the best of five rounds of about a fifth of a second, after one to warm up. */
function secondsOf(run) {
  let calls = 1;
  const round = () => {
    const start = performance.now();
    for (let index = 0; index < calls; index++) run(index);
    return (performance.now() - start) / 1000;
  };
  while (round() < 0.1) calls *= 2;
  return Math.min(...Array.from({ length: 5 }, round)) / calls;
}

function exponentials() {
  let sum = 0;
  for (let index = 0; index < 1000; index++) sum += Math.exp(-index / 500);
  return sum;
}

const unit = secondsOf(exponentials) / 1000;
console.log(`One exponential takes ${(unit * 1e9).toFixed(1)} ns here.\n`);
console.log('| what | in exponentials | a second | wanted |');
console.log('| --- | --- | --- | --- |');
for (const { name, run, wanted } of jobs) {
  const seconds = secondsOf(run);
  const rate = Math.round(1 / seconds);
  console.log(
    `| ${name} | ${Math.round(seconds / unit)} | ${rate} | ${wanted ? `${wanted}${rate >= wanted ? '' : ' (missed)'}` : ''} |`,
  );
}

console.log('\n| specimens | Weibull fit, ms | times the fit of a tenth |');
console.log('| --- | --- | --- |');
let before;
for (const n of [10, 100, 1000, 10_000, 100_000]) {
  const sample = sampleOf(n, 1600);
  const seconds = secondsOf(() => estimateWeibull(sample));
  console.log(`| ${n} | ${(1000 * seconds).toPrecision(3)} | ${before ? (seconds / before).toFixed(1) : ''} |`);
  before = seconds;
}

const count = values.quick ? 1000 : 10_000;
console.log(`\n${count} bootstrap bounds of 500 simulated tests each, n = 8:`);
let alone;
for (const workers of [1, availableParallelism()]) {
  const start = performance.now();
  const { digest } = await bootstrapBounds({
    count,
    workers,
    onProgress: (done, all) => process.stderr.write(`\r${done} of ${all} bounds`),
  });
  process.stderr.write('\n');
  const rate = (count / (performance.now() - start)) * 1000;
  alone ??= rate;
  console.log(
    `  ${workers} workers: ${Math.round(rate)} a second, ${(rate / alone).toFixed(2)} times one; sum ${digest}`,
  );
}

await read();
records();
ledger();
judging();
await documents();
