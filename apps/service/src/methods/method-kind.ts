import type { Method } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

export const METHOD = kind<Method, tables.Method, tables.MethodRevision>({
  word: 'method',
  keyField: 'method',
  nouns: tables.Method,
  versions: tables.MethodRevision,
  anchor: async () => ({}),
  async columns(content, names) {
    await names.person(content.approvedBy, '/approvedBy');
    return { content };
  },
  contentOf: ({ content }) => content,
  proposedAs: 'methodRevisionId',
});
