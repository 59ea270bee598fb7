import { type Distribution, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { normalToleranceFactor } from '../bounds/normal-tolerance-factor.js';
import { requireFraction, requirePositive } from '../requirements.js';
import { scoreOfShareBelow, variablesAcceptance } from './acceptance-chance.js';
import { shareBelow } from './margin-for-share.js';
import { LARGEST_SIZE, smallestThat } from './smallest.js';
import { type BoundClaim, type Simulation, weibullAcceptance } from './weibull-acceptance.js';

/** A tolerance bound that is to lie above a limit, for a population whose mean and scatter are expected. */
export interface BoundGoal extends BoundClaim, Simulation {
  distribution: Distribution;
  /** Expected mean divided by the limit. */
  meanOverLimit: number;
  /** Expected coefficient of variation, a fraction. */
  cv: number;
  /** Chance that the bound lies at or above the limit. */
  power: number;
}

export interface BoundSize {
  n: number;
  /** One-sided tolerance factor at n; normal and lognormal only. */
  k?: number;
  achieved: { power: number };
  /** Share of such a population below the limit. */
  fractionBelow: number;
  simulationError?: number;
  seed?: number;
  replicates?: number;
}

/** Beyond it a simulated size takes minutes, and no lab breaks so many. */
const LARGEST_SIMULATED = 400;

/**
 * How many specimens must be broken so that the lower tolerance bound lies at or above the limit with this chance, if the
 * population is as expected? The smallest n with
 *
 *     normal      P(T >= k sqrt n) >= power,  T noncentral t, score (1 - limit / mean) / cv, k the tolerance factor
 *     lognormal   the same, with score (ln(mean / limit) - s^2 / 2) / s, s^2 = ln(1 + cv^2)
 *     weibull     by seeded simulation (see `weibullAcceptance`), its shape from the cv
 *
 * Without a distribution, mean and scatter do not say what lies below the limit. Smallest: 2.
 *
 * Source: Faulkenberry and Weeks (1968), Technometrics 10, 343-348; Owen (1963), Sandia SCR-607.
 */
export function sizeForBound(goal: BoundGoal): BoundSize | NotEvaluated {
  const { coverage, confidence, distribution, meanOverLimit, cv, power } = goal;
  requireFraction('sizeForBound', { coverage, confidence, power });
  requirePositive('sizeForBound', { meanOverLimit, cv });
  if (distribution === 'distribution-free')
    return notEvaluated(
      'without a distribution, mean and scatter do not say what share lies below the limit',
      'the plan declares a distribution, or the size of a demonstration without failures is asked for',
    );
  const fractionBelow = shareBelow(distribution, meanOverLimit, cv);
  if (fractionBelow >= 1 - coverage)
    return notEvaluated(
      `of such a population ${fractionBelow} lies below the limit, as much as the claim denies or more`,
      'the mean lies farther above the limit, or strengths scatter less',
    );
  return distribution === 'weibull' ? weibullSize(goal, fractionBelow) : normalSize(goal, fractionBelow);
}

function normalSize({ coverage, confidence, power }: BoundGoal, fractionBelow: number): BoundSize | NotEvaluated {
  const score = scoreOfShareBelow(fractionBelow);
  const factor = (n: number) => normalToleranceFactor({ n, coverage, confidence }).k;
  const reached = (n: number) =>
    // Where next to nothing lies below the limit the score is infinite, and acceptance certain.
    Number.isFinite(score) ? variablesAcceptance(n, factor(n), score) : 1;
  const n = smallestThat((tried) => reached(tried) >= power, 2);
  return n === undefined ? tooMany(LARGEST_SIZE) : { n, k: factor(n), achieved: { power: reached(n) }, fractionBelow };
}

function weibullSize(
  { power, seed, replicates, ...claim }: BoundGoal,
  fractionBelow: number,
): BoundSize | NotEvaluated {
  if (!(fractionBelow > 0))
    return notEvaluated('next to nothing of such a population lies below the limit', 'the mean lies less far above it');
  const reached = (n: number) => weibullAcceptance(n, claim, [fractionBelow], { seed, replicates });
  const n = smallestThat((tried) => (reached(tried).chances[0] as number) >= power, 2, LARGEST_SIMULATED);
  if (n === undefined) return tooMany(LARGEST_SIMULATED);
  const found = reached(n);
  return {
    n,
    achieved: { power: found.chances[0] as number },
    fractionBelow,
    simulationError: found.simulationError[0] as number,
    seed: found.seed,
    replicates: found.replicates,
  };
}

function tooMany(most: number): NotEvaluated {
  return notEvaluated(
    `not even ${most} specimens would be enough`,
    'the mean lies farther above the limit, strengths scatter less, or less is claimed',
  );
}
