import type { LotEvaluation } from '@breakbook/acceptance';
import { traceOutline } from '@breakbook/signals';
import { lastPassage } from '../figures/trace-input.js';
import type { ReportTrace } from './lot-report-content.js';

type RecordedChannel = LotEvaluation['runs'][number]['traces'][number];

/** A trace drawn 170 mm wide shows no more than this many points a channel. */
const OUTLINE_BUCKETS = 500;

/** The record of a run thinned for its figure: of several passages the last. Undefined where nothing was recorded over time. */
export function traceOfRun(line: string, run: string, traces: readonly RecordedChannel[]): ReportTrace | undefined {
  if (traces.length === 0) return undefined;
  const passage = lastPassage(traces);
  return {
    line,
    run,
    ...(passage === undefined ? {} : { passage }),
    channels: traces.filter((one) => one.passage === passage).map(thinned),
  };
}

function thinned({ channel, unit, reference, ...record }: RecordedChannel): ReportTrace['channels'][number] {
  const { time, values } = traceOutline(record, OUTLINE_BUCKETS);
  return {
    channel,
    unit,
    ...(reference ? { reference } : {}),
    time: Array.from(time),
    values: Array.from(values),
  };
}
