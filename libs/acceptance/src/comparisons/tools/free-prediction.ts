import { isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import { predictionProbabilityByRank } from '@breakbook/statistics';
import { endsOf, standIn } from '../ends.js';
import { chance, inUnit, levelInWords } from '../words.js';
import { byLot, lotsAlike, tooFewLots } from './lots.js';
import { type Bounds, comparedOf, type Predicted, type PredictionQuestion } from './predicted.js';
import { reaches } from './tested.js';

/**
 * Bounds without any distribution: an item that lies below the r-th smallest of n reference units, itself one of m,
 *
 *     p = 1 - product over j < r of (n - j) / (n + m - j)
 *
 * by the equal chance of all orders. Lots that vary speak with one unit each, their smallest (for "below"), which lies no
 * higher than any one that could have been drawn: n is then the number of lots. What is known from one side only stands on
 * the side where it makes a difference harder to find.
 *
 * Source: Hahn and Meeker (1991), Statistical Intervals, section 5.4; lots as units: their orders are as likely as those of
 * single values.
 */
export function freePrediction(question: PredictionQuestion): Predicted | NotEvaluated {
  const { tool, reference, items } = question;
  if (question.declared.betweenRigs)
    return notEvaluated(
      'an uncertainty between rigs cannot be added where no distribution is assumed',
      'items and reference are tested on one rig, or the tool names a distribution',
    );
  if (tool.of === 'mean' && items.length > 1)
    return notEvaluated('orders say nothing of a mean', 'each item is compared by itself');
  const lots = byLot(reference);
  const few = tooFewLots(lots.length);
  if (few) return few;
  const alike =
    tool.lots === 'alike'
      ? lotsAlike(lots.map(({ values }) => values.map(({ value }) => standIn(endsOf(value)))))
      : undefined;
  if (isNotEvaluated(alike)) return alike;

  const ends = lots.map(({ values }) => values.map(({ value }) => endsOf(value)));
  const forLow =
    tool.lots === 'alike'
      ? ends.flat().map(({ low }) => low)
      : ends.map((lot) => Math.min(...lot.map(({ low }) => low)));
  const forHigh =
    tool.lots === 'alike'
      ? ends.flat().map(({ high }) => high)
      : ends.map((lot) => Math.max(...lot.map(({ high }) => high)));
  const [fromLowest, fromHighest] = [forLow.toSorted((a, b) => a - b), forHigh.toSorted((a, b) => b - a)];
  const n = forLow.length;
  const m = items.length;
  const sides = tool.side === 'either' ? 2 : 1;
  const byRank = (rank: number) => (rank > n ? 1 : predictionProbabilityByRank(n, m, rank).probability);
  const compared = comparedOf(question, (value) => value);
  const pOf = compared.map(({ low, high }) => {
    const below = byRank(1 + forLow.filter((value) => value <= high).length);
    const above = byRank(1 + forHigh.filter((value) => value >= low).length);
    return Math.min(
      1,
      sides * (tool.side === 'below' ? below : tool.side === 'above' ? above : Math.min(below, above)),
    );
  });
  const none = notEvaluated(
    'without a distribution it is not known how far a true difference moves values past others',
    'the tool names a distribution',
  );
  const bounds = (level: number): Bounds => {
    let rank = 0;
    while (rank < n && reaches(sides * byRank(rank + 1), level)) rank++;
    const short = notEvaluated(
      `a value beyond all ${n} ${tool.lots === 'alike' ? 'reference units' : 'lots'} has a chance of ${chance(sides * byRank(1))} where nothing differs, and the level is ${levelInWords(level)}`,
      `there are at least ${fewestFor(level / sides, m)} ${tool.lots === 'alike' ? 'reference units' : 'reference lots'}`,
    );
    const at = (ordered: readonly number[]) => {
      const bound = rank === 0 ? undefined : ordered[rank - 1];
      if (bound === undefined) return short;
      return Number.isFinite(bound)
        ? bound
        : notEvaluated(
            'the reference value that would be the bound is known from one side only',
            'it is known on both',
          );
    };
    return {
      ...(tool.side === 'above' ? {} : { lower: at(fromLowest) }),
      ...(tool.side === 'below' ? {} : { upper: at(fromHighest) }),
    };
  };
  const p = Math.min(...pOf);
  return {
    p,
    pOf,
    compared,
    bounds,
    smallest: () => none,
    steps: (level) => [...(alike ? [alike] : []), rankStep(question, { n, m, p, level, bounds: bounds(level) })],
  };
}

function rankStep(
  question: PredictionQuestion,
  { n, m, p, level, bounds }: { n: number; m: number; p: number; level: number; bounds: Bounds },
): Step {
  const numbers = Object.fromEntries(Object.entries(bounds).filter(([, bound]) => typeof bound === 'number')) as Record<
    string,
    number
  >;
  const vary = question.tool.lots === 'vary';
  return {
    question: 'How often would units of the same kind lie so far out?',
    numbers: { n, m, p, level, ...numbers },
    answer: `${vary ? 'Lots may vary, so each speaks with one unit. ' : ''}A chance of ${chance(p)}${Object.entries(
      numbers,
    )
      .map(([side, bound]) => `; ${side} bound ${inUnit(bound, question)}`)
      .join('')}.`,
    formula: '1 - product over j < r of (n - j) / (n + m - j)',
    source: 'Hahn and Meeker (1991), Statistical Intervals, section 5.4',
  };
}

/** The n at which a value beyond all of them has a chance of at most the level: m / (n + m). */
function fewestFor(level: number, m: number): number {
  return Math.ceil(m / level - m - 1e-9);
}
