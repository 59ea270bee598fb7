import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireCount, requireFraction } from '../requirements.js';
import { binomialBound } from './binomial-bound.js';

/** What a test without failures demonstrates. Shares are fractions, never percent. */
export interface ZeroFailureBound {
  method: 'zero-failure bound';
  survivors: number;
  confidence: number;
  /** At least this share of the population survives. */
  reliability: number;
  lotSize?: number;
}

/**
 * The share of a population that survives at least, when every specimen tested survived:
 *
 *     reliability = (1 - confidence)^(1 / survivors)
 *
 * Exact and one-sided; for a lot of N units, those tested included, by the hypergeometric
 * distribution. Assumes specimens drawn at random; assumes no distribution of strength.
 *
 * Source: Clopper and Pearson (1934), Biometrika 26, 404-413; the case of no failures.
 */
export function zeroFailureBound(
  survivors: number,
  confidence: number,
  { lotSize }: { lotSize?: number | undefined } = {},
): ZeroFailureBound | NotEvaluated {
  requireCount('zeroFailureBound', { survivors });
  requireFraction('zeroFailureBound', { confidence });
  if (survivors === 0) return notEvaluated('no specimen was tested', 'at least 1 specimen is tested');

  const base = { method: 'zero-failure bound', survivors, confidence } as const;
  if (lotSize === undefined)
    // log1p keeps the digits that 1 - confidence loses when confidence is small.
    return { ...base, reliability: Math.exp(Math.log1p(-confidence) / survivors) };
  const bound = binomialBound({ n: survivors, failures: 0, confidence, lotSize });
  return 'notEvaluated' in bound ? bound : { ...base, reliability: bound.reliabilityLower, lotSize };
}
