import { isNotEvaluated, notEvaluated } from '@breakbook/lab';
import { binomialCdf, chanceIfUntrue, demonstrationSize, hypergeometricCdf } from '@breakbook/statistics';
import { countDesignSentence } from '../../words/index.js';
import { badGuessNote, curveOf, curveShares, type DrawnOrNot, goodShare, lotShares, type Setting } from '../setting.js';

/** With more failures allowed a plan is none of a lab that breaks wheels. */
const MOST_ALLOWED = 20;

/**
 * How many specimens of which none may fail show the claim? For a process the smallest n with coverage^n <= 1 - confidence,
 * for a lot the same by the hypergeometric distribution; no fewer than the method asks for.
 *
 * Source: Clopper and Pearson (1934), Biometrika 26, 404-413.
 */
export function zeroFailureDesign(setting: Setting): DrawnOrNot {
  return counting(setting, 0);
}

/**
 * How many specimens, and how many failures allowed, show the claim and let a good lot pass as often as asked? The fewest
 * failures from 1 on that do.
 *
 * Source: Guenther (1969), J. Qual. Technol. 1, 105-109, with the number allowed begun at 1.
 */
export function failuresDesign(setting: Setting): DrawnOrNot {
  for (let allowed = 1; allowed <= MOST_ALLOWED; allowed++) {
    const drawn = counting(setting, allowed);
    if (isNotEvaluated(drawn) || drawn.good.chance >= setting.power) return drawn;
  }
  return notEvaluated(
    `not even with ${MOST_ALLOWED} failures allowed would a good lot pass as often as asked`,
    'good lots are better, less is claimed, or a good lot may fail more often',
  );
}

function counting(setting: Setting, allowed: number): DrawnOrNot {
  const { claim, lotSize, least } = setting;
  const size = demonstrationSize({
    reliability: claim.coverage,
    confidence: claim.confidence,
    allowedFailures: allowed,
    lotSize,
  });
  if (isNotEvaluated(size)) return size;
  const n = Math.max(size.n, least);
  if (lotSize !== undefined && n > lotSize)
    return notEvaluated(
      `${n} specimens are the fewest the method takes, and the lot has ${lotSize}`,
      'the claim is about more units',
    );
  const ofProcess = (share: number) => binomialCdf(allowed, n, share);
  const ofLot = (share: number) =>
    lotSize === undefined
      ? ofProcess(share)
      : hypergeometricCdf(allowed, { size: lotSize, marked: Math.round(share * lotSize), drawn: n });
  const shares = lotSize === undefined ? curveShares() : lotShares(lotSize);
  const good = goodShare(setting);
  // Units drawn from a lot that the process made are units drawn from the process.
  const goodPasses = { share: good, chance: ofProcess(good) };
  const badPasses = { share: setting.bad, chance: ofLot(setting.bad) };
  const population = lotSize === undefined ? 'process' : 'lot';
  return {
    n,
    allowed,
    population,
    good: goodPasses,
    bad: badPasses,
    keeps: 1 - chanceIfUntrue(allowed, n, { share: claim.coverage, lotSize }),
    curve: curveOf(shares, shares.map(ofLot)),
    assumes: 'specimens drawn at random; nothing of how strengths are distributed',
    sentence: countDesignSentence({ n, allowed, claim, lotSize, good: goodPasses, bad: badPasses }),
    notes: badGuessNote(setting, good),
  };
}
