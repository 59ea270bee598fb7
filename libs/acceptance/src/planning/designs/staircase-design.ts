import { notEvaluated } from '@breakbook/lab';
import { normalQuantile } from '@breakbook/statistics';
import { staircaseDesignSentence } from '../../words/index.js';
import { curveOf, curveShares, type DrawnOrNot, goodShare, processNote, SEED, type Setting } from '../setting.js';
import { JUDGED_LOWER, staircaseMargins } from '../staircase-margins.js';

/** Sizes tried, from the fewest that the source of the staircase lets be analysed. */
const SIZES = [10, 15, 20, 30, 40] as const;
const SERIES = 300;

/**
 * How many specimens, each struck once, show by a staircase that half of the population holds the limit? It is a claim
 * about the median, whatever the coverage asked for: a staircase keeps near the median and says nothing of the weak end.
 *
 * Simulated with steps of one standard deviation, begun at the median. Source: Dixon and Mood (1948), J. Amer. Statist.
 * Assoc. 43, 109-126; limits, Finney (1971), Probit Analysis, 3rd ed.
 */
export function staircaseDesign(setting: Setting): DrawnOrNot {
  const { claim, power, lotSize, guess } = setting;
  const share = goodShare(setting, 'normal');
  if (share >= 0.5)
    return notEvaluated(
      'the median expected lies at or below the limit',
      'the mean lies above the limit, or a lower limit is claimed',
    );
  if (claim.confidence <= 0.5)
    return notEvaluated(
      'a lower limit at 50 % confidence or less claims nothing',
      'more than 50 % confidence is claimed',
    );
  const sizes = SIZES.filter((n) => lotSize === undefined || n <= lotSize);
  for (const n of sizes) {
    const found = staircaseMargins({ n, confidence: claim.confidence, seed: SEED, series: SERIES });
    const passes = (one: number) => found.chance(normalQuantile(Math.max(one, 1e-300)));
    const atHalf = found.chance(0);
    const error = Math.sqrt((atHalf * (1 - atHalf)) / SERIES);
    // The criterion is answered only where the limit reaches its confidence.
    if (1 - atHalf + 2 * error < claim.confidence || passes(share) < power) continue;
    const good = { share, chance: passes(share) };
    const bad = { share: 0.5, chance: atHalf };
    return {
      n,
      population: 'process',
      good,
      bad,
      keeps: 1 - atHalf,
      curve: curveOf(curveShares(), curveShares().map(passes), passes(0)),
      simulation: { replicates: SERIES, seed: SEED, error: Math.max(error, 1 / SERIES) },
      assumes:
        'breaking loads normal, specimens independent and struck once, steps of one standard deviation from near the median',
      sentence: staircaseDesignSentence({
        n,
        confidence: claim.confidence,
        good,
        bad,
        step: guess.cv * guess.mean,
        unit: setting.asked.limit.unit,
      }),
      notes: [...processNote(setting), `Too good by a little: ${JUDGED_LOWER}.`],
    };
  }
  return notEvaluated(
    sizes.length === 0
      ? `a staircase needs some ${SIZES[0]} specimens, and the lot has ${lotSize}`
      : `not even ${sizes.at(-1)} specimens would let a good lot pass as often as asked at the confidence claimed`,
    'the median lies farther above the limit, strengths scatter less, or less confidence is claimed',
  );
}
