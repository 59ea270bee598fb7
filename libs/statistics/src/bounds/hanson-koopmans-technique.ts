import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { hansonKoopmansBound } from './hanson-koopmans.js';
import type { Aim, Found } from './lower-tolerance-bound.js';

/** The Hanson-Koopmans bound as a technique for samples too small for an order statistic; complete samples only. */
export function hansonKoopmansTechnique({ sample, coverage, confidence }: Aim): Found | NotEvaluated {
  const { exact = [], atLeast = [], atMost = [], between = [] } = sample;
  if (atLeast.length + atMost.length + between.length > 0)
    return notEvaluated(
      'some strengths are not known exactly, and counting a survivor at what it held could raise this bound',
      'every specimen is taken to its break',
    );
  if (exact.some((value) => value <= 0))
    return notEvaluated(
      'a strength is 0 or less, and the bound is formed of ratios of strengths',
      'every strength is above 0',
    );
  const found = hansonKoopmansBound(exact, { coverage, confidence });
  if ('notEvaluated' in found) return found;
  const sorted = exact.toSorted((a, b) => a - b);
  // A hair above a whole number of weak specimens is that number.
  const place = Math.max(1, Math.ceil(exact.length * (1 - coverage) * (1 - 1e-12)));
  return {
    bound: found.bound,
    estimate: sorted[place - 1] as number,
    achievedConfidence: confidence,
    rank: found.rank,
    factor: found.k,
    n: exact.length,
    failures: exact.length,
    assumptions: [
      'ln F is a concave function of ln strength in the lower tail, F being the share failing; no other distribution is assumed',
    ],
  };
}
