import { Refusal, shown } from '@breakbook/lab';
import { type Noun, type Page, type Reader, tables, type Version } from '@breakbook/records';
import { type FindOptionsWhere, In } from 'typeorm';
import { type Kept, type KeptVersion, type PageOf } from './kept.js';
import { type Kind } from './kind.js';
import { nextPlace, type Paging, pageAsked } from './paging.js';
import { type Said } from './write-kind.js';

/** The thing of this name, with the version in force. */
export async function keptOne<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  kind: Kind<C, N, V>,
  key: string,
): Promise<Kept<C>> {
  const noun = await reader.named(kind.nouns, key);
  const version = await reader.latest<V>(kind.versions, noun.id);
  return keptAs(reader, kind, { noun, version });
}

/** What was just written, as it is answered. */
export async function keptAs<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  kind: Kind<C, N, V>,
  { noun, version }: Said<N, V>,
): Promise<Kept<C>> {
  const people = await peopleBehind(reader, [version]);
  return { key: noun.key, number: noun.number, ...versionAs(kind, version, people) };
}

/** A piece of the list of things of a kind, each with its version in force, by their short numbers. */
export async function keptPage<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  kind: Kind<C, N, V>,
  paging: Paging,
  where: FindOptionsWhere<N> = {},
): Promise<PageOf<Kept<C>>> {
  const page = pageAsked(paging, 'number') as unknown as Page<N>;
  const { rows: nouns, more } = await reader.page(kind.nouns, where, page);
  const versions = await reader.latestOf<V>(
    kind.versions,
    nouns.map(({ id }) => id),
  );
  const people = await peopleBehind(reader, [...versions.values()]);
  const items = nouns.flatMap(({ id, key, number }) => {
    const version = versions.get(id);
    return version ? [{ key, number, ...versionAs(kind, version, people) }] : [];
  });
  return { items, next: nextPlace(nouns.at(-1)?.number, more) };
}

/** A piece of everything that was said of a thing, by version. */
export async function keptHistory<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  kind: Kind<C, N, V>,
  key: string,
  paging: Paging,
): Promise<PageOf<KeptVersion<C>>> {
  const noun = await reader.named(kind.nouns, key);
  const { rows, more } = await reader.page<V>(
    kind.versions,
    { recordId: noun.id } as FindOptionsWhere<V>,
    pageAsked(paging, 'version') as unknown as Page<V>,
  );
  const people = await peopleBehind(reader, rows);
  return {
    items: rows.map((version) => versionAs(kind, version, people)),
    next: nextPlace(rows.at(-1)?.version, more),
  };
}

/** One revision of a thing, by the number in its content as it stands in an address. */
export async function keptRevision<C extends { revision: number }, N extends Noun, V extends Version & { content: C }>(
  reader: Reader,
  kind: Kind<C, N, V>,
  key: string,
  revision: string,
): Promise<KeptVersion<C>> {
  const noun = await reader.named(kind.nouns, key);
  const found = /^[1-9]\d{0,8}$/.test(revision)
    ? (await reader.history<V>(kind.versions, noun.id)).find(({ content }) => content.revision === Number(revision))
    : undefined;
  if (!found)
    throw new Refusal({
      code: 'request.not-found',
      detail: `There is no revision "${shown(revision)}" of ${kind.word} ${key} in this lab.`,
    });
  return versionAs(kind, found, await peopleBehind(reader, [found]));
}

/** The names of those who added rows, by their ids. */
export async function peopleBehind(reader: Reader, rows: { personId: string }[]): Promise<Map<string, string>> {
  const people = await reader.find(tables.Person, { id: In([...new Set(rows.map(({ personId }) => personId))]) });
  return new Map(people.map(({ id, key }) => [id, key]));
}

/** Who said a version, when and why. */
export function saidBy(
  { version, at, personId, reason }: Version,
  people: ReadonlyMap<string, string>,
): Omit<KeptVersion<unknown>, 'content'> {
  return { version, at: at.toISOString(), by: people.get(personId) ?? '', ...(reason === null ? {} : { reason }) };
}

function versionAs<C extends object, N extends Noun, V extends Version>(
  kind: Kind<C, N, V>,
  version: V,
  people: ReadonlyMap<string, string>,
): KeptVersion<C> {
  return { ...saidBy(version, people), content: kind.contentOf(version) };
}
