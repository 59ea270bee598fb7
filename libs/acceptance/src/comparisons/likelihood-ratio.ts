import {
  type CharacteristicComparison,
  type ComparedValue,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
} from '@breakbook/lab';
import { futureSpread, logPredictiveDensity, lotsSummary, scatterWeights } from '@breakbook/statistics';
import { printSignificant } from '@breakbook/units';
import { endsOf, isExact } from './ends.js';
import { comparedOf, type PredictionQuestion } from './tools/predicted.js';
import { referenceNumbers, scaleOf } from './tools/reference-numbers.js';

type Told = NonNullable<CharacteristicComparison['likelihoodRatio']>;

/** From which ratio on each word is used. From memory of the ENFSI guideline for evaluative reporting (2015). */
const WORDS: readonly (readonly [from: number, words: string])[] = [
  [10_000, 'very strong'],
  [1_000, 'strong'],
  [100, 'moderately strong'],
  [10, 'moderate'],
  [2, 'weak'],
];

/**
 * How much more likely are the items' values if they were made as the reference than if made as the stated alternative? The
 * ratio of two predictive t densities, on the scale of the declared distribution:
 *
 *     ratio = f(value | reference) / f(value | alternative)
 *
 * Only where both are modelled from data. It is told for one characteristic, never multiplied with that of another, and is
 * no probability of what the items are.
 *
 * Source: Geisser (1993), Predictive Inference, chapter 2; ENFSI guideline for evaluative reporting in forensic science (2015).
 */
export function likelihoodRatioOf(
  question: PredictionQuestion,
  alternative: { values: readonly ComparedValue[]; statement: string },
): Told {
  const { tool, items, declared } = question;
  if (tool.distribution !== 'normal' && tool.distribution !== 'lognormal')
    return notEvaluated(
      'a ratio of densities needs a normal or lognormal distribution',
      'the tool declares one of them',
    );
  if (declared.betweenRigs)
    return notEvaluated('rigs differ, and the alternative was not tested with the items', 'all are tested on one rig');
  if (tool.of === 'each' && items.length > 1)
    return notEvaluated(
      `${items.length} items are compared each by itself`,
      'one item, or the mean of several, is compared',
    );
  const scale = scaleOf(tool.distribution);
  const [at] = comparedOf(question, scale.to);
  if (!at || !isExact(at) || !Number.isFinite(at.low))
    return notEvaluated('the value of the items is not known exactly', 'it is read exactly');
  const byReference = densityOf(question, at.low);
  if (isNotEvaluated(byReference)) return byReference;
  const byAlternative = densityOf({ ...question, reference: alternative.values }, at.low);
  if (isNotEvaluated(byAlternative))
    return notEvaluated(
      `of the alternative, ${byAlternative.notEvaluated.because}`,
      byAlternative.notEvaluated.possibleIf,
    );
  const ratio = Math.exp(byReference - byAlternative);
  const support = Math.max(ratio, 1 / ratio);
  const words = WORDS.find(([from]) => support >= from)?.[1];
  const side = ratio >= 1 ? 'made as the reference' : `made otherwise: ${alternative.statement}`;
  return {
    ratio,
    words: words === undefined ? 'no support either way' : `${words} support`,
    sentence: `${declared.title}: the value is ${printSignificant(support, 2)} times as likely if ${ratio >= 1 ? `made as the reference as if ${alternative.statement}` : `${alternative.statement} as if made as the reference`}; ${words === undefined ? 'this supports neither' : `${words} support for items ${side}`}. This is no probability of either.`,
  };
}

const FEWEST_ALIKE = 5;

function densityOf(question: PredictionQuestion, at: number): number | NotEvaluated {
  const { tool, reference, items } = question;
  if (reference.some(({ value }) => !isExact(endsOf(value))))
    return notEvaluated('some values are known from one side only', 'all are known exactly');
  const found = referenceNumbers(question, scaleOf(tool.distribution));
  if (isNotEvaluated(found)) return found;
  if (tool.lots === 'alike' && reference.length < FEWEST_ALIKE)
    return notEvaluated(`${reference.length} units are too few to model`, `there are at least ${FEWEST_ALIKE}`);
  const summary = lotsSummary(found.values, found.sizes);
  const spread = futureSpread(scatterWeights({ sizes: found.sizes, items: items.length, of: tool.of }), summary, 0);
  return spread.variance > 0
    ? logPredictiveDensity(at - summary.centre, spread)
    : notEvaluated('all values are the same number', 'values are read finely enough to differ');
}
