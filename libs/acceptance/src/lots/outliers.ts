import { type CriterionOf, isNotEvaluated, notEvaluated, type OutlierFinding, type PlanLine } from '@breakbook/lab';
import { outlierScreen } from '@breakbook/statistics';
import { outlierSentence } from '../words/index.js';
import { type Claim, resultIn } from './claim.js';
import { judgeCriterion } from './criteria/judge-criterion.js';
import type { Question } from './criteria/question.js';

/** Level of the screen: one clean sample in twenty is flagged, and looked into. */
const LEVEL = 0.05;

/**
 * Does one value of the claim lie farther from the others than scatter explains? It is flagged and looked into, and the
 * bounds are shown with it and without it. It is never dropped for this: a weak wheel is what the test looks for.
 *
 * Values of a lognormal or Weibull claim are screened as logarithms, which are nearer to normal. Values known from one
 * side are not screened, and a value is flagged only where none of them may lie farther out: a low one beside specimens that
 * held without breaking, never a high one.
 *
 * Source: Grubbs (1969), Technometrics 11, 1-21; MIL-HDBK-17-1F (2002), volume 1, 8.3.3.
 */
export function outliersOf(
  questions: readonly Question[],
  line: PlanLine,
  claim: Claim,
  unit: string,
): OutlierFinding[] {
  const known = claim.runs.flatMap((run) => {
    const value = resultIn(run, line.characteristic)?.value;
    return value && !isNotEvaluated(value) && value.kind === 'exact' ? [{ run, value: value.value }] : [];
  });
  const kinds = claim.runs.flatMap((run) => {
    const value = resultIn(run, line.characteristic)?.value;
    return value && !isNotEvaluated(value) && value.kind !== 'exact' ? [value.kind] : [];
  });
  const logarithmic = questions.some(
    ({ criterion }) =>
      criterion.kind === 'tolerance bound' &&
      (criterion.distribution === 'lognormal' || criterion.distribution === 'weibull'),
  );
  if (known.length < 3 || (logarithmic && known.some(({ value }) => value <= 0))) return [];
  const values = known.map(({ value }) => (logarithmic ? Math.log(value) : value));
  const screen = outlierScreen(values, LEVEL);
  if (isNotEvaluated(screen) || !screen.outlier) return [];
  const found = known[screen.index] as (typeof known)[number];
  const side = values.some((value) => value < (values[screen.index] as number)) ? ('high' as const) : ('low' as const);
  // What held without breaking may be stronger still, and what broke by then weaker: beside them nothing stands out.
  if (kinds.some((kind) => kind !== (side === 'high' ? 'atMost' : 'atLeast'))) return [];
  const finding = {
    run: found.run.run.run,
    specimen: found.run.run.specimen,
    value: found.value,
    side,
    statistic: screen.statistic,
    critical: screen.critical,
    level: LEVEL,
    bounds: boundsWithout(questions, claim, found.run.run.run),
  };
  return [{ ...finding, sentence: outlierSentence(finding, unit) }];
}

/** Bounds of the criteria that have one, with all values and without this run's. */
function boundsWithout(questions: readonly Question[], claim: Claim, run: string): OutlierFinding['bounds'] {
  if (!claim.complete) return [];
  const others = { ...claim, runs: claim.runs.filter((one) => one.run.run !== run) };
  return questions
    .filter(
      (question): question is Question<CriterionOf<'tolerance bound'>> => question.criterion.kind === 'tolerance bound',
    )
    .flatMap((question) => {
      const all = judgeCriterion(question);
      if (!all.bound) return [];
      const without = judgeCriterion({ ...question, claim: others });
      return [
        {
          criterion: question.criterion.criterion,
          with: all.bound.value,
          without:
            without.bound?.value ??
            notEvaluated(
              without.because ?? 'there is no bound without it',
              without.possibleIf ?? 'more specimens are broken',
            ),
        },
      ];
    });
}
