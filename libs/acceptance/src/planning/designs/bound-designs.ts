import { isNotEvaluated, notEvaluated } from '@breakbook/lab';
import {
  type FittedDistribution,
  normalToleranceFactor,
  operatingCharacteristic,
  sizeForBound,
} from '@breakbook/statistics';
import { boundDesignSentence } from '../../words/index.js';
import {
  curveOf,
  curveShares,
  type DrawnOrNot,
  goodShare,
  MOST_SPECIMENS,
  processNote,
  REPLICATES,
  SEED,
  type Setting,
} from '../setting.js';

/**
 * How many specimens must be broken for the lower tolerance bound to clear the limit as often as asked, if strengths are
 * as expected? The smallest n that does (see `sizeForBound`), no fewer than the method asks for.
 *
 * Source: Faulkenberry and Weeks (1968), Technometrics 10, 343-348; Weibull by Lawless (1978), Technometrics 20, 355-368.
 */
export function boundDesign(setting: Setting, distribution: FittedDistribution): DrawnOrNot {
  const { claim, guess, meanOverLimit, power, least, lotSize } = setting;
  const simulation = { seed: SEED, replicates: REPLICATES };
  const size = sizeForBound({ ...claim, distribution, meanOverLimit, cv: guess.cv, power, ...simulation });
  if (isNotEvaluated(size) && !surelyPasses(setting, distribution)) return size;
  const n = Math.max(isNotEvaluated(size) ? least : size.n, least);
  if (lotSize !== undefined && n > lotSize)
    return notEvaluated(
      `${n} specimens would have to be broken, and the lot has ${lotSize}`,
      'the mean lies farther above the limit, strengths scatter less, or less is claimed',
    );
  if (n > MOST_SPECIMENS)
    return notEvaluated(
      `${n} specimens would have to be broken, more than any lab breaks`,
      'the mean lies farther above the limit, strengths scatter less, or less is claimed',
    );
  const share = goodShare(setting, distribution);
  const shares = [...new Set([...curveShares(), share, setting.bad])].sort((a, b) => a - b);
  const found = operatingCharacteristic({ kind: 'tolerance-bound', n, distribution, ...claim }, shares, simulation);
  if (isNotEvaluated(found)) return found;
  const at = (one: number) => found.acceptance[shares.indexOf(one)] as number;
  const good = { share, chance: at(share) };
  const bad = { share: setting.bad, chance: at(setting.bad) };
  const error = Math.max(0, ...(found.simulationError ?? []));
  return {
    n,
    ...(distribution === 'weibull' ? {} : { k: normalToleranceFactor({ n, ...claim }).k }),
    population: 'process',
    good,
    bad,
    // Exact by noncentral t, and by the conditional technique; the chance at the limit is simulated for the curve only.
    keeps: claim.confidence,
    curve: curveOf(shares, found.acceptance),
    ...(found.replicates === undefined || found.seed === undefined
      ? {}
      : { simulation: { replicates: found.replicates, seed: found.seed, error } }),
    assumes: `${NAMES[distribution]} strengths, every specimen broken, drawn at random`,
    sentence: boundDesignSentence({ n, name: NAMES[distribution], claim, good, bad }),
    notes: processNote(setting),
  };
}

const NAMES = { normal: 'normal', lognormal: 'lognormal', weibull: 'Weibull' } as const;

/** Where next to nothing of such a population lies below the limit, the fewest specimens do. */
function surelyPasses(setting: Setting, distribution: FittedDistribution): boolean {
  return goodShare({ ...setting, asked: { ...setting.asked, good: undefined } }, distribution) < 1e-300;
}
