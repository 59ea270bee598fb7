import { Refusal } from '@breakbook/lab';
import { type New, type NewVersion, type Noun, type Rows, tables, type Version } from '@breakbook/records';
import type { FindOptionsWhere } from 'typeorm';
import { type Kind, keyOf } from './kind.js';
import { Names } from './names.js';
import { said } from './revisions.js';
import { propose } from './standing.js';

/** A noun with one version of what is said of it. */
export interface Said<N extends Noun, V extends Version> {
  noun: N;
  version: V;
}

/** Defines a new thing; refused where its name is taken, or where it names what is not there. `at` is its place in a body. */
export async function define<C extends object, N extends Noun, V extends Version>(
  rows: Rows,
  kind: Kind<C, N, V>,
  content: C,
  at = '',
): Promise<Said<N, V>> {
  const key = keyOf(kind, content);
  if (await rows.maybe(kind.nouns, { key } as FindOptionsWhere<N>))
    throw new Refusal({
      code: 'state.conflict',
      pointer: `${at}/${kind.keyField}`,
      found: key,
      detail: `There is a ${kind.word} ${key} already. Look at what is there; nothing was changed.`,
      action: `Change ${key} by a new version, or choose another name.`,
    });
  const { anchor, columns } = await readied(rows, kind, content, at);
  const noun = await rows.add(kind.nouns, { ...anchor, key } as unknown as New<N>);
  return { noun, version: await addVersion(rows, kind, noun, columns) };
}

/** Says something else of a thing that is there: a correction, or what has changed. `follows` is the version seen. */
export async function revise<C extends object, N extends Noun, V extends Version>(
  rows: Rows,
  kind: Kind<C, N, V>,
  key: string,
  content: C,
  follows: number,
): Promise<Said<N, V>> {
  const noun = await rows.named(kind.nouns, key);
  refuseOtherName(kind, key, content);
  const { anchor, columns } = await readied(rows, kind, content, '/content');
  refuseOtherAnchor(kind, noun, anchor);
  return { noun, version: await addVersion(rows, kind, noun, columns, follows) };
}

/**
 * Proposes the next revision of a method, limit, layout or plan. A revision never changes once it is kept, because
 * results were judged by it; a new text has a new number. It judges nothing until another person has approved it.
 */
export async function addRevision<C extends { revision: number }, N extends Noun, V extends Version & { content: C }>(
  rows: Rows,
  kind: Kind<C, N, V>,
  key: string,
  content: C,
): Promise<Said<N, V>> {
  const noun = await rows.named(kind.nouns, key);
  await rows.lock(kind.nouns, noun.id);
  refuseOtherName(kind, key, content);
  await refuseOtherNumber(rows, kind, noun, content.revision);
  const { anchor, columns } = await readied(rows, kind, content, '/content');
  refuseOtherAnchor(kind, noun, anchor);
  return { noun, version: await addVersion(rows, kind, noun, columns) };
}

/**
 * Says what a lot folder says of a thing, where the same is not said already. A thing that carries a revision must say
 * the same under the same number, and counts as approved by whom it names.
 */
export async function keep<C extends object, N extends Noun, V extends Version>(
  rows: Rows,
  kind: Kind<C, N, V>,
  content: C,
): Promise<Said<N, V>> {
  const key = keyOf(kind, content);
  const { anchor, columns } = await readied(rows, kind, content, '');
  const noun =
    (await rows.maybe(kind.nouns, { key } as FindOptionsWhere<N>)) ??
    (await rows.add(kind.nouns, { ...anchor, key } as unknown as New<N>));
  const { version, isNew } = await said<V>(rows, kind.versions, noun.id, columns, (one) => kind.contentOf(one as V));
  if (isNew) await kind.rowsWith?.(rows, version);
  return { noun, version };
}

async function refuseOtherNumber<C extends { revision: number }, N extends Noun, V extends Version & { content: C }>(
  rows: Rows,
  kind: Kind<C, N, V>,
  noun: N,
  revision: number,
): Promise<void> {
  const history = await rows.history<V>(kind.versions, noun.id);
  const last = history.at(-1)?.content.revision ?? 0;
  if (revision === last + 1) return;
  const kept = history.find(({ content }) => content.revision === revision);
  const held = kept && (await kind.heldBy?.(rows, kept));
  throw new Refusal({
    code: 'state.conflict',
    pointer: '/content/revision',
    found: String(revision),
    expected: String(last + 1),
    detail: kept
      ? `Revision ${revision} of ${kind.word} ${noun.key} is kept and never changes${held ? `: ${held}` : ''}.`
      : `The last revision of ${kind.word} ${noun.key} is ${last}.`,
    action: `Give the new text the number ${last + 1}.`,
  });
}

async function readied<C extends object, N extends Noun, V extends Version>(
  rows: Rows,
  kind: Kind<C, N, V>,
  content: C,
  at: string,
): Promise<{ anchor: Omit<New<N>, 'key' | 'id'>; columns: NewVersion<V> }> {
  const names = new Names(rows, at);
  const anchor = await kind.anchor(content, names);
  const columns = await kind.columns(content, names);
  if (kind.proposedAs) await noteApprover(rows, names, content);
  names.refuse();
  return { anchor, columns };
}

/** Whoever proposes does not approve, and who is named to approve has the duty for it. */
async function noteApprover(rows: Rows, names: Names, content: object): Promise<void> {
  if (!('approvedBy' in content) || typeof content.approvedBy !== 'string') return;
  const named = await rows.maybe(tables.Person, { key: content.approvedBy });
  if (!named || named.kind === 'program') return;
  if (named.id === rows.by.personId)
    names.note(
      'duty.conflict',
      '/approvedBy',
      'you propose this, so somebody else approves it. Name the colleague it is put before.',
      named.key,
    );
}

async function addVersion<C extends object, N extends Noun, V extends Version>(
  rows: Rows,
  kind: Kind<C, N, V>,
  noun: N,
  columns: NewVersion<V>,
  follows?: number,
): Promise<V> {
  const version = await rows.addVersion<V>(kind.versions, noun.id, columns, follows);
  await kind.rowsWith?.(rows, version);
  if (kind.proposedAs) await propose(rows, kind.proposedAs, version.id);
  return version;
}

function refuseOtherName<C extends object, N extends Noun, V extends Version>(
  kind: Kind<C, N, V>,
  key: string,
  content: C,
): void {
  const named = keyOf(kind, content);
  if (named === key) return;
  throw new Refusal({
    code: 'state.conflict',
    pointer: `/content/${kind.keyField}`,
    found: named,
    expected: key,
    detail: `/content/${kind.keyField}: the address is that of ${kind.word} ${key}, and the content is about ${named}. A ${kind.word} keeps its name.`,
  });
}

function refuseOtherAnchor<C extends object, N extends Noun, V extends Version>(
  kind: Kind<C, N, V>,
  noun: N,
  anchor: object,
): void {
  for (const [column, id] of Object.entries(anchor)) {
    if (noun[column as keyof N] === id) continue;
    const field = column.replace(/Id$/, '');
    throw new Refusal({
      code: 'state.conflict',
      pointer: `/content/${field}`,
      detail: `/content/${field}: ${kind.word} ${noun.key} belongs to another ${field}, and stays there. Define another ${kind.word} for this one.`,
    });
  }
}
