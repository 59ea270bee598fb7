import { Customer, Lot } from '@breakbook/lab';
import { tables } from '@breakbook/records';
import { z } from 'zod';
import { kind } from '../records/kind.js';

/** A lot and whom its report is for. How specimens were drawn from it is a record of its own. */
export const LotRecord = z.strictObject({ ...Lot.omit({ sampling: true }).shape, customer: Customer });
export type LotRecord = z.infer<typeof LotRecord>;

export const LOT = kind<LotRecord, tables.Lot, tables.LotVersion>({
  word: 'lot',
  keyField: 'lot',
  nouns: tables.Lot,
  versions: tables.LotVersion,
  anchor: async (content, names) => ({ productId: await names.idOf(tables.Product, content.product, '/product') }),
  async columns({ customer, ...content }, names) {
    if (content.madeTo < content.madeFrom)
      names.note('body.range', '/madeTo', `must not be before the first day, ${content.madeFrom}.`, content.madeTo);
    const known = await names.reader.maybe(tables.Lot, { key: content.lot });
    const specimens = known ? await names.reader.find(tables.Specimen, { lotId: known.id }) : [];
    if (specimens.length > content.size)
      names.note('state.conflict', '/size', `${specimens.length} specimens came from this lot already.`, content.size);
    return { content, customer };
  },
  contentOf: ({ content, customer }) => ({ ...content, customer }),
});
