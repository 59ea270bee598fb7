import { isNotEvaluated, type NotEvaluated, Refusal } from '@breakbook/lab';
import { type RawStore, Records, readWhole, tables } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { acceptance, reports } from '../arithmetic.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import type { PageOf } from '../records/kept.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { inSpool } from '../uploads/spool.js';
import { spoolRaw } from '../uploads/spool-raw.js';
import { Workers } from '../workers/workers.js';
import { judgedLot } from './judged-lot.js';
import { keptReadings } from './kept-readings.js';
import type { LotInList, LotSheet, LotsAsked, RunSheet } from './lot-answers.js';
import { storedLot } from './lot-bundle.js';
import { LotList } from './lot-list.js';

/** Lots as their last evaluation left them. */
@Injectable()
export class LotsService {
  readonly #list: LotList;

  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
  ) {
    this.#list = new LotList(store);
  }

  list(labId: string, asked: LotsAsked): Promise<PageOf<LotInList>> {
    return this.#list.page(this.records.read(labId), asked);
  }

  async sheet(labId: string, lotKey: string): Promise<LotSheet> {
    const reader = this.records.read(labId);
    const stored = await storedLot(reader, lotKey);
    const evaluation = (await lastEvaluations(reader, [stored.ids.lotId])).get(stored.ids.lotId);
    if (!evaluation) throw new Refusal({ code: 'state.conflict', detail: `Lot ${lotKey} is not evaluated yet.` });
    const judged = await judgedLot(reader, this.store, lotKey, evaluation);
    const readings = [...(await keptReadings(reader, stored)).values()];
    const { attemptsOf, planInWords } = await acceptance();
    const { marginStripOf, probabilityPlotOf, staircaseOf } = await reports();
    return {
      bundle: stored.bundle,
      lot: judged.lot,
      judgements: [...judged.judgements],
      readings,
      planInWords: planInWords(stored.bundle.plan, stored.bundle.limits),
      attempts: attemptsOf(judged.lot, stored.bundle.runs, judged.judgements),
      refusals: [],
      figures: judged.lot.lines.map(({ line }) => ({
        line,
        marginStrip: whereDrawn(marginStripOf(judged, line)),
        probabilityPlot: whereDrawn(probabilityPlotOf(judged, line)),
        strikes: whereDrawn(staircaseOf(judged, line)),
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
    const sheet = { run, specimen, reading, judgement };
    if (!method || channels.length === 0) return { ...sheet, trace: null };
    const { tracePlotOf } = await reports();
    return { ...sheet, trace: tracePlotOf({ run, method, reading, channels }) };
  }

  /** The report of the lot's last evaluation, as it was composed and kept. */
  async report(labId: string, lotKey: string): Promise<Uint8Array> {
    const reader = this.records.read(labId);
    const lot = await reader.named(tables.Lot, lotKey);
    const evaluation = (await lastEvaluations(reader, [lot.id])).get(lot.id);
    const [document] = evaluation
      ? (await reader.find(tables.Document, { evaluationId: evaluation.id })).slice(-1)
      : [];
    if (!document)
      throw new Refusal({ code: 'request.not-found', detail: `Lot ${lotKey} has no report yet. Evaluate it first.` });
    return readWhole(this.store, reader, document.rawId);
  }
}

function whereDrawn<Input>(input: Input | NotEvaluated | undefined): Input | null {
  return input === undefined || isNotEvaluated(input) ? null : (input as Input);
}
