import { pivotGiven } from '../../bounds/weibull-conditional.js';
import { noncentralTCdf } from '../../distributions/noncentral-t.js';
import { normalQuantile } from '../../distributions/normal.js';
import { Likelihood } from '../../fits/likelihood.js';
import { maximumOf } from '../../fits/maximum.js';
import { smallestExtremeValue } from '../../fits/smallest-extreme-value.js';
import type { Generator } from '../../random/generator.js';

/**
 * Simulates one schedule and gives, for each look, the level at which its bound would lie exactly on the true quantile. A
 * bound of more confidence than that level lies below the truth, one of less above: the level is all that has to be known
 * of a look. By itself each is as likely to lie anywhere between 0 and 1; those of one schedule hang together, since
 * later looks hold the specimens of earlier ones.
 */
export type LookLevels = (chance: Generator) => Float64Array;

/** Looks at the bound by noncentral t; that of a lognormal population is the same for its logarithms. */
export function normalLooks(stages: readonly number[], coverage: number): LookLevels {
  const z = normalQuantile(coverage);
  return ({ normal }) => {
    const levels = new Float64Array(stages.length);
    let [n, mean, squares] = [0, 0, 0];
    for (const [look, stage] of stages.entries()) {
      while (n < stage) {
        const value = normal();
        n++;
        const off = value - mean;
        mean += off / n;
        squares += off * (value - mean);
      }
      const sd = Math.sqrt(squares / (n - 1));
      levels[look] = noncentralTCdf((Math.sqrt(n) * (mean + z)) / sd, n - 1, Math.sqrt(n) * z);
    }
    return levels;
  };
}

/** Looks at the conditional Weibull bound of a complete sample. */
export function weibullLooks(stages: readonly number[], coverage: number): LookLevels {
  const w = Math.log(-Math.log(coverage));
  const none = new Float64Array(0);
  return ({ uniform }) => {
    const all = Float64Array.from({ length: stages[stages.length - 1] as number }, () =>
      smallestExtremeValue.quantile(uniform()),
    );
    return Float64Array.from(stages, (n) => {
      const exact = all.subarray(0, n);
      const likelihood = new Likelihood(smallestExtremeValue, {
        exact,
        atLeast: none,
        atMost: none,
        lower: none,
        upper: none,
        n,
        failures: n,
      });
      const { intercept, slope } = maximumOf(likelihood);
      const standardised = (y: number) => intercept + slope * ((y - likelihood.centre) / likelihood.spread);
      const given = pivotGiven({ broke: Array.from(exact, standardised), held: [] }, coverage, 3);
      return given(-standardised(w)).below;
    });
  };
}
