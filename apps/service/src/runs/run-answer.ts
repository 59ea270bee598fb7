import { judgeRun } from '@breakbook/acceptance';
import { type Limit, type Reading, type Result, type Run, type Validity, type Verdict } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { type RecordedRun } from './record-run.js';
import { limitsOfRun, type RunRecord } from './run-record.js';

/** What whoever sent a run hears. */
export interface RecordedAnswer {
  run: string;
  number: number;
  lot: string;
  specimen: string;
  /** Can the specimen not be run again? */
  destroyed: boolean;
  /** Taken, but to be dealt with by whoever decides on validity. */
  flags: Reading['flags'];
  proposedValidity: Reading['proposedValidity'];
  files: { name: string; sha256: string; bytes: number }[];
}

export function recordedAnswer(run: Pick<Run, 'run' | 'specimen'>, recorded: RecordedRun): RecordedAnswer {
  const { number, lot, destroyed, reading } = recorded;
  return {
    run: run.run,
    number,
    lot,
    specimen: run.specimen,
    destroyed,
    flags: reading.flags,
    proposedValidity: reading.proposedValidity,
    files: reading.files.map(({ name, sha256, bytes }) => ({ name, sha256, bytes })),
  };
}

/** A run with all that is known of it; of limits and verdicts nothing before its validity is decided. */
export interface RunAnswer {
  number: number;
  /** To be given back in If-Match with a correction or a decision. */
  version: number;
  recordedBy: string;
  recordedAt: string;
  lot: string;
  plan: { plan: string; revision: number };
  run: Run;
  files: { n: number; name: string; sha256: string; size: number }[];
  /** By `record` a later version says which measurement it corrects. */
  measurements: { record: string; version: number; measurement: Run['measurements'][number] }[];
  reading: Reading;
  results: Result[];
  validity: Validity | 'not decided';
  verdicts?: Verdict[];
  limits?: Limit[];
}

export async function runAnswer(reader: Reader, record: RunRecord): Promise<RunAnswer> {
  const { noun, version, lot, run, plan, method, files, measurements, reading } = record;
  const decided = run.validity !== undefined;
  const limits = decided ? await limitsOfRun(reader, record) : [];
  const judgement = judgeRun({ plan, method, limits, reading: reading.content, run });
  const line = plan.lines.find((one) => one.line === run.planLine);
  return {
    number: noun.number,
    version,
    recordedBy: (await reader.one(tables.Person, noun.personId)).key,
    recordedAt: noun.at.toISOString(),
    lot: lot.key,
    plan: { plan: plan.plan, revision: plan.revision },
    run,
    files: files.map(({ name, sha256, size }, index) => ({ n: index + 1, name, sha256, size })),
    measurements: measurements.map((one) => ({ record: one.recordId, version: one.version, measurement: one.content })),
    reading: reading.content,
    results: judgement.results,
    validity: judgement.validity,
    ...(decided
      ? {
          verdicts: judgement.verdicts,
          limits: limits.filter((limit) =>
            line?.limits.some((ref) => ref.limit === limit.limit && ref.revision === limit.revision),
          ),
        }
      : {}),
  };
}
