import { Instant, Key, Paragraph, SafetyFlag, type SafetyFlagShown, SafetyFlagState } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { z } from 'zod';
import { peopleBehind } from '../records/read-kind.js';

/** A safety flag as it stands. */
export const SafetyFlagAnswer = z.strictObject({
  number: z.number().int().min(1),
  /** To be given back in If-Match with what is said of it next. */
  version: z.number().int().min(1),
  state: SafetyFlagState,
  raisedBy: Key,
  raisedAt: Instant,
  /** Who said what is in force, when and why; of a closed one this is the decision. */
  by: Key,
  at: Instant,
  reason: Paragraph.optional(),
  content: SafetyFlag,
  /** Every lot it concerns, those of its runs and nonconformities too. */
  concerns: z.array(Key),
});
export type SafetyFlagAnswer = z.infer<typeof SafetyFlagAnswer>;

export async function flagNumbered(reader: Reader, number: number): Promise<tables.SafetyFlag> {
  return (await reader.maybe(tables.SafetyFlag, { number })) ?? reader.one(tables.SafetyFlag, `${number}`);
}

export async function flagAnswer(
  reader: Reader,
  flag: tables.SafetyFlag,
  version: tables.SafetyFlagVersion,
): Promise<SafetyFlagAnswer> {
  const people = await peopleBehind(reader, [flag, version]);
  const concerned = await reader.find(tables.SafetyFlagLot, { versionId: version.id });
  const lots = await reader.find(tables.Lot, { id: In(concerned.map(({ lotId }) => lotId)) });
  return {
    number: flag.number,
    version: version.version,
    state: version.state,
    raisedBy: people.get(flag.personId) ?? '',
    raisedAt: flag.at.toISOString(),
    by: people.get(version.personId) ?? '',
    at: version.at.toISOString(),
    ...(version.reason === null ? {} : { reason: version.reason }),
    content: version.content,
    concerns: lots.map(({ key }) => key).sort(),
  };
}

/** Each version of a flag, the first first. */
export async function flagHistory(reader: Reader, flag: tables.SafetyFlag): Promise<SafetyFlagAnswer[]> {
  const items: SafetyFlagAnswer[] = [];
  for (const version of await reader.history(tables.SafetyFlagVersion, flag.id))
    items.push(await flagAnswer(reader, flag, version));
  return items;
}

/** The safety flags that concern a lot by what is said of them now, open and closed, by number. */
export async function flagsOf(reader: Reader, lotId: string): Promise<SafetyFlagShown[]> {
  const found = await reader.manager.query<{ id: string }[]>(
    `select distinct flag.id, flag.number from safety_flag flag
     join lateral (
       select id from safety_flag_version
       where lab_id = flag.lab_id and record_id = flag.id order by version desc limit 1
     ) said on true
     join safety_flag_lot named on named.lab_id = flag.lab_id and named.version_id = said.id and named.lot_id = $2
     where flag.lab_id = $1 order by flag.number`,
    [reader.labId, lotId],
  );
  const shown: SafetyFlagShown[] = [];
  for (const { id } of found) {
    const version = await reader.latest(tables.SafetyFlagVersion, id);
    const flag = await flagAnswer(reader, await reader.one(tables.SafetyFlag, id), version);
    const { number, state, raisedBy, raisedAt, reason, content } = flag;
    shown.push({
      number,
      title: content.title,
      state,
      raisedBy,
      raisedAt,
      ...(state === 'closed' && reason !== undefined ? { decision: reason } : {}),
    });
  }
  return shown;
}

/** Numbers of the open ones. */
export async function openFlagsOf(reader: Reader, lotId: string): Promise<number[]> {
  return (await flagsOf(reader, lotId)).flatMap(({ state, number }) => (state === 'open' ? number : []));
}
