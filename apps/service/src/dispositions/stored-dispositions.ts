import type { Disposition, Signature } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { peopleBehind } from '../records/read-kind.js';

/** What was decided about a lot, the first decision first. */
export async function dispositionsOf(reader: Reader, lotId: string): Promise<Disposition[]> {
  return answersOf(reader, await reader.find(tables.Disposition, { lotId }, { number: 'asc' }));
}

/** Each as it stands now. */
export async function answersOf(reader: Reader, dispositions: tables.Disposition[]): Promise<Disposition[]> {
  const ids = dispositions.map(({ id }) => id);
  const signatures = await reader.find(tables.DispositionSignature, { dispositionId: In(ids) }, { position: 'asc' });
  const later = await reader.find(tables.Disposition, { replacesId: In(ids) });
  const people = await peopleBehind(reader, signatures);
  const answers: Disposition[] = [];
  for (const one of dispositions) {
    const own = signatures.filter(({ dispositionId }) => dispositionId === one.id);
    const replaced = later.some(({ replacesId }) => replacesId === one.id);
    const before = one.replacesId === null ? undefined : await reader.one(tables.Disposition, one.replacesId);
    answers.push({
      number: one.number,
      lot: (await reader.one(tables.Lot, one.lotId)).key,
      evaluation: (await reader.one(tables.Evaluation, one.evaluationId)).number,
      outcome: one.outcome,
      state: replaced ? 'replaced' : own.length < one.deciders ? 'waits for a second decider' : 'in force',
      reason: one.reason,
      deciders: one.deciders,
      ...(before ? { replaces: before.number } : {}),
      signatures: own.map(
        ({ personId, name, role, at, meaning, shown }): Signature => ({
          person: people.get(personId) ?? '',
          name,
          role,
          at: at.toISOString(),
          meaning,
          shown,
        }),
      ),
    });
  }
  return answers;
}
