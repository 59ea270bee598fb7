import { Instant, Key } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';

const count = z.number().int();

/** How many there were, and how many came out as they were kept. */
const Counted = { identical: count, different: count, refused: count };

/** Every run read again and every evaluation judged again, in a list. */
export const RecomputationInList = z.strictObject({
  number: count,
  at: Instant,
  by: Key,
  software: z.string(),
  runs: count,
  ...Counted,
  /** Left out by those made before evaluations were compared too. */
  evaluations: z.strictObject({ evaluations: count, ...Counted }).optional(),
});
export type RecomputationInList = z.infer<typeof RecomputationInList>;

/** What is not as it was kept, and by which software that was made. */
const Recomputed = {
  software: z.string(),
  differences: z.array(
    z.strictObject({
      pointer: z.string(),
      place: z.string(),
      kept: z.string().optional(),
      now: z.string().optional(),
    }),
  ),
  count,
  /** What is worked out now and was not kept, by its name; left out by those made before these were told apart. */
  added: z.array(z.strictObject({ name: z.string(), places: count })).optional(),
};

/** The same whole: what differs in each, and since which revision of its method and which software. */
export const RecomputationAnswer = RecomputationInList.extend({
  different: z.array(
    z.strictObject({
      run: z.string(),
      method: z.strictObject({ method: z.string(), revision: count }),
      ...Recomputed,
    }),
  ),
  refused: z.array(z.strictObject({ run: z.string(), because: z.string() })),
  evaluations: z
    .strictObject({
      evaluations: count,
      identical: count,
      different: z.array(z.strictObject({ evaluation: count, lot: z.string(), ...Recomputed })),
      refused: z.array(z.strictObject({ evaluation: count, lot: z.string(), because: z.string() })),
    })
    .optional(),
});
export type RecomputationAnswer = z.infer<typeof RecomputationAnswer>;

export async function recomputationAnswer(
  reader: Reader,
  { number, at, personId, software, content }: tables.Recomputation,
): Promise<RecomputationAnswer> {
  const by = (await reader.one(tables.Person, personId)).key;
  return { number, at: at.toISOString(), by, software, ...content };
}

export function inList({ evaluations, ...runs }: RecomputationAnswer): RecomputationInList {
  return { ...counted(runs), ...(evaluations ? { evaluations: counted(evaluations) } : {}) };
}

function counted<T extends { different: unknown[]; refused: unknown[] }>(one: T) {
  return { ...one, different: one.different.length, refused: one.refused.length };
}
