import { digestOf } from '@breakbook/evidence';
import { Refusal, SOFTWARE, shown } from '@breakbook/lab';
import { type RawStore, type Reader, Records } from '@breakbook/records';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { signals } from '../../arithmetic.js';
import { parameterProblem } from '../../http/queried-by.js';
import { RAW_STORE } from '../../records/raw-store.token.js';
import { inSpool } from '../../uploads/spool.js';
import { spoolRaw } from '../../uploads/spool-raw.js';
import { Workers } from '../../workers/workers.js';
import { runToRead } from '../record-run.js';
import { runContext } from '../run-context.js';
import { type RunRecord, runRecord } from '../run-record.js';
import type { RecordTable } from './record-table.js';
import { blocksOfStored, keepTraces, type StoredTrace, storedTraces } from './stored-traces.js';
import type { ChannelOfRun, ChannelsAsked, WindowAsked, WindowOfChannel } from './trace-forms.js';

/** Points of a window where nobody says how many. */
const POINTS = 2000;

/** The channels of runs, stored in blocks: worked out once from the raw files, and again where what they rest on changed. */
@Injectable()
export class TracesService {
  /** Runs being read at this moment, by what they are read from: who asks meanwhile waits for the same. */
  readonly #underWay = new Map<string, Promise<StoredTrace[]>>();

  constructor(
    private readonly records: Records,
    private readonly dataSource: DataSource,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
  ) {}

  async channels(labId: string, runKey: string): Promise<ChannelOfRun[]> {
    const { reader, traces } = await this.#traces(labId, runKey);
    return Promise.all(
      traces.map(async (trace) => {
        const { spans } = await blocksOfStored(reader, trace);
        const { channel, unit, reference, passage, samples } = trace;
        return {
          channel,
          unit,
          ...(reference ? { reference } : {}),
          ...(passage === undefined ? {} : { passage }),
          samples,
          from: spans[0]?.from ?? 0,
          to: spans.at(-1)?.to ?? 0,
        };
      }),
    );
  }

  /** Part of one channel, drawn from no more points than asked for and without losing a peak. */
  async window(labId: string, runKey: string, channel: string, asked: WindowAsked): Promise<WindowOfChannel> {
    const { reader, traces } = await this.#traces(labId, runKey);
    const trace = oneOf(
      traces.filter((one) => one.channel === channel),
      asked.passage,
      `channel "${shown(channel)}" of run ${runKey}`,
    );
    const source = await blocksOfStored(reader, trace);
    const { from = source.spans[0]?.from ?? 0, to = source.spans.at(-1)?.to ?? 0, points = POINTS } = asked;
    if (from > to) throw new Refusal(parameterProblem('from', `must not be greater than to (${to}).`, `${from}`));
    const { traceWindow } = await signals();
    const { time, values, samples, whole } = await traceWindow(source, { from, to, points });
    const { unit, reference, passage } = trace;
    return {
      channel,
      unit,
      ...(reference ? { reference } : {}),
      ...(passage === undefined ? {} : { passage }),
      from,
      to,
      samples,
      whole,
      time: Array.from(time),
      values: Array.from(values),
    };
  }

  /** The channels of one record that share its clock: the table that an export is. */
  async table(labId: string, runKey: string, { passage }: ChannelsAsked): Promise<RecordTable> {
    const { reader, record, traces } = await this.#traces(labId, runKey);
    const passages = [...new Set(traces.map((one) => one.passage))];
    const first = oneOf(
      passages.flatMap((one) => traces.find((trace) => trace.passage === one) ?? []),
      passage,
      `record of run ${runKey}`,
    );
    return {
      reader,
      record,
      traces: traces.filter((one) => one.passage === first.passage && one.clock === first.clock),
    };
  }

  async #traces(labId: string, runKey: string): Promise<{ reader: Reader; record: RunRecord; traces: StoredTrace[] }> {
    const reader = this.records.read(labId);
    const record = await runRecord(reader, runKey);
    const { validity: _validity, ...run } = record.run;
    const context = await runContext(reader, { ...run, plan: record.plan });
    const input = runToRead(context, run, []);
    const source = digestOf({ software: SOFTWARE, ...input });
    const kept = await storedTraces(reader, record.noun.id, source);
    if (kept) return { reader, record, traces: kept };

    const underWay = this.#underWay.get(source) ?? this.#workOut(reader, record, input, source);
    this.#underWay.set(source, underWay);
    try {
      return { reader, record, traces: await underWay };
    } finally {
      this.#underWay.delete(source);
    }
  }

  async #workOut(
    reader: Reader,
    { noun, files }: RunRecord,
    input: ReturnType<typeof runToRead>,
    source: string,
  ): Promise<StoredTrace[]> {
    const packed = await inSpool(async (folder) => {
      const spooled = await spoolRaw({ store: this.store, reader, folder }, files);
      return this.workers.run('pack traces', { ...input, files: spooled });
    });
    await this.dataSource.transaction((manager) =>
      keepTraces(manager, { labId: reader.labId, runId: noun.id, source }, packed),
    );
    return (await storedTraces(reader, noun.id, source)) ?? [];
  }
}

/** The one of this passage; where none is named, the only one there is. */
function oneOf(traces: readonly StoredTrace[], passage: number | undefined, what: string): StoredTrace {
  const found = passage === undefined ? traces : traces.filter((one) => one.passage === passage);
  const [first] = found;
  if (!first)
    throw new Refusal({
      code: 'request.not-found',
      detail: `There is no ${what}${passage === undefined ? '' : ` in passage ${passage}`}.`,
      action: 'Ask for the channels of the run to see which there are.',
    });
  if (found.length === 1) return first;
  const passages = found.map((one) => one.passage).join(', ');
  throw new Refusal(parameterProblem('passage', `is needed: the run has several (${passages}).`));
}
