import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireCount, requireFraction } from '../requirements.js';
import { chanceIfUntrue } from './lot-claim.js';

/** No lab breaks more; and to here the incomplete beta function keeps its digits. */
const LARGEST_SIZE = 1_000_000_000;

/** How many specimens a demonstration needs. */
export interface DemonstrationSize {
  method: 'demonstration size';
  n: number;
  reliability: number;
  confidence: number;
  allowedFailures: number;
  /** The confidence that n specimens with the allowed failures really give. */
  achievedConfidence: number;
  lotSize?: number;
}

export interface DemonstrationGoal {
  /** Share of the population that must hold, a fraction. */
  reliability: number;
  confidence: number;
  /** Failures with which the demonstration still succeeds. */
  allowedFailures: number;
  /** Units in the lot, if the claim is about this lot alone. */
  lotSize?: number | undefined;
}

/**
 * How many specimens must be tested, so that no more than the allowed failures among them show that
 * at least this share of the population holds, with this confidence? The smallest n with
 *
 *     P(at most c failures | n, share failing 1 - reliability) <= 1 - confidence
 *
 * by the binomial distribution for a process; for a lot of N units, those tested included, by the
 * hypergeometric with the fewest bad units that make the claim untrue.
 *
 * Assumes specimens drawn at random; assumes no distribution of strength. Smallest n: 1.
 *
 * Source: Clopper and Pearson (1934), Biometrika 26, 404-413; for lots Buonaccorsi (1987),
 * Amer. Statist. 41, 215-218.
 */
export function demonstrationSize(goal: DemonstrationGoal): DemonstrationSize | NotEvaluated {
  const { reliability, confidence, allowedFailures, lotSize } = goal;
  requireFraction('demonstrationSize', { reliability, confidence });
  requireCount('demonstrationSize', { allowedFailures });
  if (lotSize !== undefined) requireCount('demonstrationSize', { lotSize }, 1);

  const claim = { share: reliability, lotSize };
  // An exact tie counts as reached, whatever rounding makes of it.
  const tolerated = (1 - confidence) * (1 + 1e-12);
  const shows = (n: number) => chanceIfUntrue(allowedFailures, n, claim) <= tolerated;

  const largest = lotSize ?? LARGEST_SIZE;
  if (allowedFailures >= largest || !shows(largest))
    return notEvaluated(
      lotSize === undefined
        ? `not even ${LARGEST_SIZE} specimens would be enough`
        : `even with every unit of the lot of ${lotSize} tested, ${allowedFailures} failures leave the claim unproven`,
      'fewer failures are allowed, or a smaller share is claimed',
    );

  let enough = allowedFailures + 1;
  let tooFew = allowedFailures;
  while (!shows(enough)) {
    tooFew = enough;
    enough = Math.min(largest, enough * 2);
  }
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    if (shows(middle)) enough = middle;
    else tooFew = middle;
  }
  return {
    method: 'demonstration size',
    n: enough,
    reliability,
    confidence,
    allowedFailures,
    achievedConfidence: 1 - chanceIfUntrue(allowedFailures, enough, claim),
    ...(lotSize === undefined ? {} : { lotSize }),
  };
}
