import { type MarginStripInput, type WeibullPlotInput } from '@breakbook/figures';
import { isNotEvaluated, notEvaluated, type Reading, Refusal } from '@breakbook/lab';
import { type RawStore, type Reader, Records, readWhole, tables } from '@breakbook/records';
import { type JudgedLot, marginStripOf, tracePlotOf, weibullPlotOf } from '@breakbook/reports';
import { Inject, Injectable } from '@nestjs/common';
import { evaluatedRecords } from '../evaluations/evaluated-records.js';
import { type Kept, type PageOf } from '../records/kept.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { keptPage } from '../records/read-kind.js';
import { within } from '../records/within.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { Workers } from '../workers/workers.js';
import { type LotInList, type LotSheet, type LotsAsked, type RunSheet } from './lot-answers.js';
import { type StoredLot, storedLot } from './lot-bundle.js';
import { isClosed } from './lot-closing.js';
import { LOT, type LotRecord } from './lot-kind.js';

/** Lots as their last evaluation left them. */
@Injectable()
export class LotsService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
  ) {}

  /** A piece of the list of lots, each with what its last evaluation came to, where there is one. */
  async list(labId: string, { product, ...paging }: LotsAsked): Promise<PageOf<LotInList>> {
    const reader = this.records.read(labId);
    const page = await keptPage(reader, LOT, paging, await within(reader, tables.Product, 'product', product));
    const items = await Promise.all(page.items.map((kept) => this.inList(reader, kept)));
    return { ...page, items };
  }

  async sheet(labId: string, lotKey: string): Promise<LotSheet> {
    const reader = this.records.read(labId);
    const { stored, judged } = await this.judged(reader, lotKey);
    const readings = await this.readings(reader, stored);
    return {
      bundle: stored.bundle,
      lot: judged.lot,
      judgements: [...judged.judgements],
      readings,
      refusals: [],
      figures: judged.lot.lines.map(({ line }) => ({
        line,
        marginStrip: stripOf(judged, line),
        probabilityPlot: plotOf(judged, line),
      })),
    };
  }

  /** One run, with its record drawn from the kept bytes. */
  async run(labId: string, lotKey: string, runKey: string): Promise<RunSheet> {
    const reader = this.records.read(labId);
    const stored = await storedLot(reader, lotKey);
    const run = stored.bundle.runs.find((one) => one.run === runKey);
    const specimen = stored.bundle.specimens.find((one) => one.specimen === run?.specimen);
    if (!run || !specimen)
      throw new Refusal({ code: 'request.not-found', detail: `Lot ${lotKey} has no run ${runKey}.` });
    const { reading, judgement, channels } = await inSpool(async (folder) => {
      const kept = stored.ids.runs.get(runKey)?.files ?? [];
      const files = await spoolRaw({ store: this.store, reader, folder }, kept);
      return this.workers.run('evaluate run', { bundle: stored.bundle, run: runKey, files });
    });
    const method = stored.bundle.methods.find(
      (one) => one.method === run.method && one.revision === run.methodRevision,
    );
    const trace = method && channels.length > 0 ? tracePlotOf({ run, method, reading, channels }) : null;
    return { run, specimen, reading, judgement, trace };
  }

  /** The report of the lot's last evaluation, as it was composed and kept. */
  async report(labId: string, lotKey: string): Promise<Uint8Array> {
    const reader = this.records.read(labId);
    const lot = await reader.named(tables.Lot, lotKey);
    const [evaluation] = (await reader.find(tables.Evaluation, { lotId: lot.id })).slice(-1);
    const [document] = evaluation
      ? (await reader.find(tables.Document, { evaluationId: evaluation.id })).slice(-1)
      : [];
    if (!document)
      throw new Refusal({ code: 'request.not-found', detail: `Lot ${lotKey} has no report yet. Evaluate it first.` });
    return readWhole(this.store, reader, document.rawId);
  }

  private async inList(reader: Reader, { key, content }: Kept<LotRecord>): Promise<LotInList> {
    const noun = await reader.named(tables.Lot, key);
    const product = await reader.latest(tables.ProductVersion, noun.productId);
    return {
      lot: key,
      kind: content.kind,
      size: content.size,
      product: { product: product.content.product, name: product.content.name },
      closed: await isClosed(reader, noun.id),
      evaluation: await this.lastEvaluation(reader, noun),
    };
  }

  private async lastEvaluation(reader: Reader, lot: tables.Lot): Promise<LotInList['evaluation']> {
    if ((await reader.find(tables.Evaluation, { lotId: lot.id })).length === 0)
      return notEvaluated('this lot was never evaluated', 'runs of it are recorded, and it is evaluated');
    const { judged } = await this.judged(reader, lot.key);
    const { plan, outcome, sentence, lines } = judged.lot;
    const strip = lines[0] && stripOf(judged, lines[0].line);
    return { plan, outcome, sentence, ...(strip ? { strip } : {}) };
  }

  private async judged(reader: Reader, lotKey: string): Promise<{ stored: StoredLot; judged: JudgedLot }> {
    const stored = await storedLot(reader, lotKey);
    const [evaluation] = (await reader.find(tables.Evaluation, { lotId: stored.ids.lotId })).slice(-1);
    if (!evaluation) throw new Refusal({ code: 'state.conflict', detail: `Lot ${lotKey} is not evaluated yet.` });
    const inputs = await reader.find(tables.EvaluationInput, { evaluationId: evaluation.id });
    const sets = await Promise.all(inputs.map(({ verdictSetId }) => reader.one(tables.VerdictSet, verdictSetId)));
    return {
      stored,
      judged: {
        // As they stood when the lot was judged: what was added since is not in what was judged.
        bundle: (await evaluatedRecords(reader, this.store, evaluation)) ?? stored.bundle,
        lot: evaluation.content,
        judgements: sets.map(({ content }) => content),
      },
    };
  }

  private async readings(reader: Reader, { ids }: StoredLot): Promise<Reading[]> {
    const latest = await Promise.all(
      [...ids.runs.values()].map(async ({ runId }) => (await reader.find(tables.Reading, { runId })).at(-1)),
    );
    return latest.flatMap((reading) => (reading ? [reading.content] : []));
  }
}

function stripOf(judged: JudgedLot, line: string): MarginStripInput | null {
  const input = marginStripOf(judged, line);
  return isNotEvaluated(input) ? null : input;
}

function plotOf(judged: JudgedLot, line: string): WeibullPlotInput | null {
  const input = weibullPlotOf(judged, line);
  return isNotEvaluated(input) ? null : input;
}
