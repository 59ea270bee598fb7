import { type CriterionOf, type CriterionResult, isNotEvaluated, type Step } from '@breakbook/lab';
import { responseBound, type StaircaseTrial, staircase } from '@breakbook/statistics';
import { converter } from '@breakbook/units';
import { differs } from '../../runs/judge-run.js';
import { boundInWords, counted, listed, percent, theLimit, valueInWords } from '../../words/index.js';
import { resultIn } from '../claim.js';
import { answered, claimStep, limitOf, type Question, samplesFor, whyMissing, whyNotYet } from './question.js';

/** Levels are set by a drop height and recorded to so much of themselves. */
const SAME_LEVEL = 0.02;

/**
 * Does the load at which this share of the population breaks lie at or above the limit? Each specimen was struck once, at
 * a level that it held ("at least") or broke at ("at most"). Met where the lower limit of that load, calibrated by simulation
 * of this very series, lies at or above the limit; not evaluated where the strikes give no such limit.
 *
 * Source: Finney (1971), Probit Analysis; Dixon and Mood (1948), J. Amer. Statist. Assoc. 43, 109-126 (staircase).
 */
export function responseEnergy(question: Question<CriterionOf<'response energy'>>): CriterionResult {
  const { criterion, claim, limit, method } = question;
  const { unit, lower } = limitOf(question);
  const convert = converter(limit.unit, unit, { difference: differs(method, limit) });
  const levels = criterion.levels?.map(convert);
  const step = criterion.step === undefined ? undefined : convert(criterion.step) - convert(0);
  const numbers: Record<string, number | string> = {
    planned: claim.planned,
    specimens: claim.runs.length,
    share: criterion.share,
    confidence: criterion.confidence,
  };
  const steps: Step[] = [claimStep(question)];
  const open = (outcome: 'not yet decidable' | 'not evaluated', reasons: { because: string; possibleIf: string }) =>
    answered(question, { outcome, numbers, steps, ...reasons });
  if (lower === undefined || limit.bound !== 'at least')
    return open('not evaluated', {
      because: 'a lower bound on the load that breaks specimens is compared with an "at least" limit',
      possibleIf: 'the criterion names an "at least" limit',
    });
  if (!claim.complete) return open('not yet decidable', whyNotYet(question));
  const missing = whyMissing(samplesFor(question));
  if (missing) return open('not evaluated', missing);
  if (claim.runs.length < method.minimumSpecimens)
    return open('not evaluated', {
      because: `${method.method} rev. ${method.revision} prints no bound on fewer than ${method.minimumSpecimens} specimens, and the claim has ${claim.runs.length}`,
      possibleIf: `the plan asks for at least ${method.minimumSpecimens} specimens`,
    });

  const strikes: StaircaseTrial[] = [];
  for (const run of claim.runs) {
    const value = resultIn(run, limit.characteristic)?.value;
    if (!value || isNotEvaluated(value) || (value.kind !== 'atLeast' && value.kind !== 'atMost'))
      return open('not evaluated', {
        because: `specimen ${run.run.specimen} was not struck once at one level: its value is neither "at least" nor "at most"`,
        possibleIf: 'each specimen of the claim is struck once',
      });
    const planned = levels?.find((level) => Math.abs(level - value.value) <= SAME_LEVEL * level);
    if (levels && planned === undefined)
      return open('not evaluated', {
        because: `specimen ${run.run.specimen} was struck at ${valueInWords({ kind: 'exact', value: value.value }, unit)}, which is none of the levels planned`,
        possibleIf: 'specimens are struck at the levels that the plan names',
      });
    strikes.push({ level: planned ?? value.value, broke: value.kind === 'atMost' });
  }
  const series = step === undefined ? strikes : onSteps(strikes, step);
  const offStep = strikes.findIndex(
    ({ level }, index) => Math.abs(level - (series[index]?.level ?? level)) > SAME_LEVEL * Math.abs(level),
  );
  if (offStep >= 0)
    return open('not evaluated', {
      because: `specimen ${claim.runs[offStep]?.run.specimen} was struck at ${valueInWords({ kind: 'exact', value: strikes[offStep]?.level ?? 0 }, unit)}, which is no whole number of steps from the first strike`,
      possibleIf: 'specimens are struck at the levels that the staircase asks for',
    });
  const broken = series.filter(({ broke }) => broke).length;
  Object.assign(numbers, { broken, 'held without breaking': series.length - broken });
  steps.push({
    question: 'What was struck, and what broke?',
    numbers: { specimens: series.length, broken },
    answer: `${counted(series.length, 'specimen')} at ${listed([...new Set(series.map(({ level }) => valueInWords({ kind: 'exact', value: level }, unit)))])}; ${broken} broke.`,
  });
  if (step !== undefined) {
    const departed = departuresOf(series, step);
    if (isNotEvaluated(departed)) return open('not evaluated', departed.notEvaluated);
    if (departed.length > 0)
      return open('not evaluated', {
        because: `the staircase was left at ${listed(departed.map((index) => `specimen ${claim.runs[index]?.run.specimen}`))}: each level follows from what the specimen before did`,
        possibleIf: 'the levels are those that the staircase asks for, or the plan names levels instead',
      });
  }

  const found = responseBound({ trials: series, share: criterion.share, confidence: criterion.confidence, step });
  if (isNotEvaluated(found)) return open('not evaluated', found.notEvaluated);
  const { estimate, scatter, bound, root, nominalRoot, achievedConfidence, without, seed, replicates } = found;
  Object.assign(numbers, { estimate, lower: bound, 'confidence reached': achievedConfidence });
  steps.push({
    question: `At what load does ${criterion.share === 0.5 ? 'half' : percent(criterion.share)} of the population break?`,
    numbers: {
      estimate,
      scatter,
      lower: bound,
      'standard errors below the estimate': root,
      'were specimens many': nominalRoot,
      'confidence reached': achievedConfidence,
      'simulated series without a curve': without,
      seed,
      replicates,
    },
    formula:
      'share breaking at x = Phi((x - median) / s), lower profile limit, calibrated by simulation of this series',
    source: 'Finney (1971), Probit Analysis, 3rd ed.; calibration, Efron and Tibshirani (1993), chapter 18',
    answer: `About ${valueInWords({ kind: 'exact', value: estimate }, unit)}; with ${percent(criterion.confidence)} confidence at or above ${boundInWords(bound, unit, [lower])}. Series like this one were simulated ${replicates} times at each of ${found.reached.length} scatters, and at least ${percent(Number(achievedConfidence.toFixed(3)))} of them had a limit at or below the true load. Assumed: the load at which a specimen breaks is normal, specimens are independent and struck once.`,
  });
  const met = bound >= lower;
  return answered(question, {
    outcome: met ? 'met' : 'not met',
    numbers,
    steps,
    bound: {
      value: bound,
      estimate,
      coverage: 1 - criterion.share,
      confidence: criterion.confidence,
      technique: 'calibrated profile limit of the response curve',
      achievedConfidence,
    },
    ...(met
      ? {}
      : {
          because: `the lower limit of that load, ${boundInWords(bound, unit, [lower])}, lies below ${theLimit(limit)}`,
        }),
  });
}

/** Recorded loads scatter a little about the level set; each is taken for the nearest step from the first. */
function onSteps(strikes: readonly StaircaseTrial[], step: number): StaircaseTrial[] {
  const first = strikes[0]?.level ?? 0;
  return strikes.map(({ level, broke }) => ({ level: first + Math.round((level - first) / step) * step, broke }));
}

function departuresOf(series: readonly StaircaseTrial[], step: number) {
  const found = staircase(series, step);
  return isNotEvaluated(found) ? found : found.departures;
}
