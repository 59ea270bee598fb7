import { median } from 'simple-statistics';

/** How long a step must be to be a gap: in usual steps of the record, or in seconds. */
export type GapRule = { periods: number } | { seconds: number };

/** How the times of a record follow each other. */
export interface TimeSteps {
  /** Usual time between two samples, seconds: the median. */
  period: number;
  gaps: { /** Index of the sample after the gap. */ after: number; from: number; to: number }[];
  /** First place where the usual time between samples becomes another. */
  rateChange?: { index: number; period: number };
  /** Steps that are off by more than half a period, gaps left out; `index` is the first such place. */
  jitter: { count: number; worst: number; index: number };
  longest: number;
}

/** Steps looked at for the usual one; more would only cost time. */
const MOST_STEPS = 100_000;
const BLOCK = 64;
const RATE_SHARE = 0.1;
const JITTER_SHARE = 0.5;
/** Times are decimals: two periods may come out a little above twice one. */
const SLACK = 1.001;

/**
 * Is the record sampled evenly? A gap in periods is a step longer than that many usual ones; where the rate changes for
 * good, the usual step of that stretch counts. `time` is in seconds and increasing, with at least two samples.
 */
export function timeSteps(time: Float64Array, rule: GapRule): TimeSteps {
  const steps = time.length - 1;
  const stride = Math.max(1, Math.floor(steps / MOST_STEPS));
  const period = medianStep(time, 0, steps, stride);
  const result: TimeSteps = { period, gaps: [], jitter: { count: 0, worst: 0, index: 0 }, longest: 0 };

  for (let start = 0; start < steps; start += BLOCK) {
    const end = Math.min(start + BLOCK, steps);
    const local = end - start < BLOCK / 2 ? period : medianStep(time, start, end, 1);
    const other = Math.abs(local / period - 1) > RATE_SHARE;
    if (other && !result.rateChange) result.rateChange = { index: start + 1, period: local };
    const usual = other ? local : period;

    for (let i = start + 1; i <= end; i++) {
      const step = (time[i] as number) - (time[i - 1] as number);
      if (step > result.longest) result.longest = step;
      if (step > ('periods' in rule ? rule.periods * usual : rule.seconds) * SLACK)
        result.gaps.push({ after: i, from: time[i - 1] as number, to: time[i] as number });
      else {
        const off = Math.abs(step / usual - 1);
        if (off > JITTER_SHARE * SLACK) {
          if (result.jitter.count++ === 0) result.jitter.index = i;
          result.jitter.worst = Math.max(result.jitter.worst, off);
        }
      }
    }
  }
  return result;
}

function medianStep(time: Float64Array, from: number, to: number, stride: number): number {
  const steps: number[] = [];
  for (let i = from; i < to; i += stride) steps.push((time[i + 1] as number) - (time[i] as number));
  return median(steps);
}
