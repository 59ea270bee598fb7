import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { binomialCdf } from '../distributions/binomial.js';
import { noncentralTQuantile } from '../distributions/noncentral-t.js';
import { requireFraction } from '../requirements.js';
import { scoreOfShareBelow, variablesAcceptance } from './acceptance-chance.js';
import { LARGEST_SIZE, smallestThat } from './smallest.js';

/** Two shares below the limit, and the largest chances of a wrong decision at each. */
export interface PlanGoal {
  /** A share so small that it should be accepted, a fraction. */
  acceptable: number;
  /** Largest chance to refuse it. */
  producerRisk: number;
  /** A share so large that it should be refused, a fraction. */
  rejectable: number;
  /** Largest chance to accept it. */
  consumerRisk: number;
}

export interface PlanRisks {
  producerRisk: number;
  consumerRisk: number;
}

/**
 * The smallest variables plan, mean - k s >= limit for n normal values, that keeps both risks: the smallest n for which the
 * k that just keeps the consumer's risk,
 *
 *     k = t(1 - consumerRisk; n - 1, z sqrt n) / sqrt n,     z the score of the rejectable share (noncentral t)
 *
 * keeps the producer's as well.
 *
 * Source: Lieberman and Resnikoff (1955), J. Amer. Statist. Assoc. 50, 457-516; ISO 3951-1:2013.
 */
export function sizeForVariablesPlan(goal: PlanGoal): { n: number; k: number; achieved: PlanRisks } | NotEvaluated {
  const { acceptable, producerRisk, rejectable, consumerRisk } = checked(goal);
  const kFor = (n: number) =>
    noncentralTQuantile(1 - consumerRisk, n - 1, scoreOfShareBelow(rejectable) * Math.sqrt(n)) / Math.sqrt(n);
  const refused = (n: number) => 1 - variablesAcceptance(n, kFor(n), scoreOfShareBelow(acceptable));
  const n = smallestThat((tried) => refused(tried) <= producerRisk, 2);
  if (n === undefined) return tooMany();
  const k = kFor(n);
  return {
    n,
    k,
    achieved: {
      producerRisk: refused(n),
      consumerRisk: variablesAcceptance(n, k, scoreOfShareBelow(rejectable)),
    },
  };
}

/**
 * The smallest attribute plan, at most c of n fail, that keeps both risks by the binomial distribution: for c = 0, 1, 2 ...
 * the smallest n that keeps the consumer's, until that keeps the producer's too.
 *
 * Source: Guenther (1969), J. Qual. Technol. 1, 105-109.
 */
export function sizeForAttributePlan(goal: PlanGoal): { n: number; c: number; achieved: PlanRisks } | NotEvaluated {
  const { acceptable, producerRisk, rejectable, consumerRisk } = checked(goal);
  let least = 1;
  for (let c = 0; c < MOST_ALLOWED; c++) {
    const n = smallestThat((tried) => binomialCdf(c, tried, rejectable) <= consumerRisk, Math.max(least, c + 1));
    if (n === undefined) break;
    least = n;
    const refused = 1 - binomialCdf(c, n, acceptable);
    if (refused <= producerRisk)
      return { n, c, achieved: { producerRisk: refused, consumerRisk: binomialCdf(c, n, rejectable) } };
  }
  return tooMany();
}

/** With more failures allowed a plan is no plan of a lab. */
const MOST_ALLOWED = 2000;

function checked(goal: PlanGoal): PlanGoal {
  requireFraction('sizeForPlan', { ...goal });
  if (!(goal.acceptable < goal.rejectable))
    throw new RangeError(
      `sizeForPlan: acceptable must be less than rejectable; got ${goal.acceptable} and ${goal.rejectable}.`,
    );
  if (goal.producerRisk + goal.consumerRisk >= 1)
    throw new RangeError('sizeForPlan: the two risks together must be less than 1; a coin would keep them.');
  return goal;
}

function tooMany(): NotEvaluated {
  return notEvaluated(
    `not even ${LARGEST_SIZE} specimens, or ${MOST_ALLOWED} allowed failures, would keep both risks`,
    'acceptable and rejectable share lie farther apart, or a risk is larger',
  );
}
