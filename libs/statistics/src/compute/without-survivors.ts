import { isNotEvaluated, type NotEvaluated, type Sample } from '@breakbook/lab';

/**
 * A fit, and beside it what it would have come to had every strength known as "at least" been left out. Leaving them out
 * throws away what the strongest specimens have shown; both stand here so that the difference is seen.
 */
export function besideWithoutSurvivors<Fit extends object, Estimates extends object>(
  fit: Fit | NotEvaluated,
  sample: Sample,
  estimate: (sample: Sample) => Estimates | NotEvaluated,
): Fit | (Fit & { withoutSurvivors: Estimates | NotEvaluated }) | NotEvaluated {
  const { atLeast = [], ...others } = sample;
  if (isNotEvaluated(fit) || atLeast.length === 0) return fit;
  return { ...fit, withoutSurvivors: estimate(others) };
}
