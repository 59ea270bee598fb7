import { type ImpactParameters, isNotEvaluated, type NotEvaluated } from '@breakbook/lab';
import { valueIn } from '@breakbook/units';
import type { TimeSteps } from '../files/time-steps.js';
import { indexOfLargest } from './failure.js';
import { type FlatTop, findFlatTop } from './flat-top.js';
import { lowPass } from './low-pass.js';
import { type Pulse, pulsesAbove } from './pulses.js';
import { type VentedZero, ventedZero } from './vented-zero.js';

/** The record of one strike: corrected, force in N, upward on the striker. */
export interface StrikeRecord {
  time: Float64Array;
  steps: TimeSteps;
  force: Float64Array;
  /** What sensor and amplifier can show, corrected like the readings; undefined where it is not known. */
  fullScale: number | undefined;
  /** Of the striker, mm, downward; undefined where it was not recorded. */
  displacement: Float64Array | undefined;
}

/** What the record of one strike shows. It knows no limit. */
export interface StrikeFeatures {
  record: StrikeRecord;
  zero: VentedZero | NotEvaluated;
  /** Force above the zero before contact: as recorded, and by the declared low-pass. */
  raw: Float64Array;
  filtered: Float64Array;
  /** A record sampled at no more than twice the cut-off cannot be filtered so; it then stands as recorded in both. */
  canBeFiltered: boolean;
  /** Contact is where the filtered force is above this, N. */
  threshold: number;
  /** The strike; undefined where no force rises above the noise. */
  contact: Contact | undefined;
  /** Force pulses after it, within the method's time. */
  second: Pulse | undefined;
}

export interface Contact {
  /** First and last sample of the contact, where the force stands at zero. */
  from: number;
  to: number;
  peak: { index: number; value: number };
  rawPeak: { index: number; value: number };
  /** First sudden fall of the force: the largest before it, and the sample at which it was lost. */
  onset: { index: number; value: number; lost: number } | undefined;
  flatTop: FlatTop | undefined;
  gap: TimeSteps['gaps'][number] | undefined;
  /** Does the force still act when the record ends? */
  recordEnded: boolean;
}

/** Samples at which a person says that contact begins and ends; what is left out is looked for. */
export interface StatedContact {
  from?: number;
  to?: number;
}

/** Readings this many standard deviations above the zero are no noise. */
const NOISE = 5;
/** A pulse below this share of the largest is no strike of its own. Common practice, no source. */
const STRIKE_SHARE = 0.05;
/** A fall is sudden within this share of the contact time: a half-sine loses 1 % of its peak in it. */
const SUDDEN_SHARE = 0.05;
/** Onset is looked for once the force has passed this share of its peak: below it the striker's own ringing is large. */
const ARMED_SHARE = 0.2;

/**
 * Reads the record of one strike by the method's parameters. The zero is the median of the record before contact. Contact
 * is where the filtered force exceeds the method's share of its peak and five standard deviations of the zero, walked out
 * to where it no longer falls towards zero.
 *
 * Common practice, no source; shares and times are the method's. The threshold follows ASTM D7136/D7136M in form.
 * Ends of the contact that a person stated stand in place of those looked for.
 */
export function strikeFeatures(
  record: StrikeRecord,
  parameters: ImpactParameters,
  stated: StatedContact = {},
): StrikeFeatures {
  const { time, steps } = record;
  const start = time[0] as number;
  const zero = ventedZero(time, record.force, start, start + valueIn(parameters.baseline, 's'));
  const { zero: offset, noise } = isNotEvaluated(zero) ? { zero: 0, noise: 0 } : zero;
  const raw = record.force.map((value) => value - offset);
  const cutoff = valueIn(parameters.lowPass, 'Hz');
  const canBeFiltered = cutoff * steps.period < 0.5;
  const filtered = canBeFiltered ? lowPass(raw, steps.period, cutoff) : raw;

  const largest = filtered[indexOfLargest(filtered)] as number;
  const threshold = Math.max(parameters.contactShare * largest, NOISE * noise);
  const pulses = pulsesAbove(time, filtered, threshold).filter(({ peak }) => peak.value >= STRIKE_SHARE * largest);
  const [strike, ...after] = pulses;
  const window = valueIn(parameters.secondStrike, 's');
  const found = strike && { peak: strike.peak, ...ends(raw, filtered, strike, threshold) };
  const from = stated.from ?? found?.from;
  const to = stated.to ?? found?.to;
  const contact =
    from === undefined || to === undefined || from >= to
      ? undefined
      : contactOf(record, raw, filtered, {
          from,
          to,
          peak: found?.from === from && found.to === to ? found.peak : largestIn(filtered, from, to),
          onsetFall: parameters.onsetFall,
          offset,
        });
  return {
    record,
    zero,
    raw,
    filtered,
    canBeFiltered,
    threshold,
    contact,
    second:
      strike &&
      after.find(
        ({ first, peak }) =>
          (time[first] as number) - (time[strike.last] as number) <= window && !(contact && peak.index <= contact.to),
      ),
  };
}

function contactOf(
  { time, steps, fullScale }: StrikeRecord,
  raw: Float64Array,
  filtered: Float64Array,
  { from, to, peak, onsetFall, offset }: Pick<Contact, 'from' | 'to' | 'peak'> & { onsetFall: number; offset: number },
): Contact {
  const rawIndex = from + indexOfLargest(raw.subarray(from, to + 1));
  const duration = (time[to] as number) - (time[from] as number);
  const top = findFlatTop(
    time,
    raw,
    raw[rawIndex] as number,
    { from, to: to + 1 },
    fullScale === undefined ? undefined : fullScale - offset,
  );
  // The rounded top of a pulse may give some equal readings by itself; below full scale only a long stretch is none.
  const flatTop = top && (top.at === 'full scale' || top.to - top.from >= SUDDEN_SHARE * duration) ? top : undefined;
  return {
    from,
    to,
    peak,
    rawPeak: { index: rawIndex, value: raw[rawIndex] as number },
    onset: onsetOf(time, filtered, { from, to }, peak.value, onsetFall, SUDDEN_SHARE * duration),
    flatTop,
    gap: steps.gaps.find(({ after }) => after > from && after <= to),
    recordEnded: to === raw.length - 1,
  };
}

function largestIn(filtered: Float64Array, from: number, to: number): Contact['peak'] {
  const index = from + indexOfLargest(filtered.subarray(from, to + 1));
  return { index, value: filtered[index] as number };
}

/** First and last sample of a contact whose filtered force is above the threshold from `first` to `last`. */
function ends(
  raw: Float64Array,
  filtered: Float64Array,
  { first, last }: { first: number; last: number },
  threshold: number,
): { from: number; to: number } {
  let [begins, ended] = [first, last];
  while (
    begins > 0 &&
    (filtered[begins] as number) > 0 &&
    (filtered[begins - 1] as number) < (filtered[begins] as number)
  )
    begins--;
  while (
    ended + 1 < raw.length &&
    (filtered[ended] as number) > 0 &&
    (filtered[ended + 1] as number) < (filtered[ended] as number)
  )
    ended++;

  let [from, to] = [begins, ended];
  while (from < last && (raw[from] as number) <= threshold) from++;
  while (from > begins && (raw[from] as number) > 0) from--;
  while (to > first && (raw[to] as number) <= threshold) to--;
  while (to < ended && (raw[to] as number) > 0) to++;
  return from < to ? { from, to } : { from: begins, to: ended };
}

/** The first place at which the force loses a share of its running maximum at once. */
function onsetOf(
  time: Float64Array,
  filtered: Float64Array,
  { from, to }: { from: number; to: number },
  peak: number,
  fall: number,
  within: number,
): Contact['onset'] {
  let top = from;
  for (let i = from; i <= to; i++) {
    const [value, largest] = [filtered[i] as number, filtered[top] as number];
    if (value >= largest) top = i;
    else if (
      largest >= ARMED_SHARE * peak &&
      largest - value >= fall * largest &&
      (time[i] as number) - (time[top] as number) <= within
    )
      return { index: top, value: largest, lost: i };
  }
  return undefined;
}
