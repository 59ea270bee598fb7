import {
  AskedPhotos,
  Instant,
  Key,
  Limit,
  Measurement,
  PlanRef,
  photosAskedOf,
  Reading,
  Result,
  Run,
  Validity,
  Verdict,
} from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import { acceptance } from '../arithmetic.js';
import { flaggedDuplicates } from './near-duplicates.js';
import type { RecordedRun } from './record-run.js';
import { limitsOfRun, type RunRecord } from './run-record.js';

/** What whoever sent a run hears. */
export const RecordedAnswer = z.strictObject({
  run: Key,
  number: z.number().int(),
  lot: Key,
  specimen: Key,
  /** Can the specimen not be run again? */
  destroyed: z.boolean(),
  /** Taken, but to be dealt with by whoever decides on validity. */
  flags: Reading.shape.flags,
  proposedValidity: Reading.shape.proposedValidity,
  files: z.array(z.strictObject({ name: z.string(), sha256: z.string(), bytes: z.number().int() })),
});
export type RecordedAnswer = z.infer<typeof RecordedAnswer>;

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
export const RunAnswer = z.strictObject({
  number: z.number().int(),
  /** To be given back in If-Match with a correction or a decision. */
  version: z.number().int(),
  recordedBy: Key,
  recordedAt: Instant,
  lot: Key,
  plan: PlanRef,
  run: Run,
  files: z.array(z.strictObject({ n: z.number().int(), name: z.string(), sha256: z.string(), size: z.number().int() })),
  /** By `record` a later version says which measurement it corrects. */
  measurements: z.array(z.strictObject({ record: z.uuid(), version: z.number().int(), measurement: Measurement })),
  reading: Reading,
  results: z.array(Result),
  validity: z.enum([...Validity.options, 'not decided']),
  verdicts: z.array(Verdict).optional(),
  limits: z.array(Limit).optional(),
  /** Photos that the failure modes found ask for, and how many of each are there. */
  photosAsked: z.array(AskedPhotos.extend({ present: z.number().int() })),
});
export type RunAnswer = z.infer<typeof RunAnswer>;

export async function runAnswer(reader: Reader, record: RunRecord): Promise<RunAnswer> {
  const { noun, version, lot, run, plan, method, files, measurements, reading } = record;
  const decided = run.validity !== undefined;
  const limits = decided ? await limitsOfRun(reader, record) : [];
  const { judgeRun } = await acceptance();
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
    reading: await flaggedDuplicates(reader, noun.id, reading.content),
    results: judgement.results,
    validity: judgement.validity,
    photosAsked: photosAskedOf(method.failureModes, run),
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
