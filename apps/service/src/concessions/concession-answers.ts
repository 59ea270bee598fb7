import { Concession, ConcessionKind, ConcessionState, Instant, Key, Paragraph } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';
import { PAGING } from '../records/paging.js';
import { peopleBehind, saidBy } from '../records/read-kind.js';

/** A concession or a deviation permit as it stands. */
export const ConcessionAnswer = z.strictObject({
  number: z.number().int().min(1),
  /** To be given back in If-Match with the decision on it. */
  version: z.number().int().min(1),
  state: ConcessionState,
  /** Granted, and over: it covers nothing any more. */
  expired: z.boolean(),
  requestedBy: Key,
  requestedAt: Instant,
  /** Who said what is in force, when and why. */
  by: Key,
  at: Instant,
  reason: Paragraph.optional(),
  content: Concession,
});
export type ConcessionAnswer = z.infer<typeof ConcessionAnswer>;

export const ConcessionVersionAnswer = ConcessionAnswer.pick({
  version: true,
  state: true,
  by: true,
  at: true,
  reason: true,
});
export type ConcessionVersionAnswer = z.infer<typeof ConcessionVersionAnswer>;

export const ConcessionsAsked = z.strictObject({ ...PAGING, lot: Key.optional() });
export type ConcessionsAsked = z.infer<typeof ConcessionsAsked>;

/** Why it is granted, refused or taken back. */
export const OnConcession = z.strictObject({ reason: Paragraph });
export type OnConcession = z.infer<typeof OnConcession>;

export async function concessionAnswer(
  reader: Reader,
  noun: tables.Concession,
  version: tables.ConcessionVersion,
  today: string,
): Promise<ConcessionAnswer> {
  const people = await peopleBehind(reader, [noun, version]);
  return {
    number: noun.number,
    state: version.state,
    expired: version.state === 'granted' && version.content.until < today,
    requestedBy: people.get(noun.personId) ?? '',
    requestedAt: noun.at.toISOString(),
    ...saidBy(version, people),
    content: version.content,
  };
}

/** Such as "concession 4" or "deviation permit 5". */
export function calledOf(kind: ConcessionKind, number: number): string {
  return `${kind} ${number}`;
}

/** What was asked for about a lot, by number, each as it stands today. */
export async function concessionsOf(reader: Reader, lotId: string, today: string): Promise<ConcessionAnswer[]> {
  const answers: ConcessionAnswer[] = [];
  for (const noun of await reader.find(tables.Concession, { lotId }, { number: 'asc' }))
    answers.push(await concessionAnswer(reader, noun, await reader.latest(tables.ConcessionVersion, noun.id), today));
  return answers;
}
