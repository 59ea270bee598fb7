import { Instant, Key } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { z } from 'zod';

/** Every run read again, in a list: how many, and how many came out as they were kept. */
export const RecomputationInList = z.strictObject({
  number: z.number().int(),
  at: Instant,
  by: Key,
  software: z.string(),
  runs: z.number().int(),
  identical: z.number().int(),
  different: z.number().int(),
  refused: z.number().int(),
});
export type RecomputationInList = z.infer<typeof RecomputationInList>;

/** The same whole: what differs in each run, and since which revision of its method and which software. */
export const RecomputationAnswer = RecomputationInList.omit({ different: true, refused: true }).extend({
  different: z.array(
    z.strictObject({
      run: z.string(),
      method: z.strictObject({ method: z.string(), revision: z.number().int() }),
      software: z.string(),
      differences: z.array(
        z.strictObject({
          pointer: z.string(),
          place: z.string(),
          kept: z.string().optional(),
          now: z.string().optional(),
        }),
      ),
      count: z.number().int(),
    }),
  ),
  refused: z.array(z.strictObject({ run: z.string(), because: z.string() })),
});
export type RecomputationAnswer = z.infer<typeof RecomputationAnswer>;

export async function recomputationAnswer(
  reader: Reader,
  { number, at, personId, software, content }: tables.Recomputation,
): Promise<RecomputationAnswer> {
  const by = (await reader.one(tables.Person, personId)).key;
  return { number, at: at.toISOString(), by, software, ...content };
}
