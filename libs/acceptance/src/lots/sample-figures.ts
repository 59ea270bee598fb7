import {
  isNotEvaluated,
  type LineResult,
  type Method,
  type NotEvaluated,
  notEvaluated,
  type WeibullSummary,
} from '@breakbook/lab';
import { fitWeibull, summary } from '@breakbook/statistics';
import { counted } from '../words/index.js';
import type { ClaimSample } from './samples.js';

/** Two-sided confidence of the shape's limits beside the Weibull fit, which describes and decides nothing. */
const SHAPE_CONFIDENCE = 0.95;

/** The Weibull fit of a claim, for figure and table. */
export function weibullOf({ sample, n, missing }: ClaimSample, method: Method): WeibullSummary | NotEvaluated {
  const absent = withoutAll(missing);
  if (absent) return absent;
  if (n < method.minimumSpecimens)
    return notEvaluated(
      `not estimable from ${counted(n, 'specimen')}: ${method.method} rev. ${method.revision} asks for at least ${method.minimumSpecimens}`,
      `at least ${method.minimumSpecimens} specimens make the claim`,
    );
  const values = [...(sample.exact ?? []), ...(sample.atMost ?? []), ...(sample.between ?? []).flat()];
  if (values.some((value) => value <= 0) || (sample.atLeast ?? []).some((value) => value < 0))
    return notEvaluated(
      'a value of 0 or less cannot come from a Weibull distribution',
      'the value is found to be recorded wrongly',
    );
  const fit = fitWeibull(sample, { confidence: SHAPE_CONFIDENCE });
  if (isNotEvaluated(fit)) return fit;
  const [low, high] = fit.limits.shape;
  const shapeLimits: WeibullSummary['shapeLimits'] = isNotEvaluated(low)
    ? low
    : isNotEvaluated(high)
      ? high
      : [low, high];
  return {
    n: fit.n,
    failures: fit.failures,
    shape: fit.shape,
    scale: fit.scale,
    shapeLimits,
    confidence: SHAPE_CONFIDENCE,
  };
}

/** Mean and scatter of a claim whose values are all known exactly. */
export function summaryOf({ sample, n, missing }: ClaimSample): LineResult['summary'] {
  const absent = withoutAll(missing);
  if (absent) return absent;
  const exact = sample.exact ?? [];
  if (exact.length < n)
    return notEvaluated(
      `${n - exact.length} of ${n} values are known from one side only or between two, so they have no mean`,
      'every value is known exactly',
    );
  const described = summary(exact);
  if (isNotEvaluated(described)) return described;
  if (isNotEvaluated(described.sd)) return described.sd;
  return { n, mean: described.mean, sd: described.sd, min: described.min, max: described.max };
}

function withoutAll(missing: ClaimSample['missing']): NotEvaluated | undefined {
  const [first] = missing;
  return first && notEvaluated(`run ${first.run} of the claim gives no value: ${first.because}`, first.possibleIf);
}
