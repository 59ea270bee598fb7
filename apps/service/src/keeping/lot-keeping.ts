import {
  Day,
  Instant,
  KEEPING_CAUTION,
  Key,
  LotKeeping,
  type Origin,
  Paragraph,
  proposedKeeping,
} from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import { peopleBehind } from '../records/read-kind.js';
import { dayInLab } from '../records/today.js';
import { KeepingOfSpecimen, keepingOf } from './keeping-of.js';

/** How long the records of a lot and the remnants of its specimens are kept. */
export const LotKeepingAnswer = z.strictObject({
  lot: Key,
  /** To be given back in If-Match with what is said next. */
  version: z.number().int().min(1),
  /** What was said, the last word last; empty where nobody has said anything. */
  said: z.array(LotKeeping.extend({ by: Key, at: Instant, reason: Paragraph.optional() })),
  proposal: z.strictObject({
    recordsUntil: Day,
    remnantsUntil: Day,
    rules: z.array(z.strictObject({ of: z.string(), years: z.number().int(), from: z.string(), why: z.string() })),
    caution: z.string(),
  }),
  specimens: z.array(KeepingOfSpecimen),
});
export type LotKeepingAnswer = z.infer<typeof LotKeepingAnswer>;

export async function lotKeeping(reader: Reader, lot: tables.Lot, now: Date): Promise<LotKeepingAnswer> {
  const specimens = await reader.find(tables.Specimen, { lotId: lot.id }, { number: 'asc' });
  const items = await keepingOf(reader, specimens, await dayInLab(reader, now));
  const said = await reader.history(tables.LotKeeping, lot.id);
  const people = await peopleBehind(reader, said);
  return {
    lot: lot.key,
    version: said.length + 1,
    said: said.map(({ recordsUntil, remnantsUntil, note, personId, at, reason }) => ({
      recordsUntil,
      remnantsUntil,
      note,
      by: people.get(personId) ?? '',
      at: at.toISOString(),
      ...(reason === null ? {} : { reason }),
    })),
    proposal: { ...(await proposalFor(reader, lot, items)), caution: KEEPING_CAUTION },
    specimens: items,
  };
}

/** The years are counted from the last day on record: that of making, or that of the last run. */
async function proposalFor(reader: Reader, lot: tables.Lot, items: readonly { origin: Origin }[]) {
  const { content } = await reader.latest(tables.LotVersion, lot.id);
  const [last] = await reader.manager.query<{ at: Date | null }[]>(
    `select max(body.started_at) as at from run_version body
     join run on run.lab_id = body.lab_id and run.id = body.record_id
     join specimen on specimen.lab_id = run.lab_id and specimen.id = run.specimen_id
     where body.lab_id = $1 and specimen.lot_id = $2`,
    [reader.labId, lot.id],
  );
  const tested = last?.at ? await dayInLab(reader, last.at) : content.madeTo;
  const evaluation = (await lastEvaluations(reader, [lot.id])).get(lot.id);
  return proposedKeeping({
    from: [tested, content.madeTo].sort().at(-1) ?? tested,
    origins: items.map(({ origin }) => origin),
    failed: evaluation?.content.outcome === 'does not meet the plan',
  });
}
