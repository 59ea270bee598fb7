import { type Difference, differencesBetween } from '@breakbook/evidence';
import { Instant, isLateEntry, Key, Paragraph } from '@breakbook/lab';
import { type Reader, tables, type Version } from '@breakbook/records';
import { z } from 'zod';
import { peopleBehind } from '../../records/read-kind.js';
import { runRecord } from '../run-record.js';

/** One thing said of a run: by whom, when it happened and when it was entered, and what it changed. */
export const SaidOfRun = z.strictObject({
  of: z.enum(['run', 'measurement', 'examination', 'validity']),
  /** Of a measurement: what was measured. */
  name: z.string().optional(),
  version: z.number().int().min(1),
  by: Key,
  /** When it happened, as it is said. */
  happenedAt: Instant,
  /** When it came into the records, by their clock. */
  enteredAt: Instant,
  /** Entered more than a day after it happened. */
  late: z.boolean(),
  reason: Paragraph.optional(),
  /** Beside the version before it; none of a first one. */
  differences: z.array(
    z.strictObject({ pointer: z.string(), place: z.string(), kept: z.string().optional(), now: z.string().optional() }),
  ),
});
export type SaidOfRun = z.infer<typeof SaidOfRun>;

type Told = Version & { content: object };

/** Everything that was said of a run, in the order in which it was entered; nothing of it is ever overwritten. */
export async function runHistory(reader: Reader, runKey: string): Promise<SaidOfRun[]> {
  const { noun } = await runRecord(reader, runKey);
  const bodies = await reader.history(tables.RunVersion, noun.id);
  const measured = await reader.find(tables.Measurement, { runId: noun.id });
  const examinations = await reader.history(tables.Examination, noun.id);
  const decisions = await reader.history(tables.ValidityDecision, noun.id);
  const people = await peopleBehind(reader, [...bodies, ...measured, ...examinations, ...decisions]);

  const said = <T extends Told>(of: SaidOfRun['of'], versions: T[], happened: (one: T) => string): SaidOfRun[] =>
    versions.map((one) => {
      const before = versions.find((other) => other.recordId === one.recordId && other.version === one.version - 1);
      const enteredAt = one.at.toISOString();
      const happenedAt = happened(one);
      return {
        of,
        ...('of' in one.content ? { name: String(one.content.of) } : {}),
        version: one.version,
        by: people.get(one.personId) ?? '',
        happenedAt,
        enteredAt,
        late: isLateEntry(happenedAt, enteredAt),
        ...(one.reason === null ? {} : { reason: one.reason }),
        differences: before ? differencesBetween(before.content, one.content).map(plain) : [],
      };
    });
  return [
    // A later version of the run itself moves a moment of it: that happened when it was said.
    ...said('run', bodies, ({ version, at, content }) => (version === 1 ? content.startedAt : at.toISOString())),
    ...said('measurement', measured, ({ content }) => content.at),
    ...said('examination', examinations, ({ content }) => content.at),
    ...said('validity', decisions, ({ content }) => content.at),
  ].sort((one, other) => (one.enteredAt < other.enteredAt ? -1 : one.enteredAt > other.enteredAt ? 1 : 0));
}

function plain({ pointer, place, kept, now }: Difference): SaidOfRun['differences'][number] {
  return { pointer, place, ...(kept === undefined ? {} : { kept }), ...(now === undefined ? {} : { now }) };
}
