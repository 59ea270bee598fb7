import { type Reader, tables } from '@breakbook/records';

/** The evaluation of this short number; refused where there is none. */
export async function evaluationNumbered(reader: Reader, number: number): Promise<tables.Evaluation> {
  return (await reader.maybe(tables.Evaluation, { number })) ?? reader.one(tables.Evaluation, `${number}`);
}
