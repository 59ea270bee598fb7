import {
  isAllowed,
  type Limit,
  limitName,
  type Method,
  notEvaluated,
  type Plan,
  type PlanLine,
  type Reading,
  Refusal,
  type Result,
  RUN_STATES,
  type Run,
  type RunJudgement,
} from '@breakbook/lab';
import { isDifference } from '@breakbook/units';
import { judgeSigns } from '../limits/judge-signs.js';
import { judgeValue } from '../limits/judge-value.js';
import { examinedResult } from './examined-result.js';

export interface RunToJudge {
  plan: Plan;
  method: Method;
  /** At least those that the plan line names. */
  limits: readonly Limit[];
  reading: Reading;
  run: Run;
}

/**
 * Does this specimen conform? Results join what the record shows with what the examination found; verdicts set them
 * against the limits of the plan line.
 *
 * Verdicts exist only where the run is valid, with or without a deviation. An invalid or void run gets each of its
 * limits as "not evaluated" with the reason; before validity is decided there are none, so that whoever decides it
 * cannot see them.
 */
export function judgeRun({ plan, method, limits, reading, run }: RunToJudge): RunJudgement {
  const line = lineOf(plan, run);
  const results = reading.characteristics.map((one) => examinedResult(one, method, run.examination));
  const judged = { run: run.run, specimen: run.specimen, planLine: run.planLine, results };
  const decision = run.validity;
  if (!decision) return { ...judged, validity: 'not decided', verdicts: [] };

  // Reasons stand inside sentences, and bring no full stop of their own.
  const reason = [decision.reason, decision.note?.replace(/\.\s*$/, '')].filter((one) => one !== undefined).join(': ');
  const counts = isAllowed(RUN_STATES, 'enter the judgement of its lot', decision.validity);
  const verdicts = line.limits.map((ref) => {
    const limit = limits.find((one) => one.limit === ref.limit && one.revision === ref.revision);
    if (!limit)
      throw new Refusal({
        code: 'meta.unknown',
        detail: `${limitName(ref)}, which plan ${plan.plan} rev. ${plan.revision} names in line ${line.line}, is not there. Add this revision of the limit.`,
      });
    const refusal = notEvaluated(
      `the run is ${decision.validity}${reason === '' ? '' : ` (${reason})`}`,
      'a valid run is made on another specimen drawn by the same rule',
    );
    if (limit.bound === 'absent')
      return judgeSigns({
        limit,
        method,
        examination: run.examination,
        specimen: run.specimen,
        ...(counts ? {} : { withheld: refusal }),
      });
    const result = results.find((one) => one.characteristic === limit.characteristic);
    const withheld = counts
      ? notEvaluated(
          `the run gives no ${limit.characteristic}`,
          `the method gives ${limit.characteristic}, or it is keyed for this run`,
        )
      : refusal;
    return judgeValue({
      limit,
      result: result && counts ? result : { ...(result ?? unknownResult(limit)), value: withheld },
      specimen: run.specimen,
      difference: differs(method, limit),
    });
  });
  return { ...judged, validity: decision.validity, ...(reason === '' ? {} : { validityReason: reason }), verdicts };
}

function lineOf(plan: Plan, run: Run): PlanLine {
  const line = plan.lines.find((one) => one.line === run.planLine);
  if (line) return line;
  throw new Refusal({
    code: 'meta.unknown',
    detail: `Run ${run.run} names plan line ${run.planLine}, which plan ${plan.plan} rev. ${plan.revision} does not have. Its lines are ${plan.lines.map((one) => one.line).join(', ')}.`,
    found: run.planLine,
  });
}

/** Is the limit's characteristic a difference, which converts without a zero point? */
export function differs(method: Method, limit: Limit): boolean {
  const characteristic = method.characteristics.find((one) => one.characteristic === limit.characteristic);
  return characteristic !== undefined && isDifference(characteristic.kind);
}

function unknownResult({ characteristic, title, unit }: Limit): Omit<Result, 'value'> {
  return { characteristic, title, unit, because: 'the run does not give it' };
}
