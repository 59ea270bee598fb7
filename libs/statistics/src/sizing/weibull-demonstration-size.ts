import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { requireCount, requireFraction, requirePositive } from '../requirements.js';
import { demonstrationSize } from './demonstration-size.js';

/** What is to be shown, for a Weibull shape known beforehand. */
export interface WeibullDemonstrationGoal {
  /** From many earlier specimens, never from those to be tested. */
  shape: number;
  /** Share that holds at the load of the claim, a fraction. */
  reliability: number;
  confidence: number;
  /** 0 if left out. */
  allowedFailures?: number | undefined;
}

export interface WeibullDemonstration {
  method: 'Weibull demonstration size';
  n: number;
  /** Load of the test divided by the load of the claim. */
  loadRatio: number;
  allowedFailures: number;
  /** Share that must hold at the load of the test for the claim to be true, a fraction. */
  reliabilityAtTest: number;
}

/**
 * How many specimens must be loaded to `loadRatio` times the load of the claim, so that no more than the allowed failures
 * show the reliability? At the load of the test
 *
 *     reliability at test = reliability^(loadRatio^shape)
 *
 * must hold, and the size of a demonstration of that follows (see `demonstrationSize`).
 *
 * Assumes strength Weibull with exactly this shape; a shape too large makes the claim too bold. Smallest n: allowed
 * failures + 1.
 *
 * Source: Nelson (1985), J. Qual. Technol. 17, 140-146; Meeker and Escobar (1998), Statistical Methods for Reliability
 * Data, section 10.6.
 */
export function weibullDemonstrationSize(
  goal: WeibullDemonstrationGoal & { loadRatio: number },
): WeibullDemonstration | NotEvaluated {
  const { shape, reliability, confidence, loadRatio, allowedFailures = 0 } = required(goal);
  requirePositive('weibullDemonstrationSize', { loadRatio });
  const reliabilityAtTest = Math.exp(Math.log(reliability) * loadRatio ** shape);
  if (reliabilityAtTest === 1)
    return notEvaluated(
      'at so low a load next to nothing fails, and no number of specimens would show it',
      'the load is higher',
    );
  // Where nothing would hold if the claim were only just true, one specimen more than the failures is enough.
  const size =
    reliabilityAtTest > 0
      ? demonstrationSize({ reliability: reliabilityAtTest, confidence, allowedFailures })
      : { n: allowedFailures + 1 };
  if (isNotEvaluated(size)) return size;
  return { method: 'Weibull demonstration size', n: size.n, loadRatio, allowedFailures, reliabilityAtTest };
}

/**
 * To what multiple of the load of the claim must n specimens be loaded instead?
 *
 *     loadRatio = (ln R_test / ln reliability)^(1 / shape),     R_test = B(1 - confidence; n - c, c + 1)
 *
 * with B the beta quantile and c the allowed failures: the reliability that n specimens with c failures demonstrate.
 */
export function weibullDemonstrationLoad(
  goal: WeibullDemonstrationGoal & { n: number },
): WeibullDemonstration | NotEvaluated {
  const { shape, reliability, confidence, n, allowedFailures = 0 } = required(goal);
  requireCount('weibullDemonstrationLoad', { n });
  if (n <= allowedFailures)
    return notEvaluated(
      `${n} specimens of which ${allowedFailures} may fail show nothing`,
      `at least ${allowedFailures + 1} specimens are tested`,
    );
  const reliabilityAtTest =
    allowedFailures === 0
      ? Math.exp(Math.log1p(-confidence) / n)
      : betaQuantile(1 - confidence, n - allowedFailures, allowedFailures + 1);
  const loadRatio = (Math.log(reliabilityAtTest) / Math.log(reliability)) ** (1 / shape);
  if (!(Number.isFinite(loadRatio) && loadRatio > 0))
    return notEvaluated('the load lies beyond every number', 'the shape is larger, or less is claimed');
  return { method: 'Weibull demonstration size', n, loadRatio, allowedFailures, reliabilityAtTest };
}

function required<Goal extends WeibullDemonstrationGoal>(goal: Goal): Goal {
  requirePositive('weibullDemonstrationSize', { shape: goal.shape });
  requireFraction('weibullDemonstrationSize', { reliability: goal.reliability, confidence: goal.confidence });
  requireCount('weibullDemonstrationSize', { allowedFailures: goal.allowedFailures ?? 0 });
  return goal;
}
