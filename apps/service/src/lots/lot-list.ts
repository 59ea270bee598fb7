import type { MarginStripInput } from '@breakbook/figures';
import { isNotEvaluated, notEvaluated } from '@breakbook/lab';
import { type RawStore, type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { reports } from '../arithmetic.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import type { PageOf } from '../records/kept.js';
import { keptPage } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { judgedLot } from './judged-lot.js';
import type { LotInList, LotsAsked } from './lot-answers.js';
import { LOT } from './lot-kind.js';

/** Strips of so many evaluations are kept in memory, a few kB each: some pages of the longest list. */
const MOST_STRIPS = 2000;

/** The list of lots. */
export class LotList {
  /** An evaluation never changes, and so neither does its strip. */
  readonly #strips = new Map<string, MarginStripInput | null>();

  constructor(private readonly store: RawStore) {}

  /** A piece of the list, each lot with what its last evaluation came to, where there is one. */
  async page(reader: Reader, { product, ...paging }: LotsAsked): Promise<PageOf<LotInList>> {
    const { items, next } = await keptPage(
      reader,
      LOT,
      paging,
      await within(reader, tables.Product, 'product', product),
    );
    const nouns = await reader.find(tables.Lot, { key: In(items.map(({ key }) => key)) });
    const ids = nouns.map(({ id }) => id);
    const productIds = [...new Set(nouns.map(({ productId }) => productId))];
    // One after another: the connections of the pool are for everybody.
    const products = await reader.latestOf(tables.ProductVersion, productIds);
    const closings = await reader.latestOf(tables.LotClosing, ids);
    const evaluations = await lastEvaluations(reader, ids);
    const byKey = new Map(nouns.map((one) => [one.key, one]));
    const lots: LotInList[] = [];
    for (const { key, content } of items) {
      const noun = byKey.get(key);
      const made = noun && products.get(noun.productId)?.content;
      if (!noun || !made) throw new Error(`Lot ${key} has no product.`);
      lots.push({
        lot: key,
        kind: content.kind,
        size: content.size,
        product: { product: made.product, name: made.name },
        closed: closings.get(noun.id)?.closed ?? false,
        evaluation: await this.#outcome(reader, key, evaluations.get(noun.id)),
      });
    }
    return { items: lots, next };
  }

  async #outcome(
    reader: Reader,
    lotKey: string,
    evaluation: tables.Evaluation | undefined,
  ): Promise<LotInList['evaluation']> {
    if (!evaluation)
      return notEvaluated('this lot was never evaluated', 'runs of it are recorded, and it is evaluated');
    const { plan, outcome, sentence } = evaluation.content;
    const strip = await this.#strip(reader, lotKey, evaluation);
    return { plan, outcome, sentence, ...(strip ? { strip } : {}) };
  }

  async #strip(reader: Reader, lotKey: string, evaluation: tables.Evaluation): Promise<MarginStripInput | null> {
    const known = this.#strips.get(evaluation.id);
    if (known !== undefined) return known;
    const strip = await firstStrip(reader, this.store, lotKey, evaluation);
    const [oldest] = this.#strips.keys();
    if (this.#strips.size >= MOST_STRIPS && oldest !== undefined) this.#strips.delete(oldest);
    this.#strips.set(evaluation.id, strip);
    return strip;
  }
}

/** The margin strip of the first line of the plan, where there is something to be seen on it. */
async function firstStrip(
  reader: Reader,
  store: RawStore,
  lotKey: string,
  evaluation: tables.Evaluation,
): Promise<MarginStripInput | null> {
  const [line] = evaluation.content.lines;
  if (!line) return null;
  const { marginStripOf } = await reports();
  const strip = marginStripOf(await judgedLot(reader, store, lotKey, evaluation), line.line);
  return isNotEvaluated(strip) ? null : strip;
}
