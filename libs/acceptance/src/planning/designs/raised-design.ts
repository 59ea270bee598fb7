import { isNotEvaluated, notEvaluated } from '@breakbook/lab';
import { shareBelow, weibullDemonstrationSize, zeroFailureBound } from '@breakbook/statistics';
import { raisedDesignSentence } from '../../words/index.js';
import {
  badGuessNote,
  curveOf,
  curveShares,
  type DrawnOrNot,
  goodShare,
  processNote,
  type Setting,
  shareDenied,
} from '../setting.js';

/** Lower shapes at which the same result is shown where none are named, as shares of the shape assumed. */
const LOWER = [0.75, 0.5] as const;

/**
 * How many specimens loaded to more than the limit, none failing, show the claim at the limit?
 *
 *     n = smallest with (coverage^(loadRatio^shape))^n <= 1 - confidence
 *
 * It rests on the shape, which therefore is the lowest that is plausible, with its source.
 *
 * Source: Nelson (1985), J. Qual. Technol. 17, 140-146; Meeker and Escobar (1998), section 10.6.
 */
export function raisedDesign(setting: Setting): DrawnOrNot {
  const { claim, least, asked, lotSize, meanOverLimit, guess } = setting;
  const { raised } = asked;
  if (!raised)
    return notEvaluated(
      'what specimens show above the limit carries over to the limit only by the shape of a Weibull distribution, and none was named',
      'a load ratio and the lowest plausible shape are given, with the source of that shape',
    );
  const size = weibullDemonstrationSize({
    shape: raised.shape,
    reliability: claim.coverage,
    confidence: claim.confidence,
    loadRatio: raised.loadRatio,
  });
  if (isNotEvaluated(size)) return size;
  const n = Math.max(size.n, least);
  if (lotSize !== undefined && n > lotSize)
    return notEvaluated(`${n} specimens are needed, and the lot has ${lotSize}`, 'the load is raised further');
  const factor = raised.loadRatio ** raised.shape;
  const passes = (share: number) => (1 - share) ** (factor * n);
  const share = goodShare(setting);
  // What the guess says of strengths at the raised load itself needs no assumed shape.
  const surviving =
    asked.good === undefined
      ? 1 -
        Math.max(
          ...(['normal', 'lognormal', 'weibull'] as const).map((family) =>
            shareBelow(family, meanOverLimit / raised.loadRatio, guess.cv),
          ),
        )
      : (1 - share) ** factor;
  const good = { share, chance: surviving ** n };
  const bad = { share: setting.bad, chance: passes(setting.bad) };
  const shown = zeroFailureBound(n, claim.confidence);
  if (isNotEvaluated(shown)) return shown;
  const lowerShapes = (raised.lowerShapes ?? LOWER.map((part) => part * raised.shape))
    .filter((shape) => shape < raised.shape)
    .map((shape) => ({ shape, reliability: shown.reliability ** (raised.loadRatio ** -shape) }));
  const shares = curveShares();
  return {
    n,
    allowed: 0,
    loadRatio: raised.loadRatio,
    population: 'process',
    good,
    bad,
    keeps: 1 - passes(shareDenied(claim.coverage)),
    curve: curveOf(shares, shares.map(passes)),
    lowerShapes,
    assumes: `Weibull strengths of shape ${raised.shape} or more (${raised.shapeSource.replace(/\.\s*$/, '')}), and failures at the raised load as at the limit`,
    sentence: raisedDesignSentence({ n, claim, raised, good, bad, lowerShapes }),
    notes: [...badGuessNote(setting, share), ...processNote(setting)],
  };
}
