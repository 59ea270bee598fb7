import {
  type CriterionOf,
  type EarlierSample,
  isNotEvaluated,
  type NotEvaluated,
  notEvaluated,
  type PooledLots,
  type Sample,
  type Step,
} from '@breakbook/lab';
import { batchTestPower, kSampleAndersonDarling, summary } from '@breakbook/statistics';
import { converter } from '@breakbook/units';
import { differs } from '../../runs/judge-run.js';
import { counted, earlierInWords, pooledSentence, powerInWords, whetherPooled } from '../../words/index.js';
import { limitOf, type Question } from './question.js';

const TEST = 'k-sample Anderson-Darling';

/**
 * The sample that a bound rests on where the plan pools earlier lots: theirs and this lot's together if the declared test
 * does not tell them apart, this lot's alone if it does or cannot be made. Undefined where the plan pools none. The test
 * is made once, with all lots that the rule names; none is left out for how it looks.
 *
 * Source: Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924; pooling of batches by it, MIL-HDBK-17-1F
 * (2002), volume 1, 8.3.2.
 */
export function pooledSample(
  question: Question<CriterionOf<'tolerance bound'>>,
  own: Sample,
): { sample: Sample; finding: PooledLots } | undefined {
  const { pooling } = question.plan.claim;
  if (pooling === 'none') return undefined;
  const named = namedLots(question, pooling.lots);
  const ownValues = exactOf(own);
  const sizes = [ownValues, ...named.map(({ values }) => values)].map((values) =>
    isNotEvaluated(values) ? 0 : values.length,
  );
  const lots = named.map(({ values, ...one }) => ({ ...one, n: isNotEvaluated(values) ? 0 : values.length }));
  const n = sizes.reduce((sum, size) => sum + size, 0);
  const alone = (test: PooledLots['test'], power: PooledLots['power'], because: string) => ({
    sample: own,
    finding: asTold({ lots, n, test, power, used: false, because }),
  });

  const unfit = whyUnfit(ownValues, named);
  if (unfit) return alone(unfit, unfit, `${unfit.notEvaluated.because}: the bound rests on this lot alone`);
  const groups = [ownValues, ...named.map(({ values }) => values)] as number[][];
  const tested = kSampleAndersonDarling(groups, pooling.level);
  const power = powerOf(groups, pooling.shiftThatMatters, pooling.level);
  if (isNotEvaluated(tested))
    return alone(
      tested,
      power,
      `the lots could not be tested (${tested.notEvaluated.because}): the bound rests on this lot alone`,
    );
  const { statistic, critical, p, same } = tested;
  const test = { name: TEST, statistic, critical, level: pooling.level, p, same };
  if (!same) return alone(test, power, whetherPooled({ level: pooling.level, used: false, lots: groups.length }));
  return {
    sample: { exact: groups.flat() },
    finding: asTold({
      lots,
      n,
      test,
      power,
      used: true,
      because: whetherPooled({ level: pooling.level, used: true, lots: groups.length }),
    }),
  };
}

function from({ lot, evaluation }: EarlierSample): { lot: string; evaluation?: string } {
  return evaluation === undefined ? { lot } : { lot, evaluation };
}

function asTold(finding: Omit<PooledLots, 'sentence'>): PooledLots {
  return { ...finding, sentence: pooledSentence(finding) };
}

/** What the pooling of a bound hangs on. */
export type PoolingQuestion = Pick<Question, 'plan' | 'limit' | 'method' | 'earlier'>;

/** The earlier lots that the rule names, the latest first. */
function namedLots(question: PoolingQuestion, most: number) {
  const { unit } = limitOf(question);
  return question.earlier
    .filter((one) => one.characteristic === question.limit.characteristic)
    .slice(0, most)
    .map((one) => ({ ...from(one), values: exactIn(one, unit, differs(question.method, question.limit)) }));
}

/** For strengths still to be drawn: those that the bound would rest on, with the earlier lots where the test pools them. */
export function pooler(question: PoolingQuestion): (own: readonly number[]) => readonly number[] {
  const { pooling } = question.plan.claim;
  if (pooling === 'none') return (own) => own;
  const named = namedLots(question, pooling.lots);
  const earlier = named.flatMap(({ values }) => (isNotEvaluated(values) ? [] : [values]));
  if (earlier.length === 0 || earlier.length < named.length) return (own) => own;
  return (own) => {
    const groups = [own, ...earlier];
    const tested = kSampleAndersonDarling(groups, pooling.level);
    return !isNotEvaluated(tested) && tested.same ? groups.flat() : own;
  };
}

function whyUnfit(
  own: number[] | NotEvaluated,
  named: readonly { lot: string; values: number[] | NotEvaluated }[],
): NotEvaluated | undefined {
  if (named.length === 0)
    return notEvaluated('no earlier lot was tested by this method revision', 'earlier lots are tested and evaluated');
  if (isNotEvaluated(own)) return own;
  const unfit = named.find(({ values }) => isNotEvaluated(values));
  if (unfit && isNotEvaluated(unfit.values))
    return notEvaluated(`lot ${unfit.lot}: ${unfit.values.notEvaluated.because}`, unfit.values.notEvaluated.possibleIf);
  return undefined;
}

function exactIn(earlier: EarlierSample, unit: string, difference: boolean): number[] | NotEvaluated {
  const { unit: from, sample, missing = 0 } = earlier;
  if (missing > 0)
    return notEvaluated(
      `${counted(missing, 'specimen')} of its claim gave no value, and the others alone may be the stronger ones`,
      'every specimen of its claim gave a value',
    );
  const values = exactOf(sample);
  if (isNotEvaluated(values)) return values;
  return values.map(converter(from, unit, { difference }));
}

function exactOf({ exact = [], atLeast = [], atMost = [], between = [] }: Sample): number[] | NotEvaluated {
  if (atLeast.length + atMost.length + between.length > 0)
    return notEvaluated(
      'values known from one side only cannot be ranked among others',
      'every value is known exactly',
    );
  if (exact.length < 2) return notEvaluated('a group has fewer than 2 values', 'every lot has at least 2 values');
  return exact;
}

/** Power to see a shift of the mean by this share of it, in units of the scatter within lots. */
function powerOf(groups: readonly (readonly number[])[], share: number, level: number): PooledLots['power'] {
  const described = groups.map((values) => summary(values));
  const within = described.map((one) => (isNotEvaluated(one) || isNotEvaluated(one.sd) ? undefined : one));
  if (within.includes(undefined)) return notEvaluated('a lot has no scatter of its own', 'every lot has 2 values');
  const all = within.filter((one) => one !== undefined);
  const degrees = all.reduce((sum, { n }) => sum + n - 1, 0);
  const variance = all.reduce((sum, { n, sd }) => sum + (n - 1) * (sd as number) ** 2, 0) / degrees;
  const mean = all.reduce((sum, one) => sum + one.n * one.mean, 0) / all.reduce((sum, { n }) => sum + n, 0);
  if (!(variance > 0))
    return notEvaluated('all values of each lot are the same number', 'values are read finely enough to differ');
  const found = batchTestPower(
    groups.map((values) => values.length),
    (share * Math.abs(mean)) / Math.sqrt(variance),
    level,
  );
  if (isNotEvaluated(found)) return found;
  const { probability, simulationError: error, seed, replicates } = found;
  return { shift: share, probability, error, seed, replicates };
}

export function poolingSteps(finding: PooledLots): Step[] {
  const { lots, test, power } = finding;
  return [
    {
      question: 'Do the earlier lots agree with this one?',
      numbers: isNotEvaluated(test)
        ? { lots: lots.length }
        : { lots: lots.length, statistic: test.statistic, critical: test.critical, level: test.level, p: test.p },
      source: 'Scholz and Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924',
      answer: earlierInWords(finding),
    },
    {
      question: 'Would the test have seen a difference that matters?',
      numbers: isNotEvaluated(power)
        ? {}
        : { shift: power.shift, power: power.probability, 'simulation error': power.error },
      answer: powerInWords(power),
    },
  ];
}
