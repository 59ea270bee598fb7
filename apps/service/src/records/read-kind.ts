import { Refusal, shown } from '@breakbook/lab';
import { type Noun, type Page, type Reader, tables, type Version } from '@breakbook/records';
import { type FindOptionsWhere, In } from 'typeorm';
import type { Kept, KeptVersion, PageOf } from './kept.js';
import type { Kind } from './kind.js';
import { type DefinitionsAsked, nextPlace, type Paging, pageAsked } from './paging.js';
import { type Standing, standings } from './standing.js';
import type { Said } from './write-kind.js';

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
  const behind = await standingBehind(reader, kind, [version]);
  return { key: noun.key, number: noun.number, ...versionAs(kind, version, behind) };
}

/** A piece of the list of things of a kind, each with its version in force, by their short numbers. */
export async function keptPage<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  kind: Kind<C, N, V>,
  { standing = 'last', ...paging }: DefinitionsAsked,
  where: FindOptionsWhere<N> = {},
): Promise<PageOf<Kept<C>>> {
  const page = pageAsked(paging, 'number') as unknown as Page<N>;
  const { rows: nouns, more } = await reader.page(kind.nouns, where, page);
  const ids = nouns.map(({ id }) => id);
  const versions =
    standing === 'last' ? await reader.latestOf<V>(kind.versions, ids) : await inForce(reader, kind, ids);
  const behind = await standingBehind(reader, kind, [...versions.values()]);
  const items = nouns.flatMap(({ id, key, number }) => {
    const version = versions.get(id);
    return version ? [{ key, number, ...versionAs(kind, version, behind) }] : [];
  });
  return { items, next: nextPlace(nouns.at(-1)?.number, more) };
}

/** The revision in force of each of these things; one that has none is not among them. */
async function inForce<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  { versions, proposedAs: column, contentOf }: Kind<C, N, V>,
  recordIds: string[],
): Promise<Map<string, V>> {
  const found = new Map<string, V>();
  if (!column) return found;
  const stands = await standings(reader, { versions, column, contentOf }, recordIds);
  const where = { recordId: In(recordIds) } as FindOptionsWhere<V>;
  for (const version of await reader.find<V>(versions, where))
    if (stands.get(version.id)?.state === 'in force') found.set(version.recordId, version);
  return found;
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
  const behind = await standingBehind(reader, kind, rows);
  return {
    items: rows.map((version) => versionAs(kind, version, behind)),
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
  return versionAs(kind, found, await standingBehind(reader, kind, [found]));
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

/** Who said these versions, and how each stands where another person approves it. */
interface Behind {
  people: ReadonlyMap<string, string>;
  standing: ReadonlyMap<string, Standing>;
}

async function standingBehind<C extends object, N extends Noun, V extends Version>(
  reader: Reader,
  { versions, proposedAs: column, contentOf }: Kind<C, N, V>,
  rows: V[],
): Promise<Behind> {
  const people = await peopleBehind(reader, rows);
  if (!column) return { people, standing: new Map() };
  const recordIds = rows.map(({ recordId }) => recordId);
  return { people, standing: await standings(reader, { versions, column, contentOf }, recordIds) };
}

function versionAs<C extends object, N extends Noun, V extends Version>(
  kind: Kind<C, N, V>,
  version: V,
  { people, standing }: Behind,
): KeptVersion<C> {
  const stands = standing.get(version.id);
  return { ...saidBy(version, people), ...(stands ? { standing: stands } : {}), content: kind.contentOf(version) };
}
