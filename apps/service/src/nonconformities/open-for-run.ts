import { type InvalidReason, limitName, type RunJudgement, type ValidityDecision } from '@breakbook/lab';
import { type Rows, tables } from '@breakbook/records';
import type { z } from 'zod';

/** Reasons that lie in the lab's own work, and so are nonconforming work (ISO/IEC 17025:2017, 7.10); a part that came damaged is not. */
const LAB_ERRORS: ReadonlySet<z.infer<typeof InvalidReason>> = new Set([
  'rig fault',
  'sensor fault',
  'wrong mounting',
  'profile outside the method',
  'wrong specimen',
  'record incomplete',
] as const);

/** Outcomes that say that a requirement is not met. */
const FAILED: readonly string[] = ['does not conform', 'does not conform conditionally'];

export interface DecidedRun {
  runId: string;
  lot: { id: string; key: string };
  judgement: Pick<RunJudgement, 'run' | 'specimen' | 'verdicts'>;
  decision: Pick<ValidityDecision, 'validity' | 'reason' | 'note'> | undefined;
}

/**
 * Opens what the records themselves say does not meet a requirement: a failed verdict of a valid run, and an error of
 * the lab that made a run invalid. Each is opened once for a run, whoever looks again.
 */
export async function openForRun(rows: Rows, { runId, lot, judgement, decision }: DecidedRun): Promise<void> {
  const { run, specimen } = judgement;
  const failed = judgement.verdicts.filter(({ outcome }) => FAILED.includes(outcome));
  if (failed.length > 0)
    await open(rows, runId, lot, {
      title:
        `Run ${run}: specimen ${specimen} does not conform to ${failed.map(({ limit }) => limitName(limit)).join(', ')}`.slice(
          0,
          300,
        ),
      source: 'failed verdict',
      found: failed
        .map(({ sentence }) => sentence)
        .join(' ')
        .slice(0, 4000),
      lots: [lot.key],
      runs: [run],
      specimens: [specimen],
    });
  if (decision?.validity === 'invalid' && decision.reason !== undefined && LAB_ERRORS.has(decision.reason))
    await open(rows, runId, lot, {
      title: `Run ${run} is invalid: ${decision.reason}`,
      source: 'lab error',
      found:
        `Run ${run} of specimen ${specimen} says nothing of it: ${decision.reason}.${decision.note === undefined ? '' : ` ${decision.note}`}`.slice(
          0,
          4000,
        ),
      lots: [lot.key],
      runs: [run],
      specimens: [specimen],
    });
}

async function open(
  rows: Rows,
  runId: string,
  lot: { id: string },
  content: tables.NonconformityVersion['content'],
): Promise<void> {
  await rows.lock(tables.Nonconformity, `${runId} ${content.source}`);
  if (await rows.maybe(tables.Nonconformity, { runId, source: content.source })) return;
  const { id } = await rows.add(tables.Nonconformity, { runId, source: content.source });
  // Not with the reason of the change, which is that of something else: a first version needs none.
  const version = await rows.addVersion(tables.NonconformityVersion, id, { state: 'open', content });
  await rows.add(tables.NonconformityLot, { versionId: version.id, lotId: lot.id });
}
