import type { OpinionShown } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { peopleBehind } from '../records/read-kind.js';
import type { OpinionAnswer } from './opinion-answers.js';

export async function opinionAnswer(
  reader: Reader,
  noun: tables.Opinion,
  version: tables.OpinionVersion,
): Promise<OpinionAnswer> {
  const people = await peopleBehind(reader, [version]);
  const { runId, lotId, number } = noun;
  return {
    number,
    version: version.version,
    state: version.state,
    lot: (await reader.one(tables.Lot, lotId)).key,
    ...(runId === null ? {} : { run: (await reader.one(tables.Run, runId)).key }),
    ...(version.evaluationId === null
      ? {}
      : { evaluation: (await reader.one(tables.Evaluation, version.evaluationId)).number }),
    by: people.get(version.personId) ?? '',
    at: version.at.toISOString(),
    ...(version.reason === null ? {} : { reason: version.reason }),
    content: version.content,
  };
}

/** The opinions in force about a lot and its runs, by number, with name and role of who gave each. */
export async function opinionsOf(reader: Reader, lotId: string): Promise<OpinionShown[]> {
  const nouns = await reader.find(tables.Opinion, { lotId }, { number: 'asc' });
  const shown: OpinionShown[] = [];
  for (const noun of nouns) {
    const version = await reader.latest(tables.OpinionVersion, noun.id);
    if (version.state !== 'given') continue;
    const { state: _, reason: _reason, content, ...rest } = await opinionAnswer(reader, noun, version);
    const { content: person } = await reader.latest(tables.PersonVersion, version.personId);
    shown.push({ ...rest, ...content, name: person.name, role: person.role });
  }
  return shown;
}
