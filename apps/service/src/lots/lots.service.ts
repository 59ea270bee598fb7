import { type EvaluatedRun } from '@breakbook/acceptance';
import { type MarginStripInput, type TracePlotInput, type WeibullPlotInput } from '@breakbook/figures';
import {
  isNotEvaluated,
  type LotBundle,
  type LotResult,
  type Problem,
  type Reading,
  Refusal,
  type RunJudgement,
  type Specimen,
} from '@breakbook/lab';
import { type RawStore, type Reader, Records, readWhole, tables } from '@breakbook/records';
import { type JudgedLot, marginStripOf, tracePlotOf, weibullPlotOf } from '@breakbook/reports';
import { traceOutline } from '@breakbook/signals';
import { Inject, Injectable } from '@nestjs/common';
import { evaluateStoredRun } from '../evaluations/evaluate-stored-lot.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import { type StoredLot, storedLot } from './lot-bundle.js';

export interface LotInList {
  lot: string;
  kind: LotBundle['lot']['kind'];
  size: number;
  product: { product: string; name: string };
  plan: { plan: string; revision: number };
  outcome: LotResult['outcome'];
  sentence: string;
  strip: MarginStripInput | null;
}

export interface LotSheet {
  bundle: LotBundle;
  lot: LotResult;
  judgements: RunJudgement[];
  readings: Reading[];
  refusals: { run: string; problems: Problem[] }[];
  /** What each figure shows; whoever shows it draws it, for its width and in its reader's unit. */
  figures: { line: string; marginStrip: MarginStripInput | null; probabilityPlot: WeibullPlotInput | null }[];
}

export interface RunSheet {
  run: LotBundle['runs'][number];
  specimen: Specimen;
  reading: Reading;
  judgement: RunJudgement;
  trace: TracePlotInput | null;
}

/** A trace of a screen's width shows no more points than this. */
const OUTLINE_BUCKETS = 600;

/** Lots as their last evaluation left them. */
@Injectable()
export class LotsService {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
  ) {}

  async list(labId: string): Promise<LotInList[]> {
    const reader = this.records.read(labId);
    const lots = await reader.find(tables.Lot, {});
    const sheets = await Promise.all(lots.map(({ key }) => this.judged(reader, key)));
    return sheets.map(({ stored, judged }) => {
      const { lot, product } = stored.bundle;
      const [line] = judged.lot.lines;
      return {
        lot: lot.lot,
        kind: lot.kind,
        size: lot.size,
        product: { product: product.product, name: product.name },
        plan: judged.lot.plan,
        outcome: judged.lot.outcome,
        sentence: judged.lot.sentence,
        strip: line ? stripOf(judged, line.line) : null,
      };
    });
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
    const evaluated = await evaluateStoredRun(reader, this.store, stored, runKey);
    const specimen = stored.bundle.specimens.find((one) => one.specimen === evaluated.run.specimen);
    if (!specimen)
      throw new Refusal({ code: 'request.not-found', detail: `Run ${runKey} has no specimen in lot ${lotKey}.` });
    return {
      run: evaluated.run,
      specimen,
      reading: evaluated.reading,
      judgement: evaluated.judgement,
      trace: traceOf(stored.bundle, evaluated),
    };
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

  private async judged(reader: Reader, lotKey: string): Promise<{ stored: StoredLot; judged: JudgedLot }> {
    const stored = await storedLot(reader, lotKey);
    const [evaluation] = (await reader.find(tables.Evaluation, { lotId: stored.ids.lotId })).slice(-1);
    if (!evaluation) throw new Refusal({ code: 'state.conflict', detail: `Lot ${lotKey} is not evaluated yet.` });
    const inputs = await reader.find(tables.EvaluationInput, { evaluationId: evaluation.id });
    const sets = await Promise.all(inputs.map(({ verdictSetId }) => reader.one(tables.VerdictSet, verdictSetId)));
    return {
      stored,
      judged: { bundle: stored.bundle, lot: evaluation.content, judgements: sets.map(({ content }) => content) },
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

function traceOf(bundle: LotBundle, { run, reading, traces }: EvaluatedRun): TracePlotInput | null {
  const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  if (!method || traces.length === 0) return null;
  const channels = traces.map((trace) => {
    const { time, values } = traceOutline(trace, OUTLINE_BUCKETS);
    return {
      channel: trace.channel,
      unit: trace.unit,
      ...(trace.reference ? { reference: trace.reference } : {}),
      // JSON has no typed arrays.
      time: Array.from(time),
      values: Array.from(values),
    };
  });
  return tracePlotOf({ run, method, reading, channels });
}
