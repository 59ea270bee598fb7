import type { Limit } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

export const LIMIT = kind<Limit, tables.Limit, tables.LimitRevision>({
  word: 'limit',
  keyField: 'limit',
  nouns: tables.Limit,
  versions: tables.LimitRevision,
  anchor: async () => ({}),
  async columns(content, names) {
    await names.person(content.approvedBy, '/approvedBy');
    if (content.bound === 'between' && content.lower >= content.upper)
      names.note('body.range', '/upper', `must be above the lower limit of ${content.lower}.`, content.upper);
    return { content };
  },
  contentOf: ({ content }) => content,
  proposedAs: 'limitRevisionId',
});
