import {
  type CriterionOf,
  type CriterionResult,
  isNotEvaluated,
  type NotEvaluated,
  type RaisedLoad,
  type Step,
} from '@breakbook/lab';
import { zeroFailureBound } from '@breakbook/statistics';
import { counted, listed, percent, survivalSentence, theLimit, valueInWords } from '../../words/index.js';
import { type JudgedRun, resultIn } from '../claim.js';
import {
  answered,
  byVerdict,
  claimStep,
  guardBandOf,
  limitOf,
  type Question,
  whyNextStage,
  whyNotYet,
} from './question.js';

type Raised = Question<CriterionOf<'zero failures'>>;

/**
 * Do specimens that all survive more than the limit show that this share of the population holds the limit? What n
 * survivors show at the raised load carries over by the shape of the Weibull distribution:
 *
 *     reliability at the limit = R(n)^(loadRatio^-shape),     R(n) what n survivors show (Clopper-Pearson)
 *
 * The shape is the plan's, the lowest that is plausible by its source; what lower ones would give is printed. A failure
 * mode that the plan does not know at the limit shows that the raised load breaks specimens in another way, and then
 * nothing carries over. What failed the limit itself failed it in whatever mode. The guard band of the limit's rule is
 * kept at the raised load too.
 *
 * Source: Meeker and Escobar (1998), Statistical Methods for Reliability Data, section 10.6; Nelson (1985), J. Qual.
 * Technol. 17, 140-146.
 */
export function raisedDemonstration(question: Raised, raised: RaisedLoad): CriterionResult {
  const { criterion, claim, limit, method } = question;
  const { unit, lower } = limitOf(question);
  const steps: Step[] = [claimStep(question)];
  const numbers: Record<string, number | string> = {
    planned: claim.planned,
    reliability: criterion.reliability,
    confidence: criterion.confidence,
    'load ratio': raised.loadRatio,
    shape: raised.shape,
  };
  const open = (outcome: 'not yet decidable' | 'not evaluated', reasons: { because: string; possibleIf: string }) =>
    answered(question, { outcome, numbers, steps, ...reasons });
  if (lower === undefined || limit.bound !== 'at least')
    return open('not evaluated', {
      because: 'a raised load is a multiple of an "at least" limit',
      possibleIf: 'the criterion names an "at least" limit',
    });

  const load = raisedLoad(raised, lower);
  const atLimit = byVerdict(question).failing;
  const found = claim.runs.map((run) => ({
    run,
    ...survivalOf(run, limit.characteristic, load, guardBandOf(question, run)),
  }));
  const isStrange = ({ mode }: { mode?: string }) => mode !== undefined && !raised.modes.includes(mode);
  const strange = found.filter(isStrange);
  const failing = found.filter(
    (one) => one.survived === false && (!isStrange(one) || atLimit.some(({ run }) => run.run === one.run.run.run)),
  );
  const unknown = found.filter(({ survived }) => survived === undefined);
  const survivors = found.filter(({ survived }) => survived === true).length;
  Object.assign(numbers, { load, survivors, failures: failing.length, 'not evaluated': unknown.length });
  const printed = valueInWords({ kind: 'exact', value: load }, unit, { limits: [lower] });
  const guarded = limit.decisionRule.rule === 'guarded' ? ' and its guard band' : '';
  const named = (some: typeof found) => listed(some.map(({ run }) => run.run.specimen));
  steps.push({
    question: 'How many survive the raised load?',
    numbers: { load, survivors, failures: failing.length },
    answer: `${survivors} of ${found.length} survive ${printed}, ${raised.loadRatio} times ${theLimit(limit)}.`,
  });

  if (failing.length > 0)
    return answered(question, {
      outcome: 'not met',
      numbers,
      steps,
      because: `none may fail at ${printed}, and ${counted(failing.length, 'specimen')} (${named(failing)}) ${failing.length === 1 ? 'does' : 'do'}`,
    });
  if (strange.length > 0)
    return open('not evaluated', {
      because: `the raised load changed how specimens fail: ${listed([...new Set(strange.map(({ mode }) => mode as string))])} (${named(strange)}), while the plan knows ${listed(raised.modes)} at the limit; what was survived at the raised load says nothing of the limit`,
      possibleIf: 'the demonstration is made at the limit itself, or at a load that leaves the failure mode as it is',
    });
  if (!claim.complete) return open('not yet decidable', whyNotYet(question));
  const [first] = unknown;
  if (first)
    return open('not evaluated', {
      because: `specimen ${first.run.run.specimen} is not known to hold ${printed}${guarded}`,
      possibleIf: `every specimen is loaded to ${printed}${guarded} or until it breaks`,
    });
  if (survivors < method.minimumSpecimens)
    return open('not evaluated', {
      because: `${method.method} rev. ${method.revision} prints no bound on fewer than ${method.minimumSpecimens} specimens, and the claim has ${survivors}`,
      possibleIf: `the plan asks for at least ${method.minimumSpecimens} specimens`,
    });

  const shown = shownAtLimit(survivors, criterion.confidence, raised.loadRatio, raised.shape);
  if (isNotEvaluated(shown)) return open('not evaluated', shown.notEvaluated);
  const met = shown >= criterion.reliability;
  const lowerShapes = raised.lowerShapes.map((shape) => {
    const at = shownAtLimit(survivors, criterion.confidence, raised.loadRatio, shape);
    return [shape, isNotEvaluated(at) ? 0 : at] as const;
  });
  steps.push(
    {
      question: 'What do the survivors show at the limit?',
      numbers: { survivors, 'load ratio': raised.loadRatio, shape: raised.shape, 'reliability shown': shown },
      formula: 'R(limit) = R(n)^(loadRatio^-shape)',
      source: 'Meeker and Escobar (1998), section 10.6; Nelson (1985), J. Qual. Technol. 17, 140-146',
      answer: `${survivalSentence({ reliability: shown, confidence: criterion.confidence, population: 'process', survivors, limit })} Assumed: Weibull with shape ${raised.shape} (${raised.shapeSource.replace(/\.\s*$/, '')}).`,
    },
    {
      question: 'And if the shape were lower?',
      numbers: Object.fromEntries(lowerShapes.map(([shape, at]) => [`reliability at shape ${shape}`, at])),
      answer: `${lowerShapes.map(([shape, at]) => `At shape ${shape} the same survivors show ${percent(Number(at.toFixed(4)))}`).join('; ')}. This stands beside the claim and does not decide.`,
    },
  );
  if (!met && !question.look.last)
    return open(
      'not yet decidable',
      whyNextStage(question, `the survivors show ${percent(Number(shown.toFixed(4)))} so far`),
    );
  return answered(question, {
    outcome: met ? 'met' : 'not met',
    numbers: { ...numbers, 'reliability shown': shown, population: 'process' },
    steps,
    ...(met
      ? {}
      : {
          because: `${counted(survivors, 'survivor')} show ${percent(Number(shown.toFixed(4)))} at shape ${raised.shape}, less than the ${percent(criterion.reliability)} claimed, and the planned number is complete`,
        }),
  });
}

/** 1.1 times 1500 is a hair above 1650 in floating point, and who held 1650 shall not be said to have held less. */
export function raisedLoad({ loadRatio }: RaisedLoad, limit: number): number {
  return Number((loadRatio * limit).toPrecision(12));
}

/** Did this run hold the load and its guard band; undefined where its value does not tell. With the mode of what gave way. */
function survivalOf(
  run: JudgedRun,
  characteristic: string,
  load: number,
  band: number | undefined,
): { survived?: boolean; mode?: string } {
  const result = resultIn(run, characteristic);
  if (!result || isNotEvaluated(result.value)) return {};
  const mode = result.mode === undefined ? {} : { mode: result.mode };
  if (band === undefined) return mode;
  const { value } = result;
  const asked = load + band;
  switch (value.kind) {
    case 'exact':
      return { survived: value.value >= asked, ...mode };
    case 'atLeast':
      return value.value >= asked ? { survived: true, ...mode } : mode;
    case 'atMost':
      return value.value <= asked ? { survived: false, ...mode } : mode;
    case 'between':
      return value.lower >= asked
        ? { survived: true, ...mode }
        : value.upper <= asked
          ? { survived: false, ...mode }
          : mode;
  }
}

function shownAtLimit(survivors: number, confidence: number, ratio: number, shape: number): number | NotEvaluated {
  const shown = zeroFailureBound(survivors, confidence);
  if (isNotEvaluated(shown)) return shown;
  return shown.reliability ** (ratio ** -shape);
}
