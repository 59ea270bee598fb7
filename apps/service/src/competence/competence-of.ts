import { CompetenceLevel, Day, Instant, Key, Paragraph, Revision } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import { peopleBehind } from '../records/read-kind.js';
import { dayInLab } from '../records/today.js';

/** One word about a person and a revision of a method. */
export const CompetenceAnswer = z.strictObject({
  method: Key,
  revision: Revision,
  level: CompetenceLevel,
  until: Day.optional(),
  note: Paragraph,
  by: Key,
  at: Instant,
  /** Is it the last word about both? */
  current: z.boolean(),
});
export type CompetenceAnswer = z.infer<typeof CompetenceAnswer>;

/** Everything said of what a person may do, in the order in which it was said. */
export async function competencesOf(reader: Reader, whoseId: string): Promise<CompetenceAnswer[]> {
  const rows = await reader.find(tables.Competence, { whoseId });
  const people = await peopleBehind(reader, rows);
  const answers: CompetenceAnswer[] = [];
  for (const row of rows) {
    const { content } = await reader.one(tables.MethodRevision, row.methodRevisionId);
    const last = rows.findLast(({ methodRevisionId }) => methodRevisionId === row.methodRevisionId);
    answers.push({
      method: content.method,
      revision: content.revision,
      level: row.level,
      ...(row.until === null ? {} : { until: row.until }),
      note: row.note,
      by: people.get(row.personId) ?? '',
      at: row.at.toISOString(),
      current: last?.id === row.id,
    });
  }
  return answers;
}

/**
 * Was the operator of a run authorised for its method on the day it began? Answers why not, for whoever reviews it. An
 * authorisation counts from the day it was recorded: it is not given backwards.
 */
export async function outsideCompetence(reader: Reader, body: tables.RunVersion): Promise<string | undefined> {
  const began = await dayInLab(reader, body.startedAt);
  const rows = await reader.find(tables.Competence, {
    whoseId: body.operatorId,
    methodRevisionId: body.methodRevisionId,
  });
  const days = new Map<string, string>();
  for (const { id, at } of rows) days.set(id, await dayInLab(reader, at));
  const last = rows.findLast(({ id }) => (days.get(id) ?? '') <= began);
  if (last?.level === 'authorised' && last.until !== null && began <= last.until) return undefined;
  const { operator, method, methodRevision } = body.content;
  const why =
    last === undefined
      ? 'nothing was recorded of it by then'
      : last.level === 'authorised'
        ? `the authorisation ended on ${last.until}`
        : `what was recorded is "${last.level}"`;
  return `${operator} was not authorised for ${method} rev. ${methodRevision} on ${began}: ${why}.`;
}

/** For which of these revisions of methods is a person not authorised today? Answers their names. */
export async function notAuthorisedFor(
  reader: Reader,
  whoseId: string,
  methodRevisionIds: readonly string[],
): Promise<string[]> {
  const today = await dayInLab(reader, new Date());
  const lacking: string[] = [];
  for (const methodRevisionId of methodRevisionIds) {
    const last = (await reader.find(tables.Competence, { whoseId, methodRevisionId })).at(-1);
    if (last?.level === 'authorised' && last.until !== null && today <= last.until) continue;
    const { content } = await reader.one(tables.MethodRevision, methodRevisionId);
    lacking.push(`${content.method} rev. ${content.revision}`);
  }
  return lacking;
}
