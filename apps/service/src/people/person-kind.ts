import type { Person } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

/** Somebody of the lab. Programs act in their own name, and are added by whoever sets them up. */
export const PERSON = kind<Person, tables.Person, tables.PersonVersion>({
  word: 'person',
  keyField: 'person',
  nouns: tables.Person,
  versions: tables.PersonVersion,
  anchor: async () => ({ kind: 'person' as const }),
  columns: async (content) => ({ content }),
  contentOf: ({ content }) => content,
});
