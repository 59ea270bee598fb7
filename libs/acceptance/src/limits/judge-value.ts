import {
  type CharacteristicValue,
  isExternal,
  isNotEvaluated,
  limitName,
  type MeasuredLimit,
  type NotEvaluated,
  notEvaluated,
  type Result,
  type Verdict,
  type VerdictOutcome,
} from '@breakbook/lab';
import { conformanceProbability } from '@breakbook/statistics';
import { rangeInWords, valueInWords, verdictSentence } from '../words/index.js';
import { guarded, limitIn, type Range } from './limit-in-unit.js';
import { verdictSteps } from './verdict-steps.js';
import { FOUR_ZONES, insideBy, spanOf, zoneOf } from './zone-of.js';

export interface ValueAndLimit {
  limit: MeasuredLimit;
  result: Result;
  specimen: string;
  /** Is the characteristic a difference, such as a temperature rise? Its limit then converts without the zero point. */
  difference: boolean;
}

type Answer =
  | { outcome: Exclude<VerdictOutcome, 'not evaluated'> }
  | { outcome: 'not evaluated'; because: string; possibleIf: string };

/**
 * Does this value conform to this limit under the limit's decision rule?
 *
 *     w = 0 (simple) or r U (guarded, four zones);  accepted from TL + w (at least) or up to TL - w (at most)
 *
 * A value known from one side stands for every number on that side: it conforms when all of them are accepted, does
 * not conform when none is, and is not evaluated otherwise. "At most" and the upper end of "between" say that the part
 * broke there or before: a part that broke by the limit does not hold it. Value and limits are compared unrounded in the result's
 * unit; a value exactly on an acceptance limit is accepted. A guarded rule has two outcomes: a value between the limit and the
 * acceptance limit is not accepted. The rule of four zones has four, as `zoneOf` has them.
 *
 * Source: ILAC-G8:09/2019, 4.2.1 to 4.2.3; JCGM 106:2012, 8.2 and 8.3.
 */
export function judgeValue({ limit, result, specimen, difference }: ValueAndLimit): Verdict {
  const { uncertainty, unit } = result;
  const limitValue = limitIn(limit, unit, difference);
  const { decisionRule: rule } = limit;
  // Without U a guarded rule has no band; the answer below is then that there is none.
  const guardBand = rule.rule === 'simple' ? 0 : rule.r * (uncertainty?.expanded ?? 0);
  const acceptance = guarded(limitValue, guardBand);

  const value = isNotEvaluated(result.value) ? undefined : result.value;
  const answer = answerTo({ limit, result, limitValue, acceptance });
  const margin = value && answer.outcome !== 'not evaluated' ? marginOf(value, limitValue) : undefined;
  const zone = value && answer.outcome !== 'not evaluated' ? zoneOf(value, limitValue, guardBand) : undefined;
  const probability = probabilityOf(result, limitValue);
  const reasons =
    answer.outcome === 'not evaluated' ? { because: answer.because, possibleIf: answer.possibleIf } : undefined;

  return {
    limit: { limit: limit.limit, revision: limit.revision },
    characteristic: result.characteristic,
    outcome: answer.outcome,
    external: isExternal(limit),
    ...(value ? { value } : {}),
    ...(uncertainty ? { uncertainty: { expanded: uncertainty.expanded, k: uncertainty.k } } : {}),
    unit,
    limitValue,
    acceptance,
    guardBand,
    ...(margin === undefined ? {} : { margin }),
    ...(zone === undefined ? {} : { zone }),
    probabilityOfConformance: probability,
    sentence: verdictSentence({
      title: result.title,
      specimen,
      unit,
      ...(value ? { value } : {}),
      ...(uncertainty ? { uncertainty } : {}),
      limit,
      limitValue,
      acceptance,
      outcome: answer.outcome,
      ...(reasons ? { because: reasons.because } : {}),
    }),
    ...reasons,
    steps: verdictSteps({ limit, result, limitValue, acceptance, guardBand, margin, zone, probability, answer }),
  };
}

function answerTo(given: { limit: MeasuredLimit; result: Result; limitValue: Range; acceptance: Range }): Answer {
  const { limit, result, limitValue, acceptance } = given;
  if (isNotEvaluated(result.value)) return { outcome: 'not evaluated', ...result.value.notEvaluated };
  if (limit.decisionRule.rule !== 'simple' && !result.uncertainty)
    return {
      outcome: 'not evaluated',
      because: `the rule of ${limitName(limit)} needs the expanded uncertainty U and the method states none`,
      possibleIf: `a revision of the method states an uncertainty budget for ${result.characteristic}`,
    };

  if (limit.decisionRule.rule === 'four zones') {
    const zone = zoneOf(result.value, limitValue, limit.decisionRule.r * (result.uncertainty?.expanded ?? 0));
    return zone === undefined
      ? { outcome: 'not evaluated', ...whyOpen(result.value, result.unit, limit, limitValue) }
      : { outcome: FOUR_ZONES[zone] };
  }

  const [lowest, highest] = spanOf(result.value);
  const [low, high] = [limitValue.lower ?? -Infinity, limitValue.upper ?? Infinity];
  const [acceptedFrom, acceptedTo] = [acceptance.lower ?? -Infinity, acceptance.upper ?? Infinity];
  if (acceptedFrom > acceptedTo)
    // Both bands together are wider than the tolerance: nothing could be accepted, however good the part.
    return highest < low || lowest > high
      ? { outcome: 'does not conform' }
      : {
          outcome: 'not evaluated',
          because: `the guard bands of ${limitName(limit)} leave no value that could be accepted`,
          possibleIf: `the uncertainty is small beside the distance of the two limits`,
        };

  if (lowest >= acceptedFrom && highest <= acceptedTo) return { outcome: 'conforms' };
  const brokeByLimit = brokeBy(result.value) && highest === acceptedFrom;
  if (highest < acceptedFrom || brokeByLimit || lowest > acceptedTo) return { outcome: 'does not conform' };
  return { outcome: 'not evaluated', ...whyOpen(result.value, result.unit, limit, acceptance) };
}

/** Is the highest number of this value one at which the part had broken? */
function brokeBy({ kind }: CharacteristicValue): boolean {
  return kind === 'atMost' || kind === 'between';
}

/** Why a value known from one side says neither yes nor no. */
function whyOpen(
  value: CharacteristicValue,
  unit: string,
  limit: MeasuredLimit,
  acceptance: Range,
): { because: string; possibleIf: string } {
  const band = limit.decisionRule.rule === 'guarded' ? ' with its guard band' : '';
  const asked = `${rangeInWords(limit)}${band}`;
  const limits = [acceptance.lower, acceptance.upper].filter((one) => one !== undefined);
  if (value.kind === 'atLeast' && acceptance.lower !== undefined && value.value < acceptance.lower)
    return {
      because: `the specimen held ${valueInWords({ ...value, kind: 'exact' }, unit, { limits })} and did not break there, while the limit asks for ${asked}`,
      possibleIf: `a specimen is loaded until it breaks, or to ${asked}`,
    };
  return {
    because: `the value is known only as ${valueInWords(value, unit, { limits })}, which lies on both sides of the limit of ${asked}`,
    possibleIf: 'a specimen gives an exact value, or one known closely enough to lie on one side',
  };
}

/**
 * How far the worst number that a value stands for lies inside the limits (not the acceptance limits), negative
 * outside; undefined where that number is infinitely far.
 */
function marginOf(value: CharacteristicValue, limits: Range): number | undefined {
  const [lowest, highest] = spanOf(value);
  const margin = Math.min(insideBy(lowest, limits), insideBy(highest, limits));
  return Number.isFinite(margin) ? margin : undefined;
}

/** JCGM 106:2012, clause 7, without knowledge from before the measurement. */
function probabilityOf({ value, uncertainty, characteristic }: Result, limits: Range): number | NotEvaluated {
  if (isNotEvaluated(value)) return value;
  if (!uncertainty || uncertainty.expanded === 0)
    return notEvaluated(
      'no uncertainty is stated of the value',
      `a revision of the method states an uncertainty budget for ${characteristic}`,
    );
  if (value.kind !== 'exact')
    return notEvaluated('the value is known from one side only, or between two', 'a specimen gives an exact value');
  return conformanceProbability(value.value, uncertainty.expanded / uncertainty.k, limits).probability;
}
