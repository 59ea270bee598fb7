import { Refusal } from '@breakbook/lab';
import type { Noun, Reader, Table } from '@breakbook/records';
import type { FindOptionsWhere } from 'typeorm';
import { parameterProblem } from '../http/queried-by.js';

/** A list of what belongs to one thing, where an address names it; a name the lab has not is refused, not an empty list. */
export async function within<N, T extends Noun>(
  reader: Reader,
  table: Table<T>,
  parameter: string,
  key: string | undefined,
): Promise<FindOptionsWhere<N>> {
  if (key === undefined) return {};
  const found = await reader.maybe(table, { key } as FindOptionsWhere<T>);
  if (!found) throw new Refusal(parameterProblem(parameter, 'names what is not in this lab. Check the name.', key));
  return { [`${parameter}Id`]: found.id } as FindOptionsWhere<N>;
}
