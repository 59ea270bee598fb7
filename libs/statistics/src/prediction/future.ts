import { type Distribution, type NotEvaluated, notEvaluated, type Sample } from '@breakbook/lab';
import { centred } from '../description/centred.js';
import { requireCount, requireFinite, requirePositive, requireValues } from '../requirements.js';

/** What is known of the population: strengths, or mean and standard deviation of n of them (of ln strength if lognormal). */
export type Basis = { sample: Sample } | { n: number; mean: number; sd: number };

/** What is asked of future units, whatever the distribution. */
export interface FutureQuestion {
  basis: Basis;
  distribution: Distribution;
  /** How many future units. */
  m: number;
}

/** n normal values in three numbers; of ln strength where the population is lognormal. */
export interface NormalValues {
  n: number;
  mean: number;
  sd: number;
}

/** The three numbers a normal or lognormal prediction rests on: complete samples of at least 2 strengths that differ. */
export function normalValues(
  caller: string,
  { basis, distribution }: Pick<FutureQuestion, 'basis' | 'distribution'>,
): NormalValues | NotEvaluated {
  if (!('sample' in basis)) {
    requireCount(caller, { n: basis.n });
    requireFinite(caller, { mean: basis.mean });
    requirePositive(caller, { sd: basis.sd });
    return basis.n < 2 ? tooFew(basis.n) : { n: basis.n, mean: basis.mean, sd: basis.sd };
  }
  const { exact = [], atLeast = [], atMost = [], between = [] } = basis.sample;
  requireValues(caller, 'exact', exact);
  if (atLeast.length + atMost.length + between.length > 0)
    return notEvaluated(
      `some strengths are not known exactly, and the ${distribution} prediction is exact for complete samples only`,
      'every specimen is taken to its break',
    );
  if (exact.length < 2) return tooFew(exact.length);
  if (distribution === 'lognormal' && exact.some((value) => value <= 0))
    throw new RangeError(`${caller}: a lognormal strength is above 0; one of those given is not.`);
  const { n, mean, squares } = centred(distribution === 'lognormal' ? exact.map(Math.log) : exact);
  if (squares === 0)
    return notEvaluated('all strengths are the same number', 'strengths are read finely enough to differ');
  return { n, mean, sd: Math.sqrt(squares / (n - 1)) };
}

/** The sample a prediction rests on that needs the strengths themselves. */
export function sampleOf(basis: Basis, distribution: Distribution): Sample | NotEvaluated {
  return 'sample' in basis
    ? basis.sample
    : notEvaluated(
        `a ${distribution} prediction needs the strengths themselves, not their mean and standard deviation`,
        'a sample is given',
      );
}

function tooFew(n: number): NotEvaluated {
  return notEvaluated(`${n} strengths say nothing about scatter`, 'at least 2 specimens are broken');
}
