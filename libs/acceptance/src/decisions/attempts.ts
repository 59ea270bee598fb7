import { isAllowed, type LotAttempts, type LotResult, RUN_STATES, type Run, type RunJudgement } from '@breakbook/lab';
import { counted, listed } from '../words/index.js';
import { isFailed } from './failures.js';

/**
 * How often was tried until it held? Runs of each plan line by what became of them, specimens run more than once, and the
 * mark that follows a lot: a valid failure, and after it valid passes that the plan did not ask for. A failure stands; it
 * is neither averaged away nor replaced by later passes.
 *
 * `runs` are all runs of the lot in the order recorded. Source: common practice against testing into compliance, after
 * the principle of the FDA's guidance on out-of-specification results (2006, revised 2022; from memory).
 */
export function attemptsOf(
  result: LotResult,
  runs: readonly Pick<Run, 'run' | 'specimen' | 'planLine' | 'validity'>[],
  judgements: readonly RunJudgement[],
): LotAttempts {
  const verdictsOf = new Map(judgements.map(({ run, verdicts }) => [run, verdicts]));
  const inClaim = new Set(
    result.lines.flatMap(({ entries }) => entries.flatMap((one) => (one.inClaim ? one.run : []))),
  );
  const isValid = ({ validity }: (typeof runs)[number]) =>
    validity !== undefined && isAllowed(RUN_STATES, 'enter the judgement of its lot', validity.validity);
  const failed = (run: string) => (verdictsOf.get(run) ?? []).some(isFailed);
  const passed = (run: string) => {
    const verdicts = verdictsOf.get(run) ?? [];
    return verdicts.length > 0 && verdicts.every(({ outcome }) => outcome === 'conforms');
  };
  const marks: string[] = [];
  const lines = result.lines.map(({ line, planned, counts }) => {
    const own = runs.filter(({ planLine }) => planLine === line);
    const valid = own.filter(isValid);
    const unplanned = valid.filter(({ run }) => !inClaim.has(run)).map(({ run }) => run);
    const failure = valid.findIndex(({ run }) => failed(run));
    const later =
      failure < 0 ? [] : valid.slice(failure + 1).filter(({ run }) => unplanned.includes(run) && passed(run));
    const first = valid[failure];
    if (first && later.length > 0)
      marks.push(
        `Line ${line}: valid run ${first.run} did not conform, and ${counted(later.length, 'valid run')} that the plan did not ask for (${listed(later.map(({ run }) => run))}) conformed after it. The failure stands.`,
      );
    return {
      line,
      planned,
      runs: own.length,
      valid: valid.length,
      invalid: counts.invalid,
      void: counts.void,
      notDecided: own.filter(({ validity }) => validity === undefined).length,
      inClaim: counts.inClaim,
      unplanned,
    };
  });
  const bySpecimen = new Map<string, string[]>();
  for (const one of runs)
    if (one.validity?.validity !== 'void')
      bySpecimen.set(one.specimen, [...(bySpecimen.get(one.specimen) ?? []), one.run]);
  return {
    lines,
    repeated: [...bySpecimen].filter(([, own]) => own.length > 1).map(([specimen, own]) => ({ specimen, runs: own })),
    marks,
  };
}
