import type { RunJudgement } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';

/** What an evaluation was made of: the judgement of each run that entered, in the order in which they entered. */
export async function judgementsOf(reader: Reader, evaluation: tables.Evaluation): Promise<RunJudgement[]> {
  const inputs = await reader.find(tables.EvaluationInput, { evaluationId: evaluation.id });
  const ids = inputs.map(({ verdictSetId }) => verdictSetId);
  const sets = new Map((await reader.find(tables.VerdictSet, { id: In(ids) })).map((one) => [one.id, one.content]));
  return ids.flatMap((id) => sets.get(id) ?? []);
}
