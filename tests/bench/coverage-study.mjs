/**
 * Simulates how often every bound of the statistics room holds and writes docs/coverage.md. Seeded: the same page each
 * time, bar a change of the mathematics.
 *
 *   npm run coverage-study                      10 000 samples for each row; some minutes
 *   npm run coverage-study -- --replicates 500  fewer, for a look
 *
 * Ends with status 1 where a bound breaks what its technique promises.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { breaches, coverageExperiments, coveragePage, coverageStudy } from '@breakbook/statistics';

const { values } = parseArgs({
  options: {
    replicates: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '1' },
    out: { type: 'string', default: 'docs/coverage.md' },
  },
});
const study = { seed: Number(values.seed), replicates: Number(values.replicates) };
if (!Number.isSafeInteger(study.replicates) || study.replicates < 100 || !Number.isSafeInteger(study.seed))
  throw new RangeError('coverage-study: --replicates is a whole number of 100 or more, and --seed a whole number.');

const experiments = coverageExperiments();
const outcomes = coverageStudy(experiments, {
  ...study,
  onProgress(done) {
    const line = `${done} of ${experiments.length} rows`;
    if (process.stderr.isTTY) process.stderr.write(`\r${line}${done === experiments.length ? '\n' : ''}`);
    else if (done % 50 === 0 || done === experiments.length) process.stderr.write(`${line}\n`);
  },
});
writeFileSync(values.out, coveragePage(outcomes, study));
const broken = breaches(outcomes);
console.log(`${values.out}: ${outcomes.length} rows, ${broken.length} broken.`);
for (const { outcome, confidence, held, score } of broken)
  console.log(
    `  ${outcome.experiment.table} ${JSON.stringify(outcome.experiment.row)}: ${held} for ${confidence} (${score.toFixed(1)} errors)`,
  );
process.exitCode = broken.length > 0 ? 1 : 0;
