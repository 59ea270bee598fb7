import type { New, NewVersion, Noun, Reader, Rows, Table, Version } from '@breakbook/records';
import type { Names } from './names.js';
import type { ProposalColumn } from './standing.js';

/**
 * A noun of the lab and what is said of it: in which tables it is kept, what its content names, which rows come with
 * it. Everything that writes or reads the noun goes through its one description.
 */
export interface Kind<C extends object, N extends Noun, V extends Version> {
  /** As people say it. */
  word: string;
  /** The field of the content that holds the name. */
  keyField: string & keyof C;
  nouns: Table<N>;
  versions: Table<V>;
  /** What a new one points at. It stays so: a specimen never moves to another lot. */
  anchor(content: C, names: Names): Promise<Omit<New<N>, 'key' | 'id'>>;
  /** A version of this content; notes what the content names and the lab has not. */
  columns(content: C, names: Names): Promise<NewVersion<V>>;
  contentOf(version: V): C;
  /** Rows that come with a new version. */
  rowsWith?(rows: Rows, version: V): Promise<void>;
  /** Where a revision is proposed by one person and approved by another: the column of a proposal that names it. */
  proposedAs?: ProposalColumn;
  /** What rests on a revision, for the sentence that refuses to change it. */
  heldBy?(reader: Reader, version: V): Promise<string | undefined>;
}

/** Says of a description that it is one, so that its parts are checked against each other. */
export function kind<C extends object, N extends Noun, V extends Version>(described: Kind<C, N, V>): Kind<C, N, V> {
  return described;
}

export function keyOf<C extends object>({ keyField }: { keyField: string & keyof C }, content: C): string {
  return String(content[keyField]);
}
