import { canonicalJson } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import type { NewVersion, Reader, Rows, Table, Version } from '@breakbook/records';

type Content = Version & { content: object };

/**
 * Says something of a record, where the same is not said already. A record that carries a revision of its own
 * (a method, a limit) must say the same under the same number: what was judged by must never change.
 */
export async function said<V extends Version>(
  rows: Rows,
  table: Table<V>,
  recordId: string,
  values: NewVersion<V>,
  contentOf: (version: NewVersion<V>) => object,
): Promise<{ version: V; isNew: boolean }> {
  const history = await rows.history<V>(table, recordId);
  const content = contentOf(values);
  const same = history.find((one) => canonicalJson(contentOf(one)) === canonicalJson(content));
  if (same) return { version: same, isNew: false };
  const revision = revisionIn(content);
  if (revision !== undefined && history.some((one) => revisionIn(contentOf(one)) === revision)) {
    throw new Refusal({
      code: 'state.conflict',
      detail: `${table.name} ${revision} is kept already and says something else. A revision never changes once it is kept; give the new text a new number.`,
    });
  }
  return { version: await rows.addVersion<V>(table, recordId, values), isNew: true };
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

export function revisionIn(content: object): number | undefined {
  return 'revision' in content && typeof content.revision === 'number' ? content.revision : undefined;
}
