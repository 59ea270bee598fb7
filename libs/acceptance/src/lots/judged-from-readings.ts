import { type LotBundle, type LotResult, type Problem, type Reading, Refusal, type RunJudgement } from '@breakbook/lab';
import { judgeRun } from '../runs/judge-run.js';
import { checkBundle } from './check-bundle.js';
import type { JudgedRun, UnreadRun } from './claim.js';
import { judgeLot } from './judge-lot.js';

/** What a lot's runs were read as, by their names; of a run whose files were refused, why. */
export interface KeptReadings {
  readings: ReadonlyMap<string, Reading>;
  refused?: ReadonlyMap<string, Problem[]>;
}

/** What is said of a lot whose runs are not read again, since what each showed is kept. */
export function judgedFromReadings(
  bundle: LotBundle,
  { readings, refused: why }: KeptReadings,
): { result: LotResult; judgements: RunJudgement[]; refused: UnreadRun[] } {
  const problems = checkBundle(bundle);
  if (problems.length > 0) throw new Refusal(problems);
  const refused: UnreadRun[] = [];
  const runs = bundle.runs.map((run): JudgedRun | UnreadRun => {
    const reading = readings.get(run.run);
    const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
    if (reading && method)
      return { run, reading, judgement: judgeRun({ plan: bundle.plan, method, limits: bundle.limits, reading, run }) };
    const unread: UnreadRun = {
      run,
      unread: why?.get(run.run) ?? [{ code: 'state.conflict', detail: `No reading of run ${run.run} is kept.` }],
    };
    refused.push(unread);
    return unread;
  });
  return {
    result: judgeLot({ ...bundle, runs }),
    judgements: runs.flatMap((one) => ('judgement' in one ? [one.judgement] : [])),
    refused,
  };
}
