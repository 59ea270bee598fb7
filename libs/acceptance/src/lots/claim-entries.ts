import type { ClaimEntry, LotBundle, Reading } from '@breakbook/lab';
import { judgeRun } from '../runs/judge-run.js';
import { claimOf, type JudgedRun, type UnreadRun } from './claim.js';

/** Where does each run of a lot stand in the claim of its plan line, by what the runs were read as? */
export function claimEntries(
  { plan, methods, limits, runs, specimens }: LotBundle,
  readings: ReadonlyMap<string, Reading>,
): Map<string, ClaimEntry> {
  const judged = runs.map((run): JudgedRun | UnreadRun => {
    const reading = readings.get(run.run);
    const method = methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
    if (reading && method) return { run, reading, judgement: judgeRun({ plan, method, limits, reading, run }) };
    return { run, unread: [{ code: 'state.conflict', detail: `No reading of run ${run.run} is kept.` }] };
  });
  const entries = plan.lines.flatMap((line) => claimOf(line, plan, judged, specimens).entries);
  return new Map(entries.map((one) => [one.run, one]));
}
