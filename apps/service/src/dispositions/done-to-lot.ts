import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import type { Done } from '../sign-in/forbidden-pairs.js';

/**
 * Who recorded or reviewed anything of these runs, by their ids and names: all that keeps somebody from deciding about
 * their lot. Both who wrote a row and whom it names count, since one may note what another has done.
 */
export async function doneToRuns(reader: Reader, runs: ReadonlyMap<string, string>): Promise<Done[]> {
  const ids = [...runs.keys()];
  const nouns = await reader.find(tables.Run, { id: In(ids) });
  const bodies = await reader.find(tables.RunVersion, { recordId: In(ids) });
  const measured = await reader.find(tables.Measurement, { runId: In(ids) });
  const examinations = await reader.find(tables.Examination, { recordId: In(ids) });
  const decisions = await reader.find(tables.ValidityDecision, { recordId: In(ids) });
  const reviews = await reader.find(tables.RunReview, { recordId: In(ids) });
  const recorded: [string, string][] = [
    ...nouns.map(({ id, personId }): [string, string] => [id, personId]),
    ...[...bodies, ...examinations].map(({ recordId, personId }): [string, string] => [recordId, personId]),
    ...bodies.map(({ recordId, operatorId }): [string, string] => [recordId, operatorId]),
    ...measured.map(({ runId, personId }): [string, string] => [runId, personId]),
  ];
  const named: [string, string][] = [
    ...bodies.flatMap(({ recordId, content }) =>
      (content.instants ?? []).map(({ person }): [string, string] => [recordId, person]),
    ),
    ...measured.map(({ runId, content }): [string, string] => [runId, content.person]),
    ...examinations.map(({ recordId, content }): [string, string] => [recordId, content.person]),
  ];
  const deciders = decisions.map(({ recordId, content }): [string, string] => [recordId, content.person]);
  const people = await reader.find(tables.Person, {
    key: In([...new Set([...named, ...deciders].map(([, person]) => person))]),
  });
  const idOf = new Map(people.map(({ id, key }) => [key, id]));
  const byName = (pairs: [string, string][]) =>
    pairs.flatMap(([runId, person]): [string, string][] => {
      const id = idOf.get(person);
      return id === undefined ? [] : [[runId, id]];
    });
  const done = (act: Done['act'], pairs: [string, string][]) =>
    [...new Map(pairs.map((pair) => [pair.join(), pair])).values()].map(
      ([runId, personId]): Done => ({ act, personId, thing: `run ${runs.get(runId) ?? ''}` }),
    );
  return [
    ...done('record', [...recorded, ...byName(named)]),
    ...done('review', [
      ...[...decisions, ...reviews].map(({ recordId, personId }): [string, string] => [recordId, personId]),
      ...byName(deciders),
    ]),
  ];
}
