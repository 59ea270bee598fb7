import { inUnit, percent } from '../../features/words.js';
import type { Finding } from '../finding.js';
import { type ChannelRecord, type Loaded, scaleOf } from './channel-record.js';

/** A converter of ten bits steps by 0.098 % of full scale; a coarser step hides what the method looks for. Common practice, no source. */
const COARSEST_STEP = 0.001;
/** Where readings step, at least so many stand still between two steps. */
const STANDING_SHARE = 0.2;
/** No chain of sensor, amplifier and converter is as quiet as this share of its full scale: 19 bits free of noise. Common practice, no source. */
const QUIETEST = 2e-6;
/** Third differences of independent readings have this many times their variance: 1 + 9 + 9 + 1. */
const THIRD_DIFFERENCE = 20;
/** Ratio of standard deviation to median absolute deviation in a normal population: 1 / Φ⁻¹(3/4). */
const NORMAL_RATIO = 1.482602218505602;
const FEWEST = 20;
/** Enough places of a long record to know its noise from. */
const PLACES = 20_000;

/** Are the steps of the channel fine enough to see in it what the method looks for? */
export function resolution(record: ChannelRecord, time: Float64Array, { from, last }: Loaded): Finding {
  const { channel, indicated, unit } = record;
  const named = { check: 'resolution', question: `Is ${channel} written finely enough?` };
  let [step, still] = [Number.POSITIVE_INFINITY, 0];
  for (let i = from + 1; i <= last; i++) {
    const change = Math.abs((indicated[i] as number) - (indicated[i - 1] as number));
    if (change === 0) still++;
    else if (change < step) step = change;
  }
  const share = step / scaleOf(record);
  if (
    last - from < FEWEST ||
    !Number.isFinite(step) ||
    share <= COARSEST_STEP ||
    still < STANDING_SHARE * (last - from)
  )
    return {
      check: {
        ...named,
        outcome: 'pass',
        finding: Number.isFinite(step)
          ? `Its smallest step is ${inUnit(unit)(step)}, ${percent(share)} of full scale.`
          : 'It shows no steps.',
      },
    };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `It moves in steps of ${inUnit(unit)(step)}, ${percent(share)} of full scale, and stands still between them; finer than ${percent(COARSEST_STEP)} is usual.`,
      action: 'Export with all digits, or use a finer range: what is smaller than a step cannot be seen.',
      place: { channel, from: time[from] as number, to: time[last] as number },
    },
    signal: 'signal.resolution',
  };
}

/**
 * Does the channel show the noise that every sensor has? The standard deviation of one reading is taken from the third
 * differences of neighbours, which a slow course leaves alone: σ = 1.4826 · median |Δ³| / √20.
 *
 * Rounding is noise here: a channel written coarsely passes, and is looked at by its steps.
 *
 * Common practice, no source, for the threshold; the estimate follows von Neumann, Kent, Bellinson and Hart (1941),
 * Annals of Mathematical Statistics 12, 153-162, who take it from first differences.
 */
export function smoothness(record: ChannelRecord, time: Float64Array, { from, last }: Loaded): Finding {
  const { channel, indicated, unit } = record;
  const named = { check: 'smoothness', question: `Does ${channel} show the noise that a sensor has?` };
  const stride = Math.max(1, Math.floor((last - from) / PLACES));
  const sizes: number[] = [];
  for (let i = from + 3; i <= last; i += stride) {
    const [a, b, c, d] = [indicated[i - 3], indicated[i - 2], indicated[i - 1], indicated[i]] as number[] as [
      number,
      number,
      number,
      number,
    ];
    // Readings that stand still are the work of the converter's steps, and say nothing of the noise below them.
    if (a !== b || b !== c || c !== d) sizes.push(Math.abs(d - 3 * c + 3 * b - a));
  }
  if (sizes.length < FEWEST)
    return {
      check: { ...named, outcome: 'pass', finding: 'It stands still too often for its noise to be seen.' },
    };
  sizes.sort((a, b) => a - b);
  const noise = (NORMAL_RATIO * (sizes[sizes.length >> 1] as number)) / Math.sqrt(THIRD_DIFFERENCE);
  const share = noise / scaleOf(record);
  if (share > QUIETEST)
    return {
      check: {
        ...named,
        outcome: 'pass',
        finding: `Its readings scatter by ${inUnit(unit)(noise)} about their own course, ${percent(share)} of full scale.`,
      },
    };
  return {
    check: {
      ...named,
      outcome: 'flag',
      finding: `Its readings scatter by less than ${inUnit(unit)(QUIETEST * scaleOf(record))} about their own course; no sensor is as quiet as that.`,
      action: 'Ask whether the logger smooths what it writes, and look for the original record.',
      place: { channel, from: time[from] as number, to: time[last] as number },
    },
    signal: 'signal.too-smooth',
  };
}
