import type { LotHistoryInput } from '@breakbook/figures';
import { Day, Key, LotOutcome } from '@breakbook/lab';
import { type RawStore, type Reader, tables } from '@breakbook/records';
import type { LotPart } from '@breakbook/reports';
import { z } from 'zod';
import { reports } from '../arithmetic.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import { judgedLot } from '../lots/judged-lot.js';
import { declaredIn } from '../openapi/elsewhere.js';

const History = declaredIn<LotHistoryInput>(
  'figures',
  'LotHistoryInput',
  'Lots one after the other, each with its results.',
);

/** How the lots of a product did, the last so many. */
export const LotsOverTime = z.strictObject({
  /** In the order in which they were made. */
  lots: z.array(z.strictObject({ lot: Key, madeTo: Day, outcome: LotOutcome })),
  /** So many older ones are left out. */
  older: z.int().nonnegative(),
  /** One for each characteristic by a method; whoever shows it draws it. */
  figures: z.array(z.strictObject({ method: Key, characteristic: z.string(), history: History })),
});
export type LotsOverTime = z.infer<typeof LotsOverTime>;

/** A picture holds no more lots whose names can be read. */
const MOST_LOTS = 24;
/** What so many evaluations add is kept in memory, a few kB each. */
const MOST_PARTS = 1000;

/** The last evaluated lots of a product, in the order in which they were made, by the day on which they were finished. */
export class ProductHistory {
  /** An evaluation never changes, and so neither does what it adds. */
  readonly #parts = new Map<string, LotPart[]>();

  constructor(private readonly store: RawStore) {}

  async of(reader: Reader, product: string): Promise<LotsOverTime> {
    const { id: productId } = await reader.named(tables.Product, product);
    const nouns = await reader.find(tables.Lot, { productId });
    const ids = nouns.map(({ id }) => id);
    const versions = await reader.latestOf(tables.LotVersion, ids);
    const evaluations = await lastEvaluations(reader, ids);
    const evaluated = nouns
      .flatMap(({ id, key }) => {
        const [madeTo, evaluation] = [versions.get(id)?.content.madeTo, evaluations.get(id)];
        return madeTo === undefined || !evaluation ? [] : [{ lot: key, madeTo, evaluation }];
      })
      .sort((a, b) => a.madeTo.localeCompare(b.madeTo) || a.lot.localeCompare(b.lot));
    const lots = evaluated.slice(-MOST_LOTS);
    const { lotHistoriesOf } = await reports();
    const parts: LotPart[][] = [];
    for (const { lot, evaluation } of lots) parts.push(await this.#partsOf(reader, lot, evaluation));
    return {
      lots: lots.map(({ lot, madeTo, evaluation }) => ({ lot, madeTo, outcome: evaluation.content.outcome })),
      older: evaluated.length - lots.length,
      figures: lotHistoriesOf(product, parts),
    };
  }

  async #partsOf(reader: Reader, lot: string, evaluation: tables.Evaluation): Promise<LotPart[]> {
    const known = this.#parts.get(evaluation.id);
    if (known) return known;
    const { partsOf } = await reports();
    const parts = partsOf(await judgedLot(reader, this.store, lot, evaluation));
    const [oldest] = this.#parts.keys();
    if (this.#parts.size >= MOST_PARTS && oldest !== undefined) this.#parts.delete(oldest);
    this.#parts.set(evaluation.id, parts);
    return parts;
  }
}
