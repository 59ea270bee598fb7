import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';

/** The last evaluation of each of these lots; a lot that was never evaluated is not among them. */
export async function lastEvaluations(reader: Reader, lotIds: string[]): Promise<Map<string, tables.Evaluation>> {
  const last = await reader.manager.query<{ id: string }[]>(
    `select distinct on (lot_id) id from evaluation where lab_id = $1 and lot_id = any($2) order by lot_id, id desc`,
    [reader.labId, lotIds],
  );
  const evaluations = await reader.find(tables.Evaluation, { id: In(last.map(({ id }) => id)) });
  return new Map(evaluations.map((one) => [one.lotId, one]));
}
