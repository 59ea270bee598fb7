import type { Product } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { kind } from '../records/kind.js';

export const PRODUCT = kind<Product, tables.Product, tables.ProductVersion>({
  word: 'product',
  keyField: 'product',
  nouns: tables.Product,
  versions: tables.ProductVersion,
  anchor: async () => ({}),
  columns: async (content) => ({ content }),
  contentOf: ({ content }) => content,
});
