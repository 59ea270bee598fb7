import {
  type Criterion,
  type CriterionOf,
  type CriterionRisk,
  type CriterionRiskUnknown,
  isNotEvaluated,
  type Limit,
  limitName,
  type NotEvaluated,
  notEvaluated,
  type Plan,
  type PlanLine,
} from '@breakbook/lab';
import {
  countScheduleChance,
  fewestBad,
  normalQuantile,
  operatingCharacteristic,
  stagedBoundChance,
  weibullDemonstrationSize,
  zeroFailureSize,
} from '@breakbook/statistics';
import { chanceAllConform } from '../../lots/chance-all-conform.js';
import { lookConfidence, looksOf } from '../../lots/look.js';
import { remembered } from '../../remembered.js';
import { countRiskSentence, edgeRiskSentence, meanRiskSentence } from '../../words/index.js';
import { curveOf, curveShares, lotShares, REPLICATES, SCHEDULES, SEED, shareDenied } from '../setting.js';
import { JUDGED_LOWER, staircaseMargins } from '../staircase-margins.js';

export type RiskOrNot = CriterionRisk | CriterionRiskUnknown;

export interface CriterionToWeigh<C extends Criterion = Criterion> {
  criterion: C;
  limit: Limit | undefined;
  line: PlanLine;
  plan: Plan;
  /** Fewest specimens on which the method prints a bound. */
  least: number;
  lotSize: number | undefined;
}

type Weighed = Omit<CriterionRisk, 'criterion' | 'kind' | 'limit'>;

/** How often does a lot pass this criterion, by the share of its units that lies below the limit? */
export function criterionRisk(given: CriterionToWeigh): RiskOrNot {
  const { criterion } = given;
  const named = { criterion: criterion.criterion, kind: criterion.kind, limit: limitName(criterion.limit) };
  const { line, least } = given;
  const first = line.stages?.[0] ?? line.specimens;
  const weighed =
    'confidence' in criterion && first < least
      ? notEvaluated(
          `the method prints no bound on fewer than ${least} specimens, and ${first} are looked at`,
          `the line plans at least ${least}`,
        )
      : weigh(given);
  return { ...named, ...weighed };
}

function weigh(given: CriterionToWeigh): Weighed | NotEvaluated {
  const { criterion } = given;
  switch (criterion.kind) {
    case 'every specimen':
      return everySpecimen(given);
    case 'failures at most':
      return failuresAtMost({ ...given, criterion });
    case 'tolerance bound':
      return toleranceBound({ ...given, criterion });
    case 'zero failures':
      return zeroFailures({ ...given, criterion });
    case 'response energy':
      return responseEnergy({ ...given, criterion });
    case 'mean':
      return meanWithin({ ...given, criterion });
  }
}

const AT_RANDOM = 'specimens drawn at random';

function sharesFor({ plan, lotSize }: CriterionToWeigh): { shares: readonly number[]; size: number | undefined } {
  const size = plan.claim.population === 'lot' ? lotSize : undefined;
  return { shares: size === undefined ? curveShares() : lotShares(size), size };
}

function everySpecimen(given: CriterionToWeigh): Weighed | NotEvaluated {
  const { line } = given;
  const { shares, size } = sharesFor(given);
  if (size !== undefined && line.specimens > size) return beyond(line, size);
  const passes = (share: number) => chanceAllConform(line.specimens, share, size);
  const curve = curveOf(shares, shares.map(passes));
  return { curve, assumes: AT_RANDOM, sentence: countRiskSentence({ curve, allowed: 0, n: line.specimens, size }) };
}

function failuresAtMost(given: CriterionToWeigh<CriterionOf<'failures at most'>>): Weighed | NotEvaluated {
  const { line, criterion } = given;
  const { shares, size } = sharesFor(given);
  if (size !== undefined && line.specimens > size) return beyond(line, size);
  const looks = criterion.looks ?? [{ accept: criterion.allowed, reject: criterion.allowed + 1 }];
  const adds = line.stages ?? [line.specimens];
  const stages = looks.map((look, index) => ({ ...look, adds: adds[index] as number }));
  const found = shares.map((share) => countScheduleChance(stages, share, { lotSize: size }));
  const curve = curveOf(
    shares,
    found.map(({ acceptance }) => acceptance),
  );
  return {
    curve,
    ...(line.stages ? { schedule: { looks: looksOf(line)[0]?.sizes.slice() ?? [] } } : {}),
    assumes: AT_RANDOM,
    sentence: countRiskSentence({ curve, allowed: criterion.allowed, n: line.specimens, size }),
  };
}

function toleranceBound(given: CriterionToWeigh<CriterionOf<'tolerance bound'>>): Weighed | NotEvaluated {
  const { line, criterion } = given;
  const { coverage, confidence, distribution } = criterion;
  const edge = shareDenied(coverage);
  const shares = [...new Set([...curveShares(), edge])].sort((a, b) => a - b);
  const at = (chances: readonly number[]) => ({ share: edge, chance: chances[shares.indexOf(edge)] as number });
  const assumes =
    distribution === 'distribution-free'
      ? AT_RANDOM
      : `${distribution === 'weibull' ? 'Weibull' : distribution} strengths, complete samples, ${AT_RANDOM}`;
  const sizes = (looksOf(line)[0] as { sizes: readonly number[] }).sizes;
  if (sizes.length === 1) {
    const found = boundCurve({ n: line.specimens, claim: { distribution, coverage, confidence }, shares });
    if (isNotEvaluated(found)) return found;
    const atLimit = at(found.acceptance);
    // Order statistics keep more than they state; the other bounds are exact.
    const keeps = distribution === 'distribution-free' ? 1 - atLimit.chance : confidence;
    return {
      atLimit,
      keeps,
      curve: curveOf(shares, found.acceptance),
      ...(found.replicates === undefined || found.seed === undefined
        ? {}
        : {
            simulation: {
              replicates: found.replicates,
              seed: found.seed,
              error: Math.max(0, ...(found.simulationError ?? [])),
            },
          }),
      assumes,
      sentence: edgeRiskSentence({ atLimit, keeps }),
    };
  }
  const { perStage, overall, unadjusted } = lookConfidence({ sizes }, criterion);
  const found = stagedBoundChance(
    { stages: sizes, coverage, perStageConfidence: perStage, distribution, seed: SEED, replicates: SCHEDULES },
    shares,
  );
  const atLimit = at(found.acceptance);
  const expected = found.expected[shares.indexOf(edge)] as number;
  return {
    atLimit,
    keeps: overall,
    curve: curveOf(shares, found.acceptance),
    schedule: { looks: [...sizes], perStageConfidence: perStage, unadjusted, expected },
    ...(found.seed === undefined || found.replicates === undefined
      ? {}
      : { simulation: { replicates: found.replicates, seed: found.seed, error: Math.max(...found.simulationError) } }),
    assumes,
    sentence: edgeRiskSentence({ atLimit, keeps: overall, unadjusted, looks: sizes.length }),
  };
}

interface BoundOfShares {
  n: number;
  claim: Pick<CriterionOf<'tolerance bound'>, 'distribution' | 'coverage' | 'confidence'>;
  shares: readonly number[];
}

/** Kept, since every report of a lot asks for the same; simulated curves take a while. */
const boundCurve = remembered(100, ({ n, claim, shares }: BoundOfShares) =>
  operatingCharacteristic({ kind: 'tolerance-bound', n, ...claim }, shares, { seed: SEED, replicates: REPLICATES }),
);

function zeroFailures(given: CriterionToWeigh<CriterionOf<'zero failures'>>): Weighed | NotEvaluated {
  const { line, criterion } = given;
  const { reliability, confidence, raised } = criterion;
  const n = line.specimens;
  if (raised) {
    const size = weibullDemonstrationSize({
      shape: raised.shape,
      reliability,
      confidence,
      loadRatio: raised.loadRatio,
    });
    if (isNotEvaluated(size)) return size;
    if (n < size.n) return neverMet(n, size.n);
    const factor = raised.loadRatio ** raised.shape;
    const passes = (share: number) => (1 - share) ** (factor * n);
    const edge = shareDenied(reliability);
    const atLimit = { share: edge, chance: passes(edge) };
    return {
      atLimit,
      keeps: 1 - atLimit.chance,
      curve: curveOf(curveShares(), curveShares().map(passes)),
      assumes: `Weibull strengths of shape ${raised.shape} or more, failures as at the limit, ${AT_RANDOM}`,
      sentence: edgeRiskSentence({ atLimit, keeps: 1 - atLimit.chance }),
    };
  }
  const { shares, size } = sharesFor(given);
  if (size !== undefined && n > size) return beyond(line, size);
  const needed = zeroFailureSize({ reliability, confidence, lotSize: size });
  if (isNotEvaluated(needed)) return needed;
  // A claim about one lot whose size is not known yet: fewer may be enough there than for a process.
  const unknownLot = given.plan.claim.population === 'lot' && size === undefined;
  if (n < needed.n)
    return unknownLot
      ? notEvaluated(
          `${n} specimens show it only of a small lot, and how many units the lot has is not known`,
          'the lot size is given',
        )
      : neverMet(n, needed.n);
  const passes = (share: number) => chanceAllConform(n, share, size);
  const edge = size === undefined ? shareDenied(reliability) : fewestBad({ share: reliability, lotSize: size }) / size;
  const atLimit = { share: edge, chance: passes(edge) };
  return {
    atLimit,
    keeps: 1 - atLimit.chance,
    curve: curveOf(shares, shares.map(passes)),
    ...(line.stages ? { schedule: { looks: [...(looksOf(line)[0]?.sizes ?? [])] } } : {}),
    assumes: AT_RANDOM,
    sentence: edgeRiskSentence({ atLimit, keeps: 1 - atLimit.chance, lotSize: size }),
  };
}

const SERIES = 300;

function responseEnergy({ line, criterion }: CriterionToWeigh<CriterionOf<'response energy'>>): Weighed | NotEvaluated {
  if (criterion.levels)
    return notEvaluated(
      'how often a lot passes depends on where the levels lie about the loads at which it breaks, which the plan does not say',
      'the series is simulated at a mean and scatter expected',
    );
  const found = staircaseMargins({ n: line.specimens, confidence: criterion.confidence, seed: SEED, series: SERIES });
  const atLimit = { share: criterion.share, chance: found.chance(normalQuantile(criterion.share)) };
  return {
    atLimit,
    keeps: 1 - atLimit.chance,
    curve: curveOf(
      curveShares(),
      curveShares().map((share) => found.chance(normalQuantile(share))),
      found.chance(Number.NEGATIVE_INFINITY),
    ),
    simulation: {
      replicates: SERIES,
      seed: SEED,
      error: Math.max(1 / SERIES, Math.sqrt((atLimit.chance * (1 - atLimit.chance)) / SERIES)),
    },
    assumes: `breaking loads normal, steps of one standard deviation from near the median, each specimen struck once, ${AT_RANDOM}; ${JUDGED_LOWER}`,
    sentence: edgeRiskSentence({ atLimit, keeps: 1 - atLimit.chance }),
  };
}

/** A population whose mean lies just at the limit passes as often as its one-sided limit errs, by Student exactly. */
function meanWithin({ criterion, limit }: CriterionToWeigh<CriterionOf<'mean'>>): Weighed {
  return {
    keeps: criterion.confidence,
    curve: [],
    assumes: `normal values, ${AT_RANDOM}`,
    sentence: meanRiskSentence({ confidence: criterion.confidence, between: limit?.bound === 'between' }),
  };
}

function neverMet(n: number, needed: number): NotEvaluated {
  return notEvaluated(
    `${n} specimens can never meet it, even if none fails: ${needed} are needed`,
    `the line plans ${needed}, or less is claimed`,
  );
}

function beyond({ specimens }: PlanLine, size: number): NotEvaluated {
  return notEvaluated(
    `${specimens} specimens cannot come from a lot of ${size}`,
    'the line plans fewer, or the lot is larger',
  );
}
