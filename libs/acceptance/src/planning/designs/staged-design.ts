import { notEvaluated } from '@breakbook/lab';
import { stagedBoundChance } from '@breakbook/statistics';
import { lookConfidence } from '../../lots/look.js';
import { stagedDesignSentence } from '../../words/index.js';
import {
  badGuessNote,
  curveOf,
  curveShares,
  type DrawnOrNot,
  goodShare,
  processNote,
  SCHEDULES,
  SEED,
  type Setting,
} from '../setting.js';

const USUAL_STAGES = [5, 5] as const;

/**
 * What does a schedule of stages show, with the bound of each look taken at the confidence that keeps the whole schedule's?
 * It ends as soon as a bound clears the limit, and so breaks fewer specimens of a good lot.
 *
 * Source: `stageConfidence` and `stagedBoundChance`; Pocock (1977), Biometrika 64, 191-199.
 */
export function stagedDesign(setting: Setting): DrawnOrNot {
  const { claim, least, lotSize, asked } = setting;
  const { distribution = 'weibull', stages = USUAL_STAGES } = asked;
  let sum = 0;
  const looks = stages.map((adds) => {
    sum += adds;
    return sum;
  });
  const [first = 0] = looks;
  if (first < least)
    return notEvaluated(
      `the first stage has ${first} specimens, and the method prints no bound on fewer than ${least}`,
      `the first stage has at least ${least}`,
    );
  if (lotSize !== undefined && sum > lotSize)
    return notEvaluated(`the stages take ${sum} specimens, and the lot has ${lotSize}`, 'the stages are smaller');
  const { perStage, overall, unadjusted } = lookConfidence({ sizes: looks }, { ...claim, distribution });
  const share = goodShare(setting, distribution);
  // A share so small that no number tells it from none.
  const least1 = Math.max(share, 1e-300);
  const shares = [...curveShares(), least1, setting.bad];
  const found = stagedBoundChance(
    {
      stages: looks,
      coverage: claim.coverage,
      perStageConfidence: perStage,
      distribution,
      seed: SEED,
      replicates: SCHEDULES,
    },
    shares,
  );
  const [goodAt, badAt] = [shares.length - 2, shares.length - 1];
  const good = { share, chance: found.acceptance[goodAt] as number };
  const bad = { share: setting.bad, chance: found.acceptance[badAt] as number };
  const expected = { good: found.expected[goodAt] as number, bad: found.expected[badAt] as number };
  return {
    n: sum,
    expected,
    stages: [...stages],
    perStageConfidence: perStage,
    population: 'process',
    good,
    bad,
    keeps: overall,
    curve: curveOf(curveShares(), found.acceptance),
    simulation: { replicates: SCHEDULES, seed: SEED, error: Math.max(...found.simulationError) },
    assumes: `${distribution === 'weibull' ? 'Weibull' : distribution} strengths, every specimen broken, drawn at random; the stages are declared beforehand`,
    sentence: stagedDesignSentence({ stages, claim, perStage, unadjusted, expected, good, bad }),
    notes: [
      ...badGuessNote(setting, share),
      ...(good.chance < setting.power
        ? ['A good lot passes less often than asked: the stages are too small for it.']
        : []),
      ...processNote(setting),
    ],
  };
}
