import { compareCase, comparedRun, judgeRun, type RunToJudge } from '@breakbook/acceptance';
import type { ComparisonCase, ComparisonResult } from '@breakbook/lab';

/** A comparison with the runs of its specimens, each as its lot judges it. */
export interface CaseToCompare {
  given: Omit<ComparisonCase, 'runs'>;
  runs: { lot: string; judge: RunToJudge }[];
}

/** The whole case as it was compared, and what it came to. */
export interface Compared {
  given: ComparisonCase;
  result: ComparisonResult;
}

/** Results enter as the examination left them, whatever a limit says of them. */
export function comparedStored({ given, runs }: CaseToCompare): Compared {
  const whole: ComparisonCase = {
    ...given,
    runs: runs.map(({ lot, judge }) => comparedRun(lot, { run: judge.run, judgement: judgeRun(judge) })),
  };
  return { given: whole, result: compareCase(whole) };
}
