import { canonicalJson } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import {
  type New,
  type NewVersion,
  type Noun,
  type Reader,
  type Rows,
  type Table,
  type Version,
} from '@breakbook/records';
import { type FindOptionsWhere } from 'typeorm';

type Content = Version & { content: object };

/** The thing of this name, added where the lab does not know it yet. */
export async function nounOf<T extends Noun>(
  rows: Rows,
  table: Table<T>,
  key: string,
  rest: Omit<New<T>, 'key' | 'id'>,
): Promise<T> {
  return (
    (await rows.maybe(table, { key } as FindOptionsWhere<T>)) ?? rows.add(table, { ...rest, key } as unknown as New<T>)
  );
}

/**
 * Says something of a record, where the same is not said already. A record that carries a revision of its own
 * (a method, a limit) must say the same under the same number: what was judged by must never change.
 */
export async function said<T extends Content>(
  rows: Rows,
  table: Table<T>,
  recordId: string,
  values: NewVersion<T> & { content: object },
): Promise<T> {
  const history = await rows.history<T>(table, recordId);
  const same = history.find(({ content }) => canonicalJson(content) === canonicalJson(values.content));
  if (same) return same;
  const revision = revisionIn(values.content);
  if (revision !== undefined && history.some(({ content }) => revisionIn(content) === revision)) {
    throw new Refusal({
      code: 'state.conflict',
      detail: `${table.name} ${revision} is kept already and says something else. A revision never changes once it is kept; give the new text a new number.`,
    });
  }
  return rows.addVersion<T>(table, recordId, values);
}

/** The version that carries this revision number. */
export async function revisionOf<T extends Content>(
  reader: Reader,
  table: Table<T>,
  recordId: string,
  revision: number,
): Promise<T> {
  const found = (await reader.history<T>(table, recordId)).find(({ content }) => revisionIn(content) === revision);
  if (found) return found;
  throw new Refusal({ code: 'request.not-found', detail: `There is no revision ${revision} of it in this lab.` });
}

function revisionIn(content: object): number | undefined {
  return 'revision' in content && typeof content.revision === 'number' ? content.revision : undefined;
}
