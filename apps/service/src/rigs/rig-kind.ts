import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

/** A rig; its sensors are placements. */
export const RIG = kind<tables.RigBody, tables.Rig, tables.RigVersion>({
  word: 'rig',
  keyField: 'rig',
  nouns: tables.Rig,
  versions: tables.RigVersion,
  anchor: async () => ({}),
  columns: async (content) => ({ content }),
  contentOf: ({ content }) => content,
});
