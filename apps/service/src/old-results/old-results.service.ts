import { type OldResult, type Problem, Refusal, shown } from '@breakbook/lab';
import {
  type Actor,
  prepareRaw,
  type RawStore,
  type Reader,
  Records,
  rawFromBytes,
  readWhole,
  tables,
} from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { Quotas } from '../quotas/quotas.js';
import type { PageOf } from '../records/kept.js';
import { nextPlace, type Paging, pageAsked } from '../records/paging.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { dayInLab } from '../records/today.js';
import { Workers } from '../workers/workers.js';
import {
  type NewOldTable,
  type OldTableAnswer,
  type OldTableInList,
  type OldTableTrial,
  resultsAsAnswered,
  tablesAsListed,
} from './old-result-answers.js';

/** A table read, and what each of its rows names in this lab. */
interface Known {
  results: (Omit<tables.OldResult, 'labId' | 'id' | 'personId' | 'at' | 'tableId'> & { content: OldResult })[];
  flags: Problem[];
}

/** Tables of old results: tried, taken over whole or not at all, and withdrawn. */
@Injectable()
export class OldResultsService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly quotas: Quotas,
    private readonly workers: Workers,
  ) {}

  async try(labId: string, name: string, sent: unknown): Promise<OldTableTrial> {
    const bytes = bytesIn(sent);
    const { results, flags } = await this.#read(labId, name, bytes);
    const { sha256, size } = await prepareRaw(rawFromBytes(bytes));
    return {
      bytes: size,
      sha256,
      results: results.map(({ content, lotId }) => ({ ...content, lotKnown: lotId !== null })),
      flags,
    };
  }

  async take(by: Actor, { name, note }: NewOldTable, sent: unknown): Promise<OldTableAnswer> {
    const bytes = bytesIn(sent);
    const { results, flags } = await this.#read(by.labId, name, bytes);
    const raw = await prepareRaw(rawFromBytes(bytes));
    return this.records.change(by, 'table of old results taken over', note, async (rows) => {
      const { id: rawId } = await this.store.keep(rows, raw);
      await rows.lock(tables.OldTable, rawId);
      const [same] = await rows.find(tables.OldTable, { rawId });
      if (same)
        throw new Refusal({
          code: 'state.conflict',
          detail: `This table was taken over already, as number ${same.number}. Nothing was added.`,
        });
      const table = await rows.add(tables.OldTable, { name, note, rawId, results: results.length, flags });
      for (const one of results) await rows.add(tables.OldResult, { tableId: table.id, ...one });
      await this.quotas.take(rows.manager, by, { bytes: raw.size });
      return tableAnswer(rows, table);
    });
  }

  async list(labId: string, paging: Paging): Promise<PageOf<OldTableInList>> {
    const reader = this.records.read(labId);
    const { rows, more } = await reader.page(tables.OldTable, {}, pageAsked(paging, 'number'));
    return { items: await tablesAsListed(reader, rows), next: nextPlace(rows.at(-1)?.number, more) };
  }

  async one(labId: string, number: string): Promise<OldTableAnswer> {
    const reader = this.records.read(labId);
    return tableAnswer(reader, await numbered(reader, number));
  }

  async bytes(labId: string, number: string): Promise<{ table: tables.OldTable; bytes: Uint8Array }> {
    const reader = this.records.read(labId);
    const table = await numbered(reader, number);
    return { table, bytes: await readWhole(this.store, reader, table.rawId) };
  }

  withdraw(by: Actor, number: string, reason: string): Promise<OldTableAnswer> {
    return this.records.change(by, 'table of old results withdrawn', reason, async (rows) => {
      const { id } = await numbered(rows, number);
      const table = await rows.oneLocked(tables.OldTable, id);
      if (table.personId === by.personId)
        throw new Refusal({
          code: 'duty.conflict',
          detail: `You took over table ${number}; another person withdraws it.`,
          action: 'Have somebody else with the duty to define or to review withdraw it.',
        });
      const [before] = await rows.find(tables.OldTableWithdrawal, { tableId: table.id });
      if (before) throw new Refusal({ code: 'state.conflict', detail: `Table ${number} was withdrawn already.` });
      await rows.add(tables.OldTableWithdrawal, { tableId: table.id, reason });
      return tableAnswer(rows, table);
    });
  }

  async #read(labId: string, name: string, bytes: Buffer): Promise<Known> {
    const reader = this.records.read(labId);
    const today = await dayInLab(reader, new Date());
    const { results, flags } = await this.workers.run('read old results', { name, bytes, today });
    return { results: await named(reader, name, results), flags };
  }
}

function bytesIn(sent: unknown): Buffer {
  if (sent instanceof Buffer && sent.length > 0) return sent;
  throw new Refusal({ code: 'body.empty', detail: 'The body is empty; it must be the bytes of the table.' });
}

/** The rows of a table with the products and lots of the lab that they name. Refuses what names none. */
async function named(reader: Reader, name: string, results: readonly OldResult[]): Promise<Known['results']> {
  const each = <T>(values: T[]) => [...new Set(values)];
  const products = await reader.find(tables.Product, { key: In(each(results.map(({ product }) => product))) });
  const lots = await reader.find(tables.Lot, { key: In(each(results.map(({ lot }) => lot))) });
  const said = await reader.latestOf(
    tables.LotVersion,
    lots.map(({ id }) => id),
  );
  const problems: Problem[] = [];
  const rows = results.map((content) => {
    const { line } = content;
    const product = products.find(({ key }) => key === content.product);
    const lot = lots.find(({ key }) => key === content.lot);
    const at = (channel: string, found: string, sentence: string, action: string) =>
      problems.push({
        code: 'meta.unknown',
        file: shown(name),
        line,
        channel,
        found: shown(found),
        detail: `${shown(name)}, line ${line} (${channel}): ${sentence}`,
        action,
      });
    if (!product)
      at(
        'product',
        content.product,
        `the lab knows no product ${shown(content.product)}.`,
        'Define the product first, or correct the name.',
      );
    const ofLot = lot && said.get(lot.id)?.content.product;
    if (lot && product && ofLot !== content.product)
      at(
        'lot',
        content.lot,
        `lot ${shown(content.lot)} of this lab is of product ${ofLot}, and this row says ${shown(content.product)}.`,
        'Correct the product, or name the lot of the table otherwise.',
      );
    return { line, productId: product?.id ?? '', lotId: lot?.id ?? null, content };
  });
  if (problems.length > 0) throw new Refusal(problems.slice(0, 100), problems.length);
  return rows;
}

async function numbered(reader: Reader, number: string): Promise<tables.OldTable> {
  const found = /^[1-9]\d{0,8}$/.test(number)
    ? await reader.maybe(tables.OldTable, { number: Number(number) })
    : undefined;
  if (found) return found;
  throw new Refusal({
    code: 'request.not-found',
    detail: `There is no table of old results "${shown(number)}" in this lab.`,
  });
}

async function tableAnswer(reader: Reader, table: tables.OldTable): Promise<OldTableAnswer> {
  const [listed] = await tablesAsListed(reader, [table]);
  if (!listed) throw new Error(`Table ${table.number} is not listed.`);
  const rows = await reader.find(tables.OldResult, { tableId: table.id }, { line: 'asc' });
  return { ...listed, results: resultsAsAnswered(rows) };
}
